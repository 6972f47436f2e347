"""Inch sizes alone: ASME B1.1 has #n at 0.060 + 0.013 n in; an odd fraction is asked back with what it may mean."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.callout.inch_size import read_inch_size, screw_diameter_in
from borewright.core.errors import BorewrightError
from every import every


@every(("number", "inches"), [(0, "0.060"), (1, "0.073"), (8, "0.164"), (10, "0.190"), (12, "0.216")])
def test_numbered_screws(number, inches):
    assert screw_diameter_in(number) == Decimal(inches)


@every(
    ("text", "label", "inches", "screw"),
    [
        ("3/8", "3/8", "0.375", None),
        ("1 1/4", "1 1/4", "1.25", None),
        ("2-1/2", "2 1/2", "2.5", None),
        ("0 1/4", "1/4", "0.25", None),
        (".375", "0.375", "0.375", None),
        ("#10", "#10", None, 10),
        ("10 (.190)", "#10", None, 10),
        # up to 12 an integer may be a screw or inches
        ("12", "12", "12", 12),
        ("13", "13", "13", None),
    ],
)
def test_sizes(text, label, inches, screw):
    size = read_inch_size(text)
    assert (size.label, size.diameter_in, size.screw) == (label, None if inches is None else Decimal(inches), screw)


@every(
    ("text", "meant"),
    [
        # 10/32 is a screw and its threads, or 5/16; 11/4 a lost blank, or 2 3/4; 4/8 plainly 1/2
        ("10/32", ("#10-32", "5/16")),
        ("11/4", ("1 1/4", "2 3/4")),
        ("4/8", ("1/2",)),
        ("8/8", ("1",)),
        ("1 4/8", ("1 1/2",)),
        ("1 9/8", ("2 1/8",)),
        ("13/8", ("1 3/8", "1 5/8")),
    ],
)
def test_what_an_odd_fraction_may_mean(text, meant):
    with pytest.raises(BorewrightError) as refused:
        read_inch_size(text)
    assert (refused.value.code, refused.value.faults[0].did_you_mean) == ("callout_ambiguous", meant)
