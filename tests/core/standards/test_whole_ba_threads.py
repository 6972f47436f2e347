"""Whole BA threads by hand: D - h, D - 2 h with the rounded h; .12 p + .03, .375 p."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import basic, codes, form, head, limits, refused, statuses

D = Decimal


@every(
    ("text", "named", "assumed"),
    [
        ("2 BA", ("2 BA", None, "2", None, None), ()),
        (
            "2 BA close LH",
            ("2 BA LH", None, "2", None, "close"),
            ("class close read as that of the bolt: BA nuts have one class only",),
        ),
    ],
)
def test_ba_by_hand(resolved, text, named, assumed):
    """2 BA: p .81, h .485, D 4.70; .12 x .81 + .03 = .1272 and .375 x .81 = .30375."""
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == ("mm", "4.70", "0.81", None, "0.81", "1", "47.5", None)
    assert basic(thread) == ("4.70", "4.215", "3.73")
    assert limits(thread.internal) == (("4.70", None), ("4.215", "4.342"), ("3.73", "4.034"))
    assert thread.external is None
    assert codes(thread) == ("ba_is_metric",)
    assert thread.notes.assumptions == assumed
    known = statuses(thread, "internal")
    assert (known["internal.major_diameter.min"], known["internal.minor_diameter.max"]) == ("published", "computed")


@every(
    ("size", "words", "offered"),
    [
        ("17", "No. 17 to 25", "16 BA"),
        ("0017", "", "16 BA"),
        ("x", None, None),
    ],
)
def test_ba_numbers_that_do_not_exist(size, words, offered):
    fault = refused(lambda: callout.from_fields(ThreadFields("british_association", size)))
    assert (fault.code, fault.pointer) == ("thread_size_unknown", "/thread/size")
    assert fault.allowed == tuple(str(number) for number in range(17))
    assert ("Numbers 17 to 25" in fault.detail) is size.isdigit()
    assert offered is None or fault.did_you_mean[0] == offered


@every("size", ["2", "02", "002", "#2", "2 BA", "2ba"])
def test_spellings_of_a_ba_number(size):
    assert callout.from_fields(ThreadFields("british_association", size)).size == "2"
