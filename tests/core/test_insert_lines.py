"""The operations after the hole of a screw-thread insert, and the insert that fits: full thread = length + 1 P."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.model import Hole, Length
from borewright.core.requests import HoleSpecRequest
from borewright.core.specify import specify


def operations(thread, hole):
    return [one.line for one in specify(HoleSpecRequest(thread, hole)).operations]


@pytest.mark.parametrize(
    ("kind", "depth", "length"),
    [
        ("blind", "0.5", "0.375"),  # 2 D: 0.5 + 0.05 = 0.55 is too long, 1.5 D: 0.375 + 0.05 = 0.425 fits
        ("blind", "0.55", "0.5"),
        ("blind", "0.3", "0.25"),
        ("through", "0.5", "0.5"),  # a wall takes an insert of its own thickness
    ],
)
def test_the_longest_insert_that_fits(kind, depth, length):
    size = Length(Decimal(depth), "in")
    hole = Hole("blind", full_thread_depth=size) if kind == "blind" else Hole("through", thickness=size)
    (line,) = [line for line in operations("1/4-20 UNC-2B STI", hole) if line.operation == "install_insert"]
    assert line.parameters["insert_length"] == Decimal(length)


def test_the_insert_follows_the_hole():
    hole = Hole("through", thickness=Length(Decimal(12), "mm"))
    names = [line.operation for line in operations("M8 STI", hole)]
    assert names[names.index("tap") :] == ["tap", "inspect", "install_insert", "break_off_tang", "inspect"]
    assert "install_insert" not in [line.operation for line in operations("M8", hole)]
