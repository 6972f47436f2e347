"""The drill for a thread: the chart's where there is one, a stated rule elsewhere, the crib's where that will do."""

from __future__ import annotations

from dataclasses import replace

from borewright.core.caches import cached_apart
from borewright.core.model import DrillChance, DrillChoice, Material, Notes, Thread
from borewright.core.requests import is_long_list

from . import notes, reasons
from .case import DrillCase, to_make
from .drill_acceptance import accepted
from .engagement import EngagementStep, engagement_step
from .forming import check_method, material_cautions
from .hole_limits import HoleLimits, hole_limits, limits_of_range
from .outside import percent_caution
from .percent import printed_hole
from .request import DrillQuestion, DrillRequest
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
    step = None if request.engagement is None else engagement_step(thread, request.engagement)
    return _recommend(thread, request.question, request.material, step)


@cached_apart(_CACHED, lambda _thread, request, _material, _step: is_long_list(request.stock))
def _recommend(
    thread: Thread, request: DrillQuestion, material: Material | None, step: EngagementStep | None
) -> DrillChoice:
    if request.method == "form":
        check_method(thread, material)
    band = _band(thread, request, step)
    top = band.limits.max if band is not None and request.objective == "least_torque" else None
    found = shortlist(thread, request, top)
    case, pick = found.case, found.pick
    hole = pick.entry.hole if pick.ream is None else pick.ream.diameter
    why = (*pick.candidate.reasons, *reasons.of_the_part(case, hole, material, step, band))
    base, own = notes.notes(found), band.notes if band is not None else Notes()
    return DrillChoice(
        thread=thread.designation,
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
            (
                *base.cautions,
                *material_cautions(request, material),
                *percent_caution(case, pick, material, step),
                *own.cautions,
            ),
            (*base.sources, *own.sources),
            (*base.steps, *own.steps),
            base.decisions,
        ),
    )


def _chance(case: DrillCase, item: Entry | None) -> DrillChance | None:
    return None if item is None or case.aim is None else DrillChance(item.drill.label, accepted(case, item))


def _band(thread: Thread, request: DrillQuestion, step: EngagementStep | None) -> HoleLimits | None:
    """The recommended band by length of engagement: for cut threads judged by their own limits only."""
    if request.method == "form" or to_make(thread, request) != thread.internal.minor_diameter:
        return None
    if step is None:
        return hole_limits(thread)
    return None if step.range is None else limits_of_range(thread, step.range)
