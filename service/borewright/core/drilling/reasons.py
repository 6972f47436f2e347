"""Why a drill was taken, in words that a planner can check."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.model import Material
from borewright.core.quantity_text import span
from borewright.core.rounding import plain

from .case import DrillCase
from .drill_acceptance import RULE_TOLERANCE, accepted
from .engagement import EngagementStep
from .hole_limits import HoleLimits
from .percent import printed_hole
from .practice import usual_percent
from .rank import Ranked, why_refused
from .reaming import Reamed
from .standard_drills import Entry

_MOST_CHART_DRILLS = 2
_MOST_IN_STOCK = 2


def for_reaming(case: DrillCase, found: Reamed) -> tuple[str, ...]:
    """Why the hole is drilled under and reamed. Source: TM 1-420 par. 37 (stock)."""
    return (
        f"no drill allowed holds the hole, so it is drilled under and {_reamed_with(case, found)} ({case.target.text})",
        f"{case.say(found.stock_left)} is left on diameter, mean hole reckoned",
        *_stock(case, found.drill),
    )


def _reamed_with(case: DrillCase, found: Reamed) -> str:
    diameter = case.say(found.diameter)
    return f"bored to {diameter}" if found.name is None else f"reamed with a {found.name} reamer ({diameter})"


def for_drill(case: DrillCase, ranked: Ranked, item: Entry, chart_drill: Entry | None) -> tuple[str, ...]:
    """Why a drill was taken: by the chart or by which rule, its mean hole, how often it does, whether it is in stock.

    Args: ``chart_drill`` the drill that the chart alone would give.
    Source: charts as their tables say.
    """
    if case.by_wall_chart and not _stands_in(case, chart_drill, item):
        said = [_by_wall_chart(case, item), *_compared(ranked)]
    elif chart_drill is not None and item.drill.label == chart_drill.drill.label:
        said = [_by_chart(case, ranked, item)]
    else:
        said = [_by_chance(case, item) if ranked.by_chance else _by_rule(case, item)]
        said += _why_not_chart(case, ranked, chart_drill)
    if item.expected is not None and item.oversize is not None:
        whose = "the oversize stated for the machine" if item.oversize.own else "mean oversize"
        said.append(f"drills {case.say(item.expected)} on average ({case.say(item.oversize.value)} {whose})")
    return (*said, *_how_often(case, ranked, item), *_stock(case, item))


def _stands_in(case: DrillCase, chart_drill: Entry | None, item: Entry) -> bool:
    """Whether a drill of the crib is taken in the place of the chart's."""
    return chart_drill is not None and case.crib is not None and item.drill.label != chart_drill.drill.label


def _by_wall_chart(case: DrillCase, item: Entry) -> str:
    said = (
        f"the shop's wall chart: of the drills that are sold the one nearest to {case.target.text} ({_target(case)})"
        " that lies inside the minor diameter limits read to a thousandth"
    )
    return said + (", a metric one as no inch drill does" if item.drill.series == "metric" else "")


def _compared(ranked: Ranked) -> list[str]:
    """What the published charts list for the thread."""
    labels = ", ".join(ranked.rows)
    documents = ", ".join(sorted({row.source.partition(" Table")[0] for row in ranked.rows.values()}))
    return (
        [f"published charts list {labels} ({documents})"] if labels else ["no published tap drill chart is held for it"]
    )


def _by_chance(case: DrillCase, item: Entry) -> str:
    which = "the drill in stock" if case.crib is not None and is_held(case, item) else "the standard drill"
    said = f"{which} whose holes most often end inside the minor diameter limits, mean hole and spread reckoned"
    if case.request.objective == "acceptance":
        return said
    points = plain(100 * Decimal(repr(RULE_TOLERANCE)))
    return f"{said}: by more than {points} points over the one nearest to {case.target.text} ({_target(case)})"


