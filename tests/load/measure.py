"""Measures the service against floors in one run and writes a Markdown table and a JSON file.

Run: `bash tests/run long tests/load`, or `python tests/load/measure.py [FOLDER]`. Absolute figures drift on shared
machines; the ratios within one run are what counts. Needs wrk (Debian package).
"""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Any

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
HOLE = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
}
START_SECONDS = 30


@dataclass(frozen=True)
class Row:
    """One goal: what was measured, the ratio and the goal."""

    name: str
    figure: str
    ratio: float
    goal: str
    reached: bool


@dataclass(frozen=True)
class Load:
    """What wrk saw."""

    per_second: float
    p99_ms: float


@contextmanager
def serving(application: str, port: int, *, workers: int = 2, **settings: str) -> Iterator[subprocess.Popen[bytes]]:
    """gunicorn with the project's own configuration."""
    command = [str(Path(sys.executable).with_name("gunicorn")), "--config", str(ROOT / "docker" / "gunicorn_conf.py")]
    environment = {
        **os.environ,
        "BOREWRIGHT_BIND": f"127.0.0.1:{port}",
        "BOREWRIGHT_WORKERS": str(workers),
        "BOREWRIGHT_LOG_LEVEL": "warning",
        "PYTHONPATH": str(HERE),
        **settings,
    }
    service = subprocess.Popen([*command, application], env=environment)
    try:
        wait(port)
        yield service
    finally:
        service.send_signal(signal.SIGTERM)
        service.wait(START_SECONDS)


def wait(port: int) -> None:
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline:
        try:
            connection = http.client.HTTPConnection("127.0.0.1", port, timeout=1)
            connection.request("GET", "/health/ready")
            if connection.getresponse().status == 200:
                return
        except OSError:
            time.sleep(0.005)
    raise RuntimeError("the service did not start")


