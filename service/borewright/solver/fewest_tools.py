"""The choice of candidates which needs the fewest distinct tools, then loses the least: two linear programs.

Stage 1: minimise the tools in use y_j, where every row shares itself out among its candidates (their shares sum to 1)
and a tool is in use as far as a row's candidates with it are. y is whole, the shares need not be: with y fixed every
candidate with a share has all its tools, so a whole choice exists.
Stage 2: the tools at most those of stage 1, the least sum of count times loss, then the least time.

Source: uncapacitated facility location in its strong form; HiGHS, branch and bound with a proof of its bound.
"""

from __future__ import annotations

import contextlib
import math
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from borewright.core.part.selection import Row, Selection, ToolSet, best_with, components, core_of, greedy, tools_of
from borewright.core.part.selection import least_time as by_time

#: Whole numbers come out of the solver as floats that are this near to them.
_NEAR_WHOLE = 1e-6
#: Seconds added to a tool change, so that a tool costs something where changing it does not.
_LEAST_CHANGE_S = 1e-3
#: A tool is in use where the solver's 0 or 1 is nearer to 1.
_IN_USE = 0.5
#: Weight of a second of cutting beside the loss: decides ties only.
_SECOND = 1e-9


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where each tool and each candidate of each row stands among the variables."""

    tools: tuple[str, ...]
    shares: tuple[tuple[int, ToolSet], ...]

    @property
    def count(self) -> int:
        return len(self.tools) + len(self.shares)


def fewest_tools(rows: Sequence[Row], *, limit_s: float) -> Selection:
    """The best choice of candidates for rows which each have at least one.

    ``limit_s`` bounds each stage of each group of rows that share tools. What was found when the time ran out is
    returned with the bound that was proved until then; it is never worse than a choice made hole by hole.
    """
    core = core_of(rows)
    tools, at_least = core.needed, len(core.needed)
    for rows_together in components(core.rows):
        more, bound = _tools_for(rows_together, limit_s)
        tools |= more
        at_least += bound
    chosen = best_with(rows, tools)
    return Selection(
        chosen, at_least, proved=len(frozenset().union(*(one.tools for one in chosen.values()))) <= at_least
    )


def least_time(rows: Sequence[Row], *, tool_change_s: float, limit_s: float) -> Selection:
    """The choice with the least time of a part: cutting, and a tool change for each tool.

    ``limit_s`` bounds each group of rows that share tools, as in :func:`fewest_tools`.
    """
    core = core_of(rows)
    tools, proved = core.needed, True
    for rows_together in components(core.rows):
        more, optimal = _quickest(rows_together, tool_change_s, limit_s)
        tools |= more
        proved = proved and optimal
    return Selection(best_with(rows, tools, by_time), len(core.needed), proved)


def _quickest(rows: tuple[Row, ...], tool_change_s: float, limit_s: float) -> tuple[frozenset[str], bool]:
    with _silent_solver(limit_s) as solver:
        columns = _columns(rows)
        _state(solver, rows, columns)
        times = [rows[number].count * one.time_s for number, one in columns.shares]
        costs = np.concatenate([np.full(len(columns.tools), tool_change_s + _LEAST_CHANGE_S), np.array(times)])
        solver.changeColsCost(columns.count, np.arange(columns.count, dtype=np.int32), costs)
        solver.run()
        found = _tools_found(solver, rows, columns)
        optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return (greedy(rows), False) if found is None else (found, optimal)


def _tools_for(rows: tuple[Row, ...], limit_s: float) -> tuple[frozenset[str], int]:
    """The tools to use for rows that share tools, and the number below which there is no choice."""
    best = greedy(rows)
    with _silent_solver(limit_s) as solver:
        columns = _columns(rows)
        _state(solver, rows, columns)
        solver.run()
        bound = _bound(solver)
        found = _tools_found(solver, rows, columns)
        if found is not None and len(found) <= len(best):
            best = found
        _minimise_loss(solver, rows, columns, len(best))
        solver.run()
        found = _tools_found(solver, rows, columns)
    if found is not None and len(found) <= len(best) and _loss(rows, found) <= _loss(rows, best):
        best = found
    return best, min(bound, len(best))


@contextlib.contextmanager
def _silent_solver(limit_s: float) -> Iterator[highspy.Highs]:
    """A solver with one thread and a fixed seed. It prints its name before it can be told not to: that goes nowhere."""
    kept = os.dup(1)
    with open(os.devnull, "wb") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        try:
            solver = highspy.Highs()  # type: ignore[no-untyped-call]
        finally:
            os.dup2(kept, 1)
            os.close(kept)
    for name, value in {
        "output_flag": False,
        "threads": 1,
        "random_seed": 0,
        "time_limit": limit_s,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-9,
    }.items():
        solver.setOptionValue(name, value)
    yield solver


def _columns(rows: tuple[Row, ...]) -> _Columns:
    tools = sorted(frozenset[str]().union(*(tools_of(row) for row in rows)))
    return _Columns(tuple(tools), tuple((number, one) for number, row in enumerate(rows) for one in row.candidates))


def _state(solver: highspy.Highs, rows: tuple[Row, ...], columns: _Columns) -> None:
    """Write stage 1 into the solver."""
    many = len(columns.tools)
    solver.addVars(columns.count, np.zeros(columns.count), np.ones(columns.count))
    everything = np.arange(columns.count, dtype=np.int32)
    costs = np.concatenate([np.ones(many), np.zeros(columns.count - many)])
    solver.changeColsCost(columns.count, everything, costs)
    whole = np.full(many, highspy.HighsVarType.kInteger)
    solver.changeColsIntegrality(many, everything[:many], whole)
    number_of = {tool: number for number, tool in enumerate(columns.tools)}
    first = many
    for row in rows:
        places = np.arange(first, first + len(row.candidates), dtype=np.int32)
        solver.addRow(1.0, 1.0, len(places), places, np.ones(len(places)))
        for tool in sorted(tools_of(row)):
            using = [first + at for at, one in enumerate(row.candidates) if tool in one.tools]
            indices = np.array([*using, number_of[tool]], dtype=np.int32)
            solver.addRow(-highspy.kHighsInf, 0.0, len(indices), indices, np.array([*([1.0] * len(using)), -1.0]))
        first += len(row.candidates)


def _minimise_loss(solver: highspy.Highs, rows: tuple[Row, ...], columns: _Columns, most: int) -> None:
    """Turn stage 1 into stage 2: no more tools than found, the least loss."""
    many = len(columns.tools)
    tools = np.arange(many, dtype=np.int32)
    solver.addRow(-highspy.kHighsInf, float(most), many, tools, np.ones(many))
    losses = [rows[number].count * (_SECOND * one.time_s + one.loss) for number, one in columns.shares]
    costs = np.concatenate([np.zeros(many), np.array(losses)])
    solver.changeColsCost(columns.count, np.arange(columns.count, dtype=np.int32), costs)


def _bound(solver: highspy.Highs) -> int:
    bound = solver.getInfo().mip_dual_bound
    return max(1, math.ceil(bound - _NEAR_WHOLE)) if math.isfinite(bound) else 1


def _tools_found(solver: highspy.Highs, rows: tuple[Row, ...], columns: _Columns) -> frozenset[str] | None:
    """The tools in use; None where the time was over before every row had a candidate."""
    if solver.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    values = solver.getSolution().col_value
    in_use = frozenset(tool for tool, value in zip(columns.tools, values, strict=False) if value > _IN_USE)
    if all(any(one.tools <= in_use for one in row.candidates) for row in rows):
        return in_use
    return None


def _loss(rows: tuple[Row, ...], tools: frozenset[str]) -> float:
    chosen = best_with(rows, tools)
    return sum(row.count * chosen[row.holes[0]].loss for row in rows)
