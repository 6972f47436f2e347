"""The choice of a drill as replies show it."""

from __future__ import annotations

from borewright.contract.reading import Asked
from borewright.contract.unit_view import Json, UnitView, number, number_or_none, significant, view
from borewright.core.caches import cached
from borewright.core.model import DrillCandidate, DrillChance, DrillChoice, Thread, Unit
from borewright.core.model.decision import ordered
from borewright.core.plan.specification import DrillReply
from borewright.core.requests import DrillRecommendation

from .parts import Part, close, part, review
from .thread import thread_part

_CACHED = 256


def drill_reply(reply: DrillReply, asked: Asked[DrillRecommendation]) -> Json:
    """Reply of POST /v1/drills/recommend."""
    section = drill_part(reply.drill, reply.thread, asked.unit, "")
    parts = [thread_part(reply.thread, asked.unit, "thread."), section, part({}, reply.notes)]
    if reply.allowance is not None:
        parts.insert(1, part({}, reply.allowance.notes, "finish."))
    figures = view(reply.thread.unit, asked.unit)
    left_open = ordered(one for section in parts for one in section.notes.decisions)
    return close({**section.body, "review": review(left_open, figures)}, parts, figures, explain=asked.explain)


@cached(_CACHED)
def drill_part(choice: DrillChoice, thread: Thread, asked: Unit | None, prefix: str) -> Part:
    """The choice of a drill as a section of a reply."""
    figures = view(thread.unit, asked)
    body: Json = {
        "thread": thread.designation,
        "method": choice.method,
        "objective": choice.objective,
        "rule": choice.rule,
        "percent_basis": choice.percent_basis,
        "target": {
            "percent_thread": number_or_none(choice.target_percent),
            "hole_diameter": figures.length(choice.target_hole_diameter),
        },
        "minor_diameter_limits": figures.range(choice.minor_diameter),
        "hole_limits": None if choice.hole_limits is None else figures.range(choice.hole_limits),
        "recommended": _candidate(choice.recommended, figures),
        "ream_diameter": figures.length_or_none(choice.ream_diameter),
        "chart_drill": _chance(choice.chart_drill),
        "most_accepted": _chance(choice.most_accepted),
        "alternatives": [_candidate(candidate, figures) for candidate in choice.alternatives],
        "rejected": [
            {"label": drill.label, "diameter": figures.length(drill.diameter), "reason": figures.text(drill.reason)}
            for drill in choice.rejected
        ],
    }
    return part(body, choice.notes, prefix)


def _chance(found: DrillChance | None) -> Json | None:
    return None if found is None else {"label": found.label, "acceptance": significant(found.acceptance)}


def _candidate(candidate: DrillCandidate, figures: UnitView) -> Json:
    expected = candidate.expected_percent_thread
    return {
        "label": candidate.drill.label,
        "series": candidate.drill.series,
        "diameter": figures.length(candidate.diameter),
        "percent_thread": number(candidate.percent_thread),
        "expected_hole_diameter": figures.length_or_none(candidate.expected_hole_diameter),
        "expected_percent_thread": number_or_none(expected),
        "within_minor_diameter_limits": candidate.within_minor_diameter_limits,
        "margin": {
            "below_max": figures.length_or_none(candidate.margin_below_max),
            "above_min": figures.length_or_none(candidate.margin_above_min),
        },
        "acceptance": significant(candidate.acceptance),
        "operation": candidate.operation,
        "in_stock": candidate.in_stock,
        "special": candidate.special,
        "order_text": None if candidate.order_text is None else figures.text(candidate.order_text),
        "reasons": figures.texts(candidate.reasons),
    }
