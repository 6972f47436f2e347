"""The choice of a drill: rules, stock, percents, forming, reaming, refusals.

Limits of 1/2-13, 1/4-20 and M8 are those of ASME B1.1 and ISO 965-1; formulas are named at each check.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.drilling import DrillRequest, candidates_within, recommend
from borewright.core.errors import DrillingError
from borewright.core.model import DrillChoice, Material, PercentTarget, Range, Thread


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def drill_for(text: str, **asked: object) -> DrillChoice:
    return recommend(thread(text), DrillRequest(**asked))


def refusal(text: str, **asked: object) -> DrillingError:
    with pytest.raises(DrillingError) as caught:
        drill_for(text, **asked)
    return caught.value


def codes(choice: DrillChoice) -> list[str]:
    return [caution.code for caution in choice.notes.cautions]


def material(name: str, chip: str | None, family: str = "alloy steel", hardness: float | None = 270.0) -> Material:
    return Material(name, family, "P", chip, hardness, None, None, None, None, None)


def decided(choice: DrillChoice) -> list[str]:
    return [decision.code for decision in choice.notes.decisions]


# --- chart and rule ----------------------------------------------------------------------------------


def test_expected_hole_and_margins_of_half_inch():
    """FED-STD-H28/2B Table II.A.1: 27/64, mean oversize .0047, probable hole .4266, 73 %; limits .417 to .434."""
    found = drill_for("1/2-13 UNC-2B").recommended
    assert str(found.diameter) == "0.4219"
    assert str(found.expected_hole_diameter) == "0.4266"
    assert str(found.expected_percent_thread) == "73.45"
    assert found.margin_below_max == Decimal("0.0074")
    assert found.margin_above_min == Decimal("0.0049")
    assert found.in_stock is None


def test_class_3b_may_need_a_decision():
    """5/16-24 UNF: I (.2720) is nearest to 75 %; 3B ends at 0.2754, above which I cuts on average (.2761)."""
    wide, narrow = drill_for("5/16-24 UNF-2B"), drill_for("5/16-24 UNF-3B")
    assert (wide.recommended.drill.label, narrow.recommended.drill.label) == ("I", "I")
    assert (decided(wide), decided(narrow)) == ([], ["drill_often_outside"])


def test_chart_drill_that_cuts_large_is_cautioned_and_a_reamed_hole_offered():
    """1/2-20 UNF-2B: Table II.A.1 lists 29/64, probable hole .4578, the largest minor diameter is .457."""
    choice = drill_for("1/2-20 UNF-2B")
    assert choice.recommended.drill.label == "29/64"
    assert choice.recommended.margin_below_max == Decimal("-0.0008")
    assert decided(choice) == ["drill_often_outside"]
    assert choice.alternatives[0].operation == "drill_and_ream"
    assert all(other.margin_below_max >= 0 for other in choice.alternatives)


def test_class_tighter_than_the_chart_takes_a_smaller_drill():
    """M8-4H: D1 6.647 to 6.817; the chart's 6.8 cuts 6.904 on average."""
    choice = drill_for("M8x1.25-4H")
    assert choice.rule == "rule"
    assert choice.recommended.drill.label == "6.7 mm"
    assert any("chart drill 6.8 mm does not do" in reason for reason in choice.recommended.reasons)


def test_moved_limits_leave_the_chart():
    """Limits before a heavy coat: 27/64 (.4219) is below them, the next drill inside is larger."""
    moved = Range(Decimal("0.423"), Decimal("0.434"))
    choice = drill_for("1/2-13 UNC-2B", minor_diameter=moved)
    assert choice.rule == "rule"
    assert moved.min <= choice.recommended.diameter <= moved.max
    assert choice.minor_diameter == moved
    assert choice.hole_limits is None
    assert any("published charts list 27/64" in reason for reason in choice.recommended.reasons)


def test_moved_limits_that_the_chart_drill_holds():
    choice = drill_for("1/2-13 UNC-2B", minor_diameter=Range(Decimal("0.4175"), Decimal("0.4345")))
    assert choice.rule == "published_chart"
    assert choice.recommended.drill.label == "27/64"


def test_own_limits_given_are_not_moved_limits():
    own = thread("1/2-13 UNC-2B").internal.minor_diameter
    assert drill_for("1/2-13 UNC-2B", minor_diameter=own).hole_limits is not None


def test_ream_when_no_drill_holds_the_limits():
    """9/16-18 UNF-2B, 0.502 to 0.515: no 64th lies between, no reamer that is sold either."""
    choice = drill_for("9/16-18 UNF-2B", series=("fractional",))
    assert choice.recommended.operation == "drill_and_ream"
    assert choice.minor_diameter.min <= choice.ream_diameter <= choice.minor_diameter.max
    assert choice.recommended.drill.label == "31/64"  # 1/2 drills 0.5048, too near for a reamer
    assert choice.recommended.special
    assert "0.508" in choice.recommended.order_text
    assert choice.rule == "rule"


