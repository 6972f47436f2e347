"""Mean oversize of drilled holes: how much larger than its drill a hole comes out on average."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.model import MM_PER_INCH, Status, Unit
from borewright.core.rounding import half_even
from borewright.tables import load

from .sizes import PLACES

DOCUMENT = "FED-STD-H28/2B"
EDITION = "20 Aug 1991"
#: What the figures stand for, in the words of an assumption.
OWN_MEANING = "the drill oversize that the request states for the machine replaces the tables'"
MEANING = "average of drilled steel and cast iron under shop conditions; a well ground drill cuts closer to size"


@dataclass(frozen=True, slots=True)
class HoleOversize:
    """Mean oversize in the unit asked for; ``published`` on a tabulated drill, ``computed`` between two of them.

    ``own``: the figure is the shop's, not the tables'.
    """

    value: Decimal
    status: Status
    locator: str
    own: bool = False


@read_once
def _points() -> tuple[tuple[Decimal, ...], tuple[Decimal, ...], tuple[str, ...]]:
    rows = load("drill_mean_oversize").rows
    return (
        tuple(Decimal(row["drill_in"]) for row in rows),
        tuple(Decimal(row["mean_oversize_in"]) for row in rows),
        tuple(row["locator"] for row in rows),
    )


def mean_oversize(diameter: Decimal, unit: Unit) -> HoleOversize | None:
    """Mean oversize of a hole by the diameter of its drill, straight line between tabulated drills.

    Args: ``diameter`` of the drill in ``unit``.
    Returns: the figure in ``unit``, None below the smallest (0.0465 in) and above the largest (1.0469 in) drill known.
    Source: FED-STD-H28/2B (1991) Appendix A Tables II.A.1 and II.A.2.
    """
    drill_in = half_even(diameter if unit == "in" else diameter / MM_PER_INCH, 4)
    drills, oversizes, locators = _points()
    place = bisect_left(drills, drill_in)
    if place == len(drills) or drill_in < drills[0]:
        return None
    if drills[place] == drill_in:
        return HoleOversize(_in_unit(oversizes[place], unit), "published", locators[place])
    below, above = drills[place - 1], drills[place]
    share = (drill_in - below) / (above - below)
    value_in = oversizes[place - 1] + share * (oversizes[place] - oversizes[place - 1])
    return HoleOversize(
        _in_unit(value_in, unit), "computed", f"Tables II.A.1 and II.A.2, between drills {below} and {above} in"
    )


def _in_unit(value_in: Decimal, unit: Unit) -> Decimal:
    return half_even(value_in if unit == "in" else value_in * MM_PER_INCH, PLACES[unit])
