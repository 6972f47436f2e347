"""Lines of hole making with the figures that the operator needs: tool, depth, speed, feed, time, where to peck."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.cutting.drill_tool import drill_tool
from borewright.core.cutting.other_operations import cone_depth, other_cut, peck_depths
from borewright.core.cutting.records import DrillCut
from borewright.core.joint.geometry import in_mm
from borewright.core.model import MM_PER_INCH, DrillChoice, Thread, Unit
from borewright.core.quantity_text import feed, length
from borewright.core.rounding import half_even

from .operation import Line, Plan

_CACHED = 1024
#: Kind of the tool that chamfers a hole wider than any countersink; no speed is worked out for it.
ALONG_THE_EDGE = "chamfer mill or boring bar"
_BESIDE = frozenset({"spot_drill", "countersink", "ream"})


def with_figures(line: Line, plan: Plan, drill: DrillChoice) -> Line:
    """A ``line`` of hole making with its figures out of ``plan`` and its ``drill``; other lines as they are.

    Source: drill_practice and other_operations tables (common practice); geometry.
    """
    if line.operation == "drill":
        return _drilled(line, plan)
    if line.operation in _BESIDE:
        cut = None if plan.cutting is None or line.tool["kind"] == ALONG_THE_EDGE else plan.cutting.drill
        return _beside(line, plan.thread, cut, drill.recommended.diameter, drill.hole_diameter)
    return line


def _drilled(line: Line, plan: Plan) -> Line:
    """The drill with its material, and where its pecks end."""
    made = drill_tool(plan.way.material)
    tool = {**line.tool, "substrate": made.substrate, "surface": made.surface, "point": made.point}
    parameters, text = {**line.parameters}, line.text
    peck = None if plan.cutting is None else plan.cutting.peck
    if peck is not None and peck.first_mm is not None and peck.next_mm is not None:
        unit = plan.thread.unit
        parameters["next_peck"] = _own(peck.next_mm, unit)
        ends = peck_depths(peck, to_mm=in_mm(plan.depths.drill_tip_depth, plan.thread))
        if ends is not None:
            text += ": at " + ", ".join(_say(end, unit) for end in ends)
        else:
            text += f": at {_say(peck.first_mm, unit)}, then every {_say(peck.next_mm, unit)}"
    text += f", {made.substrate} {made.surface}, {made.point} point"
    return line.told(parameters, text, tool=tool)


@cached(_CACHED)
def _beside(line: Line, thread: Thread, cut: DrillCut | None, drill_diameter: Decimal, hole_diameter: Decimal) -> Line:
    """Spot drill, countersink or reamer with depth, speed, feed and time."""
    drill_mm = in_mm(drill_diameter, thread)
    tool_mm, depth_mm = _size(line, thread, in_mm(hole_diameter, thread))
    parameters, text = {**line.parameters}, line.text
    if "depth" not in parameters:
        parameters["depth"] = _own(depth_mm, thread.unit)
        text += f", {_say(depth_mm, thread.unit)} deep"
    if line.operation == "spot_drill":
        text += f" ({_say(tool_mm, thread.unit)} diameter at the face)"
    if cut is None:
        return line.told(parameters, text)
    data = other_cut(line.operation, cut, drill_mm=drill_mm, tool_mm=tool_mm, depth_mm=depth_mm)
    parameters |= {"spindle_speed": data.spindle_speed_rpm, "feed": _own(data.feed_mm_rev, thread.unit, places=4)}
    text += f", {data.spindle_speed_rpm} rev/min, feed {feed(data.feed_mm_rev)}"
    return line.told(parameters, text, time_s=data.time_s)


def _size(line: Line, thread: Thread, hole_mm: float) -> tuple[float, float]:
    """Diameter of the tool at its widest, and the depth that it goes, in mm."""
    given = line.tool.get("diameter", line.parameters.get("diameter"))
    tool_mm = in_mm(given, thread) if isinstance(given, Decimal) else hole_mm
    depth = line.parameters.get("depth")
    if isinstance(depth, Decimal):
        return tool_mm, in_mm(depth, thread)
    angle = line.tool["included_angle"]
    assert isinstance(angle, Decimal)
    inner_mm = 0.0 if line.operation == "spot_drill" else hole_mm
    return tool_mm, cone_depth(wide_mm=tool_mm, narrow_mm=inner_mm, angle_deg=float(angle))


def _own(millimetres: float, unit: Unit, places: int | None = None) -> Decimal:
    """A length in the thread's unit."""
    exact = Decimal(repr(millimetres))
    usual = 4 if unit == "in" else 3
    return half_even(exact / MM_PER_INCH if unit == "in" else exact, usual if places is None else places)


def _say(millimetres: float, unit: Unit) -> str:
    places = 3 if unit == "in" else 2
    return length(_own(millimetres, unit), unit, places)
