"""The catalogue of tap limits holds every row, and the tap tables prove themselves."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.tapping.catalogue import limits_catalogue
from borewright.tables import load


def test_every_limit_is_listed_with_source_and_status():
    entries = limits_catalogue()
    systems = {entry.system for entry in entries}
    assert systems == {"unified", "insert_unified", "insert_metric", "iso_metric"}
    for entry in entries:
        assert entry.document
        assert entry.locator
        assert entry.status in ("published", "computed", "common_practice", "from_memory")


def test_rule_rows_of_the_catalogue():
    listed = {entry.label: entry for entry in limits_catalogue() if entry.applies_to == "through 1 in"}
    assert list(listed) == [f"H{number}" for number in range(1, 12)] + [f"L{number}" for number in range(1, 5)]
    assert (str(listed["H3"].over_basic.min), str(listed["H3"].over_basic.max)) == ("0.0010", "0.0015")


def test_cut_thread_table_agrees_with_itself():
    for row in load("tap_limits_cut_inch").rows:
        basic, low, high = (Decimal(row[name]) for name in ("basic_pitch_in", "pitch_min_in", "pitch_max_in"))
        depth = Decimal("0.649519") / Decimal(row["tpi"])
        assert abs(Decimal(row["nominal_in"]) - depth - basic) < Decimal("0.00006")
        assert low - basic in (Decimal("0.0002"), Decimal("0.0005"))
        assert high - low in (Decimal("0.0010"), Decimal("0.0015"), Decimal("0.0020"))
        assert Decimal(row["major_min_in"]) < Decimal(row["major_max_in"])


def test_insert_tables_stay_near_the_formula():
    """D + 0.649519 P plus the limit number times 0.0005 is the maximum, within 0.00015 in."""
    for name in ("tap_limits_sti_inch", "tap_limits_sti_metric"):
        for row in load(name).rows:
            if "tpi" in row:
                basis = Decimal(row["nominal_in"]) + Decimal("0.649519") / Decimal(row["tpi"])
            else:
                basis = (Decimal(row["nominal_mm"]) + Decimal("0.649519") * Decimal(row["pitch_mm"])) / Decimal("25.4")
            number = int(row["label"][1:]) + ("figures of H5" in row.get("note", "") or "(H5)" in row.get("note", ""))
            top = basis + number * Decimal("0.0005")
            assert abs(Decimal(row["pitch_max_in"]) - top) <= Decimal("0.00016"), row


def test_metric_d_table_steps():
    for row in load("tap_limits_metric_d").rows:
        assert int(row["limit_6H"][1:]) * 13 == int(row["max_over_basic_um"])


@pytest.mark.parametrize(
    "name",
    [
        "tap_limits_ground_inch",
        "tap_limits_over_1in",
        "tap_limits_cut_inch",
        "tap_limits_sti_inch",
        "tap_limits_sti_metric",
        "tap_limits_metric_d",
        "tap_recommended_h",
        "tap_classes_iso2857",
        "tap_chamfers",
        "tap_forming_offsets",
        "tap_practice",
        "tap_stock_limits",
        "tap_words",
    ],
)
def test_tables_name_their_source(name):
    head = load(name).head
    for key in ("title", "document", "edition", "table", "status", "cross-check"):
        assert head[key]
    assert len({tuple(row.values()) for row in load(name).rows}) == len(load(name).rows)
