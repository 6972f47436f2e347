"""The fields of a finish: contradictions refused, lengths brought into the thread's unit and checked."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.errors import Fault, FinishError
from borewright.core.model import FinishInput, Length, LengthRange, Range, Unit
from borewright.core.practice import sizes
from borewright.core.rounding import half_even

from .finish_text import FinishReading, read
from .products import CONVERTED_PLACES
from .thickness import Thickness

NO_LENGTH = Range(Decimal(0), Decimal(0))
_READABLE = Decimal(1000)
_THICKEST = sizes("thickest_coat")


def refuse_contradictions(finish: FinishInput) -> None:
    """Refuse fields that exclude each other and an empty finish.

    Raises:
        FinishError: ``finish_conflict``, ``value_out_of_range``, ``finish_thickness_missing``.

    Source: the request contract.
    """
    named = finish.specification is not None or finish.finish_class is not None
    if finish.text is not None and named:
        raise FinishError("finish_conflict", "Give the finish as text or as fields, not both.", pointer="/finish")
    fraction = finish.growth_fraction
    if fraction is not None and not 0 <= fraction <= 1:
        raise FinishError(
            "value_out_of_range",
            "The growth fraction is the part of the thickness that lies outside the old surface: 0 to 1.",
            pointer="/finish/growth_fraction",
            allowed=("0 to 1",),
        )
    nothing = finish.text is None and not named and finish.thickness is None and finish.heat_treat_growth is None
    if nothing and not finish.masked:
        raise FinishError(
            "finish_thickness_missing",
            "The finish names no specification and gives neither a thickness nor a growth.",
            pointer="/finish",
            allowed=("specification", "thickness", "heat_treat_growth", "masked"),
        )


def reading(finish: FinishInput, unit: Unit, on_steel: bool) -> FinishReading | None:
    """The specification or text of ``finish`` as read with bare figures in ``unit``, None where it gives figures only.

    Args: ``on_steel`` whether the part is steel.

    Raises:
        FinishError: as :func:`read`, pointed at the field that was read.

    Source: finishes.csv.
    """
    parts = (finish.text,) if finish.text is not None else (finish.specification, finish.finish_class)
    text = " ".join(part for part in parts if part is not None)
    if all(part is None for part in parts):
        return None
    free = finish.thickness is not None or finish.masked or finish.heat_treat_growth is not None
    try:
        return read(text, unit=unit, bare=finish.text_unit, on_steel=on_steel, thickness_given=free)
    except FinishError as refused:
        refused.faults = tuple(_pointed(fault, finish) for fault in refused.faults)
        raise


def _pointed(fault: Fault, finish: FinishInput) -> Fault:
    if finish.text is not None:
        return replace(fault, pointer="/finish")
    where = fault.pointer if finish.finish_class is not None else ""
    return replace(fault, pointer="/finish" + (where or "/specification"))


def stated(finish: FinishInput, reading: FinishReading | None, unit: Unit) -> Range | None:
    """A thickness the caller gave, in the thread's ``unit``, in the field of ``finish`` or in the text of its
    ``reading``.

    Raises:
        FinishError: ``finish_conflict``, ``value_out_of_range``, ``range_inconsistent``.

    Source: the request.
    """
    written = reading.thickness if reading is not None else None
    if finish.thickness is not None and written is not None:
        raise FinishError(
            "finish_conflict",
            "The thickness stands in the text and in a field; give it once.",
            pointer="/finish/thickness",
        )
    field = finish.thickness
    if field is not None:
        return _checked(_in_unit(field, unit, "/finish/thickness"), unit, "/finish/thickness")
    return None if written is None else _checked(_in_unit(_lengths(written), unit, "/finish"), unit, "/finish")


def _lengths(written: Thickness) -> LengthRange:
    return LengthRange(
        None if written.min is None else Length(written.min, written.unit),
        None if written.max is None else Length(written.max, written.unit),
    )


def _in_unit(given: LengthRange, unit: Unit, pointer: str) -> Range:
    if any(end is not None and abs(end.value) > _READABLE for end in (given.min, given.max)):
        raise FinishError("value_out_of_range", "That is no thickness or growth on a thread.", pointer=pointer)
    ends = (
        None if end is None else end.value if end.unit in (None, unit) else _converted(end, unit)
        for end in (given.min, given.max)
    )
    return Range(*ends)


def _converted(length: Length, unit: Unit) -> Decimal:
    return half_even(length.to(unit), CONVERTED_PLACES[unit])


def _checked(given: Range, unit: Unit, pointer: str) -> Range:
    limit = _THICKEST[unit]
    low, high = given.min, given.max
    if low is None and high is None:
        raise FinishError("finish_thickness_missing", "The thickness has neither end.", pointer=pointer)
    if any(end is not None and not 0 <= end <= limit for end in (low, high)) or not (high or low):
        raise FinishError(
            "value_out_of_range",
            f"A coat on a thread is thicker than 0 and at most {limit} {unit}.",
            pointer=pointer,
            allowed=(f"0 to {limit} {unit}",),
        )
    if low is not None and high is not None and low > high:
        raise FinishError("range_inconsistent", "The least thickness is above the greatest.", pointer=pointer)
    return given


def heat(given: LengthRange | None, unit: Unit) -> Range:
    """Growth by heat treatment on diameter as ``given``, in ``unit``; an open end is the same as the other.

    Raises:
        FinishError: ``value_out_of_range``, ``range_inconsistent``.

    Source: the request; no published growth is held.
    """
    if given is None:
        return NO_LENGTH
    read_as = _in_unit(given, unit, "/finish/heat_treat_growth")
    ends = [end for end in (read_as.min, read_as.max) if end is not None]
    if not ends or max(map(abs, ends)) > _THICKEST[unit]:
        raise FinishError(
            "value_out_of_range",
            f"Growth by heat treatment is given on diameter, within {_THICKEST[unit]} {unit} either way.",
            pointer="/finish/heat_treat_growth",
        )
    low, high = ends[0], ends[-1]
    if low > high:
        raise FinishError(
            "range_inconsistent", "The least growth is above the greatest.", pointer="/finish/heat_treat_growth"
        )
    return Range(low, high)
