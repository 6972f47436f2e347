"""Drill and ream: what is done when no drill that is sold holds the limits of the hole."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import cached, read_once
from borewright.core.errors import DrillingError
from borewright.core.model import MM_PER_INCH, Drill, Unit
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, plain
from borewright.tables import load

from .case import DrillCase
from .sizes import PLACES, find_drill, in_series, printed
from .standard_drills import Entry

_SHOP_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
#: Below this share of the reamed hole a drill of the series asked for is no preparation for it (our own limit).
_SMALLEST_SHARE = Decimal("0.8")


@dataclass(frozen=True, slots=True)
class Reamed:
    """A hole reamed to ``diameter`` after ``drill``; ``stock_left`` on diameter, from the mean hole where known.

    ``name`` is the size of a reamer that is sold, None where the hole is bored or the reamer ground to order.
    """

    drill: Entry
    diameter: Decimal
    stock_left: Decimal
    name: str | None


def reamed(case: DrillCase) -> Reamed:
    """The reamed hole and the largest drill that leaves stock for it, from the crib where that will do.

    Raises: DrillingError ``drill_not_found`` when the drills allowed cannot prepare the hole.
    Source: reamer_sizes and reaming_allowances tables (common practice).
    """
    diameter, name = _ream_diameter(case)
    least, most = stock_left(diameter, case.thread.unit)
    largest = diameter - least
    in_crib = [item for item in case.crib or () if diameter - most <= item.hole <= largest]
    fitting = in_crib or [item for item in case.first.below(largest, 8) if item.hole <= largest]
    drill = max(fitting, key=lambda item: item.diameter, default=None)
    if drill is None or (case.series_asked and drill.diameter < _SMALLEST_SHARE * diameter):
        raise _none(case, diameter)
    return Reamed(drill, diameter, diameter - drill.hole, name)


@cached(256)
def stock_left(diameter: Decimal, unit: Unit) -> tuple[Decimal, Decimal]:
    """Least and most stock on diameter for a machine reamer, in ``unit``.

    Args: ``diameter`` of the reamed hole in ``unit``.
    Source: reaming_allowances table (common practice).
    """
    scale = MM_PER_INCH if unit == "mm" else Decimal(1)
    rows = load("reaming_allowances").rows
    row = next((row for row in rows if diameter <= Decimal(row["to_in"]) * scale), rows[-1])
    least, most = Decimal(row["stock_min_in"]) * scale, Decimal(row["stock_max_in"]) * scale
    return half_even(least, PLACES[unit]), half_even(most, PLACES[unit])


@read_once
def reamers(unit: Unit) -> tuple[tuple[Decimal, str], ...]:
    """Reamers that are sold, made to a round size in ``unit``: printed diameter and name, smallest first.

    Source: reamer_sizes table (common practice).
    """
    found: dict[Decimal, str] = {}
    for row in load("reamer_sizes").rows:
        if row["unit"] == unit:
            for drill in _sizes(row, unit):
                name = f"{drill.label} in" if drill.series == "fractional" else drill.label
                found.setdefault(printed(drill, unit), name)
    return tuple(sorted(found.items()))


def _sizes(row: Mapping[str, str], unit: Unit) -> Iterator[Drill]:
    start, end = Decimal(row["from"]), Decimal(row["to"])
    if not row["step"]:
        yield from (drill for drill in in_series((row["series"],)) if start <= drill.diameter(unit) <= end)
        return
    step = Decimal(row["step"])
    for count in range(int((end - start) / step) + 1):
        yield find_drill(f"{plain(start + count * step)} {unit}")


def _ream_diameter(case: DrillCase) -> tuple[Decimal, str | None]:
    """The reamer that is sold nearest to the hole aimed at inside the ends; else that hole to a round figure."""
    low, high, unit = case.target.low, case.target.high, case.thread.unit
    sizes = reamers(unit)
    if low is not None and high is not None:
        holding = sizes[bisect_left(sizes, (low, "")) : bisect_right(sizes, (high, "~"))]
        if holding:
            return min(holding, key=lambda size: abs(size[0] - case.target.hole))
    hole = max(min(case.target.hole, high or case.target.hole), low or case.target.hole)
    for places in range(_SHOP_PLACES[unit], PLACES[unit]):
        rounded = half_even(hole, places)
        if (low is None or rounded >= low) and (high is None or rounded <= high):
            return rounded, None
    return half_even(hole, PLACES[unit]), None


def _none(case: DrillCase, diameter: Decimal) -> DrillingError:
    series = case.request.series
    return DrillingError(
        "drill_not_found",
        f"no drill of the series allowed ({', '.join(series) if series else 'all'}) holds or prepares a hole of"
        f" {length(diameter, case.thread.unit)}",
        pointer="/drill_series" if series else "/thread",
    )
