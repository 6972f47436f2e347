"""The editions of ASME B1.1: printed limits of 2019, where they part from the older tables, and what is answered."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout, standards
from borewright.core.errors import ThreadError
from borewright.core.model import Length

PUBLISHED = Path(__file__).parents[2] / "published" / "unified_limits_2019.csv"
with PUBLISHED.open(newline="", encoding="utf-8") as lines:
    ROWS = list(csv.DictReader(lines))


def thread(text, edition=None, engagement=None):
    return standards.resolve(callout.read(text), edition=edition, engagement=engagement)


def limits(found):
    outside, inside = found.external, found.internal
    return {
        "ext_major_max": outside.major_diameter.max,
        "ext_major_min": outside.major_diameter.min,
        "ext_pitch_max": outside.pitch_diameter.max,
        "ext_pitch_min": outside.pitch_diameter.min,
        "int_minor_min": inside.minor_diameter.min,
        "int_minor_max": inside.minor_diameter.max,
        "int_pitch_min": inside.pitch_diameter.min,
        "int_pitch_max": inside.pitch_diameter.max,
    }


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["thread"])
@pytest.mark.parametrize("edition", [None, "2019"])
def test_printed_limits_of_2019(row, edition):
    found = thread(f"{row['thread']} {row['series']}-2B", edition)
    assert {name: str(value.normalize()) for name, value in limits(found).items()} == {
        name: str(Decimal(row[name]).normalize()) for name in limits(found)
    }
    assert found.standard.edition.startswith("2019")


def test_all_printed_rows_are_there():
    assert len(ROWS) == 11


@pytest.mark.parametrize(
    ("text", "side", "diameter", "end", "newer", "older"),
    [
        ("1-14 UNS-2B", "internal", "pitch_diameter", "max", "0.9605", "0.9609"),
        ("1-14 UNS-2B", "external", "pitch_diameter", "min", "0.9467", "0.9463"),
        ("1-14 UNS-2B", "external", "pitch_diameter", "max", "0.9520", "0.9519"),
        ("1-14 UNS-2B", "external", "major_diameter", "max", "0.9984", "0.9983"),
        ("#10-24 UNC-2B", "internal", "minor_diameter", "max", "0.155", "0.156"),
        ("1-8 UNC-2B", "external", "pitch_diameter", "min", "0.9101", "0.9100"),
    ],
)
def test_where_the_editions_part(text, side, diameter, end, newer, older):
    """ASME B1.1-2019 as held by a university library, beside the 1982/1989 tables (FED-STD-H28/2B)."""
    found, old = thread(text), thread(text, "1989")
    other = found.extra["other_edition"]
    assert str(getattr(getattr(getattr(found, side), diameter), end)) == newer
    assert str(getattr(getattr(other[side], diameter), end)) == older
    assert other["edition"] == "1989"
    assert (other["internal"], other["external"]) == (old.internal, old.external)
    assert old.standard.edition.startswith("1989")
    assert old.extra["other_edition"]["internal"] == found.internal


def test_threads_in_which_the_editions_agree_show_one():
    found = thread("1/2-13 UNC-2B")
    assert "other_edition" not in found.extra
    assert not [text for text in found.notes.assumptions if "edition" in text]
    status = {source.field: source.status for source in found.notes.sources}
    assert (status["internal.minor_diameter"], status["standard"]) == ("published", "computed")


def test_limits_by_formula_are_not_called_published():
    status = {source.field: source.status for source in thread("#10-24 UNC-2B").notes.sources}
    assert status["internal.minor_diameter"] == "computed"
    assert {source.edition for source in thread("#10-24 UNC-2B").notes.sources if "internal" in source.field} == {
        "2019"
    }


def test_data_that_do_not_allow_2019_answer_by_the_tables_of_1989():
    """TD2 = 1.3 x (0.0015 x 0.3125^(1/3) + 0.0015 x 0.45^(1/2) + 0.015 x 0.05^(2/3)) = 0.005278 in at 5/16 in."""
    found = thread("5/16-20 UN-2B")
    assert found.standard.edition.startswith("1989")
    assert str(found.internal.pitch_diameter.max) == "0.2852"
    assert str(found.extra["other_edition"]["internal"].pitch_diameter.max) == "0.2853"
    asked = thread("5/16-20 UN-2B", "2019")
    assert str(asked.internal.pitch_diameter.max) == "0.2853"
    assert "edition_not_confirmed" in {caution.code for caution in asked.notes.cautions}
    assert "edition_not_confirmed" not in {caution.code for caution in found.notes.cautions}


def test_a_mate_follows_the_edition_of_its_hole():
    """1-8 UNC-2A: .91005 is printed .9101 in 2019 and .9100 before."""
    for edition, smallest in (("2019", "0.9101"), ("1989", "0.9100")):
        hole = thread("1-8 UNC-3B", edition)
        assert str(standards.external_limits(hole, thread_class="2A").pitch_diameter.min) == smallest


def test_an_engagement_keeps_the_edition():
    """1-14 UNS at 1.2 in: over 15 P (1.07 in) by the newer rule, inside 1.5 D by the older table."""
    length = Length(Decimal("1.2"), "in")
    factors = [
        thread("1-14 UNS-2B", edition, length).extra["engagement"]["pitch_tolerance_factor"]
        for edition in ("2019", "1989")
    ]
    assert factors == [1.25, 1]


@pytest.mark.parametrize("text", ["M8", "1/4-18 NPT", "1/2-13 UNJC-3B", "G 1/2", "1/2-13 UNC STI", "0.80 UNM"])
@pytest.mark.parametrize("edition", ["2019", "1989"])
def test_an_edition_of_another_standard_is_refused(text, edition):
    with pytest.raises(ThreadError) as caught:
        thread(text, edition)
    assert (caught.value.code, caught.value.faults[0].pointer) == ("thread_field_unexpected", "/edition")
