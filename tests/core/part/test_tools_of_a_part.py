"""What tools are called, in which set-up they work, and how a part counts, orders and times them: lines set by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core.part.away import away_from_spindle
from borewright.core.part.kit import kit
from borewright.core.part.model import PartRequest, Times
from borewright.core.part.steps import steps_of, time_of
from borewright.core.part.tool_list import tool_list
from borewright.core.part.used_tools import tool_name, used_tools
from every import every
from made_parts import USUAL, line, planned, specified

D = Decimal
DRILL, TAP = USUAL["drill"], USUAL["tap"]
MILL = {"kind": "thread mill", "form_angle": D(60), "pitch": D("0.076923"), "hand": "right", "starts": 1}


@every(
    ("operation", "tool", "unit", "name"),
    [
        ("drill", DRILL, "in", "#7 twist drill"),
        ("drill", {**DRILL, "point_angle": D(140)}, "in", "#7 twist drill, 140 degree point"),
        ("drill", {**DRILL, "point_angle": D("117.5")}, "in", "#7 twist drill, 117.5 degree point"),
        ("drill", {"kind": "flat-bottom drill", "label": "6.8 mm", "point_angle": D(180)}, "mm",
         "6.8 mm flat-bottom drill, 180 degree point"),
        ("drill", {**DRILL, "length": "jobber", "diameter": D("0.201")}, "in", "#7 twist drill"),
        ("drill", {**DRILL, "length": "standard", "shank": None}, "in", "#7 twist drill"),
        ("drill", {**DRILL, "length": "taper_length"}, "in", "#7 twist drill, taper length"),
        ("pilot_drill", {"kind": "twist drill", "label": "3/8", "length": "extended"}, "in", "3/8 twist drill"),
        ("tap", TAP, "in", "1/4-20, spiral flute, plug"),
        ("tap", {**TAP, "chamfer": "semi_bottoming"}, "in", "1/4-20, spiral flute, semi-bottoming"),
        ("tap", {**TAP, "surface": "TiN"}, "in", "1/4-20, spiral flute, plug, TiN"),
        ("tap", {**TAP, "surface": "steam_oxide"}, "in", "1/4-20, spiral flute, plug, steam oxide"),
        ("tap", {**TAP, "style": "taper_pipe", "chamfer": "taper_pipe"}, "in", "1/4-20, taper pipe"),
        ("tap", {**TAP, "length": "extended", "shank": "small_shank"}, "in",
         "1/4-20, spiral flute, plug, extended, small shank"),
        ("spot_drill", USUAL["spot_drill"], "in", "spot drill, 120 degree"),
        ("countersink", {"kind": "countersink", "included_angle": D("82.0")}, "mm", "countersink, 82 degree"),
        ("countersink", {**USUAL["countersink"], "length": "extended"}, "mm", "countersink, 90 degree"),
        ("ream", {"kind": "reamer", "diameter": D("0.2130"), "taper": None}, "in", "reamer, 0.213~in"),
        ("ream", {"kind": "taper reamer", "taper": "1 in 16 on diameter"}, "in", "taper reamer, 1 in 16 on diameter"),
        ("redrill", {"kind": "drill or reamer", "label": "43/64", "diameter": D("0.671875")}, "in",
         "drill or reamer, 43/64, 0.6719~in"),
        ("counterbore", {"kind": "counterbore", "diameter": D("14.00")}, "mm", "counterbore, 14~mm"),
        ("thread_mill", MILL, "in", "thread mill, 60 degree, 0.0769~in, right, 1"),
        ("single_point_thread", {"kind": "tool", "form_angle": D(29), "substrate": "high_speed_steel"}, "in",
         "tool, 29 degree, high speed steel"),
    ],
)  # fmt: skip
def test_a_tool_is_named_by_what_makes_it_another_one(operation, tool, unit, name):
    assert tool_name(operation, tool, unit) == name.replace("~", "\N{NO-BREAK SPACE}")


@every(
    ("operations", "stages"),
    [
        ("spot_drill drill countersink tap inspect", (0, 0, 0, 0)),
        # what follows a bath, an oven, a mask or a turn of the part is set up anew; an inspection is not
        ("drill inspect tap", (0, 0)),
        ("drill finish redrill tap", (0, 1, 1)),
        ("drill harden tap", (0, 1)),
        ("drill mask finish strip tap", (0, 1)),
        ("drill turn_over countersink bake tap", (0, 1, 2)),
        ("drill wash tap finish", (0, 0)),
        ("spot_drill pilot_drill drill ream bore counterbore countersink", (0,) * 7),
        ("thread_mill single_point_thread", (0, 0)),
    ],
)
def test_a_tool_works_in_the_set_up_that_its_place_asks(operations, stages):
    hole = planned("A", *operations.split())
    assert tuple(one.stage for one in hole.used) == stages
    assert used_tools(hole.specification) == hole.used


def test_what_is_done_away_from_the_spindle_stands_in_its_order_after_its_set_up():
    """A and B share bath and gauge; B's last gauge is another. By set-up, then by how long after the spindle."""
    wash, zinc, gauge = line("wash", "Wash"), line("finish", "Zinc"), line("inspect", "Gauge")
    first = planned("A", "drill", "tap", wash, zinc, gauge)
    other = planned("B", "drill", line("bake", "Bake"), "tap", wash, zinc, line("inspect", "Another gauge"))
    third = planned("C", "drill", "tap", gauge)
    told = [(one.after_stage, one.operation, one.text, one.holes) for one in away_from_spindle([first, other, third])]
    assert told == [
        (1, "wash", "Wash", ("A",)),
        (1, "bake", "Bake", ("B",)),
        (1, "inspect", "Gauge", ("C",)),
        (1, "finish", "Zinc", ("A",)),
        (1, "inspect", "Gauge", ("A",)),
        (2, "wash", "Wash", ("B",)),
        (2, "finish", "Zinc", ("B",)),
        (2, "inspect", "Another gauge", ("B",)),
    ]


