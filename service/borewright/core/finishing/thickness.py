"""A thickness inside the words of a finish: ``.002 +/-.0005``, ``0.2 to 0.3 mil``, ``8 um min``, ``0.002 in (50 um)``.

A number with a decimal point and no unit is a thickness in the unit of the request; a whole number without a unit is
refused, because it can be inches, mils or micrometres. A figure that stands in the text is used or refused, never left.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import NamedTuple

from borewright.core.errors import FinishError
from borewright.core.model import MM_PER_INCH, Unit
from borewright.core.practice import figure

from .designators import Item, unit_at

_PLUS_MINUS = frozenset(("+/-", "+-", "+/", "-/+"))
_RANGE_GAPS = frozenset(("-", "/", "-."))
_LEAST = frozenset(("min", "minimum", "least"))
_MOST = frozenset(("max", "maximum", "most"))
_PASSED = frozenset(("thick", "thickness", "thk", "nominal", "nom", "per", "side", "surface"))
_OTHER_MEASURES = frozenset((
    "%", "h", "hr", "hour", "f", "c", "deg", "degree", "hrc", "hrb", "hra", "hb", "hbw", "hv", "hk", "ksi", "mpa",
    "psi", "ra", "rz", "x", "plc", "place", "pl", "hole", "day", "minute", "oz", "g", "gram", "mg", "lb", "v", "volt",
))  # fmt: skip
_NOT_A_FIGURE_AFTER = frozenset((
    "amendment", "amend", "amd", "am", "note", "rev", "revision", "zone", "sheet", "item", "step", "color", "colour",
    "no", "number", "para", "paragraph", "section", "table", "notice", "code", "at", "within", "ra", "rz", "hrc",
))  # fmt: skip
_TREATMENTS = frozenset(("bake", "relieve", "relief", "salt", "spray", "harden", "temper", "seal"))
_CALLED_THICKNESS = frozenset(("thick", "thickness", "thk"))
_CLAUSE_END = frozenset(",;")
_ON_DIAMETER = frozenset(("diameter", "dia", "diametral", "buildup", "growth", "penetration"))
_SPOKEN_UNITS = frozenset(("thou", "thousandth", "tenth", "micron", "micrometer", "micrometre"))
_INCH: tuple[Unit, Decimal] = ("in", Decimal(1))
_YEAR = re.compile(r"(?:19|20)\d\d", re.ASCII)
_SAME_SHARE = figure("same_thickness_share")
_TO_INCHES: dict[Unit, Decimal] = {"in": Decimal(1), "mm": 1 / MM_PER_INCH}


@dataclass(frozen=True, slots=True)
class Thickness:
    """A thickness found in text; one end is None where only one figure was written.

    ``at_least``: the single figure is called a minimum; ``bare``: it was written without a unit.
    """

    min: Decimal | None
    max: Decimal | None
    unit: Unit
    at_least: bool = False
    bare: bool = False


class _Number(NamedTuple):
    """A number of the text, its unit where one follows, and the place after both."""

    value: Decimal
    unit: tuple[Unit, Decimal] | None
    end: int
    pointed: bool


class _Span(NamedTuple):
    """Two ends of a thickness in ``unit``, and the place after it; the lower end of a range may have its own unit."""

    low: Decimal
    high: Decimal | None
    unit: tuple[Unit, Decimal] | None
    end: int
    pointed: bool
    of_range: bool = False


def thickness(words: tuple[Item, ...], taken: set[int], *, bare: Unit) -> tuple[Thickness | None, frozenset[int]]:
    """The thickness written among the items that are not ``taken``, and its places.

    Args:
        words: items of a finish text.
        taken: places already understood.
        bare: unit of a number with a decimal point that has none.

    Raises:
        FinishError: ``finish_conflict`` for two that differ, ``finish_ambiguous`` for a figure on diameter.

    Source: the words of drawings (common practice).
    """
    found: Thickness | None = None
    places: set[int] = set()
    at = 0
    while at < len(words):
        one, end = _thickness_at(words, at, taken, bare)
        if one is None:
            at += 1
            continue
        if found is not None and not _agree(found, one):
            raise FinishError("finish_conflict", "The finish states two thicknesses that differ; give one.")
        found = found or one
        places |= set(range(at, end))
        at = end
    if found is not None:
        _refuse_other_meaning(words, taken)
    return found, frozenset(places)


def refuse_unread(words: tuple[Item, ...], taken: set[int]) -> None:
    """Refuse a whole number of ``words``, at a place that is not ``taken``, that may be a thickness but has no unit.

    Raises:
        FinishError: ``finish_ambiguous``.

    Source: none; nothing that changes the limits is left unread.
    """
    for at, item in enumerate(words):
        if at not in taken and item.text in _SPOKEN_UNITS:
            raise FinishError(
                "finish_ambiguous", f'"{item.text}" in the finish has no figure that is read: write 0.5 {item.text}.'
            )
        if at in taken or not _is_number(item) or _is_explained(words, at):
            continue
        raise FinishError(
            "finish_ambiguous",
            f'"{item.text}" in the finish has no unit: write it with one if it is the thickness.',
            allowed=(f"{item.text} um", f"{item.text} mil"),
        )


def _thickness_at(words: tuple[Item, ...], at: int, taken: set[int], bare: Unit) -> tuple[Thickness | None, int]:
    first = _number(words, at, taken)
    if first is None or _is_size(words, at, first) or (first.unit is None and _is_explained(words, at)):
        return None, at
    if _is_negative(words, at):
        raise FinishError(
            "value_out_of_range", f"A thickness of -{words[at].text} cannot be: a coat is thicker than 0."
        )
    span = _tolerance(words, first, taken) or _range(words, first, taken) or _Span(first.value, None, *first[1:])
    if span.unit is None and not span.pointed:
        return None, at
    unit, factor = span.unit or (bare, Decimal(1))
    low = span.low * (_in(unit, first.unit) if span.of_range and first.unit is not None else factor)
    high = None if span.high is None else span.high * factor
    return _bounded(words, at, span, Thickness(low, high, unit, bare=span.unit is None))


def _is_negative(words: tuple[Item, ...], at: int) -> bool:
    """Whether a minus stands at the number itself (``-.0005`` at first, `` -.0005``, ``,-.0005``); a dash between two
    words or with a blank after it parts them.
    """
    gap = words[at].gap
    if at == 0 or not gap.endswith("-"):
        return gap.endswith("-")
    return gap != "-" and not _is_number(words[at - 1])


def _in(unit: Unit, written: tuple[Unit, Decimal]) -> Decimal:
    """Factor from a written unit to inches or millimetres."""
    own, factor = written
    return factor if own == unit else factor * _TO_INCHES[own] / _TO_INCHES[unit]


def _bounded(words: tuple[Item, ...], at: int, span: _Span, found: Thickness) -> tuple[Thickness, int]:
    """A single figure called ``min`` or ``max``, before or after it; the other may follow."""
    if found.max is not None:
        return found, span.end
    before = _text(words, at - 1)
    end = span.end
    while _text(words, end) in _PASSED:
        end += 1
    after = _text(words, end)
    if after in _MOST or (before in _MOST and after not in _LEAST):
        return Thickness(None, found.min, found.unit, bare=found.bare), span.end
    if after not in _LEAST and before not in _LEAST:
        return found, span.end
    return Thickness(found.min, None, found.unit, at_least=True, bare=found.bare), span.end


def _tolerance(words: tuple[Item, ...], first: _Number, taken: set[int]) -> _Span | None:
    """``.002 +/-.0005``, ``.002 +/-20 %``, ``.002 +.0005/-.0003``."""
    plus = _number(words, first.end, taken)
    start = first.end
    if plus is None and [item.text for item in words[start : start + 3]] == ["plus", "or", "minus"]:
        start += 3
        plus = _number(words, start, taken)
    if plus is None:
        return None
    gap = "+/-" if start != first.end else words[start].gap.replace(" ", "")
    if gap in _PLUS_MINUS:
        return _around(words, first, plus, plus)
    minus = _number(words, plus.end, taken)
    if gap == "+" and minus is not None and words[plus.end].gap.replace(" ", "") in ("/-", "-"):
        return _around(words, first, plus, minus)
    return None


def _around(words: tuple[Item, ...], first: _Number, plus: _Number, minus: _Number) -> _Span:
    own = first.unit or minus.unit or plus.unit
    if minus.end < len(words) and words[minus.end].text == "%":
        up, down, end = first.value / 100 * plus.value, first.value / 100 * minus.value, minus.end + 1
        return _Span(first.value - down, first.value + up, own, end, first.pointed)
    up = plus.value * _rate(plus.unit or minus.unit, own)
    down = minus.value * _rate(minus.unit or plus.unit, own)
    return _Span(first.value - down, first.value + up, own, minus.end, first.pointed)


def _rate(written: tuple[Unit, Decimal] | None, own: tuple[Unit, Decimal] | None) -> Decimal:
    """Factor from one written unit to another; one that is not written is the other."""
    if written is None or own is None:
        return Decimal(1)
    return _in(own[0], written) / own[1]


def _range(words: tuple[Item, ...], first: _Number, taken: set[int]) -> _Span | None:
    """``.0002-.0003``, ``0.2 mil to 0.3 mil``, ``.0002 min .0005 max``."""
    at = first.end
    bounded = _text(words, at) in _LEAST
    at += 1 if bounded else 0
    joined = at < len(words) and words[at].gap.strip() in _RANGE_GAPS
    if _text(words, at) in ("to", *_MOST):
        at, joined = at + 1, True
    second = _number(words, at, taken)
    if second is None:
        return None
    called_most = _text(words, second.end) in _MOST
    if not joined and not (bounded and called_most):
        return None
    end = second.end + (1 if called_most else 0)
    pointed = first.pointed and second.pointed
    return _Span(first.value, second.value, second.unit or first.unit, end, pointed, of_range=True)


def _is_size(words: tuple[Item, ...], at: int, number: _Number) -> bool:
    """Whether a whole number is half of a size such as ``3/8 in``."""
    return not number.pointed and number.unit in (None, _INCH) and _in_fraction(words, at)


def _in_fraction(words: tuple[Item, ...], at: int) -> bool:
    below = words[at].gap.strip() == "/" and _text(words, at - 1).isdigit()
    above = _text(words, at + 1).isdigit() and words[at + 1].gap.strip() == "/"
    return below or (above and unit_at(words, at + 2) in (None, _INCH))


def _text(words: tuple[Item, ...], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


def _number(words: tuple[Item, ...], at: int, taken: set[int]) -> _Number | None:
    if at >= len(words) or at in taken or not _is_number(words[at]):
        return None
    unit = unit_at(words, at + 1)
    return _Number(Decimal(words[at].text), unit, at + 1 if unit is None else at + 2, "." in words[at].text)


def _is_number(item: Item) -> bool:
    return item.text != "" and item.text[-1].isdigit() and " " not in item.text


def _is_explained(words: tuple[Item, ...], at: int) -> bool:
    """Whether a number without a unit of length is something else: hours, degrees, hardness, a note's number."""
    after, before = _text(words, at + 1), _text(words, at - 1)
    runs_on = after[:1].isalpha() and words[at + 1].gap == ""
    joined = runs_on or (before[-1:].isalpha() and words[at].gap == "")
    if joined or _in_fraction(words, at) or _YEAR.fullmatch(words[at].text):
        return True
    return after in _OTHER_MEASURES or before in _NOT_A_FIGURE_AFTER or _is_of_treatment(words, at)


