"""Single requests against a bare Flask route that returns as many bytes: routings, depths, other ids, two workers.

Service and floor take turns, round after round, each asked by wrk over sixteen kept connections. Beside the rate stands
the processor time that a request takes of the workers, which whoever else uses the machine changes less.
"""

from __future__ import annotations

import http.client
import re
import subprocess
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass
from itertools import count, islice
from pathlib import Path
from statistics import mean, median
from tempfile import TemporaryDirectory

from batches import line
from routings import Body, depths_only, lines, other_ids, routing
from rows import Row, at_least, at_most, of_rounds
from serving import HERE, HOLE, JSON, Server, bare, cpu_seconds, serving, workers

PATH = "/v1/hole-specs"
#: More requests a second than any server here answers.
MOST_A_SECOND = 30_000
_SAMPLE = 60


@dataclass(frozen=True)
class Load:
    """What wrk saw, and the processor time of a request."""

    per_second: float
    p99_ms: float
    cpu_s: float


@dataclass(frozen=True)
class Mix:
    """Bodies that are asked for one after the other, and the goal of their rate over the floor's."""

    name: str
    bodies: Iterator[bytes]
    goal: float


def mixes() -> list[Mix]:
    """Every mix of requests; none runs dry."""
    endless = 10**9
    same: Body = {**HOLE, "id": "KRP-4105-D1"}
    return [
        Mix("routing mix", lines(routing(endless)), 0.5),
        Mix("depth only", lines(depths_only(endless)), 0.6),
        Mix("different requests", (line(number) for number in count(10**7)), 0.5),
        Mix("same hole, other id", lines(other_ids(endless)), 0.95),
        Mix("the same request", lines(same for _ in count()), 0.95),
    ]


def single_requests(ours: Server, *, seconds: float, rounds: int, port: int) -> list[Row]:
    """Each mix in rounds, service and floor in turns; the first one also against a single worker.

    Args: ``ours``, the service on ``port``; the others are started on the ports behind it.
    """
    every = mixes()
    with TemporaryDirectory() as folder:
        ask = _asker(Path(folder), seconds)
        sizes = ",".join(f"{mean(_sizes(port, mix.bodies)):.0f}" for mix in every)
        with (
            bare(port + 1, FLOOR_BYTES=sizes) as floor,
            serving("borewright.api.wsgi:app", port + 2, workers=1) as alone,
            bare(port + 3, workers=1, FLOOR_BYTES=sizes) as floor_alone,
        ):
            found = [
                [
                    (ask(port, PATH, ours, mix.bodies), ask(port + 1, f"/{place}", floor, mix.bodies))
                    for _ in range(rounds)
                ]
                for place, mix in enumerate(every)
            ]
            one = [
                (ask(port + 2, PATH, alone, every[0].bodies), ask(port + 3, "/0", floor_alone, every[0].bodies))
                for _ in range(rounds)
            ]
    return [
        *(_row(mix, rounds) for mix, rounds in zip(every, found, strict=True)),
        _two_workers(found[0], one),
        _p99(found[0]),
    ]


def _row(mix: Mix, rounds: list[tuple[Load, Load]]) -> Row:
    processor = median(mine.cpu_s / floor.cpu_s for mine, floor in rounds)
    return of_rounds(
        f"{mix.name} / bare Flask",
        [(mine.per_second, floor.per_second) for mine, floor in rounds],
        mix.goal,
        f"processor {processor:.2f}x",
    )


def _two_workers(two: list[tuple[Load, Load]], one: list[tuple[Load, Load]]) -> Row:
    """What a second worker adds, beside what it adds to the floor: wrk takes its share of the same cores."""
    (ours, floor), (alone, floor_alone) = (map(_rate, zip(*rounds, strict=True)) for rounds in (two, one))
    unit = f"/s, bare Flask {floor / floor_alone:.2f}x"
    return at_least("two workers / one worker", ours, alone, 1.9, unit)


def _p99(rounds: list[tuple[Load, Load]]) -> Row:
    mine, floor = (median(one.p99_ms for one in side) for side in zip(*rounds, strict=True))
    return at_most("p99, routing mix / bare Flask", f"{mine:.1f} / {floor:.1f} ms", mine / floor, 2)


def _rate(loads: Iterable[Load]) -> float:
    return median(one.per_second for one in loads)


def _sizes(port: int, bodies: Iterator[bytes]) -> Iterator[int]:
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        for body in islice(bodies, _SAMPLE):
            connection.request("POST", PATH, body, JSON)
            yield len(connection.getresponse().read())


def _asker(folder: Path, seconds: float) -> Callable[[int, str, Server, Iterator[bytes]], Load]:
    """What asks a server for the next bodies of a mix."""
    written, most = folder / "lines", int(seconds * MOST_A_SECOND)

    def ask(port: int, path: str, server: Server, bodies: Iterator[bytes]) -> Load:
        written.write_bytes(b"".join(islice(bodies, most)))
        before = sum(map(cpu_seconds, workers(server.pid)))
        rate, p99_ms, requests = _wrk(port, path, written, seconds)
        assert requests < most, "bodies were asked for twice"
        return Load(rate, p99_ms, (sum(map(cpu_seconds, workers(server.pid))) - before) / requests)

    return ask


def _wrk(port: int, path: str, bodies: Path, seconds: float) -> tuple[float, float, int]:
    """Requests a second, the slowest of a hundred in ms, and requests."""
    # Told to end before its time wrk tells what it saw until then; of itself it knows whole seconds only.
    done = subprocess.run(
        [
            *("timeout", "--signal=INT", "--preserve-status", str(seconds), "wrk", "-t1", "-c16", "-d1h", "--latency"),
            *("-s", str(HERE / "lines.lua"), f"http://127.0.0.1:{port}"),
        ],
        capture_output=True,
        text=True,
        check=True,
        env={"LOAD_LINES": str(bodies), "LOAD_PATH": path, "PATH": "/usr/local/bin:/usr/bin:/bin"},
    )
    assert "Non-2xx" not in done.stdout, done.stdout
    rate = re.search(r"Requests/sec:\s+([0-9.]+)", done.stdout)
    p99 = re.search(r"99%\s+([0-9.]+)(us|ms|s)", done.stdout)
    requests = re.search(r"([0-9]+) requests in", done.stdout)
    assert rate is not None, done.stdout
    assert p99 is not None, done.stdout
    assert requests is not None, done.stdout
    return float(rate[1]), float(p99[1]) * {"us": 0.001, "ms": 1.0, "s": 1000.0}[p99[2]], int(requests[1])
