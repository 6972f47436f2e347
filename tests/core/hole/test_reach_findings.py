"""What is said where a standard tool does not reach: each case with its figures, put together by hand.

M10x1.5: a blind hole of 8.5 mm, 20 mm of full thread, the tip 28 mm and the tap 24 mm deep, unless said otherwise.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.drilling import find_drill
from borewright.core.errors import HoleError
from borewright.core.hole import reach, reach_findings
from borewright.core.hole.tool_reach import FoundTool, ToolReach
from borewright.core.model import Depths, Hole, Length
from borewright.core.model.holes import Counterbore
from every import every

from .ways import plain_blanks, thread, way_of

NONE = FoundTool(None, None, None, None)
STANDARD = ToolReach("standard", "ISO 529", Decimal(80), Decimal(24), Decimal(10), Decimal(20))
LONG = ToolReach("extended", "ISO 2283", Decimal(108), None, None, Decimal(48))
JOBBER = ToolReach("jobber", "ISO 235", Decimal(117), Decimal(75), Decimal("8.5"), Decimal(30))
SERIES = ToolReach("long", "ISO 494", Decimal(165), Decimal(109), Decimal("8.5"), Decimal(60))
FITS, DRILLS = FoundTool(STANDARD, None, None, STANDARD), FoundTool(JOBBER, None, None, JOBBER)


def faulty(standard, fault, limit=None, tool=None):
    return FoundTool(standard, fault, None if limit is None else Decimal(limit), tool)


DEEP = {"tap_travel": "45", "full_thread": "41"}


@every(
    ("changed", "tap", "text"),
    [
        (
            DEEP,
            faulty(STANDARD, "shank_meets_face", "39"),
            "The tap goes 45 mm deep, but the 10 mm shank of a standard tap (ISO 529) is larger than the 8.5 mm hole"
            " and meets the face before that. Choose: a tap with a neck or shank slimmer than 8.5 mm that goes 45 mm"
            " deep (none is held), at most 35 mm of full thread, or mill the thread.",  # 41 - (45 - 39)
        ),
        (
            DEEP,
            faulty(STANDARD, "shank_meets_face", "39", LONG),
            "meets the face before that. Choose: the long-shank tap of ISO 2283, 108 mm overall, its shank checked to"
            " be slimmer than 8.5 mm, at most 35 mm of full thread, or mill the thread.",
        ),
        (
            {"access": "40"},
            faulty(STANDARD, "too_short", "20", LONG),
            "The tap must reach 64 mm and be held; a standard tap (ISO 529) is 80 mm long. Choose: the long-shank tap"
            " of ISO 2283, 108 mm overall, at most 16 mm of full thread, or mill the thread.",  # 20 - (24 - 20)
        ),
        (
            {"access": "40", "clearance": "12"},
            faulty(STANDARD._replace(shank_diameter=None), "too_short", "20"),
            "is 80 mm long. Choose: an extended tap with a neck or shank slimmer than 8.5 mm that reaches 64 mm (none"
            " is held), at most 16 mm of full thread, or mill the thread.",
        ),
        (
            {"clearance": "10"},
            faulty(STANDARD, "shank_too_wide", None, STANDARD),
            "The 10 mm shank of a standard tap (ISO 529) does not pass the clearance of 10 mm. Choose: a tap with a"
            " reduced shank (no such shank is held), or mill the thread.",
        ),
        # less than a pitch of thread is no choice: 20 - (24 - 5.5) = 1.5, rounded down
        ({"access": "40"}, faulty(STANDARD, "too_short", "5.5", LONG), "overall, at most 1.5 mm of full thread, or"),
        ({"access": "40"}, faulty(STANDARD, "too_short", "5.499", LONG), "108 mm overall, or mill the thread."),
        ({"access": "40"}, faulty(STANDARD, "too_short", "9.999", LONG), "at most 5.99 mm of full thread"),
        # a through hole is as deep as its wall
        ({"access": "40", "blind": False}, faulty(STANDARD, "too_short", "20", LONG), "108 mm overall, or mill the"),
    ],
)
def test_the_question_on_the_tap(changed, tap, text):
    (told,) = reach_findings.decisions(way_of(**changed), tap, DRILLS)
    assert told.code == "tool_too_short"
    assert text in plain_blanks(told.text)


@every(
    ("changed", "drill", "text"),
    [
        (
            {"tip_depth": "80"},
            faulty(JOBBER, "flutes_too_short", "75", SERIES),
            "The drill's tip goes 80 mm deep; a jobber 8.5 mm drill (ISO 235) has 75 mm of flute. Choose: the"
            " long-series drill of ISO 494, 165 mm overall with 109 mm of flute, at most 15 mm of full"
            " thread.",  # 20 - (80 - 75)
        ),
        (
            {"access": "120"},
            faulty(JOBBER, "too_short", "27"),
            "The drill must reach 148 mm and be held; a jobber 8.5 mm drill (ISO 235) is 117 mm long. Choose: a"
            " taper-length or extra-length drill that reaches 148 mm with at least 28 mm of flute (none is held), at"
            " most 19 mm of full thread.",  # 20 - (28 - 27)
        ),
        (
            {"access": "80", "blind": False},
            faulty(JOBBER, "too_short", "20", SERIES),
            "is 117 mm long. Choose: the long-series drill of ISO 494, 165 mm overall with 109 mm of flute.",
        ),
    ],
)
def test_the_question_on_the_drill(changed, drill, text):
    (told,) = reach_findings.decisions(way_of(**changed), FITS, drill)
    assert text in plain_blanks(told.text)
    assert "mill the thread" not in told.text


MEETS, WIDE = faulty(STANDARD, "shank_meets_face", "39"), faulty(STANDARD, "shank_too_wide", None, STANDARD)
SHORT = faulty(JOBBER, "flutes_too_short", "75")


@every(
    ("changed", "tap", "drill", "pointers"),
    [
        ({}, FITS, DRILLS, []),
        ({}, NONE, NONE, []),
        ({}, MEETS, SHORT, ["full_thread_depth", "full_thread_depth"]),
        ({"blind": False}, MEETS, SHORT, ["thickness", "thickness"]),
        ({"access": "0.5"}, MEETS, SHORT, ["access_depth", "access_depth"]),
        ({"access": "0.5", "blind": False}, MEETS, DRILLS, ["access_depth"]),
        ({"access": "0.5", "clearance": "10"}, WIDE, SHORT, ["clearance_diameter", "access_depth"]),
        ({"clearance": "10"}, WIDE, DRILLS, ["clearance_diameter"]),
    ],
)
def test_the_field_that_is_asked_about(changed, tap, drill, pointers):
    told = reach_findings.decisions(way_of(**changed), tap, drill)
    assert [one.pointer for one in told] == [f"/hole/{name}" for name in pointers]


def test_inches_are_told_to_a_thousandth_and_millimetres_to_a_hundredth():
    inch = way_of("3/8-16 UNC-2B", "5/16")
    told = [plain_blanks(reach_findings.say(way, Decimal("1.23456"))) for way in (inch, way_of())]
    assert told == ["1.235 in", "1.23 mm"]


@every(
    ("changed", "tap", "drill", "small", "advice"),
    [
        (
            {"access": "30"},
            FITS,
            DRILLS,
            False,
            (
                "tap: standard length, 80 mm overall (ISO 529), reaches 54 mm and leaves 20 mm for the holder",
                "drill 8.5 mm: jobber length, 117 mm overall (ISO 235), reaches 58 mm and leaves 30 mm for the holder",
            ),
        ),
        (
            {"access": "30"},
            faulty(STANDARD, "shank_meets_face", "39", LONG),
            faulty(JOBBER, "too_short", "27", SERIES),
            True,
            (
                "tap: extended-shank length, 108 mm overall (ISO 2283), reaches 54 mm and leaves 48 mm for the holder,"
                " shank or neck slimmer than the 8.5 mm hole",
                "drill 8.5 mm: long length, 165 mm overall (ISO 494), reaches 58 mm and leaves 60 mm for the holder",
            ),
        ),
        # no length held: a standard tool at the face, a long one in a bore
        (
            {"tip_depth": "28.123"},
            NONE,
            NONE,
            False,
            (
                "tap: a standard tap that reaches 24 mm below the top of the access; length not held",
                "drill 8.5 mm: a standard drill that reaches 28.12 mm from the top of the access, its flutes at least"
                " 28.13 mm; its length is not held",
            ),
        ),
        (
            {"access": "30"},
            NONE,
            NONE,
            True,
            (
                "tap: an extended-shank tap that reaches 54 mm below the top of the access, shank or neck slimmer than"
                " the 8.5 mm hole; length not held",
                "drill 8.5 mm: a long, taper-length or extra-length drill that reaches 58 mm from the top of the"
                " access, its flutes at least 28 mm; its length is not held",
            ),
        ),
        # those that are held do not do
        (
            {},
            faulty(STANDARD, "too_short", "20"),
            SHORT,
            False,
            (
                "tap: an extended-shank tap that reaches 24 mm below the top of the access; length not held",
                "drill 8.5 mm: a long, taper-length or extra-length drill that reaches 28 mm from the top of the"
                " access, its flutes at least 28 mm; its length is not held",
            ),
        ),
        (
            {},
            MEETS,
            DRILLS,
            False,
            (
                "tap: a reduced-shank tap that reaches 24 mm below the top of the access; length not held",
                "drill 8.5 mm: jobber length, 117 mm overall (ISO 235), reaches 28 mm and leaves 30 mm for the holder",
            ),
        ),
        (
            {"tapped": False},
            NONE,
            DRILLS,
            False,
            ("drill 8.5 mm: jobber length, 117 mm overall (ISO 235), reaches 28 mm and leaves 30 mm for the holder",),
        ),
    ],
)
def test_advice(changed, tap, drill, small, advice):
    told = reach_findings.advice(way_of(**changed), tap, drill, small_shank=small)
    assert tuple(map(plain_blanks, told)) == advice


@every(
    ("changed", "tap", "drill", "missing"),
    [
        # three diameters of the thread, five of the drill (5 x 8.5 = 42.5)
        ({"tap_travel": "30", "tip_depth": "42.5"}, NONE, NONE, ()),
        ({"tap_travel": "30.01", "tip_depth": "42.5"}, NONE, NONE, ("tap",)),
        ({"tap_travel": "30", "tip_depth": "42.51"}, NONE, NONE, ("drill",)),
        ({"access": "0.5"}, NONE, NONE, ("tap", "drill")),
        ({"access": "0.5", "tapped": False}, NONE, NONE, ("drill",)),
        ({"tap_travel": "30.01", "tapped": False}, NONE, NONE, ()),
        ({"access": "0.5"}, FITS, NONE, ("drill",)),
        ({"access": "0.5"}, NONE, DRILLS, ("tap",)),
        ({"access": "0.5"}, FITS, DRILLS, ()),
    ],
)
def test_of_which_tool_no_length_is_held(changed, tap, drill, missing):
    assert reach_findings.unknown(way_of(**changed), tap, drill) == missing


@every(
    ("missing", "held", "told"),
    [
        ((), False, []),
        (("tap",), False, [("tool_length_not_held", "No length is held for the tap: compare")]),
        (("tap", "drill"), False, [("tool_length_not_held", "No length is held for the tap and the drill: compare")]),
        ((), True, [("tool_length_from_memory", "Lengths of flutes and threads are from memory")]),
        (("drill",), True, [("tool_length_not_held", "for the drill: "), ("tool_length_from_memory", "from memory")]),
    ],
)
def test_what_is_not_sure_of_the_lengths(missing, held, told):
    found = list(reach_findings.cautions(missing, held=held))
    assert [one.code for one in found] == [code for code, _ in told]
    assert all(words in one.text for one, (_, words) in zip(found, told, strict=True))


# --- the whole of it ----------------------------------------------------------------------------------------


def mm(text):
    return None if text is None else Length(Decimal(text), "mm")


def reached(text="M10", drill="8.5 mm", *, tip="28", travel="24", tapped=True, kind="blind", unit=mm, **hole):
    depths = Depths(
        drill_depth=Decimal(tip),
        drill_tip_depth=Decimal(tip),
        full_thread_depth=Decimal("20"),
        tap_travel=Decimal(travel),
        chamfer_length=Decimal(0),
        countersink_diameter=Decimal(0),
        countersink_angle_deg=Decimal(0),
        breakthrough=None,
        wall_left=None,
    )
    asked = Hole(kind, full_thread_depth=unit("20"), **{name: unit(value) for name, value in hole.items()})
    return reach.reach(thread(text), asked, depths=depths, drill=find_drill(drill), tapped=tapped)


def test_an_ordinary_hole_is_passed_in_silence():
    found = reached()
    assert (found.access_depth, found.clearance_diameter, found.drill_reach, found.tap_reach) == (0, None, 28, 24)
    assert (found.length, found.shank, found.ordinary, found.advice) == ("standard", "standard", True, ())
    assert (found.notes.assumptions, found.notes.cautions, found.notes.decisions) == ((), (), ())
    assert not found.counterbored_first


def test_a_hole_at_the_bottom_of_a_bore():
    found = reached(access_depth="36", clearance_diameter="30")
    assert (found.access_depth, found.clearance_diameter, found.drill_reach, found.tap_reach) == (36, 30, 64, 60)
    assert (found.length, found.shank, found.ordinary) == ("standard", "standard", False)
    assert (found.tap.left_for_holder, found.drill.left_for_holder) == (20, 53)
    assert [len(found.advice), len(found.notes.assumptions), len(found.notes.decisions)] == [2, 2, 0]
    assert [one.code for one in found.notes.cautions] == ["tool_length_from_memory"]
    assert [(one.field, one.document, one.status) for one in found.notes.sources] == [
        ("drill_reach", "geometry", "computed"),
        ("tap.overall_length", "ISO 529 (kind standard), ISO 2283 (kind extended)", "from_memory"),
        ("tap.cutting_length", "ISO 529 (kind standard), ISO 2283 (kind extended)", "from_memory"),
        ("drill.overall_length", "ISO 235 (series jobber), ISO 494 (series long)", "from_memory"),
    ]
    inputs = {"access": 36, "tip": 28, "travel": 24}
    assert [(one.quantity, one.formula, one.inputs, one.value, one.unit) for one in found.notes.steps] == [
        ("drill_reach", "access + tip", inputs, 64, "mm"),
        ("tap_reach", "access + travel", inputs, 60, "mm"),
    ]


@every(
    ("asked", "length", "shank", "ordinary", "codes"),
    [
        ({}, "standard", "standard", True, []),
        ({"clearance_diameter": "30"}, "standard", "standard", False, ["tool_length_from_memory"]),
        ({"clearance_diameter": "10.01"}, "standard", "standard", False, ["tool_length_from_memory"]),
        ({"clearance_diameter": "10"}, "standard", "small_shank", False, ["tool_length_from_memory"]),
        ({"travel": "39.01"}, "extended", "small_shank", False, ["tool_length_from_memory"]),
        ({"tip": "75.01"}, "extended", "standard", False, ["tool_length_from_memory"]),
        ({"tip": "109.01"}, "extended", "standard", False, ["tool_length_from_memory"]),
        # a fine pitch has no length held: its access asks for a long tap, a narrow one for a slim shank (2 x 10 mm)
        ({"text": "M10x1"}, "standard", "standard", True, []),
        ({"text": "M10x1", "access_depth": "0.5"}, "extended", "standard", False, BOTH := [
            "tool_length_not_held", "tool_length_from_memory",
        ]),
        ({"text": "M10x1", "clearance_diameter": "19.99"}, "standard", "small_shank", False, BOTH[1:]),
        ({"text": "M10x1", "clearance_diameter": "20"}, "standard", "standard", False, BOTH[1:]),
        ({"text": "M10x1", "travel": "30.01"}, "standard", "standard", False, BOTH),
        # beyond 20 mm no length of a drill is held either, so that none is from memory
        ({"text": "M24x1", "drill": "23 mm", "access_depth": "1"}, "extended", "standard", False, BOTH[:1]),
        ({"tapped": False}, "standard", "standard", True, []),
        ({"tapped": False, "access_depth": "0.5"}, "extended", "standard", False, BOTH[1:]),
    ],
)  # fmt: skip
def test_what_the_tools_must_be(asked, length, shank, ordinary, codes):
    found = reached(**asked)
    assert (found.length, found.shank, found.ordinary) == (length, shank, ordinary)
    assert [one.code for one in found.notes.cautions] == codes
    assert bool(found.advice) is bool(found.notes.assumptions) is not ordinary


@every(
    ("text", "clearance", "missing", "least"),
    [
        ("M10", "10", None, None),
        ("M10", "9.99", "0.01 mm of clearance", "at least 10 mm"),
        # the hole of a screw insert is wider than its screw: 10 + 1.299038 x 1.5 = 11.949 mm
        ("STI M10x1.5", "10.5", "1.45 mm of clearance are missing", "at least 11.95 mm"),
    ],
)
def test_a_clearance_that_the_tools_do_not_pass(text, clearance, missing, least):
    if missing is None:
        assert reached(text, clearance_diameter=clearance).clearance_diameter == Decimal(clearance)
        return
    with pytest.raises(HoleError) as refused:
        reached(text, clearance_diameter=clearance)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("hole_not_reachable", "/hole/clearance_diameter")
    assert missing in plain_blanks(fault.detail)
    assert plain_blanks(fault.allowed).startswith(least)


@every(
    ("access", "travel", "refused"),
    [
        # 108 - 20 - 24 = 64 mm of access at most
        ("64", "24", None),
        ("64.01", "24", ("0.01 mm are missing", "at most 64 mm")),
        (
            "70",
            "24",
            ("the longest standard one held is 108 mm long (ISO 2283, from memory): 6 mm are", "at most 64 mm"),
        ),
        # where no access at all would do it is not what is refused: 108 - 20 = 88
        ("10", "88", ("10 mm are missing", "at most 0 mm")),
        ("10", "88.01", None),
    ],
)
def test_an_access_through_which_no_tap_reaches(access, travel, refused):
    if refused is None:
        assert (reached(access_depth=access, travel=travel).tap is None) is (travel > "24.01")
        return
    with pytest.raises(HoleError) as caught:
        reached(access_depth=access, travel=travel)
    (fault,) = caught.value.faults
    assert (fault.code, fault.pointer) == ("hole_not_reachable", "/hole/access_depth")
    assert refused[0] in plain_blanks(fault.detail)
    assert plain_blanks(fault.allowed) == refused[1]


def test_only_a_length_that_is_the_longest_refuses_an_access():
    """ASME B94.9 holds no long-shank tap: a special one may reach."""

    def inch(text):
        return Length(Decimal(text), "in")

    assert reached("1/2-13 UNC-2B", "27/64", tip="1", travel="1", unit=inch, access_depth="9").tap is None
    assert reached(tapped=False, access_depth="90").tap is None


def test_the_counterbore_lets_the_tools_in():
    """5 mm deep and 20 mm wide: flutes of 75 mm do for 78 mm, the recess for 42 mm; one of 9.9 mm lets no shank in."""
    for width, needs in (("20", "standard"), ("9.9", "small_shank")):
        asked = Hole("blind", full_thread_depth=mm("20"), counterbore=Counterbore(mm(width), mm("5")))
        depths = Depths(
            *(Decimal(value) for value in ("78", "78", "20", "42", "4.5", "10", "90")),
            breakthrough=None,
            wall_left=None,
        )
        found = reach.reach(thread("M10"), asked, depths=depths, drill=find_drill("8.5 mm"))
        assert (found.shank, found.counterbored_first) == (needs, True)
