"""The counterbore or spotface at the entry of a hole: whether it fits, and what it leaves of the thread.

Depths count from the face around it, as the drawing's leader points there; the thread begins at its floor.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.errors import HoleError
from borewright.core.model import Caution, Hole, Notes, Thread, Unit
from borewright.core.quantity_text import length

_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}


def floor(thread: Thread, hole: Hole) -> Decimal:
    """Depth of the counterbore's floor below the face in the unit of ``thread``; 0 without one, and for a spotface of
    ``hole``, which only cleans up the face.
    """
    found = hole.counterbore
    return Decimal(0) if found is None or found.depth is None else found.depth.to(thread.unit)


def sizes(thread: Thread, hole: Hole) -> tuple[Decimal | None, Decimal | None]:
    """Diameter and depth of the counterbore of ``hole`` in the unit of ``thread``; None where there is none."""
    found = hole.counterbore
    if found is None:
        return None, None
    return found.diameter.to(thread.unit), None if found.depth is None else found.depth.to(thread.unit)


def check(thread: Thread, hole: Hole, full: Decimal) -> None:
    """Refuse a counterbore of ``hole`` that is no wider than its ``thread`` or leaves less than a pitch of it.

    Args: ``full`` thread depth from the face, in the thread's unit.
    Raises: HoleError ``counterbore_does_not_fit``.
    """
    if hole.counterbore is None:
        return
    widest, deepest = thread.basic.major_diameter, full - thread.pitch
    if hole.counterbore.diameter.to(thread.unit) <= widest:
        raise HoleError(
            "counterbore_does_not_fit",
            f"a counterbore is wider than its thread, whose major diameter is {_say(widest, thread)}",
            pointer="/hole/counterbore/diameter",
            allowed=(f"more than {_say(widest, thread)}",),
        )
    if floor(thread, hole) > deepest:
        raise HoleError(
            "counterbore_does_not_fit",
            f"the full thread ends {_say(full, thread)} below the face: the counterbore leaves less than a pitch of it."
            " Where the drawing counts the thread from the counterbore's floor, add its depth to full_thread_depth",
            pointer="/hole/counterbore/depth",
            allowed=(f"at most {_say(max(deepest, Decimal(0)), thread)}",),
        )


def notes(thread: Thread, hole: Hole, full: Decimal) -> Notes:
    """What must be known of the counterbore of ``hole``; nothing without one.

    Args: ``full`` thread depth from the face, in the unit of ``thread``.
    Source: common practice (drawings differ in where depths under a counterbore begin).
    """
    found = hole.counterbore
    if found is None:
        return Notes()
    if found.depth is None:
        return Notes(("a spotface without depth goes as deep as cleans up the face: no depth is reckoned for it",))
    deep = floor(thread, hole)
    text = (
        f"Depths count from the face around the counterbore: {_say(full - deep, thread)} of thread are below its floor."
        f" Where the drawing counts them from the floor, {_say(deep, thread)} are to be added to each."
    )
    return Notes(cautions=(Caution("counterbore_datum", text),))


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
