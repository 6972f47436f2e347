"""Speed, feed and time of spot drill, countersink and reamer, from the cutting data of the drill."""

from __future__ import annotations

from math import floor, radians, tan
from typing import NamedTuple

from borewright import tables
from borewright.core.caches import read_once

from .records import DrillCut, Peck

#: Pecks whose depths are told one by one; more are told by their step.
_TOLD_PECKS = 3


class OtherCut(NamedTuple):
    """Cutting data of an operation beside drilling."""

    spindle_speed_rpm: int
    feed_mm_rev: float
    time_s: float


def other_cut(operation: str, drilling: DrillCut, *, drill_mm: float, tool_mm: float, depth_mm: float) -> OtherCut:
    """Cutting data of ``operation``, a ``spot_drill``, ``countersink`` or ``ream``; never more turns than the drill's.

    Args: ``drilling`` data of the drill of ``drill_mm``; ``tool_mm`` across the tool at its widest, ``depth_mm`` that
        it goes.

    Source: common practice (other_operations table); time is travel over feed rate.
    """
    speed_share, feed_share = _shares()[operation]
    turns = drilling.spindle_speed_rpm * min(speed_share * drill_mm / tool_mm, 1.0)
    speed_rpm, feed_mm_rev = max(floor(turns), 1), drilling.feed_mm_rev * feed_share
    return OtherCut(speed_rpm, feed_mm_rev, 60 * depth_mm / (feed_mm_rev * speed_rpm))


def cone_depth(*, wide_mm: float, narrow_mm: float, angle_deg: float) -> float:
    """Depth in mm of a cone of ``angle_deg`` from ``wide_mm`` to ``narrow_mm`` across (0 = to the point).

    Source: geometry.
    """
    return max(wide_mm - narrow_mm, 0.0) / 2 / tan(radians(angle_deg / 2))


def peck_depths(peck: Peck, *, to_mm: float) -> tuple[float, ...] | None:
    """Depths in mm at which each peck ends, the last at ``to_mm``; None in one go and where they are too many to tell.

    Source: geometry of the peck advice.
    """
    if peck.first_mm is None or peck.next_mm is None or peck.count > _TOLD_PECKS:
        return None
    return (*(peck.first_mm + number * peck.next_mm for number in range(peck.count - 1)), to_mm)


@read_once
def _shares() -> dict[str, tuple[float, float]]:
    rows = tables.load("other_operations").rows
    return {row["operation"]: (float(row["speed_share"]), float(row["feed_share"])) for row in rows}
