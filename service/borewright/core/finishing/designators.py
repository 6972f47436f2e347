"""The words of a finish callout: one bounded form of what drawings print, split into designators and plain words.

``MIL-A-8625F, Type III, Class 1`` becomes ``mil a 8625 f | type 3 | class 1``: a designator (type, class, grade, SC,
method) and its value make one item, so that ``Type II`` is never found inside ``Type IIB``. The words of the tables
pass through the same reader, hence both sides always agree on spelling.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.errors import FinishError
from borewright.core.model import Unit

from .spoken_amounts import in_figures

LONGEST = 200

_TOKEN = re.compile(r"[a-z]+|\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}|\"|%", re.ASCII)
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])0,(?=\d)")
_ALIKE = str.maketrans(
    {"μ": "u", "″": '"', "”": '"', "“": '"', "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "±": "+/-"}
)
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
    "treated": "treat", "treating": "treat", "treatment": "treat", "thous": "thou",
}  # fmt: skip
_ENDINGS = (
    ("izing", "ize"), ("ising", "ize"), ("ized", "ize"), ("ised", "ize"), ("ise", "ize"), ("ating", "ate"),
    ("ated", "ate"), ("ivation", "ivate"), ("ization", "ize"), ("isation", "ize"), ("iding", "ide"), ("ided", "ide"),
    ("ened", "en"), ("ing", ""),
)  # fmt: skip
LENGTH_UNITS: dict[str, tuple[Unit, Decimal]] = {
    **dict.fromkeys(("in", "inch", "inche", '"'), ("in", Decimal(1))),
    **dict.fromkeys(("mil", "thou", "thousandth"), ("in", Decimal("0.001"))),
    "tenth": ("in", Decimal("0.0001")),
    **dict.fromkeys(("uin", "microinch", "microinche"), ("in", Decimal("0.000001"))),
    **dict.fromkeys(("um", "u", "micron", "micrometer", "micrometre"), ("mm", Decimal("0.001"))),
    **dict.fromkeys(("mm", "millimeter", "millimetre"), ("mm", Decimal(1))),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Item:
    """One word, number or designator; ``gap`` is what stood between it and the item before."""

    text: str
    gap: str


def items(text: str) -> tuple[Item, ...]:
    """The items of a finish ``text``.

    Args:
        text: what was typed, at most ``LONGEST`` characters.

    Raises:
        FinishError: ``finish_unknown`` for an empty or overlong text.
    """
    if len(text) > LONGEST or not text.strip():
        raise FinishError("finish_unknown", f"A finish is named in 1 to {LONGEST} characters.")
    folded = in_figures(_DECIMAL_COMMA.sub("0.", text.casefold().translate(_ALIKE)))
    found: list[Item] = []
    end = 0
    for match in _TOKEN.finditer(folded):
        found.append(Item(_stem(match[0]), folded[end : match.start()]))
        end = match.end()
    return tuple(_designators(found))


def phrase(text: str) -> tuple[str, ...]:
    """The items of a phrase of the tables, as plain texts. Only ever called with table text."""
    return tuple(item.text for item in items(text))


def find(words: tuple[Item, ...], wanted: tuple[str, ...], taken: set[int]) -> range | None:
    """Where ``wanted`` stands in ``words`` as a run of items, none of them in ``taken``; None where it does not."""
    first, size = wanted[0], len(wanted)
    for start in range(len(words) - size + 1):
        if words[start].text != first:
            continue
        place = range(start, start + size)
        if all(words[at].text == one and at not in taken for at, one in zip(place, wanted, strict=True)):
            return place
    return None


def is_designator(item: Item) -> bool:
    """Whether the item is a type, class, grade, service condition or method with its value."""
    return " " in item.text


def unit_at(words: tuple[Item, ...], at: int) -> tuple[Unit, Decimal] | None:
    """Unit of length at the place ``at`` of ``words`` and its factor, None where none stands there (``in accordance``
    is none).
    """
    if at >= len(words):
        return None
    if words[at].text == "in" and at + 1 < len(words) and words[at + 1].text == "accordance":
        return None
    return LENGTH_UNITS.get(words[at].text)


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
            value, after = _next_of_list(found, at)
            if value is None:
                break
            joined.append(Item(f"{kind} {value}", found[at].gap))
            at = after
    return joined


def _next_of_list(found: list[Item], at: int) -> tuple[str | None, int]:
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
    return at < len(found) and found[at].text in LENGTH_UNITS and found[at].text != "in"
