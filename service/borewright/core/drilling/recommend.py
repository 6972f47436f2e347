"""The drill for a thread: the chart's where there is one, a stated rule elsewhere, the crib's where that will do."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.caches import cached_apart
from borewright.core.derivation import one_after_the_other
from borewright.core.errors import DrillingError
from borewright.core.model import DrillCandidate, DrillChance, DrillChoice, Material, Notes, RejectedDrill, Thread

from .candidates import Pick, Reamed, Rule, Shortlist, drilled_candidate, reamed_candidate, reamed_hole
from .drill_case import DrillCase, DrillQuestion, DrillRequest, minor_diameter_to_make
from .drill_notes import notes_on_drill
from .hole_limits import EngagementStep, HoleLimits, engagement_step, hole_limits, limits_of_range
from .part_remarks import forming_material_cautions, percent_caution, reasons_of_the_part
from .percent_of_thread import printed_hole
from .ranking import MOST_ALTERNATIVES, Ranked, chart_drill_for, rank
from .reasons import reasons_for_alternative, reasons_for_drill, reasons_for_reaming, why_refused
from .standard_drills import Entry
from .target_hole import check_formable, cutting_case, forming_case

_CHOICES = 320
_SHORTLISTS = 64


def recommend(thread: Thread, request: DrillRequest) -> DrillChoice:
    """The drill for a thread, with ranked alternatives and the nearest drills that were not taken.

    Args: ``thread`` resolved; ``request`` how to choose, lengths in the thread's unit.
    Raises: DrillingError ``drill_not_found``, ``drill_unknown``, ``drill_series_unknown``, ``percent_out_of_range``,
        ``range_inconsistent``, ``method_not_applicable``.
    Source: tap drill charts as their tables say; shop rule major diameter less pitch; limits of the thread's standard.
    """
    step = None if request.engagement is None else engagement_step(thread, request.engagement)
    return _recommend(thread, request.question, request.material, step)


@cached_apart(_CHOICES, lambda _thread, request, _material, _step: request.has_own_drills)
def _recommend(
    thread: Thread, request: DrillQuestion, material: Material | None, step: EngagementStep | None
) -> DrillChoice:
    if request.method == "form":
        check_formable(thread, material)
    band = _recommended_limits(thread, request, step)
    top = band.limits.max if band is not None and request.objective == "least_torque" else None
    found = shortlist(thread, request, top)
    case, pick = found.case, found.pick
    hole = pick.entry.hole if pick.ream is None else pick.ream.diameter
    why = (*pick.candidate.reasons, *reasons_of_the_part(case, hole, material, step, band))
    base, own = notes_on_drill(found), band.notes if band is not None else Notes()
    return DrillChoice(
        thread=thread.designation,
        method=request.method,
        objective=request.objective,
        rule=pick.rule,
        percent_basis=case.basis.text,
        target_percent=case.basis.percent(case.target.hole),
        target_hole_diameter=printed_hole(thread, case.target.hole),
        minor_diameter=minor_diameter_to_make(thread, request),
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
                *forming_material_cautions(request, material),
                *percent_caution(case, pick, material, step),
                *own.cautions,
            ),
            (*base.sources, *own.sources),
            one_after_the_other(base.steps, own.steps),
            base.decisions,
        ),
    )


def _chance(case: DrillCase, item: Entry | None) -> DrillChance | None:
    return None if item is None or case.aim is None else DrillChance(item.drill.label, case.acceptance(item))


def _recommended_limits(thread: Thread, request: DrillQuestion, step: EngagementStep | None) -> HoleLimits | None:
    """The recommended band by length of engagement: for cut threads judged by their own limits only."""
    if request.method == "form" or minor_diameter_to_make(thread, request) != thread.internal.minor_diameter:
        return None
    if step is None:
        return hole_limits(thread)
    return None if step.range is None else limits_of_range(thread, step.range)


@cached_apart(_SHORTLISTS, lambda _thread, request, _band_max: request.has_own_drills)
def shortlist(thread: Thread, request: DrillQuestion, band_max: Decimal | None) -> Shortlist:
    """The drills for the thread that ``request`` allows.

    Args: ``band_max`` largest hole of the recommended band, None = it bounds nothing.
    Raises: DrillingError as ``recommend`` does.
    Source: charts as their tables say; shop rule major diameter less pitch.
    """
    case = forming_case(thread, request) if request.method == "form" else cutting_case(thread, request, band_max)
    ranked = rank(case)
    pick = _pick(case, ranked)
    refused = tuple(RejectedDrill(item.drill.label, item.diameter, why_refused(case, item)) for item in ranked.refused)
    return Shortlist(case, ranked, pick, _alternatives(case, ranked, pick), refused, chart_drill_for(case, ranked))


def _pick(case: DrillCase, ranked: Ranked) -> Pick:
    if case.request.stated is not None:
        item = case.entry(case.request.stated)
        return Pick(item, None, "rule", drilled_candidate(case, item, ("stated by the drawing",)))
    if case.request.prescribed is not None:
        return _prescribed(case, ranked, case.request.prescribed)
    best = ranked.in_crib or ranked.good
    if not best:
        found = reamed_hole(case)
        return Pick(found.drill, found, "rule", reamed_candidate(case, found, reasons_for_reaming(case, found)))
    item, chart_drill = best[0], _chart_drill(case, ranked)
    from_chart = chart_drill is not None and chart_drill.drill.label == item.drill.label
    row = ranked.rows.get(item.drill.label)
    published = from_chart and row is not None and row.status != "computed"
    rule: Rule = "published_chart" if published else "greatest_acceptance" if ranked.by_chance else "rule"
    why = reasons_for_drill(case, ranked, item, chart_drill)
    return Pick(item, None, rule, drilled_candidate(case, item, why))


def _prescribed(case: DrillCase, ranked: Ranked, label: str) -> Pick:
    item = next((one for one in (*(ranked.in_crib or ()), *ranked.good) if one.drill.label == label), None)
    if item is None:
        raise DrillingError("drill_not_found", f"{label} does not hold the limits of the hole", pointer="/hole")
    return Pick(item, None, "rule", drilled_candidate(case, item, ("prescribed, and holds the limits of the hole",)))


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
            found.append(drilled_candidate(case, item, reasons_for_alternative(case, ranked, item)))
    return (*found, *_variants(case, pick))[:MOST_ALTERNATIVES]


def _reamed_instead(case: DrillCase, pick: Pick) -> tuple[DrillCandidate, ...]:
    high = case.limits.max
    if pick.ream is not None or high is None or pick.entry.hole <= high:
        return ()
    try:
        ream = reamed_hole(case)
    except DrillingError:
        return ()
    return (reamed_candidate(case, ream, (f"reamed to {case.say(ream.diameter)} the hole holds the limits",)),)


def _variants(case: DrillCase, pick: Pick) -> list[DrillCandidate]:
    found = []
    for row in case.chart:
        item = case.entry(row.drill)
        if row.drill.label == pick.entry.drill.label:
            continue
        if row.variant == "reamed":
            ream = Reamed(item, item.diameter, row.drill.label)
            found.append(reamed_candidate(case, ream, (f"drill for taper reaming: {row.source}",)))
        elif row.variant == "shop":
            found.append(drilled_candidate(case, item, (f"larger hole, fewer full threads: {row.source}",)))
    return found
