"""The choice of candidates that needs the fewest distinct tools, then loses the least, then takes the least time.

Stage 1 asks for the fewest tools that make every row (:mod:`.covering`). Stage 2 keeps to their number and asks for
the least sum of count times loss, stage 3 keeps to that as well and asks for the least time (:mod:`.shares`). Rows
that share no tool are solved apart, and so are drills and taps where they do not depend on one another.

Source: set covering, uncapacitated facility location; branch and bound with a proof of its bound.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from borewright.core.part.parted import parted
from borewright.core.part.selection import (
    Row,
    Selection,
    Stage,
    ToolSet,
    best_with,
    components,
    core_of,
    greedy,
    least_loss,
)
from borewright.core.part.selection import least_time as by_time

from .covering import fewest
from .highs import Deadline
from .shares import Shares

#: Losses and seconds that differ by less are the same.
_SAME_LOSS, _SAME_S = 1e-6, 1e-3
#: Seconds added to a tool change, so that a tool costs something where changing it does not.
_LEAST_CHANGE_S = 1e-3

_Tools = frozenset[str]


class _Choice(NamedTuple):
    """The tools of a group of rows, and how far what was proved stays below what was found: tools, loss, seconds."""

    tools: _Tools
    fewer: int = 0
    less_loss: float = 0.0
    less_s: float = 0.0


class Work:
    """The solver's work for one part: the time for all of it, and what is solved already.

    A choice that a hole does not bear out is made again: most groups of rows are the same as before.
    """

    def __init__(self, seconds: float) -> None:
        self.deadline = Deadline(seconds)
        self._solved: dict[tuple[str, tuple[Row, ...], _Tools], _Choice] = {}

    def once(self, stage: str, rows: tuple[Row, ...], given: _Tools, solve: Callable[[], _Choice]) -> _Choice:
        """What ``solve`` gives for the ``rows`` in a ``stage`` with the tools that are ``given``."""
        key = stage, rows, given
        if key not in self._solved:
            self._solved[key] = solve()
        return self._solved[key]


def fewest_tools(rows: Sequence[Row], work: Work) -> Selection:
    """The best choice of candidates for rows which each have at least one.

    ``work`` bounds the processor time of the solver. What was found when it ran out is returned with the bounds that
    were proved until then; it is never worse than a choice made hole by hole.
    """
    needed, groups = _small([_untimed(row) for row in rows])
    found = [_fewest_then_best(group, work) for group in groups]
    tools, less_s = _quicker(rows, needed.union(*(each.tools for each in found)), work)
    chosen = best_with(rows, tools)
    at_least = len(needed) + sum(len(each.tools) - each.fewer for each in found)
    many = len(frozenset().union(*(one.tools for one in chosen.values())))
    loss, less_loss = _loss(rows, chosen), sum(each.less_loss for each in found)
    seconds = _seconds(rows, chosen)
    stages = (
        Stage("tools", many, at_least, many <= at_least),
        Stage("loss", loss, max(0.0, loss - less_loss), less_loss <= _SAME_LOSS),
        Stage("time", seconds, seconds - less_s, less_s <= _SAME_S),
    )
    return Selection(chosen, at_least, stages)


def least_time(rows: Sequence[Row], work: Work, *, tool_change_s: float) -> Selection:
    """The choice with the least time of a part: cutting, and a tool change for each tool.

    ``work`` bounds the processor time of the solver, as in :func:`fewest_tools`.
    """
    needed, groups = _small(rows)
    found = [_quickest(group, tool_change_s, work) for group in groups]
    chosen = best_with(rows, needed.union(*(each.tools for each in found)), by_time)
    many = len(frozenset().union(*(one.tools for one in chosen.values())))
    seconds, less_s = _seconds(rows, chosen) + tool_change_s * many, sum(each.less_s for each in found)
    return Selection(chosen, len(needed), (Stage("time", seconds, seconds - less_s, less_s <= _SAME_S),))


def _small(rows: Sequence[Row]) -> tuple[_Tools, list[tuple[Row, ...]]]:
    """The tools that are needed in any case, and the groups of rows that are left to choose for."""
    whole = core_of(rows)
    apart = core_of(parted(whole.rows))
    return whole.needed | apart.needed, list(components(apart.rows))


def _untimed(row: Row) -> Row:
    """The row without its times: more rows are equal then."""
    if not any(one.time_s for one in row.candidates):
        return row
    untimed = (ToolSet(one.tools, one.acceptance, one.loss) for one in row.candidates)
    return Row(row.holes, row.count, tuple(untimed))


def _loss(rows: Iterable[Row], chosen: dict[str, ToolSet]) -> float:
    return sum(row.count * chosen[row.holes[0]].loss for row in rows)


def _seconds(rows: Iterable[Row], chosen: dict[str, ToolSet]) -> float:
    return sum(row.count * chosen[row.holes[0]].time_s for row in rows)


def _fewest_then_best(rows: tuple[Row, ...], work: Work) -> _Choice:
    if len(rows) == 1:
        best = min(rows[0].candidates, key=lambda one: (len(one.tools), *least_loss(one)))
        return _Choice(best.tools)

    def solve() -> _Choice:
        tools, at_least = fewest(rows, work.deadline)
        by_hole = greedy(rows)
        if len(by_hole) < len(tools):
            tools = by_hole
        shares = Shares(rows)
        better, bound = shares.least_loss(tools, work.deadline)
        return _Choice(better, len(tools) - at_least, max(0.0, shares.loss(better) - bound))

    return work.once("loss", rows, frozenset(), solve)


def _quicker(rows: Sequence[Row], tools: _Tools, work: Work) -> tuple[_Tools, float]:
    """As many tools with the same loss and the least time, and by how many seconds it may be less."""
    _, groups = _small(rows)
    less_s = 0.0
    for group in groups:
        shares = Shares(group)
        before = tools & shares.tools

        def solve(shares: Shares = shares, before: _Tools = before) -> _Choice:
            after, bound = shares.least_time(before, work.deadline)
            return _Choice(after, less_s=max(0.0, shares.time_s(after) - bound))

        found = work.once("time", group, before, solve)
        tools = (tools - before) | found.tools
        less_s += found.less_s
    return tools, less_s


def _quickest(rows: tuple[Row, ...], tool_change_s: float, work: Work) -> _Choice:
    def solve() -> _Choice:
        tools, less_s = Shares(rows).quickest(greedy(rows), tool_change_s + _LEAST_CHANGE_S, work.deadline)
        return _Choice(tools, less_s=less_s)

    return work.once("all", rows, frozenset(), solve)
