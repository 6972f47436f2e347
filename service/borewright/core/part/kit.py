"""What is laid out for a part beside its cutting tools: gauges, fluids, masks and inserts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from borewright.core.plan.specification import Specification

from .model import Kit, PartTool, PlannedHole
from .spare_taps import spare_taps
from .used_tools import AT_THE_SPINDLE


def kit(planned: Iterable[PlannedHole], tools: Iterable[PartTool], lot_size: int) -> Kit:
    """Each gauge, fluid and further thing that the holes ``planned`` with ``tools`` need once, in the order in which
    they are needed, and spare taps for a lot of ``lot_size`` parts.

    A gauge belongs to thread, class and state of the part: one for before a finish does not stand for one after it.

    Source: the operations of the holes.
    """
    planned, tools = tuple(planned), tuple(tools)
    lines = [
        operation.line
        for one in planned
        for operation in one.specification.operations
        if operation.line.operation not in AT_THE_SPINDLE
    ]
    gauges = dict.fromkeys(line.text for line in lines if line.operation == "inspect")
    other = dict.fromkeys(line.text for line in lines if line.operation in ("mask", "install_insert", "break_off_tang"))
    fluids = dict.fromkeys(fluid for one in planned for fluid in _fluids(one.specification))
    return Kit(
        tuple(tool.name for tool in tools),
        tuple(gauges),
        tuple(fluids),
        (*other, *spare_taps(planned, tools, lot_size)),
    )


def _fluids(specification: Specification) -> Iterator[str]:
    cutting = specification.process.cutting
    if cutting is not None and cutting.fluid is not None:
        yield f"drilling: {cutting.fluid.drilling}"
        yield f"tapping: {cutting.fluid.tapping}"
