"""Answers that workers share: whoever finds one finds the right one, whatever others write or die over meanwhile."""

from __future__ import annotations

import fcntl
import os
import re
import signal
import struct
from collections.abc import Iterator
from contextlib import closing

import pytest
import requests
from borewright.api.response_cache import Answer, Question
from borewright.api.shared_answers import SharedAnswers, among_workers
from hypothesis import given
from hypothesis import strategies as st

HOLE = {"thread": "M10x1.5-6H", "hole": {"type": "blind", "full_thread_depth": "21 mm"}, "material": "304"}
SIZE = 8192
ANSWER = Answer("ready", (b'"verdict":"ready"', b"limits of M8", b"}"))


def asked(number: int) -> Question:
    return Question("hole-spec", b"", b"%d" % number)


@pytest.fixture
def shared() -> Iterator[SharedAnswers]:
    with closing(SharedAnswers(SIZE)) as ring:
        yield ring


def in_another_process(work) -> bool:
    """Whether a process that was made of this one says yes."""
    child = os.fork()
    if not child:
        os._exit(0 if work() else 1)
    return os.waitpid(child, 0)[1] == 0


def test_what_one_process_made_another_one_finds(shared):
    assert shared.get(asked(1)) is None
    assert in_another_process(lambda: shared.keep(asked(1), ANSWER) is None)
    assert shared.get(asked(1)) == ANSWER
    assert shared.get(asked(2)) is None
    assert in_another_process(lambda: shared.get(asked(1)) == ANSWER)


def test_a_question_is_its_job_its_defaults_and_its_bytes(shared):
    shared.keep(Question("hole-spec", b"ab", b"c"), ANSWER)
    assert shared.get(Question("hole-spec", b"ab", b"c")) == ANSWER
    for other in (
        Question("hole-spec", b"a", b"bc"),
        Question("hole-specab", b"", b"c"),
        Question("drill", b"ab", b"c"),
    ):
        assert shared.get(other) is None, other


STEPS = st.lists(st.tuples(st.integers(0, 40), st.binary(max_size=900), st.booleans()), max_size=120)


@given(STEPS)
def test_the_newest_are_found_and_none_is_another(steps):
    """Two that write and look up in turns: what is found is what was kept last for the question; the last is found."""
    with closing(SharedAnswers(SIZE)) as ring:
        kept: dict[int, Answer] = {}
        for number, piece, look in steps:
            answer = Answer("ready", (piece, b"of all", b"%d" % number))
            ring.keep(asked(number), answer)
            kept[number] = answer
            if look:
                assert ring.get(asked(number)) == answer
                for other, expected in kept.items():
                    assert ring.get(asked(other)) in (None, expected)


def test_the_oldest_make_room(shared):
    """40 bytes of head, 2 + 4 x 2 of lengths, 5 of the verdict and 545: thirteen such answers of 600 bytes fit."""
    for number in range(100):
        shared.keep(asked(number), Answer("ready", (b"%545d" % number,)))
        assert shared.get(asked(number)) is not None
    assert [number for number in range(100) if shared.get(asked(number))] == list(range(87, 100))


def test_who_did_not_look_for_long_begins_anew(shared):
    for number in range(100):
        shared.keep(asked(number), Answer("ready", (b"%545d" % number,)))
    assert shared.get(asked(99)) is None, "more than the ring holds was written since the last look"
    shared.keep(asked(100), ANSWER)
    assert shared.get(asked(100)) == ANSWER


def test_an_answer_that_is_large_beside_the_ring_is_not_shared(shared):
    """An eighth of it, 1,024 bytes with 40 of head, 2 + 4 x 2 of lengths, 5 of the verdict."""
    for size, found in ((1024 - 55, True), (1024 - 54, False)):
        question = asked(size)
        shared.keep(question, Answer("ready", (b"x" * size,)))
        assert (shared.get(question) is not None) is found, size


