"""The rows of a workbook as texts: from the first that has a cell, over gaps, values and not formulas."""

from __future__ import annotations

from datetime import date, datetime, time
from io import BytesIO
from zipfile import ZipFile

import openpyxl
import pytest
from borewright.contract.sheets.workbooks import Most, WorkbookRefused, rows, text
from every import every

MOST = Most(10_000_000, 1_000_000)


def made(filled):
    """A workbook with these rows by number."""
    book = openpyxl.Workbook()
    for number, value in filled.items():
        book.active.cell(row=number, column=1, value=value)
    target = BytesIO()
    book.save(target)
    return target.getvalue()


def read(filled):
    """What is read of such a workbook."""
    return {number: cells[0] for number, cells in rows(made(filled), MOST) if any(cells)}


def test_a_workbook_holds_no_more_bytes_and_marks_than_it_may():
    """Both bounds belong to what is read; bytes are those after inflation, marks the opening ones of its XML."""
    book = made({1: "id", 2: "A"})
    with ZipFile(BytesIO(book)) as archive:
        parts = [archive.read(name) for name in archive.namelist()]
    size, marks = sum(map(len, parts)), sum(part.count(b"<") for part in parts)
    assert len(list(rows(book, Most(size, marks)))) == 2
    for most in (Most(size - 1, marks), Most(size, marks - 1)):
        with pytest.raises(WorkbookRefused) as refused:
            list(rows(book, most))
        assert refused.value.faults[0].code == "too_much_work"


@every(
    ("filled", "found"),
    [
        ({1: "id", 2: "A"}, {1: "id", 2: "A"}),
        ({4: "id", 5: "A"}, {4: "id", 5: "A"}),
        # a thousand rows without a cell are read over, no more
        ({1: "id", 1002: "A"}, {1: "id", 1002: "A"}),
        ({1: "id", 1003: "A"}, {1: "id"}),
        # a formula whose value was never worked out has none
        ({1: "id", 2: "=1+1", 3: "A"}, {1: "id", 3: "A"}),
    ],
)
def test_rows_of_a_workbook(filled, found):
    assert read(filled) == found


@every(
    ("value", "shown"),
    [
        (None, ""), (True, "true"), (False, "false"), (0, "0"), (12, "12"), ("M8", "M8"), (0.1 + 0.2, "0.3"),
        (0.123456789012345678, "0.123456789012346"), (6.8, "6.8"), (date(2026, 5, 16), "2026-05-16"),
        (datetime(2026, 5, 16), "2026-05-16"), (datetime(2026, 5, 16, 7, 30), "2026-05-16 07:30:00"),
        (time(7, 30), "07:30:00"),
    ],
)  # fmt: skip
def test_the_text_of_a_cell(value, shown):
    assert text(value) == shown
