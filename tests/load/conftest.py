"""Two real services behind the delivered balancer."""

from __future__ import annotations

import subprocess
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest

RECOVERY_SECONDS = 10


@dataclass
class Farm:
    """Services by their port, and the balancer's address."""

    url: str
    services: dict[int, subprocess.Popen[bytes]]

    def workers(self, port: int) -> list[int]:
        """The workers that a service has now, however many."""
        master = self.services[port].pid
        return [int(child) for child in Path(f"/proc/{master}/task/{master}/children").read_text("ascii").split()]

    def replaces(self, port: int, killed: set[int], *, workers: int = 2) -> None:
        """Wait until a service has all its workers again, none of them killed."""
        deadline = time.monotonic() + RECOVERY_SECONDS
        while time.monotonic() < deadline:
            if len(self.workers(port)) == workers and not killed & set(self.workers(port)):
                return
            time.sleep(0.05)
        raise AssertionError("the workers were not replaced")


@pytest.fixture(scope="module")
def farm(tmp_path_factory, processes) -> Iterator[Farm]:
    """One for the tests of a module: each leaves both services as it found them, or others in their place."""
    ports = processes.free_port(), processes.free_port()
    with ThreadPoolExecutor(2) as pool:
        services = dict(zip(ports, pool.map(processes.start, ports), strict=True))
    with processes.balancer(tmp_path_factory.mktemp("balancer"), *(f"127.0.0.1:{port}" for port in ports)) as url:
        yield Farm(url, services)
    for service in services.values():
        if service.poll() is None:
            processes.stop(service)
