"""Words beside the thread: what each of them says, and what is offered where it does not belong into a callout."""

from __future__ import annotations

import pytest
from borewright.core.callout import read
from borewright.core.errors import BorewrightError, Fault
from every import every


def refused(text: str) -> Fault:
    with pytest.raises(BorewrightError) as caught:
        read(text)
    return caught.value.faults[0]


_THROUGH = 'describes the hole: say "type": "through" and the thickness in "hole".'
_DEEP = 'describes the hole: give the depth as "full_thread_depth" in "hole".'
_LENGTH = 'is a length of screw or hole: give the depth as "full_thread_depth" in "hole".'
_SCREW = "is said of a screw: the callout of a hole has no length."
_OUT = "describes the hole, not the thread: leave it out, the reply states drill and countersink."
_COUNT = "tells how many holes: one request is one hole."


@every(
    ("text", "detail", "meant"),
    [
        # words of the hole are read behind the thread; before it they are refused, and the thread alone is offered
        ("THRU M8", f"THRU {_THROUGH}", "M8"),
        ("THROUGH - M8", f"THROUGH {_THROUGH}", "M8"),
        ("THRO M8", f"THRO {_THROUGH}", "M8"),
        ("DEEP 16 M8", f"DEEP {_DEEP}", None),
        ("BLIND M8x1.25", f"BLIND {_DEEP}", "M8x1.25"),
        ("QTY 4 M8x1.25", f"QTY {_COUNT}", None),
        # a word of depth without its figure
        *((f"M8x1.25 {word}", f"{word} {_DEEP}", "M8x1.25") for word in ("DEEP", "DP", "DPT", "DEPTH", "FULL")),
        *((f"M8x1.25 {word}", f"{word} {_DEEP}", "M8x1.25") for word in ("MIN", "MINIMUM", "MAX")),
        ("1-4 SQUARE DEEP", f"DEEP {_DEEP}", None),
        ("1-4 SQUARE DEPTH .125 CBORE", f"CBORE {_OUT}", None),
        # lengths of screws; the words and figures of the length go with it, those of the thread stay
        ("M8 LG", f"LG {_SCREW}", "M8"),
        ("M8 20 LG", f"LG {_SCREW}", "M8"),
        ("M8 20MM LONG", f"LONG {_SCREW}", "M8"),
        ("M8 x 20 MM LONG", f"LONG {_SCREW}", "M8"),
        ("M8 THREAD LONG", f"LONG {_SCREW}", "M8"),
        ("M8 THREAD 20 LONG", f"LONG {_SCREW}", "M8"),
        ("M8 6H THREAD 20 LONG", f"LONG {_SCREW}", "M8 6H"),
        ("M8x1-6H 20 THREAD LONG", f"LONG {_SCREW}", "M8x1-6H"),
        ("1/4-20 UNC 3in LONG", f"LONG {_SCREW}", "1/4-20 UNC"),
        ("1/4-20 UNC 1 1/2 LONG", f"LONG {_SCREW}", "1/4-20 UNC"),
        ("M8 1 1/2 LONG", f"LONG {_SCREW}", "M8"),
        ("M8 LH 1/2 LONG", f"LONG {_SCREW}", "M8 LH"),
        ("1/4 20 3 LONG", f"LONG {_SCREW}", "1/4 20"),
        ("8-32 LONG", f"LONG {_SCREW}", "8-32"),
        ("1/4-20 LONG", f"LONG {_SCREW}", "1/4-20"),
        ("3/4 LONG", f"LONG {_SCREW}", None),
        ("THREAD LONG", f"LONG {_SCREW}", None),
        ("20 LONG", f"LONG {_SCREW}", None),
        ("1 1/2 LONG", f"LONG {_SCREW}", None),
        # what else is done at the hole
        *((f"M8x1 {word}", f"{word} {_OUT}", "M8x1") for word in ("CBORE", "CSK", "DRILL", "REAM", "BOTTOM", "DIA")),
        # a second number of holes
        ("2X (4) M8", "(4) is a number of holes: one request is one hole.", "M8"),
        ("M8x1.25 EQ", f"EQ {_COUNT}", "M8x1.25"),
        ("M8x1.25 20 EQ", f"EQ {_COUNT}", "M8x1.25"),
        # a bare length at the end
        ("Tr 40 x 7 x 50", f"50 {_LENGTH}", "Tr 40 x 7"),
        (
            "1/4-20 x 1 1/2 IN",
            f"1 1/2 {_LENGTH}",
            "1/4-20",
        ),
    ],
)
def test_what_a_word_of_the_hole_is_told(text, detail, meant):
    fault = refused(text)
    assert (fault.code, fault.pointer) == ("callout_has_depth", "/thread")
    assert (fault.detail, fault.did_you_mean) == (detail, () if meant is None else (meant,))