def _is_of_treatment(words: tuple[Item, ...], at: int) -> bool:
    """Whether a number is one of a bake, a seal or a salt spray test before it: a whole one anywhere behind it, one
    with a decimal point in the same clause, where no word calls it a thickness.
    """
    first = 0
    if "." in words[at].text:
        if {_text(words, at - 1), _text(words, at + 1)} & _CALLED_THICKNESS:
            return False
        first = max((place for place in range(at + 1) if not _CLAUSE_END.isdisjoint(words[place].gap)), default=0)
    return not _TREATMENTS.isdisjoint(item.text for item in words[first:at])


def _agree(one: Thickness, other: Thickness) -> bool:
    """Whether a second figure is the first in another unit."""
    for a, b in ((one.min, other.min), (one.max, other.max)):
        if a is None or b is None:
            if a is not b:
                return False
            continue
        first, second = a * _TO_INCHES[one.unit], b * _TO_INCHES[other.unit]
        if abs(first - second) > _SAME_SHARE * max(first, second):
            return False
    return True


def _refuse_other_meaning(words: tuple[Item, ...], taken: set[int]) -> None:
    """A figure on diameter, or of what lies outside the old surface, is no thickness."""
    texts = [item.text for at, item in enumerate(words) if at not in taken]
    said = next((text for text in texts if text in _ON_DIAMETER), None)
    if said is None and any(pair == ("build", "up") for pair in pairwise(texts)):
        said = "build up"
    if said is not None:
        raise FinishError(
            "finish_ambiguous",
            f'A figure with "{said}" is not the thickness on a surface: give the thickness, and its growth fraction.',
            allowed=("thickness", "growth_fraction", "heat_treat_growth"),
        )
