"""A hole note read whole: elements gathered into holes and settled, with what is asked and what is unread."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import replace

from borewright.core.errors import CalloutError
from borewright.core.model import Source

from . import general, grouping, holes
from .characters import Copy, plain_copy
from .damage import mend
from .general import General
from .grammar import Element
from .model import NoteHole, NoteQuestion, NoteReading, NoteRequest, NoteSpan
from .parts import take_apart
from .questions import Questions
from .reading import Reading, Work

#: Longest note, most holes of one and most lines of it that are said of the whole drawing (our own limits).
MAX_LENGTH, MOST_HOLES, MOST_GENERAL = 4_000, 50, 40
_JOINED = frozenset({"joining", "hole_word", "tap"})
_SOURCES = (
    Source(
        "holes",
        "ASME Y14.5, ASME Y14.6, ISO 6410-1, ISO 15786, JIS B 0001 and textbooks of drawing; see note_words",
        "",
        "forms of hole notes",
        "from_memory",
    ),
)
#: Elements without which a text is no hole.
_OF_A_HOLE = frozenset({
    "thread", "size_and_tap", "pipe_tap", "drill", "counterbore", "countersink", "depth", "thread_depth", "drill_depth",
    "clearance", "not_tapped", "long", "count", "thru", "blind", "ream", "fitted", "drill_and_tap", "turns",
    "tap_drill_d",
})  # fmt: skip


def read(request: NoteRequest) -> NoteReading:
    """Read a hole note as a drawing prints it.

    Args: ``request`` the note, the unit of its bare lengths where it is known, the general notes of the drawing.
    Returns: its holes, what is asked back, what no rule read.
    Raises: CalloutError ``note_empty``, ``note_too_long``, ``note_too_many_holes``; pointer ``/note``.
    Source: rules of the reference notes (`rules.py`, `note_words.csv`).
    """
    _check(request)
    work = Work()
    said = general.read_general(request.general_notes, Work())
    copy, reading = mend(plain_copy(request.note), work)
    lines = list(general.lines(copy, reading))
    _read_lines(said, copy, lines[:MOST_GENERAL], work)
    reading = _without(reading, lines, unread=lines[MOST_GENERAL:])
    lines = lines[:MOST_GENERAL]
    groups = list(grouping.holes(reading, copy.text))
    if len(groups) > MOST_HOLES:
        raise CalloutError("note_too_many_holes", f"A note names at most {MOST_HOLES} holes.", pointer="/note")
    return _settled(request, said, copy, reading, groups, lines, work)


def _check(request: NoteRequest) -> None:
    if not request.note.strip():
        raise CalloutError("note_empty", "The note holds no text.", pointer="/note")
    if len(request.note) > MAX_LENGTH:
        raise CalloutError("note_too_long", f"A note has at most {MAX_LENGTH} characters.", pointer="/note")


# --- general notes inside the note -------------------------------------------------------------------


def _read_lines(said: General, copy: Copy, lines: Sequence[tuple[int, int]], work: Work) -> None:
    found = general.read_general((copy.text[start:end].strip() for start, end in lines), work)
    said.notes += found.notes
    said.unit = said.unit or found.unit
    said.finish = said.finish or found.finish
    said.dimensions_apply = said.dimensions_apply or found.dimensions_apply
    said.masked = said.masked or found.masked
    if said.thread_class is None:
        said.thread_class, said.class_yields = found.thread_class, found.class_yields
    if not said.countersink:
        said.countersink, said.angle, said.over = found.countersink, found.angle, found.over


def _without(reading: Reading, lines: Sequence[tuple[int, int]], unread: Sequence[tuple[int, int]]) -> Reading:
    starts = [first for first, _ in lines]

    def outside(start: int) -> bool:
        place = bisect_right(starts, start) - 1
        return place < 0 or start >= lines[place][1]

    return Reading(
        tuple(one for one in reading.elements if outside(one.start)),
        tuple((start, end) for start, end in reading.unread if outside(start)),
        (*((start, end) for start, end in reading.elsewhere if outside(start)), *unread),
        reading.labels,
    )


# --- holes -------------------------------------------------------------------------------------------


def _settled(
    request: NoteRequest,
    said: General,
    copy: Copy,
    reading: Reading,
    groups: Sequence[tuple[Element, ...]],
    lines: Sequence[tuple[int, int]],
    work: Work,
) -> NoteReading:
    found: list[NoteHole] = []
    not_holes = [NoteSpan(*copy.span(start, end), "general_note") for start, end in lines]
    not_holes += _formatting(request.note, copy)
    questions: list[NoteQuestion] = []
    length = len(copy.text)
    begins, ends = [group[0].start for group in groups], [group[-1].end for group in groups]
    before = (0, *ends)  # what stands between two holes may be of either, a label is of the second
    after, labelled = (*begins[1:], length), (*ends[:-1], length)
    for place, group in enumerate(groups):
        first = before[place]
        spans = _spans(copy, group, reading, (first, labelled[place]))
        hole, asked = _one(request, said, copy, reading, group, (first, after[place]), len(found))
        questions += asked
        if hole is None:
            not_holes += spans
        else:
            found.append(replace(hole, read_from=spans))
    if not groups:
        not_holes += (NoteSpan(*copy.span(*label), "label") for label in reading.labels)
    if not found and not questions:
        questions.append(NoteQuestion("not_a_tapped_hole", "The note names no thread.", (), None, 0, len(request.note)))
    unread = tuple(NoteSpan(*copy.span(*span), "unread") for span in sorted((*reading.unread, *reading.elsewhere)))
    told = tuple(f"{text} (characters {start} to {end})." for start, end, text in sorted(copy.repairs))
    return NoteReading(
        tuple(found),
        tuple(not_holes),
        unread,
        tuple(questions),
        tuple(said.notes),
        told,
        work.tokens,
        work.steps,
        _SOURCES,
    )


def _one(
    request: NoteRequest,
    said: General,
    copy: Copy,
    reading: Reading,
    group: tuple[Element, ...],
    bounds: tuple[int, int],
    number: int,
) -> tuple[NoteHole | None, list[NoteQuestion]]:
    if all(one.reads not in _OF_A_HOLE for one in group):
        return None, []
    unread = tuple(NoteSpan(start, end, copy.text[start:end]) for start, end in _within(reading.unread, bounds))
    questions = Questions(number)
    hole = holes.settle(request, said, copy, take_apart(group), questions, unread)
    if hole is not None:
        return hole, questions.asked
    start, end = copy.span(group[0].start, group[-1].end)
    whole = [one if one.start is not None else replace(one, start=start, end=end) for one in questions.asked]
    return None, [replace(one, hole=None) for one in whole]


def _within(spans: Sequence[tuple[int, int]], bounds: tuple[int, int]) -> Sequence[tuple[int, int]]:
    """Those of ``spans``, which are in order, that begin within ``bounds``."""
    first, last = (bisect_left(spans, (bound,)) for bound in bounds)
    return spans[first:last]


def _formatting(note: str, copy: Copy) -> Iterable[NoteSpan]:
    """Codes of the note that only say how its text looks."""
    place = 0
    for start, end in zip((*copy.starts, len(note)), (*copy.ends, len(note)), strict=True):
        if note[place:start].strip():
            yield NoteSpan(place, start, "formatting")
        place = max(place, end)


def _spans(copy: Copy, group: tuple[Element, ...], reading: Reading, bounds: tuple[int, int]) -> tuple[NoteSpan, ...]:
    """What of the note the hole was read from, labels and joining words too."""
    labels = [(start, last, "label") for start, last in _within(reading.labels, bounds)]
    read = [(one.start, one.end, "joining" if one.reads in _JOINED else one.reads) for one in group]
    return tuple(NoteSpan(*copy.span(start, last), name) for start, last, name in sorted(labels + read))


__all__ = ["MAX_LENGTH", "MOST_HOLES", "read"]
