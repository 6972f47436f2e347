"""A drill with the reamed hole that it prepares."""

from __future__ import annotations

from .choices import codes, drill_for


def test_ream_when_no_drill_holds_the_limits():
    """9/16-18 UNF-2B, 0.502 to 0.515: no 64th lies between, no reamer that is sold either."""
    choice = drill_for("9/16-18 UNF-2B", series=("fractional",))
    assert choice.recommended.operation == "drill_and_ream"
    assert choice.minor_diameter.min <= choice.ream_diameter <= choice.minor_diameter.max
    assert choice.recommended.drill.label == "31/64"  # 1/2 drills 0.5048, too near for a reamer
    assert choice.recommended.special
    assert "0.508" in choice.recommended.order_text
    assert choice.rule == "rule"


def test_a_reamer_that_is_sold_and_its_usual_stock():
    """3/4-16 UNF-3B, 0.6820 to 0.6908: 43/64, then the 11/16 reamer; 1/64 in on diameter is the usual stock."""
    ream = drill_for("3/4-16 UNF-3B").alternatives[0]
    assert (ream.operation, ream.drill.label, str(ream.expected_hole_diameter)) == ("drill_and_ream", "43/64", "0.6875")
    assert not ream.special


def test_stock_left_for_the_reamer():
    """Common practice: up to 3/64 in on the largest holes; what is more is cautioned."""
    choice = drill_for("5 1/2-8 UN-2B")
    assert choice.recommended.operation == "drill_and_ream"
    assert choice.recommended.drill.label == "4"
    assert "ream_stock_large" in codes(choice)
