"""A row of holes taken apart where its drill and its tap can be chosen without regard to one another.

Where every drill goes with every tap, and what a pair costs is the sum of what the two cost, the row is two rows of
single tools. The problem then falls into many small ones: the taps of a thread have nothing to do with those of
another, which only drills would tie together.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from .selection import Row, ToolSet

#: Sums of losses or of seconds that differ by less are the same figure.
_SAME = 1e-9

_Parts = tuple[frozenset[str], ...]


def parted(rows: Iterable[Row]) -> Iterator[Row]:
    """The ``rows``, each as several where its candidates are all combinations of parts whose costs add up.

    A choice of tools is best for the rows that come out exactly when it is best for those that went in.
    """
    for row in rows:
        yield from _parted(row)


def _parted(row: Row) -> tuple[Row, ...]:
    groups = _groups(row.candidates)
    if len(groups) < 2:
        return (row,)
    known = {_parts(one.tools, groups): one for one in row.candidates}
    choices = [sorted({parts[place] for parts in known}, key=sorted) for place in range(len(groups))]
    if math.prod(map(len, choices)) != len(known) or len(known) != len(row.candidates):
        return (row,)
    return _added_up(row, choices, known) or (row,)


def _groups(candidates: Sequence[ToolSet]) -> list[frozenset[str]]:
    """Tools in groups, so that tools of different groups occur together: those never seen together share one."""
    together: dict[str, set[str]] = {}
    for one in candidates:
        for tool in one.tools:
            together.setdefault(tool, set()).update(one.tools)
    group_of = {tool: {tool} for tool in together}
    for tool, other in combinations(sorted(together), 2):
        if other not in together[tool] and group_of[tool] is not group_of[other]:
            group_of[tool] |= group_of[other]
            for moved in group_of[other]:
                group_of[moved] = group_of[tool]
    return sorted({frozenset(group) for group in group_of.values()}, key=sorted)


def _parts(tools: frozenset[str], groups: Iterable[frozenset[str]]) -> _Parts:
    return tuple(tools & group for group in groups)


def _added_up(row: Row, choices: list[list[frozenset[str]]], known: dict[_Parts, ToolSet]) -> tuple[Row, ...] | None:
    """A row a group, with what each part costs more than the first one; None where the costs do not add up."""
    first = tuple(parts[0] for parts in choices)
    start = known[first]
    made: list[dict[frozenset[str], ToolSet]] = []
    for place, parts in enumerate(choices):
        of_group = {}
        for part in parts:
            one = known[(*first[:place], part, *first[place + 1 :])]
            of_group[part] = ToolSet(part, one.acceptance, one.loss - start.loss, one.time_s - start.time_s)
        made.append(of_group)
    for combination, one in known.items():
        several = tuple(of_group[part] for of_group, part in zip(made, combination, strict=True))
        if abs(start.loss + sum(each.loss for each in several) - one.loss) > _SAME:
            return None
        if abs(start.time_s + sum(each.time_s for each in several) - one.time_s) > _SAME:
            return None
    return tuple(Row(row.holes, row.count, tuple(of_group.values())) for of_group in made)
