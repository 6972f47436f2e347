"""What a worker keeps of whole cribs is bounded: a few, not one for every request."""

from __future__ import annotations

import gc
import tracemalloc
from collections.abc import Callable

import pytest
from borewright.api import create_app
from borewright.api.settings import Settings

HOLE = {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 1}}
#: Twelve cribs are more than the few that are kept, and their drills more than are held one by one.
REQUESTS = 12


def with_drills(number: int) -> dict[str, object]:
    return {**HOLE, "stock": {"drills": [f"{10 + number / 1e4 + place / 100:.4f} mm" for place in range(300)]}}


def with_taps(number: int) -> dict[str, object]:
    return {**HOLE, "stock": {"taps": [f"1/2-13 HSS H{place % 9} {place}" for place in range(100) if place != number]}}


def kept_bytes(make: Callable[[int], dict[str, object]]) -> float:
    """What each request more leaves behind, once the few large keys that are kept have been seen."""
    client = create_app(Settings(response_cache_bytes=0)).test_client()

    def ask(first: int) -> int:
        for number in range(first, first + REQUESTS):
            assert client.post("/v1/hole-specs", json=make(number)).status_code == 200
        gc.collect()
        return tracemalloc.get_traced_memory()[0]

    tracemalloc.start()
    try:
        before = ask(0)
        return (ask(REQUESTS) - before) / REQUESTS
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize("make", [with_taps, pytest.param(with_drills, marks=pytest.mark.long)])
def test_a_whole_crib_is_not_kept_for_every_request(make):
    """Three hundred drills that are weighed take 250 KB, a hundred taps with their words 150; a usual hole 20 to 40."""
    assert kept_bytes(make) < 60_000
