"""Cutting speeds of high-speed steel drills and taps by material and hardness, and feeds of drills."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import cast

from ... import tables
from ..model import Status
from .profile import Profile, groups_of

M_MIN_PER_FT_MIN = 0.3048


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
        """Whether the row speaks for that hardness; an unknown one is inside every row."""
        if hardness_hb is None:
            return True
        return (self.hb_from is None or hardness_hb > self.hb_from) and (
            self.hb_to is None or hardness_hb <= self.hb_to
        )


@dataclass(frozen=True, slots=True)
class Speed:
    """The speed to start with, inside the range of what is printed, in ft/min; ``ceiling`` is for taps."""

    value_ft_min: float
    low_ft_min: float
    high_ft_min: float
    row: SpeedRow
    ceiling_ft_min: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class FeedRow:
    """Feed range of drills up to a diameter, inches and inches a revolution."""

    to_in: float | None
    low_in_rev: float
    high_in_rev: float


@lru_cache(2048)
def drilling_speed(material: Profile) -> Speed | None:
    """Speed of a drill: the row by hardness before the general one, published before remembered, low end of a range.

    Source: drilling_speeds table.
    """
    rows = [row for row in _drilling().get(material.row.speed_group, ()) if row.covers(material.hardness_hb)]
    if not rows:
        return None
    chosen = min(rows, key=lambda row: (_RANK[row.kind], _STATUS_RANK[row.status], row.low_ft_min))
    return Speed(chosen.low_ft_min, min(row.low_ft_min for row in rows), max(row.high_ft_min for row in rows), chosen)


@lru_cache(2048)
def tapping_speed(material: Profile) -> Speed | None:
    """Speed of a tap to start with: the low end of the common range, with the handbook's ceiling (coarse, fine pitch).

    Source: tapping_speeds and tapping_speed_ceilings tables.
    """
    rows = [row for row in _tapping().get(material.row.speed_group, ()) if row.covers(material.hardness_hb)]
    if not rows:
        return None
    chosen = min(rows, key=lambda row: row.low_ft_min) if material.hardness_hb is None else rows[0]
    ceilings = _ceilings().get(material.row.speed_group, ())
    fitting = [row for row in ceilings if row.covers(material.hardness_hb)]
    ceiling = (fitting[0].low_ft_min, fitting[0].high_ft_min) if fitting else None
    return Speed(chosen.low_ft_min, chosen.low_ft_min, chosen.high_ft_min, chosen, ceiling)


def drilling_feed(diameter_in: float) -> FeedRow:
    """Feed range of a twist drill.

    Source: NAVEDTRA 14345, drilling page.
    """
    for row in _feeds():
        if row.to_in is None or diameter_in <= row.to_in:
            return row
    return _feeds()[-1]


def depth_factors(depth_over_diameter: float) -> tuple[float, float]:
    """Factors on speed and feed of a drill for a deep hole.

    Source: common practice.
    """
    factors = (1.0, 1.0)
    for depth_from_d, of_depth in _depth_factors():
        if depth_over_diameter >= depth_from_d:
            factors = of_depth
    return factors


@cache
def _depth_factors() -> tuple[tuple[float, tuple[float, float]], ...]:
    rows = tables.load("drilling_depth_factors").rows
    return tuple((float(row["depth_from_d"]), (float(row["speed_factor"]), float(row["feed_factor"]))) for row in rows)


@cache
def factor(name: str) -> float:
    """A factor of the tapping table.

    Source: tapping_factors table.
    """
    return next(float(row["value"]) for row in tables.load("tapping_factors").rows if row["factor"] == name)


_RANK = {"by_hardness": 0, "general": 1, "second_hand": 2}
_STATUS_RANK = {"published": 0, "computed": 1, "common_practice": 2, "from_memory": 3}


def _row(cells: Mapping[str, str], low: str, high: str) -> SpeedRow:
    return SpeedRow(
        kind=cells.get("kind", "general"),
        hb_from=float(cells["hb_from"]) if cells.get("hb_from") else None,
        hb_to=float(cells["hb_to"]) if cells["hb_to"] else None,
        low_ft_min=float(cells[low]),
        high_ft_min=float(cells[high]),
        printed_as=cells["printed_as"],
        source=cells.get("source", ""),
        status=cast("Status", cells["status"]),
    )


def _grouped(name: str, low: str, high: str) -> Mapping[str, tuple[SpeedRow, ...]]:
    found: dict[str, tuple[SpeedRow, ...]] = {}
    for cells in tables.load(name).rows:
        for group in groups_of(cells["speed_group"]):
            found[group] = (*found.get(group, ()), _row(cells, low, high))
    return found


@cache
def _drilling() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("drilling_speeds", "low_ft_min", "high_ft_min")


@cache
def _tapping() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("tapping_speeds", "low_ft_min", "high_ft_min")


@cache
def _ceilings() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("tapping_speed_ceilings", "coarse_ft_min", "fine_ft_min")


@cache
def _feeds() -> tuple[FeedRow, ...]:
    return tuple(
        FeedRow(float(row["to_in"]) if row["to_in"] else None, float(row["low_in_rev"]), float(row["high_in_rev"]))
        for row in tables.load("drilling_feeds").rows
    )
