"""The planned order of operations: drill before tap, finish on the right side of tapping, masks where they are due."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .case import AuditCase
from .findings import Finding

_BEFORE_TAP = ("drill", "ream")


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on the order of operations that ``case`` plans, and on a finish that leaves no room for the thread.

    Source: ASTM F2329 and ISO 10684 (hot-dip zinc: tap afterwards); common practice otherwise.
    """
    order = case.plan.operations_order or ()
    yield from _machining(order)
    allowance = case.spec.allowance
    if allowance is None:
        yield from _not_named(order)
        return
    masked = allowance.finish.applied == "masked" or not allowance.feasible
    if masked and case.plan.operations_order is not None and "finish" in order and "mask" not in order:
        yield _finding(
            "mask_missing", "The coat must not reach the thread: mask or plug it first.", order, "mask, finish"
        )
    if masked or not _both(order, "tap", "finish"):
        return
    tapped_first = order.index("tap") < order.index("finish")
    if allowance.finish.applied == "after_finish" and tapped_first:
        text = "Hot-dip zinc fills a thread that is tapped before the bath; tap once, oversize, after it."
        yield _finding("galvanized_after_tapping", text, order, "finish, tap")
    elif allowance.finish.applied == "before_finish" and not tapped_first:
        text = "The limits allow for a coat on the thread; a tap that follows the finish cuts the coat away."
        yield _finding("finished_before_tapping", text, order, "tap, finish")


def _not_named(order: Sequence[str]) -> Iterator[Finding]:
    if "finish" in order:
        text = "The plan has a finish, the request names none: what the coat does to the limits is not judged."
        yield Finding("finish_not_named", "warning", "operations_order", text, ", ".join(order), "name the finish")


def _machining(order: Sequence[str]) -> Iterator[Finding]:
    for first in _BEFORE_TAP:
        if _both(order, first, "tap") and order.index(first) > order.index("tap"):
            yield _finding("operations_out_of_order", f"The tap needs the {first} before it.", order, f"{first}, tap")


def _both(order: Sequence[str], first: str, second: str) -> bool:
    return first in order and second in order


def _finding(code: str, text: str, order: Sequence[str], expected: str) -> Finding:
    return Finding(code, "error", "operations_order", text, ", ".join(order), expected)
