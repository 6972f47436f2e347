"""The tools of one hole in the order in which they are used, and the other tools with which it could be made.

Whether two holes share a tool is decided by its name: everything that makes it another tool to buy or to set stands in
it (thread, limit, style, chamfer and coat of a tap; size, point and length of a drill).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple, TypeVar

from borewright.core.model import DrillCandidate, Tap, Unit
from borewright.core.model.holes import USUAL_POINT_DEG
from borewright.core.plan.operation import Line
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.quantity_text import length
from borewright.core.requests import HoleSpecRequest, Prescribed
from borewright.core.rounding import plain

from .selection import ToolSet, log_chance

#: Operations with a tool that is set in the machine.
AT_THE_SPINDLE = frozenset({
    "spot_drill", "pilot_drill", "drill", "redrill", "ream", "bore", "counterbore", "countersink", "tap", "thread_mill",
    "single_point_thread",
})  # fmt: skip
#: Operations for which the part leaves the machine: what follows them is another set-up.
AWAY_FROM_THE_MACHINE = frozenset({"finish", "harden", "mask", "strip", "stress_relief", "bake", "turn_over"})


#: What a changed tool costs beside acceptance, so that a hole keeps its own where another saves none and loses nothing;
#: of equals the one with the better chance.
_CHANGED_TOOL, _BETTER_CHANCE = 1e-6, 1e-8

_Tool = TypeVar("_Tool", DrillCandidate, Tap)


class UsedTool(NamedTuple):
    """A tool where it is used: name, operation line, and in which set-up (0 = the first)."""

    name: str
    line: Line
    stage: int


class Alternative(NamedTuple):
    """A way to make the hole: for the solver, and what has to be prescribed so that the hole is planned so."""

    candidate: ToolSet
    prescribed: Prescribed


def used_tools(specification: Specification) -> tuple[UsedTool, ...]:
    """The tools of a hole, in order.

    Source: the operations of the specification.
    """
    return tuple(_used(specification))


def _used(specification: Specification) -> Iterator[UsedTool]:
    stage, left = 0, False
    for operation in specification.operations:
        line = operation.line
        if line.operation in AWAY_FROM_THE_MACHINE:
            left = True
        elif line.operation in AT_THE_SPINDLE:
            stage, left = stage + left, False
            yield UsedTool(tool_name(line.operation, line.tool, specification.thread.unit), line, stage)


def alternatives(specification: Specification) -> tuple[Alternative, ...]:
    """The hole of ``specification`` as specified, then with each other drill and tap limit that hold its limits.

    The chance of acceptance of a pair is the product of those of drill and tap. A hole whose drill or tap has no known
    chance, or which is reamed, has the one way in which it is specified.
    """
    own = Alternative(ToolSet(_names(specification), _acceptance(specification), 0.0), Prescribed())
    drill, tap = specification.drill, specification.tap
    if drill is None or tap is None or drill.recommended.acceptance is None or tap.recommended.acceptance is None:
        return (own,)
    if drill.recommended.operation != "drill":
        return (own,)
    others = [] if specification.request.hole.drill else [one for one in drill.alternatives if _drilled(one)]
    drills = [drill.recommended, *_at_hand(others)]
    taps = [tap.recommended, *_at_hand([one for one in tap.alternatives if _like(tap.recommended, one)])]
    pairs = [(one, other) for one in drills for other in taps][1:]
    return (own, *(_alternative(specification, one, other) for one, other in pairs))


def timed(asked: HoleSpecRequest, ways: tuple[Alternative, ...]) -> tuple[Alternative, ...]:
    """The ways with the cutting time of the hole, which depends on the drill; 0 where no time is held.

    Args: ``asked`` the hole, without its own name.
    Source: the operations of the specification.
    """
    times = {
        drill: _time_s(specify(replace(asked, prescribed=Prescribed(drill))))
        for drill in dict.fromkeys(way.prescribed.drill for way in ways)
    }
    return tuple(way._replace(candidate=replace(way.candidate, time_s=times[way.prescribed.drill])) for way in ways)


def _time_s(specification: Specification) -> float:
    return sum(used.line.time_s or 0.0 for used in used_tools(specification))


def _alternative(specification: Specification, drill: DrillCandidate, tap: Tap) -> Alternative:
    chance = (drill.acceptance or 0.0) * (tap.acceptance or 0.0)
    limit = None if tap.limit is None else tap.limit.label
    names = _names(specification, drill=drill, tap=tap)
    lost = max(0.0, log_chance(_acceptance(specification)) - log_chance(chance))
    loss = lost + _CHANGED_TOOL * len(names - _names(specification)) - _BETTER_CHANCE * log_chance(chance)
    return Alternative(ToolSet(names, chance, loss), Prescribed(drill.drill.label, limit))


def _names(
    specification: Specification, *, drill: DrillCandidate | None = None, tap: Tap | None = None
) -> frozenset[str]:
    """Names of the tools of a hole, with another drill or tap in the place of its own."""
    unit = specification.thread.unit
    found = set()
    for used in used_tools(specification):
        changed: Mapping[str, object] = used.line.tool
        if used.line.operation == "drill" and drill is not None:
            changed = {**changed, "label": drill.drill.label}
        if used.line.operation == "tap" and tap is not None:
            changed = {**changed, "marking": tap.marking}
        found.add(tool_name(used.line.operation, changed, unit))
    return frozenset(found)


def _drilled(one: DrillCandidate) -> bool:
    return one.operation == "drill" and one.acceptance is not None and not one.special


def _like(first: Tap, one: Tap) -> bool:
    """Whether a tap differs by its limit only."""
    same = (one.style, one.chamfer, one.substrate, one.surface) == (
        first.style,
        first.chamfer,
        first.substrate,
        first.surface,
    )
    return same and one.acceptance is not None and one.availability == "standard" and one.limit is not None


def _at_hand(tools: list[_Tool]) -> list[_Tool]:
    """Those of the crib where the crib holds any that will do."""
    return [one for one in tools if one.in_stock] or tools


def _acceptance(specification: Specification) -> float:
    """Chance of acceptance; 1 where it is not known, so that the hole stays as it is."""
    both = specification.process.acceptance.both
    return 1.0 if both is None else both


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
        name = f"{tool['marking']}, {_words(tool['style'])}, {_words(tool['chamfer'])}"
    elif operation in ("spot_drill", "countersink"):
        name = f"{tool['kind']}, {plain(_decimal(tool['included_angle']))} degree"
    else:
        parts = (_shown(value, unit) for key, value in tool.items() if key != "kind" and value is not None)
        name = ", ".join((str(tool["kind"]), *parts))
    more = (_words(tool[key]) for key in ("length", "shank") if operation in ("drill", "tap") and tool.get(key))
    return ", ".join((name, *more))


def _decimal(value: object) -> Decimal:
    if not isinstance(value, Decimal):
        raise TypeError(f"{value!r} is no figure of a tool")
    return value


def _words(value: object) -> str:
    return str(value).replace("_", " ")


def _shown(value: object, unit: Unit) -> str:
    return length(value, unit) if isinstance(value, Decimal) else _words(value)
