"""Numbers of replies: exact in the standard's own unit, converted once in the other."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.unit_view import number, view
from borewright.core.model import Range
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("value", "shown"), [("0.1960", 0.196), ("0.5000", 0.5), ("8", 8), ("13", 13), ("4.5", 4.5), ("-0.0012", -0.0012)]
)
def test_printed_figure_is_the_number(value, shown):
    assert number(Decimal(value)) == shown
    assert view("in", None).length(Decimal(value)) == shown


@pytest.mark.parametrize(
    ("native", "asked", "value", "shown"),
    [
        ("in", "mm", "0.0003", 0.00762),  # 25.4 mm an inch, exact
        ("in", "mm", "0.4565", 11.5951),
        ("mm", "in", "6.912", 0.2721260),  # 6.912 / 25.4 = 0.27212598...
        ("mm", "in", "25.4", 1),
    ],
)
def test_converted_length(native, asked, value, shown):
    assert view(native, asked).length(Decimal(value)) == shown


def test_repeating_pitch_is_cut_to_seven_decimals():
    assert view("in", None).length(1 / Decimal(13)) == 0.0769231


def test_area_converts_with_the_square():
    assert view("in", "mm").area_or_none(Decimal("0.1419")) == pytest.approx(0.1419 * 645.16, abs=1e-5)


@pytest.mark.parametrize(
    ("quantity", "si", "shown"),
    [("stress", 827.371, 120_000), ("torque", 1.0, 8.851), ("force", 1000.0, 224.8), ("cutting_speed", 30.48, 100)],
)
def test_physical_quantities_in_the_inch_set(quantity, si, shown):
    """120 ksi is 827.371 MPa; 1 N*m is 8.8507 lbf*in; 1 kN is 224.81 lbf; 100 ft/min is 30.48 m/min."""
    assert view("in", None).physical(quantity)(si) == shown


def test_open_limit_stays_open():
    assert view("in", "mm").range(Range(Decimal("0.5"), None)) == {"min": 12.7, "max": None}


def test_only_lengths_of_a_mapping_are_converted():
    shown = view("in", "mm").mapping(
        {
            "diameter": Decimal(1),
            "included_angle": Decimal(90),
            "starts": 2,
            "pair": Range(None, Decimal(2)),
            "k": ("a",),
        }
    )
    assert shown == {
        "diameter": 25.4,
        "included_angle": 90,
        "starts": 2,
        "pair": {"min": None, "max": 50.8},
        "k": ["a"],
    }


@given(st.decimals(min_value=0, max_value=100, places=4))
def test_there_and_back(value):
    millimetres = Decimal(repr(view("in", "mm").length(value)))
    assert view("mm", "in").length(millimetres) == number(value)
