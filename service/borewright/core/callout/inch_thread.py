"""The shape that every inch system shares: size, then threads per inch or pitch and lead."""

from __future__ import annotations

import re
from decimal import Decimal

from borewright.core.errors import CalloutError
from borewright.core.practice import figure
from borewright.core.rounding import half_even, plain

from .inch_size import SIZE
from .text import NUMBER, SEPARATOR, number
from .thread_as_written import Written

_PITCH_SLACK = figure("pitch_slack_share")
_TPI = r"(?P<tpi>[0-9]{1,3}(?:[.,][0-9]{1,4})?)(?P<part> [1-7]/[248])?"
_PITCH_AND_LEAD = rf"(?P<pitch>{NUMBER}) ?P(?:{SEPARATOR}(?P<lead>{NUMBER}) ?L)?"

#: Size and pitch, upper case text; a reader adds what its system writes after them.
SHAPE = rf"(?P<size>{SIZE}(?: ?OD)?)(?:{SEPARATOR}(?:{_PITCH_AND_LEAD}|{_TPI}))?"


def fill(found: re.Match[str], written: Written) -> None:
    """Move the groups of :data:`SHAPE` that were ``found`` into ``written``."""
    written.size = found["size"]
    if found["pitch"]:
        written.pitch = number(found["pitch"])
        if found["lead"]:
            written.lead = number(found["lead"])
    elif found["tpi"]:
        written.threads_per_inch = number(found["tpi"]) + _fraction(found["part"])


def _fraction(part: str | None) -> Decimal:
    """``11 1/2`` and ``2 7/8`` threads per inch are written with a fraction."""
    if not part:
        return Decimal(0)
    over, under = part.split("/")
    return Decimal(over) / Decimal(under)


def threads_per_inch(written: Written, known: tuple[Decimal, ...] = ()) -> Decimal | None:
    """Threads per inch as written, or worked out of the pitch in inches; None where neither is.

    Args:
        written: the callout's fields.
        known: counts that a rounded pitch is taken for (0.0714 -> 14).

    Raises:
        CalloutError: a pitch of zero, or pitch and threads per inch that contradict each other.
    """
    if written.pitch is None:
        if written.threads_per_inch is not None and written.threads_per_inch <= 0:
            raise CalloutError(
                "value_out_of_range", "Threads per inch must be above zero.", pointer="/threads_per_inch"
            )
        return written.threads_per_inch
    if written.pitch <= 0:
        raise CalloutError("value_out_of_range", "The pitch must be above zero.", pointer="/pitch")
    count = 1 / written.pitch
    candidates = (*known, count.to_integral_value(), (2 * count).to_integral_value() / 2)
    near = next((one for one in candidates if abs(one - count) < _PITCH_SLACK * one), count)
    near = Decimal(plain(half_even(near, 4)))
    if written.threads_per_inch not in (None, near):
        raise CalloutError(
            "thread_field_unexpected", "Pitch and threads per inch contradict each other.", pointer="/pitch"
        )
    return near


def pitch_pointer(written: Written) -> str:
    """The field that an error about the pitch of ``written`` points at."""
    return "/pitch" if written.pitch is not None else "/threads_per_inch"
