"""Where one tool gives way to another: pilots, spot drills, countersinks, reamers, at both sides of each limit.

The limits are those of the practice tables (common practice): a pilot above 1 in or 25 mm, a second one above 1.5 in or
38 mm, spot drills to 1 in or 25 mm, countersinks to 3 in or 75 mm, reamers for 0.020 in or 0.5 mm.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan import pilot_drilling
from borewright.core.plan.ream_or_bore import is_bored
from borewright.core.plan.specify import specify
from every import every

D = Decimal
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def lines(found, operation):
    return [one.line for one in found.operations if one.line.operation == operation]


@every(
    ("diameter", "unit", "steps"),
    [
        ("1", "in", ()),
        # 0.3 x 1.001 = 0.3003 in, 4.8 sixteenths
        ("1.001", "in", ("0.3125",)),
        # 0.45 in, 7.2 sixteenths
        ("1.5", "in", ("0.4375",)),
        # 0.4503 and 0.65 x 1.501 = 0.9757 in: 7.2 and 15.6 sixteenths
        ("1.501", "in", ("0.4375", "1")),
        ("25", "mm", ()),
        # 7.65 mm
        ("25.5", "mm", ("8",)),
        # 11.4 mm
        ("38", "mm", ("11",)),
        # 11.55 and 25.025 mm
        ("38.5", "mm", ("12", "25")),
        # 10.5 mm, to the even one
        ("35", "mm", ("10",)),
        # 30 and 65 mm
        ("100", "mm", ("30", "65")),
    ],
)
def test_pilots_by_the_diameter_of_the_drill(diameter, unit, steps):
    assert pilot_drilling.pilots(D(diameter), unit) == tuple(map(D, steps))


@every(
    ("thread", "hole", "expected"),
    [
        # drill 2-1/4: 0.675 in is 10.8 sixteenths, 1.4625 in 23.4
        ("2 1/2-4 UNC-2B", {"type": "through", "thickness": "2.0625 in"}, [
            ("11/16", "0.6875", "2.062", "Pilot drill 11/16 (0.6875 in), 2.062 in deep; speed not held"),
            ("1-7/16", "1.4375", "2.062", "Pilot drill 1-7/16 (1.4375 in), 2.062 in deep; speed not held"),
        ]),
        # drill 58 mm: 17.4 and 37.7 mm
        ("M64", {"type": "through", "thickness": "60.25 mm"}, [
            ("17 mm", "17", "60.25", "Pilot drill 17 mm (17.00 mm), 60.25 mm deep; speed not held"),
            ("38 mm", "38", "60.25", "Pilot drill 38 mm (38.00 mm), 60.25 mm deep; speed not held"),
        ]),
        # drill 1-9/16: 0.46875 in is 7.5 sixteenths, to the even one, 1.0156 in 16.25
        ("1 3/4-5 UNC-2B", THROUGH, [
            ("1/2", "0.5", "0.75", "Pilot drill 1/2 (0.5000 in), 0.75 in deep; speed not held"),
            ("1", "1", "0.75", "Pilot drill 1 (1.0000 in), 0.75 in deep; speed not held"),
        ]),
        ("M8", MM, []),
    ],
)  # fmt: skip
def test_the_lines_of_the_pilots(thread, hole, expected):
    found = lines(spec(thread, hole), "pilot_drill")
    assert [(one.tool, one.parameters, plain(one.text)) for one in found] == [
        ({"kind": "twist drill", "label": label, "diameter": D(diameter)}, {"depth": D(depth)}, text)
        for label, diameter, depth, text in expected
    ]


def test_what_a_large_drill_asks_of_the_spindle():
    """Thrust and torque from solid where they are held; the steps that spare them."""
    for more in ({}, {"material": "acetal"}, {"material": "1018"}):
        found = spec("2 1/2-4 UNC-2B", {"type": "through", "thickness": "2 in"}, **more)
        ((code, text),) = [(one.code, one.text) for one in found.notes.cautions if one.code == "drill_thrust"]
        cut = None if found.process.cutting is None else found.process.cutting.drill
        figures = "its thrust is not held"
        if more.get("material") == "1018":
            thrust, torque = (f"{D(f'{value:.3g}'):f}" for value in (cut.thrust_n, cut.torque_n_m))
            figures = f"from solid it pushes with {thrust} N and turns with {torque} N*m"
        assert (code, plain(text)) == (
            "drill_thrust",
            f"A drill of 2.25 in is large: {figures}. Open out in steps, 11/16 (0.6875 in), then 1-7/16 (1.4375 in),"
            " then to size; check thrust, torque and clamping, or bore the hole to size.",
        )
    assert not [one for one in spec("M8", MM).notes.cautions if one.code == "drill_thrust"]


@every(
    ("thread", "ream", "drill", "bored"),
    [
        ("3/8-16 UNC-2B", "0.3325", "0.3125", False),
        ("3/8-16 UNC-2B", "0.3326", "0.3125", True),
        ("M8", "7.3", "6.8", False),
        ("M8", "7.301", "6.8", True),
        ("M8", None, "6.8", False),
    ],
)
def test_a_reamer_takes_a_fiftieth_of_an_inch_or_half_a_millimetre(thread, ream, drill, bored):
    choice = spec(thread, INCH if "UNC" in thread else MM).drill
    best = replace(choice.recommended, diameter=D(drill))
    given = replace(choice, recommended=best, ream_diameter=None if ream is None else D(ream))
    assert is_bored(given, "in" if "UNC" in thread else "mm") is bored


def sunk(thread, diameter, **hole):
    stated = {"countersink": {"diameter": diameter}}
    return spec(thread, {"type": "through", "thickness": "100 mm", **stated, **hole})


@every(
    ("thread", "diameter", "spot", "sink"),
    [
        # wider than any spot drill: as wide as the drill that it starts, or its pilot
        ("M20", "24.99 mm", "24.99", "Countersink 24.99 mm diameter"),
        ("M20", "25 mm", "25", "Countersink 25 mm diameter"),
        ("M20", "25.01 mm", "17.5", "Countersink 25.01 mm diameter"),
        ("3/4-10 UNC-2B", "1 in", "1", "Countersink 1 in diameter"),
        ("3/4-10 UNC-2B", "1.001 in", "0.6562", "Countersink 1.001 in diameter"),
        # drill 58 mm, its first pilot 17.4
        ("M64", "75 mm", "17", "Countersink 75 mm diameter"),
        ("M64", "75.01 mm", "17", "Chamfer to 75.01 mm diameter"),
        # drill 2-1/4 in, its first pilot 0.675
        ("2 1/2-4 UNC-2B", "3 in", "0.6875", "Countersink 3 in diameter"),
        ("2 1/2-4 UNC-2B", "3.001 in", "0.6875", "Chamfer to 3.001 in diameter"),
        # drill 100 mm, its first pilot 30: the widest spot drill there is
        ("M120x6", "126 mm", "25", "Chamfer to 126 mm diameter"),
    ],
)
def test_spot_drill_and_countersink_as_wide_as_there_are(thread, diameter, spot, sink):
    found = sunk(thread, diameter)
    (spotted,), (edge,) = lines(found, "spot_drill"), lines(found, "countersink")
    assert spotted.parameters["diameter"] == D(spot)
    assert plain(edge.text).startswith(sink)
    milled = sink.startswith("Chamfer")
    assert edge.tool["kind"] == ("chamfer mill or boring bar" if milled else "countersink")
    assert ("with a chamfer mill or boring bar" in edge.text) is milled


@every(
    ("hole", "order"),
    [
        ({"thickness": "0.5 in"}, ["countersink", "turn_over", "countersink", "tap"]),
        # from where the thread does not begin it cannot be tapped: the far side comes after the tap
        ({"thickness": "1 in", "full_thread_depth": "0.5 in"}, ["countersink", "tap", "turn_over", "countersink"]),
        ({"thickness": "1 in", "counterbore": {"diameter": "0.5 in", "depth": "0.2 in"}},
         ["counterbore", "countersink", "tap", "turn_over", "countersink"]),
    ],
)  # fmt: skip
def test_the_far_side_is_sunk_before_the_tap_where_it_may_come_from_there(hole, order):
    sink = {"diameter": "0.28 in", "angle": 82, "sides": "both"}
    found = spec("1/4-20 UNC-2B", {"type": "through", **hole, "countersink": sink}, material="1018")
    kept = [one.line for one in found.operations if one.line.operation not in ("spot_drill", "drill", "inspect")]
    assert [line.operation for line in kept] == order
    near, far = lines(found, "countersink")
    assert plain(far.text) == plain(near.text).replace("82 degrees,", "82 degrees, far side,")
    assert (far.tool, far.parameters, far.time_s) == (near.tool, near.parameters, near.time_s)
    (turned,) = lines(found, "turn_over")
    assert (turned.tool, turned.parameters, turned.text) == ({"kind": "clamping"}, {}, "Turn the part over")


@every(
    ("thread", "hole", "order"),
    [
        ("1/4-20 UNC-2B", {"thickness": "0.5 in", "countersink": {"diameter": "0.28 in", "sides": "one"}}, 1),
        ("1/4-20 UNC-2B", {"thickness": "0.5 in"}, 1),
        ("1/4-18 NPT", {"thickness": "0.75 in", "countersink": {"diameter": "0.6 in", "sides": "both"}}, 2),
    ],
)
def test_one_side_needs_no_turning_over(thread, hole, order):
    found = spec(thread, {"type": "through", **hole})
    assert len(lines(found, "countersink")) == order
    assert len(lines(found, "turn_over")) == order - 1
    names = [one.line.operation for one in found.operations]
    assert order == 1 or names.index("tap") < names.index("turn_over")


def test_a_blind_hole_has_no_far_side():
    hole = {**INCH, "countersink": {"diameter": "0.28 in", "sides": "both"}}
    try:
        found = spec("1/4-20 UNC-2B", hole)
    except Exception as refused:
        assert "countersink" in str(refused)
    else:
        assert len(lines(found, "countersink")) == 1


def test_lengths_of_cutting_data_are_told_to_a_ten_thousandth_or_a_micrometre():
    for thread, hole, per_unit, places in (("3/8-16 UNC-2B", INCH, D("25.4"), "0.0001"), ("M8", MM, D(1), "0.001")):
        found = spec(thread, hole, material="1018")
        cut, peck = found.process.cutting.drill, found.process.cutting.peck
        (drill,) = lines(found, "drill")
        assert drill.parameters["feed"] == (D(repr(cut.feed_mm_rev)) / per_unit).quantize(D(places))
        # three diameters first, one more each (common practice)
        first, after = found.drill.recommended.diameter * 3, found.drill.recommended.diameter
        assert (drill.parameters["first_peck"], drill.parameters["next_peck"]) == (first, after)
        assert (drill.parameters["pecks"], peck.count) == (2, 2)
