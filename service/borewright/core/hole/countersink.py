"""The countersink at the faces of a hole, and what it leaves of the thread in thin sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Caution, Hole, Source, Thread
from borewright.core.practice import figure, sizes
from borewright.core.quantity_text import length

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


@dataclass(frozen=True, slots=True)
class Countersink:
    """Diameter at the face, and the wall that is taken at each face where that counts, in the thread's unit."""

    diameter: Decimal
    taken: Decimal = Decimal(0)
    cautions: tuple[Caution, ...] = ()


def angle(thread: Thread) -> Decimal:
    """Included angle at the entry of ``thread`` in degrees: an insert's own, else the usual one of its unit.

    Source: NASM33537 (second hand) for an insert; practice table.
    """
    own = thread.extra.get("insert", {}).get("countersink_angle")
    return own if isinstance(own, Decimal) else _ANGLE[thread.unit]


def at_entry(thread: Thread, hole: Hole, *, major_diameter: Decimal, hole_diameter: Decimal) -> Countersink:
    """The usual countersink of ``thread`` in ``hole``, or in thin sheet no more than a broken edge at each face.

    Args: smallest ``major_diameter`` to be made and ``hole_diameter``, in the thread's unit.
    Source: geometry; shares of the wall from way_of_making (common practice).
    """
    diameter = _RATIO * major_diameter
    if hole.kind != "through" or hole.thickness is None or hole.full_thread_depth is not None:
        return Countersink(diameter)
    wall, slope = hole.thickness.to(thread.unit), Decimal(repr(2 * math.tan(math.radians(float(angle(thread)) / 2))))
    usual = (diameter - hole_diameter) / slope
    if usual <= _COUNTERSINK_SHARE * wall:
        return Countersink(diameter)
    taken = _EDGE_BREAK_SHARE * wall
    text = (
        f"A countersink to the major diameter would take {length(usual, thread.unit, 3)} of the"
        f" {length(wall, thread.unit)} wall at each face: only break the edges, {length(taken, thread.unit)} at each"
        f" face, which leaves {length(wall - 2 * taken, thread.unit)} of full thread."
    )
    return Countersink(hole_diameter + taken * slope, taken, (Caution("countersink_limited", text),))
