"""What a spreadsheet took for a date: which days a cell may be, and what was typed for each of them.

Days by number count from 1899-12-30: 1 January 2000 is 36526, as every spreadsheet has it.
"""

from __future__ import annotations

from borewright.contract.requests.csv_columns import Column
from borewright.contract.sheets.cells import date_fault
from borewright.contract.sheets.dates import Day, days, sizes_meant, threads_meant
from every import every


@every(
    ("cell", "found"),
    [
        # month first or day first, where both can be
        ("1/2/2013", [(1, 2, 13), (2, 1, 13)]),
        ("1/2/13", [(1, 2, 13), (2, 1, 13)]),
        ("02.01.2013", [(2, 1, 13), (1, 2, 13)]),
        ("1-2-2013", [(1, 2, 13), (2, 1, 13)]),
        ("6.8.", [(6, 8, None), (8, 6, None)]),
        ("2/2/2013", [(2, 2, 13)]),
        ("5/16/2026", [(5, 16, 26)]),
        ("16/5/2026", [(5, 16, 26)]),
        ("12/31/2026", [(12, 31, 26)]),
        ("1/2/2000", [(1, 2, 0), (2, 1, 0)]),
        # no month above 12, no day above 31, none of zero
        ("13/31/2026", []),
        ("12/32/2026", []),
        ("0/5/2026", []),
        ("1/2.2013", []),
        ("1-2-13", []),
        # year first, and midnight behind it
        ("2013-01-02", [(1, 2, 13)]),
        ("2013-01-02 00:00:00", [(1, 2, 13)]),
        ("2013-01-02T00:00", [(1, 2, 13)]),
        ("2013-01-02 01:00:00", []),
        # months by name, and the second number as a year
        ("24-Oct", [(10, 24, None), (10, None, 24)]),
        ("24. Okt", [(10, 24, None), (10, None, 24)]),
        ("Oct 24", [(10, 24, None), (10, None, 24)]),
        ("Jun-32", [(6, None, 32)]),
        ("8 Jan 2013", [(1, 8, 13)]),
        ("Jan 8, 2013", [(1, 8, 13)]),
        ("8-Abc", []),
        # 40 characters, with twenty zeros of a second; 41
        (f"2013-01-02 00:00:00.{'0' * 20}", [(1, 2, 13)]),
        (f"2013-01-02 00:00:00.{'0' * 21}", []),
        # days by number: 26,526 before 2000 began and 43,473 after
        ("36526", [(1, 1, 0)]),
        ("36526.0", [(1, 1, 0)]),
        ("10000", [(5, 18, 27)]),
        ("79999", [(1, 10, 19)]),
        ("9999", []),
        ("80000", []),
        ("1/2-13", []),
        ("", []),
    ],
)
def test_the_days_of_a_cell(cell, found):
    assert [tuple(day) for day in days(cell, serial=True)] == found
    by_number = cell.replace(".0", "").isdigit()
    assert [tuple(day) for day in days(cell, serial=False)] == ([] if by_number else found)


@every(
    ("found", "meant"),
    [
        ([(1, 2, 13)], ("1/2-13 UNC",)),
        ([(1, 2, 20)], ("1/2-20 UNF",)),
        ([(10, 24, None)], ("#10-24 UNC",)),
        ([(10, None, 24)], ("#10-24 UNC",)),
        ([(10, 1, 24)], ("#10-24 UNC",)),  # the first of a month is how a month alone is kept
        ([(1, 13, None)], ("1-13 UNS",)),
        ([(1, 8, None), (8, 1, None)], ("1-8 UNC",)),
        ([(12, 31, None)], ()),
    ],
)
def test_the_threads_of_a_day(found, meant):
    assert threads_meant(tuple(Day(*one) for one in found)) == meant


def test_a_size_alone_may_be_five_threads_the_usual_ones_first():
    """5/16 has a coarse, a fine and an extra-fine pitch in ASME B1.1, and constant ones."""
    meant = threads_meant((Day(5, 16, None),))
    assert (len(meant), meant[:3]) == (5, ("5/16-18 UNC", "5/16-24 UNF", "5/16-32 UNEF"))


@every(
    ("found", "meant"),
    [
        ([(5, 16, 26)], ("5/16", "16.5")),
        ([(1, 2, 16)], ("1/2", "2.1")),
        ([(1, 3, 4)], ("1-3/4", "3.1")),
        ([(7, None, 32)], ("7/32",)),
        ([(7, 1, 32)], ("7/32", "7-1/32", "1.7")),
        ([(7, 2, 32)], ("2.7",)),
        ([(8, 6, 26), (6, 8, 26)], ("6.8", "8.6")),
        ([(3, 4, None)], ("3/4", "4.3")),
        ([(3, 8, None)], ("3/8", "8.3")),
        ([(9, None, 64)], ("9/64",)),
        ([(9, None, 63)], ()),
        ([(2, 4, None)], ("4.2",)),
        ([(4, 2, None)], ("2.4",)),
    ],
)
def test_the_sizes_of_a_day(found, meant):
    assert sizes_meant(tuple(Day(*one) for one in found)) == meant


@every(
    ("name", "kind", "cell", "typed"),
    [
        ("thread", "word", "1/2/2013", ", probably 1/2-13 UNC"),
        (
            "thread",
            "word",
            "41276",
            ", probably 1/2-13 UNC",
        ),  # 36526 + 13 x 365 + 4 leap days + 1
        ("thread", "word", "12/31/2099", ""),
        ("drill", "word", "16-May", ", probably 5/16 or 16.5"),
        ("stock.drills", "list", "#7; 16-May", ", probably 5/16 or 16.5"),
        ("stock.drills", "list", "#7;46158", ", probably 5/16 or 16.5"),  # 36526 + 26 x 365 + 7 + 135
        ("depth", "figure", "2032-07-01", ", probably 7/32, 7-1/32 or 1.7"),
        ("depth", "figures", "2/1/2016", ", which can be 2-1/16, 1/2, 1.2 or 2.1"),
        ("depth", "figure", "7/1/2032", ", which can be 7/32, 7-1/32, 1-7/32, 1.7 or 7.1"),
        # a number of days is a figure, and other words are no dates
        ("depth", "figure", "36526", None),
        ("material", "word", "1/2/2013", None),
        ("stock.drills", "list", "#7;5/16", None),
    ],
)
def test_what_was_typed_is_told(name, kind, cell, typed):
    fault = date_fault(name, Column(kind, "", ()).kind, cell)
    if typed is None:
        assert fault is None
        return
    assert fault.code == "cell_is_a_date"
    assert fault.detail == (
        f"{cell!r} is a date: a spreadsheet made it of what was typed{typed}."
        " Make the column one of text and type it again."
    )
