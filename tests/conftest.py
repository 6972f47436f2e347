"""Fixtures of the whole suite: the real service, started once as gunicorn on a free port."""

from __future__ import annotations

import gc
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import timedelta
from functools import cache
from pathlib import Path
from typing import IO, NamedTuple

import pytest
import requests
from hypothesis import settings

# The same examples in every run of what must land; the long run looks for new ones. An example takes milliseconds: one
# that takes half a minute hangs, however busy the cores are.
HANGS = timedelta(seconds=30)
settings.register_profile("ci", derandomize=True, deadline=HANGS)
settings.register_profile("long", derandomize=False, deadline=HANGS, print_blob=True)
settings.load_profile("ci")

ROOT = Path(__file__).parent.parent
START_SECONDS = 60
#: A process with mounts that only it sees, without rights beyond them; and as root may have one in a root directory
#: that is not the machine's (chroot), where the kernel refuses the first.
OWN_MOUNTS = (("unshare", "--map-root-user", "--mount"), ("unshare", "--mount", "--propagation", "unchanged"))
NGINX = shutil.which("nginx") or "/usr/sbin/nginx"
NGINX_STREAM = Path("/usr/lib/nginx/modules/ngx_stream_module.so")


class Surrounding(NamedTuple):
    """What is done to every service that a test starts: commands of a shell before it, a reload behind its start."""

    before: str = ""
    reloaded: bool = False


#: The variable of the environment with this name says which.
SURROUNDINGS = {
    "as delivered": Surrounding(),
    "64 MiB for files": Surrounding("mount -t tmpfs -o size=64m tmpfs /tmp"),
    "reloaded": Surrounding(reloaded=True),
    "512 MiB of addresses": Surrounding("ulimit -v 524288"),
}


#: Files of some five seconds and more, the longest first.
LONGEST = (
    "mutation/test_mutants.py", "api/test_contract_fuzz.py", "client/test_tryton.py", "load/test_measure.py",
    "load/test_faults.py", "browser/test_accessibility.py", "load/test_slow_crowds.py", "api/test_slow_callers.py",
    "browser/test_form.py", "browser/test_embedded.py", "bulk/test_bulk.py", "api/test_bounded_work.py",
    "browser/test_first_screen.py", "load/test_balancer.py", "api/test_service_keys.py", "api/test_server.py",
    "load/test_million.py", "load/test_surroundings.py", "client/test_quickstart.py", "client/test_both_clients.py",
    "client/test_generated_client.py", "api/test_service_figures.py", "browser/test_printed_sheet.py",
    "contract/test_documents.py", "client/test_command_line.py", "contract/test_text_fuzz.py", "api/test_start.py",
    "core/standards/test_systems.py", "api/test_hole_ids.py", "load/test_raw_fuzz.py", "contract/test_two_judges.py",
    "core/standards/test_catalogue.py",
)  # fmt: skip


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What takes longest begins first, so that all processes are busy to the end."""
    places = {ROOT / "tests" / file: place for place, file in enumerate(LONGEST)}
    assert all(file.exists() for file in places)
    items.sort(key=lambda item: places.get(item.path, len(places)))


def pytest_collection() -> None:
    """Collecting tests makes much and drops little: looking for garbage would only take time."""
    gc.disable()


def pytest_collection_finish() -> None:
    """Take what the collected tests are made of from the collector, as the service's workers do with what they loaded.

    A look through all of it takes longer than a request may, and would be counted as the request's own.
    """
    gc.collect()
    gc.freeze()
    gc.enable()


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def start_service(
    port: int, *, before: str = "", output: IO[bytes] | None = None, **settings: str
) -> subprocess.Popen[bytes]:
    """gunicorn with the project's configuration; returns when it answers.

    Args:
        before: commands of a shell; they may mount, it then has mounts of its own.
        output: where it writes; None = where the tests do.
        settings: variables of its environment.
    """
    around = SURROUNDINGS[os.environ.get("SURROUNDINGS", "as delivered")]
    service = _started(port, "\n".join(filter(None, (around.before, before))), output, settings)
    if around.reloaded:
        expected = int(settings.get("BOREWRIGHT_WORKERS", "2"))
        first = set(workers_of(service, expected))
        service.send_signal(signal.SIGHUP)
        deadline = time.monotonic() + START_SECONDS
        while first & set(workers_of(service, expected)):
            assert time.monotonic() < deadline, "a worker is still that of before"
            time.sleep(0.02)
    return service


def _started(port: int, before: str, output: IO[bytes] | None, settings: Mapping[str, str]) -> subprocess.Popen[bytes]:
    command = [
        str(Path(sys.executable).with_name("gunicorn")),
        *("--config", str(ROOT / "docker" / "gunicorn_conf.py"), "borewright.api.wsgi:app"),
    ]
    if before:
        command = ["bash", "-ec", f'{before}\nexec "$@"', "service", *command]
    if "mount " in before:
        command = [*_own_mounts(), *command]
    environment = {
        **os.environ,
        "BOREWRIGHT_BIND": f"127.0.0.1:{port}",
        "BOREWRIGHT_LOG_LEVEL": "warning",
        **settings,
    }
    service = subprocess.Popen(command, env=environment, stdout=output, stderr=output)
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline and service.poll() is None:
        try:
            if requests.get(f"http://127.0.0.1:{port}/health/ready", timeout=1).ok:
                return service
        except requests.ConnectionError:
            time.sleep(0.05)
    service.kill()
    raise RuntimeError("the service did not start")


@cache
def _own_mounts() -> tuple[str, ...]:
    """The first way to mounts of one's own that this machine allows."""
    ways = (
        way for way in OWN_MOUNTS if subprocess.run([*way, "true"], capture_output=True, check=False).returncode == 0
    )
    return next(ways, OWN_MOUNTS[0])


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


