"""The words of a finish: one spelling for each, designators with their values, where a unit of length stands."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import FinishError
from borewright.core.finishing.designators import LONGEST, find, is_designator, items, phrase, unit_at
from borewright.core.finishing.spoken_amounts import in_figures
from every import every


@every(
    ("text", "words"),
    [
        # one spelling: plated, plating and plate; British and American; plurals
        ("plated plating plate", ("plate", "plate", "plate")),
        ("anodized anodised anodizing anodising anodise", ("anodize",) * 5),
        ("galvanized galvanization galvanisation", ("galvanize",) * 3),
        ("passivated passivation", ("passivate", "passivate")),
        ("nitrided nitriding", ("nitride", "nitride")),
        ("hardened hardening", ("harden", "harden")),
        ("coating coated coatings", ("coat", "coat", "coat")),
        ("hardcoating hardcoated", ("hardcoat", "hardcoat")),
        ("heat treated treating treatment", ("heat", "treat", "treat", "treat")),
        ("microns mils hours", ("micron", "mil", "hour")),
        # words of up to three letters, and those on ss, us or is, are no plurals; two letters at least are left
        ("gas process status analysis", ("gas", "process", "status", "analysis")),
        ("ring being", ("ring", "be")),
        ("ZINC Plate", ("zinc", "plate")),
        # designators and their values
        ("Type II", ("type 2",)),
        ("types I and II", ("type 1", "type 2")),
        ("Ty. 3, Cl. 2, Gr A", ("type 3", "class 2", "grade a")),
        ("SC 2 condition 4", ("sc 2", "sc 4")),
        ("methods 1 or 2", ("method 1", "method 2")),
        ("grades A/B", ("grade a", "grade b")),
        ("classes 1, 2", ("class 1", "class 2")),
        ("Type I, IB, IC, IIB", ("type 1", "type 1b", "type 1c", "type 2b")),
        ("Type IV V VI", ("type 4", "v", "vi")),
        ("type V", ("type 5",)),
        ("type VI", ("type 6",)),
        ("class 1 & 2", ("class 1", "class 2")),
        ("class 1-2", ("class 1", "class 2")),
        ("class 1+3", ("class 1", "class 3")),
        ("class 1 2", ("class 1", "2")),
        ("class 1A", ("class 1a",)),
        ("class 1 A", ("class 1", "a")),
        ("class 1AB", ("class 1", "ab")),
        ("class 1a/2b", ("class 1a", "class 2b")),
        ("Class 110", ("class 110",)),
        ("class 1000", ("class", "1000")),
        ("class 02", ("class 2",)),
        ("class 02A", ("class 2a",)),
        ("grade", ("grade",)),
        ("type zinc", ("type", "zinc")),
        ("type 2 or", ("type 2", "or")),
        ("type 2 or zinc", ("type 2", "or", "zinc")),
        ("type 2,", ("type 2",)),
        ("type 2.5", ("type", "2.5")),
        # a number with a unit of length behind it is a thickness, but an inch that is a word may be none
        ("class 5 um", ("class", "5", "um")),
        ("class 2 in accordance", ("class 2", "in", "accordance")),
        # marks
        ("8 µm 12 μm", ("8", "um", "12", "um")),
        (".0003″ .0005” “", (".0003", '"', ".0005", '"', '"')),
        ("0,02 mm", ("0.02", "mm")),
        ("10,5", ("10", "5")),
        (".5 %", (".5", "%")),
        ("123456789 0.123456789", ("123456789", "0.123456789")),
    ],
)
def test_each_word_has_one_spelling_and_each_designator_its_value(text, words):
    assert phrase(text) == words


@every(
    ("text", "gaps"),
    [
        ("fe/zn 8", ("", "/", " ")),
        (".002 ± .0005", ("", " +/- ")),
        ("a–b—c−d‐e‑f", ("", "-", "-", "-", "-", "-")),
        ("b633-19", ("", "", "-")),
        ("type 2 class 1A", ("", " ")),
    ],
)
def test_what_stood_between_the_words_is_kept(text, gaps):
    assert tuple(item.gap for item in items(text)) == gaps


@pytest.mark.parametrize("text", ["", "  ", "z" * (LONGEST + 1)])
def test_nothing_and_too_much_are_no_finish(text):
    with pytest.raises(FinishError) as refused:
        items(text)
    assert refused.value.code == "finish_unknown"
    assert "1 to 200" in refused.value.faults[0].detail


def test_the_longest_text_is_still_read():
    assert len(items("z" * 200)) == 1


@every(
    ("wanted", "taken", "place"),
    [
        (("fe", "zn"), set(), range(0, 2)),
        (("fe", "zn"), {0}, range(2, 4)),
        (("fe", "zn"), {1}, range(2, 4)),
        (("fe", "zn"), {0, 3}, None),
        (("zn", "8"), set(), range(3, 5)),
        (("8",), set(), range(4, 5)),
        (("8", "um"), set(), None),
        (("8",), {4}, None),
        (("fe", "zn", "fe", "zn", "8"), set(), range(0, 5)),
        (("fe", "zn", "fe", "zn", "8", "fe"), set(), None),
        (("cd",), set(), None),
    ],
)
def test_a_phrase_is_found_where_all_its_words_stand_together_and_none_is_taken(wanted, taken, place):
    assert find(items("fe zn fe zn 8"), wanted, taken) == place


def test_designators_are_words_with_a_value():
    assert [is_designator(item) for item in items("hard type 2 class A type")] == [False, True, True, False]


@every(
    ("text", "at", "unit"),
    [
        ("8 um", 1, ("mm", Decimal("0.001"))),
        ("8 u", 1, ("mm", Decimal("0.001"))),
        ("8 micrometres", 1, ("mm", Decimal("0.001"))),
        ("8 micrometers", 1, ("mm", Decimal("0.001"))),
        ("8 microns", 1, ("mm", Decimal("0.001"))),
        ("0.01 mm", 1, ("mm", Decimal(1))),
        ("0.01 millimetres", 1, ("mm", Decimal(1))),
        ("0.01 millimeters", 1, ("mm", Decimal(1))),
        ("0.001 in", 1, ("in", Decimal(1))),
        ("0.001 inches", 1, ("in", Decimal(1))),
        ('0.001"', 1, ("in", Decimal(1))),
        ("1 mil", 1, ("in", Decimal("0.001"))),
        ("1 thou", 1, ("in", Decimal("0.001"))),
        ("1 thousandth", 1, ("in", Decimal("0.001"))),
        ("2 thous", 1, ("in", Decimal("0.001"))),
        ("3 tenths", 1, ("in", Decimal("0.0001"))),
        ("300 microinches", 1, ("in", Decimal("0.000001"))),
        ("300 uin", 1, ("in", Decimal("0.000001"))),
        ("0.001 in", 0, None),
        ("0.001 in", 2, None),
        ("2 in accordance", 1, None),
        ("2 in hole", 1, ("in", Decimal(1))),
    ],
)
def test_units_of_length(text, at, unit):
    """A mil and a thou are a thousandth of an inch, a tenth is a ten-thousandth, a micron a thousandth of a mm."""
    assert unit_at(items(text), at) == unit


NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@every(
    ("said", "figures"),
    [
        ("half a thou", "0.5 thou"),
        ("half an um", "0.5 um"),
        ("a thou", "1 thou"),
        ("an um", "1 um"),
        *((f"{word} mils", f"{number} mils") for number, word in enumerate(NUMBERS, 1)),
        ("two and a half tenths", "2.5 tenths"),
        ("one and a half microns", "1.5 microns"),
        ("five ten-thousandths", "5 tenths"),
        ("five ten thousandths", "5 tenths"),
        ("1/2 mil", "0.5 mil"),
        ("1/4 thou", "0.25 thou"),
        ("3/4 thou", "0.75 thou"),
        ("7/8 mil", "0.875 mil"),
        ("1 1/2 thou", "1.5 thou"),
        ("12-1/4 um", "12.25 um"),
        ("1 1/2 micron", "1.5 micron"),
        ("2/4 um", "2/4 um"),  # a range: no fraction in lowest terms
        ("5/8 um", "5/8 um"),
        ("3/2 um", "3/2 um"),
        ("3/2 mil", "3/2 mil"),  # no fraction of less than one
        ("3/8 in", "3/8 in"),  # a size
        ("8/12 um", "8/12 um"),  # a range
        (".1/2 mil", ".1/2 mil"),
        ("twelve thou", "twelve thou"),
        ("two coats", "two coats"),
    ],
)
def test_amounts_in_words(said, figures):
    assert in_figures(said) == figures


@every(
    ("said", "fraction", "range_"),
    [
        ("zinc 3/8 um", "0.375 um", "3 to 8 um"),
        ("1/2 micron", "0.5 um", "1 to 2 um"),
        ("7/8u", "0.875 um", "7 to 8 um"),
        ("1/4 micrometres", "0.25 um", "1 to 4 um"),
    ],
)
def test_a_slash_before_micrometres_is_asked_about(said, fraction, range_):
    with pytest.raises(FinishError) as refused:
        in_figures(said)
    fault = refused.value.faults[0]
    assert (fault.code, fault.allowed) == ("finish_ambiguous", (fraction, range_))
    written = said.removeprefix("zinc ")
    figures, unit = written[:3], written[3:].strip()
    assert fault.detail == f'"{figures} {unit}" in the finish can be a fraction or a range: write which one is meant.'
