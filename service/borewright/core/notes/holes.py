"""One hole of a note settled: thread, unit, extent, drill, recesses, count; what is asked on the way."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.model import DimensionsApply, Thread, Unit
from borewright.core.practice import figure

from . import counts, drills, extents, recesses, threads
from .case import NoteCase
from .characters import Copy
from .extents import Extent
from .general import General
from .model import AsWritten, NoteHole, NoteRequest, NoteSpan
from .parts import HoleParts
from .questions import Questions
from .tokens import Token

#: Below a pitch or above these diameters a full thread is more often a length in the other unit.
_DEEPEST_DIAMETERS = figure("doubt_above_diameters")
_DRILL_SHARES = figure("note_smallest_drill_share"), figure("note_largest_drill_share")
#: Text that looks like a thread and was not read as one.
_LIKE_A_THREAD = re.compile(r"UN[CFEJS]|(?<![A-Z])M ?[0-9?]|NPT|[0-9] ?- ?[0-9O]{2}", re.IGNORECASE)


def settle(
    request: NoteRequest,
    general: General,
    copy: Copy,
    parts: HoleParts,
    questions: Questions,
    unread: tuple[NoteSpan, ...],
) -> NoteHole | None:
    """The hole of ``request`` that its ``parts`` make, or None where no tapped hole comes out; why is asked.

    Args: ``general`` notes of the drawing; ``copy`` that was read; ``questions`` takes what is asked; ``unread`` what
        nobody read.
    Source: rules of the reference notes.
    """
    case = NoteCase(parts, copy, general, questions, unread)
    if _is_not_tapped(case):
        return None
    threads.settle(case)
    if questions.has("not_a_tapped_hole"):
        return None
    _settle_unit(case, request.unit)
    if not case.stated_unit and case.thread is not None and _is_of_other_unit(case, case.thread):
        text = "A length of the note is not possible in the unit of the thread's standard, and no unit is stated."
        questions.ask("unit_unknown", text, ("inch", "mm"))
        return None
    count = counts.settle(case)
    extent = extents.settle(case)
    drill, label = drills.settle(case, extent)
    if drill is not None and _is_reamed(case):
        case.assumptions.append(
            f"The note reams or fits the hole to {case.length(drill)} before it is tapped: the request leaves the drill"
            " open and plans no ream."
        )
    return _hole(case, count, extent, drill, label)


def _is_reamed(case: NoteCase) -> bool:
    return case.parts.has("ream", "fitted")


def _is_not_tapped(case: NoteCase) -> bool:
    parts = case.parts
    if parts.has("clearance", "not_tapped"):
        text = "The note says a hole for a screw or pin, not a thread."
    elif parts.has("long"):
        text = "The length or the word is that of a screw or stud, not of a hole."
    elif parts.thread is None and not parts.has("pipe_tap"):
        like = next((one for one in case.unread if _LIKE_A_THREAD.search(one.read_as)), None)
        if like is not None:
            case.questions.ask("thread_ambiguous", f"{like.read_as!r} looks like a thread and does not read as one.")
            return False
        text = (
            "The note says a reamed or fitted hole, not a thread." if _is_reamed(case) else "The note names no thread."
        )
    else:
        return False
    case.questions.ask("not_a_tapped_hole", text)
    return True


# --- unit --------------------------------------------------------------------------------------------


def _settle_unit(case: NoteCase, asked: Unit | None) -> None:
    """Unit of bare lengths: that of the request, of a general note, of the thread's own standard."""
    stated = asked or case.general.unit
    case.stated_unit = stated is not None
    case.unit = stated or _unit_of_thread(case)


def _unit_of_thread(case: NoteCase) -> Unit:
    """Unit of the thread's standard, also of one that is asked about: its lengths are not those of another unit."""
    if case.thread is not None:
        return case.thread.unit
    tokens = () if case.parts.thread is None else case.parts.thread.element.tokens
    return next((one.designation.unit for one in tokens if one.designation is not None), "in")


def _is_of_other_unit(case: NoteCase, thread: Thread) -> bool:
    """Whether a bare length cannot be meant in the thread's own unit."""
    depth = case.parts.thread_depth
    if depth is not None and depth.size is not None and _is_bare(depth.size):
        value = case.value(depth.size)
        if value < thread.pitch or value > _DEEPEST_DIAMETERS * thread.nominal_diameter:
            return True
    least, most = (share * thread.nominal_diameter for share in _DRILL_SHARES)
    sizes = [drill.element.named["s"] for drill in case.parts.drills if drill.element.reads == "drill"]
    return any(_is_bare(size) and not least <= case.value(size) <= most for size in sizes)


def _is_bare(size: Token) -> bool:
    return "size" in size.kinds and size.unit is None and "fraction" not in size.kinds


# --- the hole ----------------------------------------------------------------------------------------


def _applies(case: NoteCase) -> DimensionsApply | None:
    """What the limits hold for: as the hole's own words say, else as the general notes do."""
    before, after = case.parts.has("before_finish"), case.parts.has("after_finish")
    if before is after:
        return case.general.dimensions_apply
    return "before_finish" if before else "after_finish"


def _hole(case: NoteCase, count: int | None, extent: Extent, drill: Decimal | None, label: str | None) -> NoteHole:
    thickness = case.first("thickness")
    general, applies = case.general, _applies(case)
    if general.finish and applies is None:
        case.assumptions.append(
            "No note says whether limits hold before or after the finish: they are taken as those of the finished part."
        )
    written = AsWritten(
        thread=case.words(case.parts.thread.element) if case.parts.thread is not None else None,
        drill=drill,
        drill_label=label,
        drill_depth=extent.drill_depth,
        full_thread_depth=extent.full_thread_depth,
        countersink=recesses.countersink(case),
        counterbore=recesses.counterbore(case),
        sides=recesses.sides(case),
        reamed=_is_reamed(case),
        thickness=None if thickness is None else case.value(thickness.named["s"]),
        words=recesses.words(case),
    )
    return NoteHole(
        thread=case.thread_text,
        callout=case.callout,
        unit=case.unit,
        count=count,
        kind=extent.kind,
        full_thread_depth=extent.full_thread_depth,
        drill_depth_limit=extent.drill_limit,
        drill_depth_bound=extent.drill_bound,
        finish=general.finish,
        dimensions_apply=applies,
        masked=general.masked or case.parts.has("mask"),
        as_written=written,
        read_from=(),
        assumptions=tuple(case.assumptions),
    )
