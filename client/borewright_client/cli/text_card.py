"""A hole on one screen of 80 columns and 40 lines: what a card at the machine says, in the order it is asked for."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from .sheet import WIDTH, Paint, Sheet, verdict_brush
from .text_explain import derivation
from .text_parts import finish_name
from .words import NOTHING, Reply, evenly, plain

HEIGHT = 39  # the last line of the screen is the prompt's
#: Lines of the heading and of what follows the last section.
_HEADING, _END = 2, 3
_CUT = " ..."
#: Figures of an operation that have a column: unit of the head, how the operation's text tells them.
_FIGURES = (
    ("length", re.compile(r"(?:full thread )?([0-9.]+)\s\S+\sdeep\b")),
    (None, re.compile(r"([0-9.]+)\srev/min$")),
    ("feed", re.compile(r"feed\s([0-9.]+)\s")),
)


def card(reply: Reply, paint: Paint | None = None) -> str:
    """The hole on one screen; where that is too small, the first words of each line and the first cautions."""
    sheet = _card(reply, paint, whole=True)
    sheet = sheet if len(sheet) <= HEIGHT else _card(reply, paint, whole=False)
    derivation(sheet, reply)
    return str(sheet)


def _card(reply: Reply, paint: Paint | None, *, whole: bool) -> Sheet:
    sheet, below = Sheet(paint, WIDTH), Sheet(paint, WIDTH)
    _head(sheet, reply)
    _operations(below, reply, whole=whole)
    _limits(below, reply)
    _decisions(sheet, reply, None if whole else HEIGHT - len(sheet) - len(below) - _HEADING - _END)
    sheet.add(below)
    told = _cautions(sheet, reply, None if whole else HEIGHT - len(sheet) - _HEADING - _END)
    left = len(reply["cautions"]) - told
    more = f", {left} more caution{'s' if left > 1 else ''}" if left else ""
    governs = reply["notice"].partition(";")[0]
    sheet.remark(f"{governs}.", f"With --full: reasons, torque, strength, assumptions{more}")
    return sheet


def _head(sheet: Sheet, reply: Reply) -> None:
    name = "  ".join(filter(None, (reply.get("id"), reply["thread"]["designation"])))
    brush = verdict_brush(sheet.paint, reply["verdict"])
    material, finish = reply.get("material") or {}, reply.get("finish") or {}
    coat = finish_name(finish["finish"]) if finish else None
    sheet.title(f"{name}: {brush(reply['verdict'])}", "; ".join(filter(None, (material.get("name"), coat))))
    sheet.rows((f"{part:<6}", text) for part, text in reply["headline"].items())
    sheet.rows([("decide", "; ".join(plain(one["code"]) for one in reply["review"]) or "nothing")], brush)


def _decisions(sheet: Sheet, reply: Reply, room: int | None) -> None:
    """Each decision whole where there is room for all, else the first lines of each."""
    texts = [one["text"] for one in reply["review"]]
    if not texts:
        return
    sheet.heading("To decide")
    most = None
    if room is not None and sum(len(_wrapped(sheet, text)) for text in texts) > room:
        most = max(1, room // len(texts))
    for place, text in enumerate(texts, 1):
        lines = enumerate(_wrapped(sheet, text, most))
        sheet.rows(
            ((f"{place}." if at == 0 else "  ", line) for at, line in lines),
            verdict_brush(sheet.paint, reply["verdict"]),
        )


def _wrapped(sheet: Sheet, text: str, most: int | None = None) -> list[str]:
    return textwrap.wrap(text, sheet.width - len("  1.  "), max_lines=most, placeholder=_CUT)


def _operations(sheet: Sheet, reply: Reply, *, whole: bool) -> None:
    """The operations, their figures in columns; a line each, or all words of each."""
    units = reply["units"]
    heads = [f"deep, {units['length']}", "rev/min", units["feed"]]
    parts = [_parted(line["text"]) for line in reply["operations"]]
    widths = [max(len(head), *(len(figures[at]) for _, figures in parts)) for at, head in enumerate(heads) if parts]
    room = sheet.width - sum(widths) - 2 * len(widths) - len("   10  ") - 2
    rows: list[list[str]] = []
    for line, (clauses, figures) in zip(reply["operations"], parts, strict=True):
        said = textwrap.wrap(", ".join(clauses), room) if whole else [_first(clauses, room)]
        rows.append([f"{line['sequence']:>3}  {said[0]}", *figures])
        rows += [[f"     {more}", "", "", ""] for more in said[1:]]
    sheet.table("Operations", heads, rows)


def _parted(text: str) -> tuple[list[str], list[str]]:
    """The clauses of an operation without those whose figure has a column, and these figures."""
    clauses, figures = text.split(", "), ["", "", ""]
    for at, (_, told) in enumerate(_FIGURES):
        for clause in clauses[1:]:
            if found := told.match(clause):
                figures[at] = found[1]
                clauses.remove(clause)
                break
    return clauses, figures


def _first(clauses: Sequence[str], room: int) -> str:
    """As many clauses as fit."""
    said = textwrap.shorten(clauses[0], room, placeholder=_CUT)
    for clause in clauses[1:]:
        if len(said) + len(clause) + 2 > room:
            break
        said += f", {clause}"
    return said


def _limits(sheet: Sheet, reply: Reply) -> None:
    """The limits of size with the gauges that hold them."""
    purpose, gauging = reply["limits"], reply.get("gauging") or {}
    if purpose["to_tap"] == purpose["finished"]:
        listed = [*_of_purpose(" diameter", purpose["finished"], gauging)]
    else:
        listed = [*_of_purpose(" to tap", purpose["to_tap"], gauging.get("before_finish") or {}),
                  *_of_purpose(" finished", purpose["finished"], gauging)]  # fmt: skip
    figures = evenly(limits.get(side) for _, *three in listed for limits in three[:1] for side in ("min", "max"))
    rows = [
        [name, *figures[2 * at : 2 * at + 2], _range(go), _range(not_go)]
        for at, (name, _, go, not_go) in enumerate(listed)
    ]
    heads = ["min", "max", "GO plug", "NOT GO plug"]
    if all(row[3:] == [NOTHING, NOTHING] for row in rows):
        heads, rows = heads[:2], [row[:3] for row in rows]
    sheet.table(f"Limits, {reply['units']['length']}", heads, rows)


def _of_purpose(purpose: str, limits: Reply, gauges: Reply) -> Iterator[tuple[str, Reply, Reply, Reply]]:
    """Name, limits, GO and NOT GO plug of the diameters that are gauged."""
    thread_plug, plain_plug = gauges.get("thread_plug") or {}, gauges.get("plain_plug") or {}
    thread_plugs = [(thread_plug.get(side) or {}).get("pitch_diameter") or {} for side in ("go", "not_go")]
    plain_plugs = [plain_plug.get(side) or {} for side in ("go", "not_go")]
    for part, (go, not_go) in (("pitch", thread_plugs), ("minor", plain_plugs)):
        if limits.get(f"{part}_diameter"):
            yield f"{part}{purpose}", limits[f"{part}_diameter"], go, not_go


def _range(plug: Reply) -> str:
    sides = [text for text in evenly((plug.get("min"), plug.get("max"))) if text != NOTHING]
    return "–".join(sides) or NOTHING


def _cautions(sheet: Sheet, reply: Reply, room: int | None) -> int:
    """The first cautions, as many as have room; how many they are."""
    texts = [caution["text"] for caution in reply["cautions"]]
    told = 0
    for text in texts:
        if room is not None and (room := room - len(_wrapped(sheet, text))) < 0:
            break
        if not told:
            sheet.heading("Cautions")
        sheet.rows([("-", text)], sheet.paint.warn)
        told += 1
    return told
