"""Crowds of slow callers, many more than threads, direct and behind the balancer: others are answered at once."""

from __future__ import annotations

import contextlib
import socket
import statistics
import time
from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import urlsplit

import pytest
import requests

HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
OTHERS, BETWEEN_SECONDS = 5, 0.05
#: Alone on the machine others wait for a few milliseconds; one of several may meet the load of other tests.
SECONDS, LONGEST_SECONDS = 1.0, 8.0


def head(path: bytes, *more: bytes, media_type: bytes = b"application/json") -> bytes:
    lines = (b"POST " + path + b" HTTP/1.1", b"Host: x", b"Content-Type: " + media_type, *more, b"", b"")
    return b"\r\n".join(lines)


LENGTH, CHUNKS = b"Content-Length: 500000", b"Transfer-Encoding: chunked"
SPEC, BATCH = b"/v1/hole-specs", b"/v1/hole-specs/batch"
NDJSON = b"application/x-ndjson"


@dataclass(frozen=True)
class Crowd:
    """So many callers, each beginning so and going on with a piece now and then; readers ask and do not read."""

    callers: int
    begin: bytes
    drip: bytes = b""
    reads: bool = True


CROWDS = {
    "silent": Crowd(160, b""),
    "half heads": Crowd(160, b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nX-Half: "),
    "half heads that drip": Crowd(160, b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nX-Half: ", b"x"),
    "bodies": Crowd(48, head(SPEC, LENGTH) + b"{", b" "),
    "bodies in chunks": Crowd(48, head(SPEC, CHUNKS) + b"1\r\n{\r\n", b"1\r\n \r\n"),
    "half a chunk": Crowd(48, head(SPEC, CHUNKS) + b"ffff\r\n{", b" "),
    "half a trailer": Crowd(48, head(SPEC, CHUNKS) + b"2\r\n{}\r\n0\r\nX-Half: ", b"x"),
    "long bodies": Crowd(48, head(SPEC, LENGTH) + b"{" + b" " * 40_000, b" "),
    "batches": Crowd(48, head(BATCH, LENGTH, media_type=NDJSON) + b"{", b" "),
    "batches in chunks": Crowd(48, head(BATCH, CHUNKS, media_type=NDJSON) + b"1\r\n{\r\n", b"1\r\n \r\n"),
    "bodies on request": Crowd(48, head(SPEC, LENGTH, b"Expect: 100-continue"), b" "),
    "unknown addresses": Crowd(48, head(b"/v1/nothing", LENGTH) + b" " * 40_000, b" "),
    "who do not read": Crowd(48, b"GET /openapi.json HTTP/1.1\r\nHost: x\r\n\r\n" * 4, reads=False),
    "who do not hang up": Crowd(160, b"GET /health/live HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"),
}


@pytest.fixture(scope="module", autouse=True)
def made_documents(service_url):
    """Each worker makes the document that some of the callers ask for before they come: that takes half a second."""
    for _ in range(12):
        requests.get(f"{service_url}/openapi.json", headers={"Connection": "close"}, timeout=30)


@pytest.fixture(scope="module")
def balancer(tmp_path_factory, processes, service_url) -> Iterator[str]:
    with processes.balancer(tmp_path_factory.mktemp("balancer"), urlsplit(service_url).netloc) as url:
        yield url


@contextlib.contextmanager
def crowd_at(url: str, crowd: Crowd) -> Iterator[list[socket.socket]]:
    where = urlsplit(url)
    held = []
    try:
        for _ in range(crowd.callers):
            caller = socket.socket()
            if not crowd.reads:
                caller.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            caller.settimeout(5)
            caller.connect((where.hostname, where.port))
            with contextlib.suppress(OSError):
                caller.sendall(crowd.begin)
            held.append(caller)
        yield held
    finally:
        for caller in held:
            caller.close()


def waits(url: str, held: list[socket.socket], drip: bytes) -> list[float]:
    """Seconds that others wait for their answers, on connections of their own."""
    found = []
    for _ in range(OTHERS):
        for caller in held if drip else ():
            with contextlib.suppress(OSError):
                caller.send(drip)
        began = time.monotonic()
        answer = requests.post(f"{url}/v1/hole-specs", json=HOLE, headers={"Connection": "close"}, timeout=60)
        found.append(time.monotonic() - began)
        assert answer.status_code == 200
        time.sleep(BETWEEN_SECONDS)
    return found


@pytest.mark.parametrize("name", CROWDS)
@pytest.mark.parametrize("way", ["service_url", "balancer"])
def test_others_are_answered_at_once(request, way, name):
    url = request.getfixturevalue(way)
    with crowd_at(url, CROWDS[name]) as held:
        time.sleep(0.2)
        found = waits(url, held, CROWDS[name].drip)
    assert statistics.median(found) < SECONDS, found
    assert max(found) < LONGEST_SECONDS, found
