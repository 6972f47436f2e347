"""The limits of a tapped hole by what they are for: what the tap must make, and what the finished part has."""

from __future__ import annotations

from typing import Literal, NamedTuple

from borewright.core import finishing
from borewright.core.model import Allowance, Diameters, Thread


class PurposeLimits(NamedTuple):
    """Limits in the thread's unit; ``gauge_now`` names the set that the inspector uses after tapping."""

    to_tap: Diameters
    finished: Diameters
    gauge_now: Literal["to_tap", "finished"]


def limits_by_purpose(thread: Thread, allowance: Allowance | None) -> PurposeLimits:
    """The limits of ``thread``, in its unit, with the finish ``allowance``; one tapped oversize after hot-dip zinc
    keeps its oversize limits when finished.

    Source: the thread's standard, or that of its finish.
    """
    to_tap = finishing.limits_to_make(thread, allowance)
    if allowance is not None and allowance.dimensions_apply == "before_finish":
        return PurposeLimits(to_tap, allowance.finished, "to_tap")
    finished = to_tap if allowance is not None and allowance.overtap is not None else thread.internal
    return PurposeLimits(to_tap, finished, "finished" if finished == to_tap else "to_tap")
