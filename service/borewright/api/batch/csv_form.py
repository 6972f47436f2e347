"""The answers of a batch as CSV (RFC 4180, UTF-8, comma, a head of column names): dotted names lead into objects."""

from __future__ import annotations

import csv
import io
import re
from typing import Any

from borewright.contract.requests.csv_columns import OF_PLACE, OUTPUT

Json = dict[str, Any]
#: A spreadsheet takes a fraction for a date: it is an inch, as the label of a drill.
_FRACTION = re.compile(r"(?:[0-9]{1,2}-)?[0-9]{1,2}/[0-9]{1,2}")
#: Spreadsheets take a text that begins so for a formula.
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠", "\t", "\r")


def head() -> bytes:
    """The first row of an answer."""
    return _row(list(OUTPUT))


def show(result: Json) -> bytes:
    """The row of a result without its place."""
    known = {**result, **(result.get("spec") or {}), "status": result["status"], "id": result["id"]}
    return b"," + _row([_cell(_found(known, path.split("."))) for path in list(OUTPUT)[len(OF_PLACE) :]])


def place(index: int, row: int | None, same_id_as_row: int | None) -> bytes:
    """What stands before the row of a result."""
    return f"{index},{row or ''},{same_id_as_row or ''}".encode()


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
    if isinstance(value, str) and _FRACTION.fullmatch(value):
        return f"{value} in"
    return "'" + value if isinstance(value, str) and value.startswith(_FORMULA) else value


def _row(cells: list[Any]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerow(cells)
    return text.getvalue().encode()
