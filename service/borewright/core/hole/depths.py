"""Depths of a tapped hole: full thread, chamfer, clearance, drill point, countersink, wall.

The build-up is drill depth = full thread + chamfer of the last tap + clearance, each in pitches of the thread; the
drill's point comes on top. The upper end of a chamfer's range is used for planning.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal
from functools import partial

from borewright.core.caches import cached
from borewright.core.derivation import WhenAsked
from borewright.core.errors import HoleError
from borewright.core.model import Caution, Depths, Hole, Notes, Source, TapChamfer, Thread, Unit
from borewright.core.model.decision import Decision
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, upward

from . import counterbore, countersink, depth_derivation, drilled_depth, run_out, taper_pipe, tight_bottom
from .countersink import Countersink

#: Clearance below the chamfer in pitches, by the way the tap is driven.
CLEARANCE_PITCHES = {
    "rigid": tight_bottom.RIGID,
    "floating": figure("clearance_floating_pitches"),
    "hand": figure("clearance_hand_pitches"),
}
#: Pitches by which a relief groove is longer than the chamfer of the last tap.
_RELIEF_PITCHES = figure("relief_groove_pitches")
_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}

_BUILD_UP = Source("drill_depth", "shop practice", "", "chamfer and clearance build-up", "common_practice")
POINT = Source("drill_tip_depth", "geometry of the drill point", "", "0.5 d / tan(point angle / 2)", "computed")


@cached(64)
def point_ratio(point_angle_deg: Decimal) -> Decimal:
    """Length over diameter of a drill point of ``point_angle_deg``: ``0.5 / tan(angle / 2)`` (0.3004
    at 118 degrees).
    """
    return Decimal(repr(0.5 / math.tan(math.radians(float(point_angle_deg) / 2))))


def full_thread_depth(thread: Thread, hole: Hole) -> tuple[Decimal, tuple[str, ...]]:
    """Depth of full thread asked for, and what was assumed to find it.

    Args: ``thread`` resolved; ``hole`` as asked for. Returns the depth in the thread's unit.
    Raises: HoleError ``hole_depth_missing`` when the hole gives none and the standard of the thread neither.
    """
    if hole.full_thread_depth is not None:
        return hole.full_thread_depth.to(thread.unit), ()
    if hole.kind == "through":
        if hole.thickness is None:
            raise HoleError("hole_depth_missing", "a through hole needs its thickness", pointer="/hole/thickness")
        return _through_depth(thread, hole.thickness.to(thread.unit), counterbore.floor(thread, hole))
    for name in ("pipe", "insert"):
        depth = thread.extra.get(name, {}).get("full_thread_depth")
        if isinstance(depth, Decimal):
            return depth + counterbore.floor(thread, hole), (_of_standard(depth, thread),)
    raise HoleError(
        "hole_depth_missing", "a blind hole needs the depth of full thread", pointer="/hole/full_thread_depth"
    )


def _through_depth(thread: Thread, wall: Decimal, floor: Decimal) -> tuple[Decimal, tuple[str, ...]]:
    """The whole wall, but of a taper thread what its standard asks: no thicker wall lets the tap go deeper."""
    standard = None if thread.taper is None else taper_pipe.useful_thread(thread, kind="through")
    if standard is None or wall - floor <= standard:
        return wall, ()
    return standard + floor, (_of_standard(standard, thread),)


def _of_standard(depth: Decimal, thread: Thread) -> str:
    return f"full thread depth {length(depth, thread.unit)} taken from the thread's standard"


def room(thread: Thread, hole: Hole, *, drill_diameter: Decimal, clearance: Decimal) -> tight_bottom.Room:
    """Room a hole leaves for the tap's chamfer, below the full thread and the clearance.

    Args: ``drill_diameter`` and ``clearance`` in the thread's unit.
    Raises: HoleError ``thread_deeper_than_hole``, ``drill_depth_limit_too_shallow``.
    """
    depth, _ = full_thread_depth(thread, hole)
    if hole.kind == "through":
        _through_thread_fits(thread, hole, depth)
        return tight_bottom.Room(depth, None, "")
    if thread.taper is not None:  # the travel of its tap needs the room, whatever the depth
        return tight_bottom.Room(depth, None, "")
    free = drilled_depth.blind_ends(thread, hole, point_ratio(hole.point_angle_deg) * drill_diameter)
    rule = run_out.extra_depth(thread, hole, depth)
    if rule is not None:
        free.append((depth + rule, "/hole/run_out"))
    if not free:
        return tight_bottom.Room(depth, None, "")
    deepest, pointer = min(free)
    ends = _ends(thread, hole, deepest, drill_diameter)
    if depth > deepest:
        any_tap = tight_bottom.FORMING_BOTTOMING * thread.pitch + clearance
        raise tight_bottom.too_deep(thread, depth, ends, least=any_tap if rule is None else max(any_tap, rule))
    left = tight_bottom.clearance(thread, deepest - depth, planned=clearance, wall=pointer == "/hole/thickness")
    return tight_bottom.Room(depth, deepest - depth - left, pointer, left, ends)


def _ends(thread: Thread, hole: Hole, deepest: Decimal, drill_diameter: Decimal) -> tight_bottom.Ends:
    if hole.thickness is None:
        return tight_bottom.Ends(deepest, ())
    flatter = tight_bottom.flatter_points(hole.point_angle_deg)
    points = ((angle, point_ratio(angle) * drill_diameter) for angle in flatter)
    each = ((angle, min(drilled_depth.blind_ends(thread, hole, point))[0]) for angle, point in points)
    return tight_bottom.Ends(deepest, tuple(each))


def _through_thread_fits(thread: Thread, hole: Hole, depth: Decimal) -> None:
    if hole.thickness is not None and depth > hole.thickness.to(thread.unit):
        raise HoleError(
            "thread_deeper_than_hole",
            f"{_say(depth, thread)} of full thread do not fit in the wall",
            pointer="/hole/full_thread_depth",
        )


def build(
    thread: Thread,
    hole: Hole,
    *,
    space: tight_bottom.Room,
    drill_diameter: Decimal,
    hole_diameter: Decimal,
    chamfer: TapChamfer | None,
    clearance: Decimal,
    major_diameter: Decimal,
) -> Depths:
    """Depths of the hole for the tap that cuts last.

    Args: ``space`` from :func:`room`; ``drill_diameter`` and ``hole_diameter``, which a reamer or a boring bar may have
        made; ``chamfer`` of the last tap, None for a tool without one; ``clearance`` below it; ``major_diameter`` the
        smallest to be made (it sets the countersink); lengths in the thread's unit.
    Raises: HoleError ``drill_depth_limit_too_shallow`` when the last chamfer has no room.
    Source: common practice for the build-up; DIN 76-1 (from memory) and FED-STD-H28/2B 5.6.2 for the countersink.
    """
    chamfer_length = Decimal(0) if chamfer is None else chamfer.threads_max * thread.pitch
    planned, clearance = clearance, tight_bottom.left_under(thread, space, chamfer_length, planned=clearance)
    point = point_ratio(hole.point_angle_deg) * drill_diameter
    rule = run_out.extra_depth(thread, hole, space.full_thread_depth) if hole.kind == "blind" else None
    below = chamfer_length + clearance if rule is None else rule
    if space.ends is not None and space.full_thread_depth + below > space.ends.deepest:
        relief = _relief(thread, chamfer_length, major_diameter=major_diameter)
        raise tight_bottom.too_shallow(thread, space, chamfer, below=below, point=point, relief=relief)
    if hole.kind == "blind":
        drill_depth = drilled_depth.stated_depth(thread, hole, needed=space.full_thread_depth + below, point=point)
        breakthrough = None
    else:
        drill_depth = hole.thickness.to(thread.unit) if hole.thickness is not None else space.full_thread_depth
        breakthrough = point + clearance
    entry = countersink.at_entry(thread, hole, major_diameter=major_diameter, hole_diameter=hole_diameter)
    found = _assemble(
        thread,
        hole,
        full=space.full_thread_depth - entry.taken,
        drill_depth=drill_depth,
        point=point,
        breakthrough=breakthrough,
        chamfer_length=chamfer_length,
        clearance=clearance,
        entry=entry,
        relief=_relief(thread, chamfer_length, major_diameter=major_diameter)
        if chamfer and chamfer.name == "bottoming"
        else None,
    )
    asked = _questions(thread, hole, space, found, chamfer=chamfer, planned=planned, drill_diameter=drill_diameter)
    asked = (*entry.decisions, *asked)
    return replace(found, notes=found.notes._replace(decisions=(*found.notes.decisions, *asked))) if asked else found


def _questions(
    thread: Thread,
    hole: Hole,
    space: tight_bottom.Room,
    found: Depths,
    *,
    chamfer: TapChamfer | None,
    planned: Decimal,
    drill_diameter: Decimal,
) -> tuple[Decision, ...]:
    """A thin wall under the tip; a hole that leaves room for a bottoming tap only."""
    asked: list[Decision] = []
    if found.wall_left is not None and found.wall_left < thread.pitch:
        point = found.drill_tip_depth - found.drill_depth
        flatter = (
            (angle, found.wall_left + point - point_ratio(angle) * drill_diameter)
            for angle in tight_bottom.flatter_points(hole.point_angle_deg)
        )
        asked.append(tight_bottom.thin_wall(thread, hole, found.wall_left, tuple(flatter)))
    if chamfer is None or space.ends is None or space.clearance is None or hole.run_out != "chamfer":
        return tuple(asked)
    tapped = tight_bottom.question(
        thread,
        space.full_thread_depth,
        space.ends,
        chamfer=chamfer,
        left=space.clearance,
        planned=planned,
        pointer=space.limit_pointer,
    )
    return tuple(asked) if tapped is None else (*asked, tapped)


def _relief(thread: Thread, chamfer_length: Decimal, *, major_diameter: Decimal) -> str:
    """The groove in which a thread may end instead of in half-cut turns (common practice)."""
    length = chamfer_length + _RELIEF_PITCHES * thread.pitch
    return (
        f"end the thread in a relief groove at least {_say(length, thread)} long and wider than"
        f" {_say(major_diameter, thread)} where the screw must run home"
    )


def _assemble(
    thread: Thread,
    hole: Hole,
    *,
    full: Decimal,
    drill_depth: Decimal,
    point: Decimal,
    breakthrough: Decimal | None,
    chamfer_length: Decimal,
    clearance: Decimal,
    entry: Countersink,
    relief: str | None,
) -> Depths:
    places = _PLACES[thread.unit]
    tip = drill_depth + (point if breakthrough is None else breakthrough)
    travel = _travel(hole, full=full, drill_depth=drill_depth, chamfer_length=chamfer_length, clearance=clearance)
    wall = hole.thickness.to(thread.unit) - tip if hole.kind == "blind" and hole.thickness is not None else None
    return Depths(
        drill_depth=half_even(drill_depth, places),
        drill_tip_depth=half_even(tip, places),
        full_thread_depth=full,
        tap_travel=half_even(travel, places),
        chamfer_length=half_even(chamfer_length, places),
        countersink_diameter=half_even(entry.diameter, places),
        countersink_angle_deg=countersink.angle(thread, hole),
        breakthrough=None if breakthrough is None else upward(breakthrough, places),
        wall_left=None if wall is None else half_even(wall, places),
        notes=Notes(
            assumptions=_assumptions(hole),
            cautions=_cautions(hole, thread, wall=wall, short=full + chamfer_length - travel, relief=relief)
            + entry.cautions,
            sources=_sources(hole, thread),
            steps=WhenAsked(
                partial(
                    depth_derivation.straight,
                    thread,
                    hole,
                    full=full,
                    travel=travel,
                    drill_depth=drill_depth,
                    tip=tip,
                    chamfer_length=chamfer_length,
                    clearance=clearance,
                )
            ),
        ),
    )


def _travel(hole: Hole, *, full: Decimal, drill_depth: Decimal, chamfer_length: Decimal, clearance: Decimal) -> Decimal:
    """How far the tap's tip goes: past the full thread by its chamfer, but never to the bottom of a blind hole."""
    if hole.kind != "blind":
        return drill_depth + chamfer_length + clearance
    return min(full + chamfer_length, max(full, drill_depth - clearance))


