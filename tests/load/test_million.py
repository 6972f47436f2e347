"""A very long batch: nothing lost, order kept, memory flat. The short run is of some thousand items."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import batches
from serving import memory_mib, workers

#: Most that a batch may move a worker's peak of memory.
MOST_MIB = 32
#: Answers of the short run are some 65 MB: more than that where they are kept.
DIFFERENT = [2_500, pytest.param(1_000_000, marks=pytest.mark.long)]


def sent(items: int) -> Iterator[bytes]:
    return (batches.line(number) for number in range(items))


@pytest.mark.parametrize("items", DIFFERENT)
def test_straight_to_a_worker(processes, items, tell):
    """Every item is different; each line of the answer is the next one of what was asked."""
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_WORKERS="1")
    try:
        (worker,) = workers(service.pid)
        for _ in batches.post(port, batches.lines(200, unique=1, first=10**7)):
            pass
        before, number = memory_mib(worker, "VmHWM"), 0
        for block in batches.post(port, sent(items)):
            for line in block.splitlines():
                assert line.startswith(b'{"index":%d,"id":"KRP-%d","status":"ok","spec":{' % (number, number))
                number += 1
        assert number == items
        grown = memory_mib(worker, "VmHWM") - before
        tell(f"{items:,} items to one worker, its peak of memory moved by {grown:.0f} MiB")
        assert grown < MOST_MIB
    finally:
        processes.stop(service)
