"""In which order ways stand, who decides, how their routing begins, and which figures cannot be.

What meets the drawing comes first; use as it is before more metal is cut where its strength is proven, after it where
it is not; a plug is the last. Who decides: MIL-STD-1520C 3.12 to 3.18, from memory.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.requests import MatingScrew
from borewright.core.rework import BrokenTap
from every import every
from reworked import answer, coat, plain

ZINC = "ASTM B633 Fe/Zn 8"
LEAVE = "in writing, by whoever answers for the design and the code that the part falls under"
GRADE_5 = MatingScrew(grade="SAE J429 grade 5")
INSERT, LARGER, PLUG = "insert_in_the_same_place", "next_larger_thread", "plug_and_remake"
AS_IT_IS, LOOSER, COAT = "use_oversize", "looser_class", "thicker_coat"


def oversize(**given):
    return answer("3/8-16 UNC-2B", "tapped_oversize", measured={"pitch_diameter": 0.3415}, **given)


def names(found):
    return list(dict.fromkeys(found.names))


def test_ways_stand_in_their_order():
    coated = {"stage": "before_finish", "finish": coat(0.0002, 0.0004)}
    proven, open_ = oversize(**coated, asked={"mating_screw": GRADE_5}), oversize(**coated, material=None)
    assert names(proven) == [COAT, LOOSER, AS_IT_IS, INSERT, LARGER, PLUG]
    assert names(open_) == [COAT, INSERT, LARGER, LOOSER, AS_IT_IS, PLUG]
    listed = oversize(**coated, asked={"mating_screw": GRADE_5}, drawing_allows=("insert",))
    assert names(listed) == [COAT, INSERT, LOOSER, AS_IT_IS, LARGER, PLUG]


@every(
    ("criticality", "needs", "authority"),
    [
        (None, False, None),
        ("flight", True, f"; flight hardware: {LEAVE}"),
        ("lifting", True, f"; lifting hardware: {LEAVE}"),
    ],
)  # fmt: skip
def test_rework_needs_nobody_but_for_critical_parts(criticality, needs, authority):
    found = oversize(stage="before_finish", finish=coat(0.0002, 0.0004), criticality=criticality)
    way = found[COAT]
    assert (way.needs_authority, way.conforms, way.regrade, way.thread) == (needs, True, False, None)
    plainly = oversize(stage="before_finish", finish=coat(0.0002, 0.0004))[COAT].authority
    assert way.authority == plainly + (authority or "")
    if criticality:
        assert found.names == [COAT, "refer_to_engineering"]
        assert found["refer_to_engineering"].text.startswith(
            f"Stop, tag the part and ask engineering: on {criticality} hardware"
        )
        for name in (LOOSER, AS_IT_IS, INSERT, LARGER, PLUG):
            assert found.ruled_out[name].startswith(f"{criticality} hardware: use as it is, repair and scrap")


def test_what_departs_from_the_drawing_needs_leave():
    found = oversize(asked={"mating_screw": GRADE_5})
    for way in found.found.ways:
        assert (way.needs_authority, way.conforms) == (True, False), way.name
        assert way.thread == (None if way.plan is None else way.plan.specification.thread.designation)
    assert {one.name for one in found.found.ways if one.regrade} == {LOOSER}
    taken_out = answer("M10", "broken_tap", broken_tap=BrokenTap("carbon_steel"))
    assert taken_out["alum"].authority.endswith("; the process: process engineering and the safety officer of the site")
    assert "the process" not in taken_out["spark_erosion"].authority


def test_a_cut_over_hole_keeps_its_designation():
    """#10-32 leaves 0.1941: 1/4-20 as drawn takes it away, which is no other thread."""
    found = answer("1/4-20 UNC-2B", "wrong_thread", wrong_thread=callout.read("#10-32 UNF"))
    way = found["drill_and_tap_as_drawn"]
    assert (way.thread, way.plan.specification.thread.designation) == (None, "1/4-20 UNC-2B")
    assert found.work("drill_and_tap_as_drawn") == ["drill", "countersink", "tap", "inspect"]
    assert found.work(PLUG) == ["plug", "spot_drill", "drill", "countersink", "tap", "inspect"]


def test_one_thread_in_the_limits_is_gauged_again_and_nothing_else_is_ruled_by_it():
    within = answer("3/8-16 UNC-2B", "tapped_oversize", measured={"pitch_diameter": 0.3401})
    assert within.names[0] == "clean_and_gauge_again"
    assert within.work("clean_and_gauge_again") == ["inspect"]
    assert within["clean_and_gauge_again"].proof["over_by"] == 0


