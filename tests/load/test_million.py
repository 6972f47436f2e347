"""Very long batches: nothing lost, order kept, memory flat; to a worker, and through nginx with workers killed.

The short runs are of some thousand items, the long ones of a million.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Thread

import pytest
from borewright_client import Client

sys.path.insert(0, str(Path(__file__).parent))
import batches
from serving import memory_mib, workers

#: Most that a batch may move a worker's peak of memory.
MOST_MIB = 32
#: Answers of the short run are some 65 MB: more than that where they are kept.
DIFFERENT = [2_500, pytest.param(1_000_000, marks=pytest.mark.long)]
SIZES = [6_000, pytest.param(1_000_000, marks=pytest.mark.long)]


@pytest.fixture
def tell(capsys) -> Callable[[str], None]:
    """Shows a figure of a run with its seconds."""
    began = time.monotonic()

    def show(text: str) -> None:
        with capsys.disabled():
            print(f"\n{text}: {time.monotonic() - began:.0f} s")

    return show


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


@pytest.mark.parametrize("items", SIZES)
def test_through_nginx_with_a_worker_killed(farm, items, tell):
    """The client's results are whole and in order though the worker that answers is killed in the middle."""
    with Client(farm.url, retries=5, timeout=60) as client:
        holes = ({"id": f"KRP-{n}", "thread": "M8", "hole": {"type": "through", "thickness": 12}} for n in range(items))
        number = 0
        for result in client.batch(holes):
            assert (result["index"], result["id"], result["status"]) == (number, f"KRP-{number}", "ok")
            number += 1
            if number == items // 2:
                killing = Thread(target=kill_all_workers, args=(farm,))
                killing.start()
        killing.join()
        tell(f"{items:,} items by the client through nginx, all workers killed in the middle")
        assert number == items


def kill_all_workers(farm) -> None:
    """Whichever worker answers: all of the first service, then, once they are back, all of the second."""
    for port in farm.services:
        killed = farm.workers(port)
        for worker in killed:
            os.kill(worker, signal.SIGKILL)
        farm.replaces(port, set(killed))
