"""Start to the first specification, and the memory of a worker that has answered many."""

from __future__ import annotations

import http.client
import json
import time
from collections.abc import Callable
from contextlib import AbstractContextManager, closing
from statistics import median

from rows import Row, at_most
from serving import HOLE, JSON, Server, bare, serving
from worker_memory import MOST_MIB, grown

MOST_MS = 450


def start(*, starts: int, port: int) -> list[Row]:
    """Service and floor in turns."""
    ours, floor = [], []
    for round_ in range(starts):
        at = port + 2 * round_
        floor.append(_first_answer_ms(lambda at=at: bare(at), at, "/0"))
        ours.append(
            _first_answer_ms(lambda at=at: serving("borewright.api.wsgi:app", at + 1), at + 1, "/v1/hole-specs")
        )
    spread = f"{min(ours):.0f} to {max(ours):.0f}"
    return [
        at_most(
            "start to first specification, ms / 450", f"{median(ours):.0f} ms, {spread}", median(ours) / MOST_MS, 1
        ),
        at_most(
            "start to first answer / bare Flask",
            f"{median(ours):.0f} / {median(floor):.0f} ms",
            median(ours) / median(floor),
            1.5,
        ),
    ]


def _first_answer_ms(serve: Callable[[], AbstractContextManager[Server]], port: int, path: str) -> float:
    began = time.monotonic()
    with serve(), closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.request("POST", path, json.dumps(HOLE), JSON)
        assert connection.getresponse().status == 200
        return (time.monotonic() - began) * 1000


def memory(*, holes: int, port: int) -> list[Row]:
    """A worker of its own for each mix. Args: ``holes`` of the routing, three tenths as many combinations."""
    found = []
    for mix, most in (("routing", holes), ("combinations", holes * 3 // 10)):
        _, mib, _ = grown(mix, most, port=port)
        found.append(at_most(f"memory after {most:,} of {mix}, MiB / {MOST_MIB}", f"{mib:.0f} MiB", mib / MOST_MIB, 1))
    return found
