"""Callers that send slowly, or not at all, or do not read: each is given up, and the others are answered meanwhile."""

from __future__ import annotations

import contextlib
import json
import socket
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from urllib.parse import urlsplit

import pytest
import requests

HOLE = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}'
HALF_HEAD = b"POST /v1/hole-sp"
SECONDS = 1


def head(path: str, length: int, media_type: bytes = b"application/json") -> bytes:
    return b"POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n" % (
        path.encode(),
        media_type,
        length,
    )


CHUNKED = head("/v1/taps/decode", 0).replace(b"Content-Length: 0", b"Transfer-Encoding: chunked")


@pytest.fixture(scope="module")
def impatient(processes) -> Iterator[str]:
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_READ_TIMEOUT_S=str(SECONDS), BOREWRIGHT_THREADS="4")
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        assert processes.stop(service) == 0


def connected(url: str, part: bytes) -> socket.socket:
    where = urlsplit(url)
    connection = socket.create_connection((where.hostname, where.port), timeout=10)
    connection.sendall(part)
    return connection


def rest(connection: socket.socket) -> bytes:
    """All that the service still sends, up to its end of the connection."""
    with connection:
        return b"".join(iter(lambda: connection.recv(65536), b""))


HALVES = [
    HALF_HEAD,
    head("/v1/hole-specs", 500) + b"{",
    head("/v1/threads/resolve", 500) + b"{",
    head("/v1/hole-specs/audit", 500),
    CHUNKED + b'5\r\n{"thr',
    CHUNKED + b"1\r\n{\r\n",
]


@pytest.mark.usefixtures("refused")
def test_what_does_not_come_is_told_and_the_connection_closed(impatient):
    """More of them than threads, all at once. Other requests were refused before: they are looked at in the end."""

    def answered(part: bytes) -> tuple[float, bytes]:
        began = time.monotonic()
        answer = rest(connected(impatient, part))
        return time.monotonic() - began, answer

    with ThreadPoolExecutor(len(HALVES)) as pool:
        found = list(pool.map(answered, HALVES))
    for waited, answer in found:
        head_of_answer, _, body = answer.partition(b"\r\n\r\n")
        assert SECONDS <= waited < SECONDS + 3
        assert head_of_answer.startswith(b"HTTP/1.1 408 ")
        assert b"application/problem+json" in head_of_answer
        problem = json.loads(body)
        assert (problem["status"], problem["code"]) == (408, "request_too_slow")
        assert "waits 1 seconds" in problem["detail"]


@pytest.fixture(scope="module")
def refused(impatient) -> tuple[list[socket.socket], float]:
    """Connections whose requests are refused before their bodies are sent, and when they were."""
    statuses = {"/v1/taps/decode": 408, "/v1/nothing": 404}
    connections = {path: connected(impatient, head(path, 500)) for path in statuses}
    for path, status in statuses.items():
        assert connections[path].recv(65536).startswith(b"HTTP/1.1 %d " % status)
    return list(connections.values()), time.monotonic()


def what_follows(connection: socket.socket) -> bytes:
    """All that comes behind the first answer, where one more request is sent."""
    answers = b""
    with connection, contextlib.suppress(ConnectionError):
        connection.setblocking(False)
        with contextlib.suppress(BlockingIOError):
            answers += connection.recv(65536)
        connection.setblocking(True)
        connection.sendall(b"GET /v1/version HTTP/1.1\r\nHost: x\r\n\r\n")
        while more := connection.recv(65536):
            answers += more
    return answers


def drip(connection: socket.socket, sent: bytes) -> None:
    for byte in sent:
        connection.sendall(bytes([byte]))
        time.sleep(0.05)


def test_a_head_that_drips_is_given_up(impatient):
    connection = connected(impatient, b"")
    began = time.monotonic()
    with pytest.raises(ConnectionError):
        drip(connection, b"POST /v1/hole-specs HTTP/1.1\r\nHost: " + b"x" * 200)
    assert time.monotonic() - began < SECONDS + 3
    connection.close()


def test_a_stream_that_pauses_less_goes_on(impatient):
    def lines() -> Iterator[bytes]:
        for _ in range(3):
            time.sleep(SECONDS / 2)
            yield HOLE + b"\n"

    answer = requests.post(
        f"{impatient}/v1/hole-specs/batch",
        data=lines(),
        headers={"Content-Type": "application/x-ndjson"},
        timeout=20,
    )
    assert [json.loads(line)["status"] for line in answer.content.splitlines()] == ["ok"] * 3


def test_a_stream_that_stalls_is_answered_as_far_as_it_came(impatient):
    path = "/v1/hole-specs/batch"
    lines = (HOLE + b"\n") * 1200
    read = len(lines) // 8192 * 8192  # as much as the server receives at once
    answer = rest(connected(impatient, head(path, 500_000, b"application/x-ndjson") + lines))
    assert answer.startswith(b"HTTP/1.1 200 ")
    assert answer.count(b'"status":"ok"') == read // len(HOLE + b"\n")
    assert b'"code":"upload_truncated"' in answer
    assert b"after %d bytes" % read in answer


@pytest.mark.parametrize("part", [b"", HALF_HEAD, head("/v1/hole-specs", 500) + b"{"])
def test_more_of_them_than_threads_do_not_keep_others_out(impatient, part):
    held = [connected(impatient, part) for _ in range(40)]
    time.sleep(0.2)
    began = time.monotonic()
    for _ in range(5):
        assert requests.get(f"{impatient}/health/live", timeout=30).status_code == 200
    waited = time.monotonic() - began
    assert waited < (2 if not part else 10 * SECONDS)
    for connection in held:
        connection.close()


def test_who_does_not_read_is_given_up(impatient):
    """Answers back up in the connections of more callers than there are threads."""
    body = (HOLE + b"\n") * 4000
    part = head("/v1/hole-specs/batch", len(body), b"application/x-ndjson")
    held = []
    for _ in range(16):
        connection = connected(impatient, part)
        connection.setblocking(False)
        with contextlib.suppress(BlockingIOError):
            connection.send(body)
        held.append(connection)
    time.sleep(0.5)
    assert requests.get(f"{impatient}/health/live", timeout=30).status_code == 200
    for connection in held:
        connection.close()


def test_a_late_body_is_no_request_of_its_own(refused):
    """What follows after the refusal would be read as the next request if the connection stayed open."""
    connections, since = refused
    time.sleep(max(0.0, since + 6 - time.monotonic()))  # the server itself reads a body away for five seconds
    for connection in connections:
        assert what_follows(connection).count(b"HTTP/1.1") == 0
