"""What is said of two drills: torque, strength and the member that fails first, with their figures."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import pi

import pytest
from borewright.core import callout, standards
from borewright.core.errors import MaterialError
from borewright.core.joint import geometry, least_torque, mating_screw, shear_areas
from borewright.core.joint.screws import find_grade, usual_grade
from borewright.core.joint.strength import assess
from borewright.core.joint.strong_enough import StrongEnough
from borewright.core.materials import part_material
from borewright.core.model import Diameters, MaterialInput, Range
from borewright.core.requests import MatingScrew
from borewright.core.rounding import upward
from every import every

HALF = standards.resolve(callout.read("1/2-13 UNC-2B"))
GRADE_8 = MatingScrew(grade="grade 8")
STEEL = part_material.find(MaterialInput("4140 at 28 HRC"))
ALUMINIUM = part_material.find(MaterialInput("6061-T6"))


def _assess(length, part=STEEL, screw=GRADE_8, incomplete="0", thread=HALF):
    ends = Decimal(incomplete)
    return assess(
        thread, engagement=Decimal(length), hole_minor_max=None, screw=screw, part=part, incomplete_pitches=ends
    )


def _said(found, code):
    return [one.text for one in found.notes.cautions if one.code == code]


@every(
    ("length", "told"),
    [("0.74", False), ("0.75", False), ("0.7501", True), ("0.8", True)],
)
def test_beyond_one_and_a_half_diameters_load_is_not_shared(length, told):
    """1.5 x 0.5 in."""
    assert bool(_said(_assess(length), "engagement_beyond_linear")) is told


def test_the_member_that_strips_is_named_with_what_helps():
    (tapped,) = _said(_assess("0.5", ALUMINIUM), "thread_strips_first")
    assert "The tapped thread strips" in tapped
    assert "a longer engagement, a stronger part or an insert" in tapped
    hard = part_material.find(MaterialInput("4140 at 45 HRC"))
    (screws,) = _said(_assess("0.2", hard), "thread_strips_first")
    assert "The screw's thread strips" in screws
    assert "a smaller hole" in screws
    strong = _assess("0.4")
    assert 1 < strong.safety_factor < 2
    assert not _said(strong, "thread_strips_first")


def test_what_is_assumed_of_the_screw_and_its_ends():
    plain = _assess("0.75").notes.assumptions
    stated = _assess("0.75", screw=MatingScrew("3A", "grade 8")).notes.assumptions
    assert "screw at the minimum limits of class 2A" in plain
    assert not any("minimum limits of class" in line for line in stated)
    assert not any("complete threads" in line for line in plain)
    ends = _assess("0.75", incomplete="2").notes.assumptions
    assert any(line.startswith("2 pitches of the engagement are not complete threads") for line in ends)


@pytest.mark.parametrize(
    ("text", "length", "formula"), [("1/2-13 UNC-2B", "0.75", "up(x / 25.4, 4)"), ("M12", "18", "up(x, 3)")]
)
def test_lengths_are_shown_rounded_up_in_their_last_place(text, length, formula):
    found = _assess(length, thread=standards.resolve(callout.read(text)), screw=MatingScrew(), incomplete="1")
    steps = {step.quantity: step for step in found.notes.steps}
    assert steps["complete_length"].formula == steps["required_length"].formula == formula
    assert -found.required_length.as_tuple().exponent == (4 if "25.4" in formula else 3)


def test_the_length_that_is_needed_can_be_redone():
    """(14) to (16) of FED-STD-H28/2B for 1/2-13, screw and class limits in inches, areas an inch of length."""
    found = _assess("0.75", ALUMINIUM)
    (step,) = [one for one in found.notes.steps if one.quantity == "required_length_mm"]
    assert eval(step.formula, {"__builtins__": {}}, {"max": max, **step.inputs}) == pytest.approx(step.value)
    assert step.inputs["basic"] == pytest.approx(3.14159265 * float(HALF.basic.minor_diameter) * 25.4 * 0.75)
    outside = shear_areas.external_area(
        length_mm=1, pitch_mm=25.4 / 13, minor_max_mm=0.434 * 25.4, screw_pitch_min_mm=0.4435 * 25.4
    )
    assert step.inputs["external"] == pytest.approx(outside)


@pytest.mark.parametrize(
    ("area", "sizes"),
    [
        (shear_areas.internal_area, {"pitch_mm": 1.75, "screw_major_min_mm": 12.0, "pitch_diameter_max_mm": 11.0}),
        (shear_areas.external_area, {"pitch_mm": 1.75, "minor_max_mm": 10.5, "screw_pitch_min_mm": 11.0}),
        (shear_areas.external_area_basic, {"minor_mm": 10.0}),
    ],
)
def test_areas_grow_with_the_length(area, sizes):
    one, three = (area(length_mm=length, **sizes) for length in (1, 3))
    assert three == pytest.approx(3 * one)


# --- screws -----------------------------------------------------------------------------------------------------------


@every(
    ("size", "unit", "grade"),
    [
        (1.59, "mm", None), (1.6, "mm", "8.8"), (2, "mm", "8.8"), (39, "mm", "8.8"), (39.01, "mm", None),
        (0.0598 * 25.4, "in", None), (0.06 * 25.4, "in", "A574"), (0.216 * 25.4, "in", "A574"),
        (0.25 * 25.4, "in", "5"), (1.0 * 25.4, "in", "5"), (1.5 * 25.4, "in", "5"), (1.75 * 25.4, "in", "A449"),
        (2.5 * 25.4, "in", "A449"), (3 * 25.4, "in", "A449"), (3.25 * 25.4, "in", "A354 BD"),
        (4 * 25.4, "in", "A354 BD"), (4.25 * 25.4, "in", None),
    ],
)  # fmt: skip
def test_the_usual_grade_goes_by_size(size, unit, grade):
    """#0 is 0.060 in; grade 5 is made from 1/4 to 1 1/2 in, A449 to 3 in, A354 to 4 in, 8.8 from M1.6 to M39."""
    assert usual_grade(diameter_mm=size, unit=unit) == grade


