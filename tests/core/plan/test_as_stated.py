"""Counterbore, countersink, drill and depth that a drawing states: planned so, and held against the choice made here.

Figures are reckoned by hand in each case; limits of 1/4-20, 5/16-18 and 3/8-16 are those of ASME B1.1.
"""

from __future__ import annotations

import pytest
from borewright.contract import replies
from borewright.contract.requests import HOLE_SPEC
from borewright.core.errors import BorewrightError
from borewright.core.plan.specify import specify

BLIND = {"type": "blind", "full_thread_depth": 0.75}


def reply(thread, hole, **more):
    asked = HOLE_SPEC.asked({"thread": thread, "hole": hole, **more})
    return replies.hole_spec_reply(specify(asked.request), asked)


def told(found, words):
    return [text for text in found["assumptions"] if words in text]


def operations(found):
    return [line["operation"] for line in found["operations"]]


def test_a_counterbore_comes_after_the_drill_and_before_the_tap_and_shortens_the_thread():
    """0.75 in from the face less 0.25 in of counterbore are 0.5 in of thread; drill and tap go as deep as before."""
    bore = {"diameter": 0.5, "depth": 0.25}
    found = reply("5/16-18 UNC-2B", {**BLIND, "counterbore": bore}, material="4140")
    bare = reply("5/16-18 UNC-2B", BLIND, material="4140")
    assert operations(found) == ["spot_drill", "drill", "counterbore", "countersink", "tap", "inspect"]
    line = found["operations"][2]
    assert (line["tool"]["diameter"], line["parameters"]["depth"], line["parameters"]["pilot_diameter"]) == (
        0.5, 0.25, found["drill"]["recommended"]["diameter"],
    )  # fmt: skip
    assert "pilot in the drilled hole, before the tap" in line["text"]
    assert found["cautions"][0]["code"] == "counterbore_datum"
    assert "0.5 in of thread are below its floor" in found["cautions"][0]["text"]
    same = ("drill_depth", "tap_travel", "full_thread_depth")
    assert [found["depths"][name] for name in same] == [bare["depths"][name] for name in same]
    assert found["cutting_data"]["tap"]["time"] < bare["cutting_data"]["tap"]["time"]


def test_a_deep_counterbore_is_sunk_first_where_the_drill_reaches_from_its_floor_only():
    """A jobber drill of 6.8 mm (ISO 235) has 69 mm of flute: 72.4 mm of tip depth are reached from 10 mm below."""
    hole = {"type": "blind", "full_thread_depth": 66, "counterbore": {"diameter": 14, "depth": 10}}
    found = reply("M8", hole)
    assert 69 < found["depths"]["drill_tip_depth"] < 79
    assert operations(found)[:4] == ["spot_drill", "counterbore", "drill", "countersink"]
    assert "before drilling" in found["operations"][1]["text"]


def test_a_spotface_without_depth_takes_nothing_off_the_thread():
    hole = {"type": "through", "thickness": 0.75, "counterbore": {"diameter": 1.25}}
    found = reply("5/8-11 UNC-2B", hole, material="4140")
    assert found["depths"]["counterbore_diameter"] == 1.25
    assert "counterbore_depth" not in found["depths"]
    line = next(one for one in found["operations"] if one["operation"] == "counterbore")
    assert line["text"].startswith("Spotface 1.25")
    assert "time" not in line


def test_a_countersink_on_both_sides_is_two_set_ups():
    sink = {"diameter": 0.28, "angle": 82, "sides": "both"}
    found = reply("1/4-20 UNC-2B", {"type": "through", "thickness": 0.5, "countersink": sink})
    assert (found["depths"]["countersink_diameter"], found["depths"]["countersink_angle"]) == (0.28, 82)
    assert operations(found) == ["spot_drill", "drill", "countersink", "turn_over", "countersink", "tap", "inspect"]
    part = {**BLIND, "type": "through", "thickness": 1, "countersink": sink}
    assert operations(reply("1/4-20 UNC-2B", part))[-4:] == ["tap", "turn_over", "countersink", "inspect"]


def test_a_countersink_that_takes_much_of_a_sheet_is_asked():
    """0.3 at 90 degrees over the #7 drill: (0.3 - 0.201) / 2 = 0.0495 deep on each side of 0.2 leaves 0.101."""
    sink = {"diameter": 0.3, "angle": 90, "sides": "both"}
    found = reply("1/4-20 UNC-2B", {"type": "through", "thickness": 0.2, "countersink": sink})
    asked = next(one for one in found["review"] if one["code"] == "countersink_deep")
    assert "0.101 in of full thread are left" in asked["text"]
    assert found["depths"]["full_thread_depth"] == pytest.approx(0.101)


def test_the_drill_that_would_be_chosen_too_is_no_question():
    """3/8-16 is drilled 5/16 (0.3125), which a drawing with three places prints as .312."""
    found = reply("3/8-16 UNC-2B", {**BLIND, "drill": "0.312 in"}, material="4140")
    assert found["drill"]["recommended"]["label"] == "5/16"
    assert told(found, "the 5/16 drill (0.3125 in), which would be chosen by itself too")
    assert "drill_of_drawing" not in {one["code"] for one in found["review"]}


