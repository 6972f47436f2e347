"""Two real services behind the delivered balancer."""

from __future__ import annotations

import subprocess
import time
from collections.abc import Callable, Iterator
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
def farm_of_module(tmp_path_factory, processes) -> Iterator[Farm]:
    ports = processes.free_port(), processes.free_port()
    with ThreadPoolExecutor(2) as pool:
        services = dict(zip(ports, pool.map(processes.start, ports), strict=True))
    with processes.balancer(tmp_path_factory.mktemp("balancer"), *(f"127.0.0.1:{port}" for port in ports)) as url:
        yield Farm(url, services)
    for service in services.values():
        if service.poll() is None:
            processes.stop(service)


@pytest.fixture
def farm(farm_of_module, processes) -> Farm:
    """One for the tests of a module; what the test before has stopped is started again."""
    for port, service in farm_of_module.services.items():
        if service.poll() is not None:
            farm_of_module.services[port] = processes.start(port)
    return farm_of_module


@pytest.fixture
def tell(capsys) -> Callable[[str], None]:
    """Shows a figure of a run with its seconds."""
    began = time.monotonic()

    def show(text: str) -> None:
        with capsys.disabled():
            print(f"\n{text}: {time.monotonic() - began:.0f} s")

    return show
