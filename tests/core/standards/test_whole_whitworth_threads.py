"""Whole Whitworth threads by hand: h = .640327 p; T = .002 D^1/3 + .003 L^1/2 + .005 p^1/2."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import ThreadError
from borewright.core.model import Length
from every import every
from whole_threads import basic, codes, ends, form, head, limits, refused, statuses

D = Decimal


#: 1/2-12: h .05336; T medium .001587 + .002121 + .001443 = .005152, close 2/3, normal 3/2; minor + .2/12 + .007.
WHITWORTH = [
    ("close", "0.4501", ("close_class_special_use",)),
    ("medium", "0.4518", ()),
    ("normal", "0.4544", ()),
]


@every(("grade", "greatest", "cautions"), WHITWORTH)
def test_whitworth_by_hand(resolved, grade, greatest, cautions):
    thread = resolved(f"1/2 BSW {grade} LH")
    assert head(thread) == (f"1/2 in - 12 BSW ({grade}) LH", "BSW", "1/2", grade, None)
    assert form(thread) == ("in", "0.5", "0.0833333", "12", "0.0833333", "1", "55", None)
    assert basic(thread) == ("0.5000", "0.4466", "0.3933")
    assert limits(thread.internal) == (("0.5000", None), ("0.4466", greatest), ("0.3933", "0.4169"))
    assert thread.external is None
    assert codes(thread) == cautions
    assert statuses(thread, "internal.minor") == {
        "internal.minor_diameter.min": "computed",
        "internal.minor_diameter.max": "from_memory",
    }
    assert any("length of engagement taken as the diameter" in one for one in thread.notes.assumptions)


@every(
    ("text", "least", "most"),
    [
        # .2/n + .004 from 26 an inch, + .005 for 24 and 22, + .007 for 20 and coarser
        ("1/4-26 BSF", "0.2007", "0.2124"),
        ("3/16-24 BSW", "0.1341", "0.1475"),
        ("5/16-22 BSF", "0.2543", "0.2684"),
        ("1/4-20 BSW", "0.1860", "0.2030"),
    ],
)
def test_addition_to_the_whitworth_minor_diameter(resolved, text, least, most):
    """D - 2 x .640327/n, and .2/n with the addition above it: 26 an inch, .25 - .049256 and + .007692 + .004."""
    assert ends(resolved(text).internal.minor_diameter) == (least, most)


@every(
    ("length", "greatest"),
    # T medium with L .25: .001587 + .0015 + .001443 = .004531; with L 1.5: .001587 + .003674 + .001443 = .006705
    [("0.25", "0.4512"), ("1.5", "0.4533")],
)
def test_whitworth_by_engagement(resolved, length, greatest):
    """Three diameters are the longest: 1.5 in."""
    read = resolved("1/2 BSW").callout
    thread = standards.resolve(read, engagement=Length(D(length), "in"))
    assert ends(thread.internal.pitch_diameter) == ("0.4466", greatest)
    assert not [one for one in thread.notes.assumptions if "engagement" in one]


def test_whitworth_engagement_too_long(resolved):
    read = resolved("1/2 BSW").callout
    with pytest.raises(ThreadError) as refusal:
        standards.resolve(read, engagement=Length(D("1.5001"), "in"))
    assert refusal.value.faults[0].allowed == ("above 0 to 1.5 in",)


@every(("text", "meant"), [("1/2-13 BSW LH", "1/2-12 BSW LH"), ("1/2-13 BSW", "1/2-12 BSW")])
def test_a_whitworth_pitch_that_was_meant_keeps_its_hand(text, meant):
    assert refused(lambda: callout.read(text)).did_you_mean[0] == meant
