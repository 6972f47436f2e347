"""A drill as the reply shows it: percents, mean hole, margins, reasons."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import DrillCandidate

from .case import DrillCase
from .drill_acceptance import accepted
from .rank import Ranked
from .reaming import Reamed
from .sizes import SPECIAL
from .standard_drills import Entry


def drilled(case: DrillCase, item: Entry, reasons: tuple[str, ...]) -> DrillCandidate:
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
        _within(case, item.diameter),
        None if case.limits.max is None else case.limits.max - item.hole,
        None if case.limits.min is None else item.diameter - case.limits.min,
        "drill",
        in_stock(case, item),
        reasons,
        accepted(case, item),
        item.drill.series == SPECIAL,
        _order_text(case, item),
    )


def reamed_hole(case: DrillCase, found: Reamed, reasons: tuple[str, ...]) -> DrillCandidate:
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
        _within(case, found.diameter),
        None if case.limits.max is None else case.limits.max - found.diameter,
        None if case.limits.min is None else found.diameter - case.limits.min,
        "drill_and_ream",
        in_stock(case, found.drill),
        reasons,
        None,
        found.name is None,
        None if found.name is not None else f"bore, or a reamer ground to {case.say(found.diameter)}",
    )


def in_stock(case: DrillCase, item: Entry) -> bool | None:
    """Whether the crib holds a drill, None when the stock was not told."""
    if case.crib is None:
        return None
    return any(held.drill.label == item.drill.label for held in case.crib)


def _order_text(case: DrillCase, item: Entry) -> str | None:
    if item.drill.series != SPECIAL:
        return None
    return f"twist drill ground to {case.say(item.diameter)} ({item.drill.label})"


def _within(case: DrillCase, diameter: Decimal) -> bool | None:
    if case.limits.min is None and case.limits.max is None:
        return None
    return case.inside(diameter)


def reasons_for(case: DrillCase, ranked: Ranked, item: Entry) -> tuple[str, ...]:
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
    if item.drill.series == SPECIAL:
        said.append("not a standard size")
    if case.limits.max is not None and item.hole > case.limits.max:
        said.append(
            f"cuts {case.say(item.hole)} on average, above the largest minor diameter {case.say(case.limits.max)}"
        )
    return tuple(said)
