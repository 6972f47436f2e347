"""Replies as flat tables of CSV: a column a figure, safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import IO, Any

from .columns import WRITTEN

Reply = Mapping[str, Any]
#: A spreadsheet takes a fraction for a date: it is an inch, as the label of a drill.
_FRACTION = re.compile(r"(?:[0-9]{1,2}-)?[0-9]{1,2}/[0-9]{1,2}")
#: A spreadsheet takes a text that begins so for a formula.
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r", "\n")


class Writer:
    """Rows under a head of dotted names; lists are joined by `` | ``."""

    def __init__(self, target: IO[str], columns: Sequence[str]) -> None:
        self._rows = csv.writer(target)
        self._paths = [name.split(".") for name in columns]
        self._rows.writerow(columns)

    def write(self, row: Mapping[str, Any]) -> None:
        """One row: what each dotted name leads to, blank where there is nothing."""
        self._rows.writerow([_cell(_found(row, path)) for path in self._paths])


def write(target: IO[str], command: str, reply: Reply) -> None:
    """The reply of a command as CSV."""
    if command == "catalog":
        rows: list[Reply] = list(_catalog(reply))
        columns: Sequence[str] = list(dict.fromkeys(name for row in rows for name in row))
    else:
        command = "decode" if "holds" in reply else command
        columns, rows = WRITTEN[command], list(_rows(command, reply))
    writer = Writer(target, columns)
    for row in rows:
        writer.write(row)


def _rows(command: str, reply: Reply) -> Iterator[Reply]:
    if command in ("drill", "tap"):
        yield from ({**reply, **row} for row in _choices(reply))
    elif command == "decode":
        yield from ({**reply, **held} for held in reply["holds"] or [{}])
    elif command == "plan":
        yield from ({**reply, **step} for step in operations_of(reply))
    elif command == "note":
        yield from ({**hole, **hole["request"]} for hole in reply["holes"])
    elif command == "rework":
        yield from _ways(reply)
    elif command == "compare":
        yield from _compared(reply)
    elif command == "fit":
        yield from ({**reply, **row} for row in reply["fit"])
    elif command == "audit":
        yield from ({**reply, **finding} for finding in reply["findings"] or [{}])
    else:
        yield reply


def operations_of(reply: Reply) -> Iterator[Reply]:
    """The loadings of each set-up of a part, then what is done to it away from the spindle."""
    steps, away = reply["sequence"], reply["away_from_spindle"]
    for stage in sorted({step["stage"] for step in steps} | {one["after_stage"] for one in away}):
        yield from (step for step in steps if step["stage"] == stage)
        yield from ({**one, "stage": stage} for one in away if one["after_stage"] == stage)


def _ways(reply: Reply) -> Iterator[Reply]:
    for result in reply.get("results") or [{"rework": reply}]:
        found = result.get("rework", result)
        yield from ({**found, **one} for one in found.get("ways") or [{}])


def _compared(reply: Reply) -> Iterator[Reply]:
    for result in reply["results"]:
        comparison = result.get("comparison", {})
        for change in comparison.get("changes") or [{}]:
            yield {**result, "verdict": comparison.get("verdict"), **change}


def _choices(reply: Reply) -> Iterator[Reply]:
    yield {**reply["recommended"], "choice": "recommended"}
    yield from ({**one, "choice": "alternative"} for one in reply["alternatives"])
    yield from ({**one, "choice": "rejected"} for one in reply["rejected"])


def _catalog(reply: Reply) -> Iterator[dict[str, Any]]:
    for row in reply["items"]:
        yield {name: value for name, value in row.items() if not isinstance(value, dict)}


def _found(value: Any, path: Iterable[str]) -> Any:
    for name in path:
        if isinstance(value, list):
            value = [_found(part, (name,)) for part in value]
        elif isinstance(value, Mapping):
            value = value.get(name)
        else:
            return None
    return value


def _cell(value: Any) -> Any:
    if isinstance(value, list):
        value = " | ".join(str(part) for part in value if not isinstance(part, (dict, list)))
    if isinstance(value, bool):
        value = str(value).lower()
    if isinstance(value, str) and _FRACTION.fullmatch(value):
        return f"{value} in"
    return "'" + value if isinstance(value, str) and value.startswith(_FORMULA) else value
