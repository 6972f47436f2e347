"""Between which steps a length of engagement lies: that, and not the length, is what remarks on a drill depend on."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from borewright.core.model import Thread

from .hole_limits import EngagementRange, range_of

#: Engagements in diameters below and above which shops drill for another percent of thread (common practice).
SHORT, LONG = Decimal("0.5"), Decimal("1.5")


class EngagementStep(NamedTuple):
    """All that the rules on drills look at: ``range`` of the hole limits (None = over 3 D), below 0.5 D, over 1.5 D."""

    range: EngagementRange | None
    is_short: bool
    is_long: bool


def engagement_step(thread: Thread, engagement: Decimal) -> EngagementStep:
    """The step of a length of engagement.

    Args: ``engagement`` in the thread's unit, above zero.
    Source: FED-STD-H28/2B (1991) 30.1; 0.5 D and 1.5 D are common practice.
    """
    diameter = thread.nominal_diameter
    return EngagementStep(range_of(thread, engagement), engagement < SHORT * diameter, engagement > LONG * diameter)
