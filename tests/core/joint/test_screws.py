"""Screw grades by name and size."""

import pytest
from borewright.core.errors import MaterialError
from borewright.core.joint.screws import find_grade, shown_grades, usual_grade
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st
from outside_figures import outside

# rows whose grade cell lists several names, or no strengths at all
UNNAMED = {"ASTM F738M"}


def _rows() -> list[dict[str, str]]:
    return [row for row in outside("screw_grades") if row["standard"] not in UNNAMED]


def _one_name(row: dict[str, str]) -> str:
    name = row["grade"]
    if "(F593" in name:
        return name.split("(")[1].rstrip(")")
    if name.startswith("group"):
        return f"F593 {name.split()[-1]}" if "1-3" in name else f"F593 {name}"
    first = name.split(" (")[0].split("/")[0].split(",")[0]
    special = {
        "A1": "A1-" + name[-2:],
        "A2": "A2-80",
        "class 100": "A4-100",
        "socket head cap screw": "A574",
        "annealed ": "Ti-6Al-4V",
    }
    if name.startswith("B8,"):
        return "B8 class " + name[-1]
    if name.endswith("cold worked"):
        return "304 cold worked"
    return special.get(first, first)


def _size_mm(row: dict[str, str]) -> float:
    sizes = {
        "d > 16 mm": 20,
        "d <= 16 mm": 10,
        "over 3/4-1-1/2 in": 25.4,
        "over 1-1-1/2 in": 30,
        "1-1/8-1-1/2 in": 30,
        "1-3/4-3 in": 50,
        "over 1/2-4 in": 20,
        "over 2-1/2-4 in": 70,
        "over 4-7 in": 120,
        "over 4-8 in": 120,
        "over 3/4-1 in": 25.4,
        "over 1-1-1/4 in": 30,
        "over 1-1/4-1-1/2 in": 36,
        "3/4-1-1/2 in": 25.4,
        "3/4-1 in": 25.4,
        "1-1/8-1-1/4 in": 30,
        "1-3/8-1-1/2 in": 36,
        "1/2-1 in": 20,
        "1/2-1-1/2 in": 20,
    }
    return sizes.get(row["size_range"], 12)


@every("row", _rows(), ids=lambda row: f"{row['standard']} {row['grade']} {row['size_range']}")
def test_every_printed_row_is_found(row):
    found = find_grade(_one_name(row), diameter_mm=_size_mm(row))
    assert found.tensile_mpa == pytest.approx(float(row["tensile_MPa"]), abs=0.6)
    if row["proof_MPa"]:
        assert found.proof_mpa == pytest.approx(float(row["proof_MPa"]), abs=0.6)
    if row["yield_MPa"]:
        assert found.yield_mpa == pytest.approx(float(row["yield_MPa"]), abs=0.6)
    assert found.status == ("from_memory" if row["status"] == "memory" else "second_hand")


def test_row_count():
    assert len(_rows()) == 87


@pytest.mark.parametrize(
    ("text", "standard", "tensile_ksi"),
    [
        ("grade 8", "SAE J429", 150),
        ("Gr. 8", "SAE J429", 150),
        ("GR8", "SAE J429", 150),
        ("SAE J429 Grade 5", "SAE J429", 120),
        ("5", "SAE J429", 120),
        ("A574", "ASTM A574", 180),
        ("ASTM A574 socket head cap screw", "ASTM A574", 180),
        ("SHCS", "ASTM A574", 180),
        ("ASTM A193 B7", "ASTM A193", 125),
        ("A354 BD", "ASTM A354", 150),
        ("F593C", "ASTM F593", 100),
    ],
)
def test_inch_grades_as_people_type_them(text, standard, tensile_ksi):
    found = find_grade(text, diameter_mm=12.7)
    assert found.standard == standard
    assert found.tensile_mpa / 6.894757 == pytest.approx(tensile_ksi)


