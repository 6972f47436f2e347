"""How deep a blind hole is drilled at full diameter: what drawing and wall allow, and what the drawing states."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.errors import HoleError
from borewright.core.model import Hole, Thread, Unit
from borewright.core.quantity_text import length
from borewright.core.rounding import upward

_PLACES: dict[Unit, int] = {"in": 3, "mm": 2}


def blind_ends(thread: Thread, hole: Hole, point: Decimal) -> list[tuple[Decimal, str]]:
    """Deepest full drill diameter that drawing and wall of ``hole`` allow above the drill's ``point``, and by which
    field.

    Args: ``thread`` in whose unit the lengths are.
    """
    ends: list[tuple[Decimal, str]] = []
    if hole.drill_depth_limit is not None:
        ends.append((hole.drill_depth_limit.to(thread.unit), "/hole/drill_depth_limit"))
    if hole.drill_depth is not None:
        ends.append((hole.drill_depth.to(thread.unit), "/hole/drill_depth"))
    if hole.thickness is not None:
        ends.append((hole.thickness.to(thread.unit) - point, "/hole/thickness"))
    return ends


def stated_depth(thread: Thread, hole: Hole, *, needed: Decimal, point: Decimal) -> Decimal:
    """Depth of full drill diameter of a blind ``hole``: as the drawing states it, else as deep as is ``needed`` and at
    least as deep as it asks for, up to the next thousandth of an inch or hundredth of a millimetre where it may be; in
    the unit of ``thread``.

    Args: ``point`` of the drill, which a wall must leave room for.
    Raises: HoleError ``range_inconsistent`` for a least depth below the deepest.
    """
    if hole.drill_depth is not None:
        return hole.drill_depth.to(thread.unit)
    if hole.least_drill_depth is None:
        return needed
    least, ends = hole.least_drill_depth.to(thread.unit), blind_ends(thread, hole, point)
    if ends and least > min(ends)[0]:
        raise HoleError(
            "range_inconsistent",
            f"{_say(least, thread)} of full drill diameter are asked for, {_say(min(ends)[0], thread)} are allowed",
            pointer="/hole/least_drill_depth",
            allowed=(f"at most {_say(min(ends)[0], thread)}",),
        )
    planned = upward(least, _PLACES[thread.unit])
    return max(needed, min([planned, *(end for end, _ in ends)]))


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
