"""Rows of a sheet as items of a batch, each with where it stood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from urllib.parse import quote

import orjson

from borewright.api.problems import Refusal
from borewright.contract.requests.csv_columns import Column
from borewright.contract.sheets import rows
from borewright.contract.sheets.headings import HeadRefused
from borewright.core.errors import BorewrightError

from .csv_rows import Cells

Json = dict[str, Any]
NumberedRows = Iterator[tuple[int, Cells | Refusal]]
#: Tells how headings were read that are not simply names of columns.
COLUMNS_HEADER = "Borewright-Columns"
#: Balancers set a head of 4 KiB aside.
_LONGEST_HEADER = 2000
_SAFE = " !#$&'()*+-./:<>?@[]^_`{|}~"


class SheetItem:
    """A row: its ``number`` in the sheet, and its request as JSON or why it is none, with the id that it has."""

    def __init__(self, number: int, sheet: rows.Sheet, cells: Cells | Refusal) -> None:
        self.number, self._sheet = number, sheet
        self._cells = [] if isinstance(cells, Refusal) else cells
        self.name = sheet.name(self._cells)
        self.content: bytes | Refusal | BorewrightError = self._content(cells)

    def _content(self, cells: Cells | Refusal) -> bytes | Refusal | BorewrightError:
        if isinstance(cells, Refusal):
            return cells
        width = len(self._sheet.head)
        if any(map(str.strip, cells[width:])):
            return Refusal("csv_unreadable", f"The row has {len(cells)} cells, the head has {width}.")
        try:
            return orjson.dumps(self._sheet.request(cells))
        except BorewrightError as error:
            return error
        except (TypeError, UnicodeEncodeError):
            return Refusal("csv_unreadable", "The row holds half a letter of UTF-16.")

    @property
    def sent(self) -> list[tuple[str, str]]:
        """Heading and text of each cell that is not blank."""
        found = zip(self._sheet.head, self._cells, strict=False)
        return [(heading.text, cell.strip()) for heading, cell in found if heading.text and cell.strip()]

    def mark(self, problem: Json) -> None:
        """Name at each fault of a problem of the row the heading of its column and what the cell holds."""
        for error in problem["errors"]:
            place = self._sheet.place(self._cells, error["pointer"])
            if place is not None:
                error["column"], error["cell"] = place


class Columns:
    """What a reply tells of a head: the headings that are not simply names of columns."""

    def __init__(self, told: list[dict[str, str | None]]) -> None:
        self.told = told

    @property
    def header(self) -> str:
        """As a header: ``Thread=thread, Wall (mm)=hole.thickness``, what is no plain sign percent-encoded."""
        text = ", ".join(f"{quote(one['heading'] or '', _SAFE)}={one['read_as'] or ''}" for one in self.told)
        return text if len(text) <= _LONGEST_HEADER else f"{text[:_LONGEST_HEADER].rpartition(',')[0]}, ..."


class SheetItems:
    """The items of a sheet.

    Args: ``found`` are its rows, the head first.

    Raises: Refusal for a head that cannot be used.
    """

    def __init__(self, found: NumberedRows, columns: Mapping[str, Column], *, decimal_comma: bool = False) -> None:
        self._rows = found
        _, head = next(found, (0, Refusal("csv_unreadable", "The sheet has no head of column names.")))
        if isinstance(head, Refusal):
            raise head
        try:
            self._sheet = rows.sheet(head, columns, decimal_comma=decimal_comma)
        except HeadRefused as error:
            raise Refusal.of(error.faults) from None

    @property
    def told(self) -> list[dict[str, str | None]]:
        """How headings were read that are not simply names of columns."""
        return self._sheet.told()

    def __iter__(self) -> Iterator[SheetItem]:
        """The rows that are not blank."""
        for number, cells in self._rows:
            if isinstance(cells, Refusal) or any(map(str.strip, cells)):
                yield SheetItem(number, self._sheet, cells)
