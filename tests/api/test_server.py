"""The service as it runs: gunicorn with the project's configuration."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import requests

ROOT = Path(__file__).parent.parent.parent
CONFIGURATION = ROOT / "docker" / "gunicorn_conf.py"
GUNICORN = Path(sys.executable).with_name("gunicorn")


def raw(url: str, request: bytes) -> tuple[bytes, bytes]:
    """Head and body that the service answers to bytes that may be no HTTP."""
    where = urlsplit(url)
    with socket.create_connection((where.hostname, where.port), timeout=10) as connection:
        connection.sendall(request)
        answer = b""
        while more := connection.recv(65536):
            answer += more
    head, _, body = answer.partition(b"\r\n\r\n")
    return head, body


@pytest.mark.parametrize(
    ("request_bytes", "status"),
    [
        (b"NONSENSE\r\n\r\n", 400),
        (b"GET /v1/version HTTP/9.9\r\nHost: x\r\n\r\n", 400),
        (b"GET /v1/version HTTP/1.1\r\nHost: x\r\nbad header\r\n\r\n", 400),
        (b"GET /" + b"a" * 9000 + b" HTTP/1.1\r\nHost: x\r\n\r\n", 414),
        (b"GET /v1/version HTTP/1.1\r\nHost: x\r\nX-Long: " + b"a" * 9000 + b"\r\n\r\n", 431),
    ],
)
def test_what_is_no_http_is_a_problem_too(service_url, request_bytes, status):
    head, body = raw(service_url, request_bytes)
    assert head.startswith(b"HTTP/1.1 %d " % status)
    assert b"application/problem+json" in head
    assert json.loads(body)["status"] == status


def test_whoever_sends_a_large_body_sees_why_it_is_refused(service_url):
    with requests.Session() as session:
        for body in (b"x" * 2_000_000, iter([b"x" * 65536] * 30)):
            answer = session.post(
                f"{service_url}/v1/hole-specs", data=body, headers={"Content-Type": "application/json"}, timeout=10
            )
            assert (answer.status_code, answer.json()["code"]) == (413, "body_too_large")
            assert session.get(f"{service_url}/v1/version", timeout=10).status_code == 200


@pytest.mark.parametrize(("size", "connection"), [(10_000, "keep-alive"), (100_000, "close")])
def test_a_refused_body_that_is_here_leaves_the_connection_usable(service_url, size, connection):
    """A longer one ends it: its rest is not waited for."""
    with requests.Session() as session:
        for _ in range(3):
            answer = session.post(f"{service_url}/v1/nothing", data=b"x" * size, timeout=10)
            assert (answer.status_code, answer.headers["Connection"]) == (404, connection)
            assert session.get(f"{service_url}/v1/version", timeout=10).status_code == 200


def test_wrong_settings_end_the_start_with_a_sentence():
    ended = subprocess.run(
        [str(GUNICORN), "--config", str(CONFIGURATION), "borewright.api.wsgi:app"],
        env={**os.environ, "BOREWRIGHT_WORKER": "2"},
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    assert ended.returncode != 0
    assert "did you mean BOREWRIGHT_WORKERS (" in ended.stderr
    assert "Traceback" not in ended.stderr


def test_stopping_service_sends_new_requests_elsewhere():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        url = f"http://127.0.0.1:{probe.getsockname()[1]}"
    environment = {**os.environ, "BOREWRIGHT_BIND": urlsplit(url).netloc, "BOREWRIGHT_LOG_LEVEL": "warning"}
    service = subprocess.Popen(
        [str(GUNICORN), "--config", str(CONFIGURATION), "borewright.api.wsgi:app"], env=environment
    )
    try:
        with requests.Session() as session:
            wait_until_ready(session, url)
            service.send_signal(signal.SIGTERM)
            time.sleep(0.3)
            answer = session.get(f"{url}/health/ready", timeout=10)
            assert (answer.status_code, answer.json()["code"]) == (503, "draining")
            assert answer.headers["Retry-After"]
        assert service.wait(timeout=30) == 0
    finally:
        service.kill()
        service.wait()


def start(port: int) -> subprocess.Popen[bytes]:
    environment = {**os.environ, "BOREWRIGHT_BIND": f"127.0.0.1:{port}", "BOREWRIGHT_LOG_LEVEL": "warning"}
    return subprocess.Popen([str(GUNICORN), "--config", str(CONFIGURATION), "borewright.api.wsgi:app"], env=environment)


def test_a_service_that_is_stopped_at_once_stops_at_once(processes):
    """Far from the 20 seconds that running requests get, and the 15 of a kept connection: nothing is asked."""
    for _ in range(3):
        port = processes.free_port()
        service = processes.start(port)
        with socket.create_connection(("127.0.0.1", port)):
            time.sleep(0.3)  # longer than a thread waits for the first byte
            began = time.monotonic()
            assert processes.stop(service) == 0
            assert time.monotonic() - began < 8


def test_a_start_that_is_stopped_leaves_no_folder_of_figures():
    code = (
        f"exec(open({str(CONFIGURATION)!r}).read()); print(os.environ['PROMETHEUS_MULTIPROC_DIR'], flush=True); input()"
    )
    environment = {name: value for name, value in os.environ.items() if name != "PROMETHEUS_MULTIPROC_DIR"}
    with subprocess.Popen(
        [sys.executable, "-c", code], env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as start:
        folder = Path(start.stdout.readline().strip())
        assert folder.is_dir()
        start.send_signal(signal.SIGTERM)
        assert start.wait(timeout=30) == 0
    assert not folder.exists()


def test_a_worker_is_told_to_stop_in_the_moment_it_is_there(processes):
    service = start(processes.free_port())
    try:
        for _ in range(6):
            before = set(processes.workers(service))
            victim = before.pop()
            os.kill(victim, signal.SIGTERM)
            deadline = time.monotonic() + 8
            while Path(f"/proc/{victim}").exists():
                assert time.monotonic() < deadline, "a worker did not stop"
                time.sleep(0.001)
    finally:
        assert processes.stop(service) == 0


def wait_until_ready(session: requests.Session, url: str) -> None:
    for _ in range(600):
        try:
            assert session.get(f"{url}/health/ready", timeout=10).status_code == 200
        except requests.ConnectionError:
            time.sleep(0.05)
        else:
            return
    raise AssertionError("the service did not start")
