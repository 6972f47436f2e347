"""The drill charts of the other thread systems hold every published row that lies inside the thread's limits."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.model import STATUSES
from borewright.core.standards import catalogue
from borewright.tables import load
from outside_figures import outside

D = Decimal

#: Published rows that no chart carries, with the reason.
LEFT_OUT = {
    ("iso228_g_tap_drill", "1 1/2", "45.5"): "exceeds D1 max 45.485",
    ("iso228_g_tap_drill", "2", "57.5"): "exceeds D1 max 57.296",
    ("iso228_g_tap_drill", "2 1/4", "63.5"): "exceeds D1 max 63.392",
    ("iso228_g_tap_drill", "2 3/4", "78.5"): "below D1 min 78.576",
    ("tr_tap_drill", "Tr 14x3", "11.25"): "second figure for a size that has one, inside the limits",
    ("tr_tap_drill", "Tr 14x4", "10.25"): "pair of the withdrawn DIN 103",
    ("bsw_tap_drill", "3/8", "7.9"): "second list for a size that has a drill",
    ("bsw_tap_drill", "7/16", "9.3"): "second list for a size that has a drill",
    ("bsw_tap_drill", "3/4", "16.25"): "second list for a size that has a drill",
    ("bsw_tap_drill", "1 1/4", "28.0"): "second list for a size that has a drill",
    ("bsf_tap_drill", "7/32", "4.7"): "exceeds the greatest minor diameter",
    ("bsf_tap_drill", "1/4", "5.4"): "exceeds the greatest minor diameter",
    ("bsf_tap_drill", "9/32", "6.2"): "exceeds the greatest minor diameter",
    ("bsf_tap_drill", "5/16", "6.9"): "exceeds the greatest minor diameter",
    ("bsf_tap_drill", "7/16", "9.8"): "exceeds the greatest minor diameter",
}
#: Published file, chart, and what a row of the chart must say besides its size.
CHARTS = (
    ("npt_tap_drill", "tap_drill_npt", {"system": "npt"}),
    ("nptf_tap_drill", "tap_drill_nptf", {"system": "nptf"}),
    ("nptf_tap_drill", "tap_drill_dryseal_straight", {"system": "npsf"}),
    ("nptf_tap_drill", "tap_drill_dryseal_straight", {"system": "npsi"}),
    ("iso228_g_tap_drill", "tap_drill_iso_228", {"system": "iso_228"}),
    ("iso7_tap_drill", "tap_drill_iso_7", {"system": "iso_7"}),
    ("sti_inch_tap_drill", "tap_drill_insert_unified", {"system": "insert_unified"}),
    ("sti_metric_tap_drill", "tap_drill_insert_metric", {"system": "insert_metric"}),
    ("acme_tap_drill", "tap_drill_acme", {"system": "acme"}),
    ("tr_tap_drill", "tap_drill_trapezoidal", {"system": "trapezoidal"}),
    ("bsw_tap_drill", "tap_drill_whitworth", {"series": "BSW"}),
    ("bsf_tap_drill", "tap_drill_whitworth", {"series": "BSF"}),
    ("ba_tap_drill", "tap_drill_british_association", {"system": "british_association"}),
)


def rows_of(name):
    return outside(name)


def published_drill(row):
    return row.get("drill_in") or row.get("drill_mm") or ""


def size_of(row):
    text = row.get("size") or row["thread"]
    return text.removesuffix(" BA")


def chart_sizes(row):
    """How a chart row may be named in the published file."""
    pitch = row.get("threads_per_inch") or row.get("pitch_mm")
    size = row["size"].removeprefix("#")
    return {size, f"{size}-{pitch}", f"M{size}x{pitch}", f"Tr {size}x{pitch}"}


def belongs(row, marks):
    """Dryseal rows of one file serve three systems; Rp and Rc rows of one file one system."""
    series = row.get("series", "")
    if marks.get("system") == "nptf":
        return series == "NPTF"
    if marks.get("system") in ("npsf", "npsi"):
        return series == "NPSF/NPSI"
    return row.get("drill") != "none"


@pytest.mark.parametrize(("published", "chart", "marks"), CHARTS, ids=lambda value: str(value)[:40])
def test_every_published_drill_is_in_the_chart(published, chart, marks):
    held = [row for row in load(chart).rows if all(row[name] == value for name, value in marks.items())]
    missing = []
    for row in rows_of(published):
        if not belongs(row, marks):
            continue
        drill = D(published_drill(row))
        found = any(
            size_of(row) in chart_sizes(mine) and D(mine.get("drill_diameter_in") or mine["drill_diameter_mm"]) == drill
            for mine in held
        )
        if found == ((published, size_of(row), published_drill(row)) in LEFT_OUT):
            missing.append((published, size_of(row), published_drill(row)))
    assert not missing


STRAIGHT = [
    (name, row)
    for name in sorted({chart for _, chart, _ in CHARTS})
    for row in load(name).rows
    if row["variant"] == "straight" and row["system"] not in ("npt", "nptf", "npsf", "npsi")
]


def test_chart_drills_hold_the_limits_of_parallel_threads(resolved):
    """Rc is taper and is checked with its cone; dryseal straight drills are for the hole before the tap cuts."""
    entries = {}
    for entry in catalogue():
        entries.setdefault((entry.system, entry.size), []).append(entry)
    checked = 0
    for _name, row in STRAIGHT:
        if row["series"] == "Rc":
            continue
        for entry in entries[row["system"], row["size"]]:
            pitch = row.get("threads_per_inch") or row.get("pitch_mm")
            if row["series"] and entry.series != row["series"]:
                continue
            if D(pitch) not in (entry.threads_per_inch, entry.pitch):
                continue
            thread = resolved(entry.designation)
            scale = D("25.4") if thread.unit == "in" and "drill_diameter_mm" in row else D(1)
            drill = D(row.get("drill_diameter_in") or row["drill_diameter_mm"]) / scale
            limits = thread.internal.minor_diameter
            assert limits.min <= drill, row
            assert limits.max is None or drill <= limits.max, row
            checked += 1
    assert checked == len([row for _, row in STRAIGHT if row["series"] != "Rc"])


@pytest.mark.parametrize("name", sorted({chart for _, chart, _ in CHARTS}))
def test_chart_rows_are_complete(name):
    keys = set()
    for row in load(name).rows:
        key = (
            row["system"],
            row["series"],
            row["size"],
            row.get("threads_per_inch", row.get("pitch_mm")),
            row["variant"],
        )
        assert key not in keys, key
        keys.add(key)
        assert row["source"]
        assert row["status"] in STATUSES
        assert row["variant"] in ("straight", "reamed", "shop")
