"""Texts of the domain in the units of a reply: exact factors of the inch and of the pound (NIST SP 811, 2008, B.8)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.texts import in_units
from borewright.core import quantity_text
from borewright.core.model import Range
from hypothesis import given
from hypothesis import strategies as st

M8_6H = Range(Decimal("7.188"), Decimal("7.348"))


@pytest.mark.parametrize(
    ("text", "inch", "metric"),
    [
        (quantity_text.length(Decimal("0.3125"), "in"), "0.3125 in", "7.938 mm"),  # 0.3125 x 25.4 = 7.9375
        (quantity_text.length(Decimal("6.8"), "mm"), "0.268 in", "6.8 mm"),  # 6.8 / 25.4 = 0.26772
        (quantity_text.span(M8_6H, "mm"), "0.28299 to 0.28929 in", "7.188 to 7.348 mm"),
        (quantity_text.span(Range(Decimal("0.4460"), None), "in"), "at least 0.4460 in", "at least 11.328 mm"),
        (quantity_text.torque(2.0), "17.7 lbf*in", "2 N*m"),  # 2 / 0.1129848 = 17.70
        (quantity_text.force(1000.0), "225 lbf", "1000 N"),  # 1000 / 4.4482216 = 224.8
        (quantity_text.power(1.0), "1.34 hp", "1 kW"),
        (quantity_text.stress(655.0), "95000 psi", "655 MPa"),
        (quantity_text.cutting_speed(30.48), "100 ft/min", "30.5 m/min"),
        (quantity_text.feed(0.1), "0.00394 in/rev", "0.1 mm/rev"),
    ],
)  # fmt: skip
def test_a_quantity_is_shown_in_the_units_of_the_reply(text, inch, metric):
    assert in_units(f"set to {text}, then drill", "in") == f"set to {inch}, then drill"
    assert in_units(f"set to {text}, then drill", "mm") == f"set to {metric}, then drill"


def test_names_that_hold_a_size_stay_as_they_are():
    text = f"6.8 mm drill ({quantity_text.length(Decimal('6.8'), 'mm')}), taper 1 in 16, M8x1.25"
    assert in_units(text, "in") == "6.8 mm drill (0.268 in), taper 1 in 16, M8x1.25"


@given(st.decimals("0.001", "99", places=3), st.sampled_from(["in", "mm"]), st.sampled_from(["in", "mm"]))
def test_no_mark_is_left_and_no_length_is_lost(value, unit, asked):
    shown = in_units(quantity_text.length(value, unit), asked)
    number, name = shown.split(" ")
    assert name == asked
    in_mm = {"in": Decimal("25.4"), "mm": Decimal(1)}
    assert abs(Decimal(number) * in_mm[asked] - value * in_mm[unit]) <= Decimal("0.013")
