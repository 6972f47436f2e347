"""The hole aimed at: percents of thread asked for, and the hole of a forming tap.

Limits of 1/2-13 and 1/4-20 are those of ASME B1.1; formulas are named at each check.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.model import PercentTarget

from .choices import codes, drill_for, material, refusal

# --- percent ---------------------------------------------------------------------------------------


def test_percent_target():
    """1/4-20 at 75 %: hole = 0.25 - 0.01299 x 75 / 20 = 0.2013; #7 (0.2010) is nearest."""
    choice = drill_for("1/4-20 UNC-2B", percent=PercentTarget(target=Decimal(75)))
    assert str(choice.target_hole_diameter) == "0.2013"
    assert choice.recommended.drill.label == "#7"
    assert choice.rule == "rule"


def test_percent_range_excludes_the_chart_drill():
    choice = drill_for("1/2-13 UNC-2B", percent=PercentTarget(min=Decimal(68), max=Decimal(76)))
    assert Decimal(68) <= choice.recommended.percent_thread <= Decimal(76)
    assert any("more than asked for" in drill.reason for drill in choice.rejected if drill.label == "27/64")


def test_percent_range_above_the_chart_drill():
    """27/64 (.4219) leaves 78.1 / 0.9993 = 78.2 %; 0.417 is the smallest minor diameter, 83.1 %."""
    choice = drill_for("1/2-13 UNC-2B", percent=PercentTarget(min=Decimal(79), max=Decimal(83)))
    told = {drill.label: drill.reason for drill in choice.rejected}
    assert told["27/64"] == "leaves 78.16 % of thread, less than asked for"
    # Z is 0.413 and 7/16 is 0.4375; the minor diameter is 0.417 to 0.434
    assert told["Z"].startswith("0.004\N{NO-BREAK SPACE}in below the smallest minor diameter 0.417")
    assert told["7/16"].startswith("0.0035\N{NO-BREAK SPACE}in above the largest minor diameter 0.434")
    assert choice.recommended.drill.label == "10.6 mm"  # 0.41732 in: 82.7 %


def test_percent_range_that_holds_the_chart_drill():
    choice = drill_for("1/2-13 UNC-2B", percent=PercentTarget(min=Decimal(70), max=Decimal(80)))
    assert (choice.recommended.drill.label, choice.rule) == ("27/64", "published_chart")


@pytest.mark.parametrize("percent", [PercentTarget(target=Decimal(90)), PercentTarget(min=Decimal("83.4"))])
def test_percent_above_the_basic_height(percent):
    """5/8 H is 83.33 % of 0.75 H: above it the hole is smaller than the smallest minor diameter."""
    found = refusal("1/2-13 UNC-2B", percent=percent)
    assert found.code == "percent_out_of_range"
    assert "GO plain plug" in found.faults[0].detail


def test_percent_of_the_basic_height_itself_is_allowed():
    assert drill_for("1/2-13 UNC-2B", percent=PercentTarget(target=Decimal("83.3"))).recommended.diameter >= Decimal(
        "0.417"
    )


def test_percent_below_what_the_class_leaves_is_cautioned():
    """1/2-13-2B: the largest minor diameter 0.434 leaves 66.0 %."""
    choice = drill_for("1/2-13 UNC-2B", percent=PercentTarget(target=Decimal(50)))
    assert "percent_outside_limits" in codes(choice)
    assert choice.recommended.expected_hole_diameter <= Decimal("0.434")


@pytest.mark.parametrize(
    ("percent", "code", "pointer"),
    [
        (PercentTarget(min=Decimal(75), max=Decimal(70)), "range_inconsistent", "/percent_thread/min"),
        (PercentTarget(target=Decimal(60), min=Decimal(65)), "range_inconsistent", "/percent_thread/min"),
        (PercentTarget(target=Decimal(80), max=Decimal(75)), "range_inconsistent", "/percent_thread/target"),
        (PercentTarget(max=Decimal(60)), "percent_out_of_range", "/percent_thread/max"),
        (PercentTarget(target=Decimal(0)), "percent_out_of_range", "/percent_thread"),
        (PercentTarget(min=Decimal(-5)), "percent_out_of_range", "/percent_thread/min"),
        (PercentTarget(target=Decimal("NaN")), "percent_out_of_range", "/percent_thread"),
    ],
)
def test_impossible_percents(percent, code, pointer):
    found = refusal("1/2-13 UNC-2B", percent=percent)
    assert (found.code, found.faults[0].pointer) == (code, pointer)


# --- forming ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("text", "hole"), [("1/4-20 UNC-2B", "0.2279"), ("M6", "5.558")])
def test_forming_hole(text, hole):
    """Hole = D - 0.0068 x percent x P at 65 %: 1/4-20 0.2279 in, M6 5.558 mm."""
    choice = drill_for(text, method="form")
    assert str(choice.target_hole_diameter) == hole
    assert choice.rule == "rule"
    assert choice.recommended.within_minor_diameter_limits is None
    assert {"forming_hole_tolerance", "forming_check_minor_diameter"} <= set(codes(choice))
    assert any("65 %" in said for said in choice.notes.assumptions)


def test_forming_drill_of_quarter_inch():
    """Forming hole 0.2279 in; 5.7 mm (0.2244) drills 0.2282 on average, #1 (0.2280) would make 0.2318."""
    assert drill_for("1/4-20 UNC-2B", method="form").recommended.drill.label == "5.7 mm"


def test_forming_percent_of_half_a_pitch():
    """D - P / 2 is 73.5 % in the forming relation: 5.5 mm, which 5.4 mm drills on average (5.497)."""
    choice = drill_for("M6", method="form", percent=PercentTarget(target=Decimal("73.5")))
    assert choice.recommended.drill.label == "5.4 mm"
    assert abs(choice.recommended.expected_percent_thread - Decimal("73.5")) < 1


def test_short_chip_material_is_not_formed():
    found = refusal("M6", method="form", material=material("grey iron", "short", "grey iron"))
    assert (found.code, found.faults[0].pointer) == ("method_not_applicable", "/method")


def test_unknown_chip_is_cautioned():
    assert "forming_needs_ductile_material" in codes(drill_for("M6", method="form"))
    assert "forming_needs_ductile_material" not in codes(
        drill_for("M6", method="form", material=material("4140", "long"))
    )


def test_why_each_drill_around_the_chosen_one_is_refused():
    """1/4-20 UNC-2B, 0.196 to 0.207, 70 to 76 percent asked for: 100 (0.25 - d)/(1.299038/20), oversize 0.0038."""
    percent = PercentTarget(min=Decimal(70), max=Decimal(76))
    choice = drill_for("1/4-20 UNC-2B", percent=percent, stock=("#7", "#6", "#5", "#8", "#10"))
    assert choice.recommended.drill.label == "#7"
    reasons = {one.label: one.reason.replace("\N{NO-BREAK SPACE}", " ") for one in choice.rejected}
    assert reasons["#8"] == "leaves 78.52 % of thread, more than asked for"
    assert reasons["#5"] == "leaves 68.51 % of thread, less than asked for"
    assert reasons["#6"] == "drills 0.2078 in on average, 0.0008 in above 0.207 in"
    assert reasons["#10"].startswith("0.0025 in below the smallest minor diameter 0.196 in")
    assert reasons["#4"].startswith("0.002 in above the largest minor diameter 0.207 in")
