"""Bytes made of pieces of requests: whatever comes, nothing is answered with a fault or takes a core for long.

``RAW_REQUESTS`` says how many are sent: 200,000 unless it does, which takes the better part of an hour.
"""

from __future__ import annotations

import os
import random
import re
import socket
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
import requests

REQUESTS = int(os.environ.get("RAW_REQUESTS", "200000"))
#: Most processor time of what is sent on a connection.
MOST_SECONDS = 0.5
_TICKS = os.sysconf("SC_CLK_TCK")
#: On each connection: what comes after a request that was understood is one more.
PER_CONNECTION = 3
SPEC = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}'
METHODS = [
    b"POST",
    b"GET",
    b"HEAD",
    b"OPTIONS",
    b"PUT",
    b"DELETE",
    b"TRACE",
    b"CONNECT",
    b"PRI",
    b"get",
    b"P" * 30,
    b"",
]
POSTS = [
    b"/v1/hole-specs",
    b"/v1/hole-specs/batch",
    b"/v1/hole-specs/audit",
    b"/v1/threads/resolve",
    b"/v1/taps/decode",
    b"/v1/part-plans",
    b"/v1/notes/read",
    b"/v1/rework",
    b"/v1/shop-figures/fit",
    b"/v1/hole-specs/compare",
    b"/v1/hole-specs/compare/batch",
]
TARGETS = [
    *POSTS,
    *(b"/v1/threads?thread=M8", b"/v1/catalog/drills", b"/openapi.json", b"/metrics", b"/health/live", b"*", b"/%00"),
    *(b"/?thread=M8", b"/embed.js", b"/link.svg?address=http://x/a", b"/problems/x"),
    *(b"/v1/hole-specs?explain=%F0%9F", b"http://x/v1/version", b"//", b"/../v1", b"/" + b"a" * 9000, b"/v1/%62atch"),
]
VERSIONS = [b"HTTP/1.1", b"HTTP/1.1", b"HTTP/1.0", b"HTTP/2.0", b"HTTP/1.11", b"http/1.1", b"HTTP/1.1 ", b""]
HEADERS = [
    *(b"Host: x", b"Host: x", b"Host: y", b"Content-Type: application/json", b"Content-Type: application/x-ndjson"),
    *(b"Content-Type: text/csv; charset=utf-16", b"Content-Length: 62", b"Content-Length: 5", b"Content-Length: -1"),
    *(b"Content-Length: 99999999999999999999", b"Transfer-Encoding: chunked", b"Transfer-Encoding: xchunked"),
    *(b"Transfer-Encoding: gzip, chunked", b"Content-Encoding: gzip", b'Content-Encoding: "gzip"', b"Accept: */*;q=x"),
    *(
        b"Accept: application/xml",
        b"Accept-Encoding: gzip;q=0",
        b"Expect: 100-continue",
        b"Expect: 1",
        b"SCRIPT_NAME: /v1",
    ),
    *(b"Connection: close", b"Connection: Upgrade, HTTP2-Settings", b"Upgrade: h2c", b"HTTP2-Settings: AAMAAABk"),
    *(
        b"X-Request-Id: krp-1",
        b"X-Request-Id: \xff\x00",
        b"Traceparent: 00-",
        b"Authorization: Basic /w==",
        b"X-Api-Key: k",
    ),
    *(b"If-None-Match: *", b"Range: bytes=0-1", b"A" * 9000 + b": b", b"no header", b" folded", b"X: \x00", b": empty"),
]
BODIES = [
    *(
        SPEC,
        SPEC * 2,
        SPEC + b"\n" + SPEC,
        b"{",
        b"",
        b"\x1f\x8b\x08" + b"\x00" * 20,
        b"[" * 4000,
        b"\xff\xfe{}",
        b"null",
    ),
    *(
        b'{"note": "4X 1/2-13 UNC THRU"}',
        b'{"holes": [' + SPEC + b"]}",
        b"kind,drill,measured\ndrilled_hole,I,0.2727 in\n",
    ),
    *(
        b"thread,type,thickness\nM8,through,12\n",
        b"PK\x03\x04" + b"\x00" * 40,
        SPEC[:-1] + b', "found": {"condition": "stripped"}}',
    ),
    *(
        b"3e\r\n" + SPEC + b"\r\n0\r\n\r\n",
        b"3\r\n{}",
        b"zz\r\n",
        b"0\r\n\r\n",
        b"ffffffff\r\n{",
        b"1;a=b\r\n{\r\n1\r\n}\r\n0\r\nA: b\r\n\r\n",
    ),
]
ENDS = [b"\n", b"\r", b"\r\n\r\n"]


