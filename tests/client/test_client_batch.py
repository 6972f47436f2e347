"""Batches through the client: lazily, in order, and without loss where connections break."""

from __future__ import annotations

import json
import socket
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from itertools import count, islice
from typing import Any

import pytest
from borewright_client import Client, NoAnswer, RequestRefused


def hole(number: int) -> dict:
    return {"id": f"KRP-{number}", "thread": "M8", "hole": {"type": "through", "thickness": 12}}


@pytest.fixture
def client(service_url) -> Iterator[Client]:
    with Client(service_url) as opened:
        yield opened


def test_results_come_in_order_over_slices(client):
    found = list(client.batch((hole(n) for n in range(25)), slice_size=10))
    assert [(result["index"], result["id"], result["status"]) for result in found] == [
        (n, f"KRP-{n}", "ok") for n in range(25)
    ]
    alone = client.hole_spec(hole(3))
    assert found[3]["spec"] == alone


def test_an_endless_iterable_is_taken_lazily(client):
    taken = count()
    found = islice(client.batch((hole(next(taken)) for _ in count()), slice_size=5), 7)
    assert [result["id"] for result in found] == [f"KRP-{n}" for n in range(7)]
    assert next(taken) == 10


def test_defaults_and_bad_items(client):
    items = [{"thread": "M8"}, {"thread": "1/4-2O UNC"}]
    found = list(client.batch(items, defaults={"hole": {"type": "through", "thickness": "12 mm"}}))
    assert [result["status"] for result in found] == ["ok", "error"]
    assert found[1]["problem"]["errors"][0]["pointer"] == "/thread"


def test_no_bar_in_a_pipe(client, capsys):
    assert len(list(client.batch([hole(1)], progress=True))) == 1
    assert capsys.readouterr().err == ""


def test_bar_on_a_terminal(monkeypatch, capsys):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.setattr(Client, "_lines", lambda _, call: iter([b'{"index":0}'] * call.body.count(b"\n")))
    found = list(Client("http://nowhere").batch([hole(1), hole(2)], progress=True))
    assert [result["index"] for result in found] == [0, 1]
    assert "2/2" in capsys.readouterr().err


def test_slices_must_hold_something(client):
    with pytest.raises(ValueError, match="slice_size"):
        list(client.batch([hole(1)], slice_size=0))


@contextmanager
def breaking_relay(service_url: str, breaks: int, after: int) -> Iterator[str]:
    """A relay before the service that cuts the first ``breaks`` connections after some bytes of the answer."""
    host, port = service_url.removeprefix("http://").split(":")
    listening = socket.create_server(("127.0.0.1", 0))
    left, sockets, threads = [breaks], [], []

    def copy(source: socket.socket, target: socket.socket, most: int | None) -> None:
        sent = 0
        try:
            while block := source.recv(65536):
                if most is not None and sent + len(block) > most:
                    target.sendall(block[: most - sent])
                    break
                target.sendall(block)
                sent += len(block)
        except OSError:
            pass
        for end in (source, target):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def serve() -> None:
        while True:
            try:
                near, _ = listening.accept()
            except OSError:
                return
            far = socket.create_connection((host, int(port)))
            most = after if left[0] > 0 else None
            left[0] -= 1
            sockets.extend((near, far))
            for way in ((near, far, None), (far, near, most)):
                threads.append(threading.Thread(target=copy, args=way, daemon=True))
                threads[-1].start()

    threads.append(threading.Thread(target=serve, daemon=True))
    threads[0].start()
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    finally:
        listening.shutdown(socket.SHUT_RDWR)
        for end in sockets:
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
        for thread in threads:
            thread.join(5)
        for end in (listening, *sockets):
            end.close()


@pytest.mark.parametrize("after", [0, 10, 5_000, 60_000, 400_000])
def test_broken_connections_lose_and_repeat_nothing(service_url, after):
    with breaking_relay(service_url, breaks=3, after=after) as url, Client(url) as client:
        found = list(client.batch((hole(n) for n in range(60)), slice_size=40))
    assert [(result["index"], result["id"]) for result in found] == [(n, f"KRP-{n}") for n in range(60)]


def test_a_service_that_never_answers_is_given_up(monkeypatch):
    monkeypatch.setattr("borewright_client.client.time.sleep", lambda seconds: None)
    asked: list[bytes] = []

    def nothing(_: Client, call: Any) -> Iterator[bytes]:
        asked.append(call.body)
        return iter(())

    monkeypatch.setattr(Client, "_lines", nothing)
    with pytest.raises(NoAnswer, match="0 of 1"):
        list(Client("http://nowhere").batch([hole(1)]))
    assert 2 <= len(asked) <= 10


def test_refusals_are_not_asked_again(monkeypatch):
    problem = {"status": 413, "code": "batch_too_large"}
    answer = json.dumps({"index": 0, "problem": problem}).encode()
    monkeypatch.setattr(Client, "_lines", lambda _, call: iter([answer]))
    with pytest.raises(RequestRefused):
        list(Client("http://nowhere").batch([hole(1)]))


def test_the_rest_of_a_request_whose_time_is_over_is_another_one(monkeypatch):
    """Each answer ends behind two items; nothing is lost, and an item that is too much by itself is told so."""
    monkeypatch.setattr("borewright_client.client.time.sleep", lambda seconds: None)
    over = {"id": None, "status": "error", "problem": {"status": 413, "code": "too_much_work"}}
    asked: list[list[str]] = []

    def two_at_a_time(_: Client, call: Any) -> Iterator[bytes]:
        names = [json.loads(line)["id"] for line in call.body.splitlines()]
        asked.append(names)
        found = [over if name == "KRP-4" else {"id": name, "status": "ok", "spec": {}} for name in names[:2]]
        return (json.dumps(one).encode() for one in [*found, over][: len(names)])

    monkeypatch.setattr(Client, "_lines", two_at_a_time)
    found = list(Client("http://nowhere").batch(hole(n) for n in range(6)))
    assert [one["id"] for one in found] == ["KRP-0", "KRP-1", "KRP-2", "KRP-3", None, "KRP-5"]
    assert [one["index"] for one in found] == [0, 1, 2, 3, 4, 5]
    assert [len(names) for names in asked] == [6, 4, 2]
