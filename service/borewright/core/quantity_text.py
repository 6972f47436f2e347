"""Quantities inside the texts of the domain, written so that the edge can show them in the units of a reply.

A quantity stands in the unit in which it is held, with a no-break space between number and unit (``0.3125~in``); a
range shares one unit (``0.3344 to 0.3401~in``). Whoever shows a text converts what has that space (``contract.texts``);
texts that hold none are shown as they are. Names that contain a size (``6.8 mm drill``) keep their ordinary blank.
"""

from __future__ import annotations

import re
from decimal import Decimal

from .model import Range, Unit
from .rounding import half_even, plain

NO_BREAK = "\N{NO-BREAK SPACE}"
_NUMBER = r"\d+(?:\.\d+)?"
#: A quantity in a text of a table; ``1 in 16`` is a taper.
_WRITTEN = re.compile(rf"(?<![\w./-])({_NUMBER}(?: (?:to|or|and) {_NUMBER})?) (mm|um|in|MPa|ksi)(?![\w/*]| \d)")
_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}


def length(value: Decimal, unit: Unit, places: int | None = None) -> str:
    """The text of ``value``, a length in ``unit``, with at most 4 decimals of an inch or 3 of a millimetre unless
    ``places`` are given.
    """
    return f"{plain(half_even(value, _PLACES[unit] if places is None else places))}{NO_BREAK}{unit}"


def printed_length(value: Decimal, unit: Unit) -> str:
    """The text of ``value``, a limit of size in ``unit``, with the digits that its standard prints (``0.4460``)."""
    return f"{value}{NO_BREAK}{unit}"


def named(label: str, diameter: Decimal, unit: Unit) -> str:
    """The text of a drill by ``label`` and ``diameter`` in ``unit``; the size is not shown where the label tells it in
    the units of the reply.
    """
    return f"{label} ({half_even(diameter, 4 if unit == 'in' else 2)}{NO_BREAK}{unit})"


def span(limits: Range, unit: Unit) -> str:
    """The text of ``limits``, two limits of size in ``unit``, with the digits that their standard prints; an open end
    is said.
    """
    if limits.min is None or limits.max is None:
        end = limits.min if limits.max is None else limits.max
        side = "at least" if limits.max is None else "at most"
        return "no limit" if end is None else f"{side} {printed_length(end, unit)}"
    return f"{limits.min} to {limits.max}{NO_BREAK}{unit}"


def torque(value_n_m: float) -> str:
    """The text of a torque of ``value_n_m``, 3 significant digits."""
    return _three_digits(value_n_m, "N*m")


def force(value_n: float) -> str:
    """The text of a force of ``value_n``, 3 significant digits."""
    return _three_digits(value_n, "N")


def power(value_kw: float) -> str:
    """The text of a power of ``value_kw``, 3 significant digits."""
    return _three_digits(value_kw, "kW")


def stress(value_mpa: float) -> str:
    """The text of a stress of ``value_mpa``, 3 significant digits."""
    return _three_digits(value_mpa, "MPa")


def cutting_speed(value_m_min: float) -> str:
    """The text of a cutting speed of ``value_m_min``, 3 significant digits."""
    return _three_digits(value_m_min, "m/min")


def feed(value_mm_rev: float) -> str:
    """The text of a feed of ``value_mm_rev``, 3 significant digits."""
    return _three_digits(value_mm_rev, "mm/rev")


def _three_digits(value: float, unit: str) -> str:
    return f"{plain(Decimal(f'{value:.3g}'))}{NO_BREAK}{unit}"


def marked(text: str) -> str:
    """A text of a table with its quantities written so that they can be shown in other units."""
    return _WRITTEN.sub(rf"\1{NO_BREAK}\2", text)
