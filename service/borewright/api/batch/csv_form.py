"""The answers of a batch as CSV (RFC 4180, UTF-8, comma, a head of column names): dotted names lead into objects."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from borewright.contract.requests.csv_columns import OF_PLACE, OUTPUT
from borewright.contract.sheets.flat import as_no_date, found

Json = dict[str, Any]
#: Spreadsheets take a text that begins so for a formula.
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")


@dataclass(frozen=True, slots=True)
class CsvForm:
    """How a kind of answer is written: its ``columns``, the first those of its place, and what is ``known`` of a result
    by their names.
    """

    columns: tuple[str, ...]
    known: Callable[[Json], Json]

    def head(self) -> bytes:
        """The first row of an answer."""
        return _row(list(self.columns))

    def show(self, result: Json) -> bytes:
        """The row of a result without its place."""
        known = {**self.known(result), "status": result["status"], "id": result["id"]}
        return b"," + _row([_cell(found(known, path.split("."))) for path in self.columns[len(OF_PLACE) :]])


#: Of specifications: every field of one.
SPECIFICATIONS = CsvForm(tuple(OUTPUT), lambda result: {**result, **(result.get("spec") or {})})


def place(index: int, row: int | None, same_id_as_row: int | None) -> bytes:
    """What stands before the row of a result."""
    return f"{index},{row or ''},{same_id_as_row or ''}".encode()


def _cell(value: object) -> object:
    if isinstance(value, (list, tuple)):
        value = " | ".join(str(part) for part in value)
    value = as_no_date(value)
    return "'" + value if isinstance(value, str) and value.startswith(_FORMULA) else value


def _row(cells: list[Any]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerow(cells)
    return text.getvalue().encode()
