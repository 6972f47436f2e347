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
        # four decimals, ties to even: 1/32 = .03125, 3/32 = .09375, 1/64 = .015625, 3/64 = .046875
        ("1/32", "1/32", "0.0312", None),
        ("3/32", "3/32", "0.0938", None),
        ("1/64", "1/64", "0.0156", None),
        ("1 3/64", "1 3/64", "1.0469", None),
        (".31245", "0.31245", "0.3124", None),
        (".31255", "0.31255", "0.3126", None),
        ("10 (.1909)", "#10", None, 10),
        ("10 (.1891)", "#10", None, 10),
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
        # screws that come with 32 threads per inch, and figures that are none; 9/8 is no fraction of 19/8
        ("6/32", ("#6-32", "3/16")),
        ("8/32", ("#8-32", "1/4")),
        ("12/32", ("#12-32", "3/8")),
        ("4/32", ("1/8",)),
        ("14/32", ("7/16",)),
        ("10/64", ("5/32",)),
        ("10/16", ("5/8",)),
        ("8/16", ("1/2",)),
        ("19/8", ("2 3/8",)),
        ("21/16", ("2 1/16", "1 5/16")),
        ("20/16", ("1 1/4",)),
        ("2/2", ("1",)),
    ],
)
def test_what_an_odd_fraction_may_mean(text, meant):
    with pytest.raises(BorewrightError) as refused:
        read_inch_size(text)
    assert (refused.value.code, refused.value.faults[0].did_you_mean) == ("callout_ambiguous", meant)


@every(
    ("text", "words"),
    [
        ("10 (.191)", "#10 is 0.190 in, not .191."),
        ("10 (.189)", "#10 is 0.190 in, not .189."),
        ("0/8", "An inch fraction is of 2, 4, 8, 16, 32 or 64 parts and not zero."),
        ("1/3", "An inch fraction is of 2, 4, 8, 16, 32 or 64 parts and not zero."),
        ("1/128", "An inch fraction is of 2, 4, 8, 16, 32 or 64 parts and not zero."),
        ("M8", "'M8' is not an inch size: write 3/8, 1 1/4, #10 or .375."),
    ],
)
def test_what_is_no_size(text, words):
    with pytest.raises(BorewrightError) as refused:
        read_inch_size(text)
    fault = refused.value.faults[0]
    assert (fault.code, fault.pointer, fault.detail) == ("callout_unreadable", "/size", words)
