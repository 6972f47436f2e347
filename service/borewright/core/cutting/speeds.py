"""Cutting speeds of high-speed steel drills and taps by material and hardness, and feeds of drills."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import cast

from borewright import tables
from borewright.core.caches import OF_MATERIALS, cached, read_once
from borewright.core.materials.profile import CuttingProfile, groups_of
from borewright.core.model import STATUSES, Status

from .speed_curve import Curve, SpeedRow, curve

M_MIN_PER_FT_MIN = 0.3048


@dataclass(frozen=True, slots=True)
class Speed:
    """The speed to start with, inside the range of what is printed, in ft/min; ``ceiling`` is for taps.

    ``between`` holds what it was interpolated from, None where nothing was: the hardness, that of two points, and
    their speeds.
    """

    value_ft_min: float
    low_ft_min: float
    high_ft_min: float
    row: SpeedRow
    between: tuple[float, float, float, float, float] | None = None
    ceiling_ft_min: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class FeedRow:
    """Feed range of drills up to a diameter, inches and inches a revolution."""

    to_in: float | None
    low_in_rev: float
    high_in_rev: float


@cached(OF_MATERIALS)
def drilling_speed(material: CuttingProfile) -> Speed | None:
    """Speed in ft/min of a drill in ``material``: the row by hardness before the general one, published before
    remembered, low end of a range.

    Between the middles of two ranges of hardness the speed is interpolated. Where the hardness is not known the slowest
    row of the best kind is taken.

    Source: drilling_speeds table.
    """
    rows = _drilling().get(material.row.speed_group, ())
    if not rows:
        return None
    if material.hardness_hb is not None:
        return _at(_drilling_curve(material.row.speed_group), material.hardness_hb)
    chosen = _best(rows)
    return Speed(chosen.low_ft_min, min(row.low_ft_min for row in rows), max(row.high_ft_min for row in rows), chosen)


@cached(OF_MATERIALS)
def tapping_speed(material: CuttingProfile) -> Speed | None:
    """Speed in ft/min of a tap in ``material`` to start with: the low end of the common range, with the handbook's
    ceiling (coarse, fine pitch).

    Between the middles of two ranges of hardness the speed is interpolated. Where the hardness is not known the slowest
    row is taken.

    Source: tapping_speeds and tapping_speed_ceilings tables.
    """
    rows = _tapping().get(material.row.speed_group, ())
    if not rows:
        return None
    if material.hardness_hb is not None:
        found = _at(_tapping_curve(material.row.speed_group), material.hardness_hb)
    else:
        slowest = min(rows, key=lambda row: row.low_ft_min)
        found = Speed(slowest.low_ft_min, slowest.low_ft_min, slowest.high_ft_min, slowest)
    ceilings = _ceilings().get(material.row.speed_group, ())
    fitting = [row for row in ceilings if row.covers(material.hardness_hb)]
    if found is None or not fitting:
        return found
    least = min(fitting, key=lambda row: row.low_ft_min)
    return replace(found, ceiling_ft_min=(least.low_ft_min, least.high_ft_min))


def _best(rows: Sequence[SpeedRow]) -> SpeedRow:
    return min(rows, key=lambda row: (_RANK[row.kind], _STATUS_RANK[row.status], row.low_ft_min))


def _narrowest(rows: Sequence[SpeedRow]) -> SpeedRow:
    """The row that ends soonest: a softer metal than the next one is printed for."""
    return min(rows, key=lambda row: inf if row.hb_to is None else row.hb_to)


@read_once
def _drilling_curve(group: str) -> Curve:
    return curve(_drilling()[group], _best, lambda rows, _: rows)


@read_once
def _tapping_curve(group: str) -> Curve:
    return curve(_tapping()[group], _narrowest, lambda _, row: (row,))


def _at(line: Curve, hardness_hb: float) -> Speed | None:
    """The speed at a hardness, None beyond what is held."""
    around = line.around(hardness_hb)
    if around is None:
        return None
    soft, hard = around
    if soft is hard:
        return Speed(soft.value, soft.low, soft.high, soft.row)
    share = (hardness_hb - soft.hardness_hb) / (hard.hardness_hb - soft.hardness_hb)
    value, low, high = (
        one + share * (other - one)
        for one, other in ((soft.value, hard.value), (soft.low, hard.low), (soft.high, hard.high))
    )
    between = hardness_hb, soft.hardness_hb, hard.hardness_hb, soft.value, hard.value
    return Speed(value, low, high, hard.row if share > 0.5 else soft.row, between)


def drilling_feed(diameter_in: float) -> FeedRow:
    """Feed range of a twist drill of ``diameter_in``, in inches a revolution.

    Source: NAVEDTRA 14345, drilling page.
    """
    return next(row for row in _feeds() if row.to_in is None or diameter_in <= row.to_in)


def depth_factors(depth_over_diameter: float) -> tuple[float, float]:
    """Factors on speed and feed of a drill for a hole of ``depth_over_diameter``, 1 where it is not deep.

    Source: common practice.
    """
    factors = (1.0, 1.0)
    for depth_from_d, of_depth in _depth_factors():
        if depth_over_diameter >= depth_from_d:
            factors = of_depth
    return factors


@read_once
def _depth_factors() -> tuple[tuple[float, tuple[float, float]], ...]:
    rows = tables.load("drilling_depth_factors").rows
    return tuple((float(row["depth_from_d"]), (float(row["speed_factor"]), float(row["feed_factor"]))) for row in rows)


@read_once
def factor(name: str) -> float:
    """The factor ``name`` of the tapping table.

    Source: tapping_factors table.
    """
    return next(float(row["value"]) for row in tables.load("tapping_factors").rows if row["factor"] == name)


_RANK = {"by_hardness": 0, "general": 1, "second_hand": 2}
_STATUS_RANK = {status: rank for rank, status in enumerate(STATUSES)}


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


@read_once
def _drilling() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("drilling_speeds", "low_ft_min", "high_ft_min")


@read_once
def _tapping() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("tapping_speeds", "low_ft_min", "high_ft_min")


@read_once
def _ceilings() -> Mapping[str, tuple[SpeedRow, ...]]:
    return _grouped("tapping_speed_ceilings", "coarse_ft_min", "fine_ft_min")


@read_once
def _feeds() -> tuple[FeedRow, ...]:
    return tuple(
        FeedRow(float(row["to_in"]) if row["to_in"] else None, float(row["low_in_rev"]), float(row["high_in_rev"]))
        for row in tables.load("drilling_feeds").rows
    )