def load(port: int, script: str, *, seconds: int) -> Load:
    """Sixteen kept connections from one process of wrk."""
    done = subprocess.run(
        ["wrk", "-t1", "-c16", f"-d{seconds}s", "--latency", "-s", str(HERE / script), f"http://127.0.0.1:{port}"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "Non-2xx" not in done.stdout, done.stdout
    rate = re.search(r"Requests/sec:\s+([0-9.]+)", done.stdout)
    p99 = re.search(r"99%\s+([0-9.]+)(us|ms|s)", done.stdout)
    assert rate is not None, done.stdout
    assert p99 is not None, done.stdout
    return Load(float(rate[1]), float(p99[1]) * {"us": 0.001, "ms": 1.0, "s": 1000.0}[p99[2]])


def size_of_reply(port: int) -> int:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    connection.request("POST", "/v1/hole-specs", json.dumps(HOLE), {"Content-Type": "application/json"})
    return len(connection.getresponse().read())


def single_requests(*, seconds: int, port: int) -> list[Row]:
    """Goals 1, 2 and 6: different requests, the same request, two workers against one."""
    with serving("borewright.api.wsgi:app", port):
        size = size_of_reply(port)
    floor, different, same, one = [], [], [], []
    for round_ in range(2):
        at = port + 1 + 4 * round_
        with serving("floor:app", at, FLOOR_BYTES=str(size)):
            floor.append(load(at, "same.lua", seconds=seconds))
        with serving("borewright.api.wsgi:app", at + 1):
            load(at + 1, "different.lua", seconds=1)
            different.append(load(at + 1, "different.lua", seconds=seconds))
            same.append(load(at + 1, "same.lua", seconds=seconds))
        with serving("borewright.api.wsgi:app", at + 2, workers=1):
            load(at + 2, "different.lua", seconds=1)
            one.append(load(at + 2, "different.lua", seconds=seconds))
    base, fresh, again, alone = (best(loads) for loads in (floor, different, same, one))
    return [
        _row("different requests / bare Flask", fresh.per_second, base.per_second, 0.5, "/s"),
        _row("the same request / bare Flask", again.per_second, base.per_second, 0.95, "/s"),
        _row("two workers / one worker", fresh.per_second, alone.per_second, 1.9, "/s"),
        Row(
            "p99, different requests / bare Flask",
            f"{fresh.p99_ms:.1f} / {base.p99_ms:.1f} ms",
            fresh.p99_ms / base.p99_ms,
            "at most 3",
            fresh.p99_ms <= 3 * base.p99_ms,
        ),
    ]


def best(loads: list[Load]) -> Load:
    return max(loads, key=lambda seen: seen.per_second)


def _row(name: str, ours: float, floor: float, goal: float, unit: str) -> Row:
    return Row(name, f"{ours:,.0f} / {floor:,.0f} {unit}", ours / floor, f"at least {goal}", ours >= goal * floor)


def start(*, port: int) -> list[Row]:
    """Goal 5: start to the first answer, and the memory of a worker."""
    ours, floor, memory = [], [], 0.0
    for round_ in range(3):
        began = time.monotonic()
        with serving("floor:app", port + 2 * round_, FLOOR_BYTES="2"):
            floor.append(time.monotonic() - began)
        began = time.monotonic()
        with serving("borewright.api.wsgi:app", port + 2 * round_ + 1) as service:
            ours.append(time.monotonic() - began)
            load(port + 2 * round_ + 1, "different.lua", seconds=2)
            memory = max(memory, worker_memory_mib(service.pid))
    return [
        Row(
            "start to first answer / bare Flask",
            f"{median(ours) * 1000:.0f} / {median(floor) * 1000:.0f} ms",
            median(ours) / median(floor),
            "at most 1.5",
            median(ours) <= 1.5 * median(floor),
        ),
        Row("memory of a worker, MiB / 60", f"{memory:.0f} MiB", memory / 60, "at most 1", memory <= 60),
    ]


def worker_memory_mib(master: int) -> float:
    """Largest proportional set size among the workers."""
    children = Path(f"/proc/{master}/task/{master}/children").read_text(encoding="ascii").split()
    sizes = []
    for child in children:
        rollup = Path(f"/proc/{child}/smaps_rollup").read_text(encoding="ascii")
        found = re.search(r"^Rss:\s+([0-9]+) kB", rollup, re.MULTILINE)
        assert found is not None
        sizes.append(int(found[1]) / 1024)
    return max(sizes)


def client(*, calls: int, port: int) -> list[Row]:
    """Goal 7: what the client adds to http.client and json."""
    from borewright_client import Client

    body = json.dumps(HOLE)
    with serving("borewright.api.wsgi:app", port):
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)

        def plain() -> Any:
            connection.request("POST", "/v1/hole-specs", body, {"Content-Type": "application/json"})
            return json.loads(connection.getresponse().read())

        with Client(f"http://127.0.0.1:{port}") as ours:
            times = [(timed(plain, calls), timed(lambda: ours.hole_spec(HOLE), calls)) for _ in range(3)]
    floor, mine = min(pair[0] for pair in times), min(pair[1] for pair in times)
    return [
        Row(
            "client call / http.client and json",
            f"{mine / calls * 1e6:.0f} / {floor / calls * 1e6:.0f} us",
            mine / floor,
            "at most 2",
            mine <= 2 * floor,
        )
    ]


def timed(call: Any, times: int) -> float:
    call()
    began = time.perf_counter()
    for _ in range(times):
        call()
    return time.perf_counter() - began


def table(rows: list[Row]) -> str:
    lines = ["| measured | figures | ratio | goal | reached |", "|---|---|---|---|---|"]
    lines += [
        f"| {row.name} | {row.figure} | {row.ratio:.2f} | {row.goal} | {'yes' if row.reached else 'no'} |"
        for row in rows
    ]
    return "\n".join(lines) + "\n"


def measure(*, seconds: int, port: int) -> list[Row]:
    return [
        *single_requests(seconds=seconds, port=port),
        *start(port=port + 20),
        *client(calls=100 * seconds, port=port + 40),
    ]


def main() -> int:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / ".run"
    folder.mkdir(exist_ok=True)
    rows = measure(seconds=8, port=28100)
    (folder / "load.md").write_text(table(rows), encoding="utf-8")
    (folder / "load.json").write_text(json.dumps([vars(row) for row in rows], indent=2), encoding="utf-8")
    print(table(rows))
    return 0


if __name__ == "__main__":
    sys.exit(main())
