"""Two real services behind the delivered balancer."""

from __future__ import annotations

import signal
import subprocess
import time
from collections.abc import Iterator
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


#: Commands before each of the services.
SURROUNDINGS = {
    "as delivered": "",
    "reloaded": "",
    "64 MiB for files": "mount -t tmpfs -o size=64m tmpfs /tmp",
    "512 MiB of addresses": "ulimit -v 524288",
}
IN_LONG_RUNS = [pytest.param(name, marks=pytest.mark.long) for name in list(SURROUNDINGS)[1:]]


@pytest.fixture(params=["as delivered", *IN_LONG_RUNS])
def farm(request, tmp_path, processes) -> Iterator[Farm]:
    ports = processes.free_port(), processes.free_port()
    services = {port: processes.start(port, before=SURROUNDINGS[request.param]) for port in ports}
    if request.param == "reloaded":
        for port, service in services.items():
            before = set(processes.workers(service))
            service.send_signal(signal.SIGHUP)
            Farm("", services).replaces(port, before)
    with processes.balancer(tmp_path, *(f"127.0.0.1:{port}" for port in ports)) as url:
        yield Farm(url, services)
    for service in services.values():
        if service.poll() is None:
            processes.stop(service)
