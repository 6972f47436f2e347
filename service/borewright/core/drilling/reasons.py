"""Why a drill was taken, stands behind another or was refused, in words that a planner can check."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.chance.made_sizes import CLEARLY_LOW
from borewright.core.rounding import plain

from .candidates import Reamed
from .drill_case import DrillCase
from .drill_sizes import SPECIAL
from .percent_of_thread import printed_hole
from .ranking import RULE_TOLERANCE, Ranked
from .standard_drills import Entry

_MOST_CHART_DRILLS = 2
_MOST_IN_STOCK = 2


def reasons_for_reaming(case: DrillCase, found: Reamed) -> tuple[str, ...]:
    """Why the hole of ``case`` is drilled under and reamed as ``found``. Source: TM 1-420 par. 37 (stock)."""
    return (
        f"no drill allowed holds the hole, so it is drilled under and {_reamed_with(case, found)} ({case.target.text})",
        f"{case.say(found.stock_left)} is left on diameter, mean hole reckoned",
        *_in_stock_text(case, found.drill),
    )


def _reamed_with(case: DrillCase, found: Reamed) -> str:
    diameter = case.say(found.diameter)
    return f"bored to {diameter}" if found.name is None else f"reamed with a {found.name} reamer ({diameter})"


def reasons_for_drill(case: DrillCase, ranked: Ranked, item: Entry, chart_drill: Entry | None) -> tuple[str, ...]:
    """Why the drill ``item`` out of those ``ranked`` for ``case`` was taken: by the chart or by which rule, its mean
    hole, how often it does, whether it is in stock.

    Args: ``chart_drill`` the drill that the chart alone would give.
    Source: charts as their tables say.
    """
    if case.by_wall_chart and not _stands_in(case, chart_drill, item):
        said = [_wall_chart_reason(case, item), *_chart_list(ranked)]
    elif chart_drill is not None and item.drill.label == chart_drill.drill.label:
        said = [_chart_reason(case, ranked, item)]
    else:
        said = [_chance_reason(case, item) if ranked.by_chance else _rule_reason(case, item)]
        said += _why_not_chart(case, ranked, chart_drill)
    if item.oversize is not None:
        whose = "the oversize stated for the machine" if item.oversize.own else "mean oversize"
        whose = whose if item.oversize.measured is None else "measured mean oversize"
        said.append(f"drills {case.say(item.hole)} on average ({case.say(item.oversize.value)} {whose})")
    return (*said, *_acceptance_text(case, ranked, item), *_in_stock_text(case, item))


def _stands_in(case: DrillCase, chart_drill: Entry | None, item: Entry) -> bool:
    """Whether a drill of the crib is taken in the place of the chart's."""
    return chart_drill is not None and case.crib is not None and item.drill.label != chart_drill.drill.label


def _wall_chart_reason(case: DrillCase, item: Entry) -> str:
    said = (
        f"the shop's wall chart: of the drills that are sold the one nearest to {case.target.text}"
        f" ({_target_text(case)}) that lies inside the minor diameter limits read to a thousandth"
    )
    return said + (", a metric one as no inch drill does" if item.drill.series == "metric" else "")


def _chart_list(ranked: Ranked) -> list[str]:
    """What the published charts list for the thread."""
    labels = ", ".join(ranked.rows)
    documents = ", ".join(sorted({row.source.partition(" Table")[0] for row in ranked.rows.values()}))
    return (
        [f"published charts list {labels} ({documents})"] if labels else ["no published tap drill chart is held for it"]
    )


def _chance_reason(case: DrillCase, item: Entry) -> str:
    which = "the drill in stock" if case.in_stock(item) else "the standard drill"
    said = f"{which} whose holes most often end inside the minor diameter limits, mean hole and spread reckoned"
    if case.request.objective == "acceptance":
        return said
    points = plain(100 * Decimal(repr(RULE_TOLERANCE)))
    return f"{said}: by more than {points} points over the one nearest to {case.target.text} ({_target_text(case)})"


