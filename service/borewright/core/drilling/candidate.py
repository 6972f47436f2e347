"""A drill as the reply shows it: percents, mean hole, margins, reasons."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import DrillCandidate, Range

from .case import Case
from .likely import accepted
from .rack import Entry
from .rank import Ranked
from .reaming import Reamed


def drilled(case: Case, item: Entry, reasons: tuple[str, ...]) -> DrillCandidate:
    """A drill that makes the hole alone.

    Source: percent of thread on the case's basis; mean hole FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2.
    """
    expected = item.expected
    return DrillCandidate(
        item.drill,
        item.diameter,
        case.basis.percent(item.diameter),
        expected,
        None if expected is None else case.basis.percent(expected),
        _within(case.limits, item.diameter),
        None if case.limits.max is None else case.limits.max - item.hole,
        None if case.limits.min is None else item.diameter - case.limits.min,
        "drill",
        in_stock(case, item),
        reasons,
        accepted(case, item),
    )


def reamed_hole(case: Case, found: Reamed, reasons: tuple[str, ...]) -> DrillCandidate:
    """A drill and the reamed hole it prepares: percents and margins are those of the reamed hole.

    Source: percent of thread on the case's basis.
    """
    percent = case.basis.percent(found.diameter)
    return DrillCandidate(
        found.drill.drill,
        found.drill.diameter,
        percent,
        found.diameter,
        percent,
        _within(case.limits, found.diameter),
        None if case.limits.max is None else case.limits.max - found.diameter,
        None if case.limits.min is None else found.diameter - case.limits.min,
        "drill_and_ream",
        in_stock(case, found.drill),
        reasons,
    )


def in_stock(case: Case, item: Entry) -> bool | None:
    """Whether the crib holds a drill, None when the stock was not told."""
    if case.crib is None:
        return None
    return any(held.drill.label == item.drill.label for held in case.crib)


def _within(limits: Range, diameter: Decimal) -> bool | None:
    if limits.min is None and limits.max is None:
        return None
    return (limits.min is None or limits.min <= diameter) and (limits.max is None or diameter <= limits.max)


def reasons_for(case: Case, ranked: Ranked, item: Entry) -> tuple[str, ...]:
    """Why a drill that holds the limits stands where it does among the others.

    Source: charts as their tables say.
    """
    row = ranked.rows.get(item.drill.label)
    said = [f"listed by {row.source}"] if row is not None else []
    away = item.diameter - case.target.hole
    if away > 0:
        said.append("larger hole than aimed at: less tapping torque, less thread")
    elif away < 0:
        said.append("smaller hole than aimed at: more thread, more tapping torque")
    if item.drill.series == "special":
        said.append("not a standard size")
    if case.limits.max is not None and item.hole > case.limits.max:
        said.append(f"cuts {case.say(item.hole)} on average, above the largest minor diameter {case.limits.max}")
    return tuple(said)
