"""What a note says: its holes, what is asked back, what was not read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.model import DimensionsApply, Source, ThreadCallout, Unit


@dataclass(frozen=True, slots=True)
class NoteSpan:
    """Code points of the note as sent, ``end`` not included, and what they were read as."""

    start: int
    end: int
    read_as: str


@dataclass(frozen=True, slots=True)
class NoteQuestion:
    """What the note leaves open. ``options``: answers that fit; ``hole``: its place, None where none came out."""

    code: str
    text: str
    options: tuple[str, ...] = ()
    hole: int | None = None
    start: int | None = None
    end: int | None = None


@dataclass(frozen=True, slots=True)
class Recess:
    """A countersink (``angle_deg``) or counterbore (``depth``) of a note; None = the note does not say."""

    diameter: Decimal | None = None
    angle_deg: Decimal | None = None
    depth: Decimal | None = None


@dataclass(frozen=True, slots=True)
class AsWritten:
    """What the note says of a hole, lengths in the hole's unit; ``words`` are texts of the note by what they are.

    ``reamed``: the drill's size is that of a reamer.
    """

    thread: str | None
    reamed: bool
    drill: Decimal | None = None
    drill_label: str | None = None
    drill_depth: Decimal | None = None
    full_thread_depth: Decimal | None = None
    countersink: Recess | None = None
    counterbore: Recess | None = None
    sides: Literal["one", "both"] = "one"
    thickness: Decimal | None = None
    words: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class NoteHole:
    """A tapped hole of a note. None = the note does not fix it. Lengths are in ``unit``."""

    thread: str | None
    callout: ThreadCallout | None
    unit: Unit
    count: int | None
    kind: Literal["blind", "through"] | None
    full_thread_depth: Decimal | None
    drill_depth_limit: Decimal | None
    drill_depth_bound: Literal["", "MIN", "MAX"]
    finish: str | None
    dimensions_apply: DimensionsApply | None
    masked: bool
    as_written: AsWritten
    read_from: tuple[NoteSpan, ...]
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GeneralReading:
    """What a general note changes, in words, and its texts that no rule read."""

    text: str
    changes: tuple[str, ...]
    unread: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NoteReading:
    """A note read: every character that is no blank lies in a span of a hole, of ``not_holes`` or of ``unread``.

    ``tokens`` were cut and ``steps`` rules tried for it.
    """

    holes: tuple[NoteHole, ...]
    not_holes: tuple[NoteSpan, ...]
    unread: tuple[NoteSpan, ...]
    questions: tuple[NoteQuestion, ...]
    general: tuple[GeneralReading, ...]
    assumptions: tuple[str, ...]
    tokens: int
    steps: int
    sources: tuple[Source, ...] = ()


@dataclass(frozen=True, slots=True)
class NoteRequest:
    """A note to read. ``unit``: unit of its bare lengths, None = as a general note says, else the thread's own."""

    note: str
    unit: Unit | None = None
    general_notes: tuple[str, ...] = ()
