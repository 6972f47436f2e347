"""What the plan of a part changes in a hole, and what that costs it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import isclose

from borewright.core.plan.specification import Specification

from .model import Change, PlannedHole
from .part_notes import percent

#: Holes that are named where a tool serves many.
_MOST_NAMED = 12


def changes(planned: Iterable[PlannedHole], own: Mapping[str, PlannedHole], least_chance: float) -> tuple[Change, ...]:
    """Every hole ``planned`` that does not keep its ``own`` tools, those which it has by itself.

    Args: ``least_chance`` of acceptance that the plan keeps, 0 to 1.
    Source: difference of two specifications of the same hole.
    """
    planned = tuple(planned)
    served: dict[str, list[str]] = {}
    for one in planned:
        for tool in dict.fromkeys(used.name for used in one.used):
            served.setdefault(tool, []).append(one.hole.name)
    moved = (one for one in planned if one.specification is not own[one.hole.name].specification)
    return tuple(_change(one, own[one.hole.name], served, least_chance) for one in moved)


def _change(one: PlannedHole, own: PlannedHole, served: Mapping[str, list[str]], least_chance: float) -> Change:
    before = {used.line.operation: used for used in own.used}
    pairs = [
        (before[used.line.operation], used)
        for used in one.used
        if used.line.operation in before and before[used.line.operation].name != used.name
    ]
    now, then = one.specification, own.specification
    return Change(
        hole=one.hole.name,
        before=tuple(was.name for was, _ in pairs),
        after=tuple(used.name for _, used in pairs),
        why=_why(one, own, [used.name for _, used in pairs], served, least_chance),
        percent_thread=_difference(_percent(now), _percent(then)),
        acceptance=_difference(now.process.acceptance.both, then.process.acceptance.both),
        torque_n_m=_difference(_torque(now), _torque(then)),
    )


def _why(
    one: PlannedHole, own: PlannedHole, changed: Iterable[str], served: Mapping[str, list[str]], least_chance: float
) -> str:
    """That the hole would stay below the least acceptance by itself, and which other holes the new tools serve."""
    said = []
    alone = own.specification.process.acceptance.both
    if alone is not None and alone < least_chance:
        said.append(f"by itself it reaches {percent(alone)}, less than the {percent(least_chance)} asked for")
    for tool in changed:
        others = [name for name in served[tool] if name != one.hole.name]
        if others:
            said.append(f"{tool} serves {_listed(others)} too")
    return "; ".join(said) or "it takes less time"


def _listed(names: Sequence[str]) -> str:
    more = len(names) - _MOST_NAMED
    return ", ".join(names[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


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
