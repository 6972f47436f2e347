"""What is done to the holes of a part away from the spindle, in order: masks, finishes, inspections, inserts."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from .model import AwayFromSpindle, PlannedHole
from .used_tools import staged


def away_from_spindle(planned: Iterable[PlannedHole]) -> tuple[AwayFromSpindle, ...]:
    """Every operation of the holes ``planned`` that no tool in the spindle does, once, with the holes that need it.

    It stands after the set-up that it follows: a thread is gauged after the set-up that taps it and, where a finish
    changes it, again after the finish.

    Source: the operations of the holes.
    """
    found: dict[tuple[int, int, str, str], list[str]] = {}
    for one in planned:
        for is_at_spindle, run in groupby(staged(one.specification), key=lambda step: step[2]):
            for place, (stage, line, _) in enumerate(() if is_at_spindle else run):
                found.setdefault((stage + 1, place, line.operation, line.text), []).append(one.hole.name)
    return tuple(
        AwayFromSpindle(stage, operation, text, tuple(holes))
        for (stage, _, operation, text), holes in sorted(found.items(), key=lambda item: item[0][:2])
    )