def test_a_reamer_that_is_sold_and_its_usual_stock():
    """3/4-16 UNF-3B, 0.6820 to 0.6908: 43/64, then the 11/16 reamer; 1/64 in on diameter is the usual stock."""
    ream = drill_for("3/4-16 UNF-3B").alternatives[0]
    assert (ream.operation, ream.drill.label, str(ream.expected_hole_diameter)) == ("drill_and_ream", "43/64", "0.6875")
    assert not ream.special


def test_stock_left_for_the_reamer():
    """Common practice: up to 3/64 in on the largest holes; what is more is cautioned."""
    choice = drill_for("5 1/2-8 UN-2B")
    assert choice.recommended.operation == "drill_and_ream"
    assert choice.recommended.drill.label == "4"
    assert "ream_stock_large" in codes(choice)


def test_hole_limits_by_engagement_are_shown():
    assert drill_for("1/2-13 UNC-2B", engagement=Decimal("0.16")).hole_limits == Range(
        Decimal("0.417"), Decimal("0.425")
    )
    deep = drill_for("1/2-13 UNC-2B", engagement=Decimal("1.0"))
    assert any("over 1.5 D the recommended hole limits may exceed" in said for said in deep.notes.assumptions)
    assert deep.recommended.diameter <= Decimal("0.434")


def test_lists_are_bounded_and_best_comes_first():
    choice = drill_for("1/4-20 UNC-2B")
    assert 0 < len(choice.alternatives) <= 8
    assert 0 < len(choice.rejected) <= 8
    taken = {choice.recommended.drill.label, *(other.drill.label for other in choice.alternatives)}
    assert not taken & {drill.label for drill in choice.rejected}
    assert all(drill.reason for drill in choice.rejected)
    assert all(other.reasons for other in choice.alternatives)


# --- series ------------------------------------------------------------------------------------------


def test_inch_threads_take_inch_drills_and_metric_threads_metric_ones():
    assert {drill_for(text).recommended.drill.series for text in ("1/2-13 UNC-2B", "3/4-10 UNC-2B")} == {"fractional"}
    assert drill_for("M16").recommended.drill.series == "metric"


def test_series_can_be_named():
    assert drill_for("1/4-20 UNC-2B", series=("metric",)).recommended.drill.label == "5.1 mm"
    assert drill_for("M8", series=("letter",)).recommended.drill.label == "H"


def test_unknown_series():
    found = refusal("M8", series=("metric", "metrik"))
    assert found.code == "drill_series_unknown"
    assert found.faults[0].allowed == ("fractional", "number", "letter", "metric")
    assert found.faults[0].did_you_mean == ("metric",)
    assert found.faults[0].pointer == "/drill_series/1"


def test_series_that_cannot_prepare_the_hole():
    found = refusal("2-4.5 UNC-2B", series=("letter",))
    assert found.code == "drill_not_found"
    assert found.faults[0].pointer == "/drill_series"


# --- stock -------------------------------------------------------------------------------------------


def test_chart_drill_in_stock():
    choice = drill_for("1/2-13 UNC-2B", stock=("7/16", "27/64", "F"))
    assert choice.recommended.drill.label == "27/64"
    assert choice.recommended.in_stock is True
    assert choice.rule == "published_chart"


def test_best_of_the_crib_where_the_chart_drill_is_missing():
    choice = drill_for("1/4-20 UNC-2B", stock=("13/64", "#9", "1/4"))
    assert choice.recommended.drill.label == "13/64"
    assert choice.recommended.in_stock is True
    assert choice.rule == "rule"
    best = next(other for other in choice.alternatives if other.drill.label == "#7")
    assert best.in_stock is False


@pytest.mark.parametrize(
    ("text", "stock", "label", "rule"),
    [
        ("1/4-20 UNC-2B", ("5.1 mm", "#7"), "#7", "published_chart"),  # 5.1 mm is nearer to D - P, #7 is the chart's
        ("M6x0.75", ("5.3", "5.2"), "5.2 mm", "published_chart"),
        ("1/2-20 UNF-2B", ("29/64", "11.4 mm"), "29/64", "published_chart"),  # cuts large by the tables: stays, is told
        ("1/2-20 UNF-2B", ("29/64",), "29/64", "published_chart"),
    ],
)
def test_chart_drill_comes_first_in_the_crib(text, stock, label, rule):
    choice = drill_for(text, stock=stock)
    assert (choice.recommended.drill.label, choice.rule) == (label, rule)


