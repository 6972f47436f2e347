"""The hardness of a part whose strength alone is known: printed rows come back, between them a straight line.

Steel by the relation of ASTM E140 as reprinted; iron between "Mechanical Engineering Design", Table A-24(a): classes 20
to 60 with 152, 179, 214, 252, 293, 362, 431 MPa and 156, 174, 201, 212, 235, 262, 302 HB.
"""

from __future__ import annotations

import pytest
from borewright.core.materials.part_material import find
from borewright.core.model import MaterialInput
from every import every
from outside_figures import published


def found(name, mpa=None, **given):
    return find(MaterialInput(name=name, tensile_strength_mpa=None if mpa is None else float(mpa), **given))


@every(
    ("name", "mpa", "hb"),
    [
        # printed rows of the relation: 1110 MPa 336 HB, 1530 MPa 432 HB, 448 MPa 131 HB
        ("4140", 1110, 336),
        ("4140", 1530, 432),
        ("1045 hot rolled", 448, 131),
        # half way from 1530 (432) to 1580 (443)
        ("4140", 1555, 437.5),
        # austenitic steel by the same relation, as an estimate: 951 MPa 286 HB
        ("304", 951, 286),
    ],
)
def test_steel_by_its_strength(name, mpa, hb):
    assert found(name, mpa).hardness_hb == pytest.approx(hb, abs=0.6)
    estimate = "hardness_conversion_estimate" in {one.code for one in found(name, mpa).notes.cautions}
    assert estimate is (name == "304")


@every(
    "row", [row for row in published("materials") if row["family"] == "grey iron"], ids=lambda row: row["material_id"]
)
def test_iron_of_a_printed_strength_has_the_printed_hardness(row):
    assert found("grey iron", row["uts_MPa"]).hardness_hb == pytest.approx(float(row["HB_typ"]), abs=0.5)


@every(
    ("mpa", "hb"),
    [
        # 201 + 11 x (233 - 214)/38
        (233, 206.5),
        # 235 + 27 x (316 - 293)/69
        (316, 244.0),
        # 262 + 40 x (400 - 362)/69
        (400, 284.03),
        # past the ends the ends
        (100, 156),
        (600, 302),
    ],
)
def test_iron_between_printed_rows(mpa, hb):
    part = found("grey iron", mpa)
    assert part.hardness_hb == pytest.approx(hb, abs=0.15)
    assert any(f"{part.hardness_hb:.0f} HB" in one for one in part.notes.assumptions)


def test_iron_of_no_other_name_is_grey_iron():
    """Group K by its strength alone: 201 + 11 x (233 - 214)/38, a row of grey iron's and not of ductile iron's."""
    part = find(MaterialInput(group="K", tensile_strength_mpa=233.0))
    assert part.hardness_hb == pytest.approx(206.5, abs=0.15)


def test_stronger_is_harder_all_the_way():
    for name, strengths in (("grey iron", range(150, 440, 10)), ("4140", range(600, 1900, 50))):
        hardnesses = [found(name, mpa).hardness_hb for mpa in strengths]
        assert hardnesses == sorted(hardnesses), name
        assert hardnesses[-1] > hardnesses[0] + 100


def test_iron_of_another_kind_goes_between_its_own_rows():
    """Ductile iron of 500 MPa lies between 65-45-12 (448 MPa, 180 HB) and 80-55-06 (552 MPa, 220 HB)."""
    assert found("ductile iron", 500).hardness_hb == pytest.approx(180 + 40 * 52 / 104, abs=0.1)


def test_no_hardness_is_made_up_where_no_relation_is_held():
    for name, own in (("6061-T6", 95), ("Ti-6Al-4V", None)):
        part = found(name, 400)
        assert own is None or part.hardness_hb == own
        assert part.hardness_hb == found(name).hardness_hb
        assert any("no hardness is derived" in one for one in part.notes.assumptions)


@every(("mpa", "same"), [(389, True), (411, True), (387, False), (413, False)])
def test_a_strength_within_three_percent_is_that_of_the_row(mpa, same):
    """1018 hot rolled: 400 MPa and 116 HB; 3 % are 12 MPa."""
    assert (found("1018 hot rolled", mpa).hardness_hb == 116) is same


def test_a_hardness_that_is_stated_stands():
    assert found("4140", 1110, hardness="28 HRC").hardness_hb == 271
