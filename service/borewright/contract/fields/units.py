"""Quantities in requests: a number, or text ``<number> <unit>`` with the unit out of a closed list.

The number is a decimal (``0.75``, ``.25``), a fraction (``3/8``) or a mixed fraction (``1-1/4``, ``1 1/4``). The
grammar is small and bounded, and values are exact decimals; no unit library ever sees what a caller wrote.
"""

from __future__ import annotations

import csv
import re
from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.contract.faults import RequestInvalid, invalid, shown
from borewright.core.errors import nearest
from borewright.core.materials.hardness import SCALES

from .unit_list import FACTORS

Dimension = Literal["length", "speed", "torque", "stress", "power", "force", "fraction", "percent"]

LONGEST = 40

_PLAIN_NUMBER = r"[0-9]{1,9}(?:\.[0-9]{0,18})?|\.[0-9]{1,18}"
_WHOLE, _TOP, _BOTTOM = r"[0-9]{1,6}", r"0{0,3}[1-9][0-9]{0,5}", r"0{0,3}[1-9][0-9]{0,5}"
_QUANTITY = re.compile(rf"([+-]?) ?(?:(?:({_WHOLE})(?:-| {{1,3}}))?({_TOP})/({_BOTTOM})|({_PLAIN_NUMBER})) {{0,3}}(.*)")
_DECIMAL_COMMA = re.compile(r"([0-9]),([0-9])")


class Unit(NamedTuple):
    """A unit of the list: one of it is ``factor`` of ``base``."""

    dimension: str
    name: str
    base: str
    factor: Decimal


class Quantity(NamedTuple):
    """A quantity as read: ``value`` in the base unit ``unit`` (``in`` or ``mm`` for a length), None = a bare number."""

    value: Decimal
    unit: str | None


def _load() -> tuple[Unit, ...]:
    with FACTORS.open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(lines)
        listed = [Unit(row["dimension"], row["unit"], row["base"], Decimal(row["factor"])) for row in rows]
    listed += [Unit("hardness", scale, scale, Decimal(1)) for scale in SCALES]
    return tuple(listed)


UNITS: tuple[Unit, ...] = _load()
_BY_DIMENSION: dict[str, dict[str, Unit]] = {}
for _unit in UNITS:
    _BY_DIMENSION.setdefault(_unit.dimension, {})[_unit.name] = _unit


def names(dimension: Dimension) -> tuple[str, ...]:
    """Units that a quantity of ``dimension`` may carry."""
    return tuple(_BY_DIMENSION[dimension])


def factor(dimension: Dimension, name: str) -> Decimal:
    """How much of its base unit one of the unit ``name`` is (``psi`` -> 0.00689... MPa)."""
    return _BY_DIMENSION[dimension][name].factor


def pattern(dimension: Dimension, *, signed: bool = False, zero: bool = False) -> str:
    """The grammar of a text quantity as a regular expression for the published schema (ECMA 262)."""
    units = "|".join(name.replace("*", r"\*") for name in names(dimension))
    sign = "[+-]?" if signed else "[+]?"
    at_least = "" if zero else "(?=[ 0.+/-]*[1-9])"
    fraction = f"(?:{_WHOLE}(?:-| {{1,3}}))?{_TOP}/{_BOTTOM}"
    return f"^{at_least} *{sign} ?(?:{fraction}|{_PLAIN_NUMBER}) {{0,3}}(?:{units}) *$"


def read(text: str, dimension: Dimension) -> Quantity:
    """A quantity that a caller wrote as text.

    Args: ``dimension`` is what the field holds.
    Returns: the exact value in the unit's base unit.
    Raises: RequestInvalid ``quantity_unreadable``, ``quantity_unit_missing``, ``quantity_unit_unknown``,
    ``quantity_dimension_wrong``; the pointer is left to the caller.
    """
    found = _QUANTITY.fullmatch(text.strip(" ")) if len(text) <= LONGEST else None
    if found is None or found[6][:1] in _NOT_A_UNIT:
        if found is not None and not found[6]:
            raise _without_unit(text, dimension)
        raise _unreadable(text, dimension)
    unit = _BY_DIMENSION[dimension].get(found[6])
    if unit is None:
        raise _wrong_unit(found[6], dimension)
    return Quantity(_number(found) * unit.factor, unit.base)


#: What follows the number, when it cannot begin a unit: nothing, more digits, a decimal comma, an operator.
_NOT_A_UNIT = ("", *"0123456789,.+-*/^() ")


def _number(found: re.Match[str]) -> Decimal:
    sign, whole, top, bottom, plain, _ = found.groups()
    value = Decimal(plain) if plain is not None else Decimal(whole or 0) + Decimal(top) / Decimal(bottom)
    return -value if sign == "-" else value


def _unreadable(text: str, dimension: Dimension) -> RequestInvalid:
    meant: tuple[str, ...] = ()
    with_point = _DECIMAL_COMMA.sub(r"\1.\2", text[:LONGEST])
    if with_point != text:
        try:
            read(with_point, dimension)
            meant = (with_point.strip(),)
        except RequestInvalid:
            meant = ()
    return invalid(
        "quantity_unreadable",
        f"{shown(text)} is not a number (0.75, 3/8, 1-1/4) followed by a unit; decimals are written with a point.",
        allowed=names(dimension),
        did_you_mean=meant,
    )


def _without_unit(text: str, dimension: Dimension) -> RequestInvalid:
    units = ("in", "mm") if dimension == "length" else names(dimension)[:2]
    return invalid(
        "quantity_unit_missing",
        f"{shown(text)} has no unit: write one behind it, or send a number without quotation marks.",
        allowed=names(dimension),
        did_you_mean=[f"{text.strip()} {unit}" for unit in units],
    )


#: Other spellings of units, folded, and the name in the list.
_SPELLINGS = {
    "″": "in", "”": "in", "''": "in", "inchs": "in", "in.": "in", "millimetre": "mm", "millimeter": "mm",
    "millimetres": "mm", "millimeters": "mm", "micron": "um", "microns": "um", "micrometre": "um", "micrometer": "um",
    "nm": "N*m", "n·m": "N*m", "in-lb": "in*lbf", "in-lbs": "in*lbf", "lb-in": "lbf*in", "ft-lb": "ft*lbf",
    "ft-lbs": "ft*lbf", "fpm": "ft/min", "mpa": "MPa",
}  # fmt: skip


def _meant(word: str, dimension: Dimension) -> tuple[str, ...]:
    """The unit that another spelling or case means; else those that are written nearly so."""
    folded = word.strip().casefold()
    same = [name for name in names(dimension) if name.casefold() == folded]
    spelled = [name for name in names(dimension) if name == _SPELLINGS.get(folded)]
    return (*same, *spelled)[:1] or nearest(word, names(dimension), most=1)


def _wrong_unit(word: str, dimension: Dimension) -> RequestInvalid:
    elsewhere = sorted({unit.dimension for unit in UNITS if unit.name == word})
    if elsewhere:
        return invalid(
            "quantity_dimension_wrong",
            f"{shown(word)} is a unit of {' or '.join(elsewhere)}, and a {dimension} is needed here.",
            allowed=names(dimension),
        )
    return invalid(
        "quantity_unit_unknown",
        f"{shown(word)} is not a unit of {dimension}.",
        allowed=names(dimension),
        did_you_mean=_meant(word, dimension),
    )
