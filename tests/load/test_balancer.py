"""The delivered balancer: what it refuses itself is told as the service tells it, and no crowd keeps others out."""

from __future__ import annotations

import contextlib
import http.client
import json
import socket
import time
from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
import requests
from borewright.api import create_app

HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
#: More than the requests of an address that it has under way at once.
REQUESTS = 128 + 32  # some may be over before the last begins


@pytest.fixture(scope="module")
def balancer(tmp_path_factory, processes, service_url) -> Iterator[str]:
    with processes.balancer(tmp_path_factory.mktemp("balancer"), urlsplit(service_url).netloc) as url:
        yield url


def connected(url: str, sent: bytes) -> socket.socket:
    where = urlsplit(url)
    connection = socket.create_connection((where.hostname, where.port), timeout=10)
    connection.sendall(sent)
    return connection


def head(path: str, *headers: str) -> bytes:
    return "\r\n".join((f"POST {path} HTTP/1.1", "Host: x", "X-Request-Id: krp-17", *headers, "", "")).encode()


def answer_of(connection: socket.socket) -> requests.Response:
    """What came back, as the library of the other tests has it."""
    told, found = http.client.HTTPResponse(connection), requests.Response()
    told.begin()
    found.status_code, found._content = told.status, told.read()
    found.headers.update(told.getheaders())
    return found


def is_problem(answer: requests.Response, status: int, code: str) -> None:
    assert (answer.status_code, answer.headers["Content-Type"]) == (status, "application/problem+json")
    told = answer.json()
    assert (told["status"], told["code"], told["type"]) == (status, code, f"/problems/{code}")
    assert told["request_id"] == answer.headers["X-Request-Id"]
    assert {"title", "detail", "instance", "errors"} <= told.keys()


@pytest.mark.parametrize("path", ["/v1/hole-specs", "/v1/nothing/batch", "/v1/hole-specs/batch/"])
def test_only_batches_have_no_limit(balancer, path):
    with connected(balancer, head(path, "Content-Length: 17000000")) as connection:
        answer = answer_of(connection)
    is_problem(answer, 413, "body_too_large")
    assert answer.json()["request_id"] == "krp-17"


STREAMS = [
    rule.rule
    for rule in create_app().url_map.iter_rules()
    if rule.rule.endswith("/batch") or rule.endpoint == "hole_specs.read_rows"
]


def test_every_stream_goes_through_whatever_its_length(balancer):
    """Seventeen megabytes: more than the balancer lets pass of anything else."""
    assert len(STREAMS) > 4
    for path in STREAMS:
        form = "text/csv" if path.endswith("/requests") else "application/x-ndjson"
        body = b"thread\n" + (b"M8" + b" " * 100_000 + b"\n") * 170
        answer = requests.post(f"{balancer}{path}", body, headers={"Content-Type": form}, timeout=60)
        last = answer.content.splitlines()[-1]
        assert (answer.status_code, b"upload_truncated" in last) == (200, False), path


def test_a_long_batch_is_answered_to_its_end(balancer):
    """A balancer that could not hand on more of a request whose answer has begun hands on no more of it at all."""
    line = json.dumps(HOLE).encode()
    body = (line.ljust(100_000) + b"\n") * 200
    for _ in range(3):
        answer = requests.post(
            f"{balancer}/v1/hole-specs/batch", body, headers={"Content-Type": "application/x-ndjson"}, timeout=60
        )
        assert answer.content.count(b'"status":"ok"') == 200


def test_more_requests_than_an_address_may_have_under_way(balancer):
    with contextlib.ExitStack() as held:
        batch = head("/v1/hole-specs/batch", "Content-Type: application/x-ndjson", "Transfer-Encoding: chunked")
        for _ in range(REQUESTS):
            held.enter_context(connected(balancer, batch + b"1\r\n \r\n"))
        until = time.monotonic() + 10
        while (answer := requests.post(f"{balancer}/v1/hole-specs", json=HOLE, timeout=10)).status_code == 200:
            assert time.monotonic() < until
        is_problem(answer, 429, "too_many_at_once")
        assert int(answer.headers["Retry-After"]) > 0
        assert answer.headers["RateLimit"] == '"callers";r=0;t=1'
    until = time.monotonic() + 10
    while requests.post(f"{balancer}/v1/hole-specs", json=HOLE, timeout=10).status_code != 200:
        assert time.monotonic() < until


def test_the_limit_is_told_before_it_is_reached(balancer):
    """draft-ietf-httpapi-ratelimit-headers: quota and unit; no figure of what is left where nothing is refused."""
    answer = requests.get(f"{balancer}/health/ready", timeout=10)
    assert answer.headers["RateLimit-Policy"] == '"callers";q=128;qu="concurrent-requests"'
    assert "RateLimit" not in answer.headers


@pytest.mark.parametrize("way", ["balancer", "service_url"])
def test_two_thousand_half_heads_refuse_nobody(request, way):
    url = request.getfixturevalue(way)
    with contextlib.ExitStack() as held:
        for _ in range(2100):
            held.enter_context(connected(url, b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\nX-Half: "))
        waited = []
        for _ in range(5):
            began = time.monotonic()
            assert requests.post(f"{url}/v1/hole-specs", json=HOLE, timeout=20).status_code == 200
            waited.append(time.monotonic() - began)
        assert sorted(waited)[2] < 1, waited


def test_no_service_behind_it(tmp_path, processes):
    port = processes.free_port()
    service = processes.start(port)
    with processes.balancer(tmp_path, f"127.0.0.1:{port}") as url:
        processes.stop(service)
        answer = requests.post(f"{url}/v1/hole-specs", json=HOLE, timeout=10)
        is_problem(answer, 502, "service_unreachable")
        assert int(answer.headers["Retry-After"]) > 0
