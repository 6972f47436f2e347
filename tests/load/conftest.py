"""Two real services behind a real nginx."""

from __future__ import annotations

import re
import shutil
import subprocess
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
import requests

NGINX = shutil.which("nginx") or "/usr/sbin/nginx"
RECOVERY_SECONDS = 10

CONFIGURATION = Path(__file__).parent.parent.parent / "docker" / "nginx.conf"
#: What differs here from the configuration that is delivered: where things lie and listen, and no name server.
KINDS = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
PATHS = "".join(f"{kind}_temp_path {{folder}}/{kind}; " for kind in KINDS)
CHANGES = {
    r"^pid .*;$": "pid {folder}/nginx.pid; daemon off;",
    r"error_log .*;": "error_log {folder}/error.log warn; " + PATHS,
    r"resolver .*;": "",
    r"server borewright:8080 .*;": "{servers}",
    r"listen 8080;": "listen 127.0.0.1:{port};",
}


def configuration(folder: Path, services: Iterable[int], port: int) -> str:
    """The delivered configuration of nginx, in front of services of this machine."""
    text = CONFIGURATION.read_text("utf-8")
    servers = " ".join(f"server 127.0.0.1:{service} max_fails=2 fail_timeout=2s;" for service in services)
    for line, here in CHANGES.items():
        text, changed = re.subn(line, here.format(folder=folder, servers=servers, port=port), text, flags=re.MULTILINE)
        assert changed == 1, line
    return text


def wait_for(url: str) -> float:
    """Seconds until the service answers."""
    began = time.monotonic()
    while time.monotonic() - began < RECOVERY_SECONDS:
        try:
            if requests.get(f"{url}/health/ready", timeout=1).ok:
                return time.monotonic() - began
        except requests.RequestException:
            pass
        time.sleep(0.05)
    raise AssertionError(f"no answer from {url} within {RECOVERY_SECONDS} s")


@pytest.fixture(name="wait_for")
def waiting() -> Callable[[str], float]:
    return wait_for


@dataclass
class Farm:
    """Two services behind nginx."""

    url: str
    services: dict[int, subprocess.Popen[bytes]] = field(default_factory=dict)
    wait_for = staticmethod(wait_for)

    def workers(self, port: int) -> list[int]:
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


@pytest.fixture
def farm(tmp_path, processes) -> Iterator[Farm]:
    if not Path(NGINX).exists():
        pytest.fail("nginx is needed: apt-get install nginx-light")
    ports = processes.free_port(), processes.free_port()
    services = {port: processes.start(port) for port in ports}
    front = processes.free_port()
    (tmp_path / "nginx.conf").write_text(configuration(tmp_path, ports, front))
    nginx = subprocess.Popen(
        [NGINX, "-c", str(tmp_path / "nginx.conf"), "-p", str(tmp_path)], stderr=subprocess.DEVNULL
    )
    wait_for(f"http://127.0.0.1:{front}")
    yield Farm(f"http://127.0.0.1:{front}", services)
    nginx.terminate()
    nginx.wait(10)
    for service in services.values():
        if service.poll() is None:
            processes.stop(service)