@pytest.mark.parametrize(
    ("text", "tensile_mpa"),
    [
        ("8.8", 800),
        ("class 8.8", 800),
        ("Property class 10.9", 1040),
        ("ISO 898-1 12.9", 1220),
        ("8,8", 800),
        ("A2-70", 700),
        ("a2 70", 700),
        ("A4-80", 800),
        ("ISO 3506-1 A4-80", 800),
    ],
)
def test_metric_classes_as_people_type_them(text, tensile_mpa):
    assert find_grade(text, diameter_mm=12).tensile_mpa == tensile_mpa


def test_size_decides_between_rows():
    assert [find_grade("8.8", diameter_mm=size).tensile_mpa for size in (16, 20)] == [800, 830]
    assert find_grade("grade 2", diameter_mm=25.4).tensile_mpa < find_grade("grade 2", diameter_mm=12.7).tensile_mpa


@pytest.mark.parametrize("text", ["grade 9", "8.9", "", "unbreakable", "A2", "x" * 500, "８.8"])
def test_unknown_grades(text):
    with pytest.raises(MaterialError) as caught:
        find_grade(text, diameter_mm=10)
    fault = caught.value.faults[0]
    assert (fault.code, fault.pointer) == ("screw_grade_unknown", "/mating_screw/grade")
    assert "8.8" in fault.allowed


def test_near_grade_is_suggested():
    with pytest.raises(MaterialError) as caught:
        find_grade("8.9", diameter_mm=10)
    assert "8.8" in caught.value.faults[0].did_you_mean


@pytest.mark.parametrize(("text", "size"), [("grade 8", 4.8), ("grade 8", 40), ("12.9", 42), ("9.8", 20)])
def test_size_outside_the_grade_is_refused(text, size):
    with pytest.raises(MaterialError) as caught:
        find_grade(text, diameter_mm=size)
    assert caught.value.code == "screw_size_out_of_grade"
    assert caught.value.faults[0].allowed


@pytest.mark.parametrize("size_in", [0.06, 0.19, 0.25, 0.5, 1.5, 2, 3, 4])
def test_a_usual_grade_exists_in_its_size(size_in):
    grade = usual_grade(diameter_mm=size_in * 25.4, unit="in")
    assert find_grade(grade, diameter_mm=size_in * 25.4).tensile_mpa > 0


def test_no_usual_grade_beyond_the_standards():
    assert usual_grade(diameter_mm=110, unit="in") is None
    assert usual_grade(diameter_mm=42, unit="mm") is None


@settings(max_examples=100)
@given(st.one_of(st.text(max_size=70), st.sampled_from(shown_grades())), st.floats(1, 100))
def test_any_text_is_a_grade_or_refused(text, size):
    try:
        found = find_grade(text, diameter_mm=size)
    except MaterialError:
        return
    assert 300 < found.tensile_mpa < 1300


def test_a_shear_strength_that_is_printed_is_the_screws():
    """Ti-6Al-4V: 96 ksi of 6.894757 MPa each; steel grades print none."""
    assert find_grade("Ti-6Al-4V", diameter_mm=10).shear_mpa == pytest.approx(661.9, abs=0.1)
    assert find_grade("grade 8", diameter_mm=10).shear_mpa is None


@every(("size", "inside"), [(1.6 - 0.001, True), (1.5985, False), (39 + 0.001, True), (39.0015, False)])
def test_a_micrometre_of_rounding_is_allowed_a_screw(size, inside):
    """Class 12.9, M1.6 to M39."""
    try:
        found = find_grade("12.9", diameter_mm=size).label
    except MaterialError:
        found = None
    assert (found is not None) is inside


def test_a_grade_without_printed_sizes_is_that_of_every_screw():
    """ASTM A193 B8 class 1: 75 ksi."""
    for size in (0.5, 12, 200):
        assert find_grade("B8 class 1", diameter_mm=size).tensile_mpa == pytest.approx(75 * 6.894757)
