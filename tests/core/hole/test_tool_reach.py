"""Which standard tool gets there, at both sides of each boundary.

Taps (ISO 529 and ISO 2283, from memory): M10 80 mm long with 24 mm of thread, a 10 mm shank and a recess that ends at
39 mm, long-shank 108 mm; M12 89 mm, 29 mm of thread, a 9 mm shank, long-shank 119 mm. Drills (ISO 235, ISO 494,
ASME B94.11M, from memory): 8.5 mm 117 mm with 75 mm of flute, long 165 mm with 109 mm; 5/16 in 4-1/2 in with 3-3/16 in.
Two diameters of the shank stay in the holder (our decision).
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.drilling import find_drill
from borewright.core.hole import tool_lengths, tool_reach
from borewright.core.hole.tool_lengths import TapLength
from borewright.core.hole.tool_reach import FoundTool, ToolReach
from every import every

from .ways import thread, way_of

NONE = FoundTool(None, None, None, None)


def decimal(text):
    return None if text is None else Decimal(text)


def standard_tap(left):
    return ToolReach("standard", "ISO 529", Decimal(80), Decimal(24), Decimal(10), Decimal(left))


def long_tap(left):
    return ToolReach("extended", "ISO 2283", Decimal(108), None, None, Decimal(left))


@every(
    ("changed", "fault", "limit", "standard", "tool", "missing"),
    [
        ({}, None, None, standard_tap("56"), standard_tap("56"), "0"),
        # to the end of the recess: the 10 mm shank is larger than the 8.5 mm hole
        ({"tap_travel": "39"}, None, None, standard_tap("41"), standard_tap("41"), "0"),
        ({"tap_travel": "39.01"}, "shank_meets_face", "39", standard_tap("40.99"), long_tap("68.99"), "0"),
        # a counterbore that the shank enters lets it in as deep as it is; 10 mm is not wider than the shank
        ({"tap_travel": "44", "floor": "5", "floor_width": "10.01"}, None, None, *[standard_tap("36")] * 2, "0"),
        (
            {"tap_travel": "44.01", "floor": "5", "floor_width": "10.01"},
            "shank_meets_face", "44", standard_tap("35.99"), long_tap("63.99"), "0",
        ),
        (
            {"tap_travel": "44", "floor": "5", "floor_width": "10"},
            "shank_meets_face", "39", standard_tap("36"), long_tap("64"), "0",
        ),
        # 80 - 2 x 10 - 36 = 24
        ({"access": "36"}, None, None, *[standard_tap("20")] * 2, "0"),
        ({"access": "36.01"}, "too_short", "23.99", standard_tap("19.99"), long_tap("47.99"), "0"),
        # 108 - 2 x 10 - 64 = 24, where the shank is not held two of the thread's diameters
        ({"access": "64"}, "too_short", "-4", standard_tap("-8"), long_tap("20"), "0"),
        ({"access": "64.01"}, "too_short", "-4.01", standard_tap("-8.01"), None, "0.01"),
        ({"access": "70"}, "too_short", "-10", standard_tap("-14"), None, "6"),
        # a shank passes what is wider than it
        ({"clearance": "10.01"}, None, None, *[standard_tap("56")] * 2, "0"),
        ({"clearance": "10"}, "shank_too_wide", None, *[standard_tap("56")] * 2, "0"),
        ({"clearance": "10", "access": "36.01"}, "too_short", "23.99", standard_tap("19.99"), long_tap("47.99"), "0"),
        (
            {"clearance": "10", "tap_travel": "39.01"},
            "shank_meets_face", "39", standard_tap("40.99"), long_tap("68.99"), "0",
        ),
    ],
)  # fmt: skip
def test_the_tap(changed, fault, limit, standard, tool, missing):
    expected = FoundTool(standard, fault, decimal(limit), tool, Decimal(missing))
    assert tool_reach.tap(way_of(**changed)) == expected


@every(
    ("access", "limit", "missing"),
    [
        # 89 - 18 - 47 = 24 of the usual one; 119 - 24 - 71 = 24 of the long one
        ("47", None, "0"),
        ("47.01", "23.99", "0"),
        ("71", "0", "0"),
        ("71.01", "-0.01", "0.01"),
    ],
)
def test_a_slim_shank_is_held_by_two_of_its_own_diameters(access, limit, missing):
    found = tool_reach.tap(way_of("M12", "10.2 mm", access=access))
    assert (found.limit, found.missing) == (decimal(limit), Decimal(missing))
    assert (found.tool is None) is (missing != "0")


def test_no_tap_is_weighed_where_none_cuts_the_thread_or_none_is_held():
    assert tool_reach.tap(way_of(tapped=False)) == tool_reach.tap(way_of("M10x1", "9 mm")) == NONE


def usual_drill(left):
    return ToolReach("jobber", "ISO 235", Decimal(117), Decimal(75), Decimal("8.5"), Decimal(left))


def long_drill(left):
    return ToolReach("long", "ISO 494", Decimal(165), Decimal(109), Decimal("8.5"), Decimal(left))


@every(
    ("changed", "fault", "limit", "standard", "tool", "first"),
    [
        ({}, None, None, usual_drill("89"), usual_drill("89"), False),
        ({"tip_depth": "75"}, None, None, usual_drill("42"), usual_drill("42"), False),
        ({"tip_depth": "75.01"}, "flutes_too_short", "75", usual_drill("41.99"), long_drill("89.99"), False),
        ({"tip_depth": "109"}, "flutes_too_short", "75", usual_drill("8"), long_drill("56"), False),
        ({"tip_depth": "109.01"}, "flutes_too_short", "75", usual_drill("7.99"), None, False),
        # 117 - 17 - 72 = 28, 165 - 17 - 120 = 28
        ({"access": "72"}, None, None, usual_drill("17"), usual_drill("17"), False),
        ({"access": "72.01"}, "too_short", "27.99", usual_drill("16.99"), long_drill("64.99"), False),
        ({"access": "120"}, "too_short", "-20", usual_drill("-31"), long_drill("17"), False),
        ({"access": "120.01"}, "too_short", "-20.01", usual_drill("-31.01"), None, False),
        # sunk first, a counterbore of 5 mm adds its depth to the flutes
        ({"tip_depth": "75", "floor": "5"}, None, None, usual_drill("42"), usual_drill("42"), False),
        ({"tip_depth": "75.01", "floor": "5"}, None, None, usual_drill("41.99"), usual_drill("41.99"), True),
        ({"tip_depth": "80", "floor": "5"}, None, None, usual_drill("37"), usual_drill("37"), True),
        (
            {"tip_depth": "80.01", "floor": "5"},
            "flutes_too_short",
            "75",
            usual_drill("36.99"),
            long_drill("84.99"),
            False,
        ),
        ({"tip_depth": "75.5", "floor": "1"}, None, None, usual_drill("41.5"), usual_drill("41.5"), True),
    ],
)
def test_the_drill(changed, fault, limit, standard, tool, first):
    way = way_of(**changed)
    assert tool_reach.drill(way) == FoundTool(standard, fault, decimal(limit), tool)
    assert tool_reach.counterbored_first(way) is first


def test_an_inch_drill():
    """4.5 - 2 x 0.3125 - 2 = 1.875 in, of the next smaller length for what lies between two."""
    exact = way_of("3/8-16 UNC-2B", "5/16", access="2", tip_depth="1.875", tap_travel="1", full_thread="0.8")
    found = tool_reach.drill(exact)
    inch = ToolReach("jobber", "ASME B94.11M", Decimal("4.5"), Decimal("3.1875"), Decimal("0.3125"), Decimal("0.625"))
    assert found == FoundTool(inch, None, None, inch)
    beyond = tool_reach.drill(exact._replace(tip_depth=Decimal("1.876")))
    assert (beyond.fault, beyond.limit, beyond.tool) == ("too_short", Decimal("1.875"), None)


def test_no_length_is_held_of_the_smallest_drills():
    way = way_of("0.5 UNM", "0.38 mm", tip_depth="2", tap_travel="1", full_thread="1", floor="1")
    assert tool_reach.drill(way) == NONE
    assert not tool_reach.counterbored_first(way)


@every(
    ("drill", "overalls"),
    [
        # in inches 1/32 to 11/16; in millimetres over 0.95 to 14 mm and beyond
        ("11/16", ["7.625"]),
        ("0.688 in", []),
        ("21/32", ["7.125"]),
        ("0.6879 in", []),
    ],
)
def test_the_largest_inch_drill_held(drill, overalls):
    found = tool_lengths.drills_of(find_drill(drill))
    assert [one.overall_mm for one in found] == [Decimal(one) * Decimal("25.4") for one in overalls]


@every(
    ("shank", "hole", "depth"), [(None, "8.5", None), ("8.4", "8.5", None), ("8.5", "8.5", "39"), ("8.6", "8.5", "39")]
)
def test_how_deep_a_tap_goes_before_its_shank_meets_the_face(shank, hole, depth):
    tap = TapLength("standard", Decimal(80), Decimal(24), decimal(shank), Decimal(39), "ISO 529", "from_memory")
    assert tap.depth_into(Decimal(hole)) == decimal(depth)


@every(
    ("text", "slim"),
    [
        # the longer of usual thread and short thread with its neck (ASME B94.9 Table 6); in millimetres the recess
        ("#4-40 UNC-2B", "0.56"),  # 0.31 + 0.25 = 0.56
        ("#12-24 UNC-2B", "0.94"),  # 0.5 + 0.44 = 0.94
        ("1/4-20 UNC-2B", "1.01"),  # 0.63 + 0.38, the usual thread is 1.0
        ("7/16-14 UNC-2B", "1.44"),  # 0.88 + 0.5 = 1.38
        ("1/2-13 UNC-2B", "1.66"),  # no neck
        ("M10", "39"),
        ("M12", "29"),
    ],
)
def test_where_the_slim_part_of_a_tap_ends(text, slim):
    assert tool_lengths.taps_of(thread(text))[0].necked == Decimal(slim)
