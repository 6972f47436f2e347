"""The tools of a part with the holes that each serves."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Literal

from borewright.core.plan.specification import Specification

from .model import PartTool, PlannedHole
from .used_tools import UsedTool

#: In which order tools stand on the list and are loaded where nothing else decides.
RANK = {
    name: place
    for place, name in enumerate(
        ("spot_drill", "pilot_drill", "drill", "redrill", "ream", "bore", "counterbore", "countersink", "tap",
         "thread_mill", "single_point_thread")
    )
}  # fmt: skip


def tool_list(planned: Iterable[PlannedHole]) -> tuple[PartTool, ...]:
    """Every tool of the holes ``planned`` once, by kind and then by the number of holes that it serves.

    Source: the operations of the holes.
    """
    users: dict[str, list[PlannedHole]] = {}
    first: dict[str, tuple[UsedTool, Specification]] = {}
    for one in planned:
        for used in {used.name: used for used in one.used}.values():
            users.setdefault(used.name, []).append(one)
            first.setdefault(used.name, (used, one.specification))
    tools = (_tool(name, *first[name], holes) for name, holes in users.items())
    return tuple(sorted(tools, key=lambda tool: (RANK[tool.kind], -tool.count, tool.name)))


def _tool(name: str, used: UsedTool, specification: Specification, holes: list[PlannedHole]) -> PartTool:
    in_stock, availability = _stocked(used, specification)
    details = {
        key: value
        for key, value in used.line.tool.items()
        if value is not None and (key.endswith("angle") or not isinstance(value, Decimal))
    }
    drill = specification.drill
    diameter = float(drill.recommended.drill.diameter_mm) if drill and used.line.operation == "drill" else None
    return PartTool(
        name,
        used.line.operation,
        details,
        diameter,
        tuple(one.hole.name for one in holes),
        sum(one.hole.count for one in holes),
        in_stock,
        availability,
    )


def _stocked(used: UsedTool, specification: Specification) -> tuple[bool | None, Literal["standard", "special"]]:
    """Whether the crib holds the tool (None = not told or not asked of it), and whether it is sold."""
    if used.line.operation == "drill" and specification.drill is not None:
        drill = specification.drill.recommended
        return drill.in_stock, "special" if drill.special else "standard"
    if used.line.operation == "tap" and specification.tap is not None:
        tap = specification.tap.recommended
        return tap.in_stock, tap.availability
    return None, "standard"
