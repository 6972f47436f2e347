"""Derivation and words of the depths of a parallel hole: M10x1.5.

The point of an 8.5 mm drill of 118 degrees is 0.30043 x 8.5 = 2.5537 mm. Three pitches of chamfer are 4.5 mm, one of
clearance 1.5 mm (common practice).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import depths
from borewright.core.model import Hole, Length, TapChamfer
from every import every

M10 = standards.resolve(callout.read("M10x1.5-6H"))
FORM_C = TapChamfer("semi_bottoming", Decimal(2), Decimal(3))
BOTTOMING = TapChamfer("bottoming", Decimal(1), Decimal(2))
DEPTH = Length(Decimal(20), "mm")


def mm(value):
    return None if value is None else Length(Decimal(value), "mm")


def build(hole, chamfer=FORM_C, clearance="1.5"):
    space = depths.room(M10, hole, drill_diameter=Decimal("8.5"), clearance=Decimal(clearance))
    return depths.build(
        M10,
        hole,
        space=space,
        drill_diameter=Decimal("8.5"),
        hole_diameter=Decimal("8.5"),
        chamfer=chamfer,
        clearance=Decimal(clearance),
        major_diameter=Decimal(10),
    )


def steps(found):
    return {step.quantity: step for step in found.notes.steps}


def words(texts):
    return " ".join(texts).replace("\N{NO-BREAK SPACE}", " ")


def test_derivation_of_a_blind_hole():
    told = steps(build(Hole("blind", full_thread_depth=DEPTH)))
    assert told["chamfer_length"].inputs == {"chamfer_threads": 3, "P": Decimal("1.5")}
    assert told["drill_depth"].formula == "full_thread + chamfer + clearance"
    assert told["drill_depth"].inputs == {"full_thread": 20, "chamfer": Decimal("4.5"), "clearance": Decimal("1.5")}
    assert (told["drill_depth"].value, told["tap_travel"].value) == (26, Decimal("24.5"))
    assert "min(" in told["tap_travel"].formula
    assert float(told["drill_tip_depth"].inputs["below"]) == pytest.approx(2.5537, abs=1e-4)
    assert float(told["drill_tip_depth"].value) == pytest.approx(28.5537, abs=1e-4)


def test_derivation_of_a_through_hole():
    """The tap passes the wall by its chamfer and the clearance, the drill by its point and the clearance."""
    found = build(Hole("through", thickness=DEPTH))
    told = steps(found)
    assert (told["drill_depth"].formula, told["drill_depth"].inputs) == ("thickness", {"thickness": 20})
    assert told["tap_travel"].formula == "drill_depth + chamfer + clearance"
    assert (told["tap_travel"].value, str(found.drill_tip_depth)) == (26, "24.05")
    assert float(told["drill_tip_depth"].inputs["below"]) == pytest.approx(4.0537, abs=1e-4)


def test_what_depths_are_counted_to():
    blind, through = build(Hole("blind", full_thread_depth=DEPTH)), build(Hole("through", thickness=DEPTH))
    said = "drill_depth is the depth of full drill diameter"
    assert (said in words(blind.notes.assumptions), said in words(through.notes.assumptions)) == (True, False)


@every(
    ("limit", "chamfer", "code"),
    [
        # 20 + 4.5 + 1.5
        ("26", FORM_C, ""),
        ("25.99", FORM_C, "drill_depth_limit_too_shallow"),
        ("20", FORM_C, "drill_depth_limit_too_shallow"),
        ("19.99", FORM_C, "thread_deeper_than_hole"),
        # a bottoming tap of 1.5 threads and half a pitch under it
        ("23", TapChamfer("bottoming", Decimal(1), Decimal("1.5")), ""),
        ("22.99", TapChamfer("bottoming", Decimal(1), Decimal("1.5")), "drill_depth_limit_too_shallow"),
    ],
)
def test_room_for_the_tap(limit, chamfer, code):
    hole = Hole("blind", full_thread_depth=DEPTH, drill_depth_limit=mm(limit))
    if not code:
        assert build(hole, chamfer).drill_depth == Decimal(limit)
        return
    with pytest.raises(HoleError) as refused:
        build(hole, chamfer)
    assert refused.value.faults[0].code == code


@every(("wall", "thin"), [("30.05", True), ("30.06", False)])
def test_less_than_a_pitch_under_the_tip_is_asked(wall, thin):
    """The tip is 28.5537 mm deep: 1.4963 and 1.5063 mm are left, printed 1.50 and 1.51; a pitch is 1.5."""
    found = build(Hole("blind", full_thread_depth=DEPTH, thickness=mm("30.04" if thin else wall)))
    assert ("thin_wall" in [one.code for one in found.notes.decisions]) is thin


def test_a_run_out_that_is_shorter_than_the_tap_leaves_turns_half_cut():
    """DIN 76-1 e1 of 1.5 mm pitch is 7.3 mm (from memory), less than chamfer and clearance of a taper tap.

    A tap of 7 to 9 threads is 13.5 mm long at its chamfer: it goes 27.3 - 1.5 = 25.8 mm deep, and is short by
    20 + 13.5 - 25.8 = 7.7.
    """
    found = build(
        Hole("blind", full_thread_depth=DEPTH, run_out="din_76_1"), TapChamfer("taper", Decimal(7), Decimal(9))
    )
    assert (found.drill_depth, found.tap_travel) == (Decimal("27.3"), Decimal("25.8"))
    (caution,) = found.notes.cautions
    assert caution.code == "run_out_short"
    assert "the last 7.7 mm of thread are not full; drill deeper, shorten the thread" in words([caution.text])
    assert "relief" not in caution.text
    assert {one.document for one in found.notes.sources} >= {"DIN 76-1"}
    assert not found.notes.decisions
