"""gunicorn with the project's own configuration, and what its workers use."""

from __future__ import annotations

import compileall
import http.client
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from functools import cache
from pathlib import Path

import borewright

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
JSON = {"Content-Type": "application/json"}
HOLE = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
}
START_SECONDS = 30

Server = subprocess.Popen[bytes]


def serving(application: str, port: int, *, workers: int = 2, **settings: str) -> AbstractContextManager[Server]:
    """The service: gunicorn with the project's own configuration."""
    given = {
        "BOREWRIGHT_BIND": f"127.0.0.1:{port}",
        "BOREWRIGHT_WORKERS": str(workers),
        "BOREWRIGHT_LOG_LEVEL": "warning",
    }
    return _started(
        ["--config", str(ROOT / "docker" / "gunicorn_conf.py"), application], port, workers, given | settings
    )


def bare(port: int, *, workers: int = 2, **settings: str) -> AbstractContextManager[Server]:
    """The floor, on gunicorn's own threaded worker."""
    options = f"--bind 127.0.0.1:{port} --workers {workers} --worker-class gthread --threads 4 --keep-alive 15"
    options += " --preload --reuse-port --no-control-socket --log-level warning floor:app"
    return _started(options.split(), port, workers, settings)


@cache
def _compile() -> None:
    """Have Python compile the service as it does what is installed: from a checkout each start would do it anew."""
    compileall.compile_dir(Path(borewright.__file__).parent, quiet=1)


@contextmanager
def _started(options: list[str], port: int, workers: int, settings: dict[str, str]) -> Iterator[Server]:
    command = [str(Path(sys.executable).with_name("gunicorn")), *options]
    path = os.pathsep.join((str(HERE), os.environ.get("PYTHONPATH", "")))
    _compile()
    service = subprocess.Popen(command, env={**os.environ, "PYTHONPATH": path, **settings})
    try:
        wait(port, workers)
        yield service
    finally:
        service.send_signal(signal.SIGTERM)
        service.wait(START_SECONDS)


def wait(port: int, workers: int) -> None:
    """Until the service answers and all workers listen, each on a socket of its own."""
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline:
        try:
            with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=1)) as connection:
                connection.request("GET", "/health/ready")
                if connection.getresponse().status == 200 and listening(port) == workers:
                    return
        except OSError:
            time.sleep(0.005)
    raise RuntimeError("the service did not start")


def listening(port: int) -> int:
    """Sockets that listen on a port of this machine."""
    rows = Path("/proc/net/tcp").read_text("ascii").splitlines()[1:]
    return sum(row.split()[1].endswith(f":{port:04X}") and row.split()[3] == "0A" for row in rows)


def workers(master: int) -> list[int]:
    """Processes of the workers."""
    return [int(child) for child in Path(f"/proc/{master}/task/{master}/children").read_text("ascii").split()]


def memory_mib(process: int, kind: str = "VmRSS") -> float:
    """Memory of a process as the kernel counts it: VmRSS now, VmHWM at most."""
    found = re.search(rf"^{kind}:\s+([0-9]+) kB", Path(f"/proc/{process}/status").read_text("ascii"), re.MULTILINE)
    assert found is not None
    return int(found[1]) / 1024


def cpu_seconds(process: int) -> float:
    """Processor time of all threads of a process."""
    threads = Path(f"/proc/{process}/task").iterdir()
    return sum(int((thread / "schedstat").read_text("ascii").split()[0]) for thread in threads) / 1e9
