"""The solver of the plan of a part: by the objective of its request."""

from __future__ import annotations

from collections.abc import Sequence

from borewright.core.part.model import PartRequest
from borewright.core.part.selection import Row, Selection
from borewright.core.time_left import UNBOUNDED, TimeLeft

from .fewest_tools import fewest_tools, least_time

#: Seconds that it may take for each stage of each group of holes; then the best choice so far is given with its bound.
SECONDS = 2.0


def solved(rows: Sequence[Row], request: PartRequest, work: TimeLeft = UNBOUNDED) -> Selection:
    """The best choice for rows of holes, with what was proved of it, in the time that ``work`` leaves."""
    limit_s = min(SECONDS, work.left_s)
    if request.objective == "least_time":
        return least_time(rows, tool_change_s=request.times.tool_change_s, limit_s=limit_s)
    return fewest_tools(rows, limit_s=limit_s)
