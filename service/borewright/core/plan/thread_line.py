"""The routing line of a thread that no tap makes: thread-milled, or cut with a single-point tool."""

from __future__ import annotations

from borewright.core.hole import taper_pipe
from borewright.core.model import Depths, Range, Thread
from borewright.core.quantity_text import length, span
from borewright.core.rounding import plain
from borewright.core.way_of_making import Way

from .operation import Line


def thread_line(thread: Thread, depths: Depths, way: Way, to_make: Range) -> Line:
    """The line that mills or single-points ``thread``, as its ``way`` says; no speed or feed is held for either.

    Args: ``depths`` of the hole and limits ``to_make``, in the thread's unit.
    Source: geometry of the thread; tools are common practice.
    """
    milled = way.threading == "thread_mill"
    kind = "thread mill" if milled else "single-point threading tool"
    form = f"{plain(thread.thread_angle)} degree, pitch {length(thread.pitch, thread.unit)}, {thread.hand}-hand"
    size = f"in passes to pitch diameter {span(to_make, thread.unit)}"
    if taper_pipe.taper_gauged(thread):
        size = f"in passes to {taper_pipe.gauge_words(thread, to_make)}"
    return Line(
        "thread_mill" if milled else "single_point_thread",
        {
            "kind": kind,
            "form_angle": thread.thread_angle,
            "pitch": thread.pitch,
            "hand": thread.hand,
            "starts": thread.starts,
            "substrate": "carbide" if milled else "carbide or high-speed steel",
        },
        {"full_thread_depth": depths.full_thread_depth, "travel": depths.tap_travel, "lead": thread.lead},
        f"{'Thread-mill' if milled else 'Single-point'} {thread.designation}, {form}, full thread"
        f" {length(depths.full_thread_depth, thread.unit, 3)} deep, {size}; speed not held",
    )
