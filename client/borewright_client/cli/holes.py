"""A file of holes: its rows as requests, and where in the file each of them stood."""

from __future__ import annotations

import csv
import difflib
import json
import shutil
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from .columns import COLUMNS
from .exit_codes import WrongUse
from .fields import Request, figure, put


class Hole(NamedTuple):
    """A request and the row it came from, counted as a spreadsheet counts them (of .ndjson: the line).

    ``problem`` where the service could not read the row.
    """

    row: int
    request: Request
    problem: Request | None = None


def is_csv(name: str) -> bool:
    """Whether the name of a file says that it is CSV."""
    return name.lower().endswith(".csv")


def read(name: str, lines: Iterable[str], further: Sequence[str] = ()) -> Iterator[Hole]:
    """The holes of a file. Raises: WrongUse, which names row and column.

    Args: ``further`` figures that a row may have beside those of a hole, each a column of that name.
    """
    return _of_csv(name, lines, further) if is_csv(name) else _of_json(name, lines)


def kept(files: ExitStack, name: str) -> str:
    """The name of a file; standard input, called ``-``, is kept in one until ``files`` are closed.

    What begins as JSON does is taken for NDJSON, all else for CSV.
    """
    if name != "-":
        return name
    folder = files.enter_context(TemporaryDirectory())
    first = sys.stdin.readline()
    path = Path(folder, "stdin.ndjson" if first.lstrip("\ufeff \t\r\n").startswith("{") else "stdin.csv")
    with path.open("w", encoding="utf-8", newline="") as copy:
        copy.write(first)
        shutil.copyfileobj(sys.stdin, copy)
    return str(path)


def column_of(pointer: str) -> str:
    """The column that a pointer into a request names; where a text stands for an object, the column of the text."""
    names = [part for part in pointer.split("/")[1:] if not part.isdigit()]
    dotted = ".".join(names)
    short = ".".join(names[:-1])
    return short if dotted not in COLUMNS and short in COLUMNS else dotted


def _of_json(name: str, lines: Iterable[str]) -> Iterator[Hole]:
    for number, line in enumerate(lines, 1):
        if line.strip():
            try:
                request = json.loads(line)
            except ValueError as error:
                raise WrongUse(f"{name} line {number}: this is not JSON: {error}") from None
            if not isinstance(request, dict):
                raise WrongUse(f"{name} line {number}: a hole is a JSON object, {{...}}")
            yield Hole(number, request)


def _of_csv(name: str, lines: Iterable[str], further: Sequence[str]) -> Iterator[Hole]:
    rows = _numbered(name, csv.reader(lines, strict=True))
    head = _head(name, next(rows, (1, []))[1], further)
    for number, cells in rows:
        if any(cell.strip() for cell in cells[len(head) :]):
            raise WrongUse(f"{name} row {number}: {len(cells)} cells, but the head names {len(head)} columns")
        request: Request = {}
        for column, cell in zip(head, cells, strict=False):
            if column in further and cell.strip():
                request[column] = figure(cell.strip())
            elif column and cell.strip():
                put(request, column, cell.strip())
        if request:
            yield Hole(number, request)


def _numbered(name: str, rows: Iterator[list[str]]) -> Iterator[tuple[int, list[str]]]:
    number = 0
    while True:
        number += 1
        try:
            yield number, next(rows)
        except StopIteration:
            return
        except csv.Error as error:
            raise WrongUse(f"{name} row {number}: this row cannot be read as CSV: {error}") from None
        except UnicodeDecodeError:
            raise WrongUse(f"{name} row {number}: the file is not UTF-8; save it as 'CSV UTF-8'") from None


def _head(name: str, cells: Sequence[str], further: Sequence[str]) -> list[str]:
    head = [cell.strip() for cell in cells]
    for place, column in enumerate(head, 1):
        if column and column not in COLUMNS and column not in further:
            raise WrongUse(f"{name} row 1, column {place}, {column!r}: {_hint(column)}")
        if column and head.index(column) != place - 1:
            raise WrongUse(f"{name} row 1, column {place}, {column!r}: this column is there twice")
    if "thread" not in head:
        raise WrongUse(f"{name} row 1: no column 'thread'. Row 1 names the columns: {', '.join(COLUMNS)}")
    return head


def _hint(column: str) -> str:
    near = difflib.get_close_matches(column.lower(), COLUMNS, 1, 0.5)
    last = [known for known in COLUMNS if known.rpartition(".")[2] == column.lower().replace(" ", "_")]
    meant = f"; probably {(last or near)[0]!r} is meant" if last or near else ""
    return f"no such column{meant}. Columns are {', '.join(COLUMNS)}"
