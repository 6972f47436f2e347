"""What strength is left in a joint whose hole, thread or depth is not as drawn."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.joint.geometry import Joint, in_mm, joint
from borewright.core.joint.shear_areas import internal_area
from borewright.core.joint.strength import Strength, assess
from borewright.core.requests import MatingScrew

from .proof import H28, Proof
from .rework_case import ReworkCase

#: A joint that keeps as much as this of its strength has lost none.
_NOTHING_LOST = 0.9995


def prove(
    case: ReworkCase,
    proof: Proof,
    *,
    hole: Decimal | None = None,
    pitch: Decimal | None = None,
    depth: Decimal | None = None,
) -> bool | None:
    """Whether the joint of ``case`` is as strong as it must be; None where that cannot be told. Noted in ``proof``.

    Args: ``hole`` minor diameter, ``pitch`` diameter and ``depth`` of full thread as they are, in the unit of the
        thread; None = as drawn.
    Source: FED-STD-H28/2B (1991): the hole costs the screw's thread (4a), the pitch diameter the part's (2a).
    """
    if depth is not None and depth <= 0:
        return False
    pair = joint(case.thread, _screw(case).thread_class)
    if pair is None:
        return None
    if hole is not None:
        _note_external(case, pair, proof, hole)
    internal = 1.0 if pitch is None else _internal(case, pair, proof, pitch)
    before = _assessed(case, None, case.engagement)
    if before is None:
        return None
    length = case.engagement if depth is None else min(case.engagement, depth)
    after = _assessed(case, hole, length)
    if after is None:
        return None
    proof.state("length_of_engagement", length)
    if pitch is None:
        proof.state("required_length", after.required_length)
    return _judged(case, proof, before, after, internal=internal)


def _judged(case: ReworkCase, proof: Proof, before: Strength, after: Strength, *, internal: float) -> bool:
    """The weakest member before and after, each over what breaks the screw."""
    forces = {
        "screw": after.screw_tensile_force_n,
        "internal_thread": after.internal_strip_force_n * internal,
        "external_thread": after.external_strip_force_n,
    }
    screw = forces["screw"]
    factor = proof.figure(
        "safety_factor",
        min(forces["internal_thread"], forces["external_thread"]) / screw,
        formula="min(internal * r, external) / screw",
        place=H28,
        internal=after.internal_strip_force_n,
        r=internal,
        external=after.external_strip_force_n,
        screw=screw,
    )
    proof.state("safety_factor_as_drawn", before.safety_factor)
    proof.state("fails_first", min(forces, key=lambda member: forces[member]))
    needed = case.request.hole.safety_factor
    return factor >= needed or factor >= _NOTHING_LOST * before.safety_factor


def _screw(case: ReworkCase) -> MatingScrew:
    return case.request.hole.mating_screw or MatingScrew()


def _assessed(case: ReworkCase, hole: Decimal | None, length: Decimal) -> Strength | None:
    part = case.planned.material
    if part is None:
        return None
    return assess(case.thread, engagement=length, hole_minor_max=hole, screw=_screw(case), part=part)


def _note_external(case: ReworkCase, pair: Joint, proof: Proof, hole: Decimal) -> None:
    now, drawn = pair.external_per_mm(in_mm(hole, case.thread)), pair.external_per_mm(pair.minor_max_mm)
    proof.figure("external_shear_area_ratio", now / drawn, formula="now / drawn", place=H28, now=now, drawn=drawn)


def _internal(case: ReworkCase, pair: Joint, proof: Proof, pitch: Decimal) -> float:
    now = internal_area(
        length_mm=1.0,
        pitch_mm=pair.pitch_mm,
        screw_major_min_mm=pair.screw_major_min_mm,
        pitch_diameter_max_mm=in_mm(pitch, case.thread),
        tan_half_angle=pair.tan_half_angle,
    )
    drawn = pair.internal_per_mm()
    return proof.figure(
        "internal_shear_area_ratio",
        now / drawn,
        formula="now / drawn",
        place=H28,
        now=now,
        drawn=drawn,
    )
