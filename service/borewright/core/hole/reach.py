"""Reach: whether the tools get to the bottom of a hole, be it deep or at the bottom of a bore or beside a wall.

The holder is taken to stay above the access, so a tool must reach the bottom and still leave shank to be held. Where
standard lengths are held the shortest tool that does is named; where none are, the reach that is needed and the kind
of tool are told, never a guessed length. A hole that standard tools reach is passed in silence.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.derivation import WhenAsked
from borewright.core.errors import HoleError
from borewright.core.model import Depths, Drill, Hole, Notes, Source, Step, Thread
from borewright.core.rounding import downward

from . import counterbore, reach_findings, tool_lengths, tool_reach
from .reach_findings import PLACES, say
from .tool_reach import FoundTool, ReachWay, ToolReach

#: A shank no larger than the thread passes where the thread's own tap passes (geometry).
Shank = Literal["standard", "small_shank"]


@dataclass(frozen=True, slots=True, eq=False)
class Reach:
    """Reach from the top of the access to the deepest point of each tool, in the thread's unit.

    ``tap`` and ``drill`` are the shortest standard tools held that reach, None where no length is held that does.
    ``ordinary``: nothing stands above the face and the usual tools reach, so that nothing needs to be said.
    ``counterbored_first``: the drill reaches from the floor of the counterbore only.
    """

    access_depth: Decimal
    clearance_diameter: Decimal | None
    drill_reach: Decimal
    tap_reach: Decimal
    length: Literal["standard", "extended"]
    shank: Shank
    drill: ToolReach | None
    tap: ToolReach | None
    advice: tuple[str, ...]
    ordinary: bool
    notes: Notes
    counterbored_first: bool


def reach(thread: Thread, hole: Hole, *, depths: Depths, drill: Drill, tapped: bool = True) -> Reach:
    """What the tools must reach, which standard ones do, and the question where the usual one does not.

    Args: ``thread``; ``hole`` as asked for; ``depths`` in the thread's unit; ``drill`` chosen; ``tapped`` whether a tap
        makes the thread.
    Raises: HoleError ``hole_not_reachable`` when the clearance is smaller than the tools themselves, or when less
        access would let the longest standard tap that is held reach.
    Source: geometry; lengths of taps ASME B94.9, ISO 529, ISO 2283, of drills ASME B94.11M, ISO 235, ISO 494, of which
        overall lengths and shanks of inch taps from #4 are published and the rest is from memory.
    """
    way = _way(thread, hole, depths=depths, drill=drill, tapped=tapped)
    _passes(way)
    tap, drilled = tool_reach.tap(way), tool_reach.drill(way)
    _refuse_access(way, tap)
    questions = tuple(reach_findings.decisions(way, tap, drilled))
    unknown = reach_findings.unknown(way, tap, drilled)
    ordinary = way.access == 0 and way.clearance is None and not questions and not unknown
    held = not ordinary and (tap.standard is not None or drilled.standard is not None)
    small = _needs_small_shank(way, tap)
    return Reach(
        access_depth=way.access,
        clearance_diameter=way.clearance,
        drill_reach=way.drill_reach,
        tap_reach=way.tap_reach,
        length="extended" if _is_extended(way, tap) or _is_extended(way, drilled) else "standard",
        shank="small_shank" if small else "standard",
        drill=drilled.tool,
        tap=tap.tool,
        advice=() if ordinary else reach_findings.advice(way, tap, drilled, small_shank=small),
        ordinary=ordinary,
        notes=Notes(
            () if ordinary else _ASSUMED,
            tuple(reach_findings.cautions(unknown, held=held)),
            tuple(_sources(way, tap, drilled)),
            WhenAsked(_steps, way),
            decisions=questions,
        ),
        counterbored_first=tool_reach.counterbored_first(way),
    )


_ASSUMED = (
    "the holder stays above the access; a tool leaves two diameters of its shank to be held (our own limit)",
    "where the shank is not known, a clearance under twice the thread asks for one no larger than the thread",
)


def _way(thread: Thread, hole: Hole, *, depths: Depths, drill: Drill, tapped: bool) -> ReachWay:
    unit = thread.unit
    return ReachWay(
        thread=thread,
        blind=hole.kind == "blind",
        access=hole.access_depth.to(unit) if hole.access_depth is not None else Decimal(0),
        clearance=hole.clearance_diameter.to(unit) if hole.clearance_diameter is not None else None,
        drill=drill,
        drill_diameter=drill.diameter(unit),
        tip_depth=depths.drill_tip_depth,
        tap_travel=depths.tap_travel,
        full_thread=depths.full_thread_depth,
        tapped=tapped,
        floor=counterbore.floor(thread, hole),
        floor_width=counterbore.sizes(thread, hole)[0],
    )


def _passes(way: ReachWay) -> None:
    """Refuse a clearance that the tools themselves do not pass."""
    thread, clearance = way.thread, way.clearance
    widest = max(thread.internal.major_diameter.min or thread.nominal_diameter, way.drill_diameter)
    if clearance is not None and clearance < widest:
        raise HoleError(
            "hole_not_reachable",
            f"the tap is {say(way, widest)} wide: {say(way, widest - clearance)} of clearance are missing",
            pointer="/hole/clearance_diameter",
            allowed=(f"at least {say(way, widest)}",),
        )


def _refuse_access(way: ReachWay, tap: FoundTool) -> None:
    """Refuse an access through which the longest tap held does not reach, where less of it would do."""
    if tap.tool is not None or tap.missing is None or tap.missing > way.access:
        return
    *_, longest = tool_lengths.taps_of(way.thread)
    if longest.kind != "extended":
        return
    most = downward(way.access - tap.missing, PLACES[way.thread.unit])
    raise HoleError(
        "hole_not_reachable",
        f"the tap must reach {say(way, way.tap_reach)} and be held; the longest standard one held is"
        f" {say(way, longest.overall)} long ({longest.document}, from memory): {say(way, tap.missing)} are"
        " missing. A special tap or a slim holder extension may reach: give the access that is left above it",
        pointer="/hole/access_depth",
        allowed=(f"at most {say(way, most)}",),
    )


def _is_extended(way: ReachWay, found: FoundTool) -> bool:
    """Whether a tool longer than the usual one is needed: where no length is held, any access asks for it."""
    if found.standard is None:
        return way.access > 0
    return found.fault in ("too_short", "flutes_too_short") or (
        found.tool is not None and found.tool.kind != found.standard.kind
    )


def _needs_small_shank(way: ReachWay, tap: FoundTool) -> bool:
    """Whether the usual shank does not pass the clearance, or would meet the face of a smaller hole."""
    if tap.standard is None or tap.standard.shank_diameter is None:
        return way.clearance is not None and way.clearance < 2 * way.thread.nominal_diameter
    narrow = way.clearance is not None and tap.standard.shank_diameter >= way.clearance
    return narrow or tap.fault == "shank_meets_face"


def _sources(way: ReachWay, tap: FoundTool, drill: FoundTool) -> Iterator[Source]:
    yield _GEOMETRY
    if tap.tool is not None:
        length = next(one for one in tool_lengths.taps_of(way.thread) if one.kind == tap.tool.kind)
        yield tool_lengths.tap_source("tap.overall_length", way.thread.unit, length.status)
        if tap.tool.cutting_length is not None:
            yield tool_lengths.tap_source("tap.cutting_length", way.thread.unit, "from_memory")
    if drill.tool is not None:
        yield tool_lengths.drill_source("drill.overall_length", metric=way.drill.series == "metric")


_GEOMETRY = Source("drill_reach", "geometry", "", "access depth plus depth of the tip", "computed")


def _steps(way: ReachWay) -> tuple[Step, ...]:
    inputs = {"access": way.access, "tip": way.tip_depth, "travel": way.tap_travel}
    unit = way.thread.unit
    return (
        Step("drill_reach", "access + tip", inputs, way.drill_reach, unit, "geometry"),
        Step("tap_reach", "access + travel", inputs, way.tap_reach, unit, "geometry"),
    )
