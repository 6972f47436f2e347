"""What a Unified callout that cannot be is offered: the whole list and its order, and the borders of what is likely."""

from __future__ import annotations

import pytest
from borewright.core.callout import read
from borewright.core.errors import BorewrightError, Fault
from every import every


def refused(text: str) -> Fault:
    with pytest.raises(BorewrightError) as caught:
        read(text)
    return caught.value.faults[0]


@every(
    ("text", "code", "meant"),
    [
        # no series holds it: the threads of other systems, the two nearest pitches of the size, the special thread
        ("1/2-15", "thread_pitch_unknown", ("1/2-16 UN", "1/2-13 UNC", "1/2-15 UNS")),
        ("1/2-15-3B-LH", "thread_pitch_unknown", ("1/2-16 UN-3B-LH", "1/2-13 UNC-3B-LH", "1/2-15 UNS-3B-LH")),
        ("1/2-15-3A", "thread_pitch_unknown", ("1/2-16 UN", "1/2-13 UNC", "1/2-15 UNS")),
        (
            "1/2-14",
            "callout_ambiguous",
            ("1/2-14 NPT", "G 1/2", "Rc 1/2", "1/2-13 UNC", "1/2-16 UN", "1/2-14 UNS"),
        ),
        ("8-1.25", "callout_ambiguous", ("M8x1.25", "#8-32 UNC", "#8-36 UNF")),
        # another series holds it: that one, then the pitch of the series asked for
        ("1/2-13 UNF", "thread_series_mismatch", ("1/2-13 UNC", "1/2-20 UNF", "1/2-16 UN")),
        ("1/2-15 UNF", "thread_series_mismatch", ("1/2-20 UNF", "1/2-16 UN", "1/2-13 UNC", "1/2-15 UNS")),
        ("1/2-12 UNF", "thread_series_mismatch", ("1/2-20 UNF", "1/2-12 BSW", "1/2-13 UNC", "1/2-16 UN", "1/2-12 UNS")),
        # the size alone: four Unified threads and five of other systems
        (
            "1/2",
            "callout_ambiguous",
            (
                *("1/2-13 UNC", "1/2-20 UNF", "1/2-28 UNEF", "1/2-16 UN"),
                *("1/2-14 NPT", "G 1/2", "Rc 1/2", "1/2-12 BSW", "1/2-16 BSF"),
            ),
        ),
        # no such size: the two sizes next to .060 + 7 x .013 = .151 in, .138 and .164
        ("#7-32", "thread_size_unknown", ("#6-32 UNC", "#8-32 UNC")),
        ("#7-36", "thread_size_unknown", ("#6-32 UNC", "#6-40 UNF", "#8-36 UNF")),
        ("#7", "thread_size_unknown", ("#6-32 UNC", "#6-40 UNF", "#8-32 UNC", "#8-36 UNF")),
    ],
)
def test_all_that_is_offered_in_its_order(text, code, meant):
    fault = refused(text)
    assert (fault.code, fault.did_you_mean) == (code, meant)


@every(
    ("text", "special"),
    [
        # inch sizes: diameter x threads per inch of at least 4, up to 32 tpi from 1 in and to 80 below
        ("1/2-8", "1/2-8 UNS"),
        ("1/2-7", None),
        ("1 1/4-31", "1 1/4-31 UNS"),
        ("1 1/4-33", None),
        ("1.000-31", "1-31 UNS"),
        ("1.000-33", None),
        ("15/16-79", "15/16-79 UNS"),
        ("15/16-81", None),
        # numbered sizes: 4 to 12; #5 is .125 in, #10 .190 in
        ("#5-32", "#5-32 UNS"),
        ("#5-31", None),
        ("#10-63", "#10-63 UNS"),
        ("#10-64", None),
        # no special thread is finer than 80 threads per inch
        ("#5-80", "#5-80 UNS"),
        ("#5-96", None),
        ("#0-100", None),
    ],
)
def test_a_special_thread_is_offered_where_it_is_in_proportion(text, special):
    offered = [name for name in refused(text).did_you_mean if name.endswith("UNS")]
    assert offered == ([] if special is None else [special])
    if special:
        assert read(special).series == "UNS"


@every(
    ("text", "size"),
    [
        # of screw number and inches only one is in proportion: .125 x 33 = 4.1 but 33 > 32; .125 x 31 = 3.9
        ("5-33 UNS", "#5"),
        ("5-31 UNS", "5"),
        ("12-30 UNS", "#12"),
        # 3-4 and 12-6: the tables hold the inches
        ("4-4", "4"),
        ("6-12", "6"),
        # a decimal of three places stands for the size that it rounds: .4375 in
        (".438-14", "7/16"),
        (".437-14", "7/16"),
        (".3125-18", "5/16"),
        ("24-4 UNS", "24"),
    ],
)
def test_which_size_a_number_means(text, size):
    assert read(text).size == size


