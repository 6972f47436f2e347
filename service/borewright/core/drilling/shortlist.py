"""The drills that come into question for a thread, ranked once and kept: depth and part material change none of it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached_apart
from borewright.core.errors import DrillingError
from borewright.core.model import DrillCandidate, RejectedDrill, Thread
from borewright.core.requests import is_long_list

from . import reasons
from .candidate import drilled, reamed_hole, reasons_for
from .case import DrillCase, cutting_case
from .forming import forming_case
from .rank import MOST_ALTERNATIVES, Ranked, charted, rank, why_refused
from .reaming import Reamed, reamed
from .request import DrillQuestion
from .standard_drills import Entry

Rule = Literal["published_chart", "rule", "greatest_acceptance"]
_CACHED = 256


@dataclass(frozen=True, slots=True)
class Pick:
    """What was taken: a drill alone, or a drill with the reamed hole it prepares."""

    entry: Entry
    ream: Reamed | None
    rule: Rule
    candidate: DrillCandidate


@dataclass(frozen=True, slots=True, eq=False)
class Shortlist:
    """A case with its pick, the ranked alternatives and the nearest refused drills. Hashed by identity."""

    case: DrillCase
    ranked: Ranked
    pick: Pick
    alternatives: tuple[DrillCandidate, ...]
    rejected: tuple[RejectedDrill, ...]
    chart_drill: Entry | None


@cached_apart(_CACHED, lambda _thread, request, _band_max: is_long_list(request.stock))
def shortlist(thread: Thread, request: DrillQuestion, band_max: Decimal | None) -> Shortlist:
    """The drills for a thread.

    Args: ``band_max`` largest hole of the recommended band, None = it bounds nothing.
    Raises: DrillingError as ``recommend`` does.
    Source: charts as their tables say; shop rule major diameter less pitch.
    """
    case = forming_case(thread, request) if request.method == "form" else cutting_case(thread, request, band_max)
    ranked = rank(case)
    pick = _pick(case, ranked)
    refused = tuple(RejectedDrill(item.drill.label, item.diameter, why_refused(case, item)) for item in ranked.refused)
    return Shortlist(case, ranked, pick, _alternatives(case, ranked, pick), refused, charted(case, ranked))


def _pick(case: DrillCase, ranked: Ranked) -> Pick:
    best = ranked.in_crib or ranked.good
    if not best:
        found = reamed(case)
        return Pick(found.drill, found, "rule", reamed_hole(case, found, reasons.for_reaming(case, found)))
    item, chart_drill = best[0], _chart_drill(case, ranked)
    from_chart = chart_drill is not None and chart_drill.drill.label == item.drill.label
    row = ranked.rows.get(item.drill.label)
    published = from_chart and row is not None and row.status != "computed"
    rule: Rule = "published_chart" if published else "greatest_acceptance" if ranked.by_chance else "rule"
    why = reasons.for_drill(case, ranked, item, chart_drill)
    return Pick(item, None, rule, drilled(case, item, why))


def _chart_drill(case: DrillCase, ranked: Ranked) -> Entry | None:
    """The drill that the chart alone would give: None unless the chart decides (no percent aimed at)."""
    if not case.by_chart:
        return None
    if case.by_wall_chart:
        return next(iter(ranked.good), None)
    return next((item for item in ranked.good if item.drill.label in ranked.rows), None)


def _alternatives(case: DrillCase, ranked: Ranked, pick: Pick) -> tuple[DrillCandidate, ...]:
    """Other drills that hold the limits, best first, then chart variants; reamed first if the pick cuts large."""
    found = [*_reamed_instead(case, pick)]
    seen = {pick.entry.drill.label}
    for item in (*(ranked.in_crib or ()), *ranked.good):
        if item.drill.label not in seen and len(found) < MOST_ALTERNATIVES:
            seen.add(item.drill.label)
            found.append(drilled(case, item, reasons_for(case, ranked, item)))
    return (*found, *_variants(case, pick))[:MOST_ALTERNATIVES]


def _reamed_instead(case: DrillCase, pick: Pick) -> tuple[DrillCandidate, ...]:
    high = case.limits.max
    if pick.ream is not None or high is None or pick.entry.hole <= high:
        return ()
    try:
        ream = reamed(case)
    except DrillingError:
        return ()
    return (reamed_hole(case, ream, (f"reamed to {case.say(ream.diameter)} the hole holds the limits",)),)


def _variants(case: DrillCase, pick: Pick) -> list[DrillCandidate]:
    found = []
    for row in case.chart:
        item = case.entry(row.drill)
        if row.drill.label == pick.entry.drill.label:
            continue
        if row.variant == "reamed":
            ream = Reamed(item, item.diameter, stock_left=Decimal(0), name=row.drill.label)
            found.append(reamed_hole(case, ream, (f"drill for taper reaming: {row.source}",)))
        elif row.variant == "shop":
            found.append(drilled(case, item, (f"larger hole, fewer full threads: {row.source}",)))
    return found
