"""Quantities of requests: the closed unit list against pint, the small grammar, and the traps of looser readers."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from borewright.contract.faults import RequestInvalid
from borewright.contract.fields import unit_list, units
from hypothesis import given, settings
from hypothesis import strategies as st

ROOT_UNITS = {"length", "speed", "torque", "stress", "power", "force", "fraction", "percent"}


def refused(text: str, dimension: units.Dimension = "length"):
    with pytest.raises(RequestInvalid) as caught:
        units.read(text, dimension)
    return caught.value.faults[0]


def test_factors_are_those_that_pint_defines():
    assert unit_list.FACTORS.read_text(encoding="utf-8") == unit_list.factors_csv()


def test_every_dimension_has_units():
    assert {unit.dimension for unit in units.UNITS} == ROOT_UNITS | {"hardness"}


@pytest.mark.parametrize(
    ("dimension", "name", "factor"),
    [
        ("length", "mil", "0.001"),  # a thousandth of an inch
        ("length", "microinch", "0.000001"),
        ("length", "um", "0.001"),
        ("stress", "N/mm2", "1"),
        ("speed", "ft/min", "0.3048"),  # 0.3048 m is the international foot
        ("force", "lbf", "4.4482216152605"),  # international pound force, exact
        ("torque", "lbf*in", "0.112984829027617"),  # 4.4482216152605 * 0.0254
    ],
)
def test_exact_factors(dimension, name, factor):
    assert units.factor(dimension, name) == Decimal(factor)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("0.75 in", "0.75", "in"),
        ("3/8 in", "0.375", "in"),
        ("1-1/4 in", "1.25", "in"),
        ("1 1/4 in", "1.25", "in"),
        ('3/4"', "0.75", "in"),
        (".5mm", "0.5", "mm"),
        ("0.0003 in", "0.0003", "in"),
        ("8 um", "0.008", "mm"),
        ("0.3 mil", "0.0003", "in"),
        ("12 uin", "0.000012", "in"),
        ("  2.5 cm  ", "25", "mm"),
        ("+1 in", "1", "in"),
        ("-0.5 in", "-0.5", "in"),
        ("0.30000000000000004 mm", "0.30000000000000004", "mm"),  # 0.1 + 0.2 as floating point prints it
    ],
)
def test_lengths(text, value, unit):
    assert units.read(text, "length") == (Decimal(value), unit)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [("95 ksi", "stress", "655.0019428509942"), ("50 %", "fraction", "0.5"), ("75 %", "percent", "75")],
)
def test_other_dimensions(text, dimension, value):
    assert units.read(text, dimension).value == Decimal(value)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2 5 um", "quantity_unreadable"),
        ("9**9**8 in", "quantity_unreadable"),
        ("nan mm", "quantity_unreadable"),
        ("inf mm", "quantity_unreadable"),
        ("1e400 mm", "quantity_unit_unknown"),
        ("1/0 in", "quantity_unreadable"),
        ("0/3 in", "quantity_unreadable"),
        ("1-4 in", "quantity_unreadable"),
        ("0x10 mm", "quantity_unit_unknown"),
        ("", "quantity_unreadable"),
        ("in", "quantity_unreadable"),
        ("5", "quantity_unit_missing"),
        ("3/8", "quantity_unit_missing"),
        ("5 IN", "quantity_unit_unknown"),
        ("5 furlong", "quantity_unit_unknown"),
        ("5 N*m", "quantity_dimension_wrong"),
        ("28 HRC", "quantity_dimension_wrong"),
        ("1" * 41 + " in", "quantity_unreadable"),
        ("٣ mm", "quantity_unreadable"),
    ],
)
def test_refused(text, code):
    fault = refused(text)
    assert fault.code == code
    assert fault.allowed == units.names("length")


def test_decimal_comma_is_refused_with_what_was_meant():
    fault = refused("0,0003 in")
    assert fault.code == "quantity_unreadable"
    assert fault.did_you_mean == ("0.0003 in",)


@pytest.mark.parametrize(("word", "meant"), [("inc", "inch"), ("MM", "mm"), ("micron", "um"), ("furlong", None)])
def test_one_unit_is_meant(word, meant):
    assert refused(f"5 {word}").did_you_mean == (() if meant is None else (meant,))


def test_a_quantity_has_forty_characters():
    assert units.read("5 mm".ljust(40), "length") == (5, "mm")
    assert refused("5 mm".ljust(41)).code == "quantity_unreadable"


def test_missing_unit_is_offered():
    assert refused("3/8").did_you_mean == ("3/8 in", "3/8 mm")


@given(st.text(max_size=60))
@settings(max_examples=300)
def test_any_text_is_read_or_refused(text):
    try:
        quantity = units.read(text, "length")
    except RequestInvalid as invalid:
        codes = {fault.code for fault in invalid.faults}
    else:
        codes = set() if quantity.value.is_finite() else {"not finite"}
    assert codes <= {
        "quantity_unreadable",
        "quantity_unit_missing",
        "quantity_unit_unknown",
        "quantity_dimension_wrong",
    }


#: Lengths and what just fails to be one: a sign, a denominator of zero, a digit or a space too many.
NEAR_A_LENGTH = (
    r'[+-]? ?([0-9]{1,7}[ -])?[0-9]{1,7}(/[0-9]{1,7}|\.[0-9]{0,9})? {0,4}(in|"|mil|thou|mm|um|\xb5m|cm|m|kg)? ?'
)


@given(
    text=st.one_of(
        st.text(alphabet='0123456789./- +inmul"', max_size=20),
        st.from_regex(NEAR_A_LENGTH, fullmatch=True),
    )
)
@settings(max_examples=400)
def test_published_pattern_is_the_grammar(text):
    """The pattern says yes exactly when the reader gives a length above zero."""
    try:
        good = units.read(text, "length").value > 0
    except RequestInvalid:
        good = False
    assert good == bool(re.search(units.pattern("length"), text))
