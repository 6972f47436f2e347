"""What a heading of a sheet means: any case and spelling, a unit behind it, what is passed over, what is refused."""

from __future__ import annotations

import pytest
from borewright.contract.requests.csv_columns import COLUMNS as COLUMNS_OF_HOLES
from borewright.contract.requests.csv_columns import Column
from borewright.contract.sheets.headings import Heading, HeadRefused, read
from borewright.contract.sheets.rows import PART_COLUMNS, sheet
from every import every

COLUMNS = frozenset(
    ("id", "thread", "hole.type", "hole.full_thread_depth", "percent_thread", "material.hardness", "stock.drills")
)
PASSED_OVER = ("verdict", "headline.drill")
DEPTH = "hole.full_thread_depth"


def head(*cells):
    return read(cells, COLUMNS, PASSED_OVER)


@every(
    ("cell", "column", "unit", "stands_for"),
    [
        ("thread", "thread", "", ""), (" Thread ", "thread", "", ""), ("HOLE TYPE", "hole.type", "", ""),
        ("full_thread_depth", DEPTH, "", ""), ("Bohrung", "id", "", ""),
        # a unit in brackets of either kind, behind a comma, or one of length behind a blank
        ("Full thread depth (mm)", DEPTH, "mm", ""), ("Full Thread Depth [ in ]", DEPTH, "in", ""),
        ("full thread depth, inch", DEPTH, "in", ""), ("full thread depth mm", DEPTH, "mm", ""),
        ("full thread depth, Inches.", DEPTH, "in", ""), ("Full thread depth (mil)", DEPTH, "mil", ""),
        # percent of thread has no other unit
        ("Percent thread (%)", "percent_thread", "", ""), ("% thread", "percent_thread", "", ""),
        # a yes under it means a word
        ("through", "hole.type", "", "through"),
        # for people, known and not read, empty
        ("Comment", "", "", ""), ("Part-Number", "", "", ""), ("verdict", "", "", ""), ("Headline drill", "", "", ""),
        ("", "", "", ""),
        # a heading of 80 characters
        ("thread" + "-" * 74, "thread", "", ""),
    ],
)  # fmt: skip
def test_what_a_heading_is_read_as(cell, column, unit, stands_for):
    assert head(cell) == (Heading(cell.strip(), column, unit, stands_for),)


@every(
    ("cell", "meant"),
    [("therad", "thread"), ("full thread depth mil", DEPTH), ("Full thread depth (furlong)", DEPTH)],
)
def test_a_heading_that_is_none_is_refused_with_what_was_meant(cell, meant):
    with pytest.raises(HeadRefused) as refused:
        head(cell)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer, fault.did_you_mean[0]) == ("csv_column_unknown", f"/{cell}", meant)
    assert "rename it, or take it out" in fault.detail


def test_nothing_is_guessed_of_a_heading_beyond_80_characters():
    with pytest.raises(HeadRefused) as refused:
        head("thread" + "-" * 75)
    (fault,) = refused.value.faults
    assert (fault.code, fault.did_you_mean) == ("csv_column_unknown", ())
    assert fault.pointer == "/thread" + "-" * 74


@every(
    ("cells", "same"),
    [
        (("Thread", "thread"), "thread"), (("type", "hole.type"), "hole.type"), (("comment", "comment"), "comment"),
        (("id", "thread", "Bohrung"), "id"),
        (("comment", "Remarks"), None), (("", "", "thread"), None),
    ],
)  # fmt: skip
def test_two_headings_of_one_column_are_refused(cells, same):
    if same is None:
        assert [one.column for one in head(*cells)].count("") == 2
        return
    with pytest.raises(HeadRefused) as refused:
        head(*cells)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("csv_unreadable", f"/{cells[-1]}")
    assert fault.detail == f"The headings {cells[0]!r} and {cells[-1]!r} mean the same column, {same}."


@every(("unknown", "told"), [(1, 1), (4, 4), (5, 5), (6, 5), (9, 5)])
def test_five_headings_that_are_none_are_told(unknown, told):
    with pytest.raises(HeadRefused) as refused:
        head("thread", *(f"a{place}" for place in range(unknown)))
    assert [one.pointer for one in refused.value.faults] == [f"/a{place}" for place in range(told)]


@every(
    ("heading", "is_told"),
    [
        (Heading("thread", "thread"), False),
        (Heading("Thread", "thread"), True),
        (Heading("comment", ""), True),
        (Heading("", ""), False),
    ],
)
def test_a_heading_is_told_where_it_is_not_the_name_of_its_column(heading, is_told):
    assert heading.is_told is is_told


@every(
    ("cells", "columns", "read_as"),
    [
        # an answer that is sent again, and a list of a part: what is known of them is passed over
        (("thread", "verdict", "count"), COLUMNS_OF_HOLES, ["thread", "", ""]),
        (("thread", "verdict", "count"), PART_COLUMNS, ["thread", "", "count"]),
        # a sheet of measurements knows nothing of holes
        (("measured", "verdict"), {"measured": Column("figures", "", ())}, None),
        (("measured",), {"measured": Column("figures", "", ())}, ["measured"]),
    ],
)
def test_what_a_sheet_passes_over(cells, columns, read_as):
    if read_as is None:
        with pytest.raises(HeadRefused):
            sheet(cells, columns)
    else:
        assert [one.column for one in sheet(cells, columns).head] == read_as
