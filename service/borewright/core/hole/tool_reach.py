"""Which standard tool gets to the bottom of a hole: its length, its flutes, and a shank that must not meet the face."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.core.model import MM_PER_INCH, Drill, Thread
from borewright.core.practice import figure

from . import tool_lengths
from .tool_lengths import DrillLength, TapLength

#: Shank that a holder must have to grip, in diameters of the shank, of the tool where that is not held.
_GRIP_DIAMETERS = figure("grip_diameters")

#: Why a tool does not do: its shank meets the face or does not pass the clearance, it has too little length or flute.
Fault = Literal["shank_meets_face", "shank_too_wide", "too_short", "flutes_too_short"]


class ReachWay(NamedTuple):
    """The way of the tools, in the thread's unit: ``access`` above the entry face, depths of their tips below it.

    ``full_thread`` is the depth of full thread, ``clearance`` the diameter free above the face, None = not given;
    ``tapped`` False for a thread that another tool cuts. ``floor`` is how deep a counterbore of ``floor_width`` lies
    below the face, 0 and None without one.
    """

    thread: Thread
    blind: bool
    access: Decimal
    clearance: Decimal | None
    drill: Drill
    drill_diameter: Decimal
    tip_depth: Decimal
    tap_travel: Decimal
    full_thread: Decimal
    tapped: bool
    floor: Decimal
    floor_width: Decimal | None

    @property
    def drill_reach(self) -> Decimal:
        """Length in the thread's unit from the top of the access to the deepest point of the drill."""
        return self.access + self.tip_depth

    @property
    def tap_reach(self) -> Decimal:
        """Length in the thread's unit from the top of the access to the deepest point of the tap."""
        return self.access + self.tap_travel


class ToolReach(NamedTuple):
    """A standard tool: its kind and, in the thread's unit, what it measures and what it leaves for the holder."""

    kind: str
    document: str
    overall_length: Decimal
    cutting_length: Decimal | None
    shank_diameter: Decimal | None
    left_for_holder: Decimal


class FoundTool(NamedTuple):
    """The standard tool (the shortest held) with what is wrong with it, and the shortest that does.

    ``limit`` is how deep the standard one goes, None where nothing is wrong. ``standard`` None: no length is held.
    """

    standard: ToolReach | None
    fault: Fault | None
    limit: Decimal | None
    tool: ToolReach | None
    missing: Decimal | None = None


class _Lack(NamedTuple):
    """What is wrong with a tool, and how deep it goes, in the thread's unit; None where it does."""

    fault: Fault | None = None
    limit: Decimal | None = None


def tap(way: ReachWay) -> FoundTool:
    """The tap that ``way`` takes; its ``missing`` is the length that the longest one held lacks, in the thread's unit.

    Source: geometry; lengths of :mod:`~borewright.core.hole.tool_lengths`.
    """
    known = tool_lengths.taps_of(way.thread) if way.tapped else ()
    if not known:
        return FoundTool(None, None, None, None)
    fault, limit = _tap_fault(way, known[0])
    tool = next((one for one in known if _tap_fault(way, one).fault in (None, "shank_too_wide")), None)
    missing = way.tap_reach + _tap_grip(way, known[-1]) - known[-1].overall
    found = None if tool is None else _tap_reach(way, tool)
    return FoundTool(_tap_reach(way, known[0]), fault, limit, found, max(missing, Decimal(0)))


def _tap_fault(way: ReachWay, one: TapLength) -> _Lack:
    into = one.depth_into(way.drill_diameter)
    if into is not None and way.floor_width is not None and one.shank is not None and one.shank < way.floor_width:
        into += way.floor
    if into is not None and way.tap_travel > into:
        return _Lack("shank_meets_face", into)
    held = one.overall - _tap_grip(way, one) - way.access
    if way.tap_travel > held:
        return _Lack("too_short", held)
    if way.clearance is not None and one.shank is not None and one.shank >= way.clearance:
        return _Lack("shank_too_wide")
    return _Lack()


def _tap_grip(way: ReachWay, one: TapLength) -> Decimal:
    return _GRIP_DIAMETERS * (one.shank or way.thread.nominal_diameter)


def _tap_reach(way: ReachWay, one: TapLength) -> ToolReach:
    return ToolReach(one.kind, one.document, one.overall, one.thread, one.shank, one.overall - way.tap_reach)


def drill(way: ReachWay) -> FoundTool:
    """The drill that ``way`` takes: its flutes hold the hole and its length reaches.

    Source: geometry; lengths of :mod:`~borewright.core.hole.tool_lengths`.
    """
    known = tool_lengths.drills_of(way.drill)
    if not known:
        return FoundTool(None, None, None, None)
    fault, limit = _drill_fault(way, known[0])
    tool = next((one for one in known if _drill_fault(way, one).fault is None), None)
    return FoundTool(_drill_reach(way, known[0]), fault, limit, None if tool is None else _drill_reach(way, tool))


def counterbored_first(way: ReachWay) -> bool:
    """Whether along ``way`` the usual drill reaches only from the floor of the counterbore, which is then sunk first.

    Source: geometry; lengths of :mod:`~borewright.core.hole.tool_lengths`.
    """
    known = tool_lengths.drills_of(way.drill)
    if not known:
        return False
    flute = _own(way, known[0].flute_mm)
    return flute < way.tip_depth <= flute + way.floor


def _drill_fault(way: ReachWay, one: DrillLength) -> _Lack:
    flute, held = _own(way, one.flute_mm), _own(way, one.overall_mm) - _GRIP_DIAMETERS * way.drill_diameter - way.access
    flute += way.floor if counterbored_first(way) else 0
    if way.tip_depth > flute:
        return _Lack("flutes_too_short", flute)
    return _Lack("too_short", held) if way.tip_depth > held else _Lack()


def _drill_reach(way: ReachWay, one: DrillLength) -> ToolReach:
    overall = _own(way, one.overall_mm)
    flute = _own(way, one.flute_mm)
    return ToolReach(one.series, one.document, overall, flute, way.drill_diameter, overall - way.drill_reach)


def _own(way: ReachWay, length_mm: Decimal) -> Decimal:
    return length_mm if way.thread.unit == "mm" else length_mm / MM_PER_INCH
