"""Drill and ream: what is done when no drill holds the limits of the hole."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.errors import DrillingError
from borewright.core.model import Unit
from borewright.core.rounding import half_even, plain

from .case import Case
from .rack import Entry
from .sizes import PLACES

#: Stock left for machine reaming, on diameter (TM 1-420 par. 37): 0.005 to 0.010 in, 0.13 to 0.25 mm.
STOCK_MIN: dict[Unit, Decimal] = {"in": Decimal("0.005"), "mm": Decimal("0.13")}
STOCK_MAX: dict[Unit, Decimal] = {"in": Decimal("0.010"), "mm": Decimal("0.25")}
SOURCE = "TM 1-420 par. 37"
_SHOP_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
#: Below this share of the reamed hole a drill of the series asked for is no preparation for it (our own limit).
_SMALLEST_SHARE = Decimal("0.8")


@dataclass(frozen=True, slots=True)
class Reamed:
    """A hole reamed to ``diameter`` after ``drill``; ``stock_left`` on diameter, from the mean hole where known."""

    drill: Entry
    diameter: Decimal
    stock_left: Decimal
    places: int


def reamed(case: Case) -> Reamed:
    """The reamed hole and the largest drill that leaves stock for it, from the crib where that will do.

    Raises: DrillingError ``drill_not_found`` when the drills allowed cannot prepare the hole.
    Source: TM 1-420 par. 37 (stock for machine reaming).
    """
    diameter, places = _ream_diameter(case)
    largest = diameter - STOCK_MIN[case.thread.unit]
    in_crib = [item for item in case.crib or () if largest - STOCK_MAX[case.thread.unit] <= item.hole <= largest]
    fitting = in_crib or [item for item in case.first.below(largest, 8) if item.hole <= largest]
    drill = max(fitting, key=lambda item: item.diameter, default=None)
    if drill is None or (case.series_asked and drill.diameter < _SMALLEST_SHARE * diameter):
        raise _none(case, diameter)
    return Reamed(drill, diameter, diameter - drill.hole, places)


def _ream_diameter(case: Case) -> tuple[Decimal, int]:
    """The hole aimed at, to a round figure where that stays inside the ends, with its decimals."""
    low, high, finest = case.target.low, case.target.high, PLACES[case.thread.unit]
    for places in range(_SHOP_PLACES[case.thread.unit], finest):
        rounded = half_even(case.target.hole, places)
        if (low is None or rounded >= low) and (high is None or rounded <= high):
            return rounded, places
    return half_even(case.target.hole, finest), finest


def _none(case: Case, diameter: Decimal) -> DrillingError:
    series = case.request.series
    return DrillingError(
        "drill_not_found",
        f"no drill of the series allowed ({', '.join(series) if series else 'all'}) holds or prepares a hole of"
        f" {plain(diameter)} {case.thread.unit}",
        pointer="/drill_series" if series else "/thread",
    )
