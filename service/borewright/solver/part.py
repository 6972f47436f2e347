"""The solver of the plan of a part: by the objective of its request."""

from __future__ import annotations

from collections.abc import Sequence

from borewright.core.part.model import PartRequest
from borewright.core.part.selection import Row, Selection

from .fewest_tools import fewest_tools, least_time

#: Seconds that it may take for each stage of each group of holes; then the best choice so far is given with its bound.
SECONDS = 2.0


def solved(rows: Sequence[Row], request: PartRequest) -> Selection:
    """The best choice for rows of holes, with what was proved of it."""
    if request.objective == "least_time":
        return least_time(rows, tool_change_s=request.times.tool_change_s, limit_s=SECONDS)
    return fewest_tools(rows, limit_s=SECONDS)
