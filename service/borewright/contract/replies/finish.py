"""A finish and what it does to a thread, as replies show it."""

from __future__ import annotations

from borewright.contract.reading import Asked
from borewright.contract.unit_view import Json, UnitView, number, number_or_none, view
from borewright.core.caches import cached
from borewright.core.model import Allowance, Finish, Overtap, Range, Thread, Unit
from borewright.core.plan.specification import AllowanceReply
from borewright.core.requests import AllowanceRequest
from borewright.core.tapping import LimitChoice

from .parts import Part, close, part
from .tap import fit_body, limit_body, sold
from .thread import thread_part

_CACHED = 256


def allowance_reply(reply: AllowanceReply, asked: Asked[AllowanceRequest]) -> Json:
    """Reply of POST /v1/allowances."""
    section = finish_part(reply.allowance, reply.thread, asked.unit, "")
    figures = view(reply.thread.unit, asked.unit)
    body = {**section.body, "tap": _tap(reply.tap, figures)}
    parts = (thread_part(reply.thread, asked.unit, "thread."), section, part({}, reply.notes))
    return close(body, parts, figures, explain=asked.explain)


@cached(_CACHED)
def finish_part(allowance: Allowance, thread: Thread, asked: Unit | None, prefix: str) -> Part:
    """What a finish does to a thread as a section of a reply."""
    figures = view(thread.unit, asked)
    body: Json = {
        "thread": thread.designation,
        "finish": _finish(allowance.finish, figures),
        "reading": allowance.reading,
        "change": figures.diameters(allowance.change),
        "finished": figures.diameters(allowance.finished),
        "before_finish": figures.diameters(allowance.before_finish),
        "feasible": allowance.feasible,
        "remedies": figures.texts(allowance.remedies),
        "remaining_tolerance": {
            "pitch_diameter": figures.length_or_none(allowance.remaining_tolerance_pitch),
            "minor_diameter": figures.length_or_none(allowance.remaining_tolerance_minor),
        },
        "overtap": None if allowance.overtap is None else _overtap(allowance.overtap, figures),
        "axial_movement": None if allowance.axial_movement is None else figures.range(allowance.axial_movement),
    }
    return part(body, allowance.notes, prefix)


def _finish(finish: Finish, figures: UnitView) -> Json:
    return {
        "specification": finish.specification,
        "class": finish.finish_class,
        "process": finish.process,
        "thickness": figures.range(finish.thickness),
        "growth_fraction": _fraction(finish.growth_fraction),
        "build_up": figures.range(finish.build_up),
        "applied": finish.applied,
    }


def _fraction(growth: Range) -> object:
    """One number where both ends are the same, as for plating."""
    least, most = growth.min, growth.max
    if least is not None and least == most:
        return number(least)
    return {"min": number_or_none(least), "max": number_or_none(most)}


def _overtap(overtap: Overtap, figures: UnitView) -> Json:
    return {
        "standard": overtap.standard,
        "system": overtap.system,
        "amount": figures.length(overtap.amount),
        "limits": figures.diameters(overtap.limits),
    }


def _tap(choice: LimitChoice, figures: UnitView) -> Json | None:
    if choice.limit is None:
        return None
    fit = None if choice.fit is None else fit_body(choice.fit, figures)
    return {**limit_body(choice.limit, figures), "fit": fit, **sold(choice, figures)}
