"""The named rounding rules: the only place of the domain that rounds.

All work on :class:`decimal.Decimal`, so a tie is a tie. A rounded Decimal keeps its printed digits
(``Decimal("0.1960")``), which is how limits of size carry the form in which the standard prints them.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

#: Most decimals that are rounded to.
MOST_PLACES = 12
_STEPS = {places: Decimal(1).scaleb(-places) for places in range(MOST_PLACES + 1)}


def half_even(value: Decimal, places: int) -> Decimal:
    """The nearest to ``value``, in its unit, of ``places`` decimals, ties to even (rule of ASME B1.1 tables, reference:
    FED-STD-H28/2B).
    """
    return value.quantize(_STEPS[places], rounding=ROUND_HALF_EVEN)


def half_up(value: Decimal, places: int) -> Decimal:
    """The nearest to ``value``, in its unit, of ``places`` decimals, ties away from zero (rule of ISO 2857 tap
    deviations).
    """
    return value.quantize(_STEPS[places], rounding=ROUND_HALF_UP)


def upward(value: Decimal, places: int) -> Decimal:
    """Smallest value of ``places`` decimals that is not below ``value``, in its unit."""
    return value.quantize(_STEPS[places], rounding=ROUND_CEILING)


def downward(value: Decimal, places: int) -> Decimal:
    """Largest value of ``places`` decimals that is not above ``value``, in its unit."""
    return value.quantize(_STEPS[places], rounding=ROUND_FLOOR)


def whole_um(value_mm: Decimal) -> Decimal:
    """``value_mm`` rounded to whole micrometres, in mm, ties to even (ISO 965-1 practice)."""
    return half_even(value_mm, 3)


def plain(value: Decimal) -> str:
    """Text of ``value``, in whatever unit, without exponent, needless zeros (``6.80`` -> ``6.8``) or sign of zero."""
    text = format(abs(value) if value.is_zero() else value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text