def test_nobody_waits_for_one_that_writes(shared):
    """A process that stands still while it writes: others answer without adding theirs, and go on when it is gone."""
    ready, stop = os.pipe()
    child = os.fork()
    if not child:
        fcntl.lockf(shared._file, fcntl.LOCK_EX)
        os.write(stop, b"!")
        signal.pause()
    os.read(ready, 1)
    shared.keep(asked(1), ANSWER)
    assert shared.get(asked(1)) is None
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    shared.keep(asked(1), ANSWER)
    assert shared.get(asked(1)) == ANSWER


def test_over_what_a_killed_process_wrote_in_part_no_answer_is_found(shared):
    """It had said how far it would write, and wrote over the oldest ones; the next one that writes begins there."""
    for number in range(13):
        shared.keep(asked(number), Answer("ready", (b"%545d" % number,)))
        shared.get(asked(number))
    begun, ended = struct.unpack("<QQ", shared._memory[:16])
    shared._memory[:16] = struct.pack("<QQ", begun + 1000, ended)
    at = 16 + ended % SIZE
    rest = SIZE - ended % SIZE
    shared._memory[at : at + rest] = b"?" * rest
    shared._memory[16 : 16 + 1000 - rest] = b"?" * (1000 - rest)
    assert [number for number in range(13) if shared.get(asked(number))] == list(range(2, 13))
    shared.keep(asked(13), ANSWER)
    assert shared.get(asked(13)) == ANSWER
    assert [number for number in range(13) if shared.get(asked(number))] == list(range(2, 13))


def test_an_answer_of_which_a_bit_turned_is_not_found(shared):
    shared.keep(asked(1), ANSWER)
    assert shared.get(asked(1)) == ANSWER
    shared._memory[80] ^= 1
    assert shared.get(asked(1)) is None


@pytest.mark.parametrize(("most_bytes", "workers", "shares"), [(65536, 2, True), (0, 2, False), (65536, 1, False)])
def test_one_worker_and_none_to_share_take_no_memory(most_bytes, workers, shares):
    made = among_workers(most_bytes, workers)
    assert (made is not None) is shares
    if made is not None:
        made.close()


def test_workers_share_nothing_where_the_system_has_no_room(monkeypatch, caplog):
    """More addresses than a process can have; the service starts without."""
    assert among_workers(1 << 62, 2) is None
    assert "workers share no answers" in caplog.text


def test_a_hole_is_made_once_whichever_worker_is_asked(processes):
    """Also after one of two workers was killed: the one that takes its place finds what was made before."""
    port = processes.free_port()
    service = processes.start(port)
    url = f"http://127.0.0.1:{port}"
    try:
        bodies = {_ask(url, f"KRP-2210-{number}") for number in range(40)}
        assert len(bodies) == 1
        assert _hits(url) == 39
        first, _ = processes.workers(service)
        os.kill(first, signal.SIGKILL)
        for number in range(40):
            _wait_and_ask(url, f"KRP-2211-{number}", bodies)
        assert _hits(url) == 79
    finally:
        assert processes.stop(service) == 0


def _ask(url: str, name: str) -> bytes:
    """The reply without its id, over a connection of its own: the kernel chooses the worker."""
    reply = requests.post(f"{url}/v1/hole-specs", json={"id": name, **HOLE}, timeout=10)
    assert reply.status_code == 200
    return reply.content.replace(name.encode(), b"")


def _wait_and_ask(url: str, name: str, bodies: set[bytes]) -> None:
    for _ in range(50):
        try:
            assert _ask(url, name) in bodies
            return
        except (requests.ConnectionError, TimeoutError):
            continue
    raise AssertionError("no answer")


def _hits(url: str) -> float:
    figures = requests.get(f"{url}/metrics", timeout=10).text
    (found,) = re.findall(r'borewright_cache_hits_total\{kind="single"\} (\S+)', figures)
    return float(found)
