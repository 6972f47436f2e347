"""The choice of a drill: rules, series, stock, least torque.

Limits of 1/2-13, 1/4-20 and M8 are those of ASME B1.1 and ISO 965-1; formulas are named at each check.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

import pytest
from borewright.core.drilling import candidates_within
from borewright.core.model import Range

from .choices import codes, decided, drill_for, refusal, thread

# --- chart and rule --------------------------------------------------------------------------------


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


def test_a_drill_that_cuts_large_has_no_reamed_hole_beside_it_where_none_smaller_is_sold():
    """0.26-36 UNS-3B: 0.2300 to 0.2357. A, the smallest letter drill (0.2340), makes 0.2378; #1 (0.2280) may be
    reamed.
    """
    letters = drill_for("0.26-36 UNS-3B", series=("letter",))
    assert (letters.recommended.drill.label, letters.recommended.margin_below_max) == ("A", Decimal("-0.0021"))
    assert {one.operation for one in letters.alternatives} <= {"drill"}
    both = drill_for("0.26-36 UNS-3B", series=("letter", "number"))
    assert "drill_and_ream" in {one.operation for one in (both.recommended, *both.alternatives)}


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
    # from 5/8 to 7/8 in there are more than a dozen drills, of fractions alone
    wide = drill_for("3/4-10 UNC-2B", minor_diameter=Range(Decimal("0.625"), Decimal("0.875")))
    assert len(wide.alternatives) == 8
    taken = {choice.recommended.drill.label, *(other.drill.label for other in choice.alternatives)}
    assert not taken & {drill.label for drill in choice.rejected}
    assert all(drill.reason for drill in choice.rejected)
    assert all(other.reasons for other in choice.alternatives)


# --- series ----------------------------------------------------------------------------------------


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
    (fault,) = refusal("M8", series=()).faults
    assert (fault.code, fault.pointer) == ("drill_series_unknown", "/drill_series")
    assert fault.allowed == found.faults[0].allowed


def test_series_that_cannot_prepare_the_hole():
    found = refusal("2-4.5 UNC-2B", series=("letter",))
    assert found.code == "drill_not_found"
    assert found.faults[0].pointer == "/drill_series"


# --- stock -----------------------------------------------------------------------------------------


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


# --- least torque ----------------------------------------------------------------------------------


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
