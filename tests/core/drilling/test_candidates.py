"""A drill with the reamed hole that it prepares."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.drilling import DrillRequest, find_drill
from borewright.core.drilling.candidates import drilled_candidate, reamed_hole, reamers, reaming_stock
from borewright.core.drilling.standard_drills import OwnOversize
from borewright.core.drilling.target_hole import cutting_case
from borewright.core.errors import DrillingError
from borewright.core.model import PercentTarget, Range
from every import every

from .choices import codes, drill_for, thread
from .weighed import case_of, held, item


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


#: Least and most on diameter (common practice) by the reamed diameter, both ends of each row.
STOCK = (
    ("0.0625", "0.0040", "0.0100"), ("0.25", "0.0040", "0.0100"), ("0.2501", "0.0050", "0.0157"),
    ("0.5", "0.0050", "0.0157"), ("0.5001", "0.0050", "0.0200"), ("1", "0.0050", "0.0200"),
    ("1.0001", "0.0080", "0.0313"), ("1.5", "0.0080", "0.0313"), ("1.5001", "0.0100", "0.0470"),
    ("6", "0.0100", "0.0470"),
)  # fmt: skip


@every(("diameter", "least", "most"), STOCK)
def test_stock_for_a_machine_reamer(diameter, least, most):
    """No document was seen that prints it by diameter: the shop's figures, in both units."""
    found = reaming_stock(Decimal(diameter), "in")
    assert [str(one) for one in found] == [least, most]
    millimetres = reaming_stock(Decimal(diameter) * Decimal("25.4"), "mm")
    assert [float(one) for one in millimetres] == [round(float(one) * 25.4, 3) for one in (least, most)]


def test_stock_holds_what_documents_say_of_it():
    """TM 1-420 par. 37: 0.005 to 0.010 in, no diameter told: inside the figures to 3/4 in, but where 0.004 will do;
    1/64 in on 3/4 in is usual; a larger hole never takes less.
    """
    for diameter in ("0.125", "0.25", "0.375", "0.5", "0.75"):
        least, most = reaming_stock(Decimal(diameter), "in")
        assert least <= Decimal("0.005") < Decimal("0.010") <= most
    assert reaming_stock(Decimal("0.75"), "in")[0] < Decimal(1) / 64 < reaming_stock(Decimal("0.75"), "in")[1]
    rows = [reaming_stock(Decimal(diameter), "in") for diameter, *_ in STOCK]
    assert rows == sorted(rows)
    assert all(least < most for least, most in rows)


@every(
    ("text", "drill", "reamed", "made"),
    [
        # FED-STD-H28/2B Table II.A.1, mean oversize: 31/64 0.0048 large, 43/64 0.0050, 29/32 between 0.0059 and 0.0060
        ("9/16-18 UNF-2B", "31/64", "0.508", "0.4892"),
        ("3/4-16 UNF-3B", "43/64", "0.6875", "0.6769"),
        ("1-12 UNF-3B", "29/32", "0.919", "0.9122"),
    ],
)
def test_the_drill_leaves_the_reamer_its_least_stock(text, drill, reamed, made):
    """The hole that it makes, not the drill, is 0.005 in or more under the reamed one; a 64th more is not."""
    choice = drill_for(text, series=("fractional",))
    one = next(one for one in (choice.recommended, *choice.alternatives) if one.operation == "drill_and_ream")
    assert (one.drill.label, str(one.expected_hole_diameter)) == (drill, reamed)
    left = Decimal(reamed) - Decimal(made)
    assert left >= Decimal("0.005")
    assert left - Decimal(1) / 64 < Decimal("0.005")


#: Holes are as large as their drills, so that the arithmetic is that of the drills.
TRUE = OwnOversize(Decimal(0))


def reamed(text, *, low=None, high=None, **asked):
    if low is not None:
        asked["minor_diameter"] = Range(Decimal(low), Decimal(high))
    return reamed_hole(cutting_case(thread(text), DrillRequest(**{"oversize": TRUE, **asked}), None))


