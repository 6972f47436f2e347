"""Which drills are good enough for a case, in which order, and why the others are not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.practice import figure, number

from .drill_case import DrillCase
from .drill_sizes import SERIES, SPECIAL
from .standard_drills import USUAL, Entry
from .tap_drill_charts import ChartRow

#: How far the drill nearest to the hole aimed at may stay behind the most accepted one where no chart decides.
RULE_TOLERANCE = number("chart_rule_tolerance")
MOST_ALTERNATIVES = 8
MOST_REJECTED = 8
_NEIGHBOURS = 3
_SERIES_RANK = {series: place for place, series in enumerate(SERIES)}
#: How near a first-choice drill must come to a percent asked for, in percent of thread.
NEAR_PERCENT = figure("near_percent")
#: Pools of drills, best source first.
_CHART, _FIRST, _SECOND, _CRIB, _SPECIAL = range(5)


@dataclass(frozen=True, slots=True)
class Ranked:
    """Entries good enough, best first; ``in_crib`` those of the crib (None = stock not told); the nearest refused.

    ``most_accepted`` is the one whose holes most often hold the limits, None where no chance is known; ``by_chance``
    whether the drill to take comes first for its chance, not for the hole aimed at.
    """

    good: tuple[Entry, ...]
    in_crib: tuple[Entry, ...] | None
    refused: tuple[Entry, ...]
    rows: Mapping[str, ChartRow]
    most_accepted: Entry | None
    by_chance: bool


def rank(case: DrillCase) -> Ranked:
    """The drills for ``case``, weighed: those of the chart, the standard ones around the hole aimed at and the crib.

    Source: shop rule nearest to the hole aimed at; charts as their tables say.
    """
    rows = {row.drill.label: row for row in case.chart if row.variant in ("straight", "choice")}
    if not rows and case.thread.taper is not None:
        rows = {row.drill.label: row for row in case.chart if row.variant == "shop"}
    good: list[tuple[int, Entry]] = []
    refused: list[Entry] = []
    seen: set[str] = set()
    for pool, item in _pools(case, rows):
        if item.drill.label not in seen:
            seen.add(item.drill.label)
            if good_enough(case, item, rows):
                good.append((pool, item))
            else:
                refused.append(item)
    good = good or _least_miss(case, refused)
    good.sort(key=lambda found: (found[0], *_order(case, found[1])))
    likeliest = _most_accepted(case, good)
    best, by_chance = _likeliest_first(case, [item for _, item in good], likeliest, rows)
    refused += [item for item in best[1:] if cuts_too_large(case, item)]
    hole = case.target.hole
    refused.sort(key=lambda item: abs(item.diameter - hole))
    in_crib, by_chance = _best_of_crib(case, best[0] if best else None, rows, by_chance=by_chance)
    return Ranked(
        tuple(item for place, item in enumerate(best) if place == 0 or not cuts_too_large(case, item)),
        in_crib,
        tuple(refused[:MOST_REJECTED]),
        rows,
        likeliest,
        by_chance,
    )


def _least_miss(case: DrillCase, refused: list[Entry]) -> list[tuple[int, Entry]]:
    """The sold drill that misses least where each inside the limits cuts too large on average: it makes a decision."""
    if case.request.method == "form" or case.thread.taper is not None:
        return []
    inside = [
        item
        for item in refused
        if case.inside(item.diameter) and cuts_too_large(case, item) and item.drill.series != SPECIAL
    ]
    usual = [item for item in inside if item.drill.series in USUAL[case.thread.unit][0]] or inside
    least = min(usual, key=lambda item: item.hole, default=None)
    if least is None:
        return []
    refused.remove(least)
    return [(_FIRST, least)]


def _most_accepted(case: DrillCase, good: list[tuple[int, Entry]]) -> Entry | None:
    """The most accepted drill of the series that come first, of the other ones where those hold none."""
    holding = [(pool, item) for pool, item in good if not cuts_too_large(case, item)]
    first = most_accepted(case, (item for pool, item in holding if pool in (_CHART, _FIRST)))
    return first if first is not None else most_accepted(case, (item for pool, item in holding if pool == _SECOND))


def _likeliest_first(
    case: DrillCase, best: list[Entry], likeliest: Entry | None, rows: Mapping[str, ChartRow]
) -> tuple[list[Entry], bool]:
    """The most accepted drill before the nearest to the hole aimed at, where no chart decides and it is clearly so."""
    if likeliest is None:
        return best, False
    if case.request.objective == "acceptance":
        return best, case.acceptance(best[0]) is not None
    if not _chance_decides(case, best[0], rows) or not clearly_likelier(case, likeliest, best[0]):
        return best, False
    return [likeliest, *(item for item in best if item is not likeliest)], True


def chart_drill_for(case: DrillCase, ranked: Ranked) -> Entry | None:
    """The drill that a chart gives for the thread of ``case``, whether or not it is among those ``ranked`` and taken;
    None where no chart lists one.

    Source: charts as their tables say.
    """
    good = {item.drill.label for item in ranked.good}

    def place(row: ChartRow) -> tuple[bool, bool, Decimal, Decimal]:
        diameter = case.entry(row.drill).diameter
        return row.variant != "straight", row.drill.label not in good, abs(diameter - case.target.hole), -diameter

    row = min(ranked.rows.values(), key=place, default=None)
    return None if row is None else case.entry(row.drill)


def _chance_decides(case: DrillCase, first: Entry, rows: Mapping[str, ChartRow]) -> bool:
    """Whether the chance of acceptance may overrule the rule: neither chart nor percent asked for names the drill."""
    return case.by_chart and not case.by_wall_chart and not _is_published(rows.get(first.drill.label))


def _is_published(row: ChartRow | None) -> bool:
    """Whether a chart, not a size worked out, names the drill."""
    return row is not None and row.status != "computed"


def _pools(case: DrillCase, rows: Mapping[str, ChartRow]) -> Iterator[tuple[int, Entry]]:
    """Every drill looked at with the pool it comes from; a drill counts in the first pool that holds it."""
    for row in rows.values():
        if case.request.series is None or row.drill.series in case.request.series:
            yield _pool_of(case, row), case.entry(row.drill)
    if case.thread.taper is None:
        low, high = hole_ends(case)
        if case.request.method == "form":
            low -= high - low  # the hole is judged by its mean, which is larger than the drill
        near = (
            *case.first.below(low, _NEIGHBOURS),
            *case.first.between(low=low, high=high),
            *case.first.above(high, _NEIGHBOURS),
        )
        for item in near:
            yield _FIRST if _near_percent(case, item) else _SECOND, item
        for item in case.second.between(low=low, high=high) if case.second is not None else ():
            yield _SECOND, item
    for item in case.crib or ():
        yield _CRIB, item


def _pool_of(case: DrillCase, row: ChartRow) -> int:
    """A chart's drill that is not sold comes last; one of several listed counts by its own series."""
    if row.drill.series == SPECIAL and case.thread.taper is None:
        return _SPECIAL
    if case.by_chart and row.variant == "straight":
        return _CHART
    other = case.second is not None and row.drill.series not in USUAL[case.thread.unit][0]
    return _SECOND if other else _FIRST


