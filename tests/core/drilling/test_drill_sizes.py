"""Drill sizes and their labels.

Source of the figures: tests/published/drills.csv (ASME B94.11M set, BS 328 / ISO 235 pattern, handbook pages named in
its rows). 1/4 in = letter E, 0.2010 in = #7, 0.2570 in = F are common knowledge of the trade.
"""

from __future__ import annotations

import contextlib
from decimal import Decimal

import pytest
from borewright.core.drilling import all_drills, find_drill
from borewright.core.errors import DrillingError
from hypothesis import given, settings
from hypothesis import strategies as st
from outside_figures import outside

ROWS = outside("drills")
SERIES = {"number": "number", "letter": "letter", "fraction": "fractional", "metric": "metric"}


def test_every_published_size_is_held_as_printed():
    held = {drill.label: drill for drill in all_drills()}
    assert len(ROWS) == 557
    for row in ROWS:
        drill = held[row["label"]]
        assert drill.series == SERIES[row["system"]], row
        assert (str(drill.diameter_in), str(drill.diameter_mm)) == (row["diameter_in"], row["diameter_mm"]), row


def test_inch_and_millimetre_columns_agree():
    for drill in all_drills():
        slack = Decimal("0.00002") if drill.series == "metric" else Decimal("0.00001")
        assert abs(drill.diameter_in * Decimal("25.4") - drill.diameter_mm) <= slack, drill


def test_sizes_rise_and_each_series_has_its_members():
    drills = all_drills()
    assert [drill.diameter_in for drill in drills] == sorted(drill.diameter_in for drill in drills)
    for series in SERIES.values():
        sizes = [drill.diameter_mm for drill in drills if drill.series == series]
        assert len(set(sizes)) == len(sizes)
    labels = {drill.label for drill in drills}
    assert {f"#{number}" for number in range(1, 98)} <= labels
    assert {chr(letter) for letter in range(ord("A"), ord("Z") + 1)} <= labels
    metric = [drill.diameter_mm for drill in drills if drill.series == "metric"]
    assert metric[-1] == 100


def test_metric_sizes_beyond_50_mm_are_half_millimetres_from_memory():
    beyond = [drill for drill in all_drills() if drill.series == "metric" and drill.diameter_mm > 50]
    assert [drill.diameter_mm for drill in beyond] == [Decimal(50) + Decimal(step) / 2 for step in range(1, 101)]
    assert {drill.status for drill in beyond} == {"from_memory"}


@pytest.mark.parametrize(
    ("text", "unit", "label"),
    [
        ("27/64", None, "27/64"),
        ("27/64 in", None, "27/64"),
        ('1 1/4"', None, "1-1/4"),
        ("1-1/4", None, "1-1/4"),
        ("1¼", None, "1-1/4"),
        ("54/64", None, "27/32"),
        ("#7", None, "#7"),
        ("No. 7", None, "#7"),
        ("no 7", None, "#7"),
        ("#7 (.201)", None, "#7"),
        ("#07", None, "#7"),
        ("F", None, "F"),
        ("letter f", None, "F"),
        ("6.8", None, "6.8 mm"),
        ("6,8", "in", "6.8 mm"),
        ("6.80 mm", None, "6.8 mm"),
        (".4219", None, "27/64"),
        ("0.4218", "in", "27/64"),
        (".201", "in", "#7"),
        ("7", "mm", "7 mm"),
        ("0.5", "in", "1/2"),
        ("0.5", "mm", "0.5 mm"),
        ("1 in", None, "1"),
        ("drill #7", None, "#7"),
        ("6.75", "mm", "6.75 mm"),
        (".5687", "in", "0.5687 in"),
        (".480", "in", "0.48 in"),
        ("0.95", "in", "0.95 in"),
        ("0.95", "mm", "0.95 mm"),
        ("1-59/64", None, "1-59/64"),
        ("5 0/64", None, "5"),
        # a figure of four decimals, rounded or cut off: 0.2010 and its neighbours in the last place
        (".2009", "in", "#7"),
        (".2011", "in", "#7"),
        (".20111", "in", "0.20111 in"),
        (".20089", "in", "0.20089 in"),
        ("6.8005", "mm", "6.8 mm"),
        ("6.8006", "mm", "6.8006 mm"),
        # #28 is 0.1405, 9/64 is 0.140625: both may be read, the nearer one is meant
        (".1406", "in", "9/64"),
        (".1405", "in", "#28"),
        ("1.0", "in", "1"),
        ("1.0", "mm", "1 mm"),
    ],
)
def test_labels_as_people_type_them(text, unit, label):
    assert find_drill(text, unit).label == label


@pytest.mark.parametrize("text", ["6.75 mm", "1-59/64", "0.5687 in"])
def test_a_size_outside_the_sets_is_special(text):
    assert find_drill(text).series == "special"


@pytest.mark.parametrize(
    ("text", "unit", "meant"),
    [
        ("7", "in", ("#7", "7 mm")),
        ("7", None, ("#7", "7 mm")),
        ("0.5", None, ("1/2 in", "0.5 mm")),
        ("1", None, ("#1", "1 in", "1 mm")),
        ("1", "in", ("#1", "1 in", "1 mm")),
        ("4", "in", ("#4", "4 in", "4 mm")),
    ],
)
def test_a_bare_number_with_several_meanings_is_refused(text, unit, meant):
    with pytest.raises(DrillingError) as caught:
        find_drill(text, unit)
    assert caught.value.code == "drill_unknown"
    assert caught.value.faults[0].did_you_mean == meant


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        ".",
        "#98",
        "#0",
        "AA",
        "13/57",
        "3/0",
        "5/4",
        "4/4",
        "1 64/64",
        "0 mm",
        "500 mm",
        "6 in",
        "x" * 200,
        "6.8 mm".rjust(41),
    ],
)
def test_what_is_no_drill_is_refused(text):
    with pytest.raises(DrillingError) as caught:
        find_drill(text)
    assert caught.value.code == "drill_unknown"


@settings(max_examples=200)
@given(st.sampled_from(all_drills()), st.sampled_from(["{}", " {} ", "{} drill", "Ø{}", "{}"]))
def test_every_label_means_itself(drill, spelling):
    label = f"{drill.label} in" if drill.series == "fractional" and "/" not in drill.label else drill.label
    assert find_drill(spelling.format(label).lower()) == drill


@settings(max_examples=300)
@given(st.text(max_size=60), st.sampled_from(["in", "mm", None]))
def test_no_text_raises_anything_but_a_coded_error(text, unit):
    drill = None
    with contextlib.suppress(DrillingError):
        drill = find_drill(text, unit)
    assert drill is None or drill.diameter_mm > 0


def test_standard_drills_are_of_the_four_series():
    assert {one.series for one in all_drills()} == {"fractional", "number", "letter", "metric"}
