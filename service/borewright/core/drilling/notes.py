"""Assumptions, cautions, sources and derivation of a drill."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.caches import cached
from borewright.core.chance import made_sizes
from borewright.core.model import Caution, Notes, Source, Step

from . import forming, oversize, reaming
from .case import DrillCase, to_make
from .outside import often_outside
from .percent import printed_hole
from .rank import NEAR_PERCENT, Ranked
from .shortlist import Pick, Shortlist
from .sizes import SPECIAL, origin

_RULES = {
    "D - P": Source("target.hole_diameter", "shop practice", "", "major diameter less pitch", "common_practice"),
    "D - 75 * 1.299038 * P / 100": Source(
        "target.hole_diameter", "shop practice", "", "wall chart: 75 percent of thread on 0.75 H", "common_practice"
    ),
}
_FORMING = Source("target.hole_diameter", "Machinery's Handbook", "", "cold form tapping, hole size", "second_hand")
_CHANCE = Source(
    "recommended.acceptance", "drilled-hole spread", "", "sigma derived in three ways, mean FED-STD-H28/2B", "computed"
)
_LIMITS = "minor diameter limits of the thread"
_REAM = Source("ream_diameter", "shop practice", "", "sizes of reamers, stock left for them", "common_practice")


@cached(512)
def notes(found: Shortlist) -> Notes:
    """Everything that accompanies a drill, whatever the engagement and the part material.

    Source: as each line says.
    """
    case, pick = found.case, found.pick
    return Notes(
        assumptions=tuple(_assumptions(case, pick)),
        cautions=tuple(_cautions(case, pick)),
        sources=tuple(_sources(case, found.ranked, pick)),
        steps=tuple(_steps(case, pick)),
        decisions=often_outside(case, found.ranked, pick),
    )


def _assumptions(case: DrillCase, pick: Pick) -> Iterator[str]:
    yield f"percent of thread is on {case.basis.text}"
    if pick.ream is None and pick.entry.oversize is not None:
        yield f"mean hole: {oversize.OWN_MEANING if pick.entry.oversize.own else oversize.MEANING}"
    elif pick.ream is None and case.thread.taper is None:
        yield "no mean oversize is published for a drill of this size, so the mean hole is not given"
    if case.thread.taper is None and case.request.method == "cut" and None in (case.limits.min, case.limits.max):
        yield "a minor diameter limit of this thread is not held: drills stay near the hole aimed at, check the drawing"
    if case.moved:
        yield "the hole is judged by the minor diameter limits before finish; recommended hole limits are left out"
    if case.request.method == "form" and case.request.percent is None:
        yield forming.DEFAULT_SAID
    objective = case.request.objective
    if objective != "chart" and (case.request.method == "form" or case.thread.taper is not None):
        yield f"objective {objective} changes nothing here: the hole is fixed by forming or by the taper thread"
    elif objective == "acceptance" and pick.rule != "greatest_acceptance":
        yield "how often the holes of these drills are accepted is not known: the hole aimed at decides"
    if not case.series_asked and case.thread.taper is None and case.second is None:
        yield "a metric job is drilled with metric drills; others only where drill_series asks for them"
    elif not case.series_asked and case.thread.taper is None:
        yield (
            "fractional, number and letter drills come first, metric drills only where none of them holds the limits"
            f" (or comes within {NEAR_PERCENT} points of a percent asked for)"
        )
    if pick.entry.drill.status in ("from_memory", "common_practice"):
        yield f"drill {pick.entry.drill.label} is listed from memory or common practice: check that it can be had"


def _cautions(case: DrillCase, pick: Pick) -> Iterator[Caution]:
    chosen = pick.candidate
    for code, text in case.target.cautions:
        yield Caution(code, text)
    if chosen.in_stock is False:
        yield Caution("stock_has_no_drill", f"no drill in stock holds the limits: buy {chosen.drill.label}")
    if chosen.drill.series == SPECIAL:
        yield Caution("special_drill_size", f"{chosen.drill.label} is not a standard drill size")
    if pick.ream is not None and pick.ream.stock_left > reaming.stock_left(pick.ream.diameter, case.thread.unit)[1]:
        yield Caution(
            "ream_stock_large",
            f"{case.say(pick.ream.stock_left)} on diameter is more than a reamer takes: core-drill or bore in between",
        )
    low, hole = case.limits.min, pick.entry.hole
    if low is not None and pick.ream is None and hole < low:
        yield Caution(
            "chart_drill_below_min",
            f"{chosen.drill.label}, as the chart gives it, drills {case.say(hole)} on average, below the smallest minor"
            f" diameter {case.say(low)}: the tap must finish the minor diameter, check it with a plain plug",
        )
    if case.request.method == "form":
        made, known = (
            (pick.entry.hole, pick.entry.expected is not None) if pick.ream is None else (pick.ream.diameter, True)
        )
        yield from forming.cautions(case, to_make(case.thread, case.request), made, known=known)


def _sources(case: DrillCase, ranked: Ranked, pick: Pick) -> Iterator[Source]:
    drill = pick.entry.drill
    row = ranked.rows.get(drill.label)
    if row is not None and pick.rule == "published_chart":
        yield Source("recommended.label", row.source, "", "tap drill chart", row.status)
    if case.request.method == "form":
        yield _FORMING
    elif case.target.formula in _RULES:
        yield _RULES[case.target.formula]
    if origin(drill):
        yield Source("recommended.diameter", origin(drill), "", "drill sizes", drill.status)
    if pick.ream is not None:
        yield _REAM
    elif pick.entry.oversize is not None and pick.entry.oversize.own:
        yield Source("recommended.expected_hole_diameter", "request", "", "machine.drill_oversize", "computed")
    elif pick.entry.oversize is not None:
        over = pick.entry.oversize
        yield Source(
            "recommended.expected_hole_diameter",
            oversize.DOCUMENT,
            oversize.EDITION,
            f"Appendix A {over.locator}",
            over.status,
        )
    if pick.candidate.acceptance is not None:
        yield _CHANCE
    yield Source("recommended.percent_thread", case.basis.source, "", case.basis.text, "computed")


def _steps(case: DrillCase, pick: Pick) -> Iterator[Step]:
    chosen = pick.candidate
    unit, target, basis = case.thread.unit, case.target, case.basis
    hole = printed_hole(case.thread, target.hole)
    places = 4 if unit == "in" else 3
    formula = target.formula if target.formula == "table" else f"half_even({target.formula}, {places})"
    yield Step("target.hole_diameter", formula, dict(target.inputs), hole, unit, target.text)
    judged = chosen.diameter if pick.ream is None else pick.ream.diameter
    inputs = {"hole": judged, **dict(basis.inputs)}
    yield Step("recommended.percent_thread", basis.formula, inputs, chosen.percent_thread, "%", basis.source)
    if pick.ream is None and pick.entry.oversize is not None and chosen.expected_hole_diameter is not None:
        over = pick.entry.oversize
        source = "request" if over.own else f"{oversize.DOCUMENT} ({oversize.EDITION}) {over.locator}"
        expected = chosen.expected_hole_diameter
        yield Step("mean oversize", "table", {"drill": chosen.diameter}, over.value, unit, source)
        inputs = {"drill": chosen.diameter, "oversize": over.value}
        yield Step("recommended.expected_hole_diameter", "drill + oversize", inputs, expected, unit, source)
        inputs = {"hole": expected, **dict(basis.inputs)}
        percent = chosen.expected_percent_thread
        yield Step("recommended.expected_percent_thread", basis.formula, inputs, percent, "%", basis.source)
    if case.aim is not None and pick.entry.made is not None and chosen.acceptance is not None:
        yield from made_sizes.steps(
            "recommended.acceptance",
            pick.entry.made,
            case.aim,
            chance=chosen.acceptance,
            unit=unit,
            model="hole normal around drill plus mean oversize, never far below the drill; coat normal",
        )
    if pick.ream is not None:
        yield Step("ream_diameter", "table", {"hole": target.hole}, pick.ream.diameter, unit, "sizes of reamers")
    high, low = case.limits.max, case.limits.min
    if high is not None:
        inputs = {"max": high, "hole": chosen.expected_hole_diameter or judged}
        yield Step("recommended.margin.below_max", "max - hole", inputs, chosen.margin_below_max, unit, _LIMITS)
    if low is not None:
        inputs = {"hole": judged, "min": low}
        yield Step("recommended.margin.above_min", "hole - min", inputs, chosen.margin_above_min, unit, _LIMITS)