@every(
    ("text", "said"),
    [
        ("M8x1-6H (22)", "(22) is the gaging system of ASME B1.3 the part is accepted by."),
        ("M8x1-6H (System 21A)", "(21A) is the gaging system of ASME B1.3 the part is accepted by."),
        ("M8x1-6H AFTER PLATING", "AFTER COATING was read: the limits of the class are those of the finished thread."),
        (
            "M8x1-6H before coating",
            "BEFORE COATING was read: the limits of the class are those before the finish is put on.",
        ),
        ("1/2-13 UNC-2B SE 1.00", "SE 1.00 is read as special length of engagement 1.00."),
        ("1/2-13 UNC-2B LE=.75", "LE=.75 is read as special length of engagement .75."),
    ],
)
def test_what_a_word_of_the_thread_is_taken_for(text, said):
    assert read(text).assumptions == (said,)


_STARTS = {
    "ONE": 1, "SINGLE": 1, "TWO": 2, "DOUBLE": 2, "TWIN": 2, "THREE": 3, "TRIPLE": 3, "FOUR": 4, "QUADRUPLE": 4,
    "FIVE": 5, "SIX": 6, "EIGHT": 8,
}  # fmt: skip


@every(
    ("text", "starts"),
    [
        ("M16x2 LEAD 4", 2),
        ("M16x2 LEAD=6", 3),
        ("M16x2 4 LEAD", 2),
        ("M16 x 2 lead 4", 2),
        ("MJ16x1.5-4H5H LEAD 4.5", 3),
        ("Tr 40x7 LEAD 14", 2),
        (".0625 LEAD 1/2-32 UN", 2),
        (".750-.0625P LEAD .1875 UNF", 3),
        ("SQUARE 40x7 DEPTH 3.5 LEAD 14", 2),
        ("M16xPh4P2 LEAD 4", 2),
        ("1/2-20 UNF LEAD .1", 2),
        ("1/2-20 UNF (TWO STARTS)", 2),
        ("1/2-20 UNF TRIPLE START", 3),
        ("1/2-20 UNF 4 STARTS", 4),
        ("1/2-20 UNF 12 STARTS", 12),
        ("1/2-20 UNF 1 START", 1),
        *((f"1/2-20 UNF {word} START", starts) for word, starts in _STARTS.items()),
        *((f"1/2-20 UNF ({word.lower()}-starts)", starts) for word, starts in _STARTS.items()),
    ],
)
def test_starts_from_their_number_or_from_the_lead(text, starts):
    """The lead is the pitch times the starts; 1/20 in is .05 in."""
    assert read(text).starts == starts


@every("text", ["1/2-20 UNF 0 STARTS", "1/2-20 UNF 13 STARTS"])
def test_a_thread_has_one_to_twelve_starts(text):
    fault = refused(text)
    assert (fault.code, fault.detail) == ("value_out_of_range", "A thread has 1 to 12 starts.")


@every(
    ("text", "code", "detail", "meant"),
    [
        # two systems: each is offered where that thread exists
        (
            "1/4-20 UNC BSW",
            "thread_series_mismatch",
            "UNC and BSW name different threads: the callout can be one of them only.",
            ("1/4-20 UNC", "1/4-20 BSW"),
        ),
        (
            "G 1/2-14 NPT",
            "thread_series_mismatch",
            "G and NPT name different threads: the callout can be one of them only.",
            ("G 1/2-14", "1/2-14 NPT"),
        ),
        (
            "1/2-14 UNC NPT BSW",
            "thread_series_mismatch",
            "UNC and NPT and BSW name different threads: the callout can be one of them only.",
            ("1/2-14 NPT",),
        ),
        ("M8 STI EG", "callout_unreadable", "STI and EG do not go together.", ()),
        (
            "1/4-20 UNC STUB",
            "thread_series_mismatch",
            "STUB does not go with the thread it stands beside.",
            (),
        ),
        # external threads, and what is not held
        (
            "1/4 MNPT",
            "thread_class_external",
            "MNPT is the external taper thread; the hole that takes it is NPT.",
            ("1/4 NPT",),
        ),
        ("7/16 MNPT", "thread_class_external", "MNPT is the external taper thread; the hole that takes it is NPT.", ()),
        ("1-11.5 NPSL", "thread_data_missing", "The tables of NPSL (locknut) threads are not held.", ()),
        # a word for several pipe threads: those that have the size
        (
            "1/2 BSP",
            "callout_ambiguous",
            "BSP does not say which pipe thread: taper or parallel, American or ISO.",
            ("G 1/2", "Rp 1/2", "Rc 1/2"),
        ),
        # ISO 7-1 has no 5/8, ISO 228-1 has one
        (
            "5/8 GAS",
            "callout_ambiguous",
            "GAS does not say which pipe thread: taper or parallel, American or ISO.",
            ("G 5/8",),
        ),
        # a misspelled series word
        ("1/4-20 UMC", "callout_unreadable", None, ("1/4-20 UNC",)),
        ("1/2-14 NT", "callout_unreadable", None, ("1/2-14 NPT", "1/2-14 NPTF", "1/2-14 FNPT")),
        ("1/4-20 U", "callout_unreadable", None, ()),
        # one word of two that are as near: UNM has sizes from 0.30 to 1.40 (ASME B1.10M), UNF of 1/2 has 20 threads
        ("1/2-13 UMC-2B", "callout_unreadable", None, ("1/2-13 UNC-2B",)),
        ("1/2-13 UMF", "callout_unreadable", None, ()),
    ],
)
def test_which_thread_the_words_may_mean(text, code, detail, meant):
    fault = refused(text)
    assert (fault.code, fault.did_you_mean) == (code, meant)
    assert detail is None or fault.detail == detail