def _near_percent(case: DrillCase, item: Entry) -> bool:
    """Where a percent is aimed at, a drill of first choice must come near it to go before those of second choice."""
    percent = case.request.percent
    if case.request.method == "cut" and (percent is None or percent.target is None):
        return True
    return distance_to_target(case, item) <= NEAR_PERCENT * case.basis.full_height / 100


def hole_ends(case: DrillCase) -> tuple[Decimal, Decimal]:
    """Smallest and largest hole of ``case``, in the thread's unit; a taper thread has neither."""
    low, high = case.target.low, case.target.high
    return low if low is not None else case.target.hole, high if high is not None else case.target.hole


def _order(case: DrillCase, item: Entry) -> tuple[float | Decimal, ...]:
    large, series = cuts_too_large(case, item), _SERIES_RANK.get(item.drill.series, len(SERIES))
    if case.request.objective == "least_torque":
        return large, *torque_order(item), series
    if case.request.objective == "acceptance":
        return large, *likelier_first(case, item), series
    if case.by_wall_chart:
        return distance_to_target(case, item), -item.diameter, series
    return large, distance_to_target(case, item), -item.diameter, series


def distance_to_target(case: DrillCase, item: Entry) -> Decimal:
    """How far, in the thread's unit, the drill ``item`` is from the hole that ``case`` aims at; a formed hole is aimed
    at with the mean hole, as it is drilled.

    Source: definition.
    """
    return abs((item.hole if case.request.method == "form" else item.diameter) - case.target.hole)


