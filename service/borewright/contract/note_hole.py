"""An item of a batch that is a hole note instead of a thread and a hole: the request of its one hole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from borewright.contract.requests.note import NOTE
from borewright.core.errors import CalloutError, Fault
from borewright.core.notes import NoteReading, read
from borewright.core.requests import HoleSpecRequest

from .faults import invalid
from .note_requests import hole_request
from .requests import HOLE_SPEC, Asked

_OF_THE_NOTE = ("note", "general_notes", "unit_system")


def asked_of_note(body: Mapping[str, Any]) -> Asked[HoleSpecRequest]:
    """The request of a hole that ``note`` describes; the other fields stand for what the note does not say.

    What the reading takes by default, and what of the note was not understood, is among the assumptions of the reply.

    Raises: BorewrightError; ``note_open`` with every question of the note, ``note_several_holes``.
    """
    if "thread" in body:
        raise invalid("field_unknown", "An item has a note or a thread, not both.", pointer="/thread")
    of_note = {name: body[name] for name in _OF_THE_NOTE if name in body}
    rest = {name: value for name, value in body.items() if name not in _OF_THE_NOTE}
    wanted = NOTE.asked({**of_note, "defaults": rest} if rest else of_note).request
    reading = read(wanted.request)
    if reading.questions:
        raise _refused("note_open", _questions(reading))
    if len(reading.holes) != 1:
        text = f"The note names {len(reading.holes)} holes, an item is one."
        raise _refused("note_several_holes", iter((Fault("note_several_holes", text, "/note"),)))
    asked = HOLE_SPEC.asked(hole_request(reading.holes[0], wanted.defaults))
    thread = asked.request.thread
    told = (*thread.assumptions, *_told(wanted.request.note, reading))
    return replace(asked, request=replace(asked.request, thread=replace(thread, assumptions=told)))


def _questions(reading: NoteReading) -> Iterator[Fault]:
    text = "The note leaves open what a person must settle: " + " ".join(one.text for one in reading.questions)
    yield Fault("note_open", text, "/note")
    for one in reading.questions:
        yield Fault(one.code, one.text, "/note", one.options)


def _refused(code: str, faults: Iterator[Fault]) -> CalloutError:
    error = CalloutError(code, code, pointer="/note")
    error.faults = tuple(faults)
    return error


def _told(note: str, reading: NoteReading) -> Iterator[str]:
    hole = reading.holes[0]
    yield from reading.assumptions
    yield from hole.assumptions
    if hole.count not in (None, 1):
        yield f"The note says {hole.count} such holes: this is the specification of one."
    for span in reading.unread:
        yield f"{note[span.start : span.end]!r} of the note was not understood and changes nothing."
