"""The row of a finish that a size or a material takes, and what is said where a finish cannot be put on."""

from __future__ import annotations

from decimal import Decimal

from allowances import assumes, resolved
from borewright.core.finishing import allow
from borewright.core.model import FinishInput, Material, Range
from every import every

NONE = Range(Decimal(0), Decimal(0))
HALF, M8 = resolved("1/2-13 UNC-2B"), resolved("M8")


@every(
    ("text", "finish", "finish_class", "least"),
    [
        # 0.0017 in to 3/8 in, 0.002 in above; 3/8 in are 9.525 mm
        ("3/8-16 UNC-2B", "ASTM F2329", "to 3/8 in", "0.0017"),
        ("7/16-14 UNC-2B", "ASTM F2329", "over 3/8 in", "0.002"),
        ("M8", "ASTM F2329", "to 3/8 in", "0.04318"),
        ("M10", "ASTM F2329", "over 3/8 in", "0.0508"),
        ("3/8-16 UNC-2B", "ASTM A153", "Class D", "0.0017"),
        ("7/16-14 UNC-2B", "ASTM A153", "Class C", "0.0021"),
        ("3/8-16 UNC-2B", "ASTM F2329 .003 in min", "to 3/8 in", "0.003"),
        ("7/16-14 UNC-2B", "ASTM F2329 .003 in min", "over 3/8 in", "0.003"),
    ],
)
def test_the_row_of_a_size(text, finish, finish_class, least):
    found = allow(resolved(text), FinishInput(text=finish)).finish
    assert (found.finish_class, found.thickness.min) == (finish_class, Decimal(least))


@every(
    ("name", "family", "least"),
    [
        ("1018", "carbon steel", "0.010"),
        ("spring steel", None, "0.010"),
        ("bronze", None, "0.008"),
        ("a", "brass", "0.008"),
    ],
)
def test_tin_is_thicker_on_whatever_is_called_steel(name, family, least):
    part = Material(name, family, None, None, None, None, None, None, None, None)
    found = allow(M8, FinishInput(text="ASTM B545 Class C"), material=part)
    assert found.finish.thickness.min == Decimal(least)


def test_what_cannot_be_put_on_has_its_reason_for_a_remedy_and_no_caution():
    part = Material("the part", "aluminium", None, None, None, None, None, None, None, None)
    found = allow(HALF, FinishInput(text="ASTM A153"), material=part)
    (decision,) = found.notes.decisions
    assert (found.feasible, found.overtap, found.remedies) == (False, None, (decision.text,))
    assert found.notes.cautions == ()


def test_what_is_only_asked_about_stays_possible():
    part = Material("the part", "alloy steel", "P", None, None, 44.0, None, None, None, None)
    found = allow(HALF, FinishInput(text="QQ-P-416 Class 2"), material=part)
    assert [one.code for one in found.notes.decisions] == ["finish_prohibited"]
    assert (found.feasible, found.remedies) == (True, ())
    assert "plate_thin_in_deep_holes" in [one.code for one in found.notes.cautions]


@every(("strength", "relief", "bake"), [(999.0, False, False), (1000.0, True, False), (1001.0, True, True)])
def test_a_masked_thread_spares_the_part_no_treatment(strength, relief, bake):
    """ASTM B849 from 1000 MPa, ASTM B850 from 1001 MPa: the part is plated, the thread is not."""
    part = Material("the part", "alloy steel", "P", None, None, None, strength, None, None, None)
    for masked in (True, False):
        found = allow(HALF, FinishInput(text="ASTM B633 SC2", masked=masked), material=part)
        assert (found.stress_relief is not None, found.bake is not None) == (relief, bake)


def test_a_masked_part_hears_of_the_mask_only():
    part = Material("the part", "alloy steel", "P", None, None, None, 1450.0, None, None, None)
    found = allow(HALF, FinishInput(text="ASTM B633 SC2", masked=True), material=part)
    assert [one.code for one in found.notes.cautions] == ["mask_and_strip"]
    assert assumes(found, "the thread is masked")
    assert found.axial_movement is None
    assert allow(resolved("1/2-14 NPT"), FinishInput(masked=True)).axial_movement == NONE