def test_a_listed_drill_that_cuts_large_is_no_stand_in():
    """1/4-20 UNC-2B ends at 0.207: #5 is listed but drills 0.2093 on average; #7 is to be bought."""
    choice = drill_for("1/4-20 UNC-2B", stock=("#5", "1/4"))
    assert (choice.recommended.drill.label, choice.recommended.in_stock) == ("#7", False)
    words = " ".join(choice.recommended.reasons)
    assert "in stock #5: drills 0.2093\N{NO-BREAK SPACE}in on average" in words


def test_nothing_good_in_stock_says_what_to_buy_and_why():
    choice = drill_for("1/2-13 UNC-2B", stock=("7/16", "13/32"))
    assert choice.recommended.drill.label == "27/64"
    assert choice.recommended.in_stock is False
    assert "stock_has_no_drill" in codes(choice)
    words = " ".join(choice.recommended.reasons)
    assert "buy 27/64" in words
    assert "in stock 7/16" in words
    assert {"7/16", "13/32"} <= {drill.label for drill in choice.rejected}


def test_a_size_outside_the_sets_may_be_taken_from_the_crib():
    choice = drill_for("M8", stock=("6.75",))
    assert choice.recommended.drill.label == "6.75 mm"
    assert "special_drill_size" in codes(choice)


def test_unknown_label_in_stock_points_at_it():
    found = refusal("M8", stock=("6.8", "#98"))
    assert (found.code, found.faults[0].pointer) == ("drill_unknown", "/stock/drills/1")


def test_empty_crib():
    assert drill_for("M8", stock=()).recommended.in_stock is False


# --- percent -----------------------------------------------------------------------------------------


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


# --- least torque ------------------------------------------------------------------------------------


def test_least_torque_takes_the_largest_drill_inside():
    chart, least = drill_for("M12"), drill_for("M12", objective="least_torque")
    assert least.recommended.diameter > chart.recommended.diameter
    assert least.recommended.expected_hole_diameter <= least.minor_diameter.max
    inside = candidates_within(thread("M12"), thread("M12").internal.minor_diameter)
    assert least.recommended.drill == inside[-1].drill


@pytest.mark.parametrize(("taper", "printed"), [("4 NPT", "4-1/4"), ("3 NPT", "3-15/64"), ("1/8 NPT", "Q")])
def test_least_torque_of_a_taper_thread_is_the_drill_of_its_chart(taper, printed):
    """ANSI/ASME B94.9 Table 24a to 3 in, shop lists beyond: a larger hole costs full crests."""
    assert drill_for(taper, objective="least_torque").recommended.drill.label == printed


def test_least_torque_stays_inside_the_band_for_the_engagement():
    """1/4-20 UNC-2B to 0.33 D: 0.196 to 0.202 (Table II.A.3)."""
    choice = drill_for("1/4-20 UNC-2B", objective="least_torque", engagement=Decimal("0.08"))
    assert choice.recommended.expected_hole_diameter <= Decimal("0.202")
    wide = drill_for("1/4-20 UNC-2B", objective="least_torque", engagement=Decimal("0.25"))
    assert wide.recommended.diameter > choice.recommended.diameter


@dataclass(frozen=True)
class UpTo:
    limit: Decimal

    def __call__(self, hole_diameter: Decimal) -> bool:
        return hole_diameter <= self.limit

    def why_not(self, hole_diameter: Decimal) -> str:
        return f"{hole_diameter} leaves too little thread for the strength asked for"


def test_least_torque_asks_for_strength():
    limit = Decimal("10.35")  # 10.2 mm drills 10.317 on average, 10.3 mm 10.419
    choice = drill_for("M12", objective="least_torque", may_take=UpTo(limit))
    assert choice.recommended.expected_hole_diameter <= limit
    assert any("too little thread for the strength" in drill.reason for drill in choice.rejected)


# --- forming -----------------------------------------------------------------------------------------


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


# --- part material -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("engagement", "words"), [("0.5", "60 to 70 %"), ("1.0", "55 to 65 %"), ("0.2", "75 to 83 %")])
def test_usual_percent_is_told_but_decides_nothing(engagement, words):
    """Common practice: alloy steel below 300 HB 60-70 % to 1.5 D, 55-65 % beyond; 75-83 % below 0.5 D."""
    choice = drill_for("1/2-13 UNC-2B", material=material("4140", "long"), engagement=Decimal(engagement))
    assert choice.recommended.drill.label == "27/64"
    assert any(words in reason for reason in choice.recommended.reasons)


def test_depth_and_material_do_not_change_the_pick():
    plain = drill_for("M10")
    asked = replace(DrillRequest(), engagement=Decimal(12), material=material("4140", "long"))
    assert recommend(thread("M10"), asked).recommended.drill == plain.recommended.drill