def _best_of_crib(
    case: DrillCase, best: Entry | None, rows: Mapping[str, ChartRow], *, by_chance: bool
) -> tuple[tuple[Entry, ...] | None, bool]:
    """What the crib holds that will do: the best drill of all if it is there, then the nearest to the hole aimed at.

    Only the best of all may cut larger than the limits on average.
    """
    if case.crib is None:
        return None, by_chance
    best_label = None if best is None else best.drill.label
    good = [
        item
        for item in case.crib
        if item.drill.label == best_label or (good_enough(case, item, rows) and not cuts_too_large(case, item))
    ]
    good.sort(key=lambda item: (item.drill.label != best_label, *_order(case, item)))
    if good and good[0].drill.label != best_label:
        good, by_chance = _likeliest_first(case, good, most_accepted(case, good), rows)
    return tuple(good), by_chance


def good_enough(case: DrillCase, item: Entry, rows: Mapping[str, ChartRow]) -> bool:
    """Whether the drill ``item`` may be taken for ``case``, whose chart has ``rows``.

    The mean oversize throws out no drill of a chart: it makes a decision. The one drill that a chart gives is taken as
    it is where the largest minor diameter is not held. Everything else must hold the limits with its own diameter and
    with the mean hole it makes.
    Source: limits of the thread's standard; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole.
    """
    row = rows.get(item.drill.label)
    if case.thread.taper is not None:
        return row is not None
    if row is not None and row.variant == "straight" and _is_taken_unchecked(case, row):
        return True
    taken_anyway = case.by_wall_chart or (case.request.objective == "chart" and _names_the_drill(row))
    judged = item.hole if case.request.method == "form" else item.diameter
    if not case.inside(judged) or (not taken_anyway and cuts_too_large(case, item)):
        return False
    ask = case.request.may_take
    return ask is None or case.request.objective != "least_torque" or ask(item.hole)


def _names_the_drill(row: ChartRow | None) -> bool:
    """Whether a chart gives the drill for the thread's very class."""
    return row is not None and row.for_class and _is_published(row)


def _is_taken_unchecked(case: DrillCase, row: ChartRow) -> bool:
    """Whether a chart's drill is taken unchecked: no largest minor diameter is held."""
    return case.limits.max is None and row.for_class and not case.moved and case.request.objective == "chart"


def cuts_too_large(case: DrillCase, item: Entry) -> bool:
    """Whether the mean hole of the drill ``item`` is above the largest that ``case`` allows.

    Source: FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2.
    """
    return case.top is not None and item.hole > case.top


def likelier_first(case: DrillCase, item: Entry) -> tuple[float, Decimal, Decimal]:
    """Sort key of ``item`` in ``case`` that puts the most often accepted drill first, of equals the nearest, in the
    thread's unit, to the hole aimed at.

    Source: as :meth:`DrillCase.acceptance`.
    """
    return -(case.acceptance(item) or 0.0), abs(item.diameter - case.target.hole), -item.diameter


def most_accepted(case: DrillCase, items: Iterable[Entry]) -> Entry | None:
    """The most often accepted of the drills ``items`` in ``case``, None where no chance is known.

    Source: as :meth:`DrillCase.acceptance`.
    """
    known = [(chance, item) for item in items if (chance := case.acceptance(item)) is not None]
    hole = case.target.hole
    best = max(known, key=lambda one: (one[0], -abs(one[1].diameter - hole), one[1].diameter), default=None)
    return None if best is None else best[1]


def clearly_likelier(case: DrillCase, other: Entry, than: Entry) -> bool:
    """Whether the drill ``other`` is accepted more often in ``case`` ``than`` another by more than the tolerance of the
    rule.

    Source: as :meth:`DrillCase.acceptance`.
    """
    better, worse = case.acceptance(other), case.acceptance(than)
    return better is not None and worse is not None and better > worse + RULE_TOLERANCE


def torque_order(item: Entry) -> tuple[Decimal, Decimal]:
    """Sort key of ``item`` that puts the largest mean hole, in the thread's unit, first.

    Source: geometry; torque falls with the thread height.
    """
    return -item.hole, -item.diameter
