"""The hole aimed at and its ends, reckoned by hand.

M10x1.5: D 10, D1 8.376, limits of 6H 8.376 to 8.676 mm; 100 percent are 1.299038 P = 1.948557 mm, ten 0.1948557.
1/2-13: limits of 2B 0.417 to 0.434 in, 100 percent 1.299038/13 in. Formed M10: hole = 10 - 0.0102 x percent.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.chance.made_sizes import Aim
from borewright.core.drilling import DrillRequest
from borewright.core.drilling.drill_case import Target
from borewright.core.drilling.target_hole import check_percent, cutting_case, forming_case
from borewright.core.errors import DrillingError
from borewright.core.model import Diameters, PercentTarget, Range
from every import every

from .choices import thread
from .weighed import plain_blanks, span

M10, HALF = thread("M10"), thread("1/2-13 UNC-2B")
D, P = ("D", Decimal(10)), ("P", Decimal("1.5"))


def percents(target=None, low=None, high=None):
    return PercentTarget(*(None if one is None else Decimal(one) for one in (target, low, high)))


def wanted(found, limits=None, percent=None) -> Target:
    asked = {} if limits is None else {"minor_diameter": span(*limits)}
    return cutting_case(found, DrillRequest(percent=percent, **asked), None).target


def target(hole, text, formula, inputs, ends):
    low, high = (None if one is None else Decimal(one) for one in ends)
    named = tuple((name, Decimal(value)) for name, value in inputs)
    return Target(Decimal(hole), text, formula, named, low, high)


@every(
    ("limits", "expected"),
    [
        # major diameter less pitch where the limits hold it, both ends with them
        (None, target("8.5", "major diameter less pitch", "D - P", (D, P), ("8.376", "8.676"))),
        (("8.5", "8.8"), target("8.5", "major diameter less pitch", "D - P", (D, P), ("8.5", "8.8"))),
        (("8.2", "8.5"), target("8.5", "major diameter less pitch", "D - P", (D, P), ("8.2", "8.5"))),
        # else their middle
        (
            ("8.51", "8.8"),
            target(
                "8.655",
                "middle of the minor diameter limits",
                "(low + high) / 2",
                (("low", "8.51"), ("high", "8.8")),
                ("8.51", "8.8"),
            ),
        ),
        (
            ("8.2", "8.49"),
            target(
                "8.345",
                "middle of the minor diameter limits",
                "(low + high) / 2",
                (("low", "8.2"), ("high", "8.49")),
                ("8.2", "8.49"),
            ),
        ),
        # an open end lies ten percent of thread off
        ((None, "8.6"), target("8.5", "major diameter less pitch", "D - P", (D, P), ("8.3051443", "8.6"))),
        (("8.4", None), target("8.5", "major diameter less pitch", "D - P", (D, P), ("8.4", "8.6948557"))),
        (
            ("8.6", None),
            target(
                "8.6",
                "basic minor diameter",
                "max(D1, low)",
                (("D1", "8.376"), ("low", "8.6")),
                ("8.6", "8.7948557"),
            ),
        ),
        (
            (None, "8.4"),
            target(
                "8.376",
                "basic minor diameter",
                "max(D1, low)",
                (("D1", "8.376"), ("low", "8.376")),
                ("8.1811443", "8.4"),
            ),
        ),
    ],
)
def test_the_usual_hole(limits, expected):
    assert wanted(M10, limits) == expected


def test_the_usual_hole_of_other_forms():
    """Tr 20x4 and G 1/4 are no common form: the middle of 16 to 16.375 and of 11.445 to 11.89 mm."""
    assert [wanted(thread(text)).hole for text in ("Tr 20x4", "G 1/4")] == [Decimal("16.1875"), Decimal("11.6675")]
    inch = wanted(HALF)
    assert inch.formula == "D - 75 * 1.299038 * P / 100"
    assert inch.inputs == (("D", Decimal("0.5")), ("P", 1 / Decimal(13)))
    assert float(inch.hole) == pytest.approx(0.5 - 0.75 * 1.299038 / 13)
    assert inch.text == "75 % of thread"


@every(
    ("found", "percent", "hole", "formula", "ends"),
    [
        # 10 - 0.7 x 1.948557
        (M10, percents("70"), "8.6360101", "D - percent * 1.299038 * P / 100", ("8.376", "8.676")),
        # 50 % is 9.0257, above the largest minor diameter; the percents themselves bound the hole
        (M10, percents("50"), "8.676", "table", ("8.376", "8.676")),
        (M10, percents("75", "70", "80"), "8.53858225", "D - percent * 1.299038 * P / 100", ("8.4411544", "8.6360101")),
        (M10, percents(None, "70"), "8.5", "D - P", ("8.376", "8.6360101")),
        (M10, percents(None, None, "80"), "8.5", "D - P", ("8.4411544", "8.676")),
        # D - P leaves 76.98 %: the nearer end of what was asked for
        (M10, percents(None, "80"), "8.4411544", "table", ("8.376", "8.4411544")),
        (M10, percents(None, None, "75"), "8.53858225", "table", ("8.53858225", "8.676")),
        # 100 % of Tr 20x4 is its own height of 4 mm
        (thread("Tr 20x4"), percents("95"), "16.2", "D - percent * (D - D1) / 100", ("16", "16.375")),
    ],
)
def test_a_percent_asked_for(found, percent, hole, formula, ends):
    got = wanted(found, percent=percent)
    assert (got.hole, got.formula) == (Decimal(hole), formula)
    assert (got.low, got.high) == tuple(map(Decimal, ends))
    assert bool(got.cautions) is (percent.target == 50)


@every(
    ("limits", "percent", "ends"),
    [
        ((None, "8.6"), percents("75", None, "80"), ("8.4411544", "8.6")),
        (("8.4", None), percents("75", "70"), ("8.4", "8.6360101")),
        ((None, "8.6"), percents("75"), ("8.34372655", "8.6")),  # 8.53858225 - 0.1948557
    ],
)
def test_a_percent_bounds_an_open_end(limits, percent, ends):
    got = wanted(M10, limits, percent)
    assert (got.low, got.high) == tuple(map(Decimal, ends))


def test_what_the_limits_do_not_allow_is_told():
    """(10 - 8.676)/1.948557 = 67.95 %; 100 x 1.624/1.948557 = 83.34 % is what is left of 8.376."""
    (code, text), = wanted(M10, percent=percents("50")).cautions  # fmt: skip
    assert code == "percent_outside_limits"
    words = "50 % of thread needs a hole of 9.026 mm, outside the minor diameter limits; the nearest they allow is"
    assert f"{words} 8.676 mm (67.95 %)." in plain_blanks(text)


@every(
    ("found", "percent", "pointer", "words", "allowed"),
    [
        (
            M10,
            percents(None, None, "60"),
            "max",
            "8.376 to 8.676 mm leaves the percent of thread asked for (60 %)",
            "68 %",
        ),
        (
            HALF,
            percents(None, None, "60"),
            "max",
            "0.417 to 0.434 in leaves the percent of thread asked for (60 %)",
            "",
        ),
        (
            HALF,
            percents(None, "50", "60"),
            "max",
            "asked for (60 %): the limits leave 66 % to 83.1 %",
            "66 % to 83.1 %",
        ),
    ],
)
def test_percents_outside_the_limits(found, percent, pointer, words, allowed):
    """M10: 67.95 is 68.0, a tie to even. 1/2-13: 0.066 x 13/1.299038 = 66.05, 0.083 x 13/1.299038 = 83.06 %."""
    with pytest.raises(DrillingError) as refused:
        wanted(found, percent=percent)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("percent_out_of_range", f"/percent_thread/{pointer}")
    assert words in plain_blanks(fault.detail)
    assert fault.allowed[0].startswith(allowed)


@every(
    ("limits", "percent", "allowed"),
    [
        # 100 x 1.624/1.948557 = 83.34 at 8.376 mm, the basic minor diameter and the smallest; 84.68 at 8.35
        (("8.376", "8.676"), "83.34", True),
        (("8.376", "8.676"), "83.35", False),
        (("8.35", "8.676"), "84.68", True),
        (("8.35", "8.676"), "84.69", False),
        (("8.5", "8.676"), "83.34", True),
        ((None, "8.676"), "83.34", True),
        ((None, "8.676"), "83.35", False),
    ],
)
def test_the_most_percent(limits, percent, allowed):
    for asked in (percents(percent), percents(None, percent)):
        if allowed:
            assert check_percent(M10, asked, span(*limits)) is None
            continue
        with pytest.raises(DrillingError) as refused:
            check_percent(M10, asked, span(*limits))
        ceiling = f"{Decimal(percent) - Decimal('0.01')} %"
        assert f"{percent} % of thread is above {ceiling}" in refused.value.faults[0].detail
        assert refused.value.faults[0].allowed == (f"above 0 to {ceiling}",)
    assert check_percent(M10, percents(None, None, "99"), span(*limits)) is None


@every(
    ("percent", "pointer"),
    [
        (percents("0"), ""),
        (percents("-1", "1"), "/target"),
        (percents("70", "0"), "/min"),
        (percents(None, None, "0"), "/max"),
        (percents("70", "71"), "/min"),
        (percents(None, "71", "70"), "/min"),
        (percents("71", None, "70"), "/target"),
    ],
)
def test_percents_that_contradict_themselves(percent, pointer):
    with pytest.raises(DrillingError) as refused:
        check_percent(M10, percent, span("8.376", "8.676"))
    assert refused.value.faults[0].pointer == f"/percent_thread{pointer}"
    assert check_percent(M10, percents("70", "70", "70"), span("8.376", "8.676")) is None


# --- taper threads ------------------------------------------------------------------------------------------


@every(
    ("text", "hole", "formula", "ends"),
    [
        # the chart's straight drill, not the smaller one before a taper reamer; of shops where it has none
        ("1/4-18 NPT", "0.4375", "table", (None, None)),
        ("4 NPT", "4.25", "table", (None, None)),
        ("Rc 1/2", "18.25", "table", (None, None)),
        # no chart: the middle of the straight hole's limits, 132.75 to 135.47 mm
        ("Rc 5", "134.11", "(low + high) / 2", ("132.75", "135.47")),
    ],
)
def test_the_hole_of_a_taper_thread(text, hole, formula, ends):
    case = cutting_case(thread(text), DrillRequest(), None)
    assert (case.target.hole, case.target.formula) == (Decimal(hole), formula)
    low, high = (None if one is None else Decimal(one) for one in ends)
    assert (case.target.low, case.target.high) == (low, high)
    assert (case.limits, case.top, case.aim) == (Range(low, high), high, None)
    with pytest.raises(DrillingError) as refused:
        cutting_case(thread(text), DrillRequest(percent=percents("70")), None)
    assert (refused.value.code, refused.value.faults[0].pointer) == ("method_not_applicable", "/percent_thread")


# --- the rest of the case -----------------------------------------------------------------------------------


@every(
    ("objective", "limits", "band", "top"),
    [
        ("chart", None, "8.5", "8.676"),
        ("least_torque", None, "8.5", "8.5"),
        ("least_torque", None, "8.7", "8.676"),
        ("least_torque", None, None, "8.676"),
        ("least_torque", ("8.4", None), "8.5", "8.5"),
        ("acceptance", ("8.4", None), "8.5", None),
    ],
)
def test_the_largest_mean_hole(objective, limits, band, top):
    asked = {} if limits is None else {"minor_diameter": span(*limits)}
    request = DrillRequest(objective=objective, **asked)
    found = cutting_case(M10, request, None if band is None else Decimal(band))
    assert found.top == (None if top is None else Decimal(top))
    assert found.moved is (limits is not None)


def test_what_the_finished_hole_must_hold():
    """A coat of -0.02 to -0.04 mm on the minor diameter is -0.03; a quarter of the range is its deviation."""
    assert cutting_case(M10, DrillRequest(), None).aim == Aim(8.376, 8.676)
    moved = {"minor_diameter": span("8.4", "8.7")}
    assert cutting_case(M10, DrillRequest(**moved), None).aim == Aim(8.4, 8.7)
    change = span("-0.04", "-0.02")
    aim = cutting_case(M10, DrillRequest(**moved, coat=Diameters(change, change, change)), None).aim
    assert (aim.low, aim.high) == (8.376, 8.676)
    assert aim.coat == (pytest.approx(-0.03), pytest.approx(0.005))


@every(
    ("percent", "aimed", "ends"),
    [
        # 65 percent, ten each way: 10 - 0.0102 x 65 = 9.337, of 75 9.235, of 55 9.439
        (None, "65", ("75", "55")),
        (percents("60"), "60", ("70", "50")),
        (percents(None, "70"), "70", ("80", "70")),
        (percents(None, "60"), "65", ("75", "60")),
        (percents(None, None, "60"), "60", ("60", "50")),
        (percents(None, None, "70"), "65", ("70", "55")),
        (percents("65", "60", "80"), "65", ("80", "60")),
        # never less than one percent
        (percents("11"), "11", ("21", "1")),
        (percents("10.5"), "10.5", ("20.5", "1")),
        (percents("11.5"), "11.5", ("21.5", "1.5")),
    ],
)
def test_the_hole_of_a_forming_tap(percent, aimed, ends):
    case = forming_case(M10, DrillRequest(method="form", percent=percent))
    hole, low, high = (10 - Decimal("0.0102") * Decimal(one) for one in (aimed, *ends))
    inputs = (("percent", Decimal(aimed)), D, P)
    text = f"forming hole for {aimed} % of thread"
    assert case.target == Target(hole, text, "D - 0.0068 * percent * P", inputs, low, high)
    assert (case.limits, case.moved, case.top, case.aim, case.chart) == (Range(None, None), False, None, None, ())


@every(("percent", "refused"), [("0.5", False), ("1", False), ("0", True), ("-1", True)])
def test_a_percent_of_thread_is_above_zero(percent, refused):
    faults = []
    try:
        check_percent(M10, percents(percent), M10.internal.minor_diameter)
    except DrillingError as refusal:
        faults = [(one.code, one.pointer) for one in refusal.faults]
    assert faults == ([("percent_out_of_range", "/percent_thread")] if refused else [])
