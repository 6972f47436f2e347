"""Invented routings of Kestrel Ridge Pumps: parts with patterns of equal holes, every hole with an id of its own."""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent / "contract"))
from combinations import hole_spec

Body = dict[str, Any]

UNIFIED = (
    "1/4-20 UNC-2B",
    "5/16-18 UNC-2B",
    "3/8-16 UNC-2B",
    "1/2-13 UNC-2B",
    "#10-32 UNF-2B",
    "3/8-24 UNF-2B",
    "5/8-11 UNC-2B",
)
METRIC = ("M5x0.8-6H", "M6x1-6H", "M8x1.25-6H", "M10x1.5-6H", "M12x1.75-6H", "M16x2-6H")
PIPE = ("1/4-18 NPT", "1/2-14 NPT", "G 1/4")
MATERIALS = ("4140", "6061-T6", "304", "1018", "grey iron", "A356", "316", "4340 at 32 HRC", "C36000")
FINISHES = ("ASTM B633 Fe/Zn 8", "ASTM B633 Fe/Zn 5", "black oxide", "ASTM B733 SC2")
DIAMETERS_DEEP = (1.0, 1.25, 1.5, 2.0, 2.5)
SCREWS = {
    "inch": (None, {"class": "2A"}, {"class": "3A"}),
    "metric": (None, {"class": "6g"}, {"grade": "ISO 898-1 8.8"}),
}
#: Equal holes of a pattern: bolt circles, corners, single ports.
PATTERNS = (1, 1, 1, 2, 3, 4, 4, 6)


def routing(holes: int, *, seed: int = 1) -> Iterator[Body]:
    """Bodies of POST /v1/hole-specs, about a third of them different but for their id."""
    draw = random.Random(seed)
    number = 0
    while number < holes:
        part, material = f"KRP-{draw.randrange(1000, 9999)}", draw.choice(MATERIALS)
        finish = draw.choice((None, *FINISHES))
        own = draw.sample(UNIFIED, 3) if draw.random() < 0.6 else draw.sample(METRIC, 3)
        for _ in range(draw.randint(2, 5)):
            hole = _hole(draw, draw.choice((*own, *own, draw.choice(PIPE))), material, finish)
            for place in range(draw.choice(PATTERNS)):
                number += 1
                if number <= holes:
                    yield {"id": f"{part}-{number}-{place}", **hole}


def _hole(draw: random.Random, thread: str, material: str, finish: str | None) -> Body:
    metric = thread.startswith("M")
    size = draw.uniform(5, 16) if metric else draw.uniform(0.2, 0.6)
    depth = f"{size * draw.choice(DIAMETERS_DEEP):.1f} mm" if metric else f"{size * draw.choice(DIAMETERS_DEEP):.2f} in"
    kind = draw.choice(("blind", "blind", "through"))
    hole: Body = {"type": kind, "full_thread_depth" if kind == "blind" else "thickness": depth}
    body: Body = {"thread": thread, "hole": hole, "material": material}
    if finish is not None and "NPT" not in thread and not thread.startswith("G"):
        body["finish"] = finish
    return body


def other_ids(count: int) -> Iterator[Body]:
    """The same hole, each time with another id."""
    hole = _plated("0.75 in")
    return ({"id": f"KRP-4105-{number}", **hole} for number in range(count))


def depths_only(count: int, *, first: int = 0) -> Iterator[Body]:
    """Holes that differ in nothing but their depth, and their ids."""
    return (
        {"id": f"KRP-{number}", **_plated(f"{0.5 + number * 1e-6:.6f} in")} for number in range(first, first + count)
    )


def _plated(depth: str) -> Body:
    hole = {"type": "blind", "full_thread_depth": depth}
    return {"thread": "3/8-16 UNC-2B", "hole": hole, "material": "4140", "finish": "ASTM B633 Fe/Zn 8"}


def crossed(count: int, *, seed: int = 1) -> Iterator[Body]:
    """Holes of threads, materials, finishes and screws that were not asked for together before, in a mixed order.

    A finish comes back on other materials, a thread with other screws. Some 3,500 are different.
    """
    every = [
        (thread, depth, *others)
        for system, threads, depth in (("inch", UNIFIED, "0.7 in"), ("metric", METRIC, "16 mm"))
        for thread, *others in product(threads, SCREWS[system], MATERIALS, (None, *FINISHES), ("blind", "through"))
    ]
    random.Random(seed).shuffle(every)
    for number, (thread, depth, screw, material, finish, kind) in enumerate(every[:count]):
        hole = {"type": kind, "full_thread_depth" if kind == "blind" else "thickness": depth}
        body = {"id": f"KRP-{number}", "thread": thread, "hole": hole, "material": material}
        more = {"finish": finish, "mating_screw": screw}
        yield body | {name: value for name, value in more.items() if value is not None}


def combinations(count: int, *, seed: int = 7_000_000) -> Iterator[Body]:
    """Bodies that cross the whole catalogue with every option, some of them refused; every one is different."""
    for number in range(count):
        yield {"id": f"KRP-{number}", **hole_spec(seed + number)}


def lines(bodies: Iterator[Body]) -> Iterator[bytes]:
    """The bodies as lines of a batch."""
    return (json.dumps(body).encode() + b"\n" for body in bodies)