@every(
    ("size", "inside"),
    [(6.35, True), (6.3495, True), (6.34, False), (6.0, False), (38.1, True), (38.1005, True), (38.2, False)],
)
def test_a_grade_covers_its_printed_sizes_to_a_micrometre(size, inside):
    """SAE J429 grade 8: 1/4 to 1 1/2 in, 6.35 to 38.1 mm."""
    if inside:
        assert find_grade("grade 8", diameter_mm=size).standard == "SAE J429"
        return
    with pytest.raises(MaterialError) as refused:
        find_grade("grade 8", diameter_mm=size)
    detail = refused.value.faults[0].detail
    assert detail == f"SAE J429 8 does not cover a screw of {size:g}\N{NO-BREAK SPACE}mm."


@pytest.mark.parametrize(("size", "text"), [(5.4864, "5.49"), (120.6519, "120.65")])
def test_the_size_is_told_to_a_hundredth(size, text):
    with pytest.raises(MaterialError) as refused:
        find_grade("grade 8", diameter_mm=size)
    assert f" {text}\N{NO-BREAK SPACE}mm." in refused.value.faults[0].detail


@pytest.mark.parametrize(("longer", "known"), [(0, True), (1, False)])
def test_names_of_grades_have_sixty_characters(longer, known):
    text = "grade" + " " * (54 + longer) + "8"
    if known:
        assert find_grade(text, diameter_mm=10).standard == "SAE J429"
    else:
        with pytest.raises(MaterialError):
            find_grade(text, diameter_mm=10)


@every(
    ("text", "screw", "code"),
    [
        ("1/2-13 UNC-2B", MatingScrew(grade="grade 8"), None),
        ("1/2-13 UNC-2B", MatingScrew(grade="12.34"), "screw_grade_unknown"),
        ("#10-24 UNC-2B", MatingScrew(grade="grade 8"), "screw_size_out_of_grade"),
        # no screw of known limits goes into a taper thread: its size is nobody's, the grade still has to be one
        ("1/2-14 NPT", MatingScrew(grade="grade 8"), None),
        ("1/16-27 NPT", MatingScrew(grade="12.9"), None),
        ("1/2-14 NPT", MatingScrew(grade="12.34"), "screw_grade_unknown"),
        ("1/2-13 UNC-2B", MatingScrew(), None),
        ("1/2-13 UNC-2B", None, None),
    ],
)
def test_a_mating_screw_is_judged(text, screw, code):
    thread = standards.resolve(callout.read(text))
    if code is None:
        mating_screw.judge(thread, screw)
        return
    with pytest.raises(MaterialError) as refused:
        mating_screw.judge(thread, screw)
    assert refused.value.code == code


# --- geometry ---------------------------------------------------------------------------------------------------------


@every(
    ("change", "held"),
    [
        ({}, True),
        ({"tensile_stress_area": None}, True),
        ({"tensile_stress_area": None, "thread_angle": Decimal(55)}, False),
        ({"thread_angle": Decimal(55)}, True),
        ({"taper": Decimal("0.0625")}, False),
    ],
)
def test_a_joint_needs_a_stress_area(change, held):
    """The formula is that of 60 degrees; a printed area serves for every form: 0.1419 in2 are 91.55 mm2."""
    found = geometry.joint(replace(HALF, **change), None)
    assert (found is not None) is held
    if found is not None:
        assert found.stress_area_mm2 == pytest.approx(91.55, abs=0.05)
        assert found.mating_class == "2A"


@every("member", ["major_diameter", "pitch_diameter"])
def test_a_joint_needs_the_least_screw(member):
    other = replace(HALF.external, **{member: Range(None, Decimal("0.5"))})
    assert geometry.joint(replace(HALF, external=other), None) is None


@every("member", ["pitch_diameter", "minor_diameter"])
def test_a_joint_needs_the_largest_hole(member):
    inside = replace(HALF.internal, **{member: Range(Decimal("0.4"), None)})
    assert isinstance(inside, Diameters)
    assert geometry.joint(replace(HALF, internal=inside), None) is None