@every(
    ("text", "low", "high", "diameter", "name"),
    [
        # 1/2-13 aims at 0.5 - 0.0749445 = 0.4251; fractional reamers are 64ths, letter ones end at Z (0.413)
        ("1/2-13 UNC-2B", "0.417", "0.434", "0.4219", "27/64 in"),
        ("1/2-13 UNC-2B", "0.400", "0.440", "0.4219", "27/64 in"),
        ("1/2-13 UNC-2B", "0.4200", "0.4219", "0.4219", "27/64 in"),
        ("1/2-13 UNC-2B", "0.4219", "0.4230", "0.4219", "27/64 in"),
        ("1/2-13 UNC-2B", "0.4220", "0.4300", "0.425", None),
        # what is aimed at lies outside: the nearer end; three places where they fit, else four
        ("1/2-13 UNC-2B", "0.4261", "0.4290", "0.4261", None),
        ("1/2-13 UNC-2B", "0.4259", "0.4290", "0.426", None),
        ("1/2-13 UNC-2B", "0.4220", "0.4241", "0.424", None),
        ("1/2-13 UNC-2B", "0.4230", "0.42396", "0.4240", None),
        ("1/2-13 UNC-2B", "0.4260", "0.4262", "0.426", None),
        # M8 aims at 6.75; reamers by tenths to 12 mm; two places where they fit, else three
        ("M8", "6.647", "6.912", "6.700", "6.7 mm"),
        ("M8", "6.71", "6.79", "6.75", None),
        ("M8", "6.761", "6.767", "6.764", None),  # their middle is aimed at where D - P lies outside
        # an end that is a round figure is one; a tenth of a millimetre is written to two places
        ("1/2-13 UNC-2B", "0.4230", "0.4240", "0.424", None),
        ("M16", "14.21", "14.39", "14.30", None),
    ],
)
def test_the_size_to_ream_to(text, low, high, diameter, name):
    """The reamer that is sold nearest to the hole aimed at inside the limits, else a round figure inside them."""
    found = reamed(text, low=low, high=high)
    assert (str(found.diameter), found.name) == (diameter, name)


@every(
    ("low", "high", "stock", "drill", "left"),
    [
        # 0.516 is reamed with 0.005 to 0.020 in of stock (over 1/2 in): drills from 0.496 to 0.511
        ("0.5160", "0.5162", ("0.511 in",), "0.511 in", "0.005"),
        ("0.5160", "0.5162", ("0.5111 in",), "1/2", "0.016"),
        ("0.5160", "0.5162", ("0.496 in",), "0.496 in", "0.020"),
        ("0.5160", "0.5162", ("0.4959 in",), "1/2", "0.016"),
        ("0.5160", "0.5162", ("0.498 in", "0.507 in", "0.503 in"), "0.507 in", "0.009"),
        ("0.5160", "0.5162", None, "1/2", "0.016"),
        # the half inch itself, where it leaves just 0.005
        ("0.5050", "0.5051", ("#10",), "1/2", "0.005"),
    ],
)
def test_the_drill_before_the_reamer(low, high, stock, drill, left):
    """From the crib where that will do, else the largest that is sold and leaves its least stock."""
    found = reamed("9/16-18 UNF-2B", low=low, high=high, stock=stock)
    assert (found.drill.drill.label, found.stock_left) == (drill, Decimal(left))


def test_drills_that_cut_far_oversize_are_passed_over():
    """0.516 less 0.005 less 0.05 of oversize: 0.461 at most, and 29/64 (0.4531) is the next drill below."""
    found = reamed("9/16-18 UNF-2B", low="0.5160", high="0.5162", oversize=OwnOversize(Decimal("0.05")))
    assert (found.drill.drill.label, found.stock_left) == ("29/64", Decimal("0.516") - Decimal("0.5031"))


