"""What is told of the figures' provenance is what the tables and the replies hold."""

from __future__ import annotations

import csv
from collections import Counter
from itertools import dropwhile

import pytest
from borewright import tables
from borewright.contract import catalogues


@pytest.fixture(scope="module")
def rows():
    return catalogues.catalogue_rows("provenance")


def test_every_row_of_the_tables_is_counted_under_its_status(rows):
    counted = Counter()
    for path in tables.FOLDER.rglob("*.csv"):
        lines = path.read_text("utf-8").splitlines()
        head = dict(line[2:].split(": ", 1) for line in lines if line.startswith("# ") and ": " in line)
        for row in csv.DictReader(dropwhile(lambda line: line.startswith("# "), lines)):
            counted[row.get("status") or head["status"]] += 1
    told = Counter()
    for row in rows:
        told[row["status"]] += row["rows"]
    assert told == counted


def test_answers_that_lean_on_a_document_are_told_with_their_fields(rows):
    handbook = [row for row in rows if "Cutting" not in row["document"] and "cutting_data.fluid" in row["fields"]]
    assert handbook
    assert all(0 < row["answers"] <= row["of_answers"] for row in handbook)
    assert all(bool(row["fields"]) == bool(row["answers"]) for row in rows)
    assert all(row["rows"] or row["answers"] for row in rows)


def test_what_unified_answers_stand_on_is_told(rows):
    """Three of eight threads are Unified, each asked for in four parts; their limits are those of ASME B1.1."""
    found = [row["answers"] for row in rows if row["document"] == "ASME B1.1" and row["answers"]]
    assert max(found) >= 3 * 4
