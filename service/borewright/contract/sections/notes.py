"""What a hole note says: its holes, what is asked back, what was not read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from borewright.contract import note_requests
from borewright.core.notes import CODES, NoteHole, NoteReading

from .reply import Reply
from .reply_fields import angle, choice, count, exact, flag, rows, section, text, texts, word, words
from .schema import ReplyField, SectionSchema


def own_length(description: str, **given: Any) -> ReplyField:
    """A length in the unit of the hole's request, which may differ from hole to hole."""
    return exact(description, "in the unit of the hole's own `unit_system`", "length", **given)


class NoteSpanItem(SectionSchema):
    """A piece of the note and what it was read as."""

    start = count("First code point of the note as sent", "counted from 0")
    end = count("Code point behind the last one", "counted from 0")
    read_as = word("count, thread, drill, depth, countersink ...", data_key="as")


class UnreadItem(SectionSchema):
    """A piece of the note that no rule read."""

    start = count("First code point of the note as sent", "counted from 0")
    end = count("Code point behind the last one", "counted from 0")
    text = word("The piece as sent.")


class WrittenCountersink(SectionSchema):
    """A countersink of a note."""

    diameter = own_length("Diameter at the surface, null where the note does not say it", nullable=True)
    angle = angle("Included angle, null where the note does not say it", nullable=True, source="angle_deg")


class WrittenCounterbore(SectionSchema):
    """A counterbore or spotface of a note."""

    diameter = own_length("Diameter, null where the note does not say it", nullable=True)
    depth = own_length("Depth, null where it is as deep as cleans up", nullable=True)


class WordsItem(SectionSchema):
    """A piece of the note that is kept in its own words."""

    about = word("place, side, pilot, chamfer, depth_limits, drill_limits ...", source=lambda pair: pair[0])
    text = word("The piece.", source=lambda pair: pair[1])


class AsWrittenSection(SectionSchema):
    """What the note says of the hole."""

    thread = word("The thread as the note writes it, null where none was read.", nullable=True)
    drill = own_length("Drill that the note states", nullable=True)
    drill_label = word("The same as the note writes it, a number drill by its label.", nullable=True)
    drill_depth = own_length("Depth of full drill diameter, without the point", nullable=True)
    full_thread_depth = own_length("Depth of full thread", nullable=True)
    countersink = section("Countersink, null where there is none.", WrittenCountersink, nullable=True)
    counterbore = section("Counterbore or spotface, null where there is none.", WrittenCounterbore, nullable=True)
    sides = choice("On which sides the note is carried out.", ("one", "both"))
    thickness = own_length("Thickness of the part where the note states it", nullable=True)
    words = rows("What is kept in the words of the note: place, side, chamfer, limits of sizes.", WordsItem)


class HoleOfNote(NamedTuple):
    """A hole of a note, and the fields that a request of it gets besides."""

    hole: NoteHole
    request: Mapping[str, Any]

    @property
    def missing(self) -> list[str]:
        """Pointers of what the request still needs."""
        return note_requests.missing(self.request)


class NoteHoleItem(SectionSchema):
    """A tapped hole of the note."""

    request = ReplyField(
        "The hole as POST /v1/hole-specs takes it (published schema: hole-spec-request), in its own `unit_system`; it"
        " is ready to post where `missing` is empty.",
        {"type": "object"},
    )
    count = count("How many such holes, null where the note says several numbers", nullable=True, source="hole.count")
    ready = flag("Whether the request can be posted as it is.", source=lambda one: not one.missing)
    missing = words("Pointers into the request to what neither the note nor the defaults give.")
    as_written = section("What the note says of it.", AsWrittenSection, source="hole.as_written")
    as_planned = ReplyField(
        "Drill and depth that the note fixes, for `as_planned` of an audit beside a tap; null where it fixes none.",
        {"type": "object"},
        source=lambda one: note_requests.as_planned(one.hole),
        nullable=True,
    )
    finish = word("Finish of a general note, null where there is none.", source="hole.finish", nullable=True)
    dimensions_apply = choice(
        "Which limits the drawing means where it has a finish, null where no note says it.",
        ("before_finish", "after_finish"),
        source="hole.dimensions_apply",
        nullable=True,
    )
    assumptions = texts("What was taken by default in reading it.", source="hole.assumptions")
    read_from = rows("The pieces of the note it was read from, in order.", NoteSpanItem, source="hole.read_from")


class NoteQuestionItem(SectionSchema):
    """What the note leaves open: a person answers."""

    code = choice("What is asked.", CODES)
    text = text("The question in words.")
    options = texts("The answers that fit; empty where only the drawing can tell.")
    hole = count("Place of the hole in `holes`, null where none came out", "counted from 0", nullable=True)
    start = count("First code point of what raises it, null for the whole hole", "counted from 0", nullable=True)
    end = count("Code point behind the last one", "counted from 0", nullable=True)


class GeneralNoteItem(SectionSchema):
    """A general note, of the request or of a line of the note."""

    text = word("The note.")
    changes = texts("What it changes.")
    unread = words("Pieces of it that no rule read.")


class ReadNote(NamedTuple):
    """A note as it was read, with the text and the requests of its holes."""

    note: str
    reading: NoteReading
    holes: list[HoleOfNote]


class UnreadPiece(NamedTuple):
    """A piece of a note that no rule read."""

    start: int
    end: int
    text: str


def _unread(read: ReadNote) -> list[UnreadPiece]:
    return [UnreadPiece(span.start, span.end, read.note[span.start : span.end]) for span in read.reading.unread]


class NoteReply(Reply):
    """Reply of POST /v1/notes/read."""

    holes = rows("The tapped holes of the note, in its order.", NoteHoleItem)
    unread = rows("Pieces of the note that were not understood: they change nothing.", UnreadItem, source=_unread)
    questions = rows(
        "What the note leaves open; nothing of it is guessed.", NoteQuestionItem, source="reading.questions"
    )
    general = rows("What the general notes changed.", GeneralNoteItem, source="reading.general")
    not_holes = rows(
        "Pieces that were read and belong to no hole that came out.", NoteSpanItem, source="reading.not_holes"
    )
