"""Strength of the tapped joint: which of screw, screw thread and tapped thread fails first, and the length needed.

The internal thread's shear area does not depend on the hole size, the screw's does: a larger drill costs strength
only where the screw's own thread governs. Typical material values stay typical, and the result says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached
from borewright.core.derivation import steps_made_again
from borewright.core.model import MM_PER_INCH, Caution, Material, Notes, Source, Step, Thread
from borewright.core.practice import figure, number
from borewright.core.quantity_text import stress
from borewright.core.requests import MatingScrew
from borewright.core.rounding import upward

from . import screws, shear_areas
from .geometry import Joint, in_mm, joint
from .screws import ScrewGrade

Member = Literal["screw", "internal_thread", "external_thread"]

#: Threads at the ends of an engagement that are not complete (point of the screw, countersink), in pitches.
INCOMPLETE_PITCHES = figure("incomplete_pitches")

#: Engagement over diameter up to which strip load grows with length, and where it is capped (load is shared unequally).
_LINEAR_D, _CAPPED_D = number("strip_linear_diameters"), number("strip_capped_diameters")

#: Shear strength of a screw's thread as a share of its tensile strength.
SCREW_SHEAR = number("screw_shear_share")

_SHEAR_RULE = f"shear {SCREW_SHEAR:g} of the screw's tensile"
_H28 = "FED-STD-H28/2B (1991) Table II.B.1"
_RULES = (
    Source("tensile_stress_area", "FED-STD-H28/2B", "1991", "Table II.B.1 (1)", "second_hand"),
    Source("internal_shear_area", "FED-STD-H28/2B", "1991", "Table II.B.1 (2a)", "second_hand"),
    Source("external_shear_area", "FED-STD-H28/2B", "1991", "Table II.B.1 (4a)", "second_hand"),
    Source("required_length", "FED-STD-H28/2B", "1991", "Table II.B.2 (14) to (16)", "second_hand"),
    Source("external_strip_force", "common practice", "", _SHEAR_RULE, "common_practice"),
    Source("internal_strip_force", "common practice", "", "shear area times shear strength", "common_practice"),
    Source("fails_first", "common practice", "", "smallest of the three forces", "computed"),
    Source("safety_factor", "common practice", "", "smaller strip force over the screw's", "computed"),
)


@dataclass(frozen=True, slots=True, eq=False)
class Strength:
    """Forces of the joint in newtons. Lengths are in the thread's unit, areas at minimum material.

    ``complete_length`` is the engagement counted (complete threads, capped); ``required_length`` the engagement at
    which the screw breaks before a thread strips, ends included; ``safety_factor`` the smaller strip force over the
    screw's tensile force.
    """

    length_of_engagement: Decimal
    complete_length: Decimal
    required_length: Decimal
    grade: ScrewGrade
    tensile_stress_area_mm2: float
    internal_shear_area_mm2: float
    external_shear_area_mm2: float
    screw_tensile_force_n: float
    internal_strip_force_n: float
    external_strip_force_n: float
    fails_first: Member
    safety_factor: float
    notes: Notes


def applies(thread: Thread) -> bool:
    """Whether a screw of known limits goes into the thread (not into a taper thread or an insert's hole).

    Source: limits of the thread and its mate.
    """
    return joint(thread, None) is not None


@cached(64)
@steps_made_again
def assess(
    thread: Thread,
    *,
    engagement: Decimal,
    hole_minor_max: Decimal | None,
    screw: MatingScrew,
    part: Material,
    incomplete_pitches: Decimal = INCOMPLETE_PITCHES,
) -> Strength | None:
    """Strength of a joint, or None where the thread takes no screw or the part's strength is not known.

    Args:
        engagement: length of engagement in the thread's unit.
        hole_minor_max: largest minor diameter the hole comes out with, None = the class maximum.
        screw: class and grade; without a grade a usual one is assumed and said.
        incomplete_pitches: pitches of the engagement that are not complete threads.

    Raises: MaterialError ``screw_grade_unknown``, ``screw_size_out_of_grade``; ThreadError ``thread_class_unknown``.

    Source: FED-STD-H28/2B (1991) Appendix B, Tables II.B.1 and II.B.2.
    """
    pair = joint(thread, screw.thread_class)
    if pair is None or part.shear_strength_mpa is None or part.tensile_strength_mpa is None:
        return None
    grade, assumed = grade_of(thread, pair, screw)
    if grade is None:
        return None
    ends = float(incomplete_pitches)
    length_mm = complete_length_of(pair, engagement_mm=in_mm(engagement, thread), incomplete_pitches=ends)
    minor_mm = pair.minor_max_mm if hole_minor_max is None else in_mm(hole_minor_max, thread)
    steps: list[Step] = []
    per_mm = pair.internal_per_mm(), pair.external_per_mm(minor_mm)
    required_mm, required_step = _required(
        pair, grade, part_tensile_mpa=part.tensile_strength_mpa, per_mm=per_mm, incomplete_pitches=ends
    )
    complete, required = _length(length_mm, thread), _length(required_mm, thread)
    given = {"given": in_mm(engagement, thread), "k": ends, "p": pair.pitch_mm, "D": pair.diameter_mm}
    steps.append(_step("complete_length_mm", f"min(max(given - k * p, 0), {_CAPPED_D:g} * D)", given, length_mm, "mm"))
    shear = part.shear_strength_mpa
    forces = _forces(pair, grade, steps, part_shear_mpa=shear, length_mm=length_mm, minor_mm=minor_mm, per_mm=per_mm)
    first = min(forces, key=lambda member: forces[member])
    factor = min(forces["internal_thread"], forces["external_thread"]) / forces["screw"]
    steps += (
        _step("safety_factor", "min(internal, external) / screw", _named(forces), factor, ""),
        required_step,
        _printed("complete_length", length_mm, complete, thread),
        _printed("required_length", required_mm, required, thread),
    )
    notes = Notes(
        (*assumed, *_assumptions(pair, screw, part, shear, incomplete_pitches)),
        tuple(_cautions(pair, part, first, engagement_mm=in_mm(engagement, thread), factor=factor)),
        (*_RULES, Source("screw_tensile_force", grade.standard, "", f"{grade.label}, {grade.sizes}", grade.status)),
        tuple(steps),
    )
    lengths = engagement, complete, required
    areas = per_mm[0] * length_mm, per_mm[1] * length_mm
    return _strength(pair, grade, forces, first, lengths=lengths, areas=areas, notes=notes)


def _strength(
    pair: Joint,
    grade: ScrewGrade,
    forces: dict[Member, float],
    first: Member,
    *,
    lengths: tuple[Decimal, Decimal, Decimal],
    areas: tuple[float, float],
    notes: Notes,
) -> Strength:
    """The result, from lengths (given, complete, required) and shear areas (internal, external)."""
    weakest = min(forces["internal_thread"], forces["external_thread"])
    return Strength(
        *lengths,
        grade=grade,
        tensile_stress_area_mm2=pair.stress_area_mm2,
        internal_shear_area_mm2=areas[0],
        external_shear_area_mm2=areas[1],
        screw_tensile_force_n=forces["screw"],
        internal_strip_force_n=forces["internal_thread"],
        external_strip_force_n=forces["external_thread"],
        fails_first=first,
        safety_factor=weakest / forces["screw"],
        notes=notes,
    )


def _length(length_mm: float, thread: Thread) -> Decimal:
    """A length back in the thread's unit, rounded up in its last place."""
    exact = Decimal(repr(length_mm))
    return upward(exact / MM_PER_INCH, 4) if thread.unit == "in" else upward(exact, 3)


def grade_of(thread: Thread, pair: Joint, screw: MatingScrew) -> tuple[ScrewGrade | None, tuple[str, ...]]:
    """The grade of ``screw`` as stated, or a usual one with the assumption; None where no usual grade exists in the
    size.

    Args: ``thread`` and ``pair``, the figures of its joint.
    Raises: MaterialError ``screw_grade_unknown``, ``screw_size_out_of_grade``.

    Source: screw_grades table.
    """
    if screw.grade is not None:
        return screws.find_grade(screw.grade, diameter_mm=pair.diameter_mm), ()
    usual = screws.usual_grade(diameter_mm=pair.diameter_mm, unit=thread.unit)
    if usual is None:
        return None, ()
    grade = screws.find_grade(usual, diameter_mm=pair.diameter_mm)
    return grade, (f"screw grade not stated: {grade.standard} {grade.label} taken",)


def screw_shear(grade: ScrewGrade) -> float:
    """Shear strength of a screw's thread in MPa.

    Source: the grade's own figure, else 0.58 of its tensile strength (common practice).
    """
    return grade.shear_mpa if grade.shear_mpa is not None else SCREW_SHEAR * grade.tensile_mpa


def complete_length_of(pair: Joint, *, engagement_mm: float, incomplete_pitches: float) -> float:
    """Length of complete threads of ``pair`` that carries, in mm, of ``engagement_mm``, capped where more length adds
    nothing.

    Args: ``incomplete_pitches`` at the ends.
    Source: common practice; load is not shared equally beyond 1.5 to 2 D.
    """
    return min(max(engagement_mm - incomplete_pitches * pair.pitch_mm, 0.0), _CAPPED_D * pair.diameter_mm)


def _forces(
    pair: Joint,
    grade: ScrewGrade,
    steps: list[Step],
    *,
    part_shear_mpa: float,
    length_mm: float,
    minor_mm: float,
    per_mm: tuple[float, float],
) -> dict[Member, float]:
    """Breaking force of the screw and strip force of both threads."""
    shear = screw_shear(grade)
    internal, external = per_mm[0] * length_mm, per_mm[1] * length_mm
    forces: dict[Member, float] = {
        "screw": grade.tensile_mpa * pair.stress_area_mm2,
        "internal_thread": part_shear_mpa * internal,
        "external_thread": shear * external,
    }
    shape = {"le": length_mm, "p": pair.pitch_mm, "t": pair.tan_half_angle}
    inside = {**shape, "dmin": pair.screw_major_min_mm, "D2max": pair.pitch_max_mm}
    outside = {**shape, "D1max": minor_mm, "d2min": pair.screw_pitch_min_mm}
    steps += (
        _step("internal_shear_area", "pi * le * dmin * (0.5 + t * (dmin - D2max) / p)", inside, internal, "mm2"),
        _step("external_shear_area", "pi * le * D1max * (0.5 + t * (d2min - D1max) / p)", outside, external, "mm2"),
        _force(
            "screw_tensile_force",
            stress="tensile",
            stress_mpa=grade.tensile_mpa,
            area_mm2=pair.stress_area_mm2,
            force_n=forces["screw"],
        ),
        _force(
            "internal_strip_force",
            stress="shear",
            stress_mpa=part_shear_mpa,
            area_mm2=internal,
            force_n=forces["internal_thread"],
        ),
        _force(
            "external_strip_force",
            stress="shear",
            stress_mpa=shear,
            area_mm2=external,
            force_n=forces["external_thread"],
        ),
    )
    return forces


def _required(
    pair: Joint,
    grade: ScrewGrade,
    *,
    part_tensile_mpa: float,
    per_mm: tuple[float, float],
    incomplete_pitches: float,
) -> tuple[float, Step]:
    """Engagement with its incomplete ends at which the screw breaks first: the longer of (14) and (16)."""
    by_screw = shear_areas.engagement_external(stress_area_mm2=pair.stress_area_mm2, area_per_length_mm=per_mm[1])
    basic = shear_areas.external_area_basic(length_mm=1.0, minor_mm=pair.minor_basic_mm)
    by_basic = shear_areas.engagement_external(stress_area_mm2=pair.stress_area_mm2, area_per_length_mm=basic)
    ratio = basic / per_mm[0]
    strength_ratio = part_tensile_mpa / grade.tensile_mpa
    by_part = shear_areas.engagement_internal(length_basic_mm=by_basic, area_ratio=ratio, strength_ratio=strength_ratio)
    required = max(by_screw, by_part) + incomplete_pitches * pair.pitch_mm
    inputs = {
        "As": pair.stress_area_mm2,
        "external": per_mm[1],
        "basic": basic,
        "R1": ratio,
        "R2": strength_ratio,
        "k": incomplete_pitches,
        "p": pair.pitch_mm,
    }
    formula = "max(2 * As / external, 2 * As / basic * R1 / R2) + k * p"
    return required, Step("required_length_mm", formula, inputs, required, "mm", "FED-STD-H28/2B (1991) Table II.B.2")


def _step(quantity: str, formula: str, inputs: dict[str, float], value: float, unit: str) -> Step:
    return Step(quantity, formula, inputs, value, unit, _H28)


def _force(quantity: str, *, stress: str, stress_mpa: float, area_mm2: float, force_n: float) -> Step:
    return Step(quantity, f"{stress} * area", {stress: stress_mpa, "area": area_mm2}, force_n, "N", _H28)


def _printed(quantity: str, length_mm: float, shown: Decimal, thread: Thread) -> Step:
    """A length as it is shown, in the thread's unit."""
    formula = "up(x / 25.4, 4)" if thread.unit == "in" else "up(x, 3)"
    return Step(quantity, formula, {"x": length_mm}, shown, thread.unit, "rounded up in the last place")


def _named(forces: dict[Member, float]) -> dict[str, float]:
    return {
        "internal": forces["internal_thread"],
        "external": forces["external_thread"],
        "screw": forces["screw"],
    }


def _assumptions(
    pair: Joint, screw: MatingScrew, part: Material, shear_mpa: float, incomplete_pitches: Decimal
) -> list[str]:
    found = [f"shear strength of {part.name} taken as {stress(shear_mpa)} ({part.value_basis})"]
    if screw.thread_class is None and pair.mating_class is not None:
        found.append(f"screw at the minimum limits of class {pair.mating_class}")
    if incomplete_pitches:
        found.append(
            f"{incomplete_pitches} pitches of the engagement are not complete threads (screw point, countersink)"
        )
    return found


def _cautions(pair: Joint, part: Material, first: Member, *, engagement_mm: float, factor: float) -> list[Caution]:
    found = []
    basis = part.value_basis or ""
    if any(word in basis for word in ("typ", "average", "approx", "est")):
        found.append(
            Caution(
                "typical_strength",
                f"The strength of {part.name} is {basis}, not a guaranteed minimum: release needs the certificate's.",
            )
        )
    if engagement_mm > _LINEAR_D * pair.diameter_mm + 1e-6:
        found.append(
            Caution(
                "engagement_beyond_linear",
                f"Beyond {_LINEAR_D:g} D load is not shared equally; length above {_CAPPED_D:g} D is not counted.",
            )
        )
    if factor < 1:
        member = "tapped thread" if first == "internal_thread" else "screw's thread"
        remedy = "a longer engagement, a stronger part or an insert" if first == "internal_thread" else "a smaller hole"
        found.append(Caution("thread_strips_first", f"The {member} strips before the screw breaks: consider {remedy}."))
    return found
