"""A hole note as it was read, as a sheet for people."""

from __future__ import annotations

from collections.abc import Iterator

from .sheet import WIDTH, Paint, Row, Sheet
from .text_parts import reasons
from .words import Reply, number, plain, with_unit

_UNITS = {"inch": "in", "metric": "mm"}


def note(reply: Reply, paint: Paint | None = None) -> str:
    """The holes of a note, what is asked back, what was not read."""
    sheet = Sheet(paint, WIDTH)
    holes = reply["holes"]
    open_questions = len(reply["questions"])
    said = f"{open_questions} to answer" if open_questions else "nothing to answer"
    sheet.title(f"{len(holes)} tapped hole{'' if len(holes) == 1 else 's'} in the note, {said}")
    for place, hole in enumerate(holes, 1):
        ready = "ready" if hole["ready"] else f"missing: {', '.join(map(_field, hole['missing']))}"
        sheet.heading(f"{place}: {hole['request'].get('thread') or 'thread not fixed'}, {ready}")
        sheet.rows(_rows(hole))
    reasons(sheet, "To answer", (_question(one) for one in reply["questions"]))
    reasons(sheet, "Not read", (repr(one["text"]) for one in reply["unread"]))
    changes = (f"{one['text']}: {', '.join(one['changes']) or 'changes nothing'}" for one in reply["general"])
    reasons(sheet, "General notes", changes)
    reasons(sheet, "Assumptions", reply["assumptions"])
    return str(sheet)


def _field(pointer: str) -> str:
    return plain(pointer.rpartition("/")[2])


def _rows(hole: Reply) -> Iterator[Row]:
    written, asked = hole["as_written"], hole["request"]["hole"]
    unit = _UNITS[hole["request"]["unit_system"]]
    yield "number", "not fixed" if hole["count"] is None else str(hole["count"])
    yield "hole", plain(asked.get("type") or "not fixed")
    for name in ("full_thread_depth", "drill", "drill_depth", "thickness"):
        if written[name] is not None:
            yield plain(name), with_unit(written[name], unit)
    for name, other, other_unit in (("countersink", "angle", "degrees"), ("counterbore", "depth", unit)):
        if written[name] is not None:
            yield name, _recess(written[name], unit, other, other_unit)
    if written["sides"] == "both":
        yield "sides", "both"
    yield from ((plain(one["about"]), one["text"]) for one in written["words"])


def _recess(recess: Reply, unit: str, other: str, other_unit: str) -> str:
    parts = ((recess["diameter"], unit), (recess[other], other_unit))
    return " x ".join(f"{number(value)} {name}" for value, name in parts if value is not None) or "size not written"


def _question(question: Reply) -> str:
    options = f" ({' / '.join(question['options'])})" if question["options"] else ""
    hole = "" if question["hole"] is None else f"{question['hole'] + 1}: "
    return f"{hole}{question['text']}{options}"
