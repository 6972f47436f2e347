"""Whether a hole leaves a thread strong enough: the question that the choice of a least-torque drill asks."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Material, Thread
from borewright.core.requests import MatingScrew

from .geometry import in_mm, joint
from .strength import INCOMPLETE_PITCHES, SCREW_SHEAR, complete_length_of, grade_of, screw_shear


@dataclass(frozen=True, slots=True)
class StrongEnough:
    """Tells of a hole diameter whether the thread it leaves is strong enough; equal questions compare equal.

    A hole is strong enough when the screw's thread carries ``safety_factor`` times the smaller of what the screw and
    the tapped thread carry: a larger hole never weakens the tapped thread, so it is not blamed for it. A hole not
    larger than ``chart_hole`` is never refused: where even that one is too weak, the engagement is too short.
    """

    thread: Thread
    engagement: Decimal
    screw: MatingScrew
    part: Material | None
    safety_factor: float = 1.0
    chart_hole: Decimal | None = None

    def __call__(self, hole_diameter: Decimal) -> bool:
        """Whether a hole of that diameter (thread's unit) keeps the screw's thread from being the weakest member."""
        pair = joint(self.thread, self.screw.thread_class)
        if pair is None or (self.chart_hole is not None and hole_diameter <= self.chart_hole):
            return True
        length_mm = complete_length_of(
            pair,
            engagement_mm=in_mm(self.engagement, self.thread),
            incomplete_pitches=float(INCOMPLETE_PITCHES),
        )
        grade, _ = grade_of(self.thread, pair, self.screw)
        tensile = grade.tensile_mpa if grade is not None else 1.0
        shear = screw_shear(grade) if grade is not None else SCREW_SHEAR
        external = shear * pair.external_per_mm(in_mm(hole_diameter, self.thread)) * length_mm
        weakest = tensile * pair.stress_area_mm2
        if grade is not None and self.part is not None and self.part.shear_strength_mpa is not None:
            weakest = min(weakest, self.part.shear_strength_mpa * pair.internal_per_mm() * length_mm)
        return external >= self.safety_factor * weakest
