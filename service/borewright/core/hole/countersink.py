"""The countersink at the faces of a hole, and what it leaves of the thread in thin sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Caution, Hole, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import length

#: Shares of the wall at each face: the most that a countersink may take, and a broken edge.
_COUNTERSINK_SHARE, _EDGE_BREAK_SHARE = figure("countersink_share"), figure("edge_break_share")


@dataclass(frozen=True, slots=True)
class Countersink:
    """Diameter at the face, and the wall that is taken at each face where that counts, in the thread's unit."""

    diameter: Decimal
    taken: Decimal = Decimal(0)
    cautions: tuple[Caution, ...] = ()


def at_entry(
    thread: Thread, hole: Hole, diameter: Decimal, *, drill_diameter: Decimal, angle_deg: Decimal
) -> Countersink:
    """The usual countersink, or in thin sheet no more than a broken edge at each face.

    Args: ``diameter`` of the usual one; lengths in the thread's unit; ``angle_deg`` included.
    Source: geometry; shares of the wall from way_of_making (common practice).
    """
    if hole.kind != "through" or hole.thickness is None or hole.full_thread_depth is not None:
        return Countersink(diameter)
    wall, slope = hole.thickness.to(thread.unit), Decimal(repr(2 * math.tan(math.radians(float(angle_deg) / 2))))
    usual = (diameter - drill_diameter) / slope
    if usual <= _COUNTERSINK_SHARE * wall:
        return Countersink(diameter)
    taken = _EDGE_BREAK_SHARE * wall
    text = (
        f"A countersink to the major diameter would take {length(usual, thread.unit, 3)} of the"
        f" {length(wall, thread.unit)} wall at each face: only break the edges, {length(taken, thread.unit)} at each"
        f" face, which leaves {length(wall - 2 * taken, thread.unit)} of full thread."
    )
    return Countersink(drill_diameter + taken * slope, taken, (Caution("countersink_limited", text),))
