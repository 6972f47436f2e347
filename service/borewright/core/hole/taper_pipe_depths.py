"""Depths of a taper pipe hole: the tap runs until its gauge line is flush with the face, whatever the wall.

A deeper tap makes a larger thread, so the depth asked for never moves the tap. The hole must take the tap's travel
(projection + L1, or what the standard's useful thread asks for) and hold at least the hand-tight engagement.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.errors import HoleError
from borewright.core.model import Caution, Depths, Hole, Notes, Source, TapChamfer, Thread, Unit
from borewright.core.model.decision import Decision
from borewright.core.quantity_text import length
from borewright.core.rounding import half_even, upward
from borewright.core.standards.systems import traits

from . import counterbore, countersink, depth_derivation, depths, drilled_depth, taper_pipe

_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}
_TRAVEL_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}
#: What the length is called that a thread must have at least, and in full.
_NAMES = {
    "american": ("hand-tight engagement L1", "L1 + L3, with wrench make-up"),
    "iso": ("useful thread that ends in a relief or a through hole", "useful thread for the longest gauge length"),
}


def build(
    thread: Thread,
    hole: Hole,
    *,
    full: Decimal,
    drill_diameter: Decimal,
    chamfer: TapChamfer | None,
    clearance: Decimal,
    past: Decimal,
) -> Depths:
    """Depths of a taper hole.

    Args: ``full`` thread asked for; ``chamfer`` of the tap, None where the thread is milled to its depth; ``past`` is
        how far the tap runs past its gauge line; ``drill_diameter``; ``clearance`` below the chamfer; lengths in the
        thread's unit.
    Raises: HoleError ``thread_deeper_than_hole``, ``drill_depth_limit_too_shallow``.
    Source: the thread's standard for the lengths; ANSI/ASME B94.9 Table 24a for the travel of NPT and NPTF taps.
    """
    unit, places = thread.unit, _PLACES[thread.unit]
    floor = counterbore.floor(thread, hole)
    travel = full if chamfer is None else floor + taper_pipe.pipe_length(thread, "tap_travel") + past
    short, long = (0, 0) if chamfer is None else (chamfer.threads_min, chamfer.threads_max)
    point = depths.point_ratio(hole.point_angle_deg) * drill_diameter
    blind, wall = hole.kind == "blind", None if hole.thickness is None else hole.thickness.to(unit)
    drill_depth = wall if wall is not None and not blind else travel + clearance
    if blind:
        _fits(thread, hole, full=full, needed=drill_depth, clearance=clearance, point=point)
        drill_depth = drilled_depth.stated_depth(thread, hole, needed=drill_depth, point=point)
    below = point if blind else point + clearance
    left = wall - drill_depth - point if blind and wall is not None else None
    most, sure = travel - short * thread.pitch, travel - long * thread.pitch
    return Depths(
        drill_depth=half_even(drill_depth, places),
        drill_tip_depth=half_even(drill_depth + below, places),
        full_thread_depth=min(full, most),
        tap_travel=half_even(travel, _TRAVEL_PLACES[unit]),
        chamfer_length=half_even(long * thread.pitch, places),
        countersink_diameter=half_even(_at_face(thread, hole), places),
        countersink_angle_deg=countersink.angle(thread, hole),
        breakthrough=None if blind else upward(below, places),
        wall_left=None if left is None else half_even(left, places),
        notes=Notes(
            assumptions=_assumptions(thread, hole, full=full, drill_diameter=drill_diameter),
            cautions=_cautions(thread, hole, full=full - floor, sure=sure - floor, most=most - floor, wall=left),
            sources=(_travel_source(thread), depths.POINT, _face_source()),
            steps=depth_derivation.by_gauge_line(
                thread,
                hole,
                travel=travel,
                past=Decimal(0) if chamfer is None else past,
                chamfer_length=long * thread.pitch,
                drill_depth=drill_depth,
                below=below,
            ),
            decisions=_decisions(thread, hole, full=full - floor, most=most - floor),
        ),
    )


def _at_face(thread: Thread, hole: Hole) -> Decimal:
    """Smallest major diameter at the face, for a wider countersink would move the plane of the gauge; where the drawing
    states one, that.
    """
    if hole.countersink is not None and hole.countersink.diameter is not None:
        return hole.countersink.diameter.to(thread.unit)
    smallest = thread.internal.major_diameter.min
    assert smallest is not None
    return smallest


def _fits(thread: Thread, hole: Hole, *, full: Decimal, needed: Decimal, clearance: Decimal, point: Decimal) -> None:
    ends = drilled_depth.blind_ends(thread, hole, point)
    if not ends or min(ends)[0] >= needed:
        return
    deepest, pointer = min(ends)
    if full > deepest:
        raise HoleError(
            "thread_deeper_than_hole",
            f"{_say(full, thread)} of full thread do not fit in {_say(deepest, thread)} of full drill diameter",
            pointer="/hole/full_thread_depth",
        )
    raise HoleError(
        "drill_depth_limit_too_shallow",
        f"the tool that threads {thread.designation} runs {_say(needed - clearance, thread)} past the face and needs"
        f" {_say(needed, thread)} of full drill diameter; {_say(deepest, thread)} are allowed. Take a tap of short"
        " projection (special), mill the thread, or drill deeper",
        pointer=pointer,
        allowed=(f"at least {_say(needed + (point if pointer == '/hole/thickness' else 0), thread)}",),
    )


# --- what is said ------------------------------------------------------------------------------------


def _names(thread: Thread) -> tuple[str, str]:
    return _NAMES["iso" if traits(thread).taper_pipe == "iso" else "american"]


def _decisions(thread: Thread, hole: Hole, *, full: Decimal, most: Decimal) -> tuple[Decision, ...]:
    name, (least_name, useful_name) = thread.designation, _names(thread)
    least, useful = taper_pipe.least_thread(thread), taper_pipe.useful_thread(thread, kind="blind")
    pointer = "/hole/full_thread_depth" if hole.full_thread_depth is not None else "/hole/thickness"
    if full < least:
        what = "The wall" if pointer == "/hole/thickness" else "The full thread"
        text = (
            f"{what} of {_say(full, thread)} is less than the {_say(least, thread)} ({least_name}) that {name} needs:"
            f" the joint does not come up tight. Decide: {_say(useful, thread)} of thread ({useful_name}) in a deeper"
            " hole, thicker wall or boss, or a smaller pipe size."
        )
        return (Decision("pipe_thread_short", text, pointer),)
    if full > most:
        text = (
            f"{_say(full, thread)} of full thread are more than a tap at size can cut, about {_say(most, thread)}: run"
            f" deeper, it makes {name} too large for its plug. Decide: the standard's {_say(useful, thread)}"
            f" ({useful_name}), or another thread."
        )
        return (Decision("pipe_thread_deep", text, pointer),)
    return ()


def _cautions(
    thread: Thread, hole: Hole, *, full: Decimal, sure: Decimal, most: Decimal, wall: Decimal | None
) -> tuple[Caution, ...]:
    useful, found = taper_pipe.useful_thread(thread, kind=hole.kind), []
    if taper_pipe.least_thread(thread) <= full < useful:
        text = (
            f"{_say(full, thread)} of thread are less than {_say(useful, thread)} ({_names(thread)[1]}): the fitting"
            " may run out of thread when it is wrenched up."
        )
        found.append(Caution("pipe_makeup_short", text))
    if sure < full <= most:
        text = (
            f"The last {_say(full - sure, thread)} of full thread are full only behind a tap with a short chamfer; the"
            f" standard asks for {_say(useful, thread)}."
        )
        found.append(Caution("run_out_short", text))
    if wall is not None and wall < thread.pitch:
        found.append(depths.thin_wall(wall, thread))
    return tuple(found)


def _assumptions(thread: Thread, hole: Hole, *, full: Decimal, drill_diameter: Decimal) -> tuple[str, ...]:
    said = [
        "depths are counted from the entry face; the tap runs by its gauge line, whatever the depth or wall",
        "the countersink is no larger than the thread at the face, so that the face stays the plane of the gauge",
    ]
    if hole.run_out != "chamfer":
        said.append(f"run_out {hole.run_out} is not used: the size of a taper thread fixes the travel of its tap")
    crests = thread.extra["pipe"].get("straight_hole_full_crest_depth")
    of_chart = thread.extra["pipe"].get("straight_hole_drill_diameter") == drill_diameter
    if of_chart and isinstance(crests, Decimal) and crests < full:
        said.append(
            f"the straight hole leaves full crests to {_say(crests, thread)}, cut short below: taper ream 1 in 16 where"
            " they must be full all the way"
        )
    return tuple(said)


@read_once
def _face_source() -> Source:
    place = cite("npt_form").at("no larger than the thread at the face", "from_memory")
    return place.source("countersink_diameter")


def _travel_source(thread: Thread) -> Source:
    found = next(source for source in thread.notes.sources if source.field == "pipe.tap_travel")
    return Source("tap_travel", found.document, found.edition, found.locator, found.status)


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _TRAVEL_PLACES[thread.unit])
