"""What the hole of a way asks for: as the drawing has it, but for what belonged to the drawn thread or is changed.

A crib, a percent of thread, limits of a tap and a series of drills were chosen for the thread that is spoilt; a grade
holds for the larger screw as well, its class does not. A drill that the drawing states is that of its own thread, cut.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core import callout
from borewright.core.model import Hole, MaterialInput, PercentTarget
from borewright.core.requests import HoleSpecRequest, Machine, MatingScrew, Stock
from borewright.core.rework import FaultFound, Measured, ReworkRequest, rework
from every import every
from reworked import Answer, coat, length

INSERT, LARGER = "insert_in_the_same_place", "next_larger_thread"
D = Decimal


def inch(value):
    return length(value, "in")


DRAWN = HoleSpecRequest(
    callout.read("3/8-16 UNC-2B"),
    Hole("blind", full_thread_depth=inch(0.75), thickness=inch(1.5), drill="5/16"),
    id="KRP-4410/3",
    material=MaterialInput(name="6061-T6"),
    percent_thread=PercentTarget(target=D(75)),
    objective="least_torque",
    drill_series=("fractional", "letter", "number"),
    length_of_engagement=inch(0.6),
    mating_screw=MatingScrew("3A", "SAE J429 grade 8"),
    stock=Stock(("5/16", "F", "G"), ("H3", "H5")),
    machine=Machine(tapping="floating"),
    safety_factor=1.25,
    edition="1989",
)


def ways(asked, found):
    return Answer(rework(ReworkRequest(asked, found)))


def request_of(found, name):
    return found[name].plan.specification.request


def test_another_thread_leaves_what_was_chosen_for_the_drawn_one():
    found = ways(DRAWN, FaultFound("stripped"))
    wanted = replace(
        DRAWN,
        id=None,
        percent_thread=None,
        objective="chart",
        drill_series=None,
        mating_screw=MatingScrew(grade="SAE J429 grade 8"),
        stock=Stock(),
        edition=None,
        hole=replace(DRAWN.hole, drill=None),
    )
    assert request_of(found, INSERT) == replace(wanted, thread=callout.read("3/8-16 UNC-2B STI"))
    larger = [one.plan.specification.request for one in found.found.ways if one.name == LARGER]
    assert replace(wanted, thread=callout.read("1/2-13 UNC-2B")) in larger
    # the old groove reaches 0.3831: 7/16-20 (0.383 to 0.395) is drilled with W (0.386) and no other
    assert replace(wanted, thread=callout.read("7/16-20 UNF-2B"), stock=Stock(("W",))) in larger


def test_a_screw_without_a_grade_is_none_of_a_larger_thread():
    for screw, kept in ((MatingScrew("3A"), None), (MatingScrew(), None), (None, None),
                        (MatingScrew(grade="A574"), MatingScrew(grade="A574"))):  # fmt: skip
        found = ways(replace(DRAWN, mating_screw=screw), FaultFound("stripped"))
        assert request_of(found, INSERT).mating_screw == kept


def test_what_is_cut_anew_is_cut_whatever_the_drawing_forms():
    """A forming tap would only push the old thread about."""
    formed = replace(DRAWN, method="form", percent_thread=None, objective="chart", edition=None,
                     hole=replace(DRAWN.hole, drill=None), stock=Stock())  # fmt: skip
    found = ways(formed, FaultFound("stripped"))
    for one in found.found.ways:
        if one.plan is not None:
            assert one.plan.specification.request.method == "cut", one.name


def test_a_drill_of_the_drawing_is_none_for_a_formed_thread():
    """(8 - 7.35)/0.0085 = 76 percent formed. The drawing's 6.8 mm is that of the cut thread."""
    mm = length
    hole = Hole("blind", full_thread_depth=mm(16, "mm"), drill="6.8 mm")
    asked = HoleSpecRequest(callout.read("M8"), hole, material=MaterialInput(name="6061-T6"))
    found = ways(asked, FaultFound("drilled_oversize", measured=Measured(hole_diameter=mm(7.35, "mm"))))
    wanted = replace(asked, method="form", hole=replace(hole, drill=None))
    assert request_of(found, "form_the_thread") == wanted


