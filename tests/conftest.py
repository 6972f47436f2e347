"""Fixtures of the whole suite: the real service, started once as gunicorn on a free port."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import requests

ROOT = Path(__file__).parent.parent
START_SECONDS = 30


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def start_service(port: int, **settings: str) -> subprocess.Popen[bytes]:
    """gunicorn with the project's configuration; returns when it answers."""
    gunicorn = Path(sys.executable).with_name("gunicorn")
    environment = {
        **os.environ,
        "BOREWRIGHT_BIND": f"127.0.0.1:{port}",
        "BOREWRIGHT_LOG_LEVEL": "warning",
        **settings,
    }
    service = subprocess.Popen(
        [str(gunicorn), "--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"],
        env=environment,
    )
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline and service.poll() is None:
        try:
            if requests.get(f"http://127.0.0.1:{port}/health/ready", timeout=1).ok:
                return service
        except requests.ConnectionError:
            time.sleep(0.05)
    service.kill()
    raise RuntimeError("the service did not start")


def stop_service(service: subprocess.Popen[bytes]) -> int:
    service.send_signal(signal.SIGTERM)
    return service.wait(timeout=START_SECONDS)


def workers_of(service: subprocess.Popen[bytes], expected: int = 2) -> list[int]:
    """The workers of a service, as soon as it has so many."""
    children = Path(f"/proc/{service.pid}/task/{service.pid}/children")
    deadline = time.monotonic() + START_SECONDS
    while len(found := children.read_text("ascii").split()) != expected:
        assert time.monotonic() < deadline, f"{len(found)} workers instead of {expected}"
        time.sleep(0.02)
    return [int(worker) for worker in found]


def wait_for_answer(url: str) -> None:
    """Return as soon as something at the address says that it is ready."""
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline:
        try:
            if requests.get(f"{url}/health/ready", timeout=1).ok:
                return
        except requests.ConnectionError:
            pass
        time.sleep(0.05)
    raise RuntimeError(f"no answer from {url}")


class Processes:
    """Starts and stops real services, for tests that break them."""

    free_port = staticmethod(free_port)
    start = staticmethod(start_service)
    stop = staticmethod(stop_service)
    workers = staticmethod(workers_of)
    wait = staticmethod(wait_for_answer)


@pytest.fixture(scope="session")
def processes() -> Processes:
    return Processes()


@pytest.fixture(scope="session")
def service_url() -> Iterator[str]:
    """Address of a running service shared by the tests that only ask."""
    port = free_port()
    service = start_service(port)
    yield f"http://127.0.0.1:{port}"
    assert stop_service(service) == 0, "the service did not stop cleanly"
