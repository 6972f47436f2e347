"""The best candidates of rows that share tools, as linear programs.

Every row shares itself out among its candidates (their shares sum to 1), and a tool is in use as far as a row's
candidates with it are. Tools are whole numbers, shares need not be: with the tools fixed every candidate with a share
has all its tools, so a whole choice exists. Only where a sum of losses is held must the shares be whole too.

Source: uncapacitated facility location in its strong form.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from borewright.core.part.selection import Key, Row, ToolSet, best_of, least_loss, tools_of
from borewright.core.part.selection import least_time as by_time

from .highs import Deadline, Model, is_one

#: Losses of a millionth count, and the solver takes a millionth for nothing: it is asked in thousandths.
_SCALE = 1e3
#: Losses and seconds that differ by less are the same.
_SAME_LOSS, _SAME_S = 1e-9, 1e-6

_Tools = frozenset[str]


class Shares:
    """Rows that share tools: where each tool and each candidate stands among the variables."""

    def __init__(self, rows: tuple[Row, ...]) -> None:
        self._rows = rows
        self._tools = tuple(sorted(frozenset[str]().union(*(tools_of(row) for row in rows))))
        self._shares = tuple((row, one) for row in rows for one in row.candidates)
        self._count = len(self._tools) + len(self._shares)

    @property
    def tools(self) -> _Tools:
        """Every tool of the rows."""
        return frozenset(self._tools)

    def loss(self, tools: _Tools) -> float:
        """The least sum of count times loss with ``tools``."""
        return self._sum(tools, least_loss, lambda one: one.loss)

    def time_s(self, tools: _Tools) -> float:
        """The time with ``tools``, where each row has what loses the least."""
        return self._sum(tools, least_loss, lambda one: one.time_s)

    def fewest(self, tools: _Tools, deadline: Deadline) -> tuple[_Tools, float]:
        """The fewest tools, begun with ``tools``, and the bound below which there is no choice."""
        found = self._stated().least(self._costs(lambda _: 0.0, of_tool=1.0), deadline)
        fewer = self._in_use(found.values)
        return (tools if fewer is None or len(fewer) > len(tools) else fewer), found.bound

    def least_loss(self, tools: _Tools, deadline: Deadline) -> tuple[_Tools, float]:
        """As many tools as ``tools`` with the least loss, and the bound below which there is none."""
        model = self._stated()
        self._at_most(model, len(tools))
        found = model.least(self._costs(lambda one: _SCALE * one.loss), deadline)
        better = self._in_use(found.values)
        if better is None or len(better) > len(tools) or self.loss(better) > self.loss(tools):
            better = tools
        return better, found.bound / _SCALE

    def least_time(self, tools: _Tools, deadline: Deadline) -> tuple[_Tools, float]:
        """As many tools as ``tools``, with their loss and the least time, and the bound below which there is none."""
        if len({one.time_s for _, one in self._shares}) == 1:
            return tools, self.time_s(tools)
        model = self._stated(whole=True)
        self._at_most(model, len(tools))
        losses = self._costs(lambda one: _SCALE * one.loss)
        model.row(range(self._count), losses, high=_SCALE * (self.loss(tools) + _SAME_LOSS))
        found = model.least(self._costs(lambda one: one.time_s), deadline)
        quicker = self._in_use(found.values)
        if quicker is None or self.loss(quicker) > self.loss(tools) + _SAME_LOSS:
            quicker = tools
        return quicker, found.bound

    def quickest(self, tools: _Tools, change_s: float, deadline: Deadline) -> tuple[_Tools, float]:
        """The tools with the least time of cutting and changing, begun with ``tools``, of equals those that lose the
        least; by how much the time may be less.

        Args: ``change_s`` of each tool.
        """
        found = self._stated().least(self._costs(lambda one: one.time_s, of_tool=change_s), deadline)

        def seconds(some: _Tools) -> float:
            return change_s * len(some) + self._sum(some, by_time, lambda one: one.time_s)

        quicker = self._in_use(found.values)
        if quicker is None or seconds(quicker) > seconds(tools):
            quicker = tools
        least = seconds(quicker)
        model = self._stated(whole=True)
        times = self._costs(lambda one: one.time_s, of_tool=change_s)
        model.row(range(self._count), times, high=least + _SAME_S)
        better = self._in_use(model.least(self._costs(lambda one: _SCALE * one.loss), deadline).values)

        def lost(some: _Tools) -> float:
            return self._sum(some, by_time, lambda one: one.loss)

        if better is None or seconds(better) > least + 2 * _SAME_S or lost(better) > lost(quicker):
            better = quicker
        return better, max(0.0, least - found.bound)

    def _sum(self, tools: _Tools, order: Callable[[ToolSet], Key], cost: Callable[[ToolSet], float]) -> float:
        """The sum of count times cost, where each row has the candidate with ``tools`` that is best in ``order``."""
        return sum(row.count * cost(best_of(row, tools, order)) for row in self._rows)

    def _costs(self, cost: Callable[[ToolSet], float], *, of_tool: float = 0.0) -> list[float]:
        return [of_tool] * len(self._tools) + [row.count * cost(one) for row, one in self._shares]

    def _stated(self, *, whole: bool = False) -> Model:
        model = Model(self._count, self._count if whole else len(self._tools))
        number_of = {tool: number for number, tool in enumerate(self._tools)}
        first = len(self._tools)
        for row in self._rows:
            places = range(first, first + len(row.candidates))
            model.row(places, [1.0] * len(places), low=1.0, high=1.0)
            for tool in sorted(tools_of(row)):
                using = [place for place, one in zip(places, row.candidates, strict=True) if tool in one.tools]
                model.row([*using, number_of[tool]], [*([1.0] * len(using)), -1.0], high=0.0)
            first += len(row.candidates)
        return model

    def _at_most(self, model: Model, many: int) -> None:
        model.row(range(len(self._tools)), [1.0] * len(self._tools), high=float(many))

    def _in_use(self, values: Sequence[float] | None) -> _Tools | None:
        """The tools in use; None where they do not make every row."""
        if values is None:
            return None
        tools = frozenset(_named(self._tools, values))
        if all(any(one.tools <= tools for one in row.candidates) for row in self._rows):
            return tools
        return None


def _named(tools: Sequence[str], values: Sequence[float]) -> Iterator[str]:
    return (tool for tool, value in zip(tools, values, strict=False) if is_one(value))
