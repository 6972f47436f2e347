"""What the size decides: a tap that is stocked, a thread-mill or a single-point tool, a drill from solid or steps."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, sizes
from borewright.core.quantity_text import length
from borewright.core.standards.systems import traits

from .ways import Threading

_MILLED_OVER_DEG = figure("milled_over_deg")
_PIPE_TAP_TO_IN, _THREAD_MILL_OVER = figure("pipe_tap_to_in"), sizes("thread_mill_over")


def large_threading(thread: Thread) -> Threading:
    """What makes a thread that is too large to tap: a thread-mill, a single-point tool for steep or many-start ones.

    Source: common practice.
    """
    return "thread_mill" if thread.thread_angle > _MILLED_OVER_DEG and thread.starts == 1 else "single_point"


def is_pipe(thread: Thread) -> bool:
    """Whether the thread is a pipe thread, whose size is that of a bore and whose pitch is fine for it.

    Source: definitions of the thread systems.
    """
    return traits(thread).is_pipe


def is_large(thread: Thread) -> bool:
    """Whether no tap for the thread is commonly stocked.

    Source: thresholds of way_of_making (common practice).
    """
    size = thread.nominal_diameter
    if is_pipe(thread):
        own = size if thread.unit == "in" else size / Decimal("25.4")
        return own > _PIPE_TAP_TO_IN
    return size > _THREAD_MILL_OVER[thread.unit]


def by_size(thread: Thread, *, has_tap: bool) -> tuple[Decision, ...]:
    """What a person must decide about a large thread; ``has_tap`` where a tap for it is in the crib.

    Source: thresholds of way_of_making (common practice).
    """
    if not is_large(thread):
        return ()
    tool = "thread-mill" if large_threading(thread) == "thread_mill" else "single-point tool"
    other = "single-point it on a lathe" if tool == "thread-mill" else "have a tap made to order"
    planned = "the tap from the crib" if has_tap else f"a {tool}"
    text = (
        f"{length(thread.nominal_diameter, thread.unit)} is large for a tap: few are stocked and the torque stalls most"
        f" spindles. Planned is {planned}. Decide: {f'take the {tool} instead' if has_tap else 'make it so'},"
        f" {other}, or name a tap that is in the crib and a spindle that turns it."
    )
    return (Decision("large_thread", text, "/thread"),)
