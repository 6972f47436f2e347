"""The reply of POST /v1/rework. It is loaded by the first one: who specifies holes does without."""

from __future__ import annotations

from borewright.contract.requests.rework import ReworkAsked
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.rework import ReworkReply, ReworkShown, WayShown
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.model import Notes, Unit
from borewright.core.plan.specify import specify
from borewright.core.rework.rework_way import Changed, Rework, ReworkWay

from . import replies
from .requests import HOLE_SPEC
from .unit_view import Json, view

#: What of its specification a way shows.
_IN_SHORT = ("spec_id", "verdict", "review", "headline")
_SYSTEM_OF_UNIT: dict[Unit, str] = {"in": "inch", "mm": "metric"}


def rework_reply(rework: Rework, asked: ReworkAsked) -> Json:
    """The reply as an object."""
    return replies.parsed(rework_pieces(rework, asked))


def rework_pieces(rework: Rework, asked: ReworkAsked) -> Pieces:
    """The ways in pieces, every length in the units asked for, else in those of the drawn thread."""
    ways = [_shown(one, rework, asked, place) for place, one in enumerate(rework.ways)]
    steps = (SectionNotes(Notes(steps=one.way.notes.steps), f"ways.{one.place}.") for one in ways)
    return pieces(
        reply_texts(
            ReworkReply,
            ReworkShown(rework, ways),
            view(rework.thread.unit, asked.asked.unit),
            after=[SectionNotes(rework.notes, ""), *steps],
            explain=asked.asked.explain,
        )
    )


def _shown(way: ReworkWay, rework: Rework, asked: ReworkAsked, place: int) -> WayShown:
    if way.plan is None:
        return WayShown(way, rework.thread.unit, None, None, place)
    request = _request(way.plan.changed, rework, asked)
    specification = _specified(request, asked.detail)
    return WayShown(way, way.plan.specification.thread.unit, request, specification, place)


def _request(changed: Changed, rework: Rework, asked: ReworkAsked) -> Json:
    """The hole of a way as a request: what was sent, with what the way changes.

    Bare numbers keep their unit, though the thread of the way may be of another system.
    """
    unit = asked.asked.unit or rework.thread.unit
    request: Json = {**asked.hole, "unit_system": _SYSTEM_OF_UNIT[unit]}
    if changed.thread is not None:
        for name in ("edition", "percent_thread", "objective", "tap_limits", "drill_series", "stock"):
            request.pop(name, None)
        request["thread"] = changed.thread
        _with_its_screw(request)
    stock = {"drills": changed.drill, "taps": changed.tap}
    if limited := {name: [label] for name, label in stock.items() if label is not None}:
        request["stock"] = {**_mapping(request.get("stock")), **limited}
    if changed.method is not None:
        request["method"] = changed.method
    if changed.bare:
        request.pop("finish", None)
        request.pop("dimensions_apply", None)
    request["hole"] = _hole(changed, rework, _mapping(request["hole"]))
    return request


def _hole(changed: Changed, rework: Rework, hole: Json) -> Json:
    if changed.drilled_otherwise:
        hole.pop("drill", None)
    if changed.full_thread_depth is not None:
        hole["full_thread_depth"] = f"{changed.full_thread_depth} {rework.thread.unit}"
    return hole


def _with_its_screw(request: Json) -> None:
    """The grade of the screw holds for another thread as well, its class does not."""
    grade = _mapping(request.pop("mating_screw", None)).get("grade")
    if grade is not None:
        request["mating_screw"] = {"grade": grade}


def _mapping(value: object) -> Json:
    return dict(value) if isinstance(value, dict) else {}


def _specified(request: Json, detail: str | None) -> Json:
    """What POST /v1/hole-specs answers to the request of a way, in short unless a detail is asked for."""
    asked = HOLE_SPEC.asked(request if detail is None else {**request, "detail": detail})
    answer = replies.hole_spec_reply(specify(asked.request), asked)
    return answer if detail is not None else {name: answer[name] for name in _IN_SHORT}