def _acceptance_text(case: DrillCase, ranked: Ranked, item: Entry) -> list[str]:
    """The chance of the drill taken against that of the most accepted one, where the two differ."""
    own, likeliest = case.acceptance(item), ranked.most_accepted
    if own is None:
        return []
    said = f"about {in_percent(own)} of its holes end inside the minor diameter limits"
    best = in_percent(own if likeliest is None else case.acceptance(likeliest) or 0.0)
    if likeliest is None or best == in_percent(own):
        return [said] if own < CLEARLY_LOW else []
    return [f"{said}, of those of {likeliest.drill.label} {best}"]


def in_percent(chance: float) -> str:
    """A chance from 0 to 1 in percent."""
    return f"{100 * chance:.1f} %"


def _chart_reason(case: DrillCase, ranked: Ranked, item: Entry) -> str:
    row = ranked.rows[item.drill.label]
    if row.variant == "choice":
        nearest = f"the drill nearest to {case.target.text} ({_target_text(case)})"
        return f"{nearest} that {row.source} lists and that holds the limits"
    if row.status == "computed":
        return f"{row.source}; no published chart is held for this thread"
    return f"the drill for this thread by {row.source}"


def _rule_reason(case: DrillCase, item: Entry) -> str:
    which = "the drill in stock" if case.in_stock(item) else "the standard drill"
    if case.request.method == "form":
        return f"{which} whose mean hole is nearest to the {case.target.text} ({_target_text(case)})"
    if case.request.objective == "least_torque":
        return f"{which.replace('the ', 'the largest ')} that stays inside the hole limits, mean hole reckoned"
    return f"{which} nearest to {case.target.text} ({_target_text(case)}) that holds the limits, mean hole reckoned"


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
        f"chart drill {label} does not do: {_why_chart_drill_refused(case, label)}"
        for label in [*ranked.rows][:_MOST_CHART_DRILLS]
    ]


def _why_chart_drill_refused(case: DrillCase, label: str) -> str:
    row = next(row for row in case.chart if row.drill.label == label)
    if case.request.series is not None and row.drill.series not in case.request.series:
        return f"series {row.drill.series} was not asked for"
    return why_refused(case, case.entry(row.drill))


def _in_stock_text(case: DrillCase, item: Entry) -> list[str]:
    if case.crib is None:
        return []
    if case.in_stock(item):
        return ["in stock"]
    nearest = sorted(case.crib, key=lambda held: abs(held.diameter - case.target.hole))[:_MOST_IN_STOCK]
    said = [f"no drill in stock will do, buy {item.drill.label}"]
    return said + [f"in stock {held.drill.label}: {why_refused(case, held)}" for held in nearest]


def _target_text(case: DrillCase) -> str:
    return case.say(printed_hole(case.thread, case.target.hole))


def reasons_for_alternative(case: DrillCase, ranked: Ranked, item: Entry) -> tuple[str, ...]:
    """Why the drill ``item``, which holds the limits of ``case``, stands where it does among those ``ranked``.

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


def why_refused(case: DrillCase, item: Entry) -> str:
    """The reason that the drill ``item`` is not good enough for ``case``, in words.

    Source: limits of the thread's standard; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole.
    """
    if case.thread.taper is not None:
        return "not a drill that the chart lists for this taper thread"
    diameter, low, high, top = item.diameter, case.limits.min, case.limits.max, case.top
    if low is not None and diameter < low:
        below = f"{case.say(low - diameter)} below the smallest minor diameter {case.say(low)}"
        return f"{below}: the GO plain plug would not enter"
    if high is not None and diameter > high and not case.inside(diameter):
        above = f"{case.say(diameter - high)} above the largest minor diameter {case.say(high)}"
        return f"{above}: the NOT GO plain plug would enter"
    if case.target.low is not None and diameter < case.target.low:
        return f"leaves {case.basis.percent(diameter)} % of thread, more than asked for"
    if not case.inside(diameter):
        return f"leaves {case.basis.percent(diameter)} % of thread, less than asked for"
    if top is not None and item.hole > top:
        return f"drills {case.say(item.hole)} on average, {case.say(item.hole - top)} above {case.say(top)}"
    ask = case.request.may_take
    return "not needed: another drill is nearer" if ask is None else ask.why_not(item.hole)
