"""A hole, and what balancers ask, wait for no thread: they are answered while all threads work, in order, in full."""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import BinaryIO
from urllib.parse import urlsplit

import pytest
import requests

THREADS = ("1/4-20 UNC-2B", "5/16-18 UNC-2B", "3/8-16 UNC-2B", "1/2-13 UNC-2B", "5/8-11 UNC-2B", "M6-6H", "M8-6H")


def hole(name: str, thread: str = "M8-6H", thickness: float = 12) -> dict[str, object]:
    return {"id": name, "thread": thread, "hole": {"type": "through", "thickness": f"{thickness:.3f} mm"}}


def request(body: dict[str, object]) -> bytes:
    sent = json.dumps(body).encode()
    head = b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n"
    return head % len(sent) + sent


@pytest.fixture(scope="module")
def one_thread(processes) -> Iterator[str]:
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_WORKERS="1", BOREWRIGHT_THREADS="1", BOREWRIGHT_MAX_CONCURRENCY="8")
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        assert processes.stop(service) == 0


def connected(url: str) -> socket.socket:
    where = urlsplit(url)
    return socket.create_connection((where.hostname, where.port), timeout=30)


def name_of_next(answers: BinaryIO) -> str:
    """Id of the next reply of a connection."""
    length = 0
    while (line := answers.readline()) != b"\r\n":
        name, _, value = line.partition(b":")
        length = int(value) if name.lower() == b"content-length" else length
    return json.loads(answers.read(length))["id"]


def test_a_hole_is_answered_while_the_only_thread_works(one_thread):
    holes = [hole(f"KRP-{n}", THREADS[n % len(THREADS)], 10 + n / 8) for n in range(150)]
    part = {"part": "KRP-4105", "defaults": {"material": "4140"}, "holes": holes}
    with ThreadPoolExecutor(1) as pool:
        plan = pool.submit(requests.post, f"{one_thread}/v1/part-plans", json=part, timeout=120)
        answered = []
        while not plan.done():
            answered.append(requests.get(f"{one_thread}/health/live", timeout=30).status_code)
            answered.append(requests.post(f"{one_thread}/v1/hole-specs", json=hole("KRP-1"), timeout=30).status_code)
        assert plan.result().status_code == 200
    assert set(answered) == {200}
    assert len(answered) > 4, "some before the plan"


def test_a_hundred_in_one_piece_are_answered_in_their_order(one_thread):
    names = [f"KRP-{number}" for number in range(100)]
    with connected(one_thread) as connection:
        connection.sendall(b"".join(request(hole(name)) for name in names))
        answers = connection.makefile("rb")
        assert [name_of_next(answers) for _ in names] == names


def test_an_answer_that_its_caller_reads_late_comes_whole_and_keeps_nobody_waiting(one_thread):
    asked = [hole(f"KRP-{number}", thickness=12 + number / 1000) for number in range(80)]
    late = socket.socket()
    late.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
    late.settimeout(30)
    late.connect((urlsplit(one_thread).hostname, urlsplit(one_thread).port))
    with late:
        for body in asked:
            late.sendall(request(body))
        assert requests.post(f"{one_thread}/v1/hole-specs", json=hole("KRP-2"), timeout=30).json()["id"] == "KRP-2"
        answers = late.makefile("rb")
        assert [name_of_next(answers) for _ in asked] == [body["id"] for body in asked]
