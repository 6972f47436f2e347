"""The thread as replies show it."""

from __future__ import annotations

from borewright.contract.reading import Asked
from borewright.contract.unit_view import Json, number, number_or_none, view
from borewright.core.caches import cached
from borewright.core.model import Thread, Unit
from borewright.core.requests import ResolveRequest

from .parts import Part, close, part

_CACHED = 512


def thread_reply(thread: Thread, asked: Asked[ResolveRequest]) -> Json:
    """Reply of POST /v1/threads/resolve."""
    section = thread_part(thread, asked.unit, "")
    return close({**section.body}, (section,), view(thread.unit, asked.unit), explain=asked.explain)


@cached(_CACHED)
def thread_part(thread: Thread, asked: Unit | None, prefix: str) -> Part:
    """The thread as a section of a reply."""
    return part(_body(thread, asked), thread.notes, prefix)


def _body(thread: Thread, asked: Unit | None) -> Json:
    figures = view(thread.unit, asked)
    external = thread.external
    body: Json = {
        "designation": thread.designation,
        "system": thread.system,
        "series": thread.series,
        "class": thread.thread_class,
        "hand": thread.hand,
        "starts": thread.starts,
        "nominal_diameter": figures.length(thread.nominal_diameter),
        "pitch": figures.length(thread.pitch),
        "threads_per_inch": number_or_none(thread.threads_per_inch),
        "lead": figures.length(thread.lead),
        "thread_angle": number(thread.thread_angle),
        "taper": number_or_none(thread.taper),
        "standard": {"document": thread.standard.document, "edition": thread.standard.edition},
        "basic": {
            "major_diameter": figures.length(thread.basic.major_diameter),
            "pitch_diameter": figures.length(thread.basic.pitch_diameter),
            "minor_diameter": figures.length(thread.basic.minor_diameter),
        },
        "internal": figures.diameters(thread.internal),
        "external": None if external is None else figures.diameters(external),
        "mating_class": thread.mating_class,
        "tensile_stress_area": figures.area_or_none(thread.tensile_stress_area),
    }
    for name, fields in thread.extra.items():
        body[name] = figures.mapping(fields)
    return body
