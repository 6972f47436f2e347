"""The words of a finish callout: one bounded form of what drawings print, split into designators and plain words.

``MIL-A-8625F, Type III, Class 1`` becomes ``mil a 8625 f | type 3 | class 1``: a designator (type, class, grade, SC,
method) and its value make one item, so that ``Type II`` is never found inside ``Type IIB``. The words of the tables
pass through the same reader, hence both sides always agree on spelling.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..errors import FinishError
from ..model import Unit

LONGEST = 200

_TOKEN = re.compile(r"[a-z]+|\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}|\"", re.ASCII)
_ALIKE = str.maketrans({"μ": "u", "″": '"', "”": '"', "“": '"', "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-"})
_KINDS = {
    "type": "type", "types": "type", "ty": "type", "class": "class", "classes": "class", "cl": "class",
    "grade": "grade", "grades": "grade", "gr": "grade", "sc": "sc", "condition": "sc", "method": "method",
    "methods": "method",
}  # fmt: skip
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6", "ib": "1b", "ic": "1c", "iib": "2b"}
_LIST_GAPS = frozenset({"/", ",", "&", "-", "+"})
_LIST_WORDS = frozenset({"or", "and"})
_SPELLINGS = {
    "coating": "coat", "coated": "coat", "coatings": "coat", "hardcoating": "hardcoat", "hardcoated": "hardcoat",
    "treated": "treat", "treating": "treat", "treatment": "treat",
}  # fmt: skip
_ENDINGS = (
    ("izing", "ize"), ("ising", "ize"), ("ized", "ize"), ("ised", "ize"), ("ise", "ize"), ("ating", "ate"),
    ("ated", "ate"), ("ivation", "ivate"), ("ization", "ize"), ("isation", "ize"), ("iding", "ide"), ("ided", "ide"),
    ("ened", "en"), ("ing", ""),
)  # fmt: skip
_UNITS: dict[str, tuple[Unit, Decimal]] = {
    **dict.fromkeys(("in", "inch", "inche", '"'), ("in", Decimal(1))),
    **dict.fromkeys(("mil", "thou"), ("in", Decimal("0.001"))),
    **dict.fromkeys(("uin", "microinch"), ("in", Decimal("0.000001"))),
    **dict.fromkeys(("um", "micron", "micrometer", "micrometre"), ("mm", Decimal("0.001"))),
    "mm": ("mm", Decimal(1)),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Item:
    """One word, number or designator; ``gap`` is what stood between it and the item before."""

    text: str
    gap: str


@dataclass(frozen=True, slots=True)
class Thickness:
    """A thickness found in text; one end is None where only a minimum, nominal or maximum was written."""

    min: Decimal | None
    max: Decimal | None
    unit: Unit


def items(text: str) -> tuple[Item, ...]:
    """Split a finish text into items.

    Args:
        text: what was typed, at most ``LONGEST`` characters.

    Raises:
        FinishError: ``finish_unknown`` for an empty or overlong text.
    """
    if len(text) > LONGEST or not text.strip():
        raise FinishError("finish_unknown", f"A finish is named in 1 to {LONGEST} characters.")
    folded = text.casefold().translate(_ALIKE)
    found: list[Item] = []
    end = 0
    for match in _TOKEN.finditer(folded):
        found.append(Item(_stem(match[0]), folded[end : match.start()]))
        end = match.end()
    return tuple(_designators(found))


@cache
def phrase(text: str) -> tuple[str, ...]:
    """The items of a phrase of the tables, as plain texts. Only ever called with table text."""
    return tuple(item.text for item in items(text))


def find(words: tuple[Item, ...], wanted: tuple[str, ...], taken: set[int]) -> range | None:
    """Where ``wanted`` stands in ``words`` as a run of items, none of them in ``taken``; None where it does not."""
    first, size = wanted[0], len(wanted)
    for start in range(len(words) - size + 1):
        if words[start].text != first or start in taken:
            continue
        place = range(start, start + size)
        if all(words[at].text == one and at not in taken for at, one in zip(place, wanted, strict=True)):
            return place
    return None


def is_designator(item: Item) -> bool:
    """Whether the item is a type, class, grade, service condition or method with its value."""
    return item.text.partition(" ")[0] in _KINDS and " " in item.text


def thickness(words: tuple[Item, ...], taken: set[int]) -> tuple[Thickness | None, range]:
    """The first thickness written among the items that are not ``taken``, and its place.

    Reads ``0.0003 in``, ``0.0002-0.0003 in``, ``0.2 mil to 0.3 mil``, ``8 um min``.
    """
    for start in range(len(words)):
        if start in taken:
            continue
        low, after = _quantity(words, start, taken)
        if low is None:
            continue
        high, end = _upper(words, after, taken)
        unit = _unit(words, end - 1) or _unit(words, after - 1)
        if unit is None:
            continue
        own, factor = unit
        lower = low * (_unit(words, after - 1) or unit)[1]
        return _bounded(words, end, Thickness(lower, None if high is None else high * factor, own)), range(start, end)
    return None, range(0)


def _bounded(words: tuple[Item, ...], end: int, found: Thickness) -> Thickness:
    """A single figure followed by ``max`` is a maximum."""
    following = words[end].text if end < len(words) else ""
    if found.max is None and following in ("max", "maximum"):
        return Thickness(None, found.min, found.unit)
    return found


def _quantity(words: tuple[Item, ...], at: int, taken: set[int]) -> tuple[Decimal | None, int]:
    """A number, and its unit where one follows: its value as written and the place after it."""
    if at >= len(words) or at in taken or not words[at].text[-1].isdigit() or " " in words[at].text:
        return None, at
    value = Decimal(words[at].text)
    return value, at + 2 if _unit(words, at + 1) is not None else at + 1


def _upper(words: tuple[Item, ...], at: int, taken: set[int]) -> tuple[Decimal | None, int]:
    if at < len(words) and words[at].text == "to":
        value, end = _quantity(words, at + 1, taken)
    elif at < len(words) and words[at].gap.strip() in ("-", "/"):
        value, end = _quantity(words, at, taken)
    else:
        return None, at
    return (value, end) if value is not None and _unit(words, end - 1) is not None else (None, at)


def _unit(words: tuple[Item, ...], at: int) -> tuple[Unit, Decimal] | None:
    return _UNITS.get(words[at].text) if 0 <= at < len(words) else None


def _stem(word: str) -> str:
    """One spelling for plated/plating, anodised/anodizing, galvanized, plurals."""
    if len(word) <= 3:
        return word
    if word in _SPELLINGS:
        return _SPELLINGS[word]
    if word[-1] == "s" and word[-2] not in "sui" and word not in _KINDS:
        word = word[:-1]
    for ending, instead in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= 2:
            return word[: -len(ending)] + instead
    return word


def _designators(found: list[Item]) -> list[Item]:
    """Join each designator with its value, and give every value of a list (``Type I/II``) its own designator."""
    joined: list[Item] = []
    at = 0
    while at < len(found):
        kind = _KINDS.get(found[at].text)
        value, after = _value(found, at + 1) if kind is not None else (None, at)
        if kind is None or value is None:
            joined.append(found[at])
            at += 1
            continue
        joined.append(Item(f"{kind} {value}", found[at].gap))
        at = after
        while True:
            value, after = _listed(found, at)
            if value is None:
                break
            joined.append(Item(f"{kind} {value}", found[at].gap))
            at = after
    return joined


def _listed(found: list[Item], at: int) -> tuple[str | None, int]:
    """The next value of a list of designators, None where the list ends."""
    if at >= len(found):
        return None, at
    if found[at].gap.strip() in _LIST_GAPS:
        return _value(found, at)
    if found[at].text in _LIST_WORDS:
        return _value(found, at + 1)
    return None, at


def _value(found: list[Item], at: int) -> tuple[str | None, int]:
    """The value of a designator: a small number, a roman numeral or a single letter, with a letter joined to it."""
    if at >= len(found):
        return None, at
    word = found[at].text
    after = at + 1
    if word in _ROMAN:
        return _ROMAN[word], after
    if len(word) == 1 and word.isalpha():
        return word, after
    if not word.isdigit() or len(word) > 3 or _quantity_follows(found, after):
        return None, at
    if after < len(found) and found[after].gap == "" and len(found[after].text) == 1 and found[after].text.isalpha():
        return str(int(word)) + found[after].text, after + 1
    return str(int(word)), after


def _quantity_follows(found: list[Item], at: int) -> bool:
    return at < len(found) and found[at].text in _UNITS and found[at].text != "in"
