"""Printed cutting speeds by hardness as one line that only falls: no cliffs, and harder metal is never faster.

A printed speed holds at the middle of its range of hardness, between two middles it is interpolated linearly; a softer
metal is at least as fast as a harder one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf

from borewright.core.model import Status
from borewright.core.practice import number

#: Half of a usual range of hardness: how far from its one end an open range is taken to have its middle.
_HALF_RANGE_HB = number("open_speed_range_hb")


@dataclass(frozen=True, slots=True)
class SpeedRow:
    """One printed cutting speed, in ft/min, for a range of hardness; None = open."""

    kind: str
    hb_from: float | None
    hb_to: float | None
    low_ft_min: float
    high_ft_min: float
    printed_as: str
    source: str
    status: Status

    def covers(self, hardness_hb: float | None) -> bool:
        """Whether the row speaks for ``hardness_hb``; an unknown one is inside every row."""
        if hardness_hb is None:
            return True
        return (self.hb_from is None or hardness_hb > self.hb_from) and (
            self.hb_to is None or hardness_hb <= self.hb_to
        )


@dataclass(frozen=True, slots=True)
class Point:
    """Speed to start with and the range of what is printed, ft/min, at a hardness; ``row`` is the one used."""

    hardness_hb: float
    value: float
    low: float
    high: float
    row: SpeedRow


@dataclass(frozen=True, slots=True)
class Curve:
    """Points from soft to hard, none faster than the one before; nothing is held beyond ``hardest_hb``."""

    points: tuple[Point, ...]
    hardest_hb: float

    def around(self, hardness_hb: float) -> tuple[Point, Point] | None:
        """The points on both sides of ``hardness_hb``, an end twice outside them, None beyond what is held."""
        if hardness_hb > self.hardest_hb:
            return None
        for soft, hard in pairwise(self.points):
            if soft.hardness_hb <= hardness_hb <= hard.hardness_hb:
                return soft, hard
        end = self.points[0] if hardness_hb < self.points[0].hardness_hb else self.points[-1]
        return end, end


def curve(
    rows: Sequence[SpeedRow],
    choose: Callable[[Sequence[SpeedRow]], SpeedRow],
    ranged: Callable[[Sequence[SpeedRow], SpeedRow], Sequence[SpeedRow]],
) -> Curve:
    """The falling line of some rows.

    Args:
        choose: which of the rows that speak for a hardness is used.
        ranged: which of them the range is told from.

    Source: the rows; interpolation and order are our own reading.
    """
    points: list[Point] = []
    for low_hb, high_hb in _stretches(rows):
        here = [row for row in rows if _speaks(row, low_hb, high_hb)]
        if here:
            row = choose(here)
            told = ranged(here, row)
            ends = min(one.low_ft_min for one in told), max(one.high_ft_min for one in told)
            figures = row.low_ft_min, *ends
            if points:
                softer = points[-1]
                figures = min(figures[0], softer.value), min(figures[1], softer.low), min(figures[2], softer.high)
            points.append(Point(_middle(low_hb, high_hb), *figures, row))
    return Curve(tuple(points), max(inf if row.hb_to is None else row.hb_to for row in rows))


def _stretches(rows: Sequence[SpeedRow]) -> list[tuple[float, float]]:
    """Ranges of hardness between the ends of all rows."""
    ends = {end for row in rows for end in (row.hb_from, row.hb_to) if end is not None}
    return list(pairwise((-inf, *sorted(ends), inf)))


def _speaks(row: SpeedRow, low_hb: float, high_hb: float) -> bool:
    return (row.hb_from is None or row.hb_from <= low_hb) and (row.hb_to is None or high_hb <= row.hb_to)


def _middle(low_hb: float, high_hb: float) -> float:
    if low_hb == -inf:
        return 0.0 if high_hb == inf else high_hb - _HALF_RANGE_HB
    return low_hb + _HALF_RANGE_HB if high_hb == inf else (low_hb + high_hb) / 2
