"""Threads that are deep for their tap (common practice): what to watch. No tap is chosen by it."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from borewright.core.model import Caution, Thread
from borewright.core.practice import figure
from borewright.core.rounding import plain, upward

#: Depths in diameters beyond which a cut thread is deep: for straight-flute taps and for others.
_ROUTINE_DEPTH, _DEEPEST_CUT = figure("routine_depth_diameters"), figure("deepest_cut_diameters")


def depth_cautions(
    thread: Thread, depth: Decimal, *, style: str, method: Literal["cut", "form"]
) -> tuple[Caution, ...]:
    """What to watch where a cut thread is deep for the style of its tap; nothing by ``method`` form.

    Args: ``depth`` of full thread, in the thread's unit.
    Source: common practice.
    """
    if thread.taper is not None or method == "form":
        return ()
    ratio = depth / thread.nominal_diameter
    most = _ROUTINE_DEPTH if style == "straight_flute" else _DEEPEST_CUT
    if ratio <= most:
        return ()
    return (
        Caution(
            "deep_thread",
            f"{plain(upward(ratio, 1))} diameters of thread are deep for a {style.replace('_', ' ')} tap (about"
            f" {most} are routine): feed coolant, clear chips, or form or mill the thread",
        ),
    )