@every(
    ("low", "high", "series", "fits"),
    [
        # four fifths of 0.285 is 0.228, the largest number drill; of 0.2851 it is more
        ("0.2850", "0.2852", ("number",), True),
        ("0.2851", "0.2852", ("number",), False),
        # of 0.516 it is 0.4128, letter Z is 0.413; the smallest number drill is 0.0059
        ("0.5160", "0.5162", ("letter",), True),
        ("0.5180", "0.5182", ("letter",), False),
    ],
)
def test_a_drill_far_smaller_than_the_reamer_prepares_nothing(low, high, series, fits):
    text = "5/16-18 UNC-2B" if low < "0.3" else "9/16-18 UNF-2B"
    if fits:
        assert reamed(text, low=low, high=high, series=series).name is None
        return
    with pytest.raises(DrillingError) as refused:
        reamed(text, low=low, high=high, series=series)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("drill_not_found", "/drill_series")
    assert f"({series[0]}) holds or prepares a hole of {low.rstrip('0')}\N{NO-BREAK SPACE}in" in fault.detail


def test_no_share_is_asked_of_drills_that_nobody_named():
    """Below the smallest drill (0.0059 in) there is none at all."""
    with pytest.raises(DrillingError) as refused:
        reamed("9/16-18 UNF-2B", low="0.0061", high="0.0062")
    (fault,) = refused.value.faults
    assert (fault.pointer, "(all)" in fault.detail) == ("/thread", True)
    assert reamed("9/16-18 UNF-2B", low="0.5180", high="0.5182", series=None).drill.drill.label == "1/2"


def test_reamers_that_are_sold():
    """Number sizes to #1 (0.228), letters A to Z, 64ths to 1-1/2, then 16ths to 3 in; tenths to 12 mm, halves to 30,
    whole ones to 50 mm (common practice).
    """
    inch, metric = dict(reamers("in")), dict(reamers("mm"))
    for size, name in (
        ("0.0400", "#60"), ("0.2280", "#1"), ("0.2340", "A"), ("0.4130", "Z"), ("0.0625", "1/16 in"),
        ("1.4844", "1-31/64 in"), ("1.5000", "1-1/2 in"), ("1.5625", "1-9/16 in"), ("3.0000", "3 in"),
    ):  # fmt: skip
        assert inch[Decimal(size)] == name
    for none in ("0.0390", "1.5156", "3.0156", "3.0625"):
        assert Decimal(none) not in inch
    tenths = {Decimal(step) / 10 for step in range(10, 121)}
    halves = {Decimal(step) / 2 for step in range(25, 61)}
    assert set(metric) == tenths | halves | {Decimal(step) for step in range(31, 51)}
    assert metric[Decimal("12.500")] == "12.5 mm"


def test_figures_of_a_drilled_and_of_a_reamed_hole():
    """3/4-16 UNF-3B, 0.6820 to 0.6909 (B1.1-2019), 100 % = 1.299038/16 = 0.0811899: 11/16 is reamed to 0.6875,
    (0.75 - 0.6875) / 0.0811899 = 76.98 %; the hole of 43/64 (0.6719) with 0.0050 of oversize leaves 0.6875 - 0.6769.
    """
    choice = drill_for("3/4-16 UNF-3B")
    ream = choice.alternatives[0]
    assert (str(ream.percent_thread), str(ream.expected_percent_thread)) == ("76.98", "76.98")
    assert (ream.margin_below_max, ream.margin_above_min) == (Decimal("0.0034"), Decimal("0.0055"))
    assert (ream.within_minor_diameter_limits, ream.order_text, ream.acceptance) == (True, None, None)
    assert ream.in_stock is None
    bored = drill_for("9/16-18 UNF-2B", series=("fractional",), stock=("31/64",)).recommended
    assert (bored.special, bored.in_stock) == (True, True)
    assert bored.order_text == "bore, or a reamer ground to 0.508\N{NO-BREAK SPACE}in"
    words = " ".join(bored.reasons).replace("\N{NO-BREAK SPACE}", " ")
    assert "it is drilled under and bored to 0.508 in" in words
    assert "0.0188 in is left on diameter" in words  # 0.508 - 0.4892
    special = drill_for("M8", stock=("6.75 mm",)).recommended
    assert (special.special, special.order_text) == (True, "twist drill ground to 6.75\N{NO-BREAK SPACE}mm (6.75 mm)")
    plain = drill_for("M8").recommended
    assert (plain.special, plain.order_text, plain.within_minor_diameter_limits) == (False, None, True)


