"""Spot drill, drill, reamer and countersink with what the operator needs; shares and geometry by hand."""

from math import pi, radians, tan

import pytest
from borewright.contract import replies
from borewright.contract.requests import HOLE_SPEC
from borewright.core.cutting.drill_tool import drill_tool
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.plan.specify import specify

BLIND = {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.75}, "material": "4140"}
METRIC = {**BLIND, "hole": {"type": "blind", "full_thread_depth": "0.75 in"}, "unit_system": "metric"}
DEEP = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 14}, "material": "4140"}


def _operations(request):
    asked = HOLE_SPEC.asked(request)
    reply = replies.hole_spec_reply(specify(asked.request), asked)
    return {line["operation"]: line for line in reply["operations"]}, reply


def _turns(line):
    return line["parameters"]["spindle_speed"]


def test_every_cutting_operation_has_speed_feed_and_time():
    for request in (BLIND, DEEP, {**BLIND, "material": "6061-T6"}, METRIC):
        lines, _ = _operations(request)
        for name in ("spot_drill", "drill", "countersink"):
            line = lines[name]
            unit = "mm/rev" if request in (METRIC, DEEP) else "in/rev"
            assert f"{_turns(line)} rev/min, feed" in line["text"]
            assert line["parameters"]["feed"] > 0
            assert line["time"] > 0
            assert line["parameters"]["depth"] > 0
            assert name == "drill" or unit in line["text"]


def test_spot_drill_is_a_cone():
    """120 degrees to the diameter of the countersink: depth is its radius over tan 60."""
    line = _operations(BLIND)[0]["spot_drill"]
    depth = line["parameters"]["diameter"] / 2 / tan(radians(60))
    assert line["parameters"]["depth"] == pytest.approx(depth, abs=1e-4)
    assert f"{depth:.3f} in deep" in line["text"]
    assert f"{line['parameters']['diameter']:g} in diameter" in line["text"]


def test_a_large_hole_is_spotted_for_its_first_drill_and_chamfered_from_where_it_is_bored():
    """By hand: (126 - 114) / 2 / tan 60 = 3.46 mm; no spot drill or countersink is sold that wide (common practice)."""
    lines, reply = _operations({"thread": "M120x6", "hole": {"type": "through", "thickness": 80}, "material": "4140"})
    assert lines["spot_drill"]["parameters"]["diameter"] == 25
    assert lines["bore"]["tool"]["diameter"] == 114
    edge = lines["countersink"]
    assert edge["parameters"] == {"diameter": 126, "depth": pytest.approx(3.464, abs=1e-3)}
    assert edge["text"].startswith("Chamfer to 126")
    assert "bore 114" in reply["headline"]["drill"]
    lines, _ = _operations({"thread": "M64", "hole": {"type": "through", "thickness": 60}})
    assert lines["spot_drill"]["parameters"]["diameter"] == 17  # its first pilot


def test_countersink_goes_from_the_hole_to_its_diameter_at_a_third_of_the_speed():
    lines, reply = _operations(BLIND)
    line, drill = lines["countersink"], reply["drill"]["recommended"]["diameter"]
    depth = (line["parameters"]["diameter"] - drill) / 2  # 90 degrees
    assert line["parameters"]["depth"] == pytest.approx(depth, abs=1e-4)
    drilled = pi * drill * _turns(lines["drill"])
    assert pi * line["parameters"]["diameter"] * _turns(line) == pytest.approx(0.33 * drilled, rel=0.02)
    minutes = line["parameters"]["depth"] / (line["parameters"]["feed"] * _turns(line))
    assert line["time"] == pytest.approx(60 * minutes, rel=0.02)


def test_pecks_say_where():
    lines, reply = _operations(DEEP)
    line, peck = lines["drill"], reply["cutting_data"]["drill"]["peck"]
    tip, drill = line["parameters"]["tip_depth"], reply["drill"]["recommended"]["diameter"]
    assert peck["count"] == 2
    assert f"2 pecks: at {3 * drill:g} mm, {tip:g} mm" in line["text"]
    assert line["parameters"]["next_peck"] == pytest.approx(drill)


def test_many_pecks_are_told_by_their_step():
    request = {**BLIND, "hole": {"type": "through", "thickness": 3}, "material": "6061-T6"}
    lines, reply = _operations(request)
    drill = reply["drill"]["recommended"]["diameter"]
    assert f"pecks: at {3 * drill:.3f} in, then every {drill:.3f} in" in lines["drill"]["text"]


def test_a_machine_that_turns_slowly_holds_every_tool_down():
    lines, _ = _operations({**BLIND, "machine": {"max_spindle_speed": 100}})
    assert all(_turns(lines[name]) <= 100 for name in ("spot_drill", "drill", "countersink", "tap"))


def test_without_a_material_depths_are_still_told():
    lines, _ = _operations({name: value for name, value in BLIND.items() if name != "material"})
    assert lines["spot_drill"]["parameters"]["depth"] > 0
    assert "spindle_speed" not in lines["spot_drill"]["parameters"]
    assert lines["drill"]["tool"]["substrate"] == "HSS"


@pytest.mark.parametrize(
    ("text", "substrate", "point"),
    [
        ("1018", "HSS", "conventional"),
        ("4140 28 HRC", "HSS", "conventional"),
        ("4140 36 HRC", "HSS-E", "split"),
        ("4140 45 HRC", "carbide", "split"),  # common practice: carbide above some 40 to 45 HRC
        ("D2 50 HRC", "carbide", "split"),
        ("17-4PH H900", "carbide", "split"),
        ("304", "HSS-E", "split"),
        ("Ti-6Al-4V", "HSS-E", "split"),
        ("6061-T6", "HSS", "conventional"),
        ("C360", "HSS", "conventional"),
        ("GG25", "HSS", "conventional"),
    ],
)
def test_the_drill_is_named_like_the_tap(text, substrate, point):
    found = drill_tool(part_material.find(MaterialInput(text)))
    assert (found.substrate, found.point) == (substrate, point)
    lines, _ = _operations({**BLIND, "material": text})
    if lines:
        tool = lines["drill"]["tool"]
        assert (tool["substrate"], tool["surface"], tool["point"]) == (found.substrate, found.surface, found.point)
        assert f"{found.substrate} {found.surface}" in lines["drill"]["text"]