def made(chance: random.Random) -> bytes:
    """A request of pieces, many of them usual ones; some have bytes changed, lost or doubled."""
    seldom = chance.choice((0.0, 0.02, 0.15))

    def mostly(usual: bytes, others: list[bytes]) -> bytes:
        return chance.choice(others) if chance.random() < seldom else usual

    end, body = mostly(b"\r\n", ENDS), chance.choice(BODIES)
    target = chance.choice(TARGETS)
    line = b" ".join((mostly(b"POST" if target in POSTS else b"GET", METHODS), target, mostly(b"HTTP/1.1", VERSIONS)))
    usual = (b"Host: x", b"Content-Type: application/json", b"Content-Length: %d" % len(body))
    headers = [mostly(header, HEADERS) for header in usual] + chance.choices(
        HEADERS, k=chance.choice((0, 0, 1, 2)) if seldom else 0
    )
    request = end.join((line, *headers, b"", body))
    if chance.random() < seldom * 2:
        at, length = chance.randrange(len(request) + 1), chance.randrange(4)
        put = chance.choice((b"", chance.randbytes(length), request[at : at + 40]))
        request = request[:at] + put + request[at + length :]
    return request


def statuses(address: tuple[str, int], sent: list[bytes]) -> Iterator[int]:
    """What comes back for requests on one connection, until either side ends it."""
    answer = b""
    try:
        with socket.create_connection(address, timeout=20) as connection:
            connection.sendall(b"".join(sent))
            connection.shutdown(socket.SHUT_WR)
            while more := connection.recv(65536):
                answer += more
    except ConnectionError:
        pass
    yield from map(int, re.findall(rb"^HTTP/1\.[01] ([0-9]{3}) ", answer, re.MULTILINE))


def processor_seconds(process: int) -> float:
    """What a process has taken of the processors."""
    fields = Path(f"/proc/{process}/stat").read_text("ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / _TICKS


@pytest.fixture
def worker(processes) -> Iterator[tuple[str, int]]:
    """A service with one worker: what it takes is of the one caller that it has."""
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_WORKERS="1")
    (process,) = processes.workers(service, 1)
    for path in ("/openapi.json", "/docs", "/v1/catalog/drills"):  # made at first use
        requests.get(f"http://127.0.0.1:{port}{path}", timeout=30)
    yield f"http://127.0.0.1:{port}", process
    assert processes.stop(service) == 0


@pytest.mark.parametrize("count", [600, pytest.param(REQUESTS, marks=pytest.mark.long, id="many")])
def test_no_bytes_are_answered_with_a_fault(worker, count):
    url, process = worker
    host, port = url.removeprefix("http://").split(":")
    chance, told = random.Random(int(os.environ.get("RAW_SEED", "17"))), Counter[int]()
    most = 0.0
    for _ in range(0, count, PER_CONNECTION):
        sent = [made(chance) for _ in range(PER_CONNECTION)]
        before = processor_seconds(process)
        told.update(statuses((host, int(port)), sent))
        took = processor_seconds(process) - before
        assert took < MOST_SECONDS, sent
        most = max(most, took)
    print(dict(told), f"{most:.2f} s at most")
    assert {status for status in told if status >= 500} == set()
    assert {200, 400, 404, 422} <= set(told)
    assert requests.get(f"{url}/health/ready", timeout=5).status_code == 200
