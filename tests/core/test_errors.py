"""What every refusal shares: how much it repeats of what was sent, and what it takes a misspelled name for."""

from __future__ import annotations

from borewright.core.errors import Fault, ReworkError, nearest, shortened
from every import every


@every(("sent", "repeated"), [("", ""), ("a" * 19, "a" * 19), ("a" * 20, "a" * 20), ("a" * 21, "a" * 20)])
def test_at_most_twenty_characters_are_repeated(sent, repeated):
    assert shortened(sent) == repeated


@every(
    ("word", "most", "meant"),
    [
        ("MEDIUN", 3, ("medium",)),
        # six letters, of which four, three and two agree in their order: twice that through twelve is .67, .5 and .33
        ("abcdzz", 3, ("abcdef",)),
        ("zzzzzz", 3, ()),
        ("normal", 1, ("normal",)),
    ],
)
def test_a_name_is_meant_where_most_of_it_agrees(word, most, meant):
    """Share of matching characters of at least .6, best first, names as they are written."""
    assert nearest(word, ("close", "medium", "normal", "abcdef"), most=most) == meant


def test_an_error_of_several_faults_is_that_of_the_first():
    faults = (Fault("measurement_missing", "one"), Fault("measured_other_thread", "two"))
    error = ReworkError.of(faults)
    assert (error.code, str(error), error.faults) == ("measurement_missing", "one", faults)
