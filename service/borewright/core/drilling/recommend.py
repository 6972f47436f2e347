"""The drill for a thread: the chart's where there is one, a stated rule elsewhere, the crib's where that will do."""

from __future__ import annotations

from dataclasses import replace

from borewright.core.caches import cached
from borewright.core.model import DrillChance, DrillChoice, Notes, Thread

from . import notes, reasons
from .case import DrillCase, to_make
from .drill_acceptance import accepted
from .engagement import like
from .forming import check_method, material_cautions
from .hole_limits import HoleLimits, hole_limits
from .outside import percent_caution
from .percent import printed_hole
from .request import DrillRequest
from .shortlist import shortlist
from .standard_drills import Entry

_CACHED = 512


def recommend(thread: Thread, request: DrillRequest) -> DrillChoice:
    """The drill for a thread, with ranked alternatives and the nearest drills that were not taken.

    Args: ``thread`` resolved; ``request`` how to choose, lengths in the thread's unit.
    Raises: DrillingError ``drill_not_found``, ``drill_unknown``, ``drill_series_unknown``, ``percent_out_of_range``,
        ``range_inconsistent``, ``method_not_applicable``, ``thread_data_missing``.
    Source: tap drill charts as their tables say; shop rule major diameter less pitch; limits of the thread's standard.
    """
    if request.engagement is None:
        return _recommend(thread, request)
    return _recommend(thread, replace(request, engagement=like(thread, request.engagement)))


@cached(_CACHED)
def _recommend(thread: Thread, request: DrillRequest) -> DrillChoice:
    if request.method == "form":
        check_method(thread, request)
    band = _band(thread, request)
    top = band.limits.max if band is not None and request.objective == "least_torque" else None
    found = shortlist(thread, replace(request, engagement=None, material=None), top)
    case, pick = found.case, found.pick
    hole = pick.entry.hole if pick.ream is None else pick.ream.diameter
    why = (*pick.candidate.reasons, *reasons.of_the_part(thread, request, hole, band))
    base, own = notes.notes(found), band.notes if band is not None else Notes()
    return DrillChoice(
        method=request.method,
        objective=request.objective,
        rule=pick.rule,
        percent_basis=case.basis.text,
        target_percent=case.basis.percent(case.target.hole),
        target_hole_diameter=printed_hole(thread, case.target.hole),
        minor_diameter=to_make(thread, request),
        hole_limits=None if band is None else band.limits,
        recommended=replace(pick.candidate, reasons=why),
        alternatives=found.alternatives,
        rejected=found.rejected,
        ream_diameter=None if pick.ream is None else pick.ream.diameter,
        chart_drill=_chance(case, found.chart_drill),
        most_accepted=_chance(case, found.ranked.most_accepted),
        notes=Notes(
            (*base.assumptions, *own.assumptions),
            (*base.cautions, *material_cautions(request), *percent_caution(case, pick, request), *own.cautions),
            (*base.sources, *own.sources),
            (*base.steps, *own.steps),
            base.decisions,
        ),
    )


def _chance(case: DrillCase, item: Entry | None) -> DrillChance | None:
    return None if item is None or case.aim is None else DrillChance(item.drill.label, accepted(case, item))


def _band(thread: Thread, request: DrillRequest) -> HoleLimits | None:
    """The recommended band by length of engagement: for cut threads judged by their own limits only."""
    if request.method == "form" or to_make(thread, request) != thread.internal.minor_diameter:
        return None
    return hole_limits(thread, request.engagement)
