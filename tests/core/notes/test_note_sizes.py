"""Drills, recesses, units and spellings of a note: each row by the rules D1 to D4, K1 to K7, U1 to U4, H1 to H9, T5."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes import NoteRequest, read
from borewright.core.notes.characters import plain_copy
from every import every


def only(note, unit=None, *general):
    (hole,) = read(NoteRequest(note, unit, general)).holes
    return hole


def codes(note, unit=None):
    return [one.code for one in read(NoteRequest(note, unit)).questions]


@every(
    ("note", "unit", "asked"),
    [
        # M8: below its pitch of 1.25 and above ten diameters a bare depth is more likely one in inches
        ("M8 ↧1.25", None, False),
        ("M8 ↧1.24", None, True),
        ("M8 ↧80", None, False),
        ("M8 ↧80.1", None, True),
        ("M8 ↧.63 IN", None, False),
        ("M8 ↧5/8", None, False),
        ("M8 ↧1.24", "mm", False),
        ("M8 ↧.63", "in", False),
        # its drill is from 0.4 x 8 = 3.2 mm to 1.5 x 8 = 12 mm
        ("Ø3.2 ↧24 M8 ↧16", None, False),
        ("Ø3.19 ↧24 M8 ↧16", None, True),
        ("Ø12 ↧24 M8 ↧16", None, False),
        ("Ø12.1 ↧24 M8 ↧16", None, True),
        ("Ø3.19 MM ↧24 M8 ↧16", None, False),
        ("M8 ↧16 TDD 24", None, False),
        ("1/4-20 UNC ↧12", None, True),
    ],
)
def test_a_length_that_is_more_likely_in_the_other_unit(note, unit, asked):
    assert ("unit_unknown" in codes(note, unit)) is asked


@every(
    ("note", "unit", "general", "diameter", "angle"),
    [
        # major diameters: 1/4 = .25 in = 6.35 mm, #10 = .19 in = 4.826 mm, M8 = .314961 in
        ("1/4-20 UNC THRU CSK TO MAJOR DIA X 90°", "in", (), "0.25", "90"),
        ("1/4-20 UNC THRU CSK TO MAJOR DIA X 90°", "mm", (), "6.35", "90"),
        ("#10-32 UNF THRU CSK TO MAJOR DIA X 82°", "mm", (), "4.826", "82"),
        ("M8 THRU CSK TO MAJOR DIA X 90°", "in", (), "0.314961", "90"),
        ("M8 THRU CSK TO MAJOR DIA X 90°", "mm", (), "8", "90"),
        ("1/4-20 UNC THRU CSK .03 OVER MAJOR DIA X 90°", "in", (), "0.28", "90"),
        ("1/4-20 UNC THRU CSK .5 OVER MAJOR DIA X 90°", "mm", (), "6.85", "90"),
        ("M8 THRU ⌵ Ø9 X 90°", "mm", (), "9", "90"),
        ("M8 THRU CSK 90°", "mm", (), None, "90"),
        ("M8 THRU ⌵ Ø9", "mm", (), "9", None),
        ("M8 THRU", "mm", ("CSK ALL TAPPED HOLES 90° TO MAJOR DIA",), "8", "90"),
        ("M8 THRU", "in", ("CSK ALL TAPPED HOLES 90° TO MAJOR DIA",), "0.314961", "90"),
        ("M8 THRU ⌵ Ø9 X 100°", "mm", ("CSK ALL TAPPED HOLES 90° TO MAJOR DIA",), "9", "100"),
    ],
)
def test_a_countersink(note, unit, general, diameter, angle):
    found = only(note, unit, *general).as_written.countersink
    assert (found.diameter, found.angle_deg) == tuple(
        None if one is None else Decimal(one) for one in (diameter, angle)
    )
    told = "The countersink is that of a general note." in only(note, unit, *general).assumptions
    assert told is (bool(general) and "⌵" not in note)


@every(
    ("note", "diameter", "depth"),
    [
        ("M8 THRU ⌴ Ø14 ↧8", "14", "8"),
        ("⌴ Ø14 ↧8 M8 THRU", "14", "8"),
        ("M8 THRU SPOTFACE Ø20", "20", None),
        ("M8 THRU", None, None),
    ],
)
def test_a_counterbore(note, diameter, depth):
    found = only(note, "mm").as_written.counterbore
    if diameter is None:
        assert found is None
        return
    assert (found.diameter, found.depth) == (Decimal(diameter), None if depth is None else Decimal(depth))


_REAMED = " before it is tapped: the request leaves the drill open and plans no ream."


@every(
    ("note", "unit", "reamed", "words"),
    [
        ("1/4-20 UNC ↧.50", "in", None, ()),
        ("Ø.201 ↧.75 1/4-20 UNC ↧.50", "in", None, ()),
        (
            "DRILL .19 REAM .204 1/4-20 UNC ↧.50",
            "in",
            "The note reams or fits the hole to 0.204 in",
            (("ream", "REAM .204"), ("pilot", "DRILL .19")),
        ),
        # limits and tolerances stay in the words of the note
        (
            "Ø.201±.002 ↧.75 MIN 1/4-20 UNC ↧.50",
            "in",
            None,
            (("depth_limits", "↧.75 MIN"), ("drill_limits", "Ø.201±.002")),
        ),
        ("M8 .50 MIN FULL THD", "in", None, (("thread_depth_limits", ".50 MIN FULL THD"),)),
        ("PILOT DRILL .125 1/4-20 UNC THRU", "in", None, (("pilot", "PILOT DRILL .125"), ("through", "THRU"))),
    ],
)
def test_what_stays_in_the_words_of_the_note(note, unit, reamed, words):
    hole = only(note, unit)
    assert sorted(hole.as_written.words) == sorted(words)
    said = [one.replace("\N{NO-BREAK SPACE}", " ") for one in hole.assumptions if "reams" in one]
    assert said == ([] if reamed is None else [reamed + _REAMED])
    assert hole.as_written.reamed is (reamed is not None)


@every(
    ("general", "said"),
    [
        (("FINISH: ASTM B633 FE/ZN 8",), True),
        (("FINISH: ASTM B633 FE/ZN 8", "DIMENSIONS APPLY AFTER PLATING"), False),
        (("DEBURR",), False),
        ((), False),
    ],
)
def test_what_limits_hold_for_is_said_where_there_is_a_finish(general, said):
    told = [one for one in only("M8 THRU", None, *general).assumptions if one.startswith("No note says whether")]
    assert bool(told) is said


@every(
    ("note", "thread", "depth"),
    [
        ("M8 COARSE THRU", "M8x1.25", None),
        ("M8 REGELGEWINDE THRU", "M8x1.25", None),
        ("M1x0.25 THRU", "M1x0.25", None),
        # at a quarter of the diameter the number after x is a depth, below it a pitch, be there one or not
        ("M8x2", "M8x1.25", "2"),
        ("M8x1.9", None, None),
        ("M8-1.25 THRU", "M8x1.25", None),
        ("MJ8x1 THRU", "MJ8x1", None),
        ("M8x1.25 STI 4H5H THRU", "M8x1.25 STI 4H5H", None),
        ("1/4-20 THRU", "1/4-20 UNC", None),
        ("1/4 20 UNC THRU", "1/4-20 UNC", None),
        ("1/4 20-2B THRU", "1/4-20 UNC-2B", None),
        ("1/4-20 USS THRU", "1/4-20 UNC", None),
        ("1/4-28 SAE THRU", "1/4-28 UNF", None),
        ("1/4-20 UNC-3 THRU", "1/4-20 UNC-3B", None),
        # 5-32 UNS could be read as a #5 screw: the thread keeps the spelling of the note
        ("5.000-32 UNS-2B THRU", "5.000-32 UNS-2B", None),
    ],
)
def test_how_far_a_designation_reaches(note, thread, depth):
    hole = only(note, "mm" if note.startswith("M") else "in")
    assert hole.thread == thread
    assert hole.full_thread_depth == (None if depth is None else Decimal(depth))


@every(
    ("note", "said"),
    [
        ("m8-6h thru", "class 6h in a note of small letters is read as 6H"),
        ("1/4-20 USS-2B THRU", "USS is the older name of UNC"),
        ("1/4-20 UNC-3 THRU", "class 3 without a letter is read as 3B: the thread is that of a hole"),
        ("M8-6H THRU", None),
        ("1/4-20 UNC-2B THRU", None),
    ],
)
def test_what_a_designation_assumes(note, said):
    assert only(note).assumptions == (() if said is None else (said,))


@every(
    ("note", "copy"),
    [
        ("%%c5", "Ø5"),
        ("90%%d", "90°"),
        ("%%p.01", "±.01"),
        ("%%uM8", "M8"),
        ("5%%%", "5%"),
        ("\\U+00D85", "Ø5"),
        ("\\U+001F5", "5"),
        ("A\\U+00205", "A 5"),
        ("A\\U+00215", "A!5"),
        ("\\U+D8005", "5"),
        ("\\U+DFFF5", "5"),
        ("\\U+D7FF5", "\ud7ff5"),
        ("\\U+E0005", "\ue0005"),
        ("\\S1#4;", " 1/4 "),
        ("M8\\PTHRU", "M8\nTHRU"),
        ("M8\\~THRU", "M8 THRU"),
        ("M8<br>THRU", "M8\nTHRU"),
        ("<b>M8</b>", "M8"),
        ("&#8960;5", "Ø5"),
        ("90&deg;", "90°"),
        ("M8&times;1", "M8x1"),
        ("{\\fGDT;n}5", "Ø5"),
        ("{\\fGDT;x}5", "↧5"),
        ("{\\fGDT;v}5", "⌴5"),
        ("{\\fGDT;w}5", "⌵5"),
    ],
)
def test_codes_of_drawing_programs(note, copy):
    assert plain_copy(note).text == copy
