"""Limits of size of M and MJ threads from deviations and tolerances, each figure with the line that derives it (mm).

Basic pitch and minor diameter are rounded to 0.001 mm first, then the whole micrometres are added.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import BasicDiameters, Diameters, Range, Status, Step, weakest
from borewright.core.rounding import half_even, whole_um

from . import tolerance as tolerance
from .tolerance import Cell, ToleranceClass

ISO_965_1 = "ISO 965-1 (1998/2013 line)"
_PROFILE = "ISO 68-1, ISO 724 basic profile, rounded to 0.001 mm"
_LIMITS = f"{ISO_965_1} limits from deviation and tolerance"
_ZERO = Cell(Decimal(0), "published")
_ZINC_TEXT = {"AZ": "300 + 20 * P", "AX": "220 * P - 20", "az": "-(300 + 20 * P)"}
#: Smallest stress-area text is of three figures (ISO 898-1 prints 5.03, 14.2, 58.0, 157).
_FIGURES = 3


@dataclass(frozen=True, slots=True)
class Profile:
    """What differs between M and MJ: the internal minor diameter lies ``minor_factor`` P below the major."""

    minor_factor: Decimal
    minor_text: str
    source: str


M_PROFILE = Profile(Decimal("1.082532"), "half_even(D - 1.082532 * P, 3)", _PROFILE)
MJ_PROFILE = Profile(
    Decimal("0.97428"), "half_even(D - 0.97428 * P, 3)", "ISO 5855-1 minor diameter, rounded to 0.001 mm"
)


@dataclass(frozen=True, slots=True)
class Found:
    """Limits and the status of the least certain figure behind pitch and crest diameter."""

    limits: Diameters
    pitch_status: Status
    crest_status: Status


def basic(profile: Profile, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal) -> BasicDiameters:
    """Basic diameters of ``profile`` at ``d_mm`` and ``pitch_mm``, to 0.001 mm, noted in ``steps``. Source: ISO 724
    (M), ISO 5855-1 (internal minor diameter of MJ).
    """
    inputs = {"D": d_mm, "P": pitch_mm}
    pitch_diameter = whole_um(d_mm - Decimal("0.649519") * pitch_mm)
    minor_diameter = whole_um(d_mm - profile.minor_factor * pitch_mm)
    steps += (
        Step("basic.pitch_diameter", "half_even(D - 0.649519 * P, 3)", inputs, pitch_diameter, "mm", _PROFILE),
        Step("basic.minor_diameter", profile.minor_text, inputs, minor_diameter, "mm", profile.source),
    )
    return BasicDiameters(whole_um(d_mm), pitch_diameter, minor_diameter)


def internal(
    chosen: ToleranceClass, known: BasicDiameters, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal
) -> Found:
    """Limits in mm of an internal thread of the class ``chosen`` at ``d_mm`` and ``pitch_mm``, noted in ``steps``.

    Args: ``known`` basic diameters.
    Raises: ThreadError ``thread_cell_undefined``. Source: ISO 965-1; ISO 965-5 for AZ and AX.
    """
    deviation = _lower_deviation(chosen.pitch_position, steps, pitch_mm=pitch_mm)
    pitch_tolerance = _read("TD2", chosen.pitch_grade, steps, d_mm=d_mm, pitch_mm=pitch_mm)
    minor_tolerance = _read("TD1", chosen.crest_grade, steps, d_mm=d_mm, pitch_mm=pitch_mm)
    limits = Diameters(
        Range(_add(known.major_diameter, deviation.value), None),
        _upward("internal.pitch_diameter", known.pitch_diameter, deviation.value, pitch_tolerance.value, steps),
        _upward("internal.minor_diameter", known.minor_diameter, deviation.value, minor_tolerance.value, steps),
    )
    return Found(
        limits,
        weakest((pitch_tolerance.status, deviation.status)),
        weakest((minor_tolerance.status, deviation.status)),
    )


def external(
    chosen: ToleranceClass,
    known: BasicDiameters,
    steps: list[Step],
    *,
    d_mm: Decimal,
    pitch_mm: Decimal,
    root: bool = True,
) -> Found:
    """Limits in mm of an external M thread at ``d_mm`` and ``pitch_mm``, noted in ``steps``. Minor diameter: the flat
    form's maximum, the round root's minimum (R = 0.125 P).

    Args: ``root`` False leaves the minor diameter open (the MJ root is another); ``chosen`` class; ``known`` basic
        diameters.

    Raises: ThreadError ``thread_cell_undefined``. Source: ISO 965-1; ISO 965-4 for az; ISO 68-1 for the root.
    """
    pitch_es = _upper_deviation(chosen.pitch_position, steps, pitch_mm=pitch_mm)
    major_es = pitch_es
    if chosen.crest_position != chosen.pitch_position:
        major_es = _upper_deviation(chosen.crest_position, steps, pitch_mm=pitch_mm)
    pitch_tolerance = _read("Td2", chosen.pitch_grade, steps, d_mm=d_mm, pitch_mm=pitch_mm)
    major_tolerance = _read("Td", chosen.crest_grade, steps, d_mm=d_mm, pitch_mm=pitch_mm)
    limits = Diameters(
        _downward("external.major_diameter", known.major_diameter, major_es.value, major_tolerance.value, steps),
        _downward("external.pitch_diameter", known.pitch_diameter, pitch_es.value, pitch_tolerance.value, steps),
        _root(pitch_es.value, pitch_tolerance.value, steps, d_mm=d_mm, pitch_mm=pitch_mm)
        if root
        else Range(None, None),
    )
    return Found(
        limits, weakest((pitch_tolerance.status, pitch_es.status)), weakest((major_tolerance.status, major_es.status))
    )


def root_diameter(position: str, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal) -> Decimal:
    """Nominal minor diameter d3 in mm of the external thread (R = H/6), the one of the stress area: d + es - 1.226869
    P.

    Args: ``position`` es; ``d_mm``; ``pitch_mm``; noted in ``steps``.
    """
    deviation = _upper_deviation(position, [], pitch_mm=pitch_mm).value
    value = whole_um(d_mm + deviation / 1000 - Decimal("1.226869") * pitch_mm)
    steps.append(
        Step(
            "external_reference.minor_diameter_d3",
            "half_even(d + es / 1000 - 1.226869 * P, 3)",
            {"d": d_mm, "es": deviation, "P": pitch_mm},
            value,
            "mm",
            _PROFILE,
        )
    )
    return value


def tensile_stress_area(steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal) -> Decimal:
    """Tensile stress area of the external thread in mm2: pi/4 (``d_mm`` - 0.938194 ``pitch_mm``)^2, three figures,
    whole from 100, noted in ``steps``.

    Source: ISO 898-1 nominal stress area (Machinery's Handbook form).
    """
    exact = Decimal("0.785398163") * (d_mm - Decimal("0.938194") * pitch_mm) ** 2
    places = max(_FIGURES - 1 - exact.adjusted(), 0)
    value = half_even(exact, places)
    steps.append(
        Step(
            "tensile_stress_area",
            f"half_even(0.785398163 * (d - 0.938194 * P) ** 2, {places})",
            {"d": d_mm, "P": pitch_mm},
            value,
            "mm2",
            "ISO 898-1 nominal stress area, three figures",
        )
    )
    return value


# --- pieces ------------------------------------------------------------------------------------------


def _add(value_mm: Decimal, deviation_um: Decimal) -> Decimal:
    return whole_um(value_mm + deviation_um / 1000)


def _read(quantity: str, grade: str, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal) -> Cell:
    found = tolerance.cell(quantity, grade, d_mm=d_mm, pitch_mm=pitch_mm)
    source = f"{ISO_965_1} table {quantity}, grade {grade}"
    steps.append(Step(f"{quantity}({grade})", "table", {"D": d_mm, "P": pitch_mm}, found.value, "um", source))
    return found


def _lower_deviation(position: str, steps: list[Step], *, pitch_mm: Decimal) -> Cell:
    if position == "H":
        return _ZERO
    return _deviation("EI", position, steps, pitch_mm=pitch_mm, source="ISO 965-5:1998 scope")


def _upper_deviation(position: str, steps: list[Step], *, pitch_mm: Decimal) -> Cell:
    if position == "h":
        return _ZERO
    return _deviation("es", position, steps, pitch_mm=pitch_mm, source="ISO 965-4:1998 scope")


def _deviation(quantity: str, position: str, steps: list[Step], *, pitch_mm: Decimal, source: str) -> Cell:
    if position in _ZINC_TEXT:
        found = Cell(tolerance.zinc_deviation_um(position, pitch_mm), "second_hand")
        step = Step(f"{quantity}({position})", _ZINC_TEXT[position], {"P": pitch_mm}, found.value, "um", source)
    else:
        found = tolerance.cell(quantity, position, d_mm=Decimal(1), pitch_mm=pitch_mm)
        place = f"{ISO_965_1} fundamental deviations, position {position}"
        step = Step(f"{quantity}({position})", "table", {"P": pitch_mm}, found.value, "um", place)
    steps.append(step)
    return found


def _upward(name: str, basic_mm: Decimal, deviation: Decimal, width: Decimal, steps: list[Step]) -> Range:
    low = _add(basic_mm, deviation)
    high = _add(low, width)
    steps += (
        Step(f"{name}.min", "basic + EI / 1000", {"basic": basic_mm, "EI": deviation}, low, "mm", _LIMITS),
        Step(f"{name}.max", "minimum + T / 1000", {"minimum": low, "T": width}, high, "mm", _LIMITS),
    )
    return Range(low, high)


def _downward(name: str, basic_mm: Decimal, deviation: Decimal, width: Decimal, steps: list[Step]) -> Range:
    high = _add(basic_mm, deviation)
    low = _add(high, -width)
    steps += (
        Step(f"{name}.max", "basic + es / 1000", {"basic": basic_mm, "es": deviation}, high, "mm", _LIMITS),
        Step(f"{name}.min", "maximum - T / 1000", {"maximum": high, "T": width}, low, "mm", _LIMITS),
    )
    return Range(low, high)


def _root(deviation: Decimal, width: Decimal, steps: list[Step], *, d_mm: Decimal, pitch_mm: Decimal) -> Range:
    """Minor diameter of the external thread: the root formulas start from the unrounded pitch diameter."""
    high = _add(whole_um(d_mm - M_PROFILE.minor_factor * pitch_mm), deviation)
    low = whole_um(d_mm + (deviation - width) / 1000 - Decimal("1.265544") * pitch_mm)
    inputs = {"d": d_mm, "P": pitch_mm, "es": deviation}
    steps += (
        Step(
            "external.minor_diameter.max",
            "half_even(d - 1.082532 * P, 3) + es / 1000",
            inputs,
            high,
            "mm",
            f"{_PROFILE}; flat root at H/4",
        ),
        Step(
            "external.minor_diameter.min",
            "half_even(d + (es - Td2) / 1000 - 1.265544 * P, 3)",
            {**inputs, "Td2": width},
            low,
            "mm",
            f"{_PROFILE}; round root R = 0.125 P (0.649519 P + 0.616025 P)",
        ),
    )
    return Range(low, high)
