"""Bytes that are no HTTP, or frame a body in a way that two readers could take differently: a problem, everywhere."""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest

HEAD = (
    b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nConnection: close\r\nX-Request-Id: krp-17\r\n"
    b"Content-Type: application/json\r\n"
)
CHUNKED = HEAD + b"Transfer-Encoding: chunked\r\n\r\n"
HOLE = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}'
SIZED = b"%x\r\n" % len(HOLE) + HOLE + b"\r\n"
GOOD = CHUNKED + SIZED + b"0\r\n\r\n"
BROKEN = {
    "no number": CHUNKED + b"zz\r\n" + HOLE,
    "sign": CHUNKED + b"+3e\r\n" + HOLE,
    "prefix": CHUNKED + b"0x3e\r\n" + HOLE,
    "no size": CHUNKED + b"\r\n" + HOLE,
    "chunk longer than its size": CHUNKED + b"3\r\n" + HOLE + b"\r\n0\r\n\r\n",
    "bare line feeds": CHUNKED + b"3e\n" + HOLE + b"\n0\n\n",
    "bad extension": CHUNKED + b"3e;a b\r\n" + HOLE + b"\r\n0\r\n\r\n",
    "carriage return in an extension": CHUNKED + b"3e;a=\r1\r\n" + HOLE + b"\r\n0\r\n\r\n",
    "bad trailer": CHUNKED + SIZED + b"0\r\nno trailer\r\n\r\n",
    "trailer that frames": CHUNKED + SIZED + b"0\r\nContent-Length: 5\r\n\r\n",
    "trailer with a bare line feed": CHUNKED + SIZED + b"0\r\nA: b\nC: d\r\n\r\n",
    "other coding": HEAD + b"Transfer-Encoding: xchunked\r\n\r\n" + SIZED + b"0\r\n\r\n",
    "coding before chunked": HEAD + b"Transfer-Encoding: gzip, chunked\r\n\r\n" + SIZED + b"0\r\n\r\n",
    "chunked twice": HEAD + b"Transfer-Encoding: chunked\r\nTransfer-Encoding: chunked\r\n\r\n" + SIZED + b"0\r\n\r\n",
    "coding and length": HEAD + b"Content-Length: 62\r\nTransfer-Encoding: chunked\r\n\r\n" + SIZED + b"0\r\n\r\n",
    "two lengths": HEAD + b"Content-Length: 62\r\nContent-Length: 61\r\n\r\n" + HOLE,
    "list of lengths": HEAD + b"Content-Length: 62, 62\r\n\r\n" + HOLE,
    "length below nothing": HEAD + b"Content-Length: -1\r\n\r\n" + HOLE,
    "length with a sign": HEAD + b"Content-Length: +62\r\n\r\n" + HOLE,
    "space before the colon": HEAD + b"Content-Length : 62\r\n\r\n" + HOLE,
    "folded header": HEAD + b"Content-Length:\r\n 62\r\n\r\n" + HOLE,
    "two hosts": b"GET / HTTP/1.1\r\nX-Request-Id: krp-17\r\nHost: x\r\nHost: y\r\n\r\n",
    "no host": b"GET / HTTP/1.1\r\nX-Request-Id: krp-17\r\n\r\n",
    "mounted elsewhere": HEAD + b"SCRIPT_NAME: /v1\r\nContent-Length: 62\r\n\r\n" + HOLE,
    "another path": HEAD + b"PATH_INFO: /health/live\r\nContent-Length: 62\r\n\r\n" + HOLE,
    "name with an underscore": HEAD + b"Content_Length: 62\r\n\r\n" + HOLE,
    "null in a header": HEAD + b"X-A: \x00\r\n\r\n",
    "other expectation": HEAD + b"Expect: 200-ok\r\nContent-Length: 62\r\n\r\n" + HOLE,
}


@pytest.fixture(scope="module")
def balancer(tmp_path_factory, processes, service_url) -> Iterator[str]:
    with processes.balancer(tmp_path_factory.mktemp("balancer"), urlsplit(service_url).netloc) as url:
        yield url


def answers(url: str, request: bytes) -> bytes:
    """All that comes back until the other side ends."""
    where = urlsplit(url)
    answer = b""
    with socket.create_connection((where.hostname, where.port), timeout=10) as connection:
        connection.sendall(request)
        while more := connection.recv(65536):
            answer += more
    return answer


@pytest.mark.parametrize("name", BROKEN)
def test_it_is_a_problem_with_the_callers_id_and_the_last_answer(service_url, name):
    request = BROKEN[name].replace(b"Connection: close\r\n", b"")  # it is the service that ends it
    answer = answers(service_url, request + b"\r\n\r\nGET /v1/version HTTP/1.1\r\nHost: x\r\n\r\n")
    head, _, body = answer.partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 400 "), answer
    assert {b"Content-Type: application/problem+json", b"Connection: close", b"X-Request-Id: krp-17"} <= set(
        head.split(b"\r\n")
    )
    problem = json.loads(body)
    assert (problem["code"], problem["request_id"]) == ("request_unreadable", "krp-17")


@pytest.mark.parametrize("name", BROKEN)
def test_the_balancer_tells_it_in_the_same_form(balancer, name):
    head, _, body = answers(balancer, BROKEN[name]).partition(b"\r\n\r\n")
    status = int(head.split()[1])
    assert status in (400, 501) or (status == 200 and name in HARMLESS_BEHIND), head
    if status != 200:
        assert b"Content-Type: application/problem+json" in head
        assert json.loads(body)["status"] == status


#: What the balancer takes in whole and passes on in a frame of its own, or drops.
HARMLESS_BEHIND = {
    "other expectation",
    "bad extension",
    "carriage return in an extension",
    "bad trailer",
    "trailer that frames",
    "trailer with a bare line feed",
    "bare line feeds",
    "mounted elsewhere",
    "another path",
    "name with an underscore",
}


@pytest.mark.parametrize("way", ["service_url", "balancer"])
def test_what_is_framed_well_is_answered(request, way):
    answer = answers(request.getfixturevalue(way), GOOD.replace(b"3e\r\n", b'3e;name="a;b"\r\n'))
    assert answer.startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize("encoding", [b"", b"identity", b"Identity", b'"gzip"', b"gzip", b"br", b"identity, gzip"])
def test_both_lanes_agree_on_a_coding_of_content(service_url, encoding):
    """A query sends the request to the lane of all routes."""
    found = []
    for query in (b"", b"?detail=full"):
        head = HEAD.replace(b"hole-specs ", b"hole-specs" + query + b" ") + b"Content-Encoding: " + encoding
        answer = answers(service_url, head + b"\r\nContent-Length: 62\r\n\r\n" + HOLE)
        found.append(answer.split(b" ", 2)[1])
    assert found[0] == found[1]
    assert found[0] == (b"200" if encoding.lower() in (b"", b"identity") else b"415")
