"""The order in which the tools of a part work, and the time that this takes."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from borewright.core.cutting.records import CuttingData

from .model import Loading, PartRequest, PlannedHole, Time, Times
from .sequence import loading
from .tool_list import RANK
from .used_tools import UsedTool


class _Work(NamedTuple):
    """A hole and the tool that is next in it."""

    hole: PlannedHole
    used: UsedTool


def steps_of(planned: Sequence[PlannedHole], times: Times) -> tuple[tuple[Loading, ...], bool]:
    """Every loading of a tool with what it does in the holes ``planned``, and whether no order has fewer loadings.

    What comes after a finish, a hardening or a mask is a set-up of its own: its tools are loaded anew.

    Args: ``times`` that no tool decides, in s.

    Source: shortest common supersequence of the orders of the holes.
    """
    by_stage: dict[int, list[list[_Work]]] = defaultdict(list)
    for one in planned:
        stages: dict[int, list[_Work]] = defaultdict(list)
        for used in one.used:
            stages[used.stage].append(_Work(one, used))
        for stage, works in stages.items():
            by_stage[stage].append(works)
    steps: list[Loading] = []
    proved = True
    for stage in sorted(by_stage):
        order = loading(([work.used.name for work in works] for works in by_stage[stage]), rank=_rank(by_stage[stage]))
        proved = proved and order.proved
        steps += _walked(order.tools, by_stage[stage], stage, times, first=len(steps) + 1)
    return tuple(steps), proved


def _rank(holes: Iterable[Iterable[_Work]]) -> dict[str, int]:
    """Place of each tool where nothing else decides: by its kind, then those that serve most holes first."""
    kinds: dict[str, int] = {}
    counts: Counter[str] = Counter()
    for work in (work for works in holes for work in works):
        kinds[work.used.name] = RANK[work.used.line.operation]
        counts[work.used.name] += work.hole.hole.count
    order = sorted(kinds, key=lambda tool: (kinds[tool], -counts[tool], tool))
    return {tool: place for place, tool in enumerate(order)}


def _walked(tools: Sequence[str], holes: list[list[_Work]], stage: int, times: Times, *, first: int) -> list[Loading]:
    """Each tool does all that is ready for it when it is loaded."""
    waiting = [list(works) for works in holes]
    found = []
    for number, tool in enumerate(tools, start=first):
        done = [works.pop(0) for works in waiting if works and works[0].used.name == tool]
        found.append(_step(number, stage, tool, done, times))
    return found


def _step(number: int, stage: int, tool: str, done: list[_Work], times: Times) -> Loading:
    cutting = [None if work.used.line.time_s is None else work.used.line.time_s * work.hole.hole.count for work in done]
    known = [time for time in cutting if time is not None]
    count = sum(work.hole.hole.count for work in done)
    return Loading(
        number=number,
        stage=stage + 1,
        tool=tool,
        operation=done[0].used.line.operation,
        holes=tuple(work.hole.hole.name for work in done),
        count=count,
        speeds_rpm=_distinct(_speed(work) for work in done),
        feeds_mm_rev=_distinct(_feed(work) for work in done),
        time_s=sum(known) if len(known) == len(cutting) else None,
        tool_change_s=times.tool_change_s,
        positioning_s=count * times.positioning_s,
    )


def _distinct(values: Iterable[float | None]) -> tuple[float, ...]:
    return tuple(sorted({value for value in values if value is not None}))


def _cutting(work: _Work) -> CuttingData | None:
    return work.hole.specification.process.cutting


def _speed(work: _Work) -> float | None:
    speed = work.used.line.parameters.get("spindle_speed")
    return float(speed) if isinstance(speed, int | float) else None


def _feed(work: _Work) -> float | None:
    data = _cutting(work)
    if data is None or data.drill is None or work.used.line.operation != "drill":
        return None
    return data.drill.feed_mm_rev


def time_of(steps: Sequence[Loading], request: PartRequest) -> Time:
    """Seconds that ``steps`` take for a part and its lot; operations whose time is not held are counted, not guessed.

    Source: cutting times of the holes; tool change and positioning as the request gives them.
    """
    cutting = sum(step.time_s for step in steps if step.time_s is not None)
    changing = sum(step.tool_change_s for step in steps)
    positioning = sum(step.positioning_s for step in steps)
    total = cutting + changing + positioning
    unknown = sum(step.time_s is None for step in steps)
    return Time(cutting, changing, positioning, total, total * request.lot_size, len(steps), unknown)
