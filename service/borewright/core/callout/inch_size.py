"""Inch sizes as people write them: ``#10``, ``No. 10``, ``3/8``, ``1 1/4``, ``1-1/4``, ``.250``, ``10 (.190)``."""

from __future__ import annotations

import re
from decimal import Decimal
from math import gcd

from borewright.core.errors import CalloutError
from borewright.core.rounding import half_even, plain

from .text import NUMBER, number

#: Inch size without capturing groups, for the patterns of the readers (upper case text).
SIZE = (
    rf"(?:(?:#|NO\.?) ?[0-9]{{1,2}}(?: ?\( ?{NUMBER} ?\))?"
    r"|[0-9]{1,2}(?: ?- ?| )[0-9]{1,2}/[0-9]{1,3}"
    r"|[0-9]{1,3}/[0-9]{1,3}"
    rf"|{NUMBER}(?: ?\( ?{NUMBER} ?\))?)"
)

_FORMS = re.compile(
    rf"(?:(?:(?P<sign>#|NO\.?) ?)?(?P<integer>[0-9]{{1,2}})(?: ?\( ?(?P<beside>{NUMBER}) ?\))?"
    r"|(?:(?P<whole>[0-9]{1,2})(?: ?- ?| ))?(?P<numerator>[0-9]{1,3})/(?P<denominator>[0-9]{1,3})"
    rf"|(?P<decimal>{NUMBER}))"
)
_DENOMINATORS = (2, 4, 8, 16, 32, 64)


def _not_a_size(detail: str) -> CalloutError:
    return CalloutError("callout_unreadable", detail, pointer="/size")


def screw_diameter_in(screw: int) -> Decimal:
    """Basic major diameter of a numbered screw size, in inches (ASME B1.1: 0.060 + 0.013 a number)."""
    return Decimal("0.060") + Decimal("0.013") * screw


class InchSize:
    """An inch size as written: a numbered screw, a fraction, a decimal, or an integer that can be either."""

    __slots__ = ("diameter_in", "label", "screw", "written_as")

    def __init__(
        self, label: str, diameter_in: Decimal | None, *, screw: int | None = None, written_as: str = "fraction"
    ) -> None:
        self.label = label
        self.diameter_in = diameter_in
        self.screw = screw
        self.written_as = written_as


def read_inch_size(text: str) -> InchSize:
    """Read an inch size.

    Args:
        text: the size alone, upper case.

    Returns:
        For a bare integer up to 12 both readings stay open: ``screw`` and ``diameter_in`` are set.

    Raises:
        CalloutError: no inch size, a fraction that is not in lowest terms or not of 2, 4 ... 64 parts.
    """
    found = _FORMS.fullmatch(text)
    if found is None:
        raise _not_a_size(f"{text!r} is not an inch size: write 3/8, 1 1/4, #10 or .375.")
    if found["integer"]:
        return _integer(found)
    if found["denominator"]:
        return _fraction(found["whole"], int(found["numerator"]), int(found["denominator"]))
    value = number(found["decimal"])
    return InchSize(plain(value), half_even(value, 4), written_as="decimal")


def _integer(found: re.Match[str]) -> InchSize:
    value = int(found["integer"])
    if found["integer"] == "00":
        raise CalloutError(
            "thread_size_unknown",
            "00 is a size of its own below #0 (0.047 in, common practice): ASME B1.1 begins with #0 (0.060 in), and no"
            " figures of smaller screw sizes are held.",
            pointer="/size",
            did_you_mean=("#0-80",),
        )
    if not found["sign"] and not found["beside"]:
        screw = value if value <= 12 else None
        return InchSize(str(value), Decimal(value), screw=screw, written_as="integer")
    if found["beside"] and abs(number(found["beside"]) - screw_diameter_in(value)) >= Decimal("0.001"):
        raise _not_a_size(f"#{value} is {screw_diameter_in(value)} in, not {found['beside']}.")
    return InchSize(f"#{value}", None, screw=value, written_as="screw")


def _fraction(whole: str | None, numerator: int, denominator: int) -> InchSize:
    if denominator not in _DENOMINATORS or not numerator:
        raise _not_a_size("An inch fraction is of 2, 4, 8, 16, 32 or 64 parts and not zero.")
    if numerator not in range(denominator) or gcd(numerator, denominator) > 1:
        raise CalloutError(
            "callout_ambiguous",
            f"{numerator}/{denominator} is not a proper fraction in lowest terms, so what is meant is not certain.",
            pointer="/size",
            did_you_mean=_readings(whole, numerator, denominator),
        )
    label = f"{int(whole)} {numerator}/{denominator}" if whole and int(whole) else f"{numerator}/{denominator}"
    value = Decimal(int(whole or 0)) + Decimal(numerator) / denominator
    return InchSize(label, half_even(value, 4))


def _readings(whole: str | None, numerator: int, denominator: int) -> tuple[str, ...]:
    """Sizes that an odd fraction may have meant: 10/32 a screw size and pitch, 11/4 a lost blank, 4/8 plainly 1/2."""
    inches, rest = divmod(numerator, denominator)
    inches += int(whole or 0)
    divisor = gcd(rest, denominator)
    fraction = f"{rest // divisor}/{denominator // divisor}" if rest else ""
    reduced = " ".join(part for part in (str(inches) if inches else "", fraction) if part)
    if whole:
        return (reduced,)
    screw = f"#{numerator}-{denominator}" if numerator in (6, 8, 10, 12) and denominator == 32 else ""
    lost, digit = divmod(numerator, 10)
    split = (
        f"{lost} {digit}/{denominator}" if lost and digit in range(denominator) and gcd(digit, denominator) == 1 else ""
    )
    return tuple(size for size in (screw, split, reduced) if size)
