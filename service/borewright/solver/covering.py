"""The fewest tools that make every row, as sets of tools of which each choice needs at least one.

A choice of tools makes a row exactly when it meets every set which meets all candidates of the row (the blocker of a
family of sets). Sets that contain another one, and tools which another tool can stand for everywhere, are taken out;
what is left is small, often nothing.

Source: E. Berge's multiplication of transversals; set covering and its dominance rules, textbook methods.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from borewright.core.part.selection import Row, greedy

from .highs import Deadline, Model, is_one
from .shares import Shares

#: A row with more sets to meet than these is told to the solver by its candidates.
_MOST_SETS = 60
#: Whole numbers come out of the solver as floats that are this near to them.
_NEAR_WHOLE = 1e-6


class Cover(NamedTuple):
    """What is left of a covering problem: tools ``taken`` for sure, and the sets that still have to be met."""

    taken: frozenset[str]
    sets: tuple[frozenset[str], ...]


def to_meet(row: Row) -> tuple[frozenset[str], ...] | None:
    """The smallest sets that meet every candidate of ``row``; None where they are very many."""
    found = {frozenset[str]()}
    for one in row.candidates:
        grown = {each for each in found if each & one.tools}
        grown |= {each | {tool} for each in found if not each & one.tools for tool in one.tools}
        found = set(_smallest(grown))
        if len(found) > _MOST_SETS:
            return None
    return tuple(sorted(found, key=sorted))


def reduced(sets: Iterable[frozenset[str]]) -> Cover:
    """The covering problem of ``sets`` made small; with ``taken`` and the fewest tools for what is left, the number of
    tools is the least.
    """
    taken: frozenset[str] = frozenset()
    left = _smallest(sets)
    while True:
        needed = frozenset[str]().union(*(each for each in left if len(each) == 1))
        taken |= needed
        worth_having = _worth_having(left)
        after = _smallest(each & worth_having for each in left if not each & needed)
        if after == left:
            return Cover(taken, left)
        left = after


def _smallest(sets: Iterable[frozenset[str]]) -> tuple[frozenset[str], ...]:
    """Sets that contain no other one."""
    kept: list[frozenset[str]] = []
    for each in sorted(set(sets), key=lambda each: (len(each), sorted(each))):
        if not any(other <= each for other in kept):
            kept.append(each)
    return tuple(kept)


def _worth_having(sets: Sequence[frozenset[str]]) -> frozenset[str]:
    """Tools but those that meet no set which another tool does not meet too."""
    meets: dict[str, int] = {}
    for place, each in enumerate(sets):
        for tool in each:
            meets[tool] = meets.get(tool, 0) | 1 << place
    kept: list[int] = []
    tools = []
    for tool in sorted(meets, key=lambda tool: (-meets[tool].bit_count(), tool)):
        if not any(meets[tool] | other == other for other in kept):
            kept.append(meets[tool])
            tools.append(tool)
    return frozenset(tools)


def fewest(rows: tuple[Row, ...], deadline: Deadline) -> tuple[frozenset[str], int]:
    """The fewest tools that make all ``rows``, as far as they were found until ``deadline``, and the number below which
    there is no choice.
    """
    sets = [to_meet(row) for row in rows]
    if None in sets:
        found, bound = Shares(rows).fewest(greedy(rows), deadline)
        return found, _whole(bound)
    cover = reduced(each for of_row in sets for each in of_row or ())
    if not cover.sets:
        return cover.taken, len(cover.taken)
    more, bound = _met(cover.sets, deadline)
    at_least = len(cover.taken) + _whole(bound)
    tools = greedy(rows) if more is None else cover.taken | more
    return tools, min(at_least, len(tools))


def _met(sets: Sequence[frozenset[str]], deadline: Deadline) -> tuple[frozenset[str] | None, float]:
    """The fewest tools that meet all ``sets``, None where the time was over before, and the proved bound."""
    tools = sorted(frozenset[str]().union(*sets))
    number_of = {tool: number for number, tool in enumerate(tools)}
    model = Model(len(tools), len(tools))
    for each in sets:
        places = sorted(number_of[tool] for tool in each)
        model.row(places, [1.0] * len(places), low=1.0)
    found = model.least([1.0] * len(tools), deadline)
    if found.values is None:
        return None, found.bound
    return frozenset(tool for tool, value in zip(tools, found.values, strict=True) if is_one(value)), found.bound


def _whole(bound: float) -> int:
    """The least number of tools that a bound leaves: one is needed in any case."""
    return max(1, math.ceil(bound - _NEAR_WHOLE)) if math.isfinite(bound) else 1
