"""The table of practice: every figure is used, every figure that is used is there, each with its reason and status."""

import ast
from decimal import Decimal
from pathlib import Path

import borewright
import pytest
from borewright import tables
from borewright.core import practice
from every import every
from syntax_trees import nodes

PACKAGE = Path(borewright.__file__).parent
ROWS = tables.load("practice").rows
#: The readers of core/practice.py, and how the name of a row ends for what each is asked.
READERS = {"figure": ("",), "number": ("",), "count": ("",), "sizes": ("_in", "_mm")}
OWN = "our decision: "


def _asked(path):
    """Names of rows that a module asks for."""
    imports = (
        node for node in nodes(path) if isinstance(node, ast.ImportFrom) and node.module == "borewright.core.practice"
    )
    taken = {alias.name for node in imports for alias in node.names} & set(READERS)
    for node in nodes(path):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in taken:
            (name,) = node.args
            assert isinstance(name, ast.Constant), f"{path.name} asks for a figure by no plain name"
            yield from (name.value + end for end in READERS[node.func.id])


def _readers():
    """The modules that take figures from the table."""
    users = [path for path in PACKAGE.rglob("*.py") if "borewright.core.practice import" in path.read_text("utf-8")]
    assert len(users) > 30
    return users


def test_every_figure_is_used_and_every_one_used_is_there():
    asked = {name for path in _readers() for name in _asked(path)}
    held = [row["name"] for table in practice.TABLES for row in tables.load(table).rows]
    assert len(held) == len(set(held))
    assert asked == set(held)


@every("row", ROWS, ids=lambda row: row["name"])
def test_a_row_says_what_it_is_and_why(row):
    assert practice.figure(row["name"]) == Decimal(row["value"]) > 0
    assert row["meaning"].endswith(".")
    assert row["unit"]
    assert row["reason"]
    assert not row["reason"].startswith(OWN) or (row["status"], row["document"]) == ("common_practice", "")
    assert row["status"] == "common_practice" or row["document"]


def test_a_name_ends_in_the_unit_of_its_figure():
    """``_mm``, ``_in``, ``_deg``, ``_hb`` ...: who reads the name in a rule sees what it is compared with."""
    units = {"in": "in", "mm": "mm", "hb": "HB", "hrc": "HRC", "mpa": "MPa", "deg": "degrees", "pitches": "pitches",
             "diameters": "diameters", "percent": "percent of thread", "threads": "threads", "h": "h"}  # fmt: skip
    wrong = [
        row["name"]
        for row in ROWS
        if (end := row["name"].rpartition("_")[2]) in units
        and row["unit"].split(" of the")[0] != units[end]
        and row["name"] not in ("countersink_angle_in", "countersink_angle_mm")
    ]
    assert wrong == []


def test_no_figure_of_another_name():
    with pytest.raises(KeyError):
        practice.figure("no_such_figure")
