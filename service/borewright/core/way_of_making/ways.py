"""How a thread is made, as decided before its tools are chosen."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.core.model import Material, Notes, Source

#: What cuts the thread.
Threading = Literal["tap", "thread_mill", "single_point"]


class MakingQuestion(NamedTuple):
    """What the decision looks at. Lengths in the thread's unit.

    ``depth`` of full thread asked for; ``wall`` of a through hole, None for a blind one; ``has_tap``: a tap for the
    thread stands in the crib; ``percent`` of thread as asked for.
    """

    material: Material | None
    depth: Decimal
    wall: Decimal | None
    has_tap: bool = False
    percent: Decimal | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """How the thread is made. ``threading`` None: in no way that holds the drawing.

    ``material`` is the part in the state in which it is cut, ``harden_to`` what it is hardened to afterwards.
    """

    threading: Threading | None
    material: Material | None
    harden_to: str | None = None
    notes: Notes = field(default_factory=Notes)

    @property
    def tapped(self) -> bool:
        """Whether a tap makes the thread."""
        return self.threading == "tap"


def threshold_source(field: str, threshold: str) -> Source:
    """The source of a decision about ``field`` that hangs on a threshold of the way_of_making table.

    Source: the table's own head.
    """
    return Source(field, "shop practice", "", f"way_of_making: {threshold}", "common_practice")
