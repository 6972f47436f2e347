"""What a cell of a sheet stands for, by the kind of its column: figures, yes and no, lists, words in any spelling."""

from __future__ import annotations

import pytest
from borewright.contract.requests.csv_columns import Column
from borewright.contract.sheets.cells import CellRefused, flag, value
from borewright.contract.sheets.dialects import of_head, said
from borewright.contract.sheets.flat import as_no_date, found, request_cells
from every import every


@every(
    ("cell", "unit", "comma", "stands_for"),
    [
        ("12", "", False, 12),
        ("0.75", "", False, 0.75),
        ("-5", "", False, -5),
        (".75", "", False, 0.75),
        (",75", "", False, 0.75),
        ("0,75", "", False, 0.75),
        ("19,05 mm", "", False, "19.05 mm"),
        ("0.75 in", "", False, "0.75 in"),
        ("12", "mm", False, "12 mm"),
        (".75", "in", False, "0.75 in"),
        # a fraction is one of an inch, unless its heading has a unit
        ("3/4", "", False, "3/4 in"),
        ("1 1/8", "", False, "1 1/8 in"),
        ("1-1/8", "", False, "1-1/8 in"),
        ("3/4", "mm", False, "3/4 mm"),
        ("1/3", "", False, "1/3"),
        # what is no number of JSON stays a text: it is refused by its field
        ("007", "", False, "007"),
        ("1e3", "", False, "1e3"),
        ("999999999999999", "", False, 999999999999999),
        ("1000000000000000", "", False, "1000000000000000"),
        # three figures behind a comma may be thousands, but where a comma is a decimal one
        ("1,250", "", True, 1.25),
        ("12,500", "mm", True, "12.500 mm"),
        ("1250,500", "", False, 1250.5),
        ("1,25", "", False, 1.25),
        ("1,2500", "", False, 1.25),
        ("0,750", "", False, 0.75),
    ],
)
def test_a_figure(cell, unit, comma, stands_for):
    assert value(Column("figure", "", ()), cell, unit=unit, decimal_comma=comma) == stands_for


@every(("cell", "either"), [("1,250", ("1.250", "1250")), ("-12,500", ("-12.500", "-12500"))])
def test_a_comma_that_may_part_thousands(cell, either):
    with pytest.raises(CellRefused) as refused:
        value(Column("figure", "", ()), cell)
    fault = refused.value.fault
    assert (fault.code, fault.did_you_mean) == ("quantity_unreadable", either)
    assert fault.detail == f"{cell!r} can be {' or '.join(either)}: write it with a point, or without the comma."


@every(
    ("kind", "words", "cell", "stands_for"),
    [
        ("figures", (), "1;2,5; ;3/4", [1, 2.5, "3/4 in"]),
        ("figures", (), "1", 1),
        ("flag", (), "Yes", True),
        ("flag", (), "x", True),
        ("flag", (), "NEIN", False),
        ("flag", (), "-", False),
        ("flag", (), "perhaps", "perhaps"),
        ("list", (), "#7; 13/64|F;", ["#7", "13/64", "F"]),
        ("list", ("through", "blind"), "THRU;Blind", ["through", "blind"]),
        ("text", ("through", "blind"), "THRU", "through"),
        ("text", ("through", "blind"), "through", "through"),
        ("text", ("through", "blind"), "blnd", "blnd"),
        ("text", ("mm", "metric"), "mm", "mm"),
        ("text", ("iso_metric",), "ISO Metric", "iso_metric"),
        ("text", ("iso_metric",), "iso - metric", "iso_metric"),
        ("text", (), "ISO Metric", "ISO Metric"),
    ],
)
def test_other_cells(kind, words, cell, stands_for):
    assert value(Column(kind, "", words), cell) == stands_for


def test_yes_and_no():
    assert [flag(word) for word in ("1", "Y", "ja", "0", "n", "faux", "2")] == [True] * 3 + [False] * 3 + ["2"]


@every(
    ("line", "delimiter"),
    [("sep=;", ";"), ('"sep=,"', ","), ("SEP=\t\r\n", "\t"), ("sep=;;;", ";"), ("sep=|", None), ("thread;depth", None)],
)
def test_a_first_line_that_says_what_parts_the_cells(line, delimiter):
    assert getattr(said(line), "delimiter", None) == delimiter


@every(
    ("line", "delimiter", "comma"),
    [
        ("thread,hole.type", ",", False),
        ("thread;hole.type", ";", True),
        ("thread\thole.type", "\t", False),
        ("a,b;thread;hole.type", ";", True),
        ("thread", ",", False),
    ],
)
def test_what_parts_the_cells_of_a_head(line, delimiter, comma):
    dialect = of_head(line, ("thread", "hole.type"))
    assert (dialect.delimiter, dialect.decimal_comma) == (delimiter, comma)


def test_a_fraction_alone_is_written_as_an_inch():
    written = [as_no_date(one) for one in ("5/16", "1-1/2", "5/16 in", "#7", 0.3125, None)]
    assert written == ["5/16 in", "1-1/2 in", "5/16 in", "#7", 0.3125, None]


def test_what_stands_under_a_dotted_name():
    reply = {"tap": {"limits": [{"min": 1}, {"min": 2}, {}]}, "drill": None}
    assert found(reply, ["tap", "limits", "min"]) == [1, 2, None]
    assert found(reply, ["tap", "none"]) is None
    assert found(reply, ["drill", "label"]) is None


def test_the_cells_of_a_request():
    """A text stands for the object that has it alone or with further columns; what is missing has no cell."""
    request = {
        "thread": "M8",
        "hole": {"type": "through", "thickness": "12 mm"},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
        "stock": {"drills": ["#7", "13/64"]},
    }
    assert request_cells(request) == {
        "thread": "M8", "hole.type": "through", "hole.thickness": "12 mm", "material": "4140",
        "material.hardness": "28 HRC", "finish": "ASTM B633 Fe/Zn 8", "stock.drills": "#7;13/64",
    }  # fmt: skip
