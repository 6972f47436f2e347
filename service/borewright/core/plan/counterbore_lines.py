"""The routing line of a counterbore or spotface, with its place in the routing and why it stands there."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.cutting.other_operations import other_cut
from borewright.core.cutting.records import DrillCut
from borewright.core.joint.geometry import in_mm
from borewright.core.model import MM_PER_INCH, Thread, Unit
from borewright.core.quantity_text import feed, length
from borewright.core.rounding import half_even

from .operation import Line, Plan

_PLACES: dict[Unit, int] = {"in": 4, "mm": 2}
#: A pilot runs in the drilled hole, never in the finished thread.
_AFTER = "pilot in the drilled hole, before the tap so that it does not rub the thread"
_FIRST = "without pilot, before drilling: the flutes of the drill reach the bottom from its floor only"


def is_first(plan: Plan) -> bool:
    """Whether the counterbore of ``plan`` is sunk before the hole is drilled."""
    return plan.reach is not None and plan.reach.counterbored_first


def line(plan: Plan, *, hole_diameter: Decimal) -> Line:
    """The counterbore of ``plan``, which has one; ``hole_diameter`` in the thread's unit.

    Source: common practice (order; other_operations table for speed and feed); time is travel over feed rate.
    """
    thread, depths = plan.thread, plan.depths
    wide, deep = depths.counterbore_diameter, depths.counterbore_depth
    assert wide is not None
    first = is_first(plan)
    tool = {"kind": "counterbore without pilot" if first else "counterbore", "diameter": wide}
    parameters: dict[str, object] = {"depth": deep, "pilot_diameter": None if first else hole_diameter}
    what = f"Spotface {_say(wide, thread)} diameter, until the face is clean"
    if deep is not None:
        what = f"Counterbore {_say(wide, thread)} diameter, {_say(deep, thread)} deep"
    text = f"{what}, {_FIRST if first else _AFTER}"
    cut = None if plan.cutting is None else plan.cutting.drill
    if cut is None:
        return Line("counterbore", tool, parameters, text)
    return _timed(Line("counterbore", tool, parameters, text), thread, cut, hole_diameter)


def _timed(line: Line, thread: Thread, cut: DrillCut, hole_diameter: Decimal) -> Line:
    wide, deep = line.tool["diameter"], line.parameters["depth"]
    assert isinstance(wide, Decimal)
    depth_mm = in_mm(deep, thread) if isinstance(deep, Decimal) else 0.0
    data = other_cut(
        "counterbore", cut, drill_mm=in_mm(hole_diameter, thread), tool_mm=in_mm(wide, thread), depth_mm=depth_mm
    )
    exact = Decimal(repr(data.feed_mm_rev))
    own = half_even(exact / MM_PER_INCH if thread.unit == "in" else exact, 4)
    parameters = {**line.parameters, "spindle_speed": data.spindle_speed_rpm, "feed": own}
    text = f"{line.text}, {data.spindle_speed_rpm} rev/min, feed {feed(data.feed_mm_rev)}"
    return replace(line, parameters=parameters, text=text, time_s=data.time_s if isinstance(deep, Decimal) else None)


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
