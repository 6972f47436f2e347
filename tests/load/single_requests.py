"""Goals 1, 2 and 6: different requests, the same request, two workers against one, asked by wrk."""

from __future__ import annotations

import http.client
import json
import re
import subprocess
from contextlib import closing
from dataclasses import dataclass

from rows import Row, at_least, at_most
from serving import HERE, HOLE, JSON, serving


@dataclass(frozen=True)
class Load:
    """What wrk saw."""

    per_second: float
    p99_ms: float


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
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.request("POST", "/v1/hole-specs", json.dumps(HOLE), JSON)
        return len(connection.getresponse().read())


def single_requests(*, seconds: int, port: int) -> list[Row]:
    """Each application twice, the better round counts."""
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
    figure = f"{fresh.p99_ms:.1f} / {base.p99_ms:.1f} ms"
    return [
        at_least("different requests / bare Flask", fresh.per_second, base.per_second, 0.5, "/s"),
        at_least("the same request / bare Flask", again.per_second, base.per_second, 0.95, "/s"),
        at_least("two workers / one worker", fresh.per_second, alone.per_second, 1.9, "/s"),
        at_most("p99, different requests / bare Flask", figure, fresh.p99_ms / base.p99_ms, 3),
    ]


def best(loads: list[Load]) -> Load:
    return max(loads, key=lambda seen: seen.per_second)