def labelled(label, **more):
    return line("drill", label=label, **more)


def test_the_tools_of_a_part_by_kind_and_by_the_holes_that_they_serve():
    """#7 serves 2 + 3 holes, the taps 2 and 3; of equal ones by name."""
    holes = [
        planned("A", "spot_drill", labelled("#7"), "countersink", line("tap", marking="H3"), count=2),
        planned("B", "spot_drill", labelled("#7"), labelled("#7"), line("tap", marking="H5"), count=3),
        planned("C", labelled("#6"), line("tap", marking="H2"), count=3),
    ]
    found = tool_list(holes)
    assert [(one.name, one.kind, one.holes, one.count) for one in found] == [
        ("spot drill, 120 degree", "spot_drill", ("A", "B"), 5),
        ("#7 twist drill", "drill", ("A", "B"), 5),
        ("#6 twist drill", "drill", ("C",), 3),
        ("countersink, 90 degree", "countersink", ("A",), 2),
        ("H2, spiral flute, plug", "tap", ("C",), 3),
        ("H5, spiral flute, plug", "tap", ("B",), 3),
        ("H3, spiral flute, plug", "tap", ("A",), 2),
    ]


def test_a_tool_is_told_with_what_is_no_length_and_whether_the_crib_has_it():
    """The drill of 1/4-20 is #7: 0.2010 in, 5.105 mm. Lengths are left out, angles are none."""
    own = specified()
    assert own.drill.recommended.drill.label == "#7"
    for in_stock, special, availability in (
        (None, False, "standard"),
        (True, False, "standard"),
        (False, True, "special"),
    ):
        drill = replace(own.drill, recommended=replace(own.drill.recommended, in_stock=in_stock, special=special))
        tap = replace(
            own.tap, recommended=replace(own.tap.recommended, in_stock=not in_stock, availability=availability)
        )
        lines = (
            line("spot_drill"),
            labelled("#7", diameter=D("0.201"), series=None),
            line("tap", limit="H3", pitch=D("0.05")),
        )
        spot, first, last = tool_list([planned("A", *lines, drill=drill, tap=tap)])
        assert (first.in_stock, first.availability, first.diameter_mm) == (
            in_stock,
            availability,
            pytest.approx(5.105, abs=2e-3),
        )
        assert first.details == {"kind": "twist drill", "label": "#7", "point_angle": 118}
        assert (last.in_stock, last.availability, last.diameter_mm) == (not in_stock, availability, None)
        assert last.details == {**TAP, "limit": "H3"}
        assert (spot.in_stock, spot.availability, spot.diameter_mm) == (None, "standard", None)
        assert spot.details == {"kind": "spot drill", "included_angle": 120}
    bare = tool_list([planned("A", "drill", "tap", drill=None, tap=None)])
    assert [(one.in_stock, one.availability, one.diameter_mm) for one in bare] == [(None, "standard", None)] * 2


