"""What a run of `borewright batch` tells at its end: the faults by row and column, the holes to look at, the counts."""

from __future__ import annotations

import sys
import textwrap
from collections import Counter
from collections.abc import Iterator
from typing import Any

from ..client import Reply
from . import holes, workbooks
from .hints import hint
from .printable import printable
from .sheet import paint_for
from .words import plain

#: Holes that are told one by one; the file that is written has all of them.
_MOST_TOLD = 50
_LONGEST = 160
#: Ids that are remembered, to say which ones are doubled.
_MOST_IDS = 100_000
#: Verdicts of a specification; the first one leaves nothing to decide.
VERDICTS = ("ready", "review", "infeasible")


class Summary:
    """Counts the answers of a run and keeps what is to be told of them; ``name`` is that of the file of holes."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._row = "line" if workbooks.form(name) == workbooks.NDJSON else "row"
        self.verdicts: Counter[str] = Counter()
        self.failed = 0
        self._faults: list[str] = []
        self._waiting: list[str] = []
        self._row_of: dict[str, int] = {}
        self._doubled: list[str] = []

    def add(self, hole: holes.Hole, result: Reply) -> None:
        """One more answer."""
        self._look_for_its_id(hole)
        if result["status"] != "ok":
            self.failed += 1
            if len(self._faults) < _MOST_TOLD:
                self._faults += self._told(hole, result["problem"])
            return
        verdict = result["spec"]["verdict"]
        self.verdicts[verdict] += 1
        if verdict != VERDICTS[0] and len(self._waiting) < _MOST_TOLD:
            self._waiting.append(f"{self._where(hole)}: {verdict}: {_why(result['spec'])}")

    def tell(self) -> None:
        """Print it, to standard error."""
        paint = paint_for(sys.stderr)
        lines = [paint.bad(printable(line)) for line in self._faults[:_MOST_TOLD]]
        lines += [paint.warn(printable(line)) for line in (*self._doubled, *self._waiting)]
        if max(len(self._faults), len(self._waiting)) >= _MOST_TOLD:
            lines.append(f"... {self.failed + self._to_decide()} holes in all; the output has every one")
        print("\n".join([*lines, self._counts()]), file=sys.stderr)

    def _look_for_its_id(self, hole: holes.Hole) -> None:
        """Say that an earlier hole has the same id."""
        name = hole.request.get("id")
        if not isinstance(name, str):
            return
        if name in self._row_of and len(self._doubled) < _MOST_TOLD:
            self._doubled.append(f"{self._where(hole)}: the same id as {self._row} {self._row_of[name]}")
        elif len(self._row_of) < _MOST_IDS:
            self._row_of.setdefault(name, hole.row)

    def _to_decide(self) -> int:
        return self.verdicts.total() - self.verdicts[VERDICTS[0]]

    def _counts(self) -> str:
        judged = ", ".join(f"{self.verdicts[verdict]} {verdict}" for verdict in VERDICTS)
        made = self.verdicts.total()
        return f"{made + self.failed} holes: {made} specified ({judged}), {self.failed} with a problem"

    def _where(self, hole: holes.Hole) -> str:
        where = f"{self._name} {self._row} {hole.row}"
        return f"{where}, {hole.request['id']}" if hole.request.get("id") else where

    def _told(self, hole: holes.Hole, problem: Reply) -> Iterator[str]:
        """What is wrong with a hole, a line a field."""
        for error in problem.get("errors") or [{}]:
            column = error.get("column") or holes.column_of(error.get("pointer") or "")
            sent = f", {error['cell']!r}" if error.get("cell") else _sent(hole.request, error.get("pointer") or "")
            place = f", column {column}" if column else ""
            said = error.get("detail") or problem.get("detail")
            yield f"{self._where(hole)}{place}{sent}: {said}{hint(error)}"


def _why(spec: Reply) -> str:
    """What is to be decided: the questions in a few words, and the beginning of the first."""
    questions = "; ".join(plain(one["code"]) for one in spec["review"])
    return f"{questions}. {textwrap.shorten(spec['review'][0]['text'], _LONGEST, placeholder=' ...')}"


def _sent(request: Any, pointer: str) -> str:
    for part in pointer.split("/")[1:]:
        request = request.get(part) if isinstance(request, dict) else request
    return f", {request!r}" if isinstance(request, (str, int, float)) else ""
