"""Depth build-up of a tapped hole.

Geometry of the drill point (0.3004, 0.2887, 0.2071, 0.1820 d) is computed from f = 0.5 / tan(point / 2); chamfer
ranges are common practice (taper 7-10, plug 3-5, bottoming 1-2 threads).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import depths
from borewright.core.model import Hole, Length, TapChamfer, Thread
from hypothesis import given
from hypothesis import strategies as st

FORM_C = TapChamfer("semi_bottoming", Decimal(2), Decimal(3))
BOTTOMING = TapChamfer("bottoming", Decimal(1), Decimal(2))


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def plain_blanks(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def mm(text: str) -> Length:
    return Length(Decimal(text), "mm")


def build(found: Thread, hole: Hole, *, drill: str, chamfer: TapChamfer, clearance: Decimal | None = None):
    room_below = clearance if clearance is not None else found.pitch
    space = depths.room(found, hole, drill_diameter=Decimal(drill), clearance=room_below)
    return depths.build(
        found,
        hole,
        space=space,
        drill_diameter=Decimal(drill),
        hole_diameter=Decimal(drill),
        chamfer=chamfer,
        clearance=room_below,
        major_diameter=found.nominal_diameter,
    )


@pytest.mark.parametrize(("angle", "ratio"), [(118, "0.3004"), (120, "0.2887"), (135, "0.2071"), (140, "0.1820")])
def test_point_length_over_diameter(angle, ratio):
    assert f"{depths.point_ratio(Decimal(angle)):.4f}" == ratio


def test_blind_m10_with_form_c_chamfer():
    """M10x1.5, 20 mm of full thread, chamfer 3 pitches, clearance 1 pitch, drill 8.5 at 118 degrees."""
    found = build(thread("M10x1.5-6H"), Hole("blind", full_thread_depth=mm("20")), drill="8.5", chamfer=FORM_C)
    assert str(found.drill_depth) == "26.00"
    assert str(found.drill_tip_depth) == "28.55"
    assert found.breakthrough is None


def test_through_hole_breaks_through():
    found = build(thread("M10x1.5-6H"), Hole("through", thickness=mm("20")), drill="8.5", chamfer=FORM_C)
    assert found.drill_depth == 20
    assert found.breakthrough == Decimal("4.06")  # point 2.5534 and one pitch of 1.5, rounded up
    assert found.tap_travel == 26


def test_inch_hole_given_in_millimetres():
    found = build(
        thread("1/2-13 UNC-2B"), Hole("blind", full_thread_depth=mm("19.05")), drill="0.4219", chamfer=BOTTOMING
    )
    assert found.full_thread_depth == Decimal("0.75")


def test_missing_depth_is_named():
    with pytest.raises(HoleError) as caught:
        depths.full_thread_depth(thread("M8"), Hole("blind"))
    assert caught.value.code == "hole_depth_missing"
    assert caught.value.faults[0].pointer == "/hole/full_thread_depth"
    with pytest.raises(HoleError) as caught:
        depths.full_thread_depth(thread("M8"), Hole("through"))
    assert caught.value.faults[0].pointer == "/hole/thickness"


@pytest.mark.parametrize(
    "hole",
    [
        Hole("blind", full_thread_depth=mm("25"), drill_depth_limit=mm("24")),
        Hole("blind", full_thread_depth=mm("25"), thickness=mm("24")),
        Hole("through", full_thread_depth=mm("25"), thickness=mm("24")),
    ],
)
def test_thread_deeper_than_its_hole(hole):
    with pytest.raises(HoleError) as caught:
        depths.room(thread("M10"), hole, drill_diameter=Decimal("8.5"), clearance=Decimal("1.5"))
    assert caught.value.code == "thread_deeper_than_hole"


def test_limit_too_shallow_says_what_is_needed():
    hole = Hole("blind", full_thread_depth=mm("20"), drill_depth_limit=mm("22.9"))
    with pytest.raises(HoleError) as caught:
        build(thread("M10"), hole, drill="8.5", chamfer=BOTTOMING)
    fault = caught.value.faults[0]
    assert fault.code == "drill_depth_limit_too_shallow"
    assert fault.pointer == "/hole/drill_depth_limit"
    detail, (allowed,) = plain_blanks(fault.detail), map(plain_blanks, fault.allowed)
    assert allowed == "at least 23 mm"  # 20 + 1.5 x 1.5 + 0.5 x 1.5
    assert detail.startswith("20 mm of full thread need 23 mm of full drill diameter")
    # 22.9 - 3 of full thread; a groove of chamfer and one pitch, wider than the major diameter (common practice)
    assert "at most 19.9 mm of full thread" in detail
    assert "relief groove at least 4.5 mm long and wider than 10 mm" in detail


def test_wall_too_thin_says_how_thick_it_must_be():
    """The point comes on top of the full diameter: 20 + 2 x 1.5 + 0.3004 x 8.5, rounded up."""
    hole = Hole("blind", full_thread_depth=mm("20"), thickness=mm("24.9"))
    with pytest.raises(HoleError) as caught:
        build(thread("M10"), hole, drill="8.5", chamfer=BOTTOMING)
    assert caught.value.faults[0].pointer == "/hole/thickness"
    assert [plain_blanks(text) for text in caught.value.faults[0].allowed] == ["at least 25.56 mm"]


def test_half_cut_turns_behind_a_bottoming_tap_ask_for_a_relief():
    hole = Hole("blind", full_thread_depth=mm("20"))
    said = {chamfer.name: build(thread("M10"), hole, drill="8.5", chamfer=chamfer) for chamfer in (BOTTOMING, FORM_C)}
    (caution,) = said[BOTTOMING.name].notes.cautions
    assert (caution.code, "relief groove at least 4.5 mm" in plain_blanks(caution.text)) == ("thread_relief", True)
    assert said[FORM_C.name].notes.cautions == ()


def test_thin_wall_under_the_tip_is_a_question():
    hole = Hole("blind", full_thread_depth=mm("20"), thickness=mm("29"))
    found = build(thread("M10"), hole, drill="8.5", chamfer=FORM_C)
    assert found.wall_left == Decimal("0.45")
    (question,) = found.notes.decisions
    assert (question.code, question.pointer) == ("thin_wall", "/hole/thickness")
    # the point of 118 degrees is 2.55 mm long, that of 140 degrees 0.182 x 8.5 = 1.55
    assert "140 degrees, which leaves 1.45 mm" in plain_blanks(question.text)


@given(
    full=st.decimals("1", "60", places=2),
    spare=st.decimals("0", "40", places=2),
    point=st.sampled_from([90, 118, 120, 135, 140]),
)
def test_a_blind_hole_fits_or_is_refused(full, spare, point):
    """Drill depth never passes the limit, the tip never leaves the wall, full thread is never cut short."""
    limit = full + spare
    hole = Hole(
        "blind",
        full_thread_depth=Length(full, "mm"),
        drill_depth_limit=Length(limit, "mm"),
        thickness=Length(limit + 3, "mm"),
        point_angle_deg=Decimal(point),
    )
    try:
        found = build(thread("M10"), hole, drill="8.5", chamfer=BOTTOMING)
    except HoleError:
        assert spare < Decimal("4.5") + Decimal("4.25")  # 3 pitches, or the longest point beyond the wall
    else:
        assert found.drill_depth <= limit + Decimal("0.01")
        assert found.drill_tip_depth <= limit + 3 + Decimal("0.01")
        assert found.drill_depth >= full + Decimal("4.49")


@pytest.mark.parametrize(("rule", "depth"), [("chamfer", "16.00"), ("din_76_1", "17.30"), ("bs_1936", "12.00")])
def test_run_out_rules_disagree(rule, depth):
    """M10, 10 mm of full thread: DIN 76-1 e1 gives 7.3 mm more (from memory), BS 1936 2.0 mm (seen second-hand)."""
    hole = Hole("blind", full_thread_depth=mm("10"), run_out=rule)
    assert str(build(thread("M10x1.5-6H"), hole, drill="8.5", chamfer=FORM_C).drill_depth) == depth


@pytest.mark.parametrize(
    ("text", "depth"), [("M5", "12.50"), ("M6", "12.00"), ("M12", "12.00"), ("M14", "11.50"), ("M5.5x0.5", "12.50")]
)
def test_borders_of_bs_1936(text, depth):
    """A quarter of the full thread below M6, a fifth from M6 to M12, 15 % above (a reference page)."""
    found = thread(text)
    hole = Hole("blind", full_thread_depth=mm("10"), run_out="bs_1936")
    drill = str(found.nominal_diameter - found.pitch)
    assert build(found, hole, drill=drill, chamfer=FORM_C).drill_depth == Decimal(depth)


@pytest.mark.parametrize(
    ("text", "more"), [("M3", "2.8"), ("M4", "3.8"), ("M6", "5.1"), ("M8", "6.2"), ("M12", "8.3"), ("M24", "13.1")]
)
def test_run_out_of_din_76_1(text, more):
    """Normal internal run-out e1 by pitch, from memory in two places: 0.5, 0.7, 1, 1.25, 1.75 and 3 mm."""
    found = thread(text)
    hole = Hole("blind", full_thread_depth=mm("40"), run_out="din_76_1")
    drill = str(found.nominal_diameter - found.pitch)
    assert build(found, hole, drill=drill, chamfer=FORM_C).drill_depth == 40 + Decimal(more)


def test_run_out_shorter_than_the_chamfer_is_cautioned():
    hole = Hole("blind", full_thread_depth=mm("10"), run_out="bs_1936")
    found = build(thread("M10"), hole, drill="8.5", chamfer=FORM_C)
    (caution,) = found.notes.cautions
    assert (caution.code, "last 4 mm of thread are not full" in plain_blanks(caution.text)) == ("run_out_short", True)


@pytest.mark.parametrize("rule", ["chamfer", "din_76_1", "bs_1936"])
@pytest.mark.parametrize("full", ["3", "5", "10", "40"])
def test_the_tap_never_runs_into_the_bottom(rule, full):
    hole = Hole("blind", full_thread_depth=mm(full), run_out=rule)
    found = build(thread("M10"), hole, drill="8.5", chamfer=FORM_C)
    assert found.full_thread_depth <= found.tap_travel <= found.drill_depth


def test_run_out_not_listed_is_refused():
    with pytest.raises(HoleError) as caught:
        build(
            thread("1/2-13 UNC-2B"),
            Hole("blind", full_thread_depth=Length(Decimal("0.5"), "in"), run_out="din_76_1"),
            drill="0.4219",
            chamfer=FORM_C,
        )
    assert caught.value.code == "thread_data_missing"
