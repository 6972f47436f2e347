"""A thread given field by field, brought to the same form as one that was read from text."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from borewright.core.errors import CalloutError, shortened
from borewright.core.model import Length, Unit
from borewright.core.requests import ThreadFields
from borewright.core.rounding import plain

if TYPE_CHECKING:  # its records are made of the readers
    from borewright.core.standards.system import Reader

from .series_meant import series_meant
from .text import MAX_LENGTH, normalise
from .thread_as_written import Written
from .vocabulary import HEADS, MODIFIED, WORDS

_HANDS = {"right": "right", "rh": "right", "left": "left", "lh": "left"}
_SERIES = re.compile(r"([0-9]{0,2}) ?([A-Z]+)")


def from_object(fields: ThreadFields, reader: Reader, default_unit: Unit | None) -> Written:
    """The ``fields`` that every system has, checked, in the unit of the system.

    Args:
        fields: the thread object of a request.
        reader: that of the system.
        default_unit: unit of bare lengths; None means the unit of the thread's own standard.

    Raises:
        CalloutError: pointer to the field, without ``/thread``.
    """
    # A square thread has no standard and no unit: by fields it is refused, for no field holds its depth.
    unit = reader.unit or "mm"
    written = Written(
        size=_text(fields.size, "/size"),
        threads_per_inch=_positive(fields.threads_per_inch, "/threads_per_inch"),
        pitch=_positive(_length(fields.pitch, unit, default_unit), "/pitch"),
        thread_class=_text(fields.thread_class, "/class") if fields.thread_class is not None else None,
        starts=fields.starts,
        lead=_positive(_length(fields.lead, unit, default_unit), "/lead"),
        unit=unit,
    )
    _take_hand(fields, written)
    _take_series(fields, reader.series(fields.system), written)
    return written


def _text(value: str, pointer: str) -> str:
    if len(value) > MAX_LENGTH:
        raise CalloutError("callout_too_long", f"At most {MAX_LENGTH} characters.", pointer=pointer)
    try:
        return normalise(value)
    except CalloutError as error:
        raise error.under(pointer) from None


def _length(value: Length | None, unit: Unit, default_unit: Unit | None) -> Decimal | None:
    if value is None:
        return None
    return replace(value, unit=value.unit or default_unit or unit).to(unit)


def _positive(value: Decimal | None, pointer: str) -> Decimal | None:
    if value is None:
        return None
    if not value.is_finite() or not Decimal("0.0001") <= value <= 10_000:
        raise CalloutError("value_out_of_range", "The value must be above zero and finite.", pointer=pointer)
    return Decimal(plain(value))


def _take_hand(fields: ThreadFields, written: Written) -> None:
    if fields.hand is None:
        return
    hand = _HANDS.get(fields.hand.casefold())
    if hand is None:
        raise CalloutError(
            "callout_unreadable",
            f"{shortened(fields.hand)!r} is not a hand.",
            pointer="/hand",
            allowed=("right", "left"),
        )
    written.hand = "left" if hand == "left" else "right"


def _take_series(fields: ThreadFields, known: Sequence[str], written: Written) -> None:
    """The series by its present name: ``NC`` -> ``UNC`` with the assumption that reading it makes; refused where it is
    one of another system than that whose series are ``known``.
    """
    if fields.series is None:
        return
    series = _text(fields.series, "/series")
    written.series = series
    found = _SERIES.fullmatch(series.upper())
    word = (WORDS.get(found[2]) or HEADS.get(found[2])) if found else None
    if found is None or word is None or word.series is None:
        return
    if word.system != fields.system and MODIFIED.get(fields.system) != word.system:
        raise CalloutError(
            "thread_series_mismatch",
            f"{series} is a series of the system {word.system}, not of {fields.system}.",
            pointer="/series",
            allowed=known,
            did_you_mean=series_meant(found[1] + word.series, known),
        )
    written.series = found[1] + word.series
    if word.assumption:
        written.assumptions.append(word.assumption)
