"""Areas of a symmetrical screw thread that carry load, and the engagement that lets the screw break first.

All lengths are millimetres and all areas square millimetres. The functions take one pitch ``pitch_mm`` = 1/n; the
number in brackets is that of FED-STD-H28/2B, Table II.B.1. ``tan_half_angle`` is 0.57735 for a 60 degree thread.
"""

from __future__ import annotations

from math import pi

TAN_30 = 0.5773502691896258


def tensile_stress_area(*, major_mm: float, pitch_mm: float) -> float:
    """Tensile stress area in mm2 of a 60 degree screw of ``major_mm`` and ``pitch_mm``: pi/4 (D - 0.9743 P)^2 (1).

    Source: FED-STD-H28/2B (1991) Table II.B.1 (1); valid to 180 ksi.
    """
    return pi / 4 * (major_mm - 0.9743 * pitch_mm) ** 2


def tensile_stress_area_iso(*, major_mm: float, pitch_mm: float) -> float:
    """Tensile stress area in mm2 of an ISO metric screw of ``major_mm`` and ``pitch_mm``: pi/4 (D - 0.938194 P)^2.

    Source: ISO 898-1.
    """
    return pi / 4 * (major_mm - 0.938194 * pitch_mm) ** 2


def internal_area(
    *,
    length_mm: float,
    pitch_mm: float,
    screw_major_min_mm: float,
    pitch_diameter_max_mm: float,
    tan_half_angle: float = TAN_30,
) -> float:
    """Shear area in mm2 of the internal thread at minimum material, at the crest of the smallest screw (2a).

    It does not depend on the minor diameter, that is on the drill.

    Args: ``length_mm`` of complete thread; ``pitch_mm``; ``screw_major_min_mm``; ``pitch_diameter_max_mm`` of the hole;
        ``tan_half_angle`` of the flanks.
    Source: FED-STD-H28/2B (1991) Table II.B.1 (2a).
    """
    flank = tan_half_angle * (screw_major_min_mm - pitch_diameter_max_mm) / pitch_mm
    return pi * length_mm * screw_major_min_mm * (0.5 + flank)


def external_area(
    *,
    length_mm: float,
    pitch_mm: float,
    minor_max_mm: float,
    screw_pitch_min_mm: float,
    tan_half_angle: float = TAN_30,
) -> float:
    """Shear area in mm2 of the external thread at minimum material, at the largest minor diameter of the hole (4a).

    Args: ``length_mm`` of complete thread; ``pitch_mm``; ``minor_max_mm`` of the hole; ``screw_pitch_min_mm``;
        ``tan_half_angle`` of the flanks.
    Source: FED-STD-H28/2B (1991) Table II.B.1 (4a).
    """
    flank = tan_half_angle * (screw_pitch_min_mm - minor_max_mm) / pitch_mm
    return pi * length_mm * minor_max_mm * (0.5 + flank)


def internal_area_simple(*, length_mm: float, pitch_diameter_mm: float) -> float:
    """Simplified internal shear area in mm2 from 0.250 in: pi ``pitch_diameter_mm`` (3/4) ``length_mm`` (3).

    Source: FED-STD-H28/2B (1991) Table II.B.1 (3).
    """
    return pi * pitch_diameter_mm * 0.75 * length_mm


def external_area_simple(*, length_mm: float, pitch_diameter_mm: float) -> float:
    """Simplified external shear area in mm2: pi ``pitch_diameter_mm`` (5/8) ``length_mm`` (5).

    Source: FED-STD-H28/2B (1991) Table II.B.1 (5).
    """
    return pi * pitch_diameter_mm * 0.625 * length_mm


def external_area_basic(*, length_mm: float, minor_mm: float) -> float:
    """External shear area at basic size in mm2: pi ``minor_mm`` (3/4) ``length_mm`` (6b).

    Source: FED-STD-H28/2B (1991) Table II.B.1 (6b).
    """
    return pi * minor_mm * 0.75 * length_mm


def combined_area(*, length_mm: float, pitch_diameter_mm: float) -> float:
    """Shear area in mm2 when both threads strip together: pi ``pitch_diameter_mm`` ``length_mm`` / 2 (7).

    Source: FED-STD-H28/2B (1991) Table II.B.1 (7).
    """
    return pi * pitch_diameter_mm * length_mm / 2


def engagement_equal(*, stress_area_mm2: float, pitch_diameter_mm: float) -> float:
    """Engagement in mm for screw and part of equal strength: 4 ``stress_area_mm2`` / (pi ``pitch_diameter_mm``) (13).

    Source: FED-STD-H28/2B (1991) Table II.B.2 (13).
    """
    return 4 * stress_area_mm2 / (pi * pitch_diameter_mm)


def engagement_external(*, stress_area_mm2: float, area_per_length_mm: float) -> float:
    """Engagement where the screw's thread governs: 2 As/(ASs/LE) (14), with (6b) instead of (4a) it is (15).

    Args:
        stress_area_mm2: tensile stress area, less the bore of a hollow screw.
        area_per_length_mm: external shear area a millimetre of engagement.

    Source: FED-STD-H28/2B (1991) Table II.B.2 (14), (15).
    """
    return 2 * stress_area_mm2 / area_per_length_mm


def engagement_internal(*, length_basic_mm: float, area_ratio: float, strength_ratio: float) -> float:
    """Engagement in mm where the part's thread governs: (15) * R1/R2 (16).

    Args:
        length_basic_mm: engagement by (15).
        area_ratio: R1 = (6b)/(2a).
        strength_ratio: R2 = tensile strength of the part over that of the screw.

    Source: FED-STD-H28/2B (1991) Table II.B.2 (8), (9), (16).
    """
    return length_basic_mm * area_ratio / strength_ratio
