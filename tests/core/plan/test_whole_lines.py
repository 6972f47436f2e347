"""Lines of a routing whole: tool, parameters, words and time, of threads that are tapped, milled, turned and reamed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan.specify import specify
from every import every

D = Decimal
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}
PLATE = {"type": "through", "thickness": "60 mm"}
COAT = {"finish": {"thickness": {"min": "0.0003 in", "max": "0.0003 in"}}}


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def lines(found, *operations):
    return [one.line for one in found.operations if one.line.operation in operations]


def tap(marking, style, chamfer, limit, **more):
    return {
        "kind": "tap", "marking": marking, "style": style, "chamfer": chamfer, "limit": limit, "substrate": "HSS",
        "surface": "bright", **more,
    }  # fmt: skip


def cutter(kind, angle, pitch, hand, substrate):
    return {"kind": kind, "form_angle": angle, "pitch": pitch, "hand": hand, "starts": 1, "substrate": substrate}


@every(
    ("thread", "hole", "more", "tools", "parameters"),
    [
        # 16 + 2.5 x 1.25 = 19.125, to the even hundredth
        ("M8", MM, {}, [tap("M8x1.25 HSS ISO2/6H", "spiral_flute", "semi_bottoming", "ISO 2")],
         {"full_thread_depth": 16, "travel": "19.12", "lead": "1.25"}),
        # through: 0.75 + 5 threads of chamfer and a pitch of clearance
        ("3/8-16 UNC-2B", THROUGH, {}, [tap("3/8-16 NC HSS G H5", "spiral_point", "plug", "H5")],
         {"full_thread_depth": "0.75", "travel": "1.125", "lead": "0.0625"}),
        # the holder stays 60 mm above: 60 + 19.125
        ("M8", {**MM, "access_depth": "60 mm"}, {}, [
            tap("M8x1.25 HSS ISO2/6H", "spiral_flute", "semi_bottoming", "ISO 2", reach=D("79.12"), length="extended",
                shank="standard"),
        ], {"full_thread_depth": 16, "travel": "19.12", "lead": "1.25"}),
        # L1 + 3 threads; 0.6868 x 18 = 12.36 turns
        ("1/4-18 NPT", THROUGH, {}, [tap("1/4-18 NPT HSS G", "taper_pipe", "taper_pipe", None)],
         {"full_thread_depth": "0.3945", "travel": "0.6868", "lead": "0.0555556", "turns": 12.36,
          "turns_past_gauge_line": 0.0}),
        # a coat of 0.0003 in closes the pitch diameter by 0.0012: 0.0192 in deeper, 0.35 and 12.71 turns
        ("1/4-18 NPT", THROUGH, COAT, [tap("1/4-18 NPT HSS G", "taper_pipe", "taper_pipe", None)],
         {"full_thread_depth": "0.3945", "travel": "0.7060", "lead": "0.0555556", "turns": 12.71,
          "turns_past_gauge_line": 0.35}),
    ],
)  # fmt: skip
def test_taps_with_their_travel(thread, hole, more, tools, parameters):
    found = lines(spec(thread, hole, **more), "tap")
    assert [one.tool for one in found] == tools
    for one in found:
        turns = {name: value for name, value in parameters.items() if isinstance(value, float)}
        assert one.parameters == {
            **{name: D(value) for name, value in parameters.items() if name not in turns},
            **turns,
        }
        assert one.time_s is None


@every(
    ("thread", "hole", "tool", "parameters", "text"),
    [
        # a mill goes a pitch past the thread: 60 + 6; 64 - 0.649519 x 6 = 60.103, tolerance 0.375 (ISO 965-1)
        ("M64", PLATE, cutter("thread mill", 60, 6, "right", "carbide"),
         {"full_thread_depth": 60, "travel": 66, "lead": 6},
         "Thread-mill M64x6-6H, 60 degree, pitch 6 mm, right-hand, full thread 60 mm deep, in passes to pitch diameter"
         " 60.103 to 60.478 mm; speed not held"),
        ("M64 LH", PLATE, cutter("thread mill", 60, 6, "left", "carbide"),
         {"full_thread_depth": 60, "travel": 66, "lead": 6},
         "Thread-mill M64x6-6H LH, 60 degree, pitch 6 mm, left-hand, full thread 60 mm deep, in passes to pitch"
         " diameter 60.103 to 60.478 mm; speed not held"),
        # 0.675 between broken edges and a pitch of 0.25 past the wall
        ("1 1/2-4 ACME-2G", THROUGH,
         cutter("single-point threading tool", 29, D("0.25"), "right", "carbide or high-speed steel"),
         {"full_thread_depth": D("0.675"), "travel": 1, "lead": D("0.25")},
         "Single-point 1 1/2-4 ACME-2G, 29 degree, pitch 0.25 in, right-hand, full thread 0.675 in deep, in passes to"
         " pitch diameter 1.3750 to 1.3973 in; speed not held"),
    ],
)  # fmt: skip
def test_threads_that_no_tap_makes(thread, hole, tool, parameters, text):
    (found,) = lines(spec(thread, hole), "thread_mill", "single_point_thread")
    assert (found.tool, found.parameters, plain(found.text), found.time_s) == (tool, parameters, text, None)
    assert found.operation == ("thread_mill" if text.startswith("Thread") else "single_point_thread")


@every(
    ("thread", "hole", "more", "expected"),
    [
        # minor 2.196 to 2.206: reamed to its middle, 0.0135 over 2-3/16
        ("2 1/4-20 UN-3B", THROUGH, {}, [
            ("ream", {"kind": "reamer", "diameter": D("2.201")}, {"depth": D("0.75")}, "Ream 2.201 in diameter"),
        ]),
        # bored: 0.0238 over 1-1/32
        ("1 1/4-5 ACME-2G", THROUGH, {"material": "C93200"}, [
            ("bore", {"kind": "boring bar", "diameter": D("1.055")}, {"depth": D("0.75")}, "Bore 1.055 in diameter"),
        ]),
        # Rc 3: useful thread 21.1 (ISO 7-1 as JIS B 0203 prints it, through); a straight hole, then its taper
        ("Rc 3", PLATE, {}, [
            ("ream", {"kind": "reamer", "diameter": D("83.88")}, {"depth": 60}, "Ream 83.88 mm diameter"),
            ("ream", {"kind": "taper reamer", "taper": "1 in 16 on diameter"}, {"depth": D("21.1")},
             "Taper ream 1 in 16, 21.1 mm deep"),
        ]),
        ("1/4-18 NPT", THROUGH, {}, []),
        ("M8", MM, {}, []),
    ],
)  # fmt: skip
def test_reamers_and_boring_bars(thread, hole, more, expected):
    found = [
        (one.operation, one.tool, one.parameters, plain(one.text))
        for one in lines(spec(thread, hole, **more), "ream", "bore")
    ]
    assert found == expected


@every(
    ("material", "by_hand", "words"),
    [
        (None, False, "semi-bottoming chamfer, full thread 0.75 in deep"),
        (None, True, ", by hand"),
        ("1018", True, ", by hand, {fluid}"),
        ("1018", False, ", full thread 0.75 in deep, {speed} rev/min, {fluid}"),
        ("acetal", False, ", speed not held, {fluid}"),
        ("acetal", True, ", by hand, {fluid}"),
    ],
)
def test_how_fast_and_with_what_fluid_it_is_tapped(material, by_hand, words):
    named = {} if material is None else {"material": material}
    found = spec("3/8-16 UNC-2B", INCH, **named, **({"machine": {"tapping": "hand"}} if by_hand else {}))
    cutting = found.process.cutting
    fluid = None if cutting is None or cutting.fluid is None else cutting.fluid.tapping
    speed = None if cutting is None else cutting.tap.spindle_speed_rpm
    assert (speed is None) is (by_hand or material != "1018")
    for line in lines(found, "tap"):
        assert plain(line.text).endswith(words.format(speed=speed, fluid=fluid).removesuffix(", None"))
        assert line.parameters.get("spindle_speed") == speed


@every(
    ("material", "words"),
    [
        (None, ", HSS bright, conventional point"),
        ("acetal", ", speed not held, HSS bright, conventional point"),
    ],
)
def test_a_drill_without_speed_says_so_where_a_material_is_given(material, words):
    found = spec("3/8-16 UNC-2B", INCH, **({} if material is None else {"material": material}))
    (line,) = lines(found, "drill")
    assert plain(line.text) == f"Drill 5/16 (0.3125 in), 0.969 in deep at full diameter, tip 1.063 in{words}"
    assert line.time_s is None


def test_the_times_of_drill_and_tap_are_those_of_the_cutting_data():
    found = spec("3/8-16 UNC-2B", INCH, material="1018")
    (drill,), (tapped,) = lines(found, "drill"), lines(found, "tap")
    cutting = found.process.cutting
    assert (drill.time_s, tapped.time_s) == (cutting.drill_time_s, cutting.tap_time_s)
    # 1.063 in at the feed and the speed of the line
    assert drill.time_s > 0.95 * 60 * 1.063 / (0.005 * drill.parameters["spindle_speed"])


@every(
    ("depth", "first", "order", "pilot"),
    [
        # a jobber drill of 6.8 mm has 69 mm of flute (ISO 235): from the face 22.42 mm of tip are reached
        ("16", False, ["spot_drill", "drill", "counterbore", "countersink"], D("6.8")),
        ("66", True, ["spot_drill", "counterbore", "drill", "countersink"], None),
    ],
)
def test_a_counterbore_before_and_after_the_drill(depth, first, order, pilot):
    hole = {"type": "blind", "full_thread_depth": f"{depth} mm", "counterbore": {"diameter": "14 mm", "depth": "10 mm"}}
    found = spec("M8", hole, material="1018")
    assert [one.line.operation for one in found.operations][:4] == order
    (line,) = lines(found, "counterbore")
    kind = "counterbore without pilot" if first else "counterbore"
    cut = found.process.cutting.drill
    # half the cutting speed of the drill on 14 mm, and half its feed (common practice)
    turns, feed = int(cut.spindle_speed_rpm * 0.5 * 6.8 / 14), cut.feed_mm_rev / 2
    why = (
        "without pilot, before drilling: the flutes of the drill reach the bottom from its floor only"
        if first
        else "pilot in the drilled hole, before the tap so that it does not rub the thread"
    )
    assert line.tool == {"kind": kind, "diameter": D(14)}
    assert line.parameters == {
        "depth": D(10), "pilot_diameter": pilot, "spindle_speed": turns,
        "feed": D(repr(feed)).quantize(D("0.0001")),
    }  # fmt: skip
    assert plain(line.text) == (
        f"Counterbore 14 mm diameter, 10 mm deep, {why}, {turns} rev/min, feed {feed:.3g} mm/rev"
    )
    assert line.time_s == pytest.approx(60 * 10 / (feed * turns))


def test_a_spotface_has_no_depth_and_no_time():
    found = spec("5/8-11 UNC-2B", {"type": "through", "thickness": "0.75 in", "counterbore": {"diameter": "1.25 in"}},
                 material="1018")  # fmt: skip
    (line,) = lines(found, "counterbore")
    cut, drill = found.process.cutting.drill, found.drill.recommended.diameter
    turns, feed = int(cut.spindle_speed_rpm * D("0.5") * drill / D("1.25")), cut.feed_mm_rev / 2
    assert (line.tool, line.time_s) == ({"kind": "counterbore", "diameter": D("1.25")}, None)
    assert line.parameters == {
        "depth": None, "pilot_diameter": drill, "spindle_speed": turns,
        "feed": (D(repr(feed)) / D("25.4")).quantize(D("0.0001")),
    }  # fmt: skip
    assert plain(line.text).startswith("Spotface 1.25 in diameter, until the face is clean, pilot in the drilled hole")


def test_lengths_of_lines_to_a_ten_thousandth_of_an_inch_or_a_hundredth_of_a_millimetre():
    """Halves go to the even digit."""
    hole = {**MM, "counterbore": {"diameter": "14.125 mm", "depth": "5.375 mm"}}
    (bored,) = lines(spec("M8", hole), "counterbore")
    assert plain(bored.text).startswith("Counterbore 14.12 mm diameter, 5.38 mm deep, ")
    assert bored.parameters == {"depth": D("5.375"), "pilot_diameter": D("6.8")}
    (tapped,) = lines(spec("M8", {**MM, "full_thread_depth": "16.126 mm"}), "tap")
    assert plain(tapped.text).endswith("full thread 16.13 mm deep")
    fine = {**INCH, "full_thread_depth": "0.7512 in", "counterbore": {"diameter": "0.6125 in", "depth": "0.1255 in"}}
    found = spec("3/8-16 UNC-2B", fine)
    assert plain(lines(found, "counterbore")[0].text).startswith("Counterbore 0.6125 in diameter, 0.1255 in deep, ")
    assert plain(lines(found, "tap")[0].text).endswith("full thread 0.7512 in deep")
    finer = {"full_thread_depth": "0.75126 in", "counterbore": {"diameter": "0.61256 in", "depth": "0.12556 in"}}
    found = spec("3/8-16 UNC-2B", {**INCH, **finer})
    assert plain(lines(found, "counterbore")[0].text).startswith("Counterbore 0.6126 in diameter, 0.1256 in deep, ")
    assert plain(lines(found, "tap")[0].text).endswith("full thread 0.7513 in deep")


@every(
    ("operation", "speed", "feed", "tool_mm"),
    [
        # 8.4 mm across at the face: at the drill's cutting speed, a third of it; half the feed (common practice)
        ("spot_drill", 1.0, 0.5, 8.4),
        ("countersink", 0.33, 0.5, 8.4),
    ],
)
def test_speed_feed_and_time_beside_the_drill(operation, speed, feed, tool_mm):
    found = spec("M8", MM, material="1018")
    (line,) = lines(found, operation)
    cut = found.process.cutting.drill
    turns, own = int(cut.spindle_speed_rpm * speed * 6.8 / tool_mm), cut.feed_mm_rev * feed
    assert (line.parameters["spindle_speed"], line.parameters["feed"]) == (turns, D(repr(own)).quantize(D("0.0001")))
    assert plain(line.text).endswith(f", {turns} rev/min, feed {own:.3g} mm/rev")
    depth = {"spot_drill": 4.2 / 3**0.5, "countersink": 0.8 / 3**0.5}[operation]
    assert line.time_s == pytest.approx(60 * depth / (own * turns))
