"""What was found at a 3/8-16 UNC-2B, at both sides of each bound: arithmetic beside each figure.

Basic 0.3750, 0.3344 and 0.3073 in, pitch 0.0625; limits of pitch 0.3344 to 0.3401, of minor 0.307 to 0.321 (ASME
B1.1). Before a coat of 0.0002 to 0.0004 in the pitch diameter is made 0.3360 to 0.3409.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import BrokenTap, FaultFound, Measured, ReworkRequest, rework
from every import every


def inch(value):
    return Length(Decimal(str(value)), "in")


COAT = FinishInput(thickness=LengthRange(inch(0.0002), inch(0.0004)), growth_fraction=Decimal(1))


def answer(condition, *, thread="3/8-16 UNC-2B", stage=None, finish=None, measured=None, **found):
    hole = Hole("blind", full_thread_depth=inch(0.75), thickness=inch(1.25))
    asked = HoleSpecRequest(callout.read(thread), hole, material=MaterialInput(name="6061-T6"), finish=finish)
    sizes = Measured(**{name: inch(value) if name != "not_go_enters" else value
                        for name, value in (measured or {}).items()})  # fmt: skip
    return rework(ReworkRequest(asked, FaultFound(condition, stage, sizes, **found)))


def judged(condition, **given):
    found = answer(condition, **given)
    return {one.name: one for one in found.ways}, {one.name: one.why for one in found.ruled_out}


@every(
    ("condition", "measured", "refused"),
    [
        # half a pitch, 0.03125, about the basic pitch diameter; half the diameter, 0.1875, about the others
        ("tapped_oversize", {"pitch_diameter": 0.36565}, None),
        ("tapped_oversize", {"pitch_diameter": 0.36566}, "measured_other_thread"),
        ("stripped", {"major_diameter": 0.5625}, None),
        ("stripped", {"major_diameter": 0.5626}, "measured_other_thread"),
        ("drilled_oversize", {"hole_diameter": 0.4948}, None),
        ("drilled_oversize", {"hole_diameter": 0.4949}, "measured_other_thread"),
        # the limit itself is neither oversize nor too tight
        ("drilled_oversize", {"hole_diameter": 0.3070}, None),
        ("drilled_oversize", {"hole_diameter": 0.3069}, "rework_contradiction"),
        ("tapped_oversize", {"pitch_diameter": 0.3344}, None),
        ("tapped_oversize", {"pitch_diameter": 0.3343}, "rework_contradiction"),
        ("go_does_not_enter", {"pitch_diameter": 0.3401}, None),
        ("go_does_not_enter", {"pitch_diameter": 0.3402}, "rework_contradiction"),
        ("go_does_not_enter", {"pitch_diameter": 0.3402, "not_go_enters": True}, None),
        # minor under pitch under major
        ("tapped_oversize", {"pitch_diameter": 0.3450, "hole_diameter": 0.3449}, None),
        ("tapped_oversize", {"pitch_diameter": 0.3450, "hole_diameter": 0.3450}, "rework_contradiction"),
        ("drilled_oversize", {"hole_diameter": 0.33, "pitch_diameter": 0.345, "major_diameter": 0.3451}, None),
        ("drilled_oversize", {"hole_diameter": 0.33, "pitch_diameter": 0.345, "major_diameter": 0.345},
         "rework_contradiction"),
        # a groove reaches the basic one less a quarter of the pitch, 0.359375
        ("stripped", {"major_diameter": 0.359375}, None),
        ("stripped", {"major_diameter": 0.3593}, "rework_contradiction"),
        ("too_shallow", {"full_thread_depth": 0.5, "drill_depth": 0.5}, None),
        ("too_shallow", {"full_thread_depth": 0.5, "drill_depth": 0.4999}, "rework_contradiction"),
        ("too_shallow", {"full_thread_depth": 0.7499}, None),
        ("too_shallow", {"full_thread_depth": 0.75}, "rework_contradiction"),
    ],
)  # fmt: skip
def test_figures_that_can_be_and_those_that_cannot(condition, measured, refused):
    if refused is None:
        assert answer(condition, measured=measured).ways
        return
    with pytest.raises(BorewrightError) as error:
        answer(condition, measured=measured)
    assert {fault.code for fault in error.value.faults} == {refused}


def test_the_wall_by_the_edge_and_by_what_stands_beside_the_hole():
    """0.375 + 0.130/16 = 0.3831 is in the hole; the tap for the insert leaves 0.4602: 0.2301 on a side."""
    beside = judged("stripped", wall=inch(0.3))[0]["insert_in_the_same_place"].proof
    assert (beside["wall_before"], beside["wall_after"]) == (Decimal("0.30000"), Decimal("0.26145"))
    for edge, thin in ((0.4176, False), (0.4175, True)):  # half of the diameter stays, 0.1875
        way = judged("stripped", edge_distance=inch(edge))[0]["insert_in_the_same_place"]
        assert ("thin_wall_beside" in {one.code for one in way.cautions}) is thin
    for edge, least, listed in ((0.2301, None, False), (0.2302, None, True), (0.3, 0.0699, True), (0.3, 0.07, False)):
        given = {} if least is None else {"least_wall": inch(least)}
        ways, ruled_out = judged("stripped", edge_distance=inch(edge), **given)
        assert ("insert_in_the_same_place" in ways) is listed
        if not listed:
            said = "breaks out at the edge: 0 in" if least is None else "wall of 0.0699 in, less than the 0.07 in"
            assert said in ruled_out["insert_in_the_same_place"].replace("\N{NO-BREAK SPACE}", " ")


@every(
    ("pitch", "coat", "cut", "bare"),
    [
        (0.3332, 0.0003, "0.00030", True),  # (0.3344 - 0.3332)/4 is all of the coat
        (0.3336, 0.0003, "0.00020", False),
        (0.3336, None, "0.00020", True),  # the thinnest of the class, 0.0002
        (0.3340, None, "0.00010", False),
        (0.3344, 0.0003, None, None),
    ],
)
def test_a_tap_through_a_coat_cuts_it_off_the_flanks(pitch, coat, cut, bare):
    sizes = {"pitch_diameter": pitch} | ({} if coat is None else {"coat": coat})
    for allows, disposition, said in (((), "repair", "is cut"), (("chased_coat",), "rework", "until GO enters")):
        ways, ruled_out = judged(
            "go_does_not_enter", stage="after_finish", finish=COAT, measured=sizes, drawing_allows=allows
        )
        if cut is None:
            assert "would not touch the flanks" in ruled_out["chase_the_coated_thread"]
            continue
        way = ways["chase_the_coated_thread"]
        assert (way.proof["cut_per_side"], way.proof["bare_after_chase"]) == (Decimal(cut), bare)
        assert (way.disposition, way.text.endswith(said)) == (disposition, True)
        (flanks,) = [one.text for one in way.cautions if one.code == "chased_flanks"]
        assert flanks.startswith("The flanks are bare" if bare else "The flanks are thinner")
        assert "hard_coat_dulls" not in {one.code for one in way.cautions}


def test_a_hole_below_its_limit_is_opened():
    """0.3070 - 0.3060; at the limit there is nothing to open."""
    ways, _ = judged("go_does_not_enter", measured={"hole_diameter": 0.3060})
    assert ways["open_the_minor_diameter"].proof["minor_short_by"] == Decimal("0.00100")
    assert "open_the_minor_diameter" not in judged("go_does_not_enter", measured={"hole_diameter": 0.3070})[0]
    codes = {one.code for one in judged("go_does_not_enter", measured={"pitch_diameter": 0.3344})[0][
        "clean_and_gauge_again"].cautions}  # fmt: skip
    assert codes == {"go_checks_more"}
    short = judged("go_does_not_enter", measured={"pitch_diameter": 0.3340})[0]["clean_and_gauge_again"]
    assert (short.proof["short_by"], short.cautions) == (Decimal("0.00040"), ())
    assert "stays short" in short.text


def test_what_was_taken_for_granted_is_said():
    def told(condition, **given):
        return " | ".join(answer(condition, **given).notes.assumptions)

    bare = told("stripped")
    assert "before any finish" in bare
    assert "neither the distance to the edge nor the wall" in bare
    for absent in ("pipe thread", "high-speed steel"):
        assert absent not in bare
    assert "neither the distance" not in told("stripped", wall=inch(0.3))
    assert "neither the distance" not in told("stripped", edge_distance=inch(0.5))
    assert "before any finish" not in told("stripped", stage="before_finish", finish=COAT)
    assert "high-speed steel taken" in told("broken_tap")
    assert "high-speed steel taken" not in told("broken_tap", broken_tap=BrokenTap("carbide"))
    assert "pipe thread is taken for pressure" in told("stripped", thread="1/4-18 NPT")
    assert "pipe thread" not in told("stripped", thread="1/4-18 NPT", criticality="flight")


def test_operations_are_numbered_by_tens():
    for way in answer("stripped").ways:
        assert [line.sequence for line in way.operations] == [10 * (place + 1) for place in range(len(way.operations))]
