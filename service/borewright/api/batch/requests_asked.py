"""What was asked, kept beside the answers of a workbook: the sheet as it was sent, or requests as columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from typing import Any

import orjson

from borewright.contract.requests.csv_columns import COLUMNS, OUTPUT
from borewright.contract.sheets.flat import request_cells

from .sheet_items import SheetItem

Json = dict[str, Any]


class RequestsAsked:
    """The requests of a batch in their order, taken on their way to their answers."""

    def __init__(self) -> None:
        self._requests: list[dict[str, object]] = []

    def of_items(self, items: Iterable[Any]) -> Iterator[Any]:
        """The items, each remembered."""
        for item in items:
            self._requests.append(request_cells(item) if isinstance(item, dict) else {})
            yield item

    def of_lines(self, lines: Iterable[bytes | None]) -> Iterator[bytes | None]:
        """The lines, each remembered."""
        for line in lines:
            cells: dict[str, object] = {}
            with suppress(ValueError):
                request = orjson.loads(line or b"null")
                cells = request_cells(request) if isinstance(request, dict) else {}
            self._requests.append(cells)
            yield line

    def of_rows(self, rows: Iterable[SheetItem]) -> Iterator[SheetItem]:
        """The rows, the cells of each remembered under the headings that they had."""
        for row in rows:
            self._requests.append({name: cell for name, cell in row.sent if name not in OUTPUT or name in COLUMNS})
            yield row

    def head(self) -> list[str]:
        """Headings that any request has, in the order of the contract or of the sheet."""
        known = dict.fromkeys(name for cells in self._requests for name in cells)
        if known.keys() <= COLUMNS.keys():
            return [name for name in COLUMNS if name in known]
        return list(known)

    def cells(self, head: Sequence[str], places: Iterable[int]) -> list[list[object]]:
        """The cells of the requests at some places; blank past their end, where an upload was refused."""
        return [[self._of(place).get(name) for name in head] for place in places]

    def _of(self, place: int) -> dict[str, object]:
        return self._requests[place] if place < len(self._requests) else {}
