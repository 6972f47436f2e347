"""Limits of size of Unified threads, internal and external, each figure with the line that derives it (inches).

Two rules round the minor diameter of an internal thread. The table rule rounds minimum and tolerance to 4 decimals
before anything else and is how the standard's tables were made; the rule of ASME B1.30-2002 rounds once, at the end.
The table rule is used for threads whose limits the standard tabulates, the other for all other special threads and
by the edition of 2019 for every thread. That edition rounds ties up: the printed 1-8 UNC-2A (.91005 to .9101) shows it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import BasicDiameters, Diameters, Range, Step
from borewright.core.requests import Edition
from borewright.core.rounding import half_even, half_up

from .tolerance import (
    CLASS_FACTORS,
    Engagement,
    Form,
    MinorTolerance,
    major_tolerance,
    minor_tolerance,
    printed_allowance,
    printed_tolerance,
)

_DOCUMENT: dict[Edition, str] = {"1989": "ASME B1.1 (1982/1989 table values)", "2019": "ASME B1.1 (2019)"}
_PROFILE = "section 10.1, rounding of ASME B1.30-2002"
_TOLERANCE = "section 5, Td2 of class 2A"
_LIMITS = "section 8"
_MINOR = {
    "table": "Tables 39 and 40, rounded as the tables are (FED-STD-H28/2B Tables II.A.3 and II.A.4)",
    "b1_30": "formulas, rounded once after ASME B1.30-2002 3.1.3",
}
#: Smallest size whose minor diameter is rounded to 0.001 in (ASME B1.30-2002 3.1.3).
_THREE_DECIMALS_FROM = Decimal("0.138")
_MINIMUM_TEXT = {
    ("table", True): "half_even(half_even(D - half_even(1.08253175 * P, 6), 4), 3)",
    ("table", False): "half_even(D - half_even(1.08253175 * P, 6), 4)",
    ("b1_30", True): "half_even(D - half_even(1.08253175 * P, 6), 3)",
    ("b1_30", False): "half_even(D - half_even(1.08253175 * P, 6), 4)",
}
_MAXIMUM_TEXT = {
    ("table", True): "half_even(half_even(D - half_even(1.08253175 * P, 6), 4) + half_even(TD1, 4), 3)",
    ("table", False): "half_even(D - half_even(1.08253175 * P, 6), 4) + half_even(TD1, 4)",
    ("b1_30", True): "half_even(D - half_even(1.08253175 * P, 6) + half_even(TD1, 6), 3)",
    ("b1_30", False): "half_even(D - half_even(1.08253175 * P, 6) + half_even(TD1, 6), 4)",
}


@dataclass(frozen=True, slots=True)
class Case:
    """One thread as the formulas of an edition see it. ``rule`` rounds the minor diameter: ``table`` or ``b1_30``."""

    diameter_in: Decimal
    profile: Form
    engagement: Engagement
    tolerance_diameter_in: Decimal
    tolerance_length_in: Decimal
    td2_in: Decimal
    rule: str
    minor_ratio: Decimal
    edition: Edition

    def nearest(self, value: Decimal, places: int) -> Decimal:
        """``value`` in inches rounded to ``places`` decimals as the edition rounds: ties to even
        (1989) or up (2019).
        """
        return half_up(value, places) if self.edition == "2019" else half_even(value, places)

    def step(
        self, quantity: str, formula: str, inputs: Mapping[str, object], value: Decimal | None, place: str
    ) -> Step:
        """A line of the derivation in inches: ``quantity`` is ``value`` by ``formula`` over ``inputs`` at ``place``,
        its rounding and its document those of the edition.
        """
        text = formula.replace("half_even", "half_up") if self.edition == "2019" else formula
        return Step(quantity, text, inputs, value, "in", f"{_DOCUMENT[self.edition]} {place}")


def basic(case: Case, steps: list[Step], *, j_form: bool = False) -> BasicDiameters:
    """Basic diameters of ``case`` in inches, to 4 decimals, noted in ``steps``; ``j_form``: the larger minor diameter
    of UNJ.

    Source: ASME B1.1 section 10.1; abstract of AS8879D for the thread height of UNJ.
    """
    size, profile = case.diameter_in, case.profile
    pitch_diameter = case.nearest(size - profile.pitch_depth_in, 4)
    minor_diameter = case.nearest(size - (profile.j_depth_in if j_form else profile.minor_depth_in), 4)
    inputs = {"D": size, "P": profile.pitch_in}
    steps += (
        case.step("P", "half_even(1 / n, 8)", {"n": profile.tpi}, profile.pitch_in, _PROFILE),
        case.step(
            "basic.pitch_diameter",
            "half_even(D - half_even(0.64951905 * P, 6), 4)",
            inputs,
            pitch_diameter,
            _PROFILE,
        ),
        case.step(
            "basic.minor_diameter",
            f"half_even(D - half_even({'0.97427858' if j_form else '1.08253175'} * P, 6), 4)",
            inputs,
            minor_diameter,
            _PROFILE,
        ),
        case.step(
            "Td2",
            "half_even(0.0015 * cbrt(D_tolerance) + 0.0015 * sqrt(LE) + 0.015 * P ** (2 / 3), 6)",
            {"D_tolerance": case.tolerance_diameter_in, "LE": case.tolerance_length_in, "P": profile.pitch_in},
            case.td2_in,
            _TOLERANCE,
        ),
    )
    return BasicDiameters(size, pitch_diameter, minor_diameter)


def class_tolerance(case: Case, thread_class: str, steps: list[Step], *, places: int) -> Decimal:
    """Pitch-diameter tolerance in inches of ``thread_class`` for the case's engagement: 6 decimals inside, 4 outside.

    The tables of external limits were made from tolerances of 4 decimals (ties to even); those of internal limits from
    tolerances of 6. The two differ at rounding ties only.

    Args: ``places`` of decimals; noted in ``steps``.
    """
    factor = CLASS_FACTORS[thread_class]
    value = case.nearest(factor * case.engagement.pitch_factor * case.td2_in, places)
    steps.append(
        case.step(
            f"pitch_tolerance_{thread_class}",
            f"half_even(class_factor * engagement_factor * Td2, {places})",
            {"class_factor": factor, "engagement_factor": case.engagement.pitch_factor, "Td2": case.td2_in},
            value,
            f"{_TOLERANCE}; {case.engagement.limits}",
        )
    )
    return value


def internal(case: Case, thread_class: str, known: BasicDiameters, steps: list[Step]) -> Diameters:
    """Limits in inches of an internal thread of ``case`` in ``thread_class`` 1B, 2B or 3B, noted in ``steps``.

    Args: ``known`` basic diameters.
    Source: ASME B1.1 sections 5 and 8; ASME B1.30-2002 3.1.3 for the decimals of the minor diameter.
    """
    return Diameters(
        Range(known.major_diameter, None),
        internal_pitch(case, thread_class, known, steps),
        _internal_minor(case, thread_class, known, steps),
    )


def internal_pitch(case: Case, thread_class: str, known: BasicDiameters, steps: list[Step]) -> Range:
    """Pitch-diameter limits in inches of an internal thread of ``case`` in ``thread_class``: ``known`` basic, and basic
    plus the class tolerance. Noted in ``steps``. Source: ASME B1.1 8.
    """
    tolerance = class_tolerance(case, thread_class, steps, places=6)
    pitch_max = case.nearest(known.pitch_diameter + tolerance, 4)
    steps.append(
        case.step(
            "internal.pitch_diameter.max",
            "half_even(basic_pitch_diameter + tolerance, 4)",
            {"basic_pitch_diameter": known.pitch_diameter, "tolerance": tolerance},
            pitch_max,
            _LIMITS,
        )
    )
    return Range(known.pitch_diameter, pitch_max)


def _internal_minor(case: Case, thread_class: str, known: BasicDiameters, steps: list[Step]) -> Range:
    size = case.diameter_in
    tolerance = minor_tolerance(thread_class, case.profile, diameter_in=size, ratio=case.minor_ratio)
    if case.rule == "table":
        exact_min = known.minor_diameter
        exact_max = exact_min + case.nearest(tolerance.value_in, 4)
    else:
        exact_min = size - case.profile.minor_depth_in
        exact_max = exact_min + case.nearest(tolerance.value_in, 6)
    coarse = size >= _THREE_DECIMALS_FROM
    smallest = case.nearest(exact_min, 3 if coarse else 4)
    largest = case.nearest(exact_max, 3 if coarse and thread_class != "3B" else 4)
    if thread_class == "3B":
        smallest = case.nearest(smallest, 4)  # keeps the digit that the standard appends
    _record_minor(case, thread_class, tolerance, Range(smallest, largest), steps)
    return Range(smallest, largest)


def _record_minor(case: Case, thread_class: str, tolerance: MinorTolerance, found: Range, steps: list[Step]) -> None:
    coarse = case.diameter_in >= _THREE_DECIMALS_FROM
    pitch, size, source = case.profile.pitch_in, case.diameter_in, _MINOR[case.rule]
    steps += (
        case.step(
            "TD1",
            tolerance.formula,
            {"P": pitch, "D": size, "ratio": case.minor_ratio},
            tolerance.value_in,
            "section 5.8.2",
        ),
        case.step(
            "internal.minor_diameter.min",
            _MINIMUM_TEXT[case.rule, coarse],
            {"D": size, "P": pitch},
            found.min,
            source,
        ),
        case.step(
            "internal.minor_diameter.max",
            _MAXIMUM_TEXT[case.rule, coarse and thread_class != "3B"],
            {"D": size, "P": pitch, "TD1": tolerance.value_in},
            found.max,
            source,
        ),
    )


def external(case: Case, thread_class: str, steps: list[Step]) -> Diameters:
    """Limits in inches of an external thread of ``case`` in ``thread_class`` 1A, 2A or 3A, noted in ``steps``; the
    minor diameter is the UN reference maximum.

    Source: ASME B1.1 sections 5 and 8; printed cells that leave the formulas are stored (tables/unified_exceptions).
    """
    profile = case.profile
    largest = case.diameter_in - _allowance(case, thread_class, steps)
    tolerance = major_tolerance(profile, factor=Decimal("0.090" if thread_class == "1A" else "0.060"))
    smallest = case.nearest(largest - tolerance, 4)
    pitch_max = case.nearest(largest - profile.pitch_depth_in, 4)
    pitch_tolerance = _external_tolerance(case, thread_class, steps)
    pitch_min = case.nearest(pitch_max - pitch_tolerance, 4)
    minor_max = case.nearest(largest - profile.minor_depth_in, 4)
    found = Diameters(Range(smallest, largest), Range(pitch_min, pitch_max), Range(None, minor_max))
    _record_external(case, thread_class, found, pitch_tolerance, steps)
    return found


def _allowance(case: Case, thread_class: str, steps: list[Step]) -> Decimal:
    """Allowance es: 0.3 Td2 for 1A and 2A at the standard engagement, nothing for 3A."""
    if thread_class == "3A":
        return Decimal("0.0000")
    printed = _printed(case, printed_allowance, thread_class)
    if printed is not None:
        steps.append(case.step("es", "table", {}, printed, "limits table: printed off the formula"))
        return printed
    value = case.nearest(Decimal("0.300") * case.td2_in, 4)
    steps.append(case.step("es", "half_even(0.300 * Td2, 4)", {"Td2": case.td2_in}, value, "Table 32"))
    return value


def _printed(case: Case, cell: Callable[..., Decimal | None], thread_class: str) -> Decimal | None:
    """A cell of the 1982/1989 tables that leaves the formulas; no such cell of 2019 was seen."""
    if case.edition == "2019":
        return None
    return cell(thread_class, diameter_in=case.diameter_in, tpi=case.profile.tpi)


def _external_tolerance(case: Case, thread_class: str, steps: list[Step]) -> Decimal:
    printed = _printed(case, printed_tolerance, thread_class)
    if printed is None or case.engagement.pitch_factor != 1:
        return class_tolerance(case, thread_class, steps, places=4 if case.edition == "1989" else 6)
    source = "limits table: printed off the formula"
    steps.append(case.step(f"pitch_tolerance_{thread_class}", "table", {}, printed, source))
    return printed


def _record_external(case: Case, thread_class: str, found: Diameters, tolerance: Decimal, steps: list[Step]) -> None:
    largest = found.major_diameter.max or case.diameter_in
    pitch = case.profile.pitch_in
    steps += (
        case.step(
            "external.major_diameter.max",
            "D - es",
            {"D": case.diameter_in, "es": case.diameter_in - largest},
            largest,
            _LIMITS,
        ),
        case.step(
            "external.major_diameter.min",
            f"half_even(d_max - half_even({'0.090' if thread_class == '1A' else '0.060'} * P ** (2 / 3), 6), 4)",
            {"d_max": largest, "P": pitch},
            found.major_diameter.min,
            "Table 31",
        ),
        case.step(
            "external.pitch_diameter.max",
            "half_even(d_max - half_even(0.64951905 * P, 6), 4)",
            {"d_max": largest, "P": pitch},
            found.pitch_diameter.max,
            _LIMITS,
        ),
        case.step(
            "external.pitch_diameter.min",
            "half_even(d2_max - tolerance, 4)",
            {"d2_max": found.pitch_diameter.max, "tolerance": tolerance},
            found.pitch_diameter.min,
            _LIMITS,
        ),
        case.step(
            "external.minor_diameter.max",
            "half_even(d_max - half_even(1.08253175 * P, 6), 4)",
            {"d_max": largest, "P": pitch},
            found.minor_diameter.max,
            _PROFILE,
        ),
    )
