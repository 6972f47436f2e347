"""The countersink at the faces of a hole, and what it leaves of the thread in thin sheet."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import NamedTuple

from borewright.core.errors import HoleError
from borewright.core.model import Caution, Hole, Source, Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import figure, sizes
from borewright.core.quantity_text import length
from borewright.core.rounding import plain

from . import counterbore

#: Entry countersink over the major diameter, and its included angle in degrees.
_RATIO, _ANGLE = figure("countersink_ratio"), sizes("countersink_angle")
#: Shares of the wall at each face: the most that a countersink may take, and a broken edge.
_COUNTERSINK_SHARE, _EDGE_BREAK_SHARE = figure("countersink_share"), figure("edge_break_share")

SOURCES = {
    "in": Source(
        "countersink_diameter",
        "FED-STD-H28/2B",
        "1991",
        f"5.6.2 (90 to 120 degrees, to the major diameter or slightly more); {_RATIO} D is common practice",
        "common_practice",
    ),
    "mm": Source(
        "countersink_diameter",
        "DIN 76-1",
        "",
        f"internal countersink 1 D to {_RATIO} D, {_ANGLE['mm']} degrees",
        "from_memory",
    ),
}


class Countersink(NamedTuple):
    """Diameter at the face, and the wall that it takes in all where that counts, in the thread's unit."""

    diameter: Decimal
    taken: Decimal = Decimal(0)
    cautions: tuple[Caution, ...] = ()
    decisions: tuple[Decision, ...] = ()


def angle(thread: Thread, hole: Hole) -> Decimal:
    """Included angle at the entry of ``thread`` in degrees: that stated for ``hole``, an insert's own, else the usual
    one of its unit.

    Source: NASM33537 (second hand) for an insert; practice table.
    """
    if hole.countersink is not None and hole.countersink.angle_deg is not None:
        return hole.countersink.angle_deg
    own = thread.extra.get("insert", {}).get("countersink_angle")
    return own if isinstance(own, Decimal) else _ANGLE[thread.unit]


def at_entry(thread: Thread, hole: Hole, *, major_diameter: Decimal, hole_diameter: Decimal) -> Countersink:
    """The countersink stated for ``thread`` in ``hole``, else the usual one, or in thin sheet no more than a broken
    edge at each face.

    Args: smallest ``major_diameter`` to be made and ``hole_diameter``, in the thread's unit.
    Raises: HoleError ``countersink_does_not_fit``.
    Source: geometry; shares of the wall from way_of_making (common practice).
    """
    slope = Decimal(repr(2 * math.tan(math.radians(float(angle(thread, hole)) / 2))))
    if hole.countersink is not None and hole.countersink.diameter is not None:
        return _stated(thread, hole, hole.countersink.diameter.to(thread.unit), hole_diameter, slope)
    diameter = _RATIO * major_diameter
    if hole.counterbore is not None:  # at its floor, inside it
        diameter = min(diameter, hole.counterbore.diameter.to(thread.unit))
    if hole.kind != "through" or hole.thickness is None or hole.full_thread_depth is not None:
        return Countersink(diameter)
    wall = hole.thickness.to(thread.unit) - counterbore.floor(thread, hole)
    usual = (diameter - hole_diameter) / slope
    if usual <= _COUNTERSINK_SHARE * wall:
        return Countersink(diameter)
    taken = _EDGE_BREAK_SHARE * wall
    text = (
        f"A countersink to the major diameter would take {length(usual, thread.unit, 3)} of the"
        f" {length(wall, thread.unit)} wall at each face: only break the edges, {length(taken, thread.unit)} at each"
        f" face, which leaves {length(wall - 2 * taken, thread.unit)} of full thread."
    )
    return Countersink(hole_diameter + taken * slope, 2 * taken, (Caution("countersink_limited", text),))


def _stated(thread: Thread, hole: Hole, diameter: Decimal, hole_diameter: Decimal, slope: Decimal) -> Countersink:
    """The countersink of the drawing, and the question where it takes much of a wall that is threaded through."""
    _fits(thread, hole, diameter, hole_diameter)
    if hole.kind != "through" or hole.thickness is None or hole.full_thread_depth is not None:
        return Countersink(diameter)
    wall, deep = hole.thickness.to(thread.unit) - counterbore.floor(thread, hole), (diameter - hole_diameter) / slope
    if deep <= _COUNTERSINK_SHARE * wall:
        return Countersink(diameter)
    both = hole.countersink is not None and hole.countersink.sides == "both"
    taken = deep * (2 if both else 1)
    if taken > wall - thread.pitch:
        raise HoleError(
            "countersink_does_not_fit",
            "the countersink leaves less than a pitch of thread in the wall",
            pointer="/hole/countersink/diameter",
            allowed=(f"at most {length(hole_diameter + _COUNTERSINK_SHARE * wall * slope, thread.unit, 3)}",),
        )
    text = (
        f"The countersink of the drawing, {length(diameter, thread.unit)} at {plain(angle(thread, hole))} degrees, is"
        f" {length(deep, thread.unit, 3)} deep{' on each side' if both else ''} in a wall of"
        f" {length(wall, thread.unit)}: {length(wall - taken, thread.unit, 3)} of full thread are left."
        " Decide: keep it, or only break the edges."
    )
    return Countersink(diameter, taken, (), (Decision("countersink_deep", text, "/hole/countersink/diameter"),))


def _fits(thread: Thread, hole: Hole, diameter: Decimal, hole_diameter: Decimal) -> None:
    bore = None if hole.counterbore is None else hole.counterbore.diameter.to(thread.unit)
    if diameter > hole_diameter and (bore is None or diameter <= bore):
        return
    least = f"more than {length(hole_diameter, thread.unit)}"
    raise HoleError(
        "countersink_does_not_fit",
        f"a countersink is wider than the drilled hole, {length(hole_diameter, thread.unit)}"
        + ("" if bore is None else f", and lies inside its counterbore of {length(bore, thread.unit)}"),
        pointer="/hole/countersink/diameter",
        allowed=(least,) if bore is None else (least, f"at most {length(bore, thread.unit)}"),
    )
