"""What the length of engagement decides: enough turns for a screw, few of them, or none worth the name."""

from __future__ import annotations

from borewright.core.model import Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, plain

from . import size
from .ways import MakingQuestion

_BLOCKS_THREADS, _REVIEW_THREADS = figure("blocks_threads"), figure("review_threads")
_REVIEW_DIAMETERS, _EDGE_BREAK_SHARE = figure("review_diameters"), figure("edge_break_share")
_NUTS = "a clinch, rivet or weld nut, an extruded (flanged) hole, a finer thread or a thicker boss"


def by_engagement(thread: Thread, asked: MakingQuestion) -> tuple[Decision, ...]:
    """What a person must decide where the thread ``asked`` for is short; a taper thread's length is that of its gauge.

    Source: thresholds of way_of_making (common practice).
    """
    if thread.taper is not None:
        return ()
    through = asked.wall == asked.depth
    broken = 1 - 2 * _EDGE_BREAK_SHARE if through else 1
    depth = asked.depth * broken
    turns, diameters = depth / thread.pitch, depth / thread.nominal_diameter
    pointer = "/hole/thickness" if through else "/hole/full_thread_depth"
    of_wall = f" in {length(asked.depth, thread.unit)} of wall with its edges broken" if through else ""
    said = (
        f"{length(depth, thread.unit)} of {thread.designation}{of_wall} is {plain(half_even(turns, 1))} turns of thread"
        f" ({plain(half_even(diameters, 2))} of the diameter)"
    )
    if turns < _BLOCKS_THREADS:
        text = f"{said}: no screw holds in it, so no drill and no tap are given. Decide: {_NUTS}."
        return (Decision("thread_too_short", text, pointer, blocks=True),)
    enough = size.is_pipe(thread) or diameters >= _REVIEW_DIAMETERS
    if turns >= _REVIEW_THREADS and enough:
        return ()
    text = (
        f"{said}: it carries a part of what the screw can, and strips when the screw is tightened fully. Decide: accept"
        f" it for a light load, or take {_NUTS}."
    )
    return (Decision("thread_short", text, pointer),)
