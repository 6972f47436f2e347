"""The card and the routing of a hole word by word: depths and cones by arithmetic, limits of ASME B1.1 and ISO 965-1.

A tap of semi-bottoming chamfer needs 2.5 threads and a pitch of clearance below the full thread; a point of 118 degrees
is as deep as its radius over tan 59, 1.66428; the countersink is 1.05 D wide, inch at 90, metric at 120 degrees. Drills
are those of FED-STD-H28/2B (5/16 for 3/8-16), ISO 2306 (6.8 for M8) and ASME B94.9 (7/16 for 1/4 NPT, whose tap goes
0.6868 past the face), or come nearest to 75 %: 1-25/32 to 2 - 0.75 x 1.299038/4.5 = 1.7835. H5 for 2B is from memory.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan.specify import specify
from every import every

INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}
COAT = {"thickness": {"min": "0.0003 in", "max": "0.0004 in"}, "growth_fraction": 1}
D = Decimal


def spec(thread, hole, material=None, **more):
    named = {} if material is None else {"material": material}
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **named, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def lines(found, operation):
    return [one.line for one in found.operations if one.line.operation == operation]


@every(
    ("thread", "hole", "more", "texts"),
    [
        # 0.75 + 3.5/16 = 0.96875; 0.3125/2/1.66428 = 0.0939 more to the tip
        (
            "3/8-16 UNC-2B",
            INCH,
            {},
            {
                "drill": "5/16 drill (0.3125 in), 0.969 in deep",
                "tap": "3/8-16 NC HSS G H5, spiral flute, semi-bottoming",
                "depth": "full thread 0.75 in, drill 0.969 in at full diameter, tip 1.063 in",
                "speed": "speeds not held",
                "gauge": "3/8-16 UNC-2B GO and NOT GO plugs, pitch diameter 0.3344 to 0.3401 in",
            },
        ),
        (
            "3/8-16 UNC-2B",
            THROUGH,
            {},
            {
                "drill": "5/16 drill (0.3125 in), through",
                "tap": "3/8-16 NC HSS G H5, spiral point, plug",
                "depth": "full thread 0.75 in, through",
            },
        ),
        # 16 + 3.5 x 1.25 = 20.375; 3.4/1.66428 = 2.043
        (
            "M8",
            MM,
            {},
            {
                "drill": "6.8 mm drill (6.80 mm), 20.38 mm deep",
                "tap": "M8x1.25 HSS ISO2/6H, spiral flute, semi-bottoming",
                "depth": "full thread 16 mm, drill 20.38 mm at full diameter, tip 22.42 mm",
                "gauge": "M8x1.25-6H GO and NOT GO plugs, pitch diameter 7.188 to 7.348 mm",
            },
        ),
        # L1 and three threads: 0.2278 + 0.1667
        (
            "1/4-18 NPT",
            THROUGH,
            {},
            {
                "drill": "7/16 drill (0.4375 in), through",
                "tap": "1/4-18 NPT HSS G, taper pipe tap",
                "depth": "tap to the gauge line, tip 0.687 in past the face; full thread 0.3945 in, through",
                "gauge": "1/4-18 NPT: L1 taper thread plug, notch flush with the face within 1 turn either way",
            },
        ),
        # too large for taps that are stocked: 0.75 + 1/4.5 = 0.972
        (
            "2-4.5 UNC-2B",
            INCH,
            {},
            {
                "drill": "1-25/32 drill (1.7812 in), 0.972 in deep",
                "tap": "thread-mill, 60 degree, pitch 0.2222 in, right-hand",
            },
        ),
        ("M64x6", {**MM, "full_thread_depth": "64 mm"}, {}, {"tap": "thread-mill, 60 degree, pitch 6 mm, right-hand"}),
        ("2-4.5 UNC-2B LH", INCH, {}, {"tap": "thread-mill, 60 degree, pitch 0.2222 in, left-hand"}),
        ("1 1/2-4 ACME-2G", THROUGH, {}, {"tap": "single-point tool, 29 degree, pitch 0.25 in, right-hand"}),
        # minor 1.05 to 1.06, its middle 0.0238 over 1-1/32: more than the 0.020 that a reamer takes
        (
            "1 1/4-5 ACME-2G",
            THROUGH,
            {"material": "C93200"},
            {
                "drill": "1-1/32 drill (1.0312 in), through, bore 1.055 in",
                "tap": "1 1/4-5 ACME-2G HSS-E G, straight flute, taper, then straight flute, plug",
            },
        ),
        # 0.2175 + 4 x 0.0004 to 0.2211 + 4 x 0.0003
        (
            "1/4-20 UNC-3B",
            INCH,
            {"finish": COAT},
            {"gauge": "1/4-20 UNC-3B GO and NOT GO plugs before the finish, pitch diameter 0.2191 to 0.2223 in"},
        ),
        # 0.6850 and 0.6927 with the 0.020 that a thread under hot-dip zinc is tapped over
        (
            "3/4-10",
            THROUGH,
            {"material": "1018", "finish": "hot-dip galvanized"},
            {
                "tap": "3/4-10 NC HSS G PLUS .020, spiral point, plug",
                "gauge": "3/4-10 UNC-2B oversize GO and NOT GO plugs, pitch diameter 0.7050 to 0.7127 in",
            },
        ),
        (
            "3/8-16",
            {**INCH, "counterbore": {"diameter": "0.6 in", "depth": "0.1 in"}},
            {},
            {
                "depth": "full thread 0.75 in, drill 0.969 in at full diameter, tip 1.063 in; counterbore 0.6"
                " in diameter, 0.1 in"
                " deep"
            },
        ),
        (
            "3/8-16",
            {**THROUGH, "counterbore": {"diameter": "0.6 in"}},
            {},
            {"depth": "full thread 0.75 in, through; spotface 0.6 in diameter"},
        ),
        # no maker lists H6 of 1 1/4-9: 0.75 + 3.5/9 = 1.1389
        (
            "1.25-9 UNS-2B",
            INCH,
            {},
            {
                "drill": "1-9/64 drill (1.1406 in), 1.139 in deep",
                "tap": "1 1/4-9 NS HSS G H6, spiral flute, semi-bottoming, made to order",
            },
        ),
        (
            "1.25-9 UNS-2B",
            INCH,
            {"stock": {"taps": ["H6"]}},
            {"tap": "1 1/4-9 NS HSS G H6, spiral flute, semi-bottoming"},
        ),
    ],
)
def test_the_card_at_the_machine(thread, hole, more, texts):
    card = spec(thread, hole, **more).headline._asdict()
    assert {name: plain(card[name]) for name in texts} == texts


def test_the_card_tells_the_speeds_that_are_held():
    by_hand = spec("3/8-16 UNC-2B", INCH, "1018", machine={"tapping": "hand"})
    for found in (spec("3/8-16 UNC-2B", INCH, "1018"), by_hand, spec("2-4.5 UNC-2B", INCH, "1018")):
        cut = found.process.cutting
        drill = f"drill {cut.drill.spindle_speed_rpm} rev/min, {cut.drill.feed_mm_rev:.3g} mm/rev"
        turned = "tap speed not held" if cut.tap and not cut.tap.spindle_speed_rpm else ""
        turned = turned or (f"tap {cut.tap.spindle_speed_rpm} rev/min" if cut.tap else "threading speed not held")
        assert plain(found.headline.speed) == f"{drill}; {turned}"
    assert plain(by_hand.headline.speed).endswith("; tap speed not held")


@every(
    ("thread", "hole", "operation", "words", "depth"),
    [
        # 1.05 x 0.375 = 0.39375; 0.394/2/tan 60 = 0.1137; (0.394 - 0.3125)/2 = 0.0408
        (
            "3/8-16 UNC-2B",
            INCH,
            "spot_drill",
            "Spot drill, 120 degree point, 0.114 in deep (0.394 in diameter at the face)",
            "0.1137",
        ),
        ("3/8-16 UNC-2B", INCH, "countersink", "Countersink 0.394 in diameter, 90 degrees, 0.041 in deep", "0.0408"),
        # 4.2/tan 60 = 2.425; 4.2/tan 70 = 1.529; (8.4 - 6.8)/2/tan 60 = 0.462
        ("M8", MM, "spot_drill", "Spot drill, 120 degree point, 2.42 mm deep (8.4 mm diameter at the face)", "2.425"),
        (
            "M8",
            {**MM, "point_angle": 120},
            "spot_drill",
            "Spot drill, 120 degree point, 2.42 mm deep (8.4 mm diameter at the face)",
            "2.425",
        ),
        (
            "M8",
            {**MM, "point_angle": 140},
            "spot_drill",
            "Spot drill, 140 degree point, 1.53 mm deep (8.4 mm diameter at the face)",
            "1.529",
        ),
        (
            "M8",
            {**MM, "point_angle": 180},
            "spot_drill",
            "Spot drill, 140 degree point, or start the 180 degree drill on the"
            " flat, 1.53 mm deep (8.4 mm diameter at the face)",
            "1.529",
        ),
        ("M8", MM, "countersink", "Countersink 8.4 mm diameter, 120 degrees, 0.46 mm deep", "0.462"),
        # (126 - 114)/2/tan 60 = 3.464: wider than a countersink is
        (
            "M120x6",
            {"type": "through", "thickness": "80 mm"},
            "countersink",
            "Chamfer to 126 mm diameter, 120 degrees, with a chamfer mill or boring bar, 3.46 mm deep",
            "3.464",
        ),
        (
            "3/8-16",
            {**INCH, "counterbore": {"diameter": "0.6 in", "depth": "0.1 in"}},
            "counterbore",
            "Counterbore 0.6 in diameter, 0.1 in deep, pilot in the drilled hole, before the tap so that it"
            " does not rub the"
            " thread",
            "0.1",
        ),
        (
            "3/8-16 UNC-2B",
            INCH,
            "drill",
            "Drill 5/16 (0.3125 in), 0.969 in deep at full diameter, tip 1.063 in, HSS bright, conventional point",
            "0.969",
        ),
        (
            "3/8-16 UNC-2B",
            THROUGH,
            "drill",
            "Drill 5/16 (0.3125 in), through 0.75 in, HSS bright, conventional point",
            "0.75",
        ),
        (
            "M8",
            MM,
            "drill",
            "Drill 6.8 mm (6.80 mm), 20.38 mm deep at full diameter, tip 22.42 mm, HSS bright, conventional point",
            "20.38",
        ),
        # the holder stays 60 mm above: 60 + 22.42, and 60 + 16 + 2.5 x 1.25 = 79.12
        (
            "M8",
            {**MM, "access_depth": "60 mm"},
            "drill",
            "Drill 6.8 mm (6.80 mm), 20.38 mm deep at full diameter, tip 22.42 mm,"
            " jobber length reaching 82.42 mm, HSS bright, conventional point",
            "20.38",
        ),
        ("M120x6", {"type": "through", "thickness": "80 mm"}, "bore", "Bore 114 mm diameter", "80"),
    ],
)
def test_the_lines_that_make_the_hole(thread, hole, operation, words, depth):
    (line,) = lines(spec(thread, hole), operation)
    assert plain(line.text) == words
    assert line.parameters["depth"] == D(depth)
    assert line.time_s is None
    assert not {"spindle_speed", "feed"} & set(line.parameters)


@every(
    ("thread", "hole", "more", "words"),
    [
        (
            "3/8-16 UNC-2B",
            INCH,
            {},
            ["Tap 3/8-16 NC HSS G H5, spiral flute, semi-bottoming chamfer, full thread 0.75 in deep"],
        ),
        (
            "M8",
            {**MM, "access_depth": "60 mm"},
            {},
            [
                "Tap M8x1.25 HSS ISO2/6H, spiral flute, semi-bottoming chamfer, full thread"
                " 16 mm deep, extended length reaching 79.12 mm"
            ],
        ),
        # (13.5 - 10 - 1.5)/1.5 = 1.33 threads are left for the chamfer
        (
            "M10",
            {"type": "blind", "full_thread_depth": "10 mm", "drill_depth_limit": "13.5 mm"},
            {},
            [
                "Tap M10x1.5 HSS ISO2/6H, spiral flute, plug chamfer, ahead of the second tap",
                "Tap M10x1.5 HSS ISO2/6H, spiral flute, bottoming chamfer of 1 to 1.5 threads, full thread 10 mm deep",
            ],
        ),
        (
            "M10",
            {"type": "blind", "full_thread_depth": "15 mm", "drill_depth_limit": "20 mm"},
            {"machine": {"tapping": "hand"}},
            [
                "Tap M10x1.5 HSS ISO2/6H, straight flute, plug chamfer, ahead of the second tap, by hand",
                "Tap M10x1.5 HSS ISO2/6H, straight flute, bottoming chamfer, full thread 15 mm deep, by hand",
            ],
        ),
        # 0.6868 x 18 = 12.36 turns
        (
            "1/4-18 NPT",
            THROUGH,
            {},
            [
                "Tap 1/4-18 NPT HSS G, taper pipe tap, chamfer of 2 to 3.5 threads, to the gauge line, tip"
                " 0.687 in past the face (12.4 turns at its lead)"
            ],
        ),
    ],
)
def test_the_lines_of_the_taps(thread, hole, more, words):
    assert [plain(one.text) for one in lines(spec(thread, hole, **more), "tap")] == words


def test_the_lines_of_threads_without_a_tap():
    # 2 - 0.6495/4.5 = 1.8557; the tolerance is that of ASME B1.1, 0.0124
    (milled,) = lines(spec("2-4.5 UNC-2B", INCH), "thread_mill")
    assert plain(milled.text) == (
        "Thread-mill 2-4.5 UNC-2B, 60 degree, pitch 0.2222 in, right-hand, full thread 0.75 in deep, in passes to pitch"
        " diameter 1.8557 to 1.8681 in; speed not held"
    )
    assert (milled.tool["kind"], milled.tool["substrate"], milled.tool["form_angle"]) == ("thread mill", "carbide", 60)
    (turned,) = lines(spec("1 1/2-4 ACME-2G", THROUGH), "single_point_thread")
    # edges of 5 % of 0.75 at both faces leave 0.675; 1.5 - 0.125 and 0.006 sqrt(1.5) + 0.03 sqrt(1/4) = 0.02235 more
    assert plain(turned.text) == (
        "Single-point 1 1/2-4 ACME-2G, 29 degree, pitch 0.25 in, right-hand, full thread 0.675 in deep, in passes to"
        " pitch diameter 1.3750 to 1.3973 in; speed not held"
    )
    assert (turned.tool["kind"], turned.tool["substrate"]) == (
        "single-point threading tool",
        "carbide or high-speed steel",
    )


@pytest.mark.parametrize(
    ("thread", "hole", "per_unit", "places"), [("3/8-16 UNC-2B", INCH, D("25.4"), 4), ("M8", MM, D(1), 4)]
)
def test_speed_and_feed_stand_in_the_line_and_in_its_text(thread, hole, per_unit, places):
    """Feeds of the lines in the unit of the thread; time is depth over feed and speed, 60 s a minute."""
    found = spec(thread, {**hole, "counterbore": {"diameter": "16 mm", "depth": "2.54 mm"}}, "1018")
    cut = found.process.cutting.drill
    (drill,) = lines(found, "drill")
    assert drill.parameters["feed"] == pytest.approx(D(str(cut.feed_mm_rev)) / per_unit, abs=D("0.0006"))
    assert drill.parameters["spindle_speed"] == cut.spindle_speed_rpm
    assert f"{cut.spindle_speed_rpm} rev/min, feed {cut.feed_mm_rev:.3g} mm/rev" in plain(drill.text)
    for operation in ("spot_drill", "countersink", "counterbore"):
        (line,) = lines(found, operation)
        told = plain(line.text).rpartition("feed ")[2].removesuffix(" mm/rev")
        assert line.parameters["feed"] == pytest.approx(D(told) / per_unit, abs=D("0.00006"))
        assert f"{line.parameters['spindle_speed']} rev/min" in plain(line.text)
        depth, feed = line.parameters["depth"], float(told) / float(per_unit)
        assert line.time_s == pytest.approx(60 * float(depth) / feed / line.parameters["spindle_speed"], rel=0.01)


def test_lines_are_numbered_by_tens():
    found = spec("3/8-16 UNC-2B", INCH, "1018", finish="ASTM B633 Fe/Zn 8")
    assert [one.sequence for one in found.operations] == [10, 20, 30, 40, 50, 60, 70, 80]
    assert [one.line.operation for one in found.operations][4:] == ["inspect", "wash", "finish", "inspect"]


def test_the_tools_of_the_lines_and_depths_to_a_thousandth():
    assert lines(spec("M8", {**MM, "point_angle": 180}), "drill")[0].tool["kind"] == "flat-bottom drill"
    assert lines(spec("M8", MM), "drill")[0].tool["kind"] == "twist drill"
    (bored,) = lines(spec("1 1/4-5 ACME-2G", THROUGH, "C93200"), "bore")
    assert (bored.tool["kind"], bored.tool["diameter"]) == ("boring bar", D("1.055"))
    fine = {"type": "blind", "full_thread_depth": "0.7512 in"}
    assert plain(spec("3/8-16 UNC-2B", fine).headline.depth).startswith("full thread 0.751 in, ")
    (milled,) = lines(spec("2-4.5 UNC-2B", fine), "thread_mill")
    assert "full thread 0.751 in deep" in plain(milled.text)


@pytest.mark.parametrize(
    ("hole", "needed"),
    [
        ({"type": "blind", "full_thread_depth": "0.2 in"}, "0.3 in"),  # 1 D and a pitch: 0.25 + 0.05
        ({"type": "through", "thickness": "0.2 in"}, "0.25 in"),
    ],
)
def test_the_shortest_insert_is_told_where_it_does_not_fit(hole, needed):
    (asked,) = [one for one in spec("1/4-20 UNC-2B STI", hole).review if one.code == "no_insert_fits"]
    assert plain(asked.text).startswith(f"The shortest insert, 1 D, needs {needed}, the hole holds 0.2 in.")
