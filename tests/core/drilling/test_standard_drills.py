"""Mean oversize between and beyond the drills of FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.drilling import mean_oversize


def test_oversize_between_published_drills_is_a_straight_line():
    """0.8125 in has 0.0052 and 0.8281 in has 0.0054: 0.8203 in lies half way."""
    between = mean_oversize(Decimal("0.8203"), "in")
    assert between is not None
    assert str(between.value) == "0.0053"
    assert between.status == "computed"


@pytest.mark.parametrize(
    ("diameter", "unit"), [("0.0464", "in"), ("1.0470", "in"), ("1.17", "mm"), ("27", "mm"), ("0.1", "mm")]
)
def test_oversize_beyond_the_table_is_unknown(diameter, unit):
    assert mean_oversize(Decimal(diameter), unit) is None


def test_oversize_of_a_metric_drill():
    """6.8 mm = 0.2677 in, between 0.2660 and 0.2720 in, both 0.0041 in = 0.104 mm."""
    oversize = mean_oversize(Decimal("6.8"), "mm")
    assert oversize is not None
    assert str(oversize.value) == "0.104"