@every(
    ("text", "same"),
    [
        ("6G M8x1", "M8x1-6G"),
        ("2B 1/2-13 UNC", "1/2-13 UNC-2B"),
        ("1 / 2-13 UNC-2B", "1/2-13 UNC-2B"),
        ("⁵⁄₁₆-18 UNC-2B", "5/16-18 UNC-2B"),
        ("1³⁄₈-6 UNC-2B", "1 3/8-6 UNC-2B"),
        ("¹¹⁄₁₆-24 UNEF-2B", "11/16-24 UNEF-2B"),
        ("１/２-13 UNC-2B", "1/2-13 UNC-2B"),
        ("M8x1.25-6H".ljust(200), "M8x1.25-6H"),
    ],
)
def test_signs_and_order_of_writing(text, same):
    assert read(text) == read(same)


@every("text", ["M8x1.25-6H".ljust(201), "½" * 100 + "-13" * 40])
def test_a_callout_has_two_hundred_characters(text):
    fault = refused(text)
    assert (fault.code, fault.pointer) == ("callout_too_long", "/thread")
    assert fault.detail == "A thread callout has at most 200 characters."


@every(
    ("text", "detail"),
    [
        ("PER ISO 228-1 1/2-13 UNC", "The callout cites ISO 228, which defines iso_228, not unified."),
        (
            "M8x1.25 PER ASME B1.1-2019",
            "The callout cites B1.1, which defines insert_unified, unified, unified_j, not iso_metric.",
        ),
    ],
)
def test_a_standard_that_defines_another_thread(text, detail):
    fault = refused(text)
    assert (fault.code, fault.detail) == ("thread_series_mismatch", detail)


@every("cited", ["ISO 261", "ISO 68-1, ISO 261, ISO 262, ISO 724, ISO 965-1", "to DIN 13", "per ASME B1.13M"])
def test_any_number_of_standards_may_be_cited(cited):
    assert read(f"M8x1.25-6H {cited}") == read("M8x1.25-6H")


def test_a_standard_of_no_thread_is_not_passed_over():
    assert refused("1/2-13 UNC-2B DIN 999").code == "callout_unreadable"


@every(
    ("text", "said"),
    [
        ("14-8 NPT", ("NPT sizes from 14 are outside diameters: 14 OD.",)),
        ("14 OD-8 NPT", ()),
        ("1/2-14 NPT", ()),
        ("1/2 NPT", ("No threads per inch written: NPT 1/2 has 14.",)),
        ("Tr 8-7H", ("No pitch written: Tr 8 has 1.5 mm.",)),
    ],
)
def test_what_a_listed_size_supplies(text, said):
    assert read(text).assumptions == said


@every(
    ("text", "code", "detail", "meant"),
    [
        # Tr 40 has 3, 7 and 10 mm (ISO 2904): offered by their distance from the one written
        ("Tr 40x8", "thread_pitch_unknown", "Tr 40 has no pitch 8 mm", ("Tr 40x7-7H", "Tr 40x10-7H", "Tr 40x3-7H")),
        ("Tr 40x4", "thread_pitch_unknown", "Tr 40 has no pitch 4 mm", ("Tr 40x3-7H", "Tr 40x7-7H", "Tr 40x10-7H")),
        # the size nearest to it that has the count
        ("1/2-18 NPT", "thread_pitch_unknown", "NPT 1/2 does not have 18 threads", ("1/2-14 NPT", "3/8-18 NPT")),
        # a count of another standard names its thread
        ("1/2-13 NPT", "thread_series_mismatch", "NPT 1/2 does not have 13 threads per inch; 1/2-13 UNC has.", None),
    ],
)
def test_pitches_of_a_listed_size(text, code, detail, meant):
    fault = refused(text)
    assert fault.code == code
    assert fault.detail.startswith(detail)
    assert meant is None or fault.did_you_mean == meant
