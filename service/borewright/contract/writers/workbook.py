"""Workbooks (.xlsx) that are written: all cells text, so that nothing turns into a date or runs as a formula."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from io import BytesIO
from typing import Any, NamedTuple

MEDIA_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_NARROWEST, _WIDEST = 6, 60
#: What XML cannot hold.
_UNWRITABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
#: Most characters of a cell.
_LONGEST = 32_767
#: A workbook says when it was made: the same answer has the same bytes.
_CREATED = datetime(2000, 1, 1)


class Table(NamedTuple):
    """A sheet of a workbook: its name, the head that stays in sight, and its rows."""

    name: str
    head: Sequence[str]
    rows: Sequence[Sequence[object]]


def written(tables: Iterable[Table]) -> bytes:
    """The workbook of some tables."""
    from xlsxwriter import Workbook  # who asks for no workbooks does without

    target = BytesIO()
    with Workbook(target, {"in_memory": True}) as book:
        book.set_properties({"created": _CREATED})
        for table in tables:
            _write(book, table)
    return target.getvalue()


def _write(book: Any, table: Table) -> None:
    as_text = book.add_format({"num_format": "@"})
    sheet = book.add_worksheet(table.name)
    rows = [[shown(value) for value in row] for row in table.rows]
    sheet.freeze_panes(1, 0)
    for place, width in enumerate(_widths(table.head, rows)):
        sheet.set_column(place, place, width, as_text)
    _write_row(sheet, 0, table.head, book.add_format({"num_format": "@", "bold": True}))
    for number, row in enumerate(rows, 1):
        _write_row(sheet, number, row, as_text)


def _write_row(sheet: Any, number: int, row: Sequence[str], form: Any) -> None:
    for place, text in enumerate(row):
        if text:
            sheet.write_string(number, place, text[:_LONGEST], form)


def _widths(head: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[int]:
    for place, name in enumerate(head):
        longest = max((len(row[place]) for row in rows if place < len(row)), default=0)
        yield min(max(len(name), longest, _NARROWEST) + 2, _WIDEST)


def shown(value: object) -> str:
    """The text of a cell; lists are joined by `` | ``."""
    if value is None:
        return ""
    if isinstance(value, (list, tuple)):
        value = " | ".join(shown(part) for part in value)
    if isinstance(value, bool):
        value = str(value).lower()
    return _UNWRITABLE.sub("\ufffd", str(value))