def _how_often(case: DrillCase, ranked: Ranked, item: Entry) -> list[str]:
    """The chance of the drill taken against that of the most accepted one, where the two differ."""
    own, likeliest = accepted(case, item), ranked.most_accepted
    if own is None:
        return []
    shown, best = in_percent(own), in_percent((likeliest and accepted(case, likeliest)) or 0.0)
    if likeliest is None or shown == best:
        low = own < CLEARLY_LOW
        return [f"about {shown} of its holes end inside the minor diameter limits"] if low else []
    return [
        f"about {shown} of its holes end inside the minor diameter limits, of those of {likeliest.drill.label} {best}"
    ]


def in_percent(chance: float) -> str:
    """A chance from 0 to 1 in percent."""
    return f"{100 * chance:.1f} %"


def of_the_part(
    case: DrillCase, hole: Decimal, material: Material | None, step: EngagementStep | None, band: HoleLimits | None
) -> tuple[str, ...]:
    """What engagement and part material add: the recommended band and what shops usually drill for.

    Args: ``hole`` mean hole or reamed hole in the thread's unit; ``step`` of the engagement, None = not stated.
    Source: FED-STD-H28/2B (1991) 30.1; common practice.
    """
    said = []
    if band is not None and band.limits.min is not None and band.limits.max is not None:
        low, high = band.limits.min, band.limits.max
        where = "inside" if low <= hole <= high else "outside"
        said.append(
            f"hole {where} the limits {span(band.limits, case.thread.unit)} recommended for engagements"
            f" {band.engagement.text}"
        )
    usual = usual_percent(case.thread, material, step) if case.request.method == "cut" else None
    return (*said, usual) if usual is not None else tuple(said)


def _by_chart(case: DrillCase, ranked: Ranked, item: Entry) -> str:
    row = ranked.rows[item.drill.label]
    if row.variant == "choice":
        nearest = f"the drill nearest to {case.target.text} ({_target(case)})"
        return f"{nearest} that {row.source} lists and that holds the limits"
    if row.status == "computed":
        return f"{row.source}; no published chart is held for this thread"
    return f"the drill for this thread by {row.source}"


def _by_rule(case: DrillCase, item: Entry) -> str:
    which = "the drill in stock" if case.crib is not None and is_held(case, item) else "the standard drill"
    if case.request.method == "form":
        return f"{which} whose mean hole is nearest to the {case.target.text} ({_target(case)})"
    if case.request.objective == "least_torque":
        return f"{which.replace('the ', 'the largest ', 1)} that stays inside the hole limits, mean hole reckoned"
    return f"{which} nearest to {case.target.text} ({_target(case)}) that holds the limits, mean hole reckoned"


def _why_not_chart(case: DrillCase, ranked: Ranked, chart_drill: Entry | None) -> list[str]:
    percent = case.request.percent
    if case.request.method == "form" or case.request.objective != "chart":
        return []
    if chart_drill is not None:
        row = ranked.rows.get(chart_drill.drill.label)
        source = "the shop's wall chart" if row is None else row.source
        return [f"the chart's nearest is {chart_drill.drill.label} ({source})"]
    if not ranked.rows:
        return ["no published tap drill chart is held for this thread"]
    if percent is not None and percent.target is not None:
        return ["a percent of thread was asked for, so no chart decides"]
    return [
        f"chart drill {label} does not do: {_refused(case, label)}" for label in [*ranked.rows][:_MOST_CHART_DRILLS]
    ]


def _refused(case: DrillCase, label: str) -> str:
    row = next(row for row in case.chart if row.drill.label == label)
    if case.request.series is not None and row.drill.series not in case.request.series:
        return f"series {row.drill.series} was not asked for"
    return why_refused(case, case.entry(row.drill))


def _stock(case: DrillCase, item: Entry) -> list[str]:
    if case.crib is None:
        return []
    if is_held(case, item):
        return ["in stock"]
    nearest = sorted(case.crib, key=lambda held: abs(held.diameter - case.target.hole))[:_MOST_IN_STOCK]
    said = [f"no drill in stock will do, buy {item.drill.label}"]
    return said + [f"in stock {held.drill.label}: {why_refused(case, held)}" for held in nearest]


def is_held(case: DrillCase, item: Entry) -> bool:
    """Whether the crib holds a drill."""
    return any(held.drill.label == item.drill.label for held in case.crib or ())


def _target(case: DrillCase) -> str:
    return case.say(printed_hole(case.thread, case.target.hole))
