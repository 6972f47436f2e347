"""Derivation and words of the depths of a parallel hole: M10x1.5.

The point of an 8.5 mm drill of 118 degrees is 0.30043 x 8.5 = 2.5537 mm. Three pitches of chamfer are 4.5 mm, one of
clearance 1.5 mm (common practice).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import depths, drilled_depth
from borewright.core.model import Hole, Length, TapChamfer
from borewright.core.model.holes import Counterbore
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


@every(
    ("rule", "clearance", "most"),
    [
        # the longest bottoming tap that forms has 2.5 threads: 3.75 + 1.5 mm below the thread
        ("chamfer", "1.5", "14.74"),
        # DIN 76-1 asks for 7.3 mm (from memory), a wide clearance for 3.75 + 4
        ("din_76_1", "1.5", "12.69"),
        ("din_76_1", "4", "12.24"),
    ],
)
def test_a_thread_that_is_deeper_than_its_hole_is_told_what_any_tap_leaves(rule, clearance, most):
    hole = Hole("blind", full_thread_depth=DEPTH, drill_depth_limit=mm("19.99"), run_out=rule)
    with pytest.raises(HoleError) as refused:
        build(hole, clearance=clearance)
    assert [words(fault.allowed) for fault in refused.value.faults] == [f"at most {most} mm"]


@every(("wall", "thin"), [("30.04", True), ("30.05", False), ("30.06", False)])
def test_less_than_a_pitch_under_the_tip_is_asked(wall, thin):
    """The tip is 28.5537 mm deep: 1.486, 1.496 and 1.506 mm are left, printed 1.49, 1.50 and 1.51."""
    found = build(Hole("blind", full_thread_depth=DEPTH, thickness=mm(wall)))
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


@every(
    ("longest", "short"),
    [
        # 27.3 mm deep less 1.5 of clearance: a chamfer of 5.8 mm goes, one of 6.3 mm is 0.5 mm short
        ("3.866", None),
        ("4.2", "the last 0.5 mm of thread are not full"),
    ],
)
def test_half_a_millimetre_of_half_cut_thread_is_told(longest, short):
    hole = Hole("blind", full_thread_depth=DEPTH, run_out="din_76_1")
    found = build(hole, TapChamfer("plug", Decimal(2), Decimal(longest)))
    assert [one.code for one in found.notes.cautions] == ([] if short is None else ["run_out_short"])
    assert (short or "") in words(one.text for one in found.notes.cautions)


def test_a_tool_without_a_chamfer():
    """A milled thread needs its clearance only: 20 + 1.5 mm; a groove of one pitch ends it."""
    found = build(Hole("blind", full_thread_depth=DEPTH, drill_depth_limit=mm("21.5")), None)
    assert (str(found.drill_depth), str(found.chamfer_length), str(found.tap_travel)) == ("21.50", "0.00", "20.00")
    assert (found.notes.cautions, found.notes.decisions) == ((), ())
    with pytest.raises(HoleError) as refused:
        build(Hole("blind", full_thread_depth=DEPTH, drill_depth_limit=mm("21.4")), None)
    detail = words([refused.value.faults[0].detail])
    assert "need 21.5 mm of full drill diameter; 21.4 mm are allowed" in detail
    assert "relief groove at least 1.5 mm long and wider than 10 mm" in detail


def test_a_rule_of_run_out_asks_nothing_of_a_bottoming_tap():
    """DIN 76-1 leaves 7.3 mm and the limit no more: its own figure is taken."""
    hole = Hole("blind", full_thread_depth=DEPTH, run_out="din_76_1", drill_depth_limit=mm("27.3"))
    assert not build(hole, TapChamfer("bottoming", Decimal(1), Decimal("1.5"))).notes.decisions
    asked = Hole("blind", full_thread_depth=DEPTH, drill_depth_limit=mm("23"))
    assert [one.code for one in build(asked, TapChamfer("bottoming", Decimal(1), Decimal("1.5"))).notes.decisions] == [
        "bottoming_only"
    ]


def test_a_through_hole_that_is_not_threaded_through():
    """15 mm of thread in 20 mm: the drill goes through, the tap by chamfer and clearance past the wall."""
    found = build(Hole("through", thickness=DEPTH, full_thread_depth=mm("15")))
    assert (str(found.drill_depth), found.full_thread_depth, str(found.tap_travel)) == ("20.00", 15, "26.00")


def test_sheet_keeps_what_its_broken_edges_leave():
    """3 mm: (10.5 - 8.5)/(2 tan 60) = 0.58 mm is more than 0.15 of it; a twentieth at each face leaves 2.7 mm."""
    found = build(Hole("through", thickness=mm("3")))
    assert found.full_thread_depth == Decimal("2.70")
    assert [one.code for one in found.notes.cautions] == ["countersink_limited"]
    assert float(found.countersink_diameter) == pytest.approx(8.5 + 0.15 * 2 * 3**0.5, abs=0.005)


@every(
    ("text", "hole", "depth", "said"),
    [
        # 1/4-18 NPT: L1 + L3 = 0.3945 in, below the floor of a counterbore and no more in a thicker wall
        ("1/4-18 NPT", {"kind": "blind"}, "0.3945", "full thread depth 0.3945 in taken from the thread's standard"),
        ("1/4-18 NPT", {"kind": "blind", "bore": "0.1"}, "0.4945", "full thread depth 0.3945 in taken"),
        ("1/4-18 NPT", {"kind": "through", "wall": "0.3945"}, "0.3945", None),
        ("1/4-18 NPT", {"kind": "through", "wall": "0.3946"}, "0.3945", "full thread depth 0.3945 in taken"),
        ("1/4-18 NPT", {"kind": "through", "wall": "0.4945", "bore": "0.1"}, "0.4945", None),
        ("1/4-18 NPT", {"kind": "through", "wall": "0.5", "bore": "0.1"}, "0.4945", "full thread depth 0.3945 in"),
        ("1/4-20 UNC-2B", {"kind": "through", "wall": "3"}, "3", None),
        ("1/4-20 UNC-2B", {"kind": "through", "wall": "3", "full": "0.5"}, "0.5", None),
    ],
)
def test_the_depth_of_full_thread(text, hole, depth, said):
    def inch(name):
        return None if name not in hole else Length(Decimal(hole[name]), "in")

    bore = None if "bore" not in hole else Counterbore(Length(Decimal("0.8"), "in"), inch("bore"))
    asked = Hole(hole["kind"], full_thread_depth=inch("full"), thickness=inch("wall"), counterbore=bore)
    found, told = depths.full_thread_depth(standards.resolve(callout.read(text)), asked)
    assert found == Decimal(depth)
    assert words(told).startswith(said) if said else not told


@every(
    ("text", "limit", "least", "allowed"),
    [
        ("M10", "26", "26", None),
        ("M10", "26", "26.01", ("26.01 mm of full drill diameter are asked for, 26 mm are allowed", "at most 26 mm")),
        ("M10", "26.123", "27.128", ("27.13 mm of full drill diameter are asked for, 26.12 mm", "at most 26.12 mm")),
        ("M10", None, "27", None),
        ("1/4-20 UNC-2B", "0.51164", "0.6", ("0.6 in of full drill diameter", "at most 0.512 in")),
    ],
)
def test_the_least_depth_that_a_drawing_asks_for(text, limit, least, allowed):
    found = standards.resolve(callout.read(text))
    lengths = [None if one is None else Length(Decimal(one), found.unit) for one in (limit, least)]
    hole = Hole("blind", drill_depth_limit=lengths[0], least_drill_depth=lengths[1])
    if allowed is None:
        stated = drilled_depth.stated_depth(found, hole, needed=Decimal("25.5"), point=Decimal("2.55"))
        assert stated == Decimal(least)
        assert drilled_depth.stated_depth(found, hole, needed=Decimal(30), point=Decimal(2)) == 30
        return
    with pytest.raises(HoleError) as refused:
        drilled_depth.stated_depth(found, hole, needed=Decimal("25.5"), point=Decimal("2.55"))
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("range_inconsistent", "/hole/least_drill_depth")
    assert allowed[0] in words([fault.detail])
    assert words(fault.allowed) == allowed[1]


@every(
    ("text", "limit", "least", "planned"),
    [
        ("M10", None, "27.001", "27.01"),
        ("M10", None, "27.009", "27.01"),
        ("M10", "27.005", "27.001", "27.005"),  # up to the limit and no further
        ("1/2-13 UNC-2B", None, "27.0625", "27.063"),  # nearest would be 27.062, half a thousandth too little
        ("1/2-13 UNC-2B", None, "27.062", "27.062"),
        ("1/2-13 UNC-2B", None, "25.4991", "25.5"),
    ],
)
def test_a_least_depth_is_never_rounded_below_itself(text, limit, least, planned):
    found = standards.resolve(callout.read(text))
    lengths = [None if one is None else Length(Decimal(one), found.unit) for one in (limit, least)]
    hole = Hole("blind", drill_depth_limit=lengths[0], least_drill_depth=lengths[1])
    stated = drilled_depth.stated_depth(found, hole, needed=Decimal("25.5"), point=Decimal("2.55"))
    assert stated == Decimal(planned)


def test_what_bounds_a_blind_hole():
    """24 mm of wall less 2.5 mm of point; a stated depth is taken as it is."""
    hole = Hole(
        "blind", drill_depth_limit=mm("23"), drill_depth=mm("22"), thickness=mm("24"), least_drill_depth=mm("1")
    )
    assert drilled_depth.blind_ends(M10, hole, Decimal("2.5")) == [
        (Decimal(23), "/hole/drill_depth_limit"),
        (Decimal(22), "/hole/drill_depth"),
        (Decimal("21.5"), "/hole/thickness"),
    ]
    assert drilled_depth.stated_depth(M10, hole, needed=Decimal(30), point=Decimal(2)) == 22
    assert drilled_depth.stated_depth(M10, Hole("blind"), needed=Decimal(30), point=Decimal(2)) == 30