@every(
    ("thread", "condition", "given", "words"),
    [
        ("3/8-16 UNC-2B", "stripped", {"edge_distance": 0.1875},
         "0.1875 in from the axis to the edge is less than half the thread, 0.1875 in"),
        ("3/8-16 UNC-2B", "stripped", {"edge_distance": 0.1876}, None),
        ("M8", "stripped", {"edge_distance": 4.0}, "4 mm from the axis to the edge is less than half the thread, 4 mm"),
        ("M8", "stripped", {"edge_distance": 4.001}, None),
        # a groove of M8 reaches 8 - 1.25/4 = 7.6875 at least
        ("M8", "stripped", {"measured": {"major_diameter": 7.687}},
         "A major diameter of 7.687 mm is no groove of M8x1.25-6H, whose own is 8 mm at least"),
        ("M8", "stripped", {"measured": {"major_diameter": 7.688}}, None),
        # where the drawn groove was never cut to its size that says nothing
        ("M8", "drilled_oversize", {"measured": {"hole_diameter": 7.0, "major_diameter": 7.4}}, None),
        ("M8", "go_does_not_enter", {"measured": {"major_diameter": 7.4}}, None),
        ("M8", "wrong_thread", {"measured": {"major_diameter": 7.4}, "wrong_thread": callout.read("M7x1")}, None),
        ("M8", "stripped", {"measured": {"pitch_diameter": 7.4, "major_diameter": 7.4}},
         "A major diameter of 7.4 mm is not over the pitch diameter, 7.4 mm"),
        ("M8", "go_does_not_enter", {"measured": {"coat": 0.01}}, "A coat is measured, but the hole has no finish"),
        ("M8", "go_does_not_enter", {"measured": {"coat": 0.01}, "stage": "before_finish", "finish": ZINC},
         "A coat is measured, but the finish was not on yet"),
        ("M8", "stripped", {"broken_tap": BrokenTap("carbide")},
         "A broken tap is described, but the condition is stripped"),
        ("M8", "stripped", {"broken_tap": BrokenTap()}, None),
    ],
)  # fmt: skip
def test_figures_of_a_hole_that_cannot_stand_together(thread, condition, given, words):
    if words is None:
        assert answer(thread, condition, **given).names
        return
    with pytest.raises(BorewrightError) as error:
        answer(thread, condition, **given)
    assert any(plain(fault.detail).startswith(words) for fault in error.value.faults), error.value.faults


def test_what_is_assumed():
    def told(condition, thread="3/8-16 UNC-2B", **given):
        said = answer(thread, condition, **given).found.notes.assumptions
        keys = ("position", "before any finish", "pipe thread", "neither the distance", "high-speed steel")
        return [any(key in one for one in said) for key in keys]

    assert told("stripped") == [True, True, False, True, False]
    assert told("stripped", wall=0.3) == [True, True, False, False, False]
    assert told("stripped", edge_distance=0.5) == [True, True, False, False, False]
    assert told("stripped", stage="before_finish", finish=coat(0.0002, 0.0004)) == [True, False, False, True, False]
    assert told("stripped", criticality="flight") == [True, True, False, True, False]
    assert told("stripped", "1/4-18 NPT") == [True, True, True, True, False]
    assert told("stripped", "1/4-18 NPT", criticality="safety") == [True, True, False, True, False]
    assert told("broken_tap") == [True, True, False, True, True]
    assert told("broken_tap", broken_tap=BrokenTap("carbide")) == [True, True, False, True, False]


@every(
    ("wall", "before", "after"),
    [
        # the wall beside the hole as it is: 0.3831 is in it; the tap for the insert leaves 0.4602
        (0.3, "0.3", "0.26145"),
        (0.1, "0.1", "0.06145"),
    ],
)
def test_the_wall_beside_a_hole(wall, before, after):
    found = answer("3/8-16 UNC-2B", "stripped", wall=wall)
    proof = found[INSERT].proof
    assert (proof["wall_before"], proof["wall_after"]) == (Decimal(before), Decimal(after))


def test_a_coat_is_told_to_a_hundred_thousandth():
    """(0.3415 - 0.3401)/4 = 0.00035; (0.3419 - 0.3401)/4 = 0.00045, past the 0.0004 of the class."""
    coated = {"stage": "before_finish", "finish": coat(0.0002, 0.0004)}
    assert plain(oversize(**coated)[COAT].text) == (
        "Coat at the thick end of the class, 0.00035 in on a surface at least, and gauge finished"
    )
    past = answer("3/8-16 UNC-2B", "tapped_oversize", measured={"pitch_diameter": 0.3419}, **coated)
    assert past.ruled_out[COAT] == "it takes 0.00045 in of coat on a surface, the class ends at 0.0004 in"


def test_a_hole_at_its_limit_is_tapped_as_planned():
    for hole, planned in ((0.3210, True), (0.3211, False)):
        found = answer("3/8-16 UNC-2B", "drilled_oversize", measured={"hole_diameter": hole})
        assert ("tap_as_planned" in found.names) is planned
