"""Joint strength: forces, what fails first, and the physics that must hold."""

from dataclasses import replace
from decimal import Decimal
from math import pi

import pytest
from borewright.core import callout, standards
from borewright.core.errors import MaterialError, ThreadError
from borewright.core.joint.strength import applies, assess
from borewright.core.joint.strong_enough import StrongEnough
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput, Thread
from borewright.core.requests import MatingScrew
from hypothesis import given, settings
from hypothesis import strategies as st

STEEL = MaterialInput("4140 at 28 HRC")
ALUMINIUM = MaterialInput("6061-T6")
GRADE_8 = MatingScrew(grade="grade 8")


def _thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def _assess(text="1/2-13 UNC-2B", length="0.75", hole=None, screw=GRADE_8, part=STEEL, incomplete="0"):
    return assess(
        _thread(text),
        engagement=Decimal(length),
        hole_minor_max=None if hole is None else Decimal(hole),
        screw=screw,
        part=part_material.find(part),
        incomplete_pitches=Decimal(incomplete),
    )


def test_forces_of_half_inch_by_hand():
    """1/2-13 UNC-2B: 0.1419 in2 x 150 ksi; areas by FED-STD-H28/2B (2a), (4a) with the class limits."""
    found = _assess()
    lbf = 4.4482216
    assert found.screw_tensile_force_n / lbf == pytest.approx(0.1419 * 150_000, rel=1e-4)
    inside = pi * 13 * 0.75 * 0.4876 * (1 / 26 + 0.57735 * (0.4876 - 0.4565))
    outside = pi * 13 * 0.75 * 0.434 * (1 / 26 + 0.57735 * (0.4435 - 0.434))
    assert found.internal_shear_area_mm2 / 645.16 == pytest.approx(inside, rel=1e-4)
    assert found.external_shear_area_mm2 / 645.16 == pytest.approx(outside, rel=1e-4)
    assert found.internal_strip_force_n == pytest.approx(found.internal_shear_area_mm2 * 0.58 * 903, rel=1e-4)
    assert found.fails_first == "screw"
    assert found.safety_factor > 1
    assert float(found.required_length) == pytest.approx(0.364 * 150 / 150, abs=0.05)


def test_required_length_of_equal_materials():
    """(14) for 1/2-13 with class limits: 0.364 in; the hole is weaker than the screw only by R1/R2 below 1 here."""
    screw = MatingScrew(grade="grade 2")  # 74 ksi, far weaker than the part
    assert float(_assess(screw=screw).required_length) == pytest.approx(0.364, abs=0.0006)


def test_weak_part_fails_first_and_needs_more_length():
    found = _assess(part=ALUMINIUM, length="0.5")
    assert found.fails_first == "internal_thread"
    assert found.safety_factor < 1
    assert found.required_length > Decimal("0.7")
    codes = {caution.code for caution in found.notes.cautions}
    assert {"thread_strips_first", "typical_strength"} <= codes


def test_j_rule():
    """J = (As,ext x Su screw)/(As,int x Su part) above 1 lengthens (14) by J."""
    found, equal = _assess(part=ALUMINIUM, length="0.5"), _assess(screw=MatingScrew(grade="grade 2"))
    tensile = part_material.find(ALUMINIUM).tensile_strength_mpa
    j = found.external_shear_area_mm2 * 150 * 6.894757 / (found.internal_shear_area_mm2 * tensile)
    assert j > 1
    assert float(found.required_length) == pytest.approx(j * float(equal.required_length), rel=2e-3)


def test_incomplete_ends_are_not_counted():
    whole, less = _assess(), _assess(incomplete="2")
    assert float(whole.complete_length - less.complete_length) == pytest.approx(2 / 13, abs=2e-4)
    assert float(less.required_length - whole.required_length) == pytest.approx(2 / 13, abs=2e-4)
    assert less.internal_strip_force_n < whole.internal_strip_force_n


def test_engagement_without_one_complete_thread_carries_nothing():
    assert _assess(length="0.1", incomplete="2").internal_strip_force_n == 0


def test_length_beyond_two_diameters_is_not_counted():
    long, longer = _assess(length="1.0"), _assess(length="2.0")
    assert long.internal_strip_force_n == longer.internal_strip_force_n
    assert "engagement_beyond_linear" in {caution.code for caution in longer.notes.cautions}
    assert "engagement_beyond_linear" not in {caution.code for caution in _assess(length="0.75").notes.cautions}


@settings(max_examples=40)
@given(st.decimals("0.417", "0.47", places=4), st.decimals("0.417", "0.47", places=4))
def test_internal_area_does_not_depend_on_the_hole(one, other):
    small, large = (_assess(hole=str(size)) for size in sorted((one, other)))
    assert small.internal_shear_area_mm2 == large.internal_shear_area_mm2
    assert small.external_shear_area_mm2 >= large.external_shear_area_mm2


@settings(max_examples=40)
@given(st.decimals("0.2", "0.9", places=3), st.decimals("0.2", "0.9", places=3))
def test_longer_is_never_weaker(one, other):
    short, long = (_assess(length=str(length), part=ALUMINIUM) for length in sorted((one, other)))
    assert short.safety_factor <= long.safety_factor
    assert short.required_length == long.required_length


