"""What every cache takes when it is full, as the table of DEVELOPERS.md: ``python cache_bytes.py [COMBINATIONS]``.

The caches are filled with new combinations, then emptied one after the other, the outer ones first: what each one
frees is what it alone kept. Those that are not full are reckoned up to their bound.
"""

from __future__ import annotations

import gc
import sys
import tracemalloc
from collections.abc import Iterator
from itertools import groupby

import orjson
from borewright.api import create_app
from borewright.api.settings import Settings
from borewright.core import caches
from borewright.core.caches import LARGE_KEYS, Cache
from routings import combinations, lines
from worker_memory import batches

LAYERS = ("contract.sections", "contract", "core.plan", "core")
COMBINATIONS = 2500
HEAD = "| cache | key | entries | KiB when full |\n|---|---|---|---|"


def layer(one: Cache) -> int:
    """Place of a cache, the outer ones first."""
    return next(place for place, name in enumerate(LAYERS) if one.name.startswith(name))


def freed(one: Cache) -> float:
    """Bytes that a cache takes when it is full; it is empty afterwards."""
    held, before = one.held, tracemalloc.get_traced_memory()[0]
    one.clear()
    gc.collect()
    taken = before - tracemalloc.get_traced_memory()[0]
    return taken if one.of_tables else taken / max(held, 1) * one.entries


def rows(taken: list[tuple[Cache, float]]) -> list[str]:
    """A row for each cache by its name; what is read from the tables is one row."""
    found = [HEAD]
    of_requests = sorted((pair for pair in taken if not pair[0].of_tables), key=lambda pair: pair[0].name)
    for name, group in groupby(of_requests, key=lambda pair: pair[0].name):
        same = list(group)
        one, kib = same[0][0], sum(size for _, size in same) / 1024
        bound = f"{len(same)} x {one.entries}" if len(same) > 1 else f"{one.entries}"
        found.append(f"| `{name}` | {', '.join(one.key)} | {bound} | {kib:,.0f} |")
    of_tables = [size for one, size in taken if one.of_tables]
    read = f"{len(of_tables)} of what is read from tables"
    found.append(f"| {read} | none, or a name, unit, system | all | {sum(of_tables) / 1024:,.0f} |")
    found.append(f"| together | | | {sum(size for _, size in taken) / 1024:,.0f} |")
    return found


def whole_cribs() -> Iterator[bytes]:
    """Lines with the longest lists of tools at hand that a request may have, each with others: what large keys are."""
    for number in range(LARGE_KEYS):
        drills = [f"{10 + number / 1e4 + place / 1000:.4f} mm" for place in range(2000)]
        taps = [f"1/2-13 HSS H{place % 9} {number}-{place}" for place in range(1000)]
        for stock in ({"drills": drills}, {"taps": taps}):
            for objective in ("chart", "least_torque"):
                hole = {"type": "blind", "full_thread_depth": 1}
                asked = {"thread": "1/2-13 UNC-2B", "hole": hole, "stock": stock, "objective": objective}
                yield orjson.dumps(asked) + b"\n"


def answer(waiting: Iterator[bytes]) -> None:
    """Answer lines in batches in this process."""
    client = create_app(Settings(max_cpu_ms=3_600_000)).test_client()  # measuring is slow
    for batch in batches(waiting):
        client.post("/v1/hole-specs/batch", data=batch, content_type="application/x-ndjson").get_data()


def main() -> None:
    tracemalloc.start()
    answer(whole_cribs())
    answer(lines(combinations(int(sys.argv[1]) if len(sys.argv) > 1 else COMBINATIONS)))
    gc.collect()
    print("\n".join(rows([(one, freed(one)) for one in sorted(caches.caches(), key=layer)])))


if __name__ == "__main__":
    main()
