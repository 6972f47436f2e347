"""Figures and log of the service as it runs: right over both workers, whatever dies, whatever is sent."""

from __future__ import annotations

import json
import os
import re
import signal
import socket
import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import requests

TRACE = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"
BATCH = "/v1/hole-specs/batch"
NDJSON = {"Content-Type": "application/x-ndjson"}


def hole(depth: float) -> dict[str, object]:
    return {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": depth}}


@dataclass
class Watched:
    """A service of two workers whose log and figures are looked at from here on: what was before is not counted."""

    url: str
    service: subprocess.Popen[bytes]
    log: Path
    figures: Path

    def __post_init__(self) -> None:
        self.lines_before, self.samples_before = len(self._told()), self._samples()

    def post(self, path: str, **more: object) -> requests.Response:
        """A request on a connection of its own, so that either worker may get it."""
        headers = {"Connection": "close", **more.pop("headers", {})}
        return requests.post(self.url + path, headers=headers, timeout=10, **more)

    def figure(self, name: str) -> float:
        """Sum of the samples whose line begins so."""
        return sum(
            value - self.samples_before.get(sample, 0)
            for sample, value in self._samples().items()
            if sample.startswith(name)
        )

    def lines(self) -> list[dict[str, object]]:
        """The log, in which every line is an object of JSON."""
        return [json.loads(line) for line in self._told()[self.lines_before :]]

    def _samples(self) -> dict[str, float]:
        answer = requests.get(f"{self.url}/metrics", headers={"Connection": "close"}, timeout=10)
        assert answer.status_code == 200, answer.text
        samples = (line.rpartition(" ") for line in answer.text.splitlines() if not line.startswith("#"))
        return {name + space: float(value) for name, space, value in samples}

    def _told(self) -> list[str]:
        return self.log.read_text("utf-8").splitlines()


@pytest.fixture(scope="module")
def running(tmp_path_factory, processes) -> Iterator[tuple[str, subprocess.Popen[bytes], Path, Path]]:
    """Address and process of the service that all of them look at, its log and its folder of figures.

    What another application has in that folder is left to it.
    """
    folder = tmp_path_factory.mktemp("watched")
    log, figures, port = folder / "log", folder / "figures", processes.free_port()
    figures.mkdir()
    (figures / "other.txt").write_text("of another application")
    with log.open("wb") as written:
        service = processes.start(
            port, output=written, BOREWRIGHT_LOG_LEVEL="info", PROMETHEUS_MULTIPROC_DIR=str(figures)
        )
    try:
        processes.workers(service)
        yield f"http://127.0.0.1:{port}", service, log, figures
    finally:
        assert processes.stop(service) == 0
    assert (figures / "other.txt").read_text() == "of another application"


@pytest.fixture
def watched(running) -> Watched:
    return Watched(*running)


def test_every_figure_is_summed_over_the_workers(watched, processes):
    lines = b"".join(json.dumps(hole(0.5)).encode() + b"\n" for _ in range(5)) + b'{"thread": "1/4"}\n'
    for _ in range(20):
        watched.post("/v1/hole-specs", json=hole(0.75))
        watched.post("/v1/taps/decode", json={"marking": "HSS"})
        watched.post(BATCH, data=lines, headers=NDJSON)
    workers = processes.workers(watched.service)
    assert all((watched.figures / f"counter_{worker}.db").exists() for worker in workers), "one worker did all"
    ok = 'borewright_requests_total{method="POST",route="%s",status="200"}'
    assert watched.figure(ok % "/v1/hole-specs") == 20
    assert watched.figure(ok % BATCH) == 20
    assert watched.figure('borewright_refusals_total{code="tap_marking_unreadable"}') == 20
    assert watched.figure('borewright_batch_items_total{status="ok"}') == 100
    assert watched.figure('borewright_batch_items_total{status="error"}') == 20
    # What one worker has made for a single request both have; of batches each makes a question once.
    assert watched.figure('borewright_cache_hits_total{kind="single"}') == 19
    assert watched.figure('borewright_cache_hits_total{kind="batch"}') == 98
    seconds = 'borewright_request_seconds_%s{%sroute="/v1/hole-specs"}'
    assert watched.figure(seconds % ("count", "")) == 20
    assert watched.figure(seconds % ("bucket", 'le="+Inf",')) == 20
    assert 0 < watched.figure(seconds % ("sum", "")) < 20
    buckets = [watched.figure(seconds % ("bucket", f'le="{le}",')) for le in ("0.001", "0.01", "0.1", "1.0", "60.0")]
    assert buckets == sorted(buckets)
    assert buckets[-1] == 20


def test_a_killed_worker_takes_no_figure_with_it(watched, processes):
    for _ in range(20):
        watched.post("/v1/hole-specs", json=hole(0.8))
    counted = 'borewright_requests_total{method="POST",route="/v1/hole-specs",status="200"}'
    victim = processes.workers(watched.service)[0]
    os.kill(victim, signal.SIGKILL)
    while victim in processes.workers(watched.service):
        time.sleep(0.02)
    assert watched.figure(counted) == 20
    (watched.figures / "counter_1.db").touch()  # what is left when one is killed before its first word
    for _ in range(20):
        watched.post("/v1/hole-specs", json=hole(0.8))
    assert watched.figure(counted) == 40


#: Bytes of a head that could end a line of the log, or a header of the answer, and begin another.
HOSTILE = (
    b'X-Request-Id: krp-1\r\n {"level":"forged"}',
    b"X-Request-Id: krp-1\rSet-Cookie: forged=1",
    b"X-Request-Id: krp-1%0d%0aSet-Cookie: forged=1",
    b'X-Request-Id: krp-1\n{"level":"forged"}',
    b'X-Request-Id: "}{"level":"forged"}',
    b"X-Request-Id: \xff\xfe\xed\xa0\x80",
    b"Traceparent: " + TRACE.encode() + b'\n{"level":"forged"}',
    b"Traceparent: 00-" + b"0" * 32 + b"-00f067aa0ba902b7-01",
    b"Accept: x\x00/\x1b[31mforged",
    b'bad header\n{"level":"forged"}',
)


def raw(url: str, target: bytes, header: bytes) -> bytes:
    host, port = url.removeprefix("http://").split(":")
    with socket.create_connection((host, int(port)), timeout=10) as connection:
        connection.sendall(b"GET %s HTTP/1.1\r\nHost: x\r\nConnection: close\r\n%s\r\n\r\n" % (target, header))
        answer = b""
        while more := connection.recv(65536):
            answer += more
    return answer


def test_nothing_sent_forges_a_line_of_the_log_or_a_header(watched):
    targets = (b"/v1/version", b'/%0a{"level":"forged"}', b"/v1/threads?thread=%0d%0aSet-Cookie:%20forged=1")
    for target in targets:
        for header in HOSTILE:
            head = raw(watched.url, target, header).partition(b"\r\n\r\n")[0]
            assert re.match(rb"HTTP/1.1 (200|4[0-9]{2}) ", head), (target, header, head)
            assert b"forged" not in head
            assert b"Traceparent" not in head
    answer = requests.get(f"{watched.url}/v1/version", headers={"Traceparent": TRACE}, timeout=10)
    assert answer.headers["Traceparent"] == TRACE
    time.sleep(0.2)
    told = watched.lines()
    assert {line["level"] for line in told} <= {"info", "warning", "debug"}
    requests_told = [line for line in told if line["logger"] == "borewright.access"]
    assert len(requests_told) > len(targets)
    assert all(re.fullmatch(r"[A-Za-z0-9._:-]{1,128}", str(line["request_id"])) for line in requests_told)
    assert [line["trace"] for line in requests_told if "trace" in line] == [TRACE]


SECRET = b"kestrel-ridge-secret-4711"


def test_what_is_sent_stays_out_of_the_log(watched):
    """Bodies, queries and keys, also where they stand in what is no HTTP."""
    post = b"POST /v1/hole-specs HTTP/1.1\r\nHost: x\r\n"
    chunked = post + b"Transfer-Encoding: chunked\r\n\r\n"
    for sent in (
        chunked + SECRET + b"\r\n",
        chunked + b"5;" + SECRET + b" x\r\n",
        chunked + b"2\r\n{}\r\n0\r\n" + SECRET + b"\r\n\r\n",
        chunked + b"2\r\n" + SECRET,
        post + b"Content-Length: 30\r\n\r\n" + SECRET,
        post + b"Content-Length: " + SECRET + b"\r\n\r\n",
        post + b"Authorization Bearer " + SECRET + b"\r\n\r\n",
        post + b"Authorization: Bearer\r\n " + SECRET + b"\r\n\r\n",
        post + b"Authorization: Bearer " + SECRET + b"\x00\r\n\r\n",
        post + b"X_Api_Key: " + SECRET + b"\r\n\r\n",
        b"GET /v1/threads?thread=" + SECRET + b" HTTP/1.1\r\nHost: x\r\nX-Api-Key: " + SECRET + b"\r\n\r\n",
        b"GET /" + SECRET + b" HTTP/7.1\r\n\r\n",
        SECRET + b" / HTTP/1.1\r\n\r\n",
        SECRET + b"\r\n\r\n",
    ):
        host, port = watched.url.removeprefix("http://").split(":")
        with socket.create_connection((host, int(port)), timeout=10) as connection:
            connection.sendall(sent)
            connection.shutdown(socket.SHUT_WR)
            while connection.recv(65536):
                pass
    time.sleep(0.2)
    assert len(watched.lines()) > 10
    assert SECRET not in watched.log.read_bytes()