@every(
    ("ends", "diameter"),
    [((None, None), "8.50"), (("8.4", None), "8.50"), ((None, "8.8"), "8.50"), (("8.51", None), "8.51")],
)
def test_a_hole_with_an_open_end_is_reamed_to_the_hole_aimed_at(ends, diameter):
    """8.5 mm is aimed at; a reamer that is sold is looked for between two ends only."""
    found = reamed_hole(case_of(ends=ends, first=held(item("8.2 mm", "8.25"))))
    assert (str(found.diameter), found.name, found.stock_left) == (diameter, None, Decimal(diameter) - Decimal("8.25"))


@every(
    ("limits", "within"),
    [(("8.4", "8.8"), True), (("8.4", None), True), ((None, "8.8"), True), ((None, None), None)],
)
def test_no_limits_are_held_where_none_are_known(limits, within):
    drill = item("8.5 mm", "8.6")
    found = drilled_candidate(case_of(limits=limits, ends=limits), drill, ())
    assert found.within_minor_diameter_limits is within
    outside = drilled_candidate(case_of(limits=limits, ends=("8.51", "8.52")), drill, ())
    assert outside.within_minor_diameter_limits is (None if within is None else False)


def test_a_hole_at_the_very_end_needs_no_reamer():
    """1/2-13 UNC-2B ends at 0.434 in; a ten thousandth more is outside."""
    at = drill_for("1/2-13 UNC-2B", stock=("0.434 in",), oversize=TRUE)
    assert str(at.recommended.diameter) == "0.4340"
    assert [one.operation for one in at.alternatives if one.operation != "drill"] == []
    over = OwnOversize(Decimal("0.0001"))
    above = drill_for("1/2-13 UNC-2B", stated=find_drill("0.434 in"), oversize=over)
    assert above.alternatives[0].operation == "drill_and_ream"
    (why,) = above.alternatives[0].reasons
    assert why.replace("\N{NO-BREAK SPACE}", " ") == "reamed to 0.4219 in the hole holds the limits"


def test_the_variants_of_a_taper_pipe_chart():
    """1/8 NPT: Q (0.332) straight, 21/64 (0.3281) ahead of a taper reamer (ANSI/ASME B94.9 Table 24a and the handbook),
    R (0.339) of shop lists.
    """
    found = drill_for("1/8 NPT")
    assert found.recommended.drill.label == "Q"
    told = {one.drill.label: one for one in found.alternatives}
    assert list(told) == ["21/64", "R"]
    assert (told["21/64"].operation, told["R"].operation) == ("drill_and_ream", "drill")
    assert told["21/64"].reasons[0].startswith("drill for taper reaming: ")
    assert told["R"].reasons[0].startswith("larger hole, fewer full threads: ")
    stated = drill_for("1/8 NPT", stated=find_drill("R")).alternatives
    assert [one.drill.label for one in stated] == ["Q", "21/64"]


@every(
    ("text", "changed", "diameter", "inside"),
    [
        # 0.4344 in reads 0.434, 0.4345 reads 0.434 too (ties to even), 0.4346 reads 0.435
        ("1/2-13 UNC-2B", {}, "0.4345", True),
        ("1/2-13 UNC-2B", {}, "0.4346", False),
        ("1/2-13 UNC-2B", {"moved": True}, "0.4344", False),
        ("1/2-13 UNC-2B", {"asked": {"percent": PercentTarget(min=Decimal(50))}}, "0.4344", False),
        ("1/2-13 UNC-2B", {"moved": True}, "0.4340", True),
        ("M10", {}, "0.4344", False),
    ],
)
def test_an_inch_drill_is_read_to_a_thousandth_on_limits_of_the_thread_itself(text, changed, diameter, inside):
    """Ends 0.417 and 0.434: not where they were moved, where a percent is asked for or on a metric thread."""
    assert case_of(text, ends=("0.417", "0.434"), **changed).inside(Decimal(diameter)) is inside
