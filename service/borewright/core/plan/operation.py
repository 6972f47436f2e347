"""The lines of a routing, and everything that they are written from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from borewright.core.cutting.records import CuttingData
from borewright.core.hole.reach import Reach
from borewright.core.model import Allowance, Depths, DrillChoice, Hole, Range, TapChoice, Thread
from borewright.core.way_of_making import Way


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """What is done with which tool. A Decimal in ``tool`` or ``parameters`` is a length in the thread's unit."""

    operation: str
    tool: Mapping[str, object]
    parameters: Mapping[str, object]
    text: str
    time_s: float | None = None

    def told(
        self,
        parameters: Mapping[str, object],
        text: str,
        *,
        tool: Mapping[str, object] | None = None,
        time_s: float | None = None,
    ) -> Line:
        """The same operation with these ``parameters`` and ``text``; another ``tool`` and ``time_s`` where given."""
        return type(self)(self.operation, tool or self.tool, parameters, text, time_s or self.time_s)


class Operation(NamedTuple):
    """One line of a routing with its number. Equal lines of two routings are mostly the same object."""

    sequence: int
    line: Line


class Plan(NamedTuple):
    """Everything the operations are written from. ``tapping`` is how the tap is driven, None where it is not stated.

    ``drill`` None: nothing can be planned; ``tap`` None: another tool makes the thread, or none does.
    """

    thread: Thread
    hole: Hole
    allowance: Allowance | None
    to_make: Range
    way: Way
    drill: DrillChoice | None
    tap: TapChoice | None
    depths: Depths
    cutting: CuttingData | None = None
    tapping: str | None = None
    reach: Reach | None = None
