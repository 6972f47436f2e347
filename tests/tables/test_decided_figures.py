"""The rules turn where the table of practice says: what was decided is read from it, the rest worked out by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.callout import hole_words
from borewright.core.cutting.drill_cut import peck
from borewright.core.drilling.drill_sizes import find_drill
from borewright.core.drilling.percent_of_thread import is_common_form
from borewright.core.errors import BorewrightError
from borewright.core.finishing import doubtful, requested_finish
from borewright.core.finishing.thickness import Thickness
from borewright.core.hole import run_out, tight_bottom
from borewright.core.joint import strength
from borewright.core.joint.geometry import joint
from borewright.core.joint.screws import ScrewGrade
from borewright.core.materials.part_material import find
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.plan import machine_limits, routing
from borewright.core.practice import count, figure, longest_chamfer, number, sizes
from borewright.core.requests import DrillOversize, Machine
from borewright.core.tapping import depth_cautions, fit
from borewright.core.way_of_making.size import large_threading

A_LITTLE = Decimal("0.0001")


def thread(text: str):
    return standards.resolve(callout.read(text))


def refuses(function, *args, **named) -> bool:
    try:
        function(*args, **named)
    except BorewrightError:
        return True
    return False


def mm(value: Decimal) -> Length:
    return Length(value, "mm")


def test_pecks_begin_past_the_depth_that_is_drilled_in_one_go():
    """Depths over a drill of 10 mm: at the figure one go, past it the first peck and one more."""
    once, first = number("peck_over_diameters"), number("first_peck_diameters")
    step = number("next_peck_diameters")
    assert peck(diameter_mm=10, depth_mm=10 * once).count == 1
    deep = peck(diameter_mm=10, depth_mm=10 * (first + 2 * step))
    assert (deep.count, deep.first_mm, deep.next_mm) == (3, 10 * first, 10 * step)


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("M5", "bs_1936_small_share"),
        ("M6", "bs_1936_middle_share"),
        ("M12", "bs_1936_middle_share"),
        ("M14", "bs_1936_large_share"),
    ],
)
def test_run_out_of_bs_1936(text, share):
    """Below M6, from M6 to M12, above: so much of 20 mm of full thread."""
    assert (figure("bs_1936_small_to_mm"), figure("bs_1936_middle_to_mm")) == (6, 12)
    hole = Hole("blind", full_thread_depth=mm(Decimal(20)), run_out="bs_1936")
    assert run_out.extra_depth(thread(text), hole, Decimal(20)) == 20 * figure(share)


def test_points_of_spot_drills():
    usual, flattest = figure("spot_drill_deg"), figure("flattest_spot_drill_deg")
    for point, spot in ((usual - 2, usual), (usual, usual), (usual + 1, flattest), (Decimal(180), flattest)):
        assert routing._spot(Decimal(10), point).tool["included_angle"] == spot


def test_flatter_points():
    flatter = figure("flatter_point_deg")
    assert tight_bottom.flatter_points(figure("drill_point_deg")) == (flatter, 180)
    assert tight_bottom.flatter_points(flatter) == (180,)
    assert Hole("through").point_angle_deg == figure("drill_point_deg")


def test_largest_oversize_of_a_drill():
    most = figure("most_drill_oversize_share") * 8  # M8
    assert not refuses(machine_limits.judge, thread("M8"), Machine(drill_oversize=DrillOversize(mm(most))))
    assert refuses(machine_limits.judge, thread("M8"), Machine(drill_oversize=DrillOversize(mm(most + A_LITTLE))))


def test_tensile_strengths_that_are_read():
    weakest, strongest = number("weakest_tensile_mpa"), number("strongest_tensile_mpa")
    for value, refused in ((weakest, False), (weakest / 2, True), (strongest, False), (strongest + 1, True)):
        assert refuses(find, MaterialInput(name="4140", tensile_strength_mpa=value)) == refused


def test_hardened_steel_is_of_group_h():
    limit = number("hardened_from_hrc")
    groups = [find(MaterialInput(hardness=f"{value:g} HRC")).iso_group for value in (limit - 1, limit)]
    assert groups == ["P", "H"]


def test_deep_threads():
    """Depths of M8 that are routine for straight flutes, and for flutes that carry chips."""
    for style, name in (("straight_flute", "routine_depth_diameters"), ("spiral_flute", "deepest_cut_diameters")):
        depth = 8 * figure(name)
        assert not depth_cautions(thread("M8"), depth, style=style, method="cut")
        assert depth_cautions(thread("M8"), depth + A_LITTLE, style=style, method="cut")


def test_mean_cut_oversize():
    """1/4-20 UNC: 0.15 of the 0.0049 in of class 2B (0.2175 to 0.2224) is 0.0007 in."""
    found = fit.expected_oversize(thread("1/4-20 UNC-2B"))
    assert found.amount == Decimal("0.0007")
    assert abs(found.amount - figure("cut_oversize_share") * Decimal("0.0049")) < Decimal("0.00005")


def test_threads_that_are_complete_and_counted():
    """M10 with 12 mm of engagement counts 12 - 2 x 1.5 = 9 mm; no length counts past two diameters, 20 mm."""
    pair, ends = joint(thread("M10"), None), number("incomplete_pitches")
    assert strength.complete_length_of(pair, engagement_mm=12, incomplete_pitches=ends) == 12 - ends * 1.5
    assert strength.complete_length_of(pair, engagement_mm=99, incomplete_pitches=ends) == 10 * number(
        "strip_capped_diameters"
    )


def test_shear_strength_of_a_screw():
    grade = ScrewGrade("8.8", "ISO 898-1", 800.0, None, None, None, "", "", "published")
    assert strength.screw_shear(grade) == number("screw_shear_share") * 800


@pytest.mark.parametrize("text", ["M8", "1/4-20 UNC-2B", "1-5 ACME-2G"])
def test_longest_engagement(text):
    found, most = callout.read(text), count("longest_engagement_diameters")
    longest = most * found.nominal_diameter
    assert not refuses(standards.resolve, found, engagement=Length(longest, found.unit))
    assert refuses(standards.resolve, found, engagement=Length(longest + A_LITTLE, found.unit))


def test_most_starts():
    most = count("most_starts")
    assert callout.read(f"Tr60x{3 * most}(P3)").starts == most
    assert refuses(callout.read, f"Tr60x{3 * (most + 1)}(P3)")


@pytest.mark.parametrize(("unit", "text"), [("in", "1/2-13 UNC-2B x 0.5 DEEP"), ("mm", "M8 x 12 DEEP")])
def test_depths_that_are_the_same(unit, text):
    found, slack = callout.read(text), sizes("callout_depth_slack")[unit]
    depth = Decimal("0.5") if unit == "in" else Decimal(12)
    for value, refused in ((depth + slack, False), (depth + slack + A_LITTLE, True)):
        hole = Hole("blind", full_thread_depth=Length(value, unit))
        assert refuses(hole_words.check, found, hole) == refused


def test_drills_that_are_read():
    least, most = figure("smallest_drill_mm"), figure("largest_drill_mm")
    for value, refused in ((least, False), (least / 2, True), (most, False), (most + 1, True)):
        assert refuses(find_drill, f"{value} mm") == refused


def test_bare_coats_that_are_asked_about():
    for unit, value, asked in (
        ("mm", figure("bare_coat_least_mm"), False),
        ("mm", figure("bare_coat_least_mm") - A_LITTLE, True),
        ("in", figure("bare_coat_most_in"), False),
        ("in", figure("bare_coat_most_in") + A_LITTLE, True),
    ):
        assert (doubtful.doubt(Thickness(value, None, unit, bare=True)) is not None) == asked


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_thickest_coat(unit):
    most = sizes("thickest_coat")[unit]
    for value, refused in ((most, False), (most + A_LITTLE, True)):
        coat = FinishInput(thickness=LengthRange(Length(value, unit), None))
        assert refuses(requested_finish.stated, coat, None, unit) == refused


def test_forms_whose_percent_is_told_on_three_quarters_of_h():
    """Height on diameter of M (1.083 P), UNM (1.04 P) and Acme with its clearance (over 1 P, but 29 degrees)."""
    assert figure("common_form_height_least") < Decimal("1.04") < Decimal("1.083") < figure("common_form_height_most")
    assert [is_common_form(thread(text)) for text in ("M8", "1.00 UNM", "1-5 ACME-2G")] == [True, True, False]


def test_steep_flanks_are_not_milled():
    """60 and 55 degrees are above the figure, 30 and 29 below it."""
    assert Decimal(30) < figure("milled_over_deg") < Decimal(55)
    ways = [large_threading(thread(text)) for text in ("M48", "2-4.5 BSW", "Tr60x9", "4-2 ACME-2G")]
    assert ways == ["thread_mill", "thread_mill", "single_point", "single_point"]


def test_chamfers_are_those_of_their_table():
    """TM 9-254: bottoming 1 to 2; DIN 2197: form F 1 to 1.5, form C 2 to 3; taper pipe taps to 3.5."""
    found = [longest_chamfer(key) for key in ("bottoming", "F", "taper_pipe_iso", "taper_pipe")]
    assert found == [2, Decimal("1.5"), 3, Decimal("3.5")]
