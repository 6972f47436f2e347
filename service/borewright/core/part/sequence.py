"""In which order the tools of a part are loaded, so that every hole gets its own order with the fewest loads.

Each distinct order of tools is a string; a loading plan is a common supersequence of them, the best plan a shortest
one. Where the precedences have no cycle every tool is loaded once, in any topological order. A cycle (a 90 degree
tool which spots one hole and countersinks another) costs loads; the least number is found by breadth-first search
over how far each order has come.

Source: shortest common supersequence and topological sorting, textbook algorithms.
"""

from __future__ import annotations

import itertools
import math
from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

#: More states than these are not searched; the plan then is a good one that is not proved.
_MOST_STATES = 200_000


@dataclass(frozen=True, slots=True)
class LoadingOrder:
    """The tools in the order in which they are loaded; ``proved`` where no plan with fewer loads exists."""

    tools: tuple[str, ...]
    proved: bool


def loading(orders: Iterable[Sequence[str]], *, rank: Mapping[str, int]) -> LoadingOrder:
    """A loading plan with the fewest loads for the orders of all holes.

    ``rank`` of every tool says which of those that may come next comes first, the lowest.
    """
    distinct = tuple(dict.fromkeys(tuple(order) for order in orders if order))
    try:
        return LoadingOrder(_topological(distinct, rank), proved=True)
    except CycleError:
        return _with_repeats(distinct, rank)


def _topological(orders: tuple[tuple[str, ...], ...], rank: Mapping[str, int]) -> tuple[str, ...]:
    sorter: TopologicalSorter[str] = TopologicalSorter()
    for order in orders:
        if len(set(order)) < len(order):
            raise CycleError("a tool is used twice for one hole", list(order))
        for tool in order:
            sorter.add(tool)
        for before, after in itertools.pairwise(order):
            sorter.add(after, before)
    sorter.prepare()
    ready: list[str] = []
    found: list[str] = []
    while sorter.is_active():
        ready.extend(sorter.get_ready())
        ready.sort(key=rank.__getitem__)
        found.append(ready.pop(0))
        sorter.done(found[-1])
    return tuple(found)


def _with_repeats(orders: tuple[tuple[str, ...], ...], rank: Mapping[str, int]) -> LoadingOrder:
    if math.prod(len(order) + 1 for order in orders) > _MOST_STATES:
        return LoadingOrder(_greedy(orders, rank), proved=False)
    start, end = (0,) * len(orders), tuple(len(order) for order in orders)
    came_from: dict[tuple[int, ...], tuple[tuple[int, ...], str]] = {}
    waiting = deque([start])
    while waiting:
        state = waiting.popleft()
        if state == end:
            return LoadingOrder(_walked(came_from, start, end), proved=True)
        for tool in _next_tools(orders, state, rank):
            after = _loaded(orders, state, tool)
            if after != start and after not in came_from:
                came_from[after] = (state, tool)
                waiting.append(after)
    raise AssertionError("every order can be finished by loading its next tool")


def _walked(
    came_from: dict[tuple[int, ...], tuple[tuple[int, ...], str]], start: tuple[int, ...], end: tuple[int, ...]
) -> tuple[str, ...]:
    found: list[str] = []
    state = end
    while state != start:
        state, tool = came_from[state]
        found.append(tool)
    return tuple(reversed(found))


def _greedy(orders: tuple[tuple[str, ...], ...], rank: Mapping[str, int]) -> tuple[str, ...]:
    """Load what most of the orders wait for, until all are done."""
    found: list[str] = []
    state, end = (0,) * len(orders), tuple(len(order) for order in orders)
    while state != end:
        tool = min(
            _next_tools(orders, state, rank),
            key=lambda tool: (-_waiting_for(orders, state, tool), rank[tool]),
        )
        found.append(tool)
        state = _loaded(orders, state, tool)
    return tuple(found)


def _next_tools(orders: tuple[tuple[str, ...], ...], state: tuple[int, ...], rank: Mapping[str, int]) -> list[str]:
    tools = {order[done] for order, done in zip(orders, state, strict=True) if done < len(order)}
    return sorted(tools, key=rank.__getitem__)


def _loaded(orders: tuple[tuple[str, ...], ...], state: tuple[int, ...], tool: str) -> tuple[int, ...]:
    return tuple(done + (done < len(order) and order[done] == tool) for order, done in zip(orders, state, strict=True))


def _waiting_for(orders: tuple[tuple[str, ...], ...], state: tuple[int, ...], tool: str) -> int:
    return sum(done < len(order) and order[done] == tool for order, done in zip(orders, state, strict=True))
