"""Cases of a drill with round figures, put together by hand: a thread, the ends of its hole, drills and their holes."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import inf

from borewright.core.chance.distributions import Spread
from borewright.core.chance.made_sizes import Aim
from borewright.core.drilling.drill_case import DrillCase, DrillQuestion, Target
from borewright.core.drilling.drill_sizes import find_drill, printed
from borewright.core.drilling.percent_of_thread import cutting_basis
from borewright.core.drilling.ranking import Ranked
from borewright.core.drilling.standard_drills import Entry, HoleOversize, Rack
from borewright.core.drilling.tap_drill_charts import ChartRow
from borewright.core.model import Range, Unit

from .choices import thread

#: What lies below zero is accepted, so that a band of one unit is accepted by what part of it lies there.
BELOW_ZERO = Aim(-inf, 0.0)


def plain_blanks(texts) -> str:
    """Texts as one, with ordinary blanks."""
    return " ".join([texts] if isinstance(texts, str) else texts).replace("\N{NO-BREAK SPACE}", " ")


def band(chance: float) -> Spread:
    """Sizes of which the part ``chance`` lies below zero, exactly: uniform, one unit wide."""
    found = Spread(0.5 - chance, 0.0, 1.0)
    assert BELOW_ZERO.chance(found) == chance
    return found


def item(label: str, hole: str | None = None, *, chance: float | None = None, unit: Unit = "mm", **oversize) -> Entry:
    """A drill whose mean hole and chance are given; None = not known."""
    drill = find_drill(label, unit)
    diameter, made = printed(drill, unit), None if chance is None else band(chance)
    if hole is None:
        return Entry(drill, diameter, None, None, made)
    over = HoleOversize(Decimal(hole) - diameter, "published", "Table II.A.1, row of it")
    return Entry(drill, diameter, replace(over, **oversize), Decimal(hole), made)


def held(*items: Entry) -> Rack:
    """A rack of the items, by diameter."""
    by_size = sorted(items, key=lambda one: one.diameter)
    return Rack(tuple(one.diameter for one in by_size), tuple(by_size))


def row(label: str, *, unit: Unit = "mm", **changed) -> ChartRow:
    """The row of a chart that is meant for the thread's class."""
    given = ChartRow(find_drill(label, unit), "straight", "ISO 2306 Table 1", "published", for_class=True)
    return replace(given, **changed)


def ranked(*good: Entry, rows=(), **changed) -> Ranked:
    """What was weighed: ``good`` drills, best first."""
    by_label = {one.drill.label: one for one in rows}
    return replace(Ranked(good, None, (), by_label, None, by_chance=False), **changed)


def span(low: str | None, high: str | None) -> Range:
    """Limits, None = open."""
    return Range(*(None if end is None else Decimal(end) for end in (low, high)))


def case_of(
    text: str = "M10",
    *,
    limits=("8.4", "8.8"),
    aimed: str = "8.5",
    ends=("8.4", "8.8"),
    top: str | None = "8.8",
    asked: dict | None = None,
    **changed,
) -> DrillCase:
    """M10x1.5 from 8.4 to 8.8 mm, aimed at 8.5 mm, unless something else is said; ``asked`` of the question."""
    found = thread(text)
    low, high = (None if end is None else Decimal(end) for end in ends)
    target = Target(Decimal(aimed), "major diameter less pitch", "D - P", (("D", Decimal(10)),), low, high)
    case = DrillCase(
        found,
        DrillQuestion(**(asked or {})),
        span(*limits),
        moved=False,
        basis=cutting_basis(found),
        target=target,
        first=held(),
        second=None,
        chart=(),
        crib=None,
        top=None if top is None else Decimal(top),
        aim=BELOW_ZERO,
    )
    return replace(case, **changed)


def half_inch(**changed) -> DrillCase:
    """1/2-13 UNC-2B, 0.417 to 0.434 in, aimed at the wall chart's 75 percent: 0.4251 in."""
    given = {"limits": ("0.417", "0.434"), "aimed": "0.4251", "ends": ("0.417", "0.434"), "top": "0.434", **changed}
    return case_of("1/2-13 UNC-2B", **given)
