"""Reading a material's name as people type it: alloy, condition, family, and the words that say nothing."""

from __future__ import annotations

import re
from dataclasses import dataclass

from borewright.core.errors import MaterialError, nearest

from . import alloys
from .alloys import Alias, Alloy, MaterialFamily

LONGEST = 120

_PARTS = re.compile(r"[a-z0-9]+")
_GLUED_FRONT = re.compile(r"(aisi|sae|astm|uns|ss|al|alloy|type|grade|gr|din|en|aw)(\d[a-z0-9]*)")
_GLUED_BACK = re.compile(r"(\d{3,4})([a-z]{2,})")
_JOINED = 6  # longest run of parts that makes one name: X5 Cr Ni 18 10, A536 65 45 12

_NOISE = frozenset(
    (
        *(
            "aisi",
            "sae",
            "astm",
            "uns",
            "din",
            "en",
            "iso",
            "aw",
            "jis",
            "bs",
            "alloy",
            "alloys",
            "type",
            "grade",
            "gr",
        ),
        *("class", "cl", "no", "number", "at", "in", "to", "of", "the", "a", "an", "and", "with", "about", "approx"),
        *("material", "metal", "stock", "bar", "plate", "sheet", "strip", "rod", "round", "flat", "tube", "billet"),
        *("forging", "forged", "casting", "cast", "extrusion", "extruded", "block", "wrought", "solid"),
        *("temper", "condition", "cond", "hard", "hardness"),
    )
)
_KINDS = {
    "steel": "steel",
    "stainless": "steel",
    "iron": "iron",
    "aluminium": "aluminium",
    "brass": "copper",
    "bronze": "copper",
    "copper": "copper",
    "zinc": "zinc",
    "magnesium": "magnesium",
    "titanium": "titanium",
    "nickel": "nickel",
    "plastic": "plastic",
}


@dataclass(frozen=True, slots=True)
class NameReading:
    """What a name says: ``rows`` are the alloys it fits, ``not_held`` a condition none of them is listed in."""

    rows: tuple[Alloy, ...] = ()
    alias: Alias | None = None
    family: MaterialFamily | None = None
    condition_said: bool = False
    not_held: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()


def read(text: str) -> NameReading:
    """The material that ``text`` names, such as ``AISI 4140``, ``6061-T6``, ``GG25``, ``A48 class 30`` or ``304 SS``.

    Raises: MaterialError ``material_conflict`` when two names in it contradict each other.

    Source: materials, material_names, material_families tables.
    """
    rows: tuple[Alloy, ...] | None = None
    alias: Alias | None = None
    family: MaterialFamily | None = None
    said = False
    conditions: list[str] = []
    unread: list[str] = []
    for kind, key in _words(text):
        if kind == "unread":
            unread.append(key)
        elif kind == "condition":
            conditions.append(key)
        elif kind == "family":
            family = family or alloys.family_names()[key]
        else:
            alias = alias or alloys.alias_names().get(key)
            here = alloys.alloy_names().get(key) or alloys.alias_names()[key].rows
            said = said or key in alloys.names_with_condition()
            rows = here if rows is None else tuple(row for row in rows if row in here)
            if not rows:
                raise _conflict(text, "names two different alloys")
    if rows is None:
        return NameReading(family=family, not_held=tuple(_telling(unread)), unread=tuple(unread))
    if family is not None and not all(_same_kind(row, family) for row in rows):
        raise _conflict(text, f"calls {rows[0].name} {family.name}")
    rows, missing = _in_condition(rows, conditions)
    said = said or bool(conditions) or len(rows) < len(alloys.alloy_names()[alloys.compact(rows[0].alloy)])
    return NameReading(rows, alias, family, said, (*missing, *_telling(unread)), tuple(unread))


def suggestions(text: str) -> tuple[str, ...]:
    """Names held that ``text`` was probably meant to be.

    Source: materials, material_names, material_families tables.
    """
    return nearest(text, alloys.shown_names())


def _words(text: str) -> list[tuple[str, str]]:
    """Split into the longest known names from left to right: (kind, compact name); noise words are dropped."""
    parts = _split_glued(_PARTS.findall(text.casefold()))
    found = []
    start = 0
    while start < len(parts):
        for end in range(min(len(parts), start + _JOINED), start, -1):
            kind = _kind("".join(parts[start:end]))
            if kind is not None:
                break
        key = "".join(parts[start:end])
        if kind != "noise":
            found.append((kind or "unread", key))
        start = end
    return found


def _kind(key: str) -> str | None:
    if key in alloys.alloy_names() or key in alloys.alias_names():
        return "alloy"
    if key in alloys.family_names():
        return "family"
    if key in _NOISE:
        return "noise"
    return "condition" if key in alloys.condition_words() else None


def _split_glued(parts: list[str]) -> list[str]:
    """Part ``SS304`` and ``1018CRS`` where the whole is no name of its own."""
    found: list[str] = []
    for part in parts:
        glued = None if _kind(part) else _GLUED_FRONT.fullmatch(part) or _GLUED_BACK.fullmatch(part)
        found.extend(glued.groups() if glued else (part,))
    return found


def _in_condition(rows: tuple[Alloy, ...], conditions: list[str]) -> tuple[tuple[Alloy, ...], tuple[str, ...]]:
    """The rows in the conditions said, and the conditions that no row is listed in."""
    missing = []
    for word in conditions:
        fitting = tuple(row for row in rows if word in row.condition_words)
        if fitting:
            rows = fitting
        else:
            missing.append(word)
    return rows, tuple(missing)


def _telling(unread: list[str]) -> list[str]:
    """Unread words with a digit: a temper or grade that is not held, never to be passed over."""
    return [word for word in unread if any(sign.isdigit() for sign in word)]


def _same_kind(row: Alloy, family: MaterialFamily) -> bool:
    kinds = [
        {_KINDS[word] for word in (name or "").replace("-", " ").split() if word in _KINDS}
        for name in (row.family, family.family)
    ]
    return not kinds[0] or not kinds[1] or bool(kinds[0] & kinds[1])


def _conflict(text: str, why: str) -> MaterialError:
    return MaterialError("material_conflict", f"The material {text[:60]!r} {why}.", pointer="/material")
