"""Goal 5: start to the first answer, and the memory of a worker."""

from __future__ import annotations

import time
from statistics import median

from rows import Row, at_most
from serving import memory_mib, serving, workers
from single_requests import load


def start(*, port: int) -> list[Row]:
    """Starts three times each, and serves different requests for two seconds."""
    ours, floor, memory = [], [], 0.0
    for round_ in range(3):
        began = time.monotonic()
        with serving("floor:app", port + 2 * round_, FLOOR_BYTES="2"):
            floor.append(time.monotonic() - began)
        began = time.monotonic()
        with serving("borewright.api.wsgi:app", port + 2 * round_ + 1) as service:
            ours.append(time.monotonic() - began)
            load(port + 2 * round_ + 1, "different.lua", seconds=2)
            memory = max(memory, *map(memory_mib, workers(service.pid)))
    figure = f"{median(ours) * 1000:.0f} / {median(floor) * 1000:.0f} ms"
    return [
        at_most("start to first answer / bare Flask", figure, median(ours) / median(floor), 1.5),
        at_most("memory of a worker, MiB / 60", f"{memory:.0f} MiB", memory / 60, 1),
    ]
