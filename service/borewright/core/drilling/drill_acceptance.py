"""How likely the holes of a drill are to end inside the minor diameter limits, and which drill does best."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from .case import DrillCase
from .standard_drills import Entry

#: How far the drill nearest to the hole aimed at may stay behind the most accepted one where no chart decides (our own
#: limit). Published charts are reproduced by the nearest drill more often than by the most accepted one.
RULE_TOLERANCE = 0.05


def accepted(case: DrillCase, item: Entry) -> float | None:
    """Chance that the finished minor diameter ends inside its limits; None where the drill's spread is not known.

    Source: drilled_hole_spread table; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole.
    """
    return None if case.aim is None or item.made is None else case.aim.chance(item.made)


def likelier_first(case: DrillCase, item: Entry) -> tuple[float, Decimal, Decimal]:
    """Sort key that puts the most often accepted drill first, of equals the nearest to the hole aimed at.

    Source: as :func:`accepted`.
    """
    return -(accepted(case, item) or 0.0), abs(item.diameter - case.target.hole), -item.diameter


def most_accepted(case: DrillCase, items: Iterable[Entry]) -> Entry | None:
    """The most often accepted of some drills, None where no chance is known.

    Source: as :func:`accepted`.
    """
    known = [(chance, item) for item in items if (chance := accepted(case, item)) is not None]
    hole = case.target.hole
    best = max(known, key=lambda one: (one[0], -abs(one[1].diameter - hole), one[1].diameter), default=None)
    return None if best is None else best[1]


def clearly_likelier(case: DrillCase, other: Entry, than: Entry) -> bool:
    """Whether one drill is accepted more often than another by more than the tolerance of the rule.

    Source: as :func:`accepted`.
    """
    better, worse = accepted(case, other), accepted(case, than)
    return better is not None and worse is not None and better > worse + RULE_TOLERANCE
