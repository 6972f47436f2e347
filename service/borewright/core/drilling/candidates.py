"""A drill, or a drill with the reamed hole that it prepares, as the reply shows it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached, read_once
from borewright.core.errors import DrillingError
from borewright.core.model import MM_PER_INCH, Drill, DrillCandidate, RejectedDrill, Unit
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, plain
from borewright.tables import load

from .drill_case import DrillCase
from .drill_sizes import PLACES, SPECIAL, find_drill, in_series, printed
from .ranking import Ranked
from .standard_drills import Entry

_SHOP_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
#: Below this share of the reamed hole a drill of the series asked for is no preparation for it.
_SMALLEST_SHARE = figure("reaming_smallest_drill_share")
Rule = Literal["published_chart", "rule", "greatest_acceptance"]


@dataclass(frozen=True, slots=True)
class Reamed:
    """A hole reamed to ``diameter`` after ``drill``.

    ``name`` is the size of a reamer that is sold, None where the hole is bored or the reamer ground to order.
    """

    drill: Entry
    diameter: Decimal
    name: str | None

    @property
    def stock_left(self) -> Decimal:
        """Stock on diameter in the unit of the drill's entry, from its mean hole where that is known."""
        return self.diameter - self.drill.hole


def reamed_hole(case: DrillCase) -> Reamed:
    """The reamed hole of ``case`` and the largest drill that leaves stock for it, from the crib where that will do.

    Raises: DrillingError ``drill_not_found`` when the drills allowed cannot prepare the hole.
    Source: reamer_sizes and reaming_allowances tables (common practice).
    """
    diameter, name = _ream_diameter(case)
    least, most = reaming_stock(diameter, case.thread.unit)
    largest = diameter - least
    in_crib = [item for item in case.crib or () if diameter - most <= item.hole <= largest]
    sold = case.first.between(low=Decimal(0), high=largest)
    fitting = in_crib or [item for item in sold if item.hole <= largest]
    drill = max(fitting, key=lambda item: item.diameter, default=None)
    if drill is None or (case.series_asked and drill.diameter < _SMALLEST_SHARE * diameter):
        raise _no_drill_found(case, diameter)
    return Reamed(drill, diameter, name)


@cached(256)
def reaming_stock(diameter: Decimal, unit: Unit) -> tuple[Decimal, Decimal]:
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


def _no_drill_found(case: DrillCase, diameter: Decimal) -> DrillingError:
    series = case.request.series
    return DrillingError(
        "drill_not_found",
        f"no drill of the series allowed ({', '.join(series) if series else 'all'}) holds or prepares a hole of"
        f" {length(diameter, case.thread.unit)}",
        pointer="/drill_series" if series else "/thread",
    )


def drilled_candidate(case: DrillCase, item: Entry, reasons: tuple[str, ...]) -> DrillCandidate:
    """The drill ``item`` that makes the hole of ``case`` alone, with the ``reasons`` for it; lengths in the thread's
    unit.

    Source: percent of thread on the case's basis; mean hole FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2.
    """
    expected = item.expected
    return DrillCandidate(
        item.drill,
        item.diameter,
        case.basis.percent(item.diameter),
        expected,
        None if expected is None else case.basis.percent(expected),
        _within(case, item.diameter),
        None if case.limits.max is None else case.limits.max - item.hole,
        None if case.limits.min is None else item.diameter - case.limits.min,
        "drill",
        case.in_stock(item),
        reasons,
        case.acceptance(item),
        item.drill.series == SPECIAL,
        _order_text(case, item),
    )


def reamed_candidate(case: DrillCase, found: Reamed, reasons: tuple[str, ...]) -> DrillCandidate:
    """A drill and the reamed hole of ``case`` that it prepares, as ``found``, with the ``reasons`` for it: percents and
    margins are those of the reamed hole.

    Source: percent of thread on the case's basis.
    """
    percent = case.basis.percent(found.diameter)
    return DrillCandidate(
        found.drill.drill,
        found.drill.diameter,
        percent,
        found.diameter,
        percent,
        _within(case, found.diameter),
        None if case.limits.max is None else case.limits.max - found.diameter,
        None if case.limits.min is None else found.diameter - case.limits.min,
        "drill_and_ream",
        case.in_stock(found.drill),
        reasons,
        None,
        found.name is None,
        None if found.name is not None else f"bore, or a reamer ground to {case.say(found.diameter)}",
    )


def _order_text(case: DrillCase, item: Entry) -> str | None:
    if item.drill.series != SPECIAL:
        return None
    return f"twist drill ground to {case.say(item.diameter)} ({item.drill.label})"


def _within(case: DrillCase, diameter: Decimal) -> bool | None:
    if case.limits.min is None and case.limits.max is None:
        return None
    return case.inside(diameter)


@dataclass(frozen=True, slots=True)
class Pick:
    """What was taken: a drill alone, or a drill with the reamed hole it prepares."""

    entry: Entry
    ream: Reamed | None
    rule: Rule
    candidate: DrillCandidate


@dataclass(frozen=True, slots=True, eq=False)
class Shortlist:
    """A case with its pick, the ranked alternatives and the nearest refused drills. Hashed by identity."""

    case: DrillCase
    ranked: Ranked
    pick: Pick
    alternatives: tuple[DrillCandidate, ...]
    rejected: tuple[RejectedDrill, ...]
    chart_drill: Entry | None
