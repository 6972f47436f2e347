"""Findings on the order of operations, whole."""

from __future__ import annotations

from borewright.core.model import FinishInput
from every import every

from .planned import findings

ORDERS = [
    (("tap", "drill"), "operations_out_of_order", "error", "The tap needs the drill before it.", "drill, tap"),
    (("drill", "tap", "ream"), "operations_out_of_order", "error", "The tap needs the ream before it.", "ream, tap"),
    (("drill", "tap", "finish"), "finish_not_named", "warning",
     "The plan has a finish, the request names none: what the coat does to the limits is not judged.",
     "name the finish"),
]  # fmt: skip


@every(("order", "code", "severity", "text", "expected"), ORDERS)
def test_orders_of_operations(order, code, severity, text, expected):
    said = findings(operations_order=order)
    assert said == [(code, severity, "operations_order", text, ", ".join(order), expected)]


@every("order", [("drill", "tap"), ("drill", "ream", "tap"), ("drill",), ("tap",), ("ream", "tap"), ()])
def test_orders_that_can_make_the_hole(order):
    assert findings(operations_order=order) == []


COATED = [
    ("ASTM B633 Fe/Zn 5", "H6", ("drill", "finish", "tap"), "finished_before_tapping",
     "The limits allow for a coat on the thread; a tap that follows the finish cuts the coat away.", "tap, finish"),
    ("ASTM F2329", "H6", ("drill", "tap", "finish"), "galvanized_after_tapping",
     "Hot-dip zinc fills a thread that is tapped before the bath; tap once, oversize, after it.", "finish, tap"),
]  # fmt: skip


@every(("finish", "limit", "order", "code", "text", "expected"), COATED)
def test_the_finish_stands_on_the_right_side_of_the_tap(finish, limit, order, code, text, expected):
    asked = {"finish": FinishInput(text=finish)}
    tap = f"1/2-13 NC HSS G {limit}"
    said = [one for one in findings(tap=tap, asked=asked, operations_order=order) if one[2] == "operations_order"]
    assert said == [(code, "error", "operations_order", text, ", ".join(order), expected)]
    right = tuple({"tap": "finish", "finish": "tap"}.get(one, one) for one in order)
    assert not [one for one in findings(tap=tap, asked=asked, operations_order=right) if one[2] == "operations_order"]


def test_a_masked_thread_is_masked_first():
    asked = {"finish": FinishInput(text="ASTM B633 Fe/Zn 8", masked=True)}
    text = "The coat must not reach the thread: mask or plug it first."
    order = ("drill", "tap", "finish")
    assert findings(asked=asked, operations_order=order) == [
        ("mask_missing", "error", "operations_order", text, "drill, tap, finish", "mask, finish")
    ]
    for other in (("drill", "tap", "mask", "finish"), ("drill", "tap"), None):
        assert findings(asked=asked, operations_order=other) == []