@every(("screw_class", "shown"), [(None, "2A"), ("2A", "2A"), ("2a", "2a"), ("3A", "3A")])
def test_the_class_of_the_screw(screw_class, shown):
    assert geometry.joint(HALF, screw_class).mating_class == shown


# --- drills -----------------------------------------------------------------------------------------------------------


@every(
    ("largest", "hole", "chance", "takes"),
    [
        ("0.43", "0.43", None, True),
        ("0.43", "0.4301", None, False),
        ("0.44", "0.434", 0.5, True),  # half of the holes of 0.434 in mean are above 0.434
        ("0.44", "0.4341", 0.5, False),
    ],
)
def test_a_larger_hole_must_hold_strength_and_limits(largest, hole, chance, takes):
    question = least_torque.HoldsLimitsAndStrength(HALF, Decimal(largest), None, chance)
    assert question(Decimal(hole)) is takes


def test_why_a_larger_drill_is_not_taken():
    """A mean of 0.434 in is the largest minor diameter: half of the holes are above it."""
    question = least_torque.HoldsLimitsAndStrength(HALF, Decimal("0.434"), None, 0.95)
    assert question.why_not(Decimal("0.4341")) == "leaves too little thread for the strength asked for"
    assert "only about 50 % of its holes" in question.why_not(Decimal("0.434"))
    assert "down to 95 %" in question.why_not(Decimal("0.434"))
    assert replace(question, least_chance=None).why_not(Decimal("0.434")) == "not larger than the chart's drill"


@every(
    ("chart", "hole", "enough"),
    [("0.48", "0.48", True), ("0.48", "0.4801", False), (None, "0.48", False), (None, "0.42", True)],
)
def test_the_charts_own_hole_is_never_blamed(chart, hole, enough):
    question = StrongEnough(HALF, Decimal("0.5"), GRADE_8, STEEL, 1.0, None if chart is None else Decimal(chart))
    assert question(Decimal(hole)) is enough


def test_where_no_screw_goes_in_every_hole_is_strong_enough():
    taper = replace(HALF, taper=Decimal("0.0625"))
    assert StrongEnough(taper, Decimal("0.1"), GRADE_8, STEEL)(Decimal("0.49")) is True


def test_every_figure_of_a_joint_can_be_redone():
    """1/2-13 UNC-2B in 6061-T6, 0.75 in with two incomplete pitches: screw 2A 0.4876 and 0.4435 in at least, hole
    0.4565 and 0.434 in at most, stress area 0.1419 in2, grade 8 of 150 ksi; a thread of 60 degrees.
    """
    found = _assess("0.75", ALUMINIUM, incomplete="2")
    steps = {step.quantity: step for step in found.notes.steps}
    assert [*steps] == [
        "complete_length_mm", "internal_shear_area", "external_shear_area", "screw_tensile_force",
        "internal_strip_force", "external_strip_force", "safety_factor", "required_length_mm", "complete_length",
        "required_length",
    ]  # fmt: skip
    words = {"min": min, "max": max, "pi": pi, "up": lambda value, places: upward(Decimal(repr(value)), places)}
    for name, step in steps.items():
        redone = eval(step.formula, {"__builtins__": {}}, {**words, **step.inputs})
        assert float(redone) == pytest.approx(float(step.value), rel=1e-9), name
    mm, length = 25.4, (0.75 - 2 / 13) * 25.4
    shape = {"le": length, "p": mm / 13, "t": 0.5773503}
    inputs = {
        "complete_length_mm": {"given": 0.75 * mm, "k": 2, "p": mm / 13, "D": 12.7},
        "internal_shear_area": {**shape, "dmin": 0.4876 * mm, "D2max": 0.4565 * mm},
        "external_shear_area": {**shape, "D1max": 0.434 * mm, "d2min": 0.4435 * mm},
        "screw_tensile_force": {"tensile": 150 * 6.894757, "area": 0.1419 * mm**2},
        "internal_strip_force": {"shear": ALUMINIUM.shear_strength_mpa, "area": found.internal_shear_area_mm2},
        "external_strip_force": {"shear": 0.58 * 150 * 6.894757, "area": found.external_shear_area_mm2},
        "safety_factor": {
            "internal": found.internal_strip_force_n,
            "external": found.external_strip_force_n,
            "screw": found.screw_tensile_force_n,
        },
        "complete_length": {"x": length},
        "required_length": {"x": steps["required_length_mm"].value},
    }
    for name, given in inputs.items():
        assert steps[name].inputs == {one: pytest.approx(value, rel=1e-6) for one, value in given.items()}, name
    told = {name: (step.value, step.unit) for name, step in steps.items()}
    assert told["internal_shear_area"] == (found.internal_shear_area_mm2, "mm2")
    assert told["external_shear_area"] == (found.external_shear_area_mm2, "mm2")
    assert told["screw_tensile_force"] == (found.screw_tensile_force_n, "N")
    assert told["safety_factor"] == (found.safety_factor, "")
    assert told["complete_length"] == (found.complete_length, "in")
    assert told["required_length"] == (found.required_length, "in")