def test_another_drill_is_planned_as_stated_and_told_with_its_cost():
    """1/4-20 on 0.2090 (#4) instead of 0.2010 (#7): (0.25 - 0.209) / 0.0649519 = 63.1 % instead of 75.4 % of thread;
    class 2B allows 0.207 at most, so that it is asked.
    """
    found = reply("1/4-20 UNC-2B", {**BLIND, "drill": "#4"}, material="4140")
    assert found["drill"]["recommended"]["label"] == "#4"
    assert "Drill #4" in found["operations"][1]["text"]
    text = told(found, "the drawing states the #4 drill")[0]
    assert "by itself the #7 drill (0.2010 in) is taken: 63.12 % of thread instead of 75.44 %" in text
    assert "tapping torque" in text
    asked = next(one for one in found["review"] if one["code"] == "drill_of_drawing")
    assert (found["verdict"], asked["pointer"]) == ("review", "/hole/drill")


def test_a_drill_inside_the_limits_is_no_risk():
    """#6 (0.204) lies inside 0.196 to 0.207 of 1/4-20 UNC-2B, as often accepted as the one chosen."""
    found = reply("1/4-20 UNC-2B", {**BLIND, "drill": "#7"}, objective="acceptance")
    assert found["drill"]["recommended"]["label"] == "#7"
    assert told(found, "the drawing states the #7 drill")


def test_depths_of_drilling_are_kept():
    """0.75 of thread in 1/4-20 take 1 in as drawn, and 1.2 in where that is the least; a limit keeps both below it."""
    assert reply("1/4-20 UNC-2B", {**BLIND, "drill_depth": 1})["depths"]["drill_depth"] == 1
    assert reply("1/4-20 UNC-2B", {**BLIND, "least_drill_depth": 1.2})["depths"]["drill_depth"] == 1.2
    assert reply("1/4-20 UNC-2B", {**BLIND, "least_drill_depth": 0.8})["depths"]["drill_depth"] > 0.8
    found = reply("1/4-20 UNC-2B", {**BLIND, "drill_depth": 1})
    assert told(found, "the drawing states 1 in of full drill diameter; by itself")


REFUSED = (
    ({"counterbore": {"diameter": 0.25, "depth": 0.1}}, "counterbore_does_not_fit", "/hole/counterbore/diameter"),
    ({"counterbore": {"diameter": 0.5, "depth": 0.74}}, "counterbore_does_not_fit", "/hole/counterbore/depth"),
    ({"countersink": {"diameter": 0.2}}, "countersink_does_not_fit", "/hole/countersink/diameter"),
    (
        {"counterbore": {"diameter": 0.3, "depth": 0.1}, "countersink": {"diameter": 0.4}},
        "countersink_does_not_fit", "/hole/countersink/diameter",
    ),
    ({"drill": "1/4"}, "drill_larger_than_thread", "/hole/drill"),
    ({"drill": "#400"}, "drill_unknown", "/hole/drill"),
    ({"drill_depth": 0.76}, "drill_depth_limit_too_shallow", "/hole/drill_depth"),
    ({"drill_depth": 0.5}, "thread_deeper_than_hole", "/hole/full_thread_depth"),
    ({"least_drill_depth": 1.2, "drill_depth_limit": 1.1}, "range_inconsistent", "/hole/least_drill_depth"),
)  # fmt: skip


@pytest.mark.parametrize(("stated", "code", "pointer"), REFUSED)
def test_what_cannot_be_made_is_refused_at_its_field(stated, code, pointer):
    with pytest.raises(BorewrightError) as caught:
        reply("1/4-20 UNC-2B", {**BLIND, **stated})
    assert (caught.value.faults[0].code, caught.value.faults[0].pointer) == (code, pointer)


def test_a_hole_that_the_tap_cannot_enter_is_infeasible():
    found = reply("M8", {"type": "blind", "full_thread_depth": 16, "drill": "5 mm"})
    assert found["verdict"] == "infeasible"
    assert found["review"][0]["code"] == "drill_of_drawing"


def test_a_depth_in_the_other_unit_is_told_to_a_thousandth_of_a_millimetre():
    """0.8123 in are 20.63242 mm."""
    hole = {"type": "blind", "full_thread_depth": "10 mm", "drill_depth": "0.8123 in"}
    (said,) = told(reply("M8", hole, unit_system="metric"), "the drawing states")
    assert said.startswith("the drawing states 20.632 mm of full drill diameter; ")


def test_a_counterbored_taper_thread_starts_at_the_floor():
    """A 1/4-18 NPT tap runs 0.6868 in past the face it starts from (ASME B94.9): 0.25 in more from the outer face."""
    hole = {"type": "through", "thickness": 1}
    deep = reply("1/4-18 NPT", {**hole, "counterbore": {"diameter": 0.8, "depth": 0.25}})["depths"]["tap_travel"]
    assert deep - reply("1/4-18 NPT", hole)["depths"]["tap_travel"] == pytest.approx(0.25)
