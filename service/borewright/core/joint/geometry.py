"""A thread and its screw as figures: what the areas of a tapped joint need, at minimum material, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from math import radians, tan

from borewright.core import standards
from borewright.core.caches import cached
from borewright.core.model import MM_PER_INCH, Diameters, Thread

from . import shear_areas

_SIXTY = Decimal(60)


@dataclass(frozen=True, slots=True)
class Joint:
    """What of a thread the areas need, in millimetres."""

    diameter_mm: float
    pitch_mm: float
    tan_half_angle: float
    stress_area_mm2: float
    screw_major_min_mm: float
    screw_pitch_min_mm: float
    pitch_max_mm: float
    minor_basic_mm: float
    minor_max_mm: float
    mating_class: str | None

    def internal_per_mm(self) -> float:
        """Internal shear area a millimetre of engagement."""
        return shear_areas.internal_area(
            length_mm=1.0,
            pitch_mm=self.pitch_mm,
            screw_major_min_mm=self.screw_major_min_mm,
            pitch_diameter_max_mm=self.pitch_max_mm,
            tan_half_angle=self.tan_half_angle,
        )

    def external_per_mm(self, minor_max_mm: float) -> float:
        """External shear area in mm2 a millimetre of engagement, in a hole of ``minor_max_mm``."""
        return shear_areas.external_area(
            length_mm=1.0,
            pitch_mm=self.pitch_mm,
            minor_max_mm=minor_max_mm,
            screw_pitch_min_mm=self.screw_pitch_min_mm,
            tan_half_angle=self.tan_half_angle,
        )


@cached(32)
def joint(thread: Thread, screw_class: str | None) -> Joint | None:
    """The figures of ``thread`` and its mate of ``screw_class`` (None = the usual one), None where they are not all
    held.

    Source: limits of the thread and its mate; FED-STD-H28/2B (1991) Table II.B.1 (1) for the stress area.
    """
    external = _external(thread, screw_class)
    inside = thread.internal
    if external is None or thread.taper is not None or inside.minor_diameter.max is None:
        return None
    major, pitch = external.major_diameter.min, external.pitch_diameter.min
    if major is None or pitch is None or inside.pitch_diameter.max is None:
        return None
    area = thread.tensile_stress_area
    if area is None and thread.thread_angle != _SIXTY:
        return None
    diameter_mm, pitch_mm = in_mm(thread.nominal_diameter, thread), in_mm(thread.pitch, thread)
    if area is not None:
        area_mm2 = float(area * MM_PER_INCH**2 if thread.unit == "in" else area)
    else:
        area_mm2 = shear_areas.tensile_stress_area(major_mm=diameter_mm, pitch_mm=pitch_mm)
    return Joint(
        diameter_mm=diameter_mm,
        pitch_mm=pitch_mm,
        tan_half_angle=tan(radians(float(thread.thread_angle) / 2)),
        stress_area_mm2=area_mm2,
        screw_major_min_mm=in_mm(major, thread),
        screw_pitch_min_mm=in_mm(pitch, thread),
        pitch_max_mm=in_mm(inside.pitch_diameter.max, thread),
        minor_basic_mm=in_mm(thread.basic.minor_diameter, thread),
        minor_max_mm=in_mm(inside.minor_diameter.max, thread),
        mating_class=screw_class or thread.mating_class,
    )


def _external(thread: Thread, screw_class: str | None) -> Diameters | None:
    """Limits of the screw: of the thread's own mate, or of the class that the request names."""
    if (
        screw_class is None
        or thread.external is None
        or screw_class.casefold() == (thread.mating_class or "").casefold()
    ):
        return thread.external
    return standards.external_limits(thread, thread_class=screw_class)


def in_mm(length: Decimal, thread: Thread) -> float:
    """A length in the thread's unit as millimetres.

    Source: inch of 25.4 mm.
    """
    return float(length * MM_PER_INCH if thread.unit == "in" else length)
