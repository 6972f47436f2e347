"""What stands on the sheet at the machine and where: one page, whatever the hole; only its letters get smaller."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from borewright.contract.writers import link_code
from borewright.contract.writers.drawing import sheet as drawing
from borewright.contract.writers.drawing import svg
from borewright.contract.writers.drawing.figures import window
from borewright.contract.writers.drawing.pen import Pen
from borewright.core.plan.specification import Specification

from .column import FACE, Column, Letters

Json = Mapping[str, Any]

#: Width and height in millimetres (ISO 216; ANSI/ASME Y14.1 size A).
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
_SIDE, _TOP = 12.0, 9.0
#: What sizes of letters are multiplied by until the sheet is one page.
_ZOOMS = (1.0, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6)
#: Sizes of letters in points: the card is read at arm's length.
_TITLE, _VERDICT, _CARD, _HEAD, _PLAIN, _SMALL = 20.0, 12.0, 14.0, 10.0, 9.0, 8.0
_CODE = 24.0
#: Least room beside the section for words, room between, and room for the names of figures.
_BESIDE, _BETWEEN, _NAMES = 60.0, 4.0, 30.0
_VERDICTS = {
    "ready": "Ready for the shop",
    "review": "Not yet for the shop",
    "infeasible": "Cannot be made as it stands",
}
_DIAMETERS = ("pitch_diameter", "minor_diameter", "major_diameter")


class _Sheet(NamedTuple):
    """What a sheet is made of; ``code`` is the QR code of the link as SVG, empty where there is none."""

    reply: Json
    section: drawing.Sheet
    size: tuple[float, float]
    link: str | None
    code: str
    letters: Letters


def machine_sheet(spec: Specification, reply: Json, *, paper: str, link: str | None) -> bytes:
    """The sheet of a specification as SVG in UTF-8.

    Args:
        reply: the whole reply to POST /v1/hole-specs of the same specification.
        paper: a key of ``PAPERS``.
        link: address that opens the hole again, None where there is none.
    """
    code = link_code.link_code(link).decode() if link else ""
    sheet = _Sheet(reply, drawing.made(spec, reply), PAPERS[paper], link, code, Letters())
    for zoom in _ZOOMS:
        pieces, low = _filled(sheet, zoom)
        if low <= sheet.size[1] - _TOP:
            break
    wide, high = (svg.number(length) for length in sheet.size)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"'
        f' font-family="{FACE}, sans-serif" fill="#000">{"".join(pieces)}</svg>\n'
    ).encode()


def _filled(sheet: _Sheet, zoom: float) -> tuple[list[str], float]:
    """The pieces of the page, and how far down they reach."""
    width = sheet.size[0] - 2 * _SIDE
    head = Column(_SIDE, _TOP, width - _CODE - _BETWEEN, sheet.letters, zoom)
    _title(head, sheet.reply)
    card = Column(_SIDE, max(head.y, _TOP + _CODE if sheet.link else head.y), width, sheet.letters, zoom)
    _card(card, sheet.reply)
    beside, low = _section_and_limits(sheet, card.y + 2.5, zoom)
    rest = Column(_SIDE, low, width, sheet.letters, zoom)
    _operations(rest, sheet.reply)
    _list(rest, "Cautions", [one["text"] for one in sheet.reply["cautions"]], _SMALL)
    _named(rest, sheet)
    return [*head.pieces, *_code(sheet), *card.pieces, *beside, *rest.pieces], rest.y


def _title(column: Column, reply: Json) -> None:
    column.text(" · ".join(part for part in (reply["id"], reply["thread"]["designation"]) if part), _TITLE, bold=True)
    count = len(reply["review"])
    column.text(_VERDICTS[reply["verdict"]] + (f": {count} to decide" if count else ""), _VERDICT, bold=True)


def _code(sheet: _Sheet) -> Iterator[str]:
    """The QR code of the link, at the upper right."""
    if sheet.code:
        left = sheet.size[0] - _SIDE - _CODE
        place = f'<svg x="{svg.number(left)}" y="{_TOP - 2}" width="{_CODE}" height="{_CODE}" '
        yield sheet.code.replace("<svg ", place, 1)


def _card(column: Column, reply: Json) -> None:
    column.rule(0.4)
    for name, words in reply["headline"].items():
        column.gap(0.8)
        column.text(words, _CARD, bold=True, hang=name.capitalize(), indent=18)
        column.gap(0.5)
        column.rule(0.4 if name == "gauge" else 0.1)


def _section_and_limits(sheet: _Sheet, top: float, zoom: float) -> tuple[list[str], float]:
    """The section, and beside it, or below where it is wide, what is to be decided, limits and gauges."""
    wide, high, left = sheet.section.width, sheet.section.section_high, _SIDE + sheet.section.width + _BETWEEN
    room = sheet.size[0] - _SIDE - left
    if room >= _BESIDE:
        column = Column(left, top, room, sheet.letters, zoom)
    else:
        column = Column(_SIDE, top + high, sheet.size[0] - 2 * _SIDE, sheet.letters, zoom)
    _list(column, "To decide", [one["text"] for one in sheet.reply["review"]], _SMALL)
    _limits(column, sheet.reply)
    _gauges(column, sheet.reply["gauging"], sheet.reply["units"]["length"])
    return [_section(sheet, top, wide, high), *column.pieces], max(column.y, top + high)


def _section(sheet: _Sheet, top: float, wide: float, high: float) -> str:
    """The drawing without its notes, which stand beside it here, in true size of paper."""
    pen = sheet.section.pen
    drawn = Pen(pen.lines, pen.cut, pen.arrows, [one for one in pen.words if not one.note])
    made = svg.document(drawn, size=(wide, high), title="Section", description="", attributes={})
    sized = f'width="{svg.number(wide)}mm" height="{svg.number(high)}mm"'
    placed = f'x="{_SIDE}" y="{svg.number(top)}" width="{svg.number(wide)}" height="{svg.number(high)}"'
    return made.replace(sized, placed, 1)


def _limits(column: Column, reply: Json) -> None:
    purpose, unit = reply["limits"], reply["units"]["length"]
    same = purpose["to_tap"] == purpose["finished"]
    sets = {"To tap and finished": "to_tap"} if same else {"To tap": "to_tap", "Finished part": "finished"}
    for title, name in sets.items():
        gauged = ", gauged after tapping" if purpose["gauge_now"] == name and not same else ""
        _head(column, f"{title}{gauged}, {unit}")
        for diameter in _DIAMETERS:
            if purpose[name].get(diameter):
                words = diameter.replace("_", " ").capitalize()
                column.text(window(purpose[name], diameter, unit), _SMALL, hang=words, indent=_NAMES)


def _gauges(column: Column, gauging: Json, unit: str) -> None:
    for when, found in (("before the finish", gauging["before_finish"]), ("", gauging)):
        plugs = found and {"thread": found["thread_plug"], "plain": found["plain_plug"]}
        if plugs and any(plugs.values()):
            finished = "finished" if gauging["before_finish"] else ""
            _head(column, ", ".join(part for part in ("Gauges", when or finished, unit) if part))
            for name, plug in plugs.items():
                if plug:
                    _plug(column, name, plug, unit)


def _plug(column: Column, name: str, plug: Json, unit: str) -> None:
    for side, words in (("go", "GO"), ("not_go", "NOT GO")):
        limits = plug[side] if name == "plain" else (plug[side] or {}).get("pitch_diameter")
        if limits:
            column.text(window({name: limits}, name, unit), _SMALL, hang=f"{words} {name} plug", indent=_NAMES)


def _operations(column: Column, reply: Json) -> None:
    _head(column, "Operations")
    for one in reply["operations"]:
        column.text(one["text"], _PLAIN, hang=str(one["sequence"]), indent=8)
        column.gap(0.4)


def _list(column: Column, title: str, every: list[str], points: float) -> None:
    if every:
        _head(column, title)
    for words in every:
        column.text(words, points, hang="–", indent=4)


def _head(column: Column, words: str) -> None:
    column.gap(1.4)
    column.text(words, _HEAD, bold=True)


def _named(column: Column, sheet: _Sheet) -> None:
    reply = sheet.reply
    column.gap(1.5)
    column.rule(0.2)
    column.gap(0.5)
    column.text(reply["notice"], _SMALL)
    lengths = "inches" if reply["units"]["length"] == "in" else "millimetres"
    column.text(
        f"Specification {reply['spec_id']}, tables {reply['tables_version']}, rules {reply['rules_version']}."
        f" Lengths in {lengths}.",
        _SMALL,
    )
    if sheet.link:
        column.text(sheet.link, _SMALL)