def test_the_kit_has_each_thing_once_in_the_order_in_which_it_is_needed():
    gauge, mask, insert = line("inspect", "Gauge"), line("mask", "Mask"), line("install_insert", "Fit insert")
    holes = [
        planned("A", "drill", "tap", gauge, line("wash", "Wash"), mask, line("finish", "Zinc")),
        planned("B", "drill", "tap", gauge, insert, line("break_off_tang", "Break"), line("inspect", "Other")),
        planned("C", "drill", "tap", mask, gauge, of=specified(material=None)),
        planned("D", "drill", "tap", mask, gauge, of=specified(material="4140")),
    ]
    found = kit(holes, tool_list(holes), 1)
    assert found.tools == ("#7 twist drill", "1/4-20, spiral flute, plug")
    assert (found.gauges, found.other) == (("Gauge", "Other"), ("Mask", "Fit insert", "Break"))
    fluids = [specified(material=name).process.cutting.fluid for name in ("6061-T6", "4140")]
    assert fluids[0] != fluids[1]
    assert found.fluids == tuple(
        f"{use}: {text}" for one in fluids for use, text in (("drilling", one.drilling), ("tapping", one.tapping))
    )


#: 4 s a change, 0.5 s a hole.
TIMES = Times(4.0, 0.5)


def turning(rpm):
    return {"spindle_speed": rpm}


def test_steps_are_timed_hole_by_hole():
    """Spot 2 x 1 + 3 x 2 s; drill 2 x 3 s, and in B nothing is known; a bath, then the tap in a second set-up."""
    feed = specified().process.cutting.drill.feed_mm_rev
    first = planned(
        "A",
        line("spot_drill", time_s=1.0, parameters=turning(900)),
        labelled("#7", time_s=3.0, parameters=turning(1200)),
        "finish",
        line("tap", time_s=5.0, parameters=turning(400)),
        count=2,
    )
    other = planned(
        "B",
        line("spot_drill", time_s=2.0, parameters=turning(600)),
        labelled("#7", parameters=turning(None)),
        line("tap", time_s=1.0),
        count=3,
        of=specified(material=None),
    )
    steps, proved = steps_of([first, other], TIMES)
    assert proved
    told = [(one.number, one.stage, one.tool, one.operation, one.holes, one.count) for one in steps]
    assert told == [
        (1, 1, "spot drill, 120 degree", "spot_drill", ("A", "B"), 5),
        (2, 1, "#7 twist drill", "drill", ("A", "B"), 5),
        (3, 1, "1/4-20, spiral flute, plug", "tap", ("B",), 3),
        (4, 2, "1/4-20, spiral flute, plug", "tap", ("A",), 2),
    ]
    assert [one.time_s for one in steps] == [8.0, None, 3.0, 10.0]
    assert [(one.tool_change_s, one.positioning_s) for one in steps] == [(4, 2.5), (4, 2.5), (4, 1.5), (4, 1.0)]
    assert [one.speeds_rpm for one in steps] == [(600, 900), (1200,), (), (400,)]
    assert [one.feeds_mm_rev for one in steps] == [(), (feed,), (), ()]
    request = PartRequest((), 0.95, "fewest_tools", TIMES, lot_size=20)
    # 8 + 3 + 10 s of cutting, 4 x 4 s, 2.5 + 2.5 + 1.5 + 1 s; 20 parts
    assert time_of(steps, request) == (21.0, 16.0, 7.5, 44.5, 890.0, 4, 1)


def test_the_first_tool_is_that_of_its_kind_which_serves_most_holes():
    """Spots, then drills by falling count of holes and by name, then taps."""
    few, many = planned("A", labelled("#1"), "tap", count=2), planned("B", labelled("#9"), "tap", count=3)
    same = planned("C", "spot_drill", labelled("#5"), "tap", count=2)
    steps, _ = steps_of([few, many, same], TIMES)
    assert [one.tool.split()[0] for one in steps] == ["spot", "#9", "#1", "#5", "1/4-20,"]


def test_one_set_up_that_is_not_proved_leaves_the_whole_order_unproved():
    """Every hole needs three drills, each pair of them in both orders: more states than are searched."""

    def drilled(number):
        return [labelled(f"d{number}"), labelled(f"c{number % 3}"), labelled(f"d{(number + 7) % 20}")]

    tangled = [planned(f"T{number}", "harden", *drilled(number)) for number in range(20)]
    assert steps_of(tangled, TIMES)[1] is False
    assert steps_of([planned("A", "drill", "tap"), *tangled], TIMES)[1] is False
    later = [planned(f"T{number}", *drilled(number), "harden", "tap") for number in range(20)]
    assert steps_of(later, TIMES)[1] is False


def test_a_step_that_does_two_things_is_called_by_that_of_its_first_hole():
    """A 120 degree spot drill spots A and chamfers B, which needs no spot."""
    chamfered = line("countersink", kind="spot drill", included_angle=Decimal(120))
    steps, _ = steps_of([planned("A", "spot_drill", "drill"), planned("B", chamfered, "drill")], TIMES)
    assert [(one.operation, one.holes) for one in steps] == [("spot_drill", ("A", "B")), ("drill", ("A", "B"))]