def test_a_wrong_thread_cut_away_keeps_the_drill_of_the_drawing_unless_it_is_too_small():
    """#10-32 leaves 0.1941, 1/4-20 is cut from 0.196 on: the #7 of the drawing stays. 1/4-20 leaves 0.2565, over the
    0.252 of 5/16-18: F is the next drill, and the crib's other ones and the drawing's own are none."""
    for drawn, tapped, drill, stock, now in (
        ("1/4-20 UNC-2B", "#10-32 UNF", "#7", Stock(), "#7"),
        ("5/16-18 UNC-2B", "1/4-20 UNC", "1/4", Stock(("1/4",), ("H5",)), None),
    ):
        asked = HoleSpecRequest(callout.read(drawn), Hole("blind", full_thread_depth=inch(0.6), drill=drill),
                                id="A", material=MaterialInput(name="6061-T6"), stock=stock)  # fmt: skip
        found = ways(asked, FaultFound("wrong_thread", wrong_thread=callout.read(tapped)))
        wanted = replace(asked, id=None, hole=replace(asked.hole, drill=now))
        if now is None:
            wanted = replace(wanted, stock=Stock(("F",), ("H5",)))
        assert request_of(found, "drill_and_tap_as_drawn") == wanted


def test_the_next_limit_is_the_only_tap_at_hand():
    """H5, then H7 of 1/4-20 UNC-2B; nothing else changes."""
    asked = HoleSpecRequest(callout.read("1/4-20 UNC-2B"), Hole("blind", full_thread_depth=inch(0.5), drill="#7"),
                            id="B", material=MaterialInput(name="6061-T6"), stock=Stock(("#7",)),
                            tap_limits="inch_h")  # fmt: skip
    found = ways(asked, FaultFound("go_does_not_enter"))
    assert request_of(found, "tap_again_next_limit") == replace(asked, id=None, stock=Stock(("#7",), ("H7",)))


def test_a_finish_that_is_on_is_not_put_on_again():
    for stage, kept in (("before_finish", True), ("after_finish", False)):
        asked = replace(DRAWN, finish=coat(0.0002, 0.0004))
        found = ways(asked, FaultFound("stripped", stage))
        assert request_of(found, INSERT).finish == (asked.finish if kept else None)


def stripped(**sizes):
    hole = Hole("blind", **{name: inch(value) for name, value in sizes.items()})
    asked = HoleSpecRequest(callout.read("3/8-16 UNC-2B"), hole, material=MaterialInput(name="6061-T6"))
    return ways(asked, FaultFound("stripped"))


@every(
    ("sizes", "made", "insert"),
    [
        ({"full_thread_depth": 0.5}, "0.5", "0.375"),
        ({"full_thread_depth": 0.4375}, "0.4375", "0.375"),
        ({"full_thread_depth": 0.4}, "0.4375", "0.375"),
        # with two pitches under the thread the point of drill X (0.397/2/tan 59 = 0.119) would end at 0.994
        ({"full_thread_depth": 0.75, "thickness": 1.0}, "0.75", "0.5625"),
        ({"full_thread_depth": 0.75, "thickness": 0.97}, "0.6250", "0.5625"),
    ],
)
def test_a_hole_is_made_as_deep_as_its_insert_needs(sizes, made, insert):
    """Inserts of 3/8-16 are 0.375, 0.5625, 0.75, 0.9375 and 1.125 in long and need a pitch of 0.0625 more: as deep as
    drawn where that holds one, else as the longest one needs that fits, else as the shortest one does."""
    found = stripped(**sizes)
    assert request_of(found, INSERT).hole.full_thread_depth == length(made, "in")
    assert found[INSERT].proof["insert_length"] == D(insert)


def test_a_hole_that_may_not_be_drilled_deep_enough_for_the_shortest_insert_takes_none():
    """0.4375 + 2 x 0.0625 = 0.5625."""
    found = stripped(full_thread_depth=0.3, drill_depth_limit=0.55)
    assert INSERT not in found.names
    assert found.ruled_out[INSERT].startswith("0.438 in of full thread need 0.563 in of full drill diameter")
    assert request_of(stripped(full_thread_depth=0.3, drill_depth_limit=0.5625), INSERT).hole.full_thread_depth == (
        length("0.4375", "in")
    )
