"""What is told of the figures' provenance is what the tables and the replies hold."""

from __future__ import annotations

import csv
from collections import Counter
from itertools import dropwhile

import pytest
from borewright import tables
from borewright.contract import catalogues
from borewright.core import callout, standards
from borewright.core.finishing import allow
from borewright.core.model import FinishInput


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


#: Documents whose rule, not a row of a table, an answer stands on as published: what was read of each.
READ = {"ISO 965-3": "2021 clause 4, limits before and after a coat"}


def test_a_rule_is_published_only_where_its_document_was_read(rows):
    """Statuses of tables stand a second time in ``tests/tables/seen.csv``, those of rules here."""
    by_rule = {row["document"] for row in rows if row["status"] == "published" and not row["rows"]}
    assert by_rule == set(READ)


def test_basic_diameters_and_deviations_of_a_rule_are_not_printed():
    """D - 0.649519 P is worked out; 7.5 of ASME B1.1 stands in a gauge maker's note, ISO 965-5 on a page that repeats
    it.
    """
    for text, basic in (("M8", "computed"), ("1/2-13 UNC-2B", "computed")):
        sources = {one.field: one.status for one in standards.resolve(callout.read(text)).notes.sources}
        assert sources["basic"] == basic
    coated = (("1/4-20 UNC-2B", "ASTM B633 Fe/Zn 8", "second_hand"), ("M8-6G", "ISO 4042 Fe/Zn 5", "published"))
    for text, finish, status in coated:
        found = allow(standards.resolve(callout.read(text)), FinishInput(text=finish))
        assert {one.status for one in found.notes.sources if one.field == "before_finish"} == {status}
    nut = {one.field: one.status for one in standards.resolve(callout.read("M12-6AZ")).notes.sources}
    assert nut["internal.pitch_diameter"] == "second_hand"
