"""What the plan of a part changes in a hole, and what that costs it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import isclose

from borewright.core.plan.specification import Specification

from .model import Change, PlannedHole
from .tools_of_hole import UsedTool, used_tools


def changes(planned: Iterable[PlannedHole], own: Mapping[str, Specification]) -> tuple[Change, ...]:
    """Every hole ``planned`` that does not keep its ``own`` tools, those which it has by itself.

    Source: difference of two specifications of the same hole.
    """
    return tuple(change for one in planned for change in _of_hole(one, own[one.hole.name], planned))


def _of_hole(one: PlannedHole, own: Specification, planned: Iterable[PlannedHole]) -> Iterator[Change]:
    if own is one.specification:
        return
    before = {used.line.operation: used for used in used_tools(own)}
    pairs = [
        (before[used.line.operation], used)
        for used in used_tools(one.specification)
        if used.line.operation in before and before[used.line.operation].name != used.name
    ]
    now = one.specification
    yield Change(
        hole=one.hole.name,
        before=tuple(was.name for was, _ in pairs),
        after=tuple(used.name for _, used in pairs),
        why=_why(one, [used for _, used in pairs], planned),
        percent_thread=_difference(_percent(now), _percent(own)),
        acceptance=_difference(now.process.acceptance.both, own.process.acceptance.both),
        torque_n_m=_difference(_torque(now), _torque(own)),
    )


def _why(one: PlannedHole, changed: Iterable[UsedTool], planned: Iterable[PlannedHole]) -> str:
    """Which other holes the new tools serve; without any, the least acceptance asked for the change."""
    said = []
    for used in changed:
        others = [
            other.hole.name
            for other in planned
            if other is not one and used.name in {tool.name for tool in used_tools(other.specification)}
        ]
        if others:
            said.append(f"{used.name} serves {', '.join(others)} too")
    return "; ".join(said) or "by itself it would stay below the least acceptance"


def _difference(now: float | None, before: float | None) -> float | None:
    if now is None or before is None:
        return None
    return 0.0 if isclose(now, before, rel_tol=1e-9) else now - before


def _percent(specification: Specification) -> float | None:
    if specification.drill is None:
        return None
    best = specification.drill.recommended
    percent = best.percent_thread if best.expected_percent_thread is None else best.expected_percent_thread
    return float(percent)


def _torque(specification: Specification) -> float | None:
    cutting = specification.process.cutting
    tap = None if cutting is None else cutting.tap
    return None if tap is None or tap.torque is None else tap.torque.value
