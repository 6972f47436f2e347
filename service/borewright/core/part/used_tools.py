"""The tools of one hole in the order in which they are used.

Whether two holes share a tool is decided by its name: everything that makes it another tool to buy or to set stands in
it (thread, limit, style, chamfer and coat of a tap; size, point and length of a drill).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import NamedTuple

from borewright.core.model import Unit
from borewright.core.model.holes import USUAL_POINT_DEG
from borewright.core.plan.operation import Line
from borewright.core.plan.specification import Specification
from borewright.core.quantity_text import length
from borewright.core.rounding import plain

#: Operations with a tool that is set in the machine.
AT_THE_SPINDLE = frozenset({
    "spot_drill", "pilot_drill", "drill", "redrill", "ream", "bore", "counterbore", "countersink", "tap", "thread_mill",
    "single_point_thread",
})  # fmt: skip
#: The surface of a tap that is not named on a list: the plain one.
_BRIGHT = "bright"
#: Lengths and shanks that need no naming: the tool is the one that is sold as such.
_ORDINARY = frozenset({None, "jobber", "standard"})
#: Operations for which the part leaves the machine: what follows them is another set-up.
AWAY_FROM_THE_MACHINE = frozenset({"finish", "harden", "mask", "strip", "stress_relief", "bake", "turn_over"})


class UsedTool(NamedTuple):
    """A tool where it is used: name, operation line, and in which set-up (0 = the first)."""

    name: str
    line: Line
    stage: int


def used_tools(specification: Specification) -> tuple[UsedTool, ...]:
    """The tools of a hole, in order.

    Source: the operations of the specification.
    """
    return tuple(_used(specification))


def _used(specification: Specification) -> Iterator[UsedTool]:
    for stage, line, is_at_spindle in staged(specification):
        if is_at_spindle:
            yield UsedTool(tool_name(line.operation, line.tool, specification.thread.unit), line, stage)


def staged(specification: Specification) -> Iterator[tuple[int, Line, bool]]:
    """The operations of ``specification`` in order: the set-up of each (0 = the first), its line, and whether a tool in
    the spindle does it. One that takes the part off the machine belongs to the set-up that it follows.

    Source: the operations of the specification.
    """
    stage, left = 0, False
    for operation in specification.operations:
        line = operation.line
        is_at_spindle = line.operation in AT_THE_SPINDLE
        if is_at_spindle:
            stage, left = stage + left, False
        left = left or line.operation in AWAY_FROM_THE_MACHINE
        yield stage, line, is_at_spindle


def tool_name(operation: str, tool: Mapping[str, object], unit: Unit) -> str:
    """What a tool is called on the list of tools of a part.

    Args: ``tool`` as an operation names it, lengths in ``unit``.
    Source: the operations of the specification.
    """
    if operation in ("drill", "pilot_drill"):
        name = f"{tool['label']} {tool['kind']}"
        point = tool.get("point_angle", USUAL_POINT_DEG)
        name += "" if point == USUAL_POINT_DEG or not isinstance(point, Decimal) else f", {plain(point)} degree point"
    elif operation == "tap":
        name = f"{tool['marking']}, {_words(tool['style'])}"
        name += "" if tool["chamfer"] == tool["style"] else f", {str(tool['chamfer']).replace('_', '-')}"  # taper pipe
        name += "" if tool["surface"] == _BRIGHT else f", {_words(tool['surface'])}"
    elif operation in ("spot_drill", "countersink"):
        name = f"{tool['kind']}, {plain(_decimal(tool['included_angle']))} degree"
    else:
        parts = (_shown(key, value, unit) for key, value in tool.items() if key != "kind" and value is not None)
        name = ", ".join((str(tool["kind"]), *parts))
    if operation not in ("drill", "tap"):
        return name
    more = (_words(tool[key]) for key in ("length", "shank") if tool.get(key) not in _ORDINARY)
    return ", ".join((name, *more))


def _decimal(value: object) -> Decimal:
    if not isinstance(value, Decimal):
        raise TypeError(f"{value!r} is no figure of a tool")
    return value


def _words(value: object) -> str:
    return str(value).replace("_", " ")


def _shown(key: str, value: object, unit: Unit) -> str:
    if not isinstance(value, Decimal):
        return _words(value)
    return f"{plain(value)} degree" if key.endswith("angle") else length(value, unit)
