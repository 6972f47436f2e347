"""The solver of the plan of a part: by the objective of its request."""

from __future__ import annotations

from collections.abc import Sequence

from borewright.core.part.model import PartRequest
from borewright.core.part.selection import Row, Selection
from borewright.core.time_left import UNBOUNDED, TimeLeft

from .fewest_tools import Work, fewest_tools, least_time

#: Seconds of processor time for each so many kinds of holes, up to the most; then the best choice so far is given with
#: its bounds.
SECONDS, KINDS, MOST_SECONDS = 2.0, 400, 10.0


class PartSolver:
    """What chooses the candidates for the rows of one part, however often it is asked, in the time that is left."""

    def __init__(self, left: TimeLeft = UNBOUNDED) -> None:
        self._left = left
        self._work: Work | None = None

    def __call__(self, rows: Sequence[Row], request: PartRequest) -> Selection:
        """The best choice for ``rows`` by the objective of ``request``, with what was proved of it."""
        if self._work is None:
            wanted_s = min(MOST_SECONDS, SECONDS * max(1.0, len(rows) / KINDS))
            self._work = Work(min(wanted_s, self._left.left_s))
        if request.objective == "least_time":
            return least_time(rows, self._work, tool_change_s=request.times.tool_change_s)
        return fewest_tools(rows, self._work)