@pytest.mark.parametrize("part", [STEEL, ALUMINIUM, MaterialInput("GG25"), MaterialInput("C360 half hard")])
@pytest.mark.parametrize("grade", ["grade 2", "grade 5", "grade 8", "A574", "8.8", "12.9", "A2-70", "B7"])
def test_any_pair_of_screw_and_part(part, grade):
    found = _assess(part=part, screw=MatingScrew(grade=grade))
    forces = {
        "screw": found.screw_tensile_force_n,
        "internal_thread": found.internal_strip_force_n,
        "external_thread": found.external_strip_force_n,
    }
    assert forces[found.fails_first] == min(forces.values())
    assert (found.safety_factor >= 1) == (found.fails_first == "screw")


def test_screw_of_a_closer_class_strips_later():
    loose, close = _assess(), _assess(screw=MatingScrew("3A", "grade 8"))
    assert close.internal_shear_area_mm2 > loose.internal_shear_area_mm2
    with pytest.raises(ThreadError):
        _assess(screw=MatingScrew("6g", "grade 8"))


def test_unstated_grade_is_assumed_and_said():
    found = _assess(screw=MatingScrew())
    assert found.grade.label == "5"
    assert any("grade not stated" in text for text in found.notes.assumptions)
    assert _assess("#10-24 UNC-2B", "0.3", screw=MatingScrew()).grade.standard == "ASTM A574"


def test_unknown_grade_is_refused():
    with pytest.raises(MaterialError):
        _assess(screw=MatingScrew(grade="grade 9"))


def test_part_of_unknown_strength_gives_no_strength():
    assert _assess(part=MaterialInput("stainless")) is None
    assert _assess(part=MaterialInput("unobtainium")) is None


def test_taper_threads_take_no_screw():
    thread = _thread("1/2-13 UNC")
    assert applies(thread)
    assert not applies(replace(thread, taper=Decimal("0.0625")))


def test_strong_enough_asks_only_about_the_screws_thread():
    """In soft metal the tapped thread governs whatever the hole: a larger hole is allowed until the screw's does."""

    def largest(part):
        question = StrongEnough(
            _thread("1/2-13 UNC-2B"), Decimal("0.5"), GRADE_8, None if part is None else part_material.find(part)
        )
        holes = [Decimal(number) / 1000 for number in range(417, 490)]
        answers = [question(hole) for hole in holes]
        assert answers == sorted(answers, reverse=True)  # monotonic
        return sum(answers)

    assert largest(ALUMINIUM) > largest(STEEL)
    assert largest(STEEL) >= largest(None) > 0


def test_equal_questions_are_equal():
    thread, part = _thread("1/2-13 UNC-2B"), part_material.find(STEEL)
    one, other = (StrongEnough(thread, Decimal("0.5"), GRADE_8, part) for _ in range(2))
    assert one == other
    assert hash(one) == hash(other)


@pytest.mark.parametrize("part", ["6061-T6", "4140 at 28 HRC", "grey iron class 30"])
@pytest.mark.parametrize("text", ["M8", "M12x1.5", "1/4-20 UNC-2B", "1/2-13 UNC-2B"])
def test_the_length_that_is_needed_is_never_rounded_down(text, part):
    """To the next thousandth of a millimetre or ten-thousandth of an inch above the figure of its derivation."""
    found = _assess(text, length="10" if text.startswith("M") else "0.5", screw=MatingScrew(), part=MaterialInput(part))
    exact = next(float(step.value) for step in found.notes.steps if step.quantity.endswith("required_length_mm"))
    last = 0.001 if text.startswith("M") else 0.00254
    told = float(found.required_length) * (1 if text.startswith("M") else 25.4)
    assert exact - 1e-9 <= told < exact + last


@pytest.mark.parametrize("unknown", ["shear_strength_mpa", "tensile_strength_mpa"])
def test_a_part_whose_strength_is_not_known_has_no_safety_factor(unknown):
    part = replace(part_material.find(STEEL), **{unknown: None})
    found = assess(_thread("1/2-13 UNC-2B"), engagement=Decimal("0.75"), hole_minor_max=None, screw=GRADE_8, part=part)
    assert found is None


@pytest.mark.parametrize(("share", "enough"), [(0.98, False), (1.02, True)])
def test_a_screw_without_a_usual_grade_is_its_own_measure(share, enough):
    """M42 has none: its thread, at 0.58 of whatever its strength is, must carry what its stress area does. External
    area of FED-STD-H28/2B (4a), stress area 0.7854 (D - 0.9743 P)^2; two pitches of 4.5 mm are incomplete.
    """
    thread = _thread("M42")
    hole, screw = float(thread.internal.minor_diameter.max), float(thread.external.pitch_diameter.min)
    a_millimetre = pi * hole * (0.5 + 0.57735 * (screw - hole) / 4.5)
    needed = 0.7854 * (42 - 0.9743 * 4.5) ** 2 / (0.58 * a_millimetre) + 2 * 4.5
    engagement = Decimal(str(round(9 + share * (needed - 9), 3)))
    question = StrongEnough(thread, engagement, MatingScrew(), part_material.find(ALUMINIUM))
    assert question(thread.internal.minor_diameter.max) is enough
