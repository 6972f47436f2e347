"""Holes by the tables and by what a shop measured; racks of drills; drills inside limits.

FED-STD-H28/2B (1991) Table II.A.1, mean oversize: 27/64 in (0.4219) 0.0047, 31/64 in (0.4844) 0.0048, 1/16 in 0.0015;
nothing below 0.0465 in. Holes spread alike from 1/4 to 1/2 in and up to 1/16 in.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.drilling import candidates_within, mean_oversize, oversize_of, scatter
from borewright.core.drilling.standard_drills import OwnOversize
from borewright.core.model import Length, Range
from borewright.core.shop_figures.figures import MeasuredOversize
from borewright.core.shop_figures.serving import MeasuredDrills
from every import every

from .choices import thread
from .weighed import held, item, span


def measured(drill, mean, *, unit="in", spread=0.001):
    one = MeasuredOversize(
        25, spread=spread, drill_diameter=Length(Decimal(drill), unit), mean=Length(Decimal(mean), unit), unit=unit
    )
    return MeasuredDrills((one,))


@every(
    ("diameter", "own", "value", "status", "neighbouring"),
    [
        ("0.4844", None, "0.0048", "published", False),
        ("0.4844", OwnOversize(Decimal("0.002")), "0.002", "computed", False),
        # what was measured, and what the tables say that the two drills differ by
        ("0.4844", measured("0.4219", "0.0030"), "0.0031", "measured", False),
        ("0.4219", measured("0.4844", "0.0030"), "0.0029", "measured", False),
        # a drill of the next band of sizes; of one further off the tables speak
        ("0.5156", measured("0.4844", "0.0030"), "0.0030", "measured", True),
        ("0.0625", measured("0.4844", "0.0030"), "0.0015", "published", False),
        # nothing is published of what was measured: its own figure
        ("0.0625", measured("0.0400", "0.0010"), "0.0010", "measured", False),
    ],
)
def test_oversize(diameter, own, value, status, neighbouring):
    found = oversize_of(Decimal(diameter), "in", own)
    assert (found.value, found.status, found.neighbouring) == (Decimal(value), status, neighbouring)
    assert found.own is isinstance(own, OwnOversize)
    assert found.of_shop is (own is not None and status != "published")


def test_nothing_is_made_of_a_drill_of_which_nothing_is_published():
    assert oversize_of(Decimal("0.0400"), "in", measured("0.0400", "0.0010")) is None
    assert oversize_of(Decimal("0.0400"), "in", None) is None


@every(
    ("own", "unit", "sigma"),
    [
        (None, "in", None),
        (OwnOversize(Decimal("0.002"), 0.0015), "in", 0.0015),
        (OwnOversize(Decimal("0.002")), "in", None),
        (measured("10.5", "0.1", unit="mm", spread=0.0254), "in", 0.001),
        (measured("0.4219", "0.003", spread=0.002), "in", 0.002),
        (measured("0.0400", "0.003", spread=0.002), "in", None),
    ],
)
def test_spread(own, unit, sigma):
    """25.4 um are 0.001 in."""
    found = scatter(Decimal("0.4219"), unit, own)
    assert found == (None if sigma is None else pytest.approx(sigma))


def test_a_size_of_the_tables_in_millimetres():
    """10.716 mm is 0.42189 in, printed 0.4219: 27/64, 0.0047 in or 0.119 mm."""
    found = mean_oversize(Decimal("10.716"), "mm")
    assert (str(found.value), found.status, found.locator) == ("0.119", "published", "Table II.A.1")


RACK = held(*(item(f"{size} mm") for size in ("8", "8.1", "8.2", "8.3")))


@every(
    ("diameter", "most", "below", "above"),
    [
        ("8.2", 3, ["8 mm", "8.1 mm"], ["8.3 mm"]),
        ("8.2", 1, ["8.1 mm"], ["8.3 mm"]),
        ("8.25", 2, ["8.1 mm", "8.2 mm"], ["8.3 mm"]),
        ("8", 2, [], ["8.1 mm", "8.2 mm"]),
        ("9", 2, ["8.2 mm", "8.3 mm"], []),
    ],
)
def test_neighbours_on_a_rack(diameter, most, below, above):
    assert [one.drill.label for one in RACK.below(Decimal(diameter), most)] == below
    assert [one.drill.label for one in RACK.above(Decimal(diameter), most)] == above


@every(
    ("low", "high", "labels"),
    [
        ("8.1", "8.2", ["8.1 mm", "8.2 mm"]),
        ("8.11", "8.3", ["8.2 mm", "8.3 mm"]),
        ("8.31", "9", []),
        ("8.2", "8.1", []),
    ],
)
def test_a_part_of_a_rack(low, high, labels):
    assert [one.drill.label for one in RACK.between(low=Decimal(low), high=Decimal(high))] == labels


@every(
    ("low", "high", "series", "labels"),
    [
        # 27/64 drills 0.4266 in; 10.8 mm is 0.4252 and drills 0.4299
        ("0.417", "0.4266", None, ["27/64"]),
        ("0.417", "0.4265", None, []),
        ("0.422", "0.4299", ("metric",), ["10.8 mm"]),
        ("0.422", "0.4298", ("metric",), []),
    ],
)
def test_drills_inside_limits(low, high, series, labels):
    found = candidates_within(thread("1/2-13 UNC-2B"), span(low, high), series)
    assert [one.drill.label for one in found] == labels


def test_an_open_lower_end_bounds_nothing():
    """Metric drills begin at 0.15 mm (ASME B94.11M)."""
    found = [one.drill.label for one in candidates_within(thread("M10"), span(None, "0.16"))]
    assert found == ["0.15 mm", "0.16 mm"]


def test_the_major_diameter_bounds_an_open_end():
    found = candidates_within(thread("M10"), Range(Decimal("9.8"), None))
    assert [one.drill.label for one in found] == ["9.8 mm"]  # 9.9 mm drills more than 10 mm
