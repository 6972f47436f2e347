"""The published tap drill charts, row by row: ISO 2306:1972 and FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.drilling import DrillRequest, find_drill, percent_of_thread, recommend
from borewright.core.drilling.tap_drill_charts import chart_drills
from borewright.core.model import Thread
from borewright.tables import load
from every import every
from outside_figures import outside

METRIC = outside("metric_tap_drill")
UNIFIED = outside("unified_tap_drill")
WALL = outside("wall_chart_inch")


def unified_groups() -> dict[tuple[str, str], list[dict[str, str]]]:
    groups: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in UNIFIED:
        groups.setdefault((row["thread"], row["class"]), []).append(row)
    return groups


GROUPS = unified_groups()


def is_sold(label: str) -> bool:
    """Whether the inch drill is in the lists: what they do not hold is ground to order."""
    written = f"{label} in" if label.isdigit() else label
    return "mm" not in label and find_drill(written, "in").series != "special"


def unified(name: str, thread_class: str) -> Thread:
    size, series = name.rsplit(" ", 1)
    return standards.resolve(callout.read(f"{size} {series}-{thread_class}"))


def test_the_charts_are_whole():
    assert len(METRIC) == 171
    assert sum(len(rows) for rows in GROUPS.values()) == 301
    assert len(WALL) == 46


@every("row", METRIC, ids=lambda row: f"M{row['D']}x{row['P']}")
def test_iso_2306_drill_is_recommended(row):
    thread = standards.resolve(callout.read(f"M{row['D']}x{row['P']}-{row['D1_class']}"))
    choice = recommend(thread, DrillRequest())
    assert choice.recommended.diameter == Decimal(row["drill_iso2306"])
    assert choice.rule == "published_chart"
    assert choice.recommended.operation == "drill"
    assert choice.recommended.within_minor_diameter_limits is True
    assert (thread.internal.minor_diameter.min, thread.internal.minor_diameter.max) == (
        Decimal(row["D1_min"]),
        Decimal(row["D1_max"]),
    )


@every("row", METRIC, ids=lambda row: f"M{row['D']}x{row['P']}")
def test_iso_2306_percent(row):
    """Column pct_of_0_6495P_US_convention: 100 % = 1.299038 P, one decimal."""
    thread = standards.resolve(callout.read(f"M{row['D']}x{row['P']}-{row['D1_class']}"))
    percent = percent_of_thread(thread, Decimal(row["drill_iso2306"]))
    assert f"{percent:.1f}" == row["pct_of_0_6495P_US_convention"]


@every("row", WALL, ids=lambda row: row["thread"])
def test_the_wall_chart_of_inch_shops(row):
    """Common practice: the drill that is sold nearest to 75 percent of thread is the one that hangs on the wall."""
    choice = recommend(unified(row["thread"], row["class"]), DrillRequest())
    assert choice.recommended.drill.label == row["drill_label"]
    assert choice.recommended.within_minor_diameter_limits is True
    assert not choice.recommended.special


@every(("name", "thread_class"), list(GROUPS))
def test_published_charts_are_compared_and_the_rule_is_kept(name, thread_class):
    """No listed inch drill inside the limits is nearer to D - 0.75 x 1.299038 P than the one recommended."""
    thread = unified(name, thread_class[-2:])
    limits = thread.internal.minor_diameter
    aim = thread.basic.major_diameter - Decimal("0.75") * Decimal("1.299038") / (thread.threads_per_inch or Decimal(1))
    rows = [row for row in GROUPS[name, thread_class] if is_sold(row["drill_label"])]
    holding = [hole for row in rows if limits.min <= (hole := Decimal(row["drill_in"])) <= limits.max]
    choice = recommend(thread, DrillRequest())
    if choice.recommended.operation == "drill":
        assert all(abs(choice.recommended.diameter - aim) <= abs(hole - aim) for hole in holding)
        said = " ".join(choice.recommended.reasons)
        assert all(row["drill_label"].replace(" ", "-") in said for row in rows)
    else:
        assert not holding


@pytest.mark.parametrize(
    ("text", "label", "percent"),
    [
        ("1/2-13 UNC-2B", "27/64", "78.16"),
        ("1/4-20 UNC-2B", "#7", "75.44"),
        ("#10-32 UNF-2B", "#21", "76.36"),
        ("M8", "6.8 mm", "73.90"),
        ("M12", "10.2 mm", "79.18"),
    ],
)
def test_everyday_threads(text, label, percent):
    """Common practice: 1/2-13 takes 27/64 (about 78 %), 1/4-20 #7 (75 %), #10-32 #21 (76 %), M8 6.8, M12 10.2."""
    choice = recommend(standards.resolve(callout.read(text)), DrillRequest())
    assert choice.recommended.drill.label == label
    assert str(choice.recommended.percent_thread) == percent
    assert choice.rule == "published_chart"
    assert "1.299038 P" in choice.percent_basis


@pytest.mark.parametrize(
    ("text", "label"), [("3/4-10 UNC-2B", "21/32"), ("5/8-11 UNC-2B", "17/32"), ("1-8 UNC-2B", "7/8")]
)
def test_rule_where_the_chart_is_not_held(text, label):
    """Common practice: the everyday drills of these threads are also the nearest to major less pitch."""
    choice = recommend(standards.resolve(callout.read(text)), DrillRequest())
    assert choice.recommended.drill.label == label
    assert choice.rule == "rule"
    assert any("no published tap drill chart" in reason for reason in choice.recommended.reasons)


def test_a_row_that_was_machine_read_says_so():
    """The column "reading" of the published file: 124 rows were read from the page, the rest by machine."""
    table = {"1B/2B": "II.A.1", "3B": "II.A.2"}
    held = {
        (row["size"], row["threads_per_inch"], row["drill_diameter_in"], row["class"]): row["source"]
        for row in load("tap_drill_unified").rows
    }
    for row in UNIFIED:
        key = (row["thread"].rsplit("-", 1)[0], row["tpi"], row["drill_in"])
        alone, both = held.get((*key, row["class"])), held.get((*key, "1B/2B/3B"))
        source = alone or both or ""
        told = source.endswith(", machine-read") or f", {table[row['class']]} machine-read" in source
        assert told is row["reading"].startswith("machine-read"), (key, source)
    assert sum(row["reading"] == "read from the page image" for row in UNIFIED) == 124


@every(
    ("text", "labels"),
    [
        # ISO 2306 has one drill a pitch; one list has Rp and Rc, whose drills differ
        ("M10", ["8.5 mm"]),
        ("M10x1", ["9 mm"]),
        ("M10x1.25", ["8.8 mm"]),
        ("Rp 1/2", ["18.75 mm"]),
        ("Rc 1/2", ["18.25 mm"]),
        # Table II.A.1 for 1B and 2B, Table II.A.2 for 3B: a drill among several is that of its class only
        ("1/4-20 UNC-3B", [row["drill_label"] for row in GROUPS["1/4-20 UNC", "3B"]]),
    ],
)
def test_a_chart_is_that_of_size_pitch_series_and_class(text, labels):
    thread = standards.resolve(callout.read(text))
    assert [row.drill.label for row in chart_drills(thread)] == labels
