"""What a field of a hole specification is about, and whether the shop must know when it changes."""

from __future__ import annotations

import re
from collections.abc import Mapping

#: Subjects of a change, those that matter first.
MATTERING = ("tool", "depth", "limit", "gauge", "operation", "decision", "caution")
SUBJECTS = (*MATTERING, "figure", "words", "source", "version")

#: Subject by the place of a field, places in lists left out; the longest beginning counts.
_BY_PLACE: Mapping[str, str] = {
    "": "figure",
    "id": "words",
    "spec_id": "version",
    "tables_version": "version",
    "rules_version": "version",
    "verdict": "decision",
    "review": "decision",
    "review.text": "words",
    "review.pointer": "words",
    "headline": "words",
    "headline.drill": "tool",
    "headline.tap": "tool",
    "headline.depth": "depth",
    "headline.speed": "operation",
    "headline.gauge": "gauge",
    "limits": "limit",
    "thread": "limit",
    "thread.standard": "source",
    "thread.tolerance": "source",
    "thread.tensile_stress_area": "figure",
    "thread.external_reference": "figure",
    "finish.finished": "limit",
    "finish.before_finish": "limit",
    "finish.overtap": "limit",
    "finish.finish": "operation",
    "finish.finish.growth_fraction": "figure",
    "finish.stress_relief": "operation",
    "finish.bake": "operation",
    "finish.tap": "tool",
    "finish.remedies": "words",
    "drill.recommended.label": "tool",
    "drill.recommended.diameter": "tool",
    "drill.recommended.series": "tool",
    "drill.recommended.operation": "operation",
    "drill.recommended.special": "tool",
    "drill.recommended.reasons": "words",
    "drill.minor_diameter_limits": "limit",
    "drill.rule": "words",
    "drill.alternatives": "words",
    "drill.rejected": "words",
    "tap.limits_to_make": "limit",
    "tap.recommended.style": "tool",
    "tap.recommended.chamfer": "tool",
    "tap.recommended.limit": "tool",
    "tap.recommended.marking": "tool",
    "tap.recommended.substrate": "tool",
    "tap.recommended.surface": "tool",
    "tap.recommended.availability": "tool",
    "tap.recommended.second_tap": "tool",
    "tap.recommended.second_tap.reasons": "words",
    "tap.recommended.second_tap.fit": "figure",
    "tap.recommended.second_tap.acceptance": "figure",
    "tap.recommended.reasons": "words",
    "tap.alternatives": "words",
    "tap.rejected": "words",
    "depths": "depth",
    "reach.length": "tool",
    "reach.shank": "tool",
    "reach.advice": "words",
    "gauging": "gauge",
    "gauging.acceptance": "words",
    "operations": "operation",
    "operations.time": "figure",
    "acceptance.model": "words",
    "comparison.reasons": "words",
    "cautions": "caution",
    "cautions.text": "words",
    "notice": "words",
    "assumptions": "words",
    "derivation": "words",
    "sources": "source",
    "units": "words",
}
#: A whole part of a reply that comes or goes takes its tool along.
_WHOLE: Mapping[str, str] = {
    "drill": "tool", "drill.recommended": "tool", "tap": "tool", "tap.recommended": "tool", "finish": "limit",
}  # fmt: skip
_BY_NAMES: Mapping[tuple[str, ...], str] = {
    tuple(filter(None, place.split("."))): about for place, about in _BY_PLACE.items()
}
_WHOLE_BY_NAMES: Mapping[tuple[str, ...], str] = {tuple(place.split(".")): about for place, about in _WHOLE.items()}
#: Texts that repeat figures: other words with the same figures are only words.
_REPEATING = ("headline", "operations.text")
#: Where these alone name the tool, every word of them counts.
_NAMING = ("headline.drill", "headline.tap")
_FIGURE = re.compile(r"[A-Za-z#]*[0-9][0-9.,/]*")


def subject(place: tuple[str, ...], before: object, after: object, *, texts_alone: bool) -> str:
    """What a change is about, a word of :data:`SUBJECTS`.

    Args: ``place`` of the field, places in lists left out; ``before`` and ``after`` its values; ``texts_alone`` where
        the reply has no tools and depths but in its texts.
    """
    if place in _WHOLE_BY_NAMES:
        return _WHOLE_BY_NAMES[place]
    known = place
    while known not in _BY_NAMES:
        known = known[:-1]
    found = _BY_NAMES[known]
    if isinstance(before, str) and isinstance(after, str) and (dotted := ".".join(place)).startswith(_REPEATING):
        named = texts_alone and dotted in _NAMING
        return found if named or _FIGURE.findall(before) != _FIGURE.findall(after) else "words"
    return found


def matters(about: str) -> bool:
    """Whether the shop must know."""
    return about in MATTERING