@every("text", [".374-16 UNC", ".376-16 UNC", ".31-18 UNC", ".4379-14 UNC", ".4371-14 UNC"])
def test_a_decimal_that_is_off_its_size_is_not_that_size(text):
    """3/8 is .375: .374 and .376 are a whole thousandth off. Two or four places are not a shortened size."""
    assert refused(text).code == "thread_series_mismatch"


def test_a_number_that_fits_both_ways_is_asked():
    """.125 x 32 = 4 and 5 in with 32 threads per inch are both in proportion."""
    fault = refused("5-32 UNS")
    assert (fault.code, fault.did_you_mean) == ("callout_ambiguous", ("#5-32 UNS", "5.000-32 UNS"))


@every("text", ["24.001-4 UNS", "24.0001-4 UNS"])
def test_past_24_inches_there_is_no_size(text):
    assert refused(text).code == "thread_size_unknown"


@every(
    ("text", "code", "meant"),
    [
        ("1/2-13 UNC-2B/2B", "thread_class_unknown", ("1/2-13 UNC-2B",)),
        ("1/2-13 UNC-1B/3B", "thread_class_unknown", ("1/2-13 UNC-2B",)),
        ("1/2-13 UNC-2B/6g", "thread_class_unknown", ("1/2-13 UNC-2B",)),
        ("1/2-13 UNC-3A/2A", "thread_class_external", ("1/2-13 UNC-3B",)),
        ("1/2-13 UNJC-3A", "thread_class_external", ("1/2-13 UNJC-3B",)),
        ("1/2-13 UNJC-1B", "thread_class_unknown", ("1/2-13 UNJC-3B",)),
        ("1/2-13 NC-1", "thread_class_unknown", ("1/2-13 UNC-1B",)),
        ("1/2-13 NC-3", "thread_class_unknown", ("1/2-13 UNC-3B",)),
        ("1/2-13 NC-4", "thread_class_unknown", ()),
        ("1/2-13-13", None, ()),
        ("1/2-13-14", "callout_unreadable", ()),
        ("1/2-13-14 UNC", "callout_unreadable", ()),
    ],
)
def test_classes_that_cannot_be(text, code, meant):
    if code is None:
        assert read(text).threads_per_inch == 13
        return
    fault = refused(text)
    assert (fault.code, fault.did_you_mean) == (code, meant)


@every(
    ("text", "words"),
    [
        ("1/2-13 UNC-3A", "3A is the class of the screw; the hole that takes it has an internal class, usually 3B."),
        (
            "1/2-15 UNF",
            "1/2 with 15 threads per inch is not UNF: 1/2 exists as UNC 13, UNF 20, UNEF 28, 16UN 16, 32UN 32.",
        ),
        ("13.5-4 UNC", "13.5 with 4 threads per inch is not UNC: 13.5 is in no standard series."),
        ("1/2-12 UNF", "; 1/2-12 BSW has that size and pitch."),
        ("1/2-14 UNF", "; 1/2-14 NPT and G 1/2 and Rc 1/2 have that size and pitch."),
        ("#7-32", "#7 is not a size of the Unified standard."),
        ("1/2", "1/2 without threads per inch can be more than one thread."),
        ("1/2-15", "No Unified series holds 1/2 with 15 threads per inch, and no series is written."),
    ],
)
def test_the_words_name_what_exists(text, words):
    assert words in refused(text).detail


@every(
    ("text", "said"),
    [
        ("1/2-13 UNC-2B", ()),
        ("1/2-13-2B", ("No series written: 1/2-13 is the UNC member.",)),
        ("1/2-13 UNC", ("No class written: 2B, the usual internal class of ASME B1.1.",)),
        ("1/2-13 UNJC", ("No class written: 3B, the usual internal class of aerospace practice (ASME B1.15).",)),
        ("1/2 UNC-2B", ("No threads per inch written: 1/2 UNC has 13.",)),
        ("3/8-16 UN-2B", ("3/8-16 goes by the name of its graded series, UNC.",)),
        ("3/8-16 16UN-2B", ("3/8-16 goes by the name of its graded series, UNC.",)),
        ("1 1/2-8 UN-2B", ()),
        ("1 1/2-8 8UN-2B", ()),
    ],
)
def test_what_was_supplied_is_said(text, said):
    assert read(text).assumptions == said
