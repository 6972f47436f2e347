"""Workbooks (.xlsx) that are read: the rows of their first sheet as texts, bounded before anything is parsed.

A workbook is a ZIP of XML. What it would be inflated to is known from its directory, and no part is read past what that
says; the marks of its XML are counted before they are made objects. Document types and entities are refused.
"""

from __future__ import annotations

import re
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from datetime import datetime, time
from io import BytesIO
from typing import Any, NamedTuple
from xml.etree.ElementTree import ParseError

from borewright.core.errors import Fault

#: More parts than these are no list of holes.
_MOST_PARTS = 500
#: Columns that are looked at; there are not half as many to be named.
_MOST_COLUMNS = 256
#: Rows without a cell, one after the other, that are read over.
_MOST_EMPTY = 1000
_DAMAGED = (
    zipfile.BadZipFile,
    zlib.error,
    ParseError,
    KeyError,
    ValueError,
    TypeError,
    IndexError,
    AttributeError,
    EOFError,
)
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_MIDNIGHT = time()
_XML = (".xml", ".rels", ".vml")
_ENCODING = re.compile(rb"""^\s*<\?xml[^>]*encoding\s*=\s*["']([^"']*)["']""")


class Most(NamedTuple):
    """How much a workbook may hold: ``size`` in bytes after inflation, ``marks`` of its XML."""

    size: int
    marks: int


class WorkbookRefused(Exception):
    """The workbook is not read. ``faults`` say why; its code is ``workbook_unreadable`` or ``too_much_work``."""

    def __init__(self, code: str, detail: str) -> None:
        super().__init__(detail)
        self.faults: Sequence[Fault] = (Fault(code, detail),)


def rows(content: bytes, most: Most) -> Iterator[tuple[int, list[str]]]:
    """Number and cells of each row of the first sheet, from the first one with a cell.

    Raises: WorkbookRefused, also between rows.
    """
    _check(content, most)
    try:
        yield from _rows(content)
    except _DAMAGED as error:
        raise _damaged(error) from None


def _damaged(error: Exception) -> WorkbookRefused:
    return WorkbookRefused("workbook_unreadable", f"The body is no workbook (.xlsx), or is damaged: {error}.")


def _check(content: bytes, most: Most) -> None:
    """Refuse what is too large, or no workbook, before it is parsed."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            parts = archive.infolist()
            _check_size(parts, most)
            marks = sum(_marks(archive.read(part)) for part in parts if part.filename.lower().endswith(_XML))
    except (*_DAMAGED, RuntimeError, NotImplementedError) as error:
        raise _damaged(error) from None
    if marks > most.marks:
        raise WorkbookRefused(
            "too_much_work", f"The workbook holds more than {most.marks} marks of XML. Send fewer rows."
        )


def _check_size(parts: Sequence[zipfile.ZipInfo], most: Most) -> None:
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > most.size:
        raise WorkbookRefused(
            "too_much_work", f"The workbook holds more than {most.size} bytes or {_MOST_PARTS} parts. Send fewer rows."
        )
    if any(part.compress_type not in _METHODS for part in parts):
        raise WorkbookRefused(
            "workbook_unreadable", "A part of the workbook is compressed in a way that is not read here."
        )


def _marks(xml: bytes) -> int:
    encoding = _ENCODING.match(xml.removeprefix(b"\xef\xbb\xbf"))
    if b"<!DOCTYPE" in xml or b"\x00" in xml or (encoding is not None and encoding[1].lower() != b"utf-8"):
        raise WorkbookRefused("workbook_unreadable", "The XML of the workbook is not in UTF-8, or has a document type.")
    return xml.count(b"<")


def _rows(content: bytes) -> Iterator[tuple[int, list[str]]]:
    from openpyxl import load_workbook  # who sends no workbooks does without

    book = load_workbook(BytesIO(content), read_only=True, data_only=True, keep_links=False)
    sheet = book.worksheets[0]
    sheet.reset_dimensions()
    empty, begun = 0, False
    for number, values in enumerate(sheet.iter_rows(values_only=True, max_col=_MOST_COLUMNS), 1):
        cells = [text(value) for value in values]
        filled = any(cells)
        empty, begun = 0 if filled else empty + 1, begun or filled
        if empty > _MOST_EMPTY:
            return
        if begun:
            yield number, cells


def text(value: Any) -> str:
    """What a spreadsheet shows of a value: 15 digits of a number, a day as ISO 8601 writes it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return f"{value:.15g}"
    if isinstance(value, datetime) and value.time() == _MIDNIGHT:
        return value.date().isoformat()
    return str(value)  # of a day and its time as ISO 8601 writes them
