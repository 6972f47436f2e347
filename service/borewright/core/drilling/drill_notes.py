"""Assumptions, cautions, sources and derivation of a drill; the decision on one whose holes often miss their limits."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.caches import cached_apart
from borewright.core.chance import made_sizes
from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.citation import cite
from borewright.core.derivation import WhenAsked
from borewright.core.errors import DrillingError
from borewright.core.model import Caution, Notes, Range, Source, Step
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, number
from borewright.core.quantity_text import length, span
from borewright.core.rounding import half_even, plain

from .candidates import Pick, Shortlist, reamed_hole, reaming_stock
from .drill_case import DrillCase, minor_diameter_to_make
from .drill_sizes import PLACES, SPECIAL, origin
from .percent_of_thread import printed_hole
from .ranking import NEAR_PERCENT, Ranked
from .reasons import in_percent
from .standard_drills import MEAN_OVERSIZE_TEXT, OWN_OVERSIZE_TEXT, Entry, HoleOversize

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
_LIMITS_TEXT = "minor diameter limits of the thread"
_REAM = Source("ream_diameter", "shop practice", "", "sizes of reamers, stock left for them", "common_practice")
#: Share of holes inside the limits below which a drill is put before a person.
OFTEN_OUTSIDE = number("often_outside_acceptance")
DEFAULT_FORMING_TEXT = (
    f"no percent of thread given: {figure('forming_percent')} % is formed, as the handbook's text on cold form tapping"
    " recommends (second-hand)"
)
#: How close the hole of a forming tap is held each way: up to a diameter in mm, and as a share of the tolerance above.
_CLOSE_TOLERANCE_MM, _CLOSE_TO_MM = figure("forming_hole_tolerance_mm"), figure("forming_hole_tolerance_to_mm")
_CLOSE_SHARE = figure("forming_hole_tolerance_share")


@cached_apart(128, lambda found: found.case.request.has_own_drills)
def notes_on_drill(found: Shortlist) -> Notes:
    """Everything that accompanies the drill ``found``, whatever the engagement and the part material.

    Source: as each line says.
    """
    case, pick = found.case, found.pick
    return Notes(
        assumptions=tuple(_assumptions(case, pick)),
        cautions=tuple(_cautions(case, pick)),
        sources=tuple(_sources(case, found.ranked, pick)),
        steps=WhenAsked(_steps, case, pick),
        decisions=often_outside(case, found.ranked, pick),
    )


def _assumptions(case: DrillCase, pick: Pick) -> Iterator[str]:
    yield f"percent of thread is on {case.basis.text}"
    if pick.ream is None and pick.entry.oversize is not None:
        yield f"mean hole: {_whose_text(pick.entry.oversize)}"
    elif pick.ream is None and case.thread.taper is None:
        yield "no mean oversize is published for a drill of this size, so the mean hole is not given"
    if case.thread.taper is None and case.request.method == "cut" and None in (case.limits.min, case.limits.max):
        yield "a minor diameter limit of this thread is not held: drills stay near the hole aimed at, check the drawing"
    if case.moved:
        yield "the hole is judged by the minor diameter limits before finish; recommended hole limits are left out"
    if case.request.method == "form" and case.request.percent is None:
        yield DEFAULT_FORMING_TEXT
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


def _whose_text(over: HoleOversize) -> str:
    if over.measured is not None:
        return f"the oversize that the shop measured replaces the tables': {over.measured.told()}"
    return OWN_OVERSIZE_TEXT if over.own else MEAN_OVERSIZE_TEXT


def _cautions(case: DrillCase, pick: Pick) -> Iterator[Caution]:
    chosen = pick.candidate
    for code, text in case.target.cautions:
        yield Caution(code, text)
    if chosen.in_stock is False and case.request.stated is not None:
        yield Caution("stock_has_no_drill", f"{chosen.drill.label}, which the drawing states, is not in stock")
    elif chosen.in_stock is False:
        yield Caution("stock_has_no_drill", f"no drill in stock holds the limits: buy {chosen.drill.label}")
    if chosen.drill.series == SPECIAL:
        yield Caution("special_drill_size", f"{chosen.drill.label} is not a standard drill size")
    if pick.ream is not None and pick.ream.stock_left > reaming_stock(pick.ream.diameter, case.thread.unit)[1]:
        yield Caution(
            "ream_stock_large",
            f"{case.say(pick.ream.stock_left)} on diameter is more than a reamer takes: core-drill or bore in between",
        )
    if pick.ream is None and pick.entry.oversize is not None and pick.entry.oversize.neighbouring:
        yield Caution(
            "shop_figure_of_other_size",
            f"the shop's oversize was measured on drills of another size: measure some of {chosen.drill.label}",
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
        yield from forming_cautions(case, minor_diameter_to_make(case.thread, case.request), made, known=known)


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
    elif pick.entry.oversize is not None and pick.entry.oversize.measured is not None:
        own = pick.entry.oversize.measured
        yield Source("recommended.expected_hole_diameter", "shop figures", own.date or "", own.told(), "measured")
    elif pick.entry.oversize is not None:
        over = pick.entry.oversize
        place = cite("drill_mean_oversize").at(f"Appendix A {over.locator}", over.status)
        yield place.source("recommended.expected_hole_diameter")
    if pick.candidate.acceptance is not None and (pick.entry.oversize is None or not pick.entry.oversize.measured):
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
        source = _step_source(over)
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
        yield Step("recommended.margin.below_max", "max - hole", inputs, chosen.margin_below_max, unit, _LIMITS_TEXT)
    if low is not None:
        inputs = {"hole": judged, "min": low}
        yield Step("recommended.margin.above_min", "hole - min", inputs, chosen.margin_above_min, unit, _LIMITS_TEXT)


def _step_source(over: HoleOversize) -> str:
    if over.measured is not None:
        return f"shop figures: {over.locator}"
    return "request" if over.own else cite("drill_mean_oversize").at(over.locator).text


def often_outside(case: DrillCase, ranked: Ranked, pick: Pick) -> tuple[Decision, ...]:
    """The decision on the drill taken by ``pick`` out of those ``ranked`` for ``case`` whose holes often end outside
    the minor diameter limits; none for what holds them.

    Source: drilled_hole_spread table; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole, or the shop's.
    """
    item = pick.entry
    if case.request.stated is not None and _is_not_own(ranked, pick.entry):
        return ()  # held against the drill that would be chosen by core/plan/as_stated
    if pick.ream is not None or case.request.method == "form" or not _misses_often(case, item):
        return ()
    chance = case.acceptance(item)
    share = "" if chance is None else f", so that about {in_percent(chance)} of its holes end inside the limits"
    return (
        Decision(
            "drill_often_outside",
            f"{item.drill.label} {_mean_hole_text(case, item)}, {_miss_text(case, item)}{share}."
            f" Decide: {'; '.join(_remedies(case, ranked, item))}.",
            "/machine/drill_oversize",
        ),
    )


def _is_not_own(ranked: Ranked, item: Entry) -> bool:
    best = ranked.in_crib or ranked.good
    return not best or best[0].drill != item.drill


def _misses_often(case: DrillCase, item: Entry) -> bool:
    """A chance that is really bad; where the shop states its own oversize, one that is clearly low."""
    chance, high = case.acceptance(item), case.limits.max
    if chance is None:
        return high is not None and item.hole > high
    return chance < (CLEARLY_LOW if _has_own_oversize(item) else OFTEN_OUTSIDE)


def _has_own_oversize(item: Entry) -> bool:
    return item.oversize is not None and item.oversize.of_shop


def _with_diameter(case: DrillCase, item: Entry) -> str:
    if item.drill.label == plain(item.diameter) + f" {case.thread.unit}":
        return item.drill.label
    return f"{item.drill.label} ({case.say(item.diameter)})"


def _mean_hole_text(case: DrillCase, item: Entry) -> str:
    hole = case.say(item.hole)
    if item.oversize is None:
        return f"measures {hole} itself (no mean oversize is published for its size)"
    whose = "by the tables' mean oversize"
    if _has_own_oversize(item):
        whose = (
            "with the oversize stated for the machine" if item.oversize.own else "with the oversize that you measured"
        )
    return f"drills {hole} on average {whose}"


def _miss_text(case: DrillCase, item: Entry) -> str:
    low, high = case.limits.min, case.limits.max
    if high is not None and item.hole > high:
        return f"{case.say(item.hole - high)} above the largest minor diameter {case.say(high)}"
    if low is not None and item.hole < low:
        return f"{case.say(low - item.hole)} below the smallest minor diameter {case.say(low)}"
    return "close to a limit of the minor diameter"


def _remedies(case: DrillCase, ranked: Ranked, item: Entry) -> list[str]:
    """What can be done: prove the drill, take the one that holds, or ream."""
    found = (
        []
        if _has_own_oversize(item)
        else [f"keep {item.drill.label} where your drills cut closer (machine.drill_oversize)"]
    )
    known = [(one, case.acceptance(one)) for one in ranked.good if one is not item]
    holding = [(one, chance) for one, chance in known if chance is not None and chance >= CLEARLY_LOW]
    if holding:
        other, chance = min(holding, key=lambda pair: abs(pair[0].diameter - item.diameter))
        found.append(f"take {_with_diameter(case, other)}, whose holes hold them in {in_percent(chance)}")
    try:
        ream = reamed_hole(case)
    except DrillingError:
        return found
    tool = "bore" if ream.name is None else "ream"
    return [*found, f"drill {ream.drill.drill.label} and {tool} to {case.say(ream.diameter)}"]


def forming_cautions(case: DrillCase, limits: Range, made: Decimal, *, known: bool) -> tuple[Caution, ...]:
    """What the formed hole of ``case`` needs that a cut one does not.

    Args: ``limits`` of the minor diameter to be made; ``made`` mean hole of the drill, its diameter
        where the mean hole is not ``known``; in the thread's unit.
    Source: common practice (hole tolerance).
    """
    hole = printed_hole(case.thread, case.target.hole)
    return (
        Caution(
            "forming_hole_tolerance",
            f"Hold the hole to {case.say(hole)}{_forming_tolerance(case, limits)}: too small"
            " breaks the tap, too large leaves a thin thread. " + _made_hole_text(case, made, known=known),
        ),
        Caution(
            "forming_check_minor_diameter",
            "The formed minor diameter is set by flow, not by the drill: check it with a plain plug"
            f"{_limits_text(case, limits)}.",
        ),
    )


def _forming_tolerance(case: DrillCase, limits: Range) -> str:
    unit, diameter = case.thread.unit, case.thread.nominal_diameter
    factor = Decimal(1) if unit == "mm" else 1 / Decimal("25.4")
    if diameter <= _CLOSE_TO_MM * factor:
        close = half_even(_CLOSE_TOLERANCE_MM * factor, PLACES[unit])
        return f" within about {length(close, unit)} each way (common practice)"
    if limits.min is None or limits.max is None:
        return ""
    quarter = half_even(_CLOSE_SHARE * (limits.max - limits.min), PLACES[unit])
    return f" within about {length(quarter, unit)} each way (half the tolerance of a cut hole, common practice)"


def _made_hole_text(case: DrillCase, made: Decimal, *, known: bool) -> str:
    away = case.say(abs(made - printed_hole(case.thread, case.target.hole)))
    if not known:
        return f"The drill is {away} from it; try it, or ream."
    return f"The drill's hole, {case.say(made)} on average, is {away} from it; try it, or ream."


def _limits_text(case: DrillCase, limits: Range) -> str:
    if limits.min is None or limits.max is None:
        return ""
    return f" ({span(limits, case.thread.unit)})"
