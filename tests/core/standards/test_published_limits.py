"""Every published row of limits of size through the public functions, compared as printed text.

The files name the document in each row; those of UNJ and MJ are derived, no row was read. What does not agree is listed
in known_misprints.csv, cell by cell with the right value and the reason; a class that ISO 965-1 does not define must be
refused; nothing else is left out.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import Diameters, Thread
from borewright.core.rounding import plain
from every import every
from outside_figures import outside

Row = dict[str, str]


def rows(name: str) -> list[Row]:
    return outside(name)


MISPRINTS = {(row["table"], row["row"], row["column"]): row for row in rows("known_misprints")}


def thread(text: str) -> Thread:
    """The thread by the edition whose tables the files hold."""
    written = callout.read(text)
    return standards.resolve(written, edition="1989" if written.system == "unified" else None)


def printed(value: Decimal | None, like: str) -> str:
    """A limit with as many decimals as the table prints; fewer than we hold are cut half up, as the tables do."""
    assert value is not None
    places = len(like.partition(".")[2])
    return str(value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))


def compare(table: str, name: str, row: Row, limits: Diameters, columns: dict[str, tuple[str, str]]) -> int:
    """Compare each printed cell of a row; return how many cells were compared."""
    values = {column: getattr(getattr(limits, diameter), end) for column, (diameter, end) in columns.items()}
    return compare_values(table, name, row, values)


def compare_values(table: str, name: str, row: Row, values: dict[str, Decimal | None]) -> int:
    """Compare the printed cell of each column named with our figure."""
    compared = 0
    for column, value in values.items():
        text = row[column]
        if text == "":
            continue
        misprint = MISPRINTS.get((table, name, column))
        right = misprint["right"] if misprint and misprint["printed"] == text else text
        assert printed(value, right) == right, f"{name} {column}"
        compared += 1
    assert compared
    return compared


UNIFIED_INTERNAL = {
    "minor_min": ("minor_diameter", "min"),
    "minor_max": ("minor_diameter", "max"),
    "pitch_min": ("pitch_diameter", "min"),
    "pitch_max": ("pitch_diameter", "max"),
    "major_min": ("major_diameter", "min"),
}


@every("row", rows("unified_internal_limits"), ids=lambda row: row["designation"])
def test_unified_internal(row):
    limits = thread(row["designation"]).internal
    compare("unified_internal_limits", row["designation"], row, limits, UNIFIED_INTERNAL)


@every("row", rows("unj_internal_limits"), ids=lambda row: row["designation"])
def test_unj_internal_consistent_with_its_formulas(row):
    columns = {f"{name}_in": where for name, where in UNIFIED_INTERNAL.items()}
    compare("unj_internal_limits", row["designation"], row, thread(row["designation"]).internal, columns)


UNIFIED_EXTERNAL = {
    "major_max": ("major_diameter", "max"),
    "major_min": ("major_diameter", "min"),
    "pitch_max": ("pitch_diameter", "max"),
    "pitch_min": ("pitch_diameter", "min"),
}


@every("row", rows("unified_external_limits"), ids=lambda row: row["designation"])
def test_unified_external(row):
    """The mate of each class: 1A in 1B, 2A in 2B, 3A in 3B."""
    size = row["designation"].removesuffix(row["class"])
    hole = thread(size + row["class"].replace("A", "B"))
    limits = standards.external_limits(hole, thread_class=row["class"])
    compare("unified_external_limits", row["designation"], row, limits, UNIFIED_EXTERNAL)
    assert hole.external == limits, "the mate that the reply shows"
    reference = {
        "allowance": hole.basic.major_diameter - limits.major_diameter.max,
        "unr_minor_max_ref": hole.extra["external_reference"]["unr_minor_diameter_max_tabulated"],
    }
    compare_values("unified_external_limits", row["designation"], row, reference)


def test_unfinished_major_diameter():
    """Hot-rolled 2A screws have their own major minimum; the column exists in the same table."""
    checked = 0
    for row in rows("unified_external_limits"):
        if row["major_min_unfinished"] and row["class"] == "2A":
            hole = thread(row["designation"].replace("2A", "2B"))
            ours = hole.extra["external_reference"]["unfinished_major_diameter_min"]
            assert printed(ours, row["major_min_unfinished"]) == row["major_min_unfinished"], row["designation"]
            checked += 1
    assert checked == 24


METRIC_INTERNAL = {
    "D1_min": ("minor_diameter", "min"),
    "D1_max": ("minor_diameter", "max"),
    "D2_min": ("pitch_diameter", "min"),
    "D2_max": ("pitch_diameter", "max"),
    "Dmaj_min": ("major_diameter", "min"),
}


def metric(diameter: str, pitch: str, thread_class: str) -> str:
    return f"M{plain(Decimal(diameter))}x{plain(Decimal(pitch))}-{thread_class}"


@every("row", rows("metric_internal_limits"), ids=lambda row: metric(row["D"], row["P"], row["class"]))
def test_metric_internal(row):
    if row["class"] == "6H as printed":
        refused_class(metric(row["D"], row["P"], "6H"))
        return
    name = metric(row["D"], row["P"], row["class"])
    compare("metric_internal_limits", name, row, thread(name).internal, METRIC_INTERNAL)


def refused_class(name: str) -> None:
    """ISO 965-1 has no such tolerance cell: the class is refused, never extended."""
    with pytest.raises(BorewrightError) as caught:
        thread(name)
    assert caught.value.code == "thread_cell_undefined"


METRIC_EXTERNAL = {
    "dmaj_max": ("major_diameter", "max"),
    "dmaj_min": ("major_diameter", "min"),
    "d2_max": ("pitch_diameter", "max"),
    "d2_min": ("pitch_diameter", "min"),
    "d1_max_flat": ("minor_diameter", "max"),
    "d3_min": ("minor_diameter", "min"),
}


@every("row", rows("metric_external_limits"), ids=lambda row: metric(row["d"], row["P"], row["class"]))
def test_metric_external(row):
    name = metric(row["d"], row["P"], row["class"])
    columns = dict(METRIC_EXTERNAL)
    if row["note"] == "minor value is the one used for stress area":
        del columns["d3_min"]  # the row says itself that its minor figure is another one: d3 nominal
        mated = thread(metric(row["d"], row["P"], f"6H/{row['class']}"))
        nominal = mated.extra["external_reference"]["minor_diameter_d3"]
        compare_values("metric_external_limits", name, row, {"d3_min": nominal})
    hole = thread(name.rpartition("-")[0])
    limits = standards.external_limits(hole, thread_class=row["class"])
    compare("metric_external_limits", name, row, limits, columns)


@every("row", rows("mj_internal_limits"), ids=lambda row: row["designation"])
def test_mj_internal_consistent_with_its_formulas(row):
    columns = {
        "minor_min_mm": ("minor_diameter", "min"),
        "minor_max_mm": ("minor_diameter", "max"),
        "pitch_min_mm": ("pitch_diameter", "min"),
        "pitch_max_mm": ("pitch_diameter", "max"),
        "major_min_mm": ("major_diameter", "min"),
    }
    compare("mj_internal_limits", row["designation"], row, thread(row["designation"]).internal, columns)


def test_every_misprint_is_a_printed_cell():
    keys = {"unified": "designation", "unj": "designation"}
    for (table, name, column), misprint in MISPRINTS.items():
        diameter = "d" if table == "metric_external_limits" else "D"
        printed_cells = [
            row[column]
            for row in rows(table)
            if name == (row.get(keys.get(table.partition("_")[0], "")) or metric(row[diameter], row["P"], row["class"]))
        ]
        assert misprint["printed"] in printed_cells, (table, name, column)
        assert misprint["right"] != misprint["printed"], (table, name, column)


def test_tables_are_whole():
    counts = {
        "unified_internal_limits": 306,
        "unified_external_limits": 413,
        "unj_internal_limits": 148,
        "metric_internal_limits": 219,
        "metric_external_limits": 58,
        "mj_internal_limits": 123,
    }
    assert {name: len(rows(name)) for name in counts} == counts
