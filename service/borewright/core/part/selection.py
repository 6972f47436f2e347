"""The choice of tools for all holes of a part, as a problem that a solver is given.

A hole (or a row of equal holes) has candidates: sets of tools with which it can be made, each with its chance of
acceptance. What reaches the solver is the smallest problem with the same optimum: candidates below the least
acceptance and candidates that another one beats are dropped, rows with the same candidates are one, and holes which
share no tool with the others stand apart.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

#: What candidates are sorted by; the names of their tools decide between equals.
Key = tuple[float, float, list[str]]


class ToolSet(NamedTuple):
    """One way to make a hole: its tools (by name), and the chance that the hole is accepted (0 to 1).

    ``loss`` is what the way costs, as a natural logarithm of the share of good holes that is lost by it; ``time_s`` by
    how much it takes longer than the hole's own way, in s.
    """

    tools: frozenset[str]
    acceptance: float
    loss: float
    time_s: float = 0.0


def log_chance(chance: float) -> float:
    """Natural logarithm of a chance (0 to 1); a chance of 0 is taken as 1e-12.

    Source: definition.
    """
    return math.log(max(chance, 1e-12))


@dataclass(frozen=True, slots=True)
class Row:
    """Holes that are made alike: what they are called, how many each of them is, and their candidates."""

    holes: tuple[str, ...]
    count: int
    candidates: tuple[ToolSet, ...]


class Stage(NamedTuple):
    """What was minimised in a stage of the choice: the value ``found``, and the ``bound`` below which there is none.

    ``what`` tools (a count), loss (natural logarithm of the share of good parts lost) or time (s).
    """

    what: Literal["tools", "loss", "time"]
    found: float
    bound: float
    proved: bool


@dataclass(frozen=True, slots=True)
class Selection:
    """The candidate of every hole; ``at_least`` is the number of tools below which no choice exists, as proved.

    ``stages`` tell what was proved of it, in the order in which they count.
    """

    candidates: dict[str, ToolSet]
    at_least: int
    stages: tuple[Stage, ...]

    @property
    def tools(self) -> frozenset[str]:
        """The distinct tools of all holes."""
        return frozenset().union(*(one.tools for one in self.candidates.values()))

    @property
    def proved(self) -> bool:
        """Whether no choice is better by what was asked for."""
        return all(stage.proved for stage in self.stages)


@dataclass(frozen=True, slots=True)
class Core:
    """What is left to choose: the tools that are needed whatever is chosen, and the rows without them."""

    needed: frozenset[str]
    rows: tuple[Row, ...]


def core_of(rows: Iterable[Row]) -> Core:
    """The smallest problem with the optimum of ``rows``: tools that a row needs in any case are
    counted and taken out.
    """
    rows, needed = _joined(rows), frozenset[str]()
    while True:
        more = frozenset[str]().union(*(frozenset.intersection(*(one.tools for one in row.candidates)) for row in rows))
        if not more:
            return Core(needed, rows)
        needed |= more
        rows = _joined(row if more.isdisjoint(tools_of(row)) else _without(row, more) for row in rows)


def _without(row: Row, tools: frozenset[str]) -> Row:
    left = (ToolSet(one.tools - tools, one.acceptance, one.loss, one.time_s) for one in row.candidates)
    return Row(row.holes, row.count, tuple(left))


def components(rows: Iterable[Row]) -> Iterator[tuple[Row, ...]]:
    """The rows that have a tool to choose, in groups which share none with one another: each is solved by itself."""
    rows = tuple(row for row in rows if tools_of(row))
    leader: dict[str, str] = {}

    def find(tool: str) -> str:
        while leader.setdefault(tool, tool) != tool:
            tool = leader[tool]
        return tool

    for row in rows:
        first, *others = sorted(tools_of(row))
        for tool in others:
            leader[find(tool)] = find(first)
    groups: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        groups[find(min(tools_of(row)))].append(row)
    yield from (tuple(group) for group in groups.values())


def greedy(rows: Iterable[Row]) -> frozenset[str]:
    """The tools of a choice for ``rows`` made hole by hole: the fewest that are not in use yet, then the least loss.

    Rows with the fewest candidates come first. It is what is left when a solver's time runs out.
    """
    used: frozenset[str] = frozenset()
    for row in sorted(rows, key=lambda row: (len(row.candidates), -row.count, row.holes)):
        best = min(row.candidates, key=lambda one: (len(one.tools - used), one.loss, sorted(one.tools)))
        used |= best.tools
    return used


def least_loss(one: ToolSet) -> Key:
    """Sort key of ``one``: the least loss first, then the least time.

    Source: definition.
    """
    return one.loss, one.time_s, sorted(one.tools)


def least_time(one: ToolSet) -> Key:
    """Sort key of ``one``: the least time first, then the least loss.

    Source: definition.
    """
    return one.time_s, one.loss, sorted(one.tools)


def best_of(row: Row, tools: frozenset[str], order: Callable[[ToolSet], Key] = least_loss) -> ToolSet:
    """The best, in ``order``, of the candidates of ``row`` that ``tools`` allow. Raises ValueError: there is none."""
    return min((one for one in row.candidates if one.tools <= tools), key=order)


def best_with(
    rows: Iterable[Row], tools: frozenset[str], order: Callable[[ToolSet], Key] = least_loss
) -> dict[str, ToolSet]:
    """Each hole of ``rows`` with the best, in ``order``, of the candidates that ``tools`` allow.

    Raises: ValueError where a row has no candidate with these tools.
    """
    chosen: dict[str, ToolSet] = {}
    for row in rows:
        chosen.update(dict.fromkeys(row.holes, best_of(row, tools, order)))
    return chosen


def tools_of(row: Row) -> frozenset[str]:
    """Every tool of a row's candidates."""
    return frozenset[str]().union(*(one.tools for one in row.candidates))


def _joined(rows: Iterable[Row]) -> tuple[Row, ...]:
    """Rows without beaten candidates, those with the same candidates as one, in a fixed order."""
    alike: dict[tuple[ToolSet, ...], list[Row]] = defaultdict(list)
    for row in rows:
        alike[row.candidates].append(row)
    joined: dict[tuple[ToolSet, ...], list[Row]] = defaultdict(list)
    for candidates, some in alike.items():
        joined[_undominated(candidates)] += some
    made = (
        Row(tuple(sorted(name for row in some for name in row.holes)), sum(row.count for row in some), candidates)
        for candidates, some in joined.items()
    )
    return tuple(sorted(made, key=lambda row: row.holes))


def _undominated(candidates: Iterable[ToolSet]) -> tuple[ToolSet, ...]:
    """Those that no other candidate beats with no tool more, no greater loss and no more time."""
    kept: list[ToolSet] = []
    ordered = sorted(candidates, key=lambda one: (len(one.tools), one.loss, one.time_s, sorted(one.tools)))
    fewest = len(ordered[0].tools)
    for one in ordered:
        rivals = kept if len(one.tools) > fewest else (other for other in kept if other.tools == one.tools)
        if not any(
            other.tools <= one.tools and other.loss <= one.loss and other.time_s <= one.time_s for other in rivals
        ):
            kept.append(one)
    return tuple(sorted(kept, key=lambda one: (sorted(one.tools), one.loss)))
