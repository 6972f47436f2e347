"""Percent of thread and mean oversize against FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2, row by row."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, Decimal
from pathlib import Path

from borewright.core import callout, standards
from borewright.core.drilling import find_drill, mean_oversize, percent_of_thread
from borewright.core.drilling.percent_of_thread import exact_pitch, is_common_form
from borewright.core.model import Thread
from every import every

PUBLISHED = Path(__file__).parents[2] / "published"
ROWS = list(csv.DictReader((PUBLISHED / "unified_tap_drill.csv").read_text(encoding="utf-8").splitlines()))

#: (thread, class, drill, column) -> what the arithmetic of the same row gives.
MISPRINTS = {
    ("#10-24 UNC", "1B/2B", "0.1540", "percent_thread"): "67",  # (0.1900 - 0.1540) x 24 / 0.01299 = 66.51, printed 66
    ("#10-24 UNC", "3B", "0.1540", "percent_thread"): "67",  # the same row again
    ("#12-24 UNC", "1B/2B", "0.1719", "percent_thread"): "81",  # (0.2160 - 0.1719) x 24 / 0.01299 = 81.47, printed 82
    ("#3-48 UNC", "1B/2B", "0.0810", "probable_percent"): "59",  # (0.0990 - 0.0829) x 48 / 0.01299 = 59.49, printed 60
}


def thread_of(row: dict[str, str]) -> Thread:
    designation = row["thread"].replace(" UNC", "").replace(" UNEF", "").replace(" UNF", "")
    size = designation.replace(" UNS", "").replace(" UN", "")
    return standards.resolve(callout.read(f"{size} {row['series']}-{row['class'][-2:]}"))


def whole(percent: Decimal) -> str:
    return str(percent.quantize(Decimal(1), rounding=ROUND_HALF_EVEN))


def expected(row: dict[str, str], column: str) -> str:
    return MISPRINTS.get((row["thread"], row["class"], row["drill_in"], column), row[column])


def test_the_table_is_whole_and_only_misprints_are_excluded():
    assert len(ROWS) == 301
    keys = {(row["thread"], row["class"], row["drill_in"]) for row in ROWS}
    assert all(key[:3] in keys for key in MISPRINTS)


@every("row", ROWS, ids=lambda row: f"{row['thread']}-{row['class']} {row['drill_label']}")
def test_row(row):
    thread, drill = thread_of(row), Decimal(row["drill_in"])
    assert str(thread.basic.major_diameter) == row["basic_major_in"]
    assert whole(percent_of_thread(thread, drill)) == expected(row, "percent_thread")
    if row["mean_oversize_in"]:
        oversize = mean_oversize(drill, "in")
        assert oversize is not None
        assert str(oversize.value) == row["mean_oversize_in"]
        assert oversize.status == "published"
        assert str(drill + oversize.value) == row["probable_hole_in"]
        assert whole(percent_of_thread(thread, drill + oversize.value)) == expected(row, "probable_percent")


@every("row", ROWS, ids=lambda row: f"{row['thread']}-{row['class']} {row['drill_label']}")
def test_label_of_the_row_is_that_drill(row):
    label = row["drill_label"]
    label = f"{label} in" if label.isdigit() else label
    assert f"{find_drill(label, 'in').diameter_in:.4f}" == row["drill_in"]


@every(
    ("height", "common"),
    [("1.349", False), ("1.35", True), ("1.62", True), ("1.8", True), ("1.801", False)],
)
def test_forms_whose_percent_is_told_on_three_quarters_of_the_triangle(height, common):
    """0.9 to 1.2 pitches between the diameters, ends included: 1.35 to 1.8 mm of M10x1.5."""
    thread = standards.resolve(callout.read("M10"))
    basic = replace(thread.basic, minor_diameter=Decimal(10) - Decimal(height))
    assert is_common_form(replace(thread, basic=basic)) is common


@every(
    ("text", "pitch"),
    [("M10", Decimal("1.5")), ("1/2-13 UNC-2B", 1 / Decimal(13)), ("G 1/2", Decimal("1.814"))],
)
def test_pitch_without_rounding_where_threads_per_inch_define_it_in_inches(text, pitch):
    """1/13 in has no end of digits; ISO 228-1 prints 1.814 mm for 14 threads per inch, and its limits are in mm."""
    assert exact_pitch(standards.resolve(callout.read(text))) == pitch
