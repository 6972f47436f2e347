"""A drill with the reamed hole that it prepares."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.drilling.candidates import reaming_stock
from every import every

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


#: Least and most on diameter (common practice) by the reamed diameter, both ends of each row.
STOCK = (
    ("0.0625", "0.0040", "0.0100"), ("0.25", "0.0040", "0.0100"), ("0.2501", "0.0050", "0.0157"),
    ("0.5", "0.0050", "0.0157"), ("0.5001", "0.0050", "0.0200"), ("1", "0.0050", "0.0200"),
    ("1.0001", "0.0080", "0.0313"), ("1.5", "0.0080", "0.0313"), ("1.5001", "0.0100", "0.0470"),
    ("6", "0.0100", "0.0470"),
)  # fmt: skip


@every(("diameter", "least", "most"), STOCK)
def test_stock_for_a_machine_reamer(diameter, least, most):
    """No document was seen that prints it by diameter: the shop's figures, in both units."""
    found = reaming_stock(Decimal(diameter), "in")
    assert [str(one) for one in found] == [least, most]
    millimetres = reaming_stock(Decimal(diameter) * Decimal("25.4"), "mm")
    assert [float(one) for one in millimetres] == [round(float(one) * 25.4, 3) for one in (least, most)]


def test_stock_holds_what_documents_say_of_it():
    """TM 1-420 par. 37: 0.005 to 0.010 in, no diameter told: inside the figures to 3/4 in, but where 0.004 will do;
    1/64 in on 3/4 in is usual; a larger hole never takes less.
    """
    for diameter in ("0.125", "0.25", "0.375", "0.5", "0.75"):
        least, most = reaming_stock(Decimal(diameter), "in")
        assert least <= Decimal("0.005") < Decimal("0.010") <= most
    assert reaming_stock(Decimal("0.75"), "in")[0] < Decimal(1) / 64 < reaming_stock(Decimal("0.75"), "in")[1]
    rows = [reaming_stock(Decimal(diameter), "in") for diameter, *_ in STOCK]
    assert rows == sorted(rows)
    assert all(least < most for least, most in rows)


@every(
    ("text", "drill", "reamed", "made"),
    [
        # FED-STD-H28/2B Table II.A.1, mean oversize: 31/64 0.0048 large, 43/64 0.0050, 29/32 between 0.0059 and 0.0060
        ("9/16-18 UNF-2B", "31/64", "0.508", "0.4892"),
        ("3/4-16 UNF-3B", "43/64", "0.6875", "0.6769"),
        ("1-12 UNF-3B", "29/32", "0.919", "0.9122"),
    ],
)
def test_the_drill_leaves_the_reamer_its_least_stock(text, drill, reamed, made):
    """The hole that it makes, not the drill, is 0.005 in or more under the reamed one; a 64th more is not."""
    choice = drill_for(text, series=("fractional",))
    one = next(one for one in (choice.recommended, *choice.alternatives) if one.operation == "drill_and_ream")
    assert (one.drill.label, str(one.expected_hole_diameter)) == (drill, reamed)
    left = Decimal(reamed) - Decimal(made)
    assert left >= Decimal("0.005")
    assert left - Decimal(1) / 64 < Decimal("0.005")