def wait_for_answer(url: str, seconds: float = START_SECONDS) -> None:
    """Return as soon as something at the address says that it is ready."""
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        try:
            if requests.get(f"{url}/health/ready", timeout=1).ok:
                return
        except requests.RequestException:
            pass
        time.sleep(0.05)
    raise AssertionError(f"no answer from {url} within {seconds} s")


@contextmanager
def run_balancer(folder: Path, *services: str) -> Iterator[str]:
    """The address of the delivered balancer in front of services (HOST:PORT), with all that it writes in a folder."""
    if not Path(NGINX).exists():
        pytest.fail("nginx is needed: apt-get install nginx-light libnginx-mod-stream")
    port = free_port()
    (folder / "nginx.conf").write_text(_balancer_configuration(folder, services, port), "utf-8")
    command = [NGINX, "-c", str(folder / "nginx.conf"), "-p", str(folder)]
    checked = subprocess.run([*command, "-t"], capture_output=True, text=True, check=False)
    assert checked.returncode == 0, checked.stderr
    nginx = subprocess.Popen(command, stderr=subprocess.DEVNULL)
    url = f"http://127.0.0.1:{port}"
    try:
        wait_for_answer(url)
        yield url
    finally:
        nginx.terminate()
        nginx.wait(10)


def _balancer_configuration(folder: Path, services: Sequence[str], port: int) -> str:
    """Other than delivered: addresses and folders, and services by address, for Debian's nginx does not `resolve`."""
    servers = " ".join(f"server {service} max_fails=2 fail_timeout=2s;" for service in services)
    kinds = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    changes = {
        r"^pid .*;": f"pid {folder}/nginx.pid; daemon off;",
        r"error_log /dev/stderr warn;": f"error_log {folder}/error.log warn; "
        + " ".join(f"{kind}_temp_path {folder}/{kind};" for kind in kinds),
        r"error_log /dev/stderr crit;": f"error_log {folder}/error.log crit;",
        r"server borewright:8080 .*;": servers,
        r"listen 8080;": f"listen 127.0.0.1:{port};",
        r"listen unix:/tmp/http.sock": f"listen unix:{folder}/http.sock",
        r"proxy_pass unix:/tmp/http.sock": f"proxy_pass unix:{folder}/http.sock",
    }
    text = (ROOT / "docker" / "nginx.conf").read_text("utf-8")
    for line, here in changes.items():
        text, changed = re.subn(line, here, text, flags=re.MULTILINE)
        assert changed == 1, line
    # Else its workers are nobody, who may not enter the folder of a test. Debian has the part for streams apart.
    first = "user root;\n" if os.getuid() == 0 else ""
    return first + (f"load_module {NGINX_STREAM};\n" if NGINX_STREAM.exists() else "") + text


class Processes:
    """Starts and stops real services, for tests that break them."""

    free_port = staticmethod(free_port)
    start = staticmethod(start_service)
    stop = staticmethod(stop_service)
    workers = staticmethod(workers_of)
    wait = staticmethod(wait_for_answer)
    balancer = staticmethod(run_balancer)


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
