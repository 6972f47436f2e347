"""Gauge tolerances against two published readings, row by row, and tolerances of threads against a third."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from borewright import tables
from borewright.core import callout, standards
from borewright.core.gauging import gauges
from every import every

PUBLISHED = Path(__file__).parents[2] / "published"


def rows(name):
    with (PUBLISHED / f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def iso():
    return {row["td2_over_um"]: row for row in tables.load("gauge_thread_iso_1502").rows}


def class_x():
    return {row["tpi"]: row for row in tables.load("gauge_thread_asme_x").rows}


COLUMNS = {
    "major_minor_to_4_in": "major_minor_in",
    "major_minor_over_4_in": "major_minor_over_4_in",
    "pitch_to_1_5_in": "pitch_to_1_5_in",
    "pitch_over_1_5_to_4_in": "pitch_over_1_5_in",
    "pitch_over_4_to_8_in": "pitch_over_4_in",
}


@every("row", rows("gauge_iso1502"), ids=lambda row: row["td2_over_um"])
def test_iso_plugs(row):
    """GO is ZPL -/+ TPL/2, worn ZPL - W_GO; NOT GO is TPL wide above the maximum, worn TPL/2 - W_NG; in whole um."""
    ours = iso()[row["td2_over_um"]]
    tpl, zpl, wgo, wng = (Decimal(ours[name]) for name in ("tpl_um", "zpl_um", "wgo_um", "wng_um"))
    assert abs(zpl + tpl / 2 - Decimal(row["go_pd_upper_um"])) <= Decimal("0.5")
    assert abs(zpl - tpl / 2 - Decimal(row["go_pd_lower_um"])) <= Decimal("0.5")
    assert abs(zpl - wgo - Decimal(row["go_worn_um"])) <= Decimal("0.5")
    assert (tpl, 0) == (Decimal(row["notgo_pd_upper_um"]), Decimal(row["notgo_pd_lower_um"]))
    assert abs(tpl / 2 - wng - Decimal(row["notgo_worn_um"])) <= Decimal("0.5")


@every("row", rows("gauge_asme_b1_2_x"), ids=lambda row: row["tpi"])
def test_class_x(row):
    """Every cell of the reading; a blank one is not held, but 27 threads per inch has narrow sizes from memory."""
    for printed, ours in COLUMNS.items():
        if row["tpi"] == "27" and printed in ("major_minor_to_4_in", "pitch_to_1_5_in"):
            assert class_x()["27"]["status"] == "from_memory"
        else:
            assert class_x()[row["tpi"]][ours] == row[printed], printed


@pytest.mark.parametrize(
    ("text", "tolerance"),
    [
        ("1 3/4-20 UN-2B", "0.0004"),
        ("1 3/4-5 UNC-2B", "0.0005"),
        ("4 1/2-8 UN-2B", "0.0006"),
        ("6-16 UN-2B", "0.0006"),
        ("9-8 UNS-2B", None),
        ("4 1/2-36 UNS-2B", None),
        ("1 1/4-4 UNS-2B", None),
    ],
)
def test_cells_by_size(text, tolerance):
    """ASME B1.2-1983 Table 6: columns to 1.5, 4 and 8 in; blank cells stay open."""
    found = gauges(standards.resolve(callout.read(text)))
    go = found.finished.thread_plug.go.pitch_diameter
    codes = {caution.code for caution in found.notes.cautions}
    if tolerance is None:
        assert go.max is None
        assert "gauge_tolerance_not_held" in codes
    else:
        assert go.max - go.min == Decimal(tolerance)
        assert "gauge_tolerance_not_held" not in codes


def test_iso965_internal_tolerances():
    """AS 1721 Tables 4.1, 4.2, 4.4; five cells are misprints of the reading: not R40 numbers, or off their rank."""
    ours = {
        (row["quantity"], row["d_to_mm"], row["pitch_mm"], row["grade"]): row["value"]
        for row in tables.load("iso965_tolerances").rows
    }
    other = []
    for row in rows("iso965_internal_as1721"):
        held = ours[row["quantity"], row["d_to_mm"], row["pitch_mm"], row["grade"]]
        if Decimal(held) != Decimal(row["value_um"]):
            other.append((row["d_to_mm"], row["pitch_mm"], row["grade"], row["value_um"], held))
    assert other == [
        ("45", "3.5", "8", "460", "450"),
        ("90", "2", "5", "191", "190"),
        ("90", "3", "8", "460", "450"),
        ("90", "5.5", "7", "460", "450"),
        ("355", "6", "5", "355", "335"),
    ]
