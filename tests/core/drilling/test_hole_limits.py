"""Recommended hole sizes by length of engagement: FED-STD-H28/2B (1991) Tables II.A.3, II.A.4 and 30.1, row by row."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout, standards
from borewright.core.drilling import hole_limits
from borewright.core.model import Thread
from every import every

from .choices import drill_for

PUBLISHED = Path(__file__).parents[2] / "published"
ROWS = list(csv.DictReader((PUBLISHED / "unified_hole_limits.csv").read_text(encoding="utf-8").splitlines()))
MINIATURE = list(csv.DictReader((PUBLISHED / "unm_hole_limits.csv").read_text(encoding="utf-8").splitlines()))
RANGES = {"le_to_0.33D": "0.33", "le_0.33D_to_0.67D": "0.67", "le_0.67D_to_1.5D": "1.5"}

#: (thread, class, column) -> the figure meant.
MISPRINTS = {
    ("#4-40", "1B/2B", "le_to_0.33D_max"): "0.0894",  # printed .0849, which is the minimum of the same cell
    ("13/16-16", "1B/2B", "le_0.67D_to_1.5D_max"): "0.759",  # printed .795, digits swapped
}


def thread_of(row: dict[str, str], thread_class: str) -> Thread:
    return standards.resolve(callout.read(f"{row['thread']} {row['series']}-{thread_class}"))


def printed(thread: Thread, diameters: str) -> tuple[str, str]:
    found = hole_limits(thread, Decimal(diameters) * thread.nominal_diameter)
    assert found is not None
    return str(found.limits.min), str(found.limits.max)


def test_the_table_is_whole_and_only_misprints_are_excluded():
    assert len(ROWS) == 258
    keys = {(row["thread"], row["class"]) for row in ROWS}
    assert all(key[:2] in keys for key in MISPRINTS)


@every("row", ROWS, ids=lambda row: f"{row['thread']}-{row['class']}")
def test_row(row):
    for thread_class in row["class"].split("/"):
        thread = thread_of(row, thread_class)
        for name, diameters in RANGES.items():
            ends = tuple(
                MISPRINTS.get((row["thread"], row["class"], f"{name}_{end}"), row[f"{name}_{end}"])
                for end in ("min", "max")
            )
            assert printed(thread, diameters) == ends, (thread_class, name)


@pytest.mark.parametrize("row", MINIATURE, ids=lambda row: row["designation"])
def test_miniature(row):
    """Machinery's Handbook 31st ed. p. 2171 Table 6 (ASME B1.10)."""
    thread = _read(row["designation"])
    for name, diameters in {"to_2/3D": "0.67", "2/3D_to_1.5D": "1.5", "1.5D_to_3D": "3"}.items():
        assert printed(thread, diameters) == (row[f"{name}_min"], row[f"{name}_max"]), name


def test_adding_whole_inches():
    """FED-STD-H28/2B footnote 1 of Tables II.A.3 and II.A.4: 4.000-8UN from the row of 2.000-8UN."""
    cells = [part for diameters in RANGES.values() for part in printed(_read("4.000-8UN-2B"), diameters)]
    assert cells == ["3.865", "3.877", "3.871", "3.884", "3.877", "3.890"]
    cells = [part for diameters in RANGES.values() for part in printed(_read("4.000-8UN-3B"), diameters)]
    assert cells == ["3.8650", "3.8722", "3.8684", "3.8759", "3.8722", "3.8797"]


def _read(text: str) -> Thread:
    return standards.resolve(callout.read(text))


@pytest.mark.parametrize(
    ("diameters", "ends"),
    [
        ("0.33", ("0.417", "0.425")),
        ("0.331", ("0.421", "0.430")),
        ("0.671", ("0.425", "0.434")),
        ("1.5", ("0.425", "0.434")),
    ],
)
def test_border_of_a_range_belongs_to_the_shorter_one(diameters, ends):
    """1/2-13 UNC, classes 1B and 2B, Table II.A.3."""
    assert printed(_read("1/2-13 UNC-2B"), diameters) == ends


def test_over_one_and_a_half_diameters_is_outside_the_standard():
    """30.1: minor min + 3/4 T to minor min + 5/4 T; T = 0.0169 in for 13 threads per inch, minor minimum 0.4167."""
    found = hole_limits(_read("1/2-13 UNC-2B"), Decimal("0.751"))
    assert found is not None
    assert (str(found.limits.min), str(found.limits.max)) == ("0.429", "0.438")
    assert any("designer's agreement" in said for said in found.notes.assumptions)
    assert not any(
        note.notes.cautions for note in [hole_limits(_read("1/2-13 UNC-2B"), Decimal("0.75"))] if note is not None
    )


def test_no_limits_over_three_diameters():
    assert hole_limits(_read("1/2-13 UNC-2B"), Decimal("1.501")) is None


def test_no_engagement_given_is_assumed_and_said():
    found = hole_limits(_read("1/2-13 UNC-2B"))
    assert found is not None
    assert (str(found.limits.min), str(found.limits.max)) == ("0.425", "0.434")
    assert "over 0.67 D to 1.5 D" in found.notes.assumptions[0]


@pytest.mark.parametrize("text", ["M8", "M10x1-6H", "1/4-28 UNJF-3B", "MJ6x1-4H5H"])
def test_standards_without_such_limits_give_none(text):
    """At every length, and at one diameter, which the ranges of the Unified table hold."""
    thread = _read(text)
    assert [hole_limits(thread, one) for one in (None, thread.nominal_diameter)] == [None, None]


def test_three_decimals_begin_with_number_six():
    """#6-32 UNC-2B, which Table II.A.3 leaves out, by 30.1: D1 = 0.1042 in and T = 0.05 P^(2/3) + 0.03 P/D - 0.002 =
    0.0098 in end at 0.1140, half of T below it at 0.1091; both are written as the limits of the thread, 0.104 to 0.114.
    """
    assert printed(_read("#6-32 UNC-2B"), "1") == ("0.109", "0.114")


@every(
    ("engagement", "status", "where"),
    [
        # over 0.33 D to 0.67 D the table prints 0.430 for the 0.429 of its own rule
        ("0.33", "published", "30.1 (Table II.A.3), engagement over 0.33 D to 0.67 D"),
        ("0.50", "computed", "30.1 (Table II.A.3), engagement over 0.67 D to 1.5 D"),
    ],
)
def test_where_limits_come_from(engagement, status, where):
    """1/2-13 UNC-2B; only a figure that is printed beside the rule is a published one."""
    found = hole_limits(_read("1/2-13 UNC-2B"), Decimal(engagement))
    assert found is not None
    (source,) = found.notes.sources
    assert (source.field, source.document, source.status) == ("hole_limits", "FED-STD-H28/2B", status)
    assert (source.locator, found.notes.assumptions) == (where, ())


def test_the_length_that_was_given_is_not_assumed():
    given = drill_for("1/2-13 UNC-2B", engagement=Decimal("0.5")).notes.assumptions
    assert not any("no length of engagement given" in said for said in given)
    left_out = drill_for("1/2-13 UNC-2B").notes.assumptions
    assert any("no length of engagement given" in said for said in left_out)
