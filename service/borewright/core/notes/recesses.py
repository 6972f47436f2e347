"""Countersink, counterbore, sides and place of a hole, as the note writes them."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from borewright.core.model import Length
from borewright.core.rounding import half_even, plain

from .case import NoteCase
from .model import Recess

#: Elements that are kept in the words of the note.
_KEPT = {
    "place": "place", "one_side": "side", "both_sides": "side", "pilot": "pilot", "chamfer": "chamfer",
    "thru": "through", "blind": "blind", "other": "other", "mask": "finish", "turns": "full_threads",
    "reference": "reference", "ream": "ream", "fitted": "ream",
}  # fmt: skip
_LIMITED = frozenset({"depth", "thread_depth", "drill_depth", "drill"})


def countersink(case: NoteCase) -> Recess | None:
    """The countersink of ``case``: diameter at the surface and included angle, its own or that of a general note.

    Source: rules K1, K2, G3 of the reference notes.
    """
    found = case.parts.others.get("countersink", ())
    if not found:
        return _of_general(case)
    diameter = angle = None
    for element in found:
        size, turned = element.named.get("d"), element.named.get("a")
        if any(not {"major", "over_major"}.isdisjoint(token.kinds) for token in element.tokens):
            diameter = _major(case, case.value(element.named["o"]) if "o" in element.named else Decimal(0))
        diameter = case.value(size) if size is not None else diameter
        angle = turned.value if turned is not None else angle
    return Recess(diameter=diameter, angle_deg=angle)


def _of_general(case: NoteCase) -> Recess | None:
    if not case.general.countersink or case.thread is None:
        return None
    over = case.value(case.general.over) if case.general.over is not None else Decimal(0)
    case.assumptions.append("The countersink is that of a general note.")
    return Recess(diameter=_major(case, over), angle_deg=case.general.angle)


def _major(case: NoteCase, over: Decimal) -> Decimal | None:
    if case.thread is None:
        return None
    nominal = Length(case.thread.nominal_diameter, case.thread.unit).to(case.unit)
    return Decimal(plain(half_even(nominal, 6) + over))


def counterbore(case: NoteCase) -> Recess | None:
    """The counterbore or spotface of ``case``: diameter and depth; a spotface without depth goes as deep as it cleans
    up.

    Source: rules K4, K5, K7 of the reference notes.
    """
    part = case.parts.counterbore
    if part is None:
        return None
    size = part.element.named.get("d")
    return Recess(diameter=None if size is None else case.value(size), depth=case.depth(part.depth))


def sides(case: NoteCase) -> Literal["one", "both"]:
    """``both`` where the note of ``case`` says so in words (rule K6)."""
    return "both" if case.parts.has("both_sides") else "one"


def words(case: NoteCase) -> tuple[tuple[str, str], ...]:
    """What of ``case`` is kept in the words of the note: place, side, pilot, chamfer; and limits and tolerances of
    sizes.
    """
    kept = [
        (_KEPT[reads], case.words(element))
        for reads, elements in case.parts.others.items()
        if reads in _KEPT
        for element in elements
    ]
    before_ream = case.parts.others.get("drill", ()) if case.parts.has("ream") else ()
    kept += (("pilot", case.words(element)) for element in before_ream)
    return tuple(kept + _limits(case))


def _limits(case: NoteCase) -> list[tuple[str, str]]:
    found = []
    for reads in sorted(_LIMITED & case.parts.others.keys()):
        for element in case.parts.others[reads]:
            toleranced = any("size" in token.kinds and set("±+[") & set(token.text) for token in element.tokens)
            if toleranced or any("limit" in token.kinds for token in element.tokens):
                found.append((f"{reads}_limits", case.words(element)))
    return found
