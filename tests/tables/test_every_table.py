"""What must hold for every table: a head that names its source, known status words, units, no row twice."""

from __future__ import annotations

import re

import pytest
from borewright import tables
from borewright.core.model import STATUSES
from every import every

HEAD = ("title", "document", "edition", "table", "status", "cross-check")
STATUS = set(STATUSES)
#: How a column name ends when its figures have a unit, and how the head calls that unit first.
UNITS = {
    "mm": "mm",
    "in": "in",
    "um": "um",
    "mpa": "MPa",
    "ksi": "ksi",
    "tpi": "1/in",
    "threads_per_inch": "1/in",
    "ft_min": "ft/min",
}
#: Columns that end like a unit and hold words, or figures of two units.
WORDS = {"seen_in", "specifications_mm", "pitch_or_tpi"}
#: Columns that make a row what it is, in tables that are looked up by them.
KEYS = {
    "acme": ("size",),
    "british_association": ("size",),
    "iso965_tolerances": ("quantity", "d_to_mm", "pitch_mm", "grade"),
    "iso_228": ("size",),
    "iso_7": ("size",),
    "insert_metric": ("diameter_mm", "pitch_mm"),
    "insert_unified": ("size", "threads_per_inch"),
    "materials": ("material_id",),
    "metric_j_series": ("diameter_mm", "pitch_mm"),
    "metric_series": ("diameter_mm", "pitch_mm"),
    "npsc": ("size",),
    "npsm": ("size",),
    "npt": ("size",),
    "nptf": ("size",),
    "practice": ("name",),
    "trapezoidal": ("diameter_mm", "pitch_mm"),
    "unified_exceptions": ("basic_major_in", "tpi", "thread_class", "quantity"),
    "unified_miniature": ("size",),
    "unified_selected_uns": ("basic_major_in", "tpi"),
    "unified_series": ("nominal",),
    "unified_unr_depth": ("tpi",),
    "way_of_making": ("name",),
    "whitworth": ("series", "size"),
}
NAMES = tables.names()


@every("name", NAMES)
def test_head_names_the_source(name):
    head = tables.load(name).head
    assert [key for key in HEAD if not head.get(key) and key != "edition"] == []
    assert "edition" in head
    columns = [column for column in tables.load(name).rows[0] if "status" in column.split("_")]
    assert head["status"] in STATUS or (columns and head["status"].startswith(("see column ", "see columns ")))


@every("name", NAMES)
def test_status_words_of_rows_and_columns(name):
    table = tables.load(name)
    columns = [column for column in table.rows[0] if "status" in column.split("_")]
    words = {row[column] for row in table.rows for column in columns}
    words |= {value for key, value in table.head.items() if key.startswith("status ")}
    assert words - STATUS <= {""}


@every("name", NAMES)
def test_columns_with_a_unit_say_it(name):
    table = tables.load(name)
    for column in table.rows[0]:
        ending = next((end for end in UNITS if re.fullmatch(rf"(.+_)?{end}", column)), None)
        if ending is not None and column not in WORDS:
            said = re.split("[;, ]", table.head.get(f"unit {column}", ""))[0]
            assert said == UNITS[ending], column
    described = [key.removeprefix("unit ") for key in table.head if key.startswith("unit ")]
    unknown = [column for column in described if column not in {known.lower() for known in table.rows[0]}]
    assert unknown == []


@every("name", NAMES)
def test_no_row_twice(name):
    rows = tables.load(name).rows
    assert rows, "an empty table"
    keys = KEYS.get(name, tuple(rows[0]))
    found = [tuple(row[column] for column in keys) for row in rows]
    assert len(found) == len(set(found))


@every("name", NAMES)
def test_cells_are_clean(name):
    table = tables.load(name)
    for row in table.rows:
        for column, text in row.items():
            assert text == text.strip(), (column, text)
            assert "\n" not in text


def test_version_is_of_the_bytes():
    assert re.fullmatch(r"[0-9a-f]{12}", tables.version())
    assert "unified_series" in NAMES
    with pytest.raises(KeyError):
        tables.load("no_such_table")
