"""The reply of POST /v1/notes/read. It is loaded by the first note: who specifies holes does without."""

from __future__ import annotations

from borewright.contract.requests.note import NoteToRead
from borewright.contract.sections.notes import HoleOfNote, NoteReply, ReadNote
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.model import Notes
from borewright.core.notes import NoteReading

from .note_requests import hole_request
from .replies import parsed
from .requests import Asked
from .unit_view import Json, view


def note_reply(reading: NoteReading, asked: Asked[NoteToRead]) -> Json:
    """The reply as an object."""
    return parsed(note_pieces(reading, asked))


def note_pieces(reading: NoteReading, asked: Asked[NoteToRead]) -> Pieces:
    """The holes of a note as requests. Each hole is in the unit of its own request, texts in that of the first."""
    given = asked.request
    holes = [HoleOfNote(hole, hole_request(hole, given.defaults)) for hole in reading.holes]
    told = (*reading.assumptions, *(text for hole in reading.holes for text in hole.assumptions))
    notes = Notes(assumptions=tuple(dict.fromkeys(told)), sources=reading.sources)
    unit = reading.holes[0].unit if reading.holes else given.request.unit or "in"
    record = ReadNote(given.request.note, reading, holes)
    return pieces(reply_texts(NoteReply, record, view(unit, asked.unit), after=[SectionNotes(notes, "")]))
