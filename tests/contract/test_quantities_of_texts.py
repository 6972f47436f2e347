"""Quantities in texts by unit, digits and place: a table by hand.

25.4 mm an inch; 1 lbf in = 0.112984829 N m; 1 lbf = 4.448221615 N; 1 hp = 0.745699872 kW; 1 psi = 0.00689475729 MPa.
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from borewright.contract.faults import RequestInvalid
from borewright.contract.fields import units
from borewright.contract.fields.ranges import Range, Span
from borewright.contract.fields.request_units import RequestUnits
from borewright.contract.texts import all_in_units, in_units, unit_asked
from borewright.core.model import Length
from every import every

#: What the domain says (~ is the no-break space), in inches, in millimetres.
TEXTS = [
    # lengths: two digits more in inches, three to five; one less in millimetres, two or three
    ("8~mm", "0.315 in", "8 mm"), ("6.8~mm", "0.268 in", "6.8 mm"), ("6.85~mm", "0.2697 in", "6.85 mm"),
    ("6.912~mm", "0.27213 in", "6.912 mm"), ("6.9125~mm", "0.27215 in", "6.9125 mm"), ("1~in", "1 in", "25.4 mm"),
    ("0.3~in", "0.3 in", "7.62 mm"), ("0.4375~in", "0.4375 in", "11.112 mm"), ("0.43755~in", "0.43755 in", "11.114 mm"),
    ("-0.002~in", "-0.002 in", "-0.05 mm"),
    # micrometres: three digits
    ("12~um", "0.00047 in", "12 um"), ("254~um", "0.01 in", "254 um"),
    # 382.2/25400 = 0.015047, 382.3/25400 = 0.015051
    ("382.2~um", "0.015 in", "382.2 um"), ("382.3~um", "0.0151 in", "382.3 um"),
    # two of them share a unit
    ("0.25 to 0.5~in", "0.25 to 0.5 in", "6.35 to 12.7 mm"), ("1 and 2~in", "1 and 2 in", "25.4 and 50.8 mm"),
    ("1 or 2~mm", "0.039 or 0.079 in", "1 or 2 mm"), ("10 +/- 0.5~mm", "0.394 +/- 0.02 in", "10 +/- 0.5 mm"),
    # others to three digits
    ("12.3~N*m", "109 lbf*in", "12.3 N*m"), ("109~lbf*in", "109 lbf*in", "12.3 N*m"), ("1500~N", "337 lbf", "1500 N"),
    ("337~lbf", "337 lbf", "1500 N"), ("0.25~kW", "0.335 hp", "0.25 kW"), ("2~hp", "2 hp", "1.49 kW"),
    ("655~MPa", "95000 psi", "655 MPa"), ("95000~psi", "95000 psi", "655 MPa"), ("95~ksi", "95 ksi", "655 MPa"),
    ("30~m/min", "98.4 ft/min", "30 m/min"), ("100~ft/min", "100 ft/min", "30.5 m/min"),
    ("0.1~mm/rev", "0.00394 in/rev", "0.1 mm/rev"), ("0.004~in/rev", "0.004 in/rev", "0.102 mm/rev"),
    # no quantity: an ordinary blank, a name
    ("6.8 mm drill", "6.8 mm drill", "6.8 mm drill"), ("M8 x 1.25", "M8 x 1.25", "M8 x 1.25"),
    # a tool named by a size tells it once
    ("6.8 mm (6.8~mm)", "6.8 mm (0.268 in)", "6.8 mm"),
    ("6.8 mm drill (6.8~mm)", "6.8 mm drill (0.268 in)", "6.8 mm drill"),
    ("0.25 in (0.2500~in)", "0.25 in", "0.25 in (6.35 mm)"), ("7 mm (6.98~mm)", "7 mm (0.2748 in)", "7 mm (6.98 mm)"),
    ("7 mm (6.991~mm)", "7 mm (0.27524 in)", "7 mm"), ("7 mm (6.99~mm)", "7 mm (0.2752 in)", "7 mm (6.99 mm)"),
    ("#7 (0.2010~in)", "#7 (0.2010 in)", "#7 (5.105 mm)"),
]  # fmt: skip


@every(("text", "inch", "metric"), TEXTS)
def test_a_text_in_both_units(text, inch, metric):
    text = f"take {text}.".replace("~", "\N{NO-BREAK SPACE}")
    assert in_units(text, "in") == f"take {inch}."
    assert in_units(text, "mm") == f"take {metric}."
    assert all_in_units([text, "no"], "mm") == [f"take {metric}.", "no"]


def test_a_text_as_it_is_held():
    """Only the mark goes, and a size that a name tells already."""
    text = "6.8 mm (6.8~mm), 0.5~in".replace("~", "\N{NO-BREAK SPACE}")
    assert in_units(text, None) == "6.8 mm, 0.5 in"


def test_the_unit_that_a_body_asks_for():
    bodies = [{"unit_system": "inch"}, {"unit_system": "metric"}, {}, {"unit_system": "si"}, {"unit_system": 1}]
    assert [unit_asked(body) for body in bodies] == ["in", "mm", None, None, None]


# --- requests -------------------------------------------------------------------------------------------------------

READ = [
    # text, dimension, value in the base unit
    ("1/2 in", "length", "0.5"), ("1-1/2 in", "length", "1.5"), ("1 1/2 in", "length", "1.5"),
    ("-1/4 in", "length", "-0.25"),
    ("10 cm", "length", "100"), ("1 m", "length", "1000"), ("1 thou", "length", "0.001"), ("250 um", "length", "0.25"),
    ("100 ft/min", "speed", "30.48"), ("30 m/min", "speed", "30"), ("1 lbf*in", "torque", "0.112984829027617"),
    ("12 N*m", "torque", "12"), ("25 %", "fraction", "0.25"), ("25 %", "percent", "25"), ("2 kW", "power", "2"),
    ("655 MPa", "stress", "655"), ("1000 N", "force", "1000"),
]  # fmt: skip


@every(("text", "dimension", "value"), READ)
def test_quantities_as_text(text, dimension, value):
    assert units.read(text, dimension).value == Decimal(value)


MEANT = [
    ("5 IN", "length", ("in",)), ("5 inchs", "length", ("in",)), ("5 millimeters", "length", ("mm",)),
    ("5 microns", "length", ("um",)), ("5 nm", "torque", ("N*m",)), ("5 in-lb", "torque", ("in*lbf",)),
    ("5 ft-lbs", "torque", ("ft*lbf",)), ("5 fpm", "speed", ("ft/min",)), ("5 mpa", "stress", ("MPa",)),
]  # fmt: skip


@every(("text", "dimension", "meant"), MEANT)
def test_other_spellings_are_offered(text, dimension, meant):
    with pytest.raises(RequestInvalid) as refused:
        units.read(text, dimension)
    (fault,) = refused.value.faults
    assert (fault.code, fault.did_you_mean) == ("quantity_unit_unknown", meant)
    assert fault.allowed == units.names(dimension)


def spans(*given):
    return Range(tuple(Span(unit, Decimal(least), Decimal(most)) for unit, least, most in given))


LENGTHS = spans(("in", "0.25", 2), ("mm", 10, 50))


def bare(value, unit=None):
    return units.Quantity(Decimal(value), unit)


@every(
    ("asked", "native", "given", "length"),
    [
        # a bare number is in the unit of the request, the domain gets that of the thread
        ("in", "in", bare("0.5"), ("0.5", "in")), ("in", "mm", bare("0.5"), ("12.7", "mm")),
        ("mm", "in", bare("25.4"), ("1", "in")), ("mm", "mm", bare(12), ("12", "mm")),
        # a written unit counts
        ("in", "mm", bare(12, "mm"), ("12", "mm")), ("mm", "in", bare(1, "in"), ("1", "in")),
        ("in", "in", bare("25.4", "mm"), ("1", "in")),
        # before the standard is known lengths stay as they are written
        ("in", None, bare("0.5"), ("0.5", "in")), (None, None, bare(12, "mm"), ("12", "mm")),
    ],
)  # fmt: skip
def test_lengths_as_the_domain_takes_them(asked, native, given, length):
    value, unit = length
    assert RequestUnits(asked, native).length(given, LENGTHS) == Length(Decimal(value), unit)


@every(
    ("unit", "value", "refused"),
    [
        ("in", "0.25", False), ("in", "0.24", True), ("in", 2, False), ("in", "2.1", True),
        ("mm", 10, False), ("mm", "9.9", True), ("mm", 50, False), ("mm", 51, True),
    ],
)  # fmt: skip
def test_bare_lengths_inside_the_span_of_their_unit(unit, value, refused):
    if not refused:
        RequestUnits(unit, "in").length(bare(value), LENGTHS)
        return
    with pytest.raises(RequestInvalid) as caught:
        RequestUnits(unit, "in").length(bare(value), LENGTHS)
    assert caught.value.faults[0].code == "value_out_of_range"
    assert caught.value.faults[0].allowed == ("0.25 to 2 in", "10 to 50 mm")


@every(
    ("dimension", "inch", "metric", "in_base"),
    [
        ("torque", "lbf*in", "N*m", 0.112984829),
        ("stress", "psi", "MPa", 0.00689475729),
        ("power", "hp", "kW", 0.745699872),
    ],
)
def test_bare_physical_numbers(dimension, inch, metric, in_base):
    allowed = spans((inch, 1, 5), (metric, 10, 50))
    for asked, value, expected in (("in", 2, 2 * in_base), ("mm", 20, 20.0)):
        found = RequestUnits(asked, "mm").physical(bare(value), dimension, allowed)
        assert found == pytest.approx(expected, rel=1e-8)
        assert RequestUnits(asked, "in").physical(bare(3, metric), dimension, allowed) == 3.0
        with pytest.raises(RequestInvalid):
            RequestUnits(asked, "mm").physical(bare(6 if asked == "mm" else 20), dimension, allowed)


@every(
    ("text", "dimension", "meant"),
    [("5", "length", ("5 in", "5 mm")), ("3/8", "length", ("3/8 in", "3/8 mm")), (" 5 ", "percent", ("5 %",))],
)
def test_a_unit_is_offered_where_there_is_none(text, dimension, meant):
    with pytest.raises(RequestInvalid) as refused:
        units.read(text, dimension)
    (fault,) = refused.value.faults
    assert (fault.code, fault.did_you_mean) == ("quantity_unit_missing", meant)


@every("dimension", ["torque", "power", "stress", "speed", "force"])
def test_two_units_are_offered_where_there_are_two(dimension):
    with pytest.raises(RequestInvalid) as refused:
        units.read("5", dimension)
    (fault,) = refused.value.faults
    assert len(fault.did_you_mean) == min(2, len(units.names(dimension)))
    assert all(one.startswith("5 ") and one[2:] in units.names(dimension) for one in fault.did_you_mean)


@every(
    ("text", "signed", "zero", "is_one"),
    [
        ("1/2 in", False, False, True), ("-1/2 in", False, False, False), ("-1/2 in", True, False, True),
        ("0 in", False, False, False), ("0 in", False, True, True), ("0.0 in", True, False, False),
        ("+3 mm", False, False, True), ("3 furlong", False, False, False), ("1-1/4 in", False, False, True),
    ],
)  # fmt: skip
def test_the_published_pattern_of_a_length(text, signed, zero, is_one):
    pattern = units.pattern("length", signed=signed, zero=zero)
    assert bool(re.search(pattern, text)) is is_one
    if not signed and not zero:
        assert pattern == units.pattern("length")
