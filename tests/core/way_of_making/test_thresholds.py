"""How a thread is made, on both sides of each threshold of the table way_of_making (common practice, own choices).

45, 50 and 58 HRC; 1 and 3 turns, half a diameter; 1.25 in or 32 mm, 4 in of a pipe thread; a milled thread from
0.112 in or 2.5 mm; depths doubted under a pitch and over 10 diameters, percents under 1.5.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.materials import part_material
from borewright.core.model import Material, MaterialInput
from borewright.core.way_of_making import MakingQuestion, against_tapping, decide
from borewright.core.way_of_making.doubt import doubts
from borewright.core.way_of_making.hardness_for_tapping import by_hardness, rockwell_c
from borewright.core.way_of_making.size import by_size, is_large, large_threading
from borewright.core.way_of_making.wall import by_engagement
from every import every


def thread(text):
    return standards.resolve(callout.read(text))


def steel(hrc=None, hb=None, family="alloy steel", group="P"):
    return Material("a steel", family, group, "long", hb, hrc, None, None, None, None)


def question(depth, wall=None, **more):
    made = None if wall is None else Decimal(wall)
    return MakingQuestion(more.pop("material", None), Decimal(depth), made, **more)


def words(decisions):
    return " ".join(one.text for one in decisions).replace("\N{NO-BREAK SPACE}", " ")


@every(
    ("text", "hrc", "threading", "code"),
    [
        ("M8", None, "tap", ""),
        ("M8", 44.9, "tap", ""),
        ("M8", 45.0, "tap", "hard_to_tap"),
        ("M8", 49.9, "tap", "hard_to_tap"),
        ("M8", 50.0, "thread_mill", "hard_to_tap"),
        ("M8", 57.9, "thread_mill", "hard_to_tap"),
        ("M8", 58.0, None, "too_hard_to_tap"),
        # no mill is that small: what a mill would do has to be done before hardening
        ("M2.5", 50.0, "thread_mill", "hard_to_tap"),
        ("M2.2x0.45", 49.9, "tap", "hard_to_tap"),
        ("M2.2x0.45", 50.0, None, "too_hard_to_tap"),
        ("#4-40 UNC-2B", 50.0, "thread_mill", "hard_to_tap"),
        ("#3-48 UNC-2B", 50.0, None, "too_hard_to_tap"),
    ],
)
def test_hardness(text, hrc, threading, code):
    way, asked = by_hardness(thread(text), steel(hrc))
    assert (way.threading, "".join(one.code for one in asked)) == (threading, code)
    assert all(one.blocks is (code == "too_hard_to_tap") and one.pointer == "/material" for one in asked)
    if code:
        assert f"{hrc:g} HRC" in words(asked)
        small = text.startswith(("M2.2", "#3"))
        assert ("mill" in words(asked)) is not small


def test_what_is_too_hard_is_threaded_soft_where_a_soft_state_is_held():
    hard = part_material.find(MaterialInput(name="4140", hardness="62 HRC"))
    way, (asked,) = by_hardness(thread("M8"), hard)
    assert (way.threading, way.harden_to) == ("tap", "62 HRC")
    assert (way.material.family, way.material.name) == ("alloy steel", "4140 alloy steel, annealed")
    assert way.material.hardness_hb < 250
    assert f"the tools given are those for {way.material.name}, before hardening" in asked.text
    unknown, (asked,) = by_hardness(thread("M8"), steel(62.0))
    assert (unknown.threading, unknown.material, unknown.harden_to) == (None, None, None)
    assert "no annealed state" in asked.text


@every(("hb", "hrc"), [(421.0, 45), (432.0, 46), (455.0, 48), (481.0, 50), (None, None), (60.0, None)])
def test_brinell_is_read_by_astm_e140(hb, hrc):
    """Rows of ASTM E140 for non-austenitic steel; a soft metal has no Rockwell C."""
    found = rockwell_c(steel(hb=hb))
    assert found == hrc if hrc is None else abs(found - hrc) <= Decimal("0.3")
    assert found is None or found.as_tuple().exponent == -1
    assert rockwell_c(None) is None


@every(
    ("text", "large", "tool"),
    [
        ("1 1/4-7 UNC-2B", False, "thread_mill"),
        ("1 3/8-6 UNC-2B", True, "thread_mill"),
        ("M32x1.5", False, "thread_mill"),
        ("M33", True, "thread_mill"),
        # outside diameters of 4 and 4.5 in, 100.33 and 113.03 mm
        ("3 1/2-8 NPT", False, "thread_mill"),
        ("4-8 NPT", True, "thread_mill"),
        ("G 3 1/2", False, "thread_mill"),
        ("G 4", True, "thread_mill"),
        # flanks of 29 and 30 degrees are cut falsely by a mill
        ("1 1/2-4 Acme-2G", True, "single_point"),
        ("Tr 40x7", True, "single_point"),
        ("Tr40x14P7", True, "single_point"),
    ],
)
def test_size(text, large, tool):
    found = thread(text)
    assert is_large(found) is large
    assert large_threading(found) == tool
    for has_tap in (False, True):
        asked = by_size(found, has_tap=has_tap)
        assert [(one.code, one.pointer) for one in asked] == ([("large_thread", "/thread")] if large else [])
        way = decide(found, question(found.nominal_diameter, has_tap=has_tap))
        assert way.threading == (tool if large and not has_tap else "tap")
        assert way.tapped is (way.threading == "tap")
        if large:
            name = {"thread_mill": "thread-mill", "single_point": "single-point tool"}[tool]
            other = {"thread_mill": "single-point it on a lathe", "single_point": "have a tap made to order"}[tool]
            planned = ("the tap from the crib", f"take the {name} instead") if has_tap else (f"a {name}", "make it so")
            assert f"Planned is {planned[0]}. Decide: {planned[1]}, {other}, or name a tap" in words(asked)


def test_size_is_told_in_its_unit():
    assert words(by_size(thread("M33"), has_tap=False)).startswith("33 mm is large for a tap")
    assert words(by_size(thread("1 3/8-6 UNC-2B"), has_tap=False)).startswith("1.375 in is large for a tap")


@every(
    ("text", "depth", "wall", "code", "said"),
    [
        # M3x0.5: 3 turns and half a diameter are both 1.5 mm
        ("M3", "1.5", None, "", ""),
        ("M3", "1.49", None, "thread_short", "1.49 mm of M3x0.5-6H is 3 turns of thread (0.5 of the diameter)"),
        # M8x1.25: 3 turns are 3.75 mm, half a diameter is 4; a turn is 1.25 mm
        ("M8", "4", None, "", ""),
        ("M8", "3.9", None, "thread_short", "3.9 mm of M8x1.25-6H is 3.1 turns of thread (0.49 of the diameter)"),
        ("M8", "1.25", None, "thread_short", "is 1 turns of thread (0.16 of the diameter): it carries a part"),
        ("M8", "1.24", None, "thread_too_short", "is 1 turns of thread (0.16 of the diameter): no screw holds"),
        # #4-40: half a diameter is 0.056 in, 3 turns are 0.075
        ("#4-40 UNC-2B", "0.075", None, "", ""),
        ("#4-40 UNC-2B", "0.0749", None, "thread_short", "0.0749 in of #4-40 UNC-2B is 3 turns"),
        # the edges of a wall take a twentieth at each face: 4.45 x 0.9 = 4.005, 4.44 x 0.9 = 3.996 mm
        ("M8", "4.45", "4.45", "", ""),
        ("M8", "4.44", "4.44", "thread_short", "3.996 mm of M8x1.25-6H in 4.44 mm of wall with its edges broken is"),
        ("M8", "4", "10", "", ""),
        ("M8", "1.38", "1.38", "thread_too_short", "1.242 mm of M8x1.25-6H in 1.38 mm of wall"),
        # a pipe thread is shallow for its size: 3 turns of 0.907 mm are 2.721 mm, a quarter of 9.728 mm
        ("G 1/8", "2.73", None, "", ""),
        ("G 1/8", "2.72", None, "thread_short", "is 3 turns of thread (0.28 of the diameter)"),
        ("1/8-27 NPT", "0.01", None, "", ""),
    ],
)
def test_engagement(text, depth, wall, code, said):
    asked = by_engagement(thread(text), question(depth, wall))
    assert "".join(one.code for one in asked) == code
    assert said in words(asked)
    for one in asked:
        assert one.blocks is (code == "thread_too_short")
        assert one.pointer == ("/hole/thickness" if wall == depth else "/hole/full_thread_depth")


@every(
    ("text", "depth", "wall", "blocks", "said"),
    [
        ("M8", "80", None, None, ""),
        ("M8", "80.1", None, False, "80.1 mm of M8x1.25-6H is 10 diameters, deeper than is tapped"),
        ("M8", "1.25", None, None, ""),
        # 1.24 in are 31.496 mm or 3.9 diameters, 3.15 in 80.01 mm
        ("M8", "1.24", None, True, "1.24 mm of M8x1.25-6H is 0.99 of a pitch: no screw holds in it, so no drill and no"
         " tap are given. Decide: is 1.24 in (3.9 diameters) meant"),
        ("M8", "0.04", None, None, ""),
        ("M20", "2.4", None, True, "is 0.96 of a pitch: no screw holds in it, so no drill and no tap are given."
         " Decide: is 2.4 in (3 diameters) meant"),
        # 12 in of 1/4-20 are 48 diameters; 12 mm are 0.4724 in or 1.9; 63.5 mm are 2.5 in or 10, 1.27 mm a pitch
        ("1/4-20 UNC-2B", "2.5", None, None, ""),
        ("1/4-20 UNC-2B", "12", "12", False, "12 in of 1/4-20 UNC-2B is 48 diameters. Decide: is 12 mm (1.9 diam"),
        ("1/4-20 UNC-2B", "2.6", "3", False, "2.6 in of 1/4-20 UNC-2B is 10.4 diameters. Decide: is 2.6 mm (0.4 d"),
        ("1/4-20 UNC-2B", "63.5", None, False, "254 diameters. Decide: is 63.5 mm (10 diameters)"),
        ("1/4-20 UNC-2B", "63.6", None, False, "63.6 in of 1/4-20 UNC-2B is 254.4 diameters, deeper than is tapped"),
        ("1/4-20 UNC-2B", "0.049", None, None, ""),
    ],
)  # fmt: skip
def test_a_depth_that_may_be_in_the_other_unit(text, depth, wall, blocks, said):
    asked = doubts(thread(text), question(depth, wall))
    assert [(one.code, one.blocks) for one in asked] == ([] if blocks is None else [("unit_doubtful", blocks)])
    assert said in words(asked)
    assert {one.pointer for one in asked} <= {"/hole/thickness" if wall == depth else "/hole/full_thread_depth"}


@every(("percent", "meant"), [("1.5", None), ("1.49", "149"), ("0.75", "75"), ("65", None), (None, None)])
def test_a_percent_that_may_be_a_share(percent, meant):
    asked = doubts(thread("M8"), question(12, percent=None if percent is None else Decimal(percent)))
    assert [one.code for one in asked] == ([] if meant is None else ["percent_doubtful"])
    assert meant is None or f"{percent} percent of thread is next to none. Decide: is {meant} percent" in words(asked)


@every(
    ("material", "said"),
    [
        (None, ""),
        (steel(), ""),
        (steel(group=None), ""),
        (steel(family=None), ""),
        (steel(family=None, group=None), "those for a metal that is easy to tap, and no speeds"),
        (steel(family=None, group=None, hb=200.0), "those for its hardness alone, and no speeds"),
    ],
)
def test_a_material_of_which_nothing_is_held(material, said):
    asked = doubts(thread("M8"), question(12, material=material))
    assert [one.code for one in asked] == (["material_not_held"] if said else [])
    assert said in words(asked)


@every(
    ("text", "depth", "material", "threading", "codes"),
    [
        ("M8", "12", None, "tap", []),
        ("M8", "1.24", None, None, ["unit_doubtful"]),
        ("M8", "0.04", None, None, ["thread_too_short"]),
        ("1/4-20 UNC-2B", "12", None, "tap", ["unit_doubtful"]),
        ("M8", "3", None, "tap", ["thread_short"]),
        ("M36", "12", steel(52.0), "thread_mill", ["hard_to_tap", "thread_short", "large_thread"]),
        ("M36", "36", steel(62.0), None, ["too_hard_to_tap", "large_thread"]),
    ],
)
def test_all_together(text, depth, material, threading, codes):
    way = decide(thread(text), question(depth, material=material))
    assert way.threading == threading
    assert [one.code for one in way.notes.decisions] == codes
    assert [one.document for one in way.notes.sources] == (["shop practice"] if codes else [])


def test_what_is_against_tapping_whatever_the_hole():
    assert [one.code for one in against_tapping(thread("M36"), steel(62.0))] == ["too_hard_to_tap", "large_thread"]
    assert "Planned is a thread-mill" in against_tapping(thread("M36"), None)[0].text
    assert against_tapping(thread("M8"), steel(30.0)) == ()
