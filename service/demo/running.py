"""The real service on a free port of this machine, for as long as a demonstration lasts."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from borewright_client import Client

ROOT = Path(__file__).parent.parent.parent
START_SECONDS = 30


class NotClean(Exception):
    """The service did not start, or did not stop as it should."""


@contextmanager
def running_service() -> Iterator[Client]:
    """A client of a service that runs until the block is left. Raises: NotClean."""
    port = _free_port()
    service = _start(port)
    try:
        with Client(f"http://127.0.0.1:{port}") as client:
            _wait_until_ready(client, service)
            yield client
    finally:
        service.send_signal(signal.SIGTERM)
        ended = service.wait(timeout=START_SECONDS)
    if ended != 0:
        raise NotClean(f"the service ended with {ended}")


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _start(port: int) -> subprocess.Popen[bytes]:
    """The service as `service/run` starts it, on another port."""
    gunicorn = Path(sys.executable).with_name("gunicorn")
    command = [str(gunicorn), "--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"]
    environment = {**os.environ, "BOREWRIGHT_BIND": f"127.0.0.1:{port}", "BOREWRIGHT_LOG_LEVEL": "warning"}
    return subprocess.Popen(command, env=environment)  # noqa: S603 - our own program, no shell


def _wait_until_ready(client: Client, service: subprocess.Popen[bytes]) -> None:
    for _ in range(START_SECONDS * 10):
        if client.ready():
            return
        if service.poll() is not None:
            break
        time.sleep(0.1)
    raise NotClean("the service did not start")
