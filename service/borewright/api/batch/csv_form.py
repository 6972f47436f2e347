"""Batches as CSV (RFC 4180, UTF-8, comma, a head of column names): dotted names lead into objects."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from typing import Any

import orjson

from borewright.api.problems import Refusal
from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT, TEXT_OF
from borewright.core.errors import nearest

from .lines import LONGEST_LINE

Json = dict[str, Any]
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,18})?")
_FLAGS = {"true": True, "false": False}
#: Empty lines in a row that are read; no cell has so many.
_MOST_EMPTY = 1000
#: Spreadsheets take a text that begins so for a formula.
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")


def items(lines: Iterator[bytes | None]) -> Iterator[bytes | Refusal]:
    """The rows of a CSV upload, each as the JSON of its item; a row that cannot be read is a refusal.

    Raises: Refusal for a head that has no or unknown columns.
    """
    rows = _rows(lines)
    head = next(rows, None)
    if head is None or isinstance(head, Refusal):
        raise head or Refusal("csv_unreadable", "The CSV has no head of column names.")
    return _bodies(_columns(head), rows)


def _bodies(names: tuple[str, ...], rows: Iterator[list[str] | Refusal]) -> Iterator[bytes | Refusal]:
    for row in rows:
        if isinstance(row, Refusal):
            yield row
        elif len(row) > len(names):
            yield Refusal("csv_unreadable", f"The row has {len(row)} cells, the head has {len(names)}.")
        elif any(row):
            yield orjson.dumps(_item(names, row))


def _rows(lines: Iterator[bytes | None]) -> Iterator[list[str] | Refusal]:
    reader = csv.reader(_texts(lines), strict=True)
    while True:
        try:
            yield next(reader)
        except StopIteration:
            return
        except (csv.Error, UnicodeDecodeError) as error:
            yield Refusal("csv_unreadable", f"The row cannot be read as CSV in UTF-8: {error}.")


class _texts:  # noqa: N801 - an iterator that goes on after an error, which a generator cannot
    def __init__(self, lines: Iterator[bytes | None]) -> None:
        self._lines, self._first, self._empty = lines, True, 0

    def __iter__(self) -> _texts:
        return self

    def __next__(self) -> str:
        line = self._next_line()
        if line is None:
            raise csv.Error(f"the line is longer than {LONGEST_LINE} bytes")
        text = line.decode("utf-8-sig" if self._first else "utf-8")
        self._first = False
        return text + "\n"

    def _next_line(self) -> bytes | None:
        """The next line; of many empty ones in a row only the first are looked at, whether or not a cell is open."""
        line = next(self._lines)
        while line == b"" and self._empty >= _MOST_EMPTY:
            line = next(self._lines)
        self._empty = self._empty + 1 if line == b"" else 0
        return line


def _columns(head: list[str]) -> tuple[str, ...]:
    names = tuple(name.strip() for name in head)
    for name in names:
        if name not in COLUMNS:
            raise Refusal(
                "csv_column_unknown",
                "The head of the CSV has a column that is not known.",
                pointer="/" + name[:80].replace("~", "~0").replace("/", "~1"),
                allowed=COLUMNS,
                did_you_mean=nearest(name[:80], COLUMNS),
            )
    if len(set(names)) < len(names):
        raise Refusal("csv_unreadable", "The head of the CSV has the same column twice.")
    return names


def _item(names: tuple[str, ...], row: list[str]) -> Json:
    item: Json = {}
    for name, cell in zip(names, row, strict=False):
        if cell := cell.strip():
            _put(item, name, _value(COLUMNS[name].kind, cell))
    return item


def _put(item: Json, name: str, value: object) -> None:
    """Set a value; a text that names what dotted columns say more of becomes a field of that object."""
    path, _, last = name.rpartition(".")
    if path:
        inner = item.setdefault(path, {})
        if not isinstance(inner, dict):
            inner = item[path] = {TEXT_OF[path]: inner}
        item = inner
    elif isinstance(item.get(last), dict):
        item[last][TEXT_OF[last]] = value
        return
    item[last] = value


def _value(kind: str, cell: str) -> object:
    if kind == "figure" and _NUMBER.fullmatch(cell):
        return orjson.loads(cell)
    if kind == "flag":
        return _FLAGS.get(cell.lower(), cell)
    if kind == "list":
        return [part.strip() for part in cell.split(";") if part.strip()]
    return cell


def head() -> bytes:
    """The first row of an answer."""
    return _row(list(OUTPUT))


def show(result: Json) -> bytes:
    """The row of a result without its index."""
    known = {**result, **(result.get("spec") or {}), "status": result["status"], "id": result["id"]}
    return b"," + _row([_cell(_found(known, path.split("."))) for path in list(OUTPUT)[1:]])


def _found(value: object, path: list[str]) -> object:
    for name in path:
        if isinstance(value, (list, tuple)):
            value = [_found(part, [name]) for part in value]
        elif isinstance(value, dict):
            value = value.get(name)
        else:
            return None
    return value


def _cell(value: object) -> object:
    if isinstance(value, (list, tuple)):
        value = " | ".join(str(part) for part in value)
    return "'" + value if isinstance(value, str) and value.startswith(_FORMULA) else value


def _row(cells: list[Any]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerow(cells)
    return text.getvalue().encode()
