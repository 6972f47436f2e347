"""Uploads that are taken in while their answers wait: nothing lost, nothing passes another, memory and disk bounded."""

from __future__ import annotations

import http.client
import json
import tempfile
import threading
import time
from pathlib import Path

import pytest
from borewright.api.batch import intake
from borewright.api.batch.intake import MEMORY, Intake
from borewright.api.batch.lines import Broken
from hypothesis import given, settings
from hypothesis import strategies as st

BLOCKS = [bytes([number]) * 65_536 for number in range(64)]


def taken(blocks, *, most_waiting=2**30):
    return Intake(iter(blocks), most_waiting=most_waiting, hang_up=lambda: None)


@settings(max_examples=60)
@given(st.lists(st.binary(min_size=1, max_size=40), max_size=30))
def test_all_blocks_come_in_order(blocks):
    assert list(taken(blocks)) == blocks


@pytest.fixture
def impatient(monkeypatch):
    monkeypatch.setattr(intake, "_PATIENCE_S", 0.01)


def test_what_nobody_wants_yet_waits_in_a_file(impatient):
    """All blocks are received though only the first was asked for, and then they come whole and in order."""
    received = threading.Event()

    def source():
        yield from BLOCKS
        received.set()

    blocks = iter(taken(source()))
    found = [next(blocks)]
    assert received.wait(10)
    assert b"".join([*found, *blocks]) == b"".join(BLOCKS)


def test_the_first_block_is_given_when_all_are_here():
    """A balancer may hand on no more of a request whose answer has begun."""
    ended = threading.Event()

    def source():
        for block in BLOCKS:
            time.sleep(0.001)
            yield block
        ended.set()

    blocks = iter(taken(source()))
    first = next(blocks)
    assert ended.is_set()
    assert first + b"".join(blocks) == b"".join(BLOCKS)


def test_a_sender_that_waits_for_its_first_answer_gets_it():
    asked = threading.Event()

    def source():
        yield b"one"
        assert asked.wait(10)
        yield b"two"

    blocks = iter(taken(source()))
    assert next(blocks) == b"one"
    asked.set()
    assert next(blocks) == b"two"


def test_no_more_is_received_than_may_wait(impatient):
    """Memory, file and the block in hand: beyond them the sender has to wait."""
    count = 0

    def source():
        nonlocal count
        for count, block in enumerate(BLOCKS, 1):  # noqa: B007 - read from outside
            yield block

    most = 4 * 65_536
    blocks = iter(taken(source(), most_waiting=most))
    first = next(blocks)
    threading.Event().wait(0.5)
    assert count * 65_536 <= MEMORY + most + 3 * 65_536
    assert first + b"".join(blocks) == b"".join(BLOCKS)


def test_a_full_disk_makes_the_sender_wait(impatient, monkeypatch):
    class Full:
        def fileno(self):
            return 2

        def seek(self, place):
            return place

        def write(self, block):
            raise OSError(28, "No space left on device")

        def close(self):
            pass

    monkeypatch.setattr(tempfile, "TemporaryFile", lambda **_: Full())
    blocks = iter(taken(BLOCKS))
    first = next(blocks)
    threading.Event().wait(0.2)
    assert first + b"".join(blocks) == b"".join(BLOCKS)


def test_where_no_thread_can_be_made_blocks_come_as_they_are_wanted(monkeypatch):
    def none_left(_):
        raise RuntimeError("can't start new thread")

    monkeypatch.setattr(threading.Thread, "start", none_left)
    assert list(taken(BLOCKS)) == BLOCKS


def test_what_breaks_off_is_told_after_what_came():
    def source():
        yield b"one"
        yield b"two"
        raise Broken("the upload broke off after 6 bytes")

    blocks = iter(taken(source()))
    assert [next(blocks), next(blocks)] == [b"one", b"two"]
    with pytest.raises(Broken, match="after 6 bytes"):
        next(blocks)


def test_an_upload_that_is_left_hangs_up(monkeypatch):
    """A sender that neither sends nor ends is hung up on, and its thread ends."""
    monkeypatch.setattr(intake, "_DROP_S", 0.05)
    ended = threading.Event()

    def source():
        yield b"one"
        assert ended.wait(10)

    before = threading.active_count()
    blocks = iter(Intake(source(), most_waiting=0, hang_up=ended.set))
    assert next(blocks) == b"one"
    blocks.close()
    assert ended.is_set()
    until = time.monotonic() + 10
    while threading.active_count() > before:
        assert time.monotonic() < until
        time.sleep(0.01)


def test_a_client_may_send_all_before_it_reads(processes):
    """Ten MB of holes on one connection, not a byte of their answers read before the last is sent."""
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_WORKERS="1")
    worker = Path(f"/proc/{service.pid}/task/{service.pid}/children").read_text("ascii").split()[0]
    count, length = 15_000, 720
    line = {"thread": "M8", "hole": {"type": "through", "thickness": 12}, "material": "4140"}
    body = b"".join(json.dumps({"id": f"KRP-{n % 50}", **line}).encode().ljust(length) + b"\n" for n in range(count))
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    try:
        connection.request(
            "POST", "/v1/hole-specs/batch", body[: length * 100], {"Content-Type": "application/x-ndjson"}
        )
        connection.getresponse().read()
        before = peak_mib(worker)
        connection.request("POST", "/v1/hole-specs/batch", body, {"Content-Type": "application/x-ndjson"})
        answer = connection.getresponse()
        for number in range(count):
            start = answer.readline()[:60]
            assert start.startswith(b'{"index":%d,"id":"KRP-%d","status":"ok"' % (number, number % 50))
        assert answer.read() == b""
        assert peak_mib(worker) - before < 32
    finally:
        connection.close()
        processes.stop(service)


def peak_mib(process: str) -> float:
    """The most memory that a process held."""
    status = Path(f"/proc/{process}/status").read_text("ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1024
