"""Small tables of cutting, drilling and materials against what the names say themselves and against usual rules."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from borewright import tables
from every import every

PIPE_THREADS = {
    **{"1/16": "27", "1/8": "27", "1/4": "18", "3/8": "18", "1/2": "14", "3/4": "14", "1": "11.5", "1 1/4": "11.5"},
    **{"1 1/2": "11.5", "2": "11.5", "2 1/2": "8", "3": "8", "3 1/2": "8", "4": "8"},
}


def rows(name):
    return tables.load(name).rows


@pytest.mark.parametrize(
    "name", ["tap_drill_npt", "tap_drill_nptf", "tap_projection_npt", "tap_drill_dryseal_straight", "dryseal_straight"]
)
def test_threads_an_inch_of_american_pipe(name):
    """ANSI/ASME B1.20.1: 27, 18, 14, 11.5 and 8 threads an inch by size."""
    assert [row for row in rows(name) if row["threads_per_inch"] != PIPE_THREADS[row["size"]]] == []


def test_operations_beside_the_drill():
    """Usual rules: ream at half the speed and twice the feed, countersink at a third and half, spot at the full one,
    counterbore at half of both.
    """
    found = {
        row["operation"]: (float(row["speed_share"]), float(row["feed_share"])) for row in rows("other_operations")
    }
    assert found == {"ream": (0.5, 2), "countersink": (0.33, 0.5), "spot_drill": (1, 0.5), "counterbore": (0.5, 0.5)}


def test_set_ups_order_the_spread_around_the_usual_one():
    """A guided drill holds two thirds of the usual spread or less, a poor set-up makes it half as large again."""
    found = {row["factor"]: float(row["value"]) for row in rows("tapping_spread")}
    assert (found["setup_guided"], found["setup_usual"], found["setup_poor"]) == (0.6, 1, 1.5)


@every("row", lambda: [row for row in rows("material_names") if row["tensile_mpa"]], ids=lambda row: row["name"])
def test_strength_of_a_name_is_what_its_designation_says(row):
    """GJL-250 has 250 MPa, GG25 has 25 kgf/mm2 rounded to 250; S235 and its old names have 360 (EN 10025-2)."""
    if row["name"] in ("S235", "S235JR", "ST37", "1.0038"):
        assert row["tensile_mpa"] == "360"
    else:
        number = int(re.search(r"\d+", row["name"])[0])
        assert float(row["tensile_mpa"]) == (number if number >= 100 else 10 * number)


@every("series", lambda: sorted({row["series"] for row in rows("drill_lengths_metric")}))
def test_ranges_of_metric_drills_meet(series):
    found = [row for row in rows("drill_lengths_metric") if row["series"] == series]
    assert all(one["to_mm"] == other["over_mm"] for one, other in pairwise(found))
    for column in ("flute_mm", "overall_mm"):
        lengths = [float(row[column]) for row in found]
        assert lengths == sorted(lengths)


def test_stock_for_a_reamer():
    """TM 1-420 par. 37: .005 to .010 in; 1/64 in on 3/4 in is usual; 1/32 and 3/64 in on large ones. Inch fractions."""
    found = {float(row["to_in"]): (float(row["stock_min_in"]), float(row["stock_max_in"])) for row in rows(REAMED)}
    assert list(found) == [1 / 4, 1 / 2, 1, 3 / 2, 4]
    assert [most for _, most in found.values()] == [
        pytest.approx(stock, abs=0.00013) for stock in (0.010, 1 / 64, 0.020, 1 / 32, 3 / 64)
    ]
    assert all(least <= 0.010 <= most for least, most in found.values())
    assert [least for least, _ in found.values()] == [0.004, 0.005, 0.005, 0.008, 0.010]


REAMED = "reaming_allowances"