def _assumptions(hole: Hole) -> tuple[str, ...]:
    said = ["depths are counted from the entry face; the longest chamfer of the tap's range is planned"]
    if hole.kind == "blind":
        said.append("drill_depth is the depth of full drill diameter; the point is below it")
    return tuple(said)


def _sources(hole: Hole, thread: Thread) -> tuple[Source, ...]:
    build_up = _BUILD_UP if hole.run_out == "chamfer" else run_out.source(hole)
    return build_up, POINT, countersink.SOURCES[thread.unit]


def _cautions(
    hole: Hole, thread: Thread, *, wall: Decimal | None, short: Decimal, relief: str | None
) -> tuple[Caution, ...]:
    """A thin wall, threads that stay half cut: ``short`` is the full thread that the tap's chamfer cannot make."""
    if hole.kind != "blind":
        return ()
    found = []
    or_relief = "" if relief is None else f", or {relief}"
    if short > 0:
        text = (
            "the run-out of the rule asked for is shorter than chamfer and clearance of the tap: the last"
            f" {_say(short, thread)} of thread are not full; drill deeper, shorten the thread{or_relief}"
        )
        found.append(Caution("run_out_short", text))
    elif relief is not None:
        text = f"the last turns stay half cut even behind a bottoming tap: {relief}, or mill the thread"
        found.append(Caution("thread_relief", text))
    return tuple(found)


def thin_wall(wall: Decimal, thread: Thread) -> Caution:
    """The caution of a wall under the drill tip, in the thread's unit, of less than a pitch."""
    text = f"only {_say(wall, thread)} of wall stay under the drill tip: the point may break through"
    return Caution("thin_wall", text)


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
