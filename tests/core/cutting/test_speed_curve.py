"""The line through printed speeds, from rows made up for it: it only falls, step by step."""

from __future__ import annotations

import pytest
from borewright.core.cutting.speed_curve import SpeedRow, curve
from every import every


def _row(hb_from, hb_to, low, high):
    return SpeedRow("by_hardness", hb_from, hb_to, low, high, f"{low}", "a table", "published")


def _line(*rows):
    return curve(rows, lambda here: here[0], lambda _, row: (row,))


#: 100 to 140 ft/min to 100 HB, 60 to 90 to 200 HB, 80 to 120 to 300 HB.
ROWS = _row(None, 100, 100, 140), _row(100, 200, 60, 90), _row(200, 300, 80, 120)


def test_harder_is_never_faster_than_the_metal_just_before():
    points = [(one.hardness_hb, one.value, one.low, one.high) for one in _line(*ROWS).points]
    assert points[1:] == [(150, 60, 60, 90), (250, 60, 60, 90)]
    assert points[0][1:] == (100, 100, 140)
    assert points[0][0] < 100


def test_each_end_of_the_range_falls_by_itself():
    """100 to 140 ft/min soft; then one row of 60 to 90 and one of 40 to 95 to start with 60; then 70 to 80 alone."""
    rows = _row(None, 100, 100, 140), _row(100, 200, 60, 90), _row(100, 200, 40, 95), _row(200, 300, 70, 80)
    line = curve(rows, lambda here: here[0], lambda here, _: here)
    found = [(one.hardness_hb, one.value, one.low, one.high) for one in line.points[1:]]
    assert found == [(150, 60, 40, 95), (250, 60, 40, 80)]


@every(
    ("hb", "values"),
    [(10, (100, 100)), (150, (100, 60)), (151, (60, 60)), (249, (60, 60)), (260, (60, 60)), (300, (60, 60))],
)
def test_the_points_on_both_sides(hb, values):
    assert tuple(one.value for one in _line(*ROWS).around(hb)) == values


def test_nothing_is_held_beyond_the_hardest():
    line = _line(*ROWS)
    assert line.around(300.1) is None
    assert line.hardest_hb == 300
    assert _line(_row(None, None, 7, 10)).around(10_000)[0].value == 7


@pytest.mark.parametrize(("hb", "covers"), [(100, False), (100.1, True), (200, True), (200.1, False), (None, True)])
def test_a_row_speaks_above_its_lower_and_to_its_upper_end(hb, covers):
    assert ROWS[1].covers(hb) is covers
