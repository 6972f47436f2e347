"""What belongs to which hole of a note, where each thing stands, and the copy of a note that is read.

Each row is read by the rules M1, C1 to C8, P1 to P6, Y1 to Y13 and T1 to T6 of hole notes.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import BorewrightError
from borewright.core.notes import NoteRequest, read
from borewright.core.notes.case import NoteCase
from borewright.core.notes.characters import plain_copy
from borewright.core.notes.general import General
from borewright.core.notes.parts import take_apart
from borewright.core.notes.questions import Questions
from borewright.core.notes.reading import Work, read_copy
from every import every


def text(value):
    return "-" if value is None else str(value)


def told(note, unit=None, *general):
    """Thread, number, full depth and drill of each hole, in a line each."""
    return [
        f"{one.thread} {text(one.count)} {text(one.full_thread_depth)} {text(one.as_written.drill)}"
        for one in read(NoteRequest(note, unit, general)).holes
    ]


def marked(note, spans):
    return [(one.read_as, note[one.start : one.end]) for one in spans]


# M5 has its drill of 4.2 mm, M6 of 5 mm, M8 of 6.8 mm
@every(
    ("note", "holes"),
    [
        # a second thread begins a hole; a drill behind a thread is still its own ...
        ("M6 ↧12\nØ5 ↧16\nM8 ↧20", ["M6x1 1 12 5", "M8x1.25 1 20 -"]),
        # ... but behind a blank line, where one stands already and this one opens a line, behind ; and AND
        ("M6 ↧12\n\nØ6.8 ↧24\nM8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("M6 ↧12\n  \n Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("Ø5 ↧16 M6 ↧12\nØ6.8 ↧24 M8 ↧20", ["M6x1 1 12 5", "M8x1.25 1 20 6.8"]),
        ("M6 ↧12; Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("M6 ↧12 AND Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("M6 ↧12 AND, Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("M6 ↧12, Ø5 ↧16, M8 ↧20", ["M6x1 1 12 5", "M8x1.25 1 20 -"]),
        ("M6 ↧12 TAPPED; HOLE Ø5 ↧16, M8 ↧20", ["M6x1 1 12 5", "M8x1.25 1 20 -"]),
        # where no other thread follows, the drill is that of the thread before it
        ("M6 ↧12\n\nØ5 ↧16", ["M6x1 1 12 5"]),
        ("M6 ↧12; Ø5 ↧16", ["M6x1 1 12 5"]),
        ("M8 ↧20\nM6 ↧12\n\nØ5 ↧16", ["M8x1.25 1 20 -", "M6x1 1 12 5"]),
        # a label begins a hole
        ("A: M6 ↧12\nB: Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 1 20 6.8"]),
        ("1) M6 ↧12\n2) 4X M8 ↧20\n3) M5 ↧10", ["M6x1 1 12 -", "M8x1.25 4 20 -", "M5x0.8 1 10 -"]),
        ("A: M6 ↧12 Ø5 ↧16\nB: M8 ↧20", ["M6x1 1 12 5", "M8x1.25 1 20 -"]),
        # 2X counts what follows, at the end of a line what stands before it there
        ("M6 ↧12, 2X Ø6.8 ↧24 M8 ↧20", ["M6x1 1 12 -", "M8x1.25 2 20 6.8"]),
        ("M6 ↧12, 2X M8 ↧20", ["M6x1 1 12 -", "M8x1.25 2 20 -"]),
        ("M6 ↧12 2X\nM8 ↧20", ["M6x1 2 12 -", "M8x1.25 1 20 -"]),
        ("M6 ↧12; 2X\nM8 ↧20", ["M6x1 1 12 -", "M8x1.25 2 20 -"]),
        ("M6 ↧12\n4X\nM8 ↧20", ["M6x1 1 12 -", "M8x1.25 4 20 -"]),
        ("2X\nM6 ↧12\n4X\nM8 ↧20", ["M6x1 2 12 -", "M8x1.25 4 20 -"]),
        ("2X M6 ↧12 4X M8 ↧20", ["M6x1 2 12 -", "M8x1.25 4 20 -"]),
        # the last count has no thread behind it
        ("M6 ↧12 2X", ["M6x1 2 12 -"]),
        ("M6 ↧12\n2X", ["M6x1 2 12 -"]),
        ("M6 ↧12\n2X Ø5 ↧16", ["M6x1 2 12 5"]),
        # PLACES count what stands before, but at the beginning of a line what follows on it
        ("M6 ↧12 4 PLCS, M8 ↧20 2 PLCS", ["M6x1 4 12 -", "M8x1.25 2 20 -"]),
        ("M6 ↧12\n(2) HOLES\nM8 ↧20", ["M6x1 2 12 -", "M8x1.25 1 20 -"]),
        ("M6 ↧12\n(2) HOLES M8 ↧20", ["M6x1 1 12 -", "M8x1.25 2 20 -"]),
        ("M6 ↧12 (2) HOLES M8 ↧20", ["M6x1 2 12 -", "M8x1.25 1 20 -"]),
        ("M6 ↧12\n6 EQ SP\nM8 ↧20", ["M6x1 6 12 -", "M8x1.25 1 20 -"]),
        # what a count counts is looked for among the eleven elements behind it
        ("M6 ↧12\n4X" + "," * 10 + "M8 ↧20", ["M6x1 1 12 -", "M8x1.25 4 20 -"]),
        ("M6 ↧12\n4X" + "," * 11 + "M8 ↧20", ["M6x1 4 12 -", "M8x1.25 1 20 -"]),
    ],
)
def test_what_belongs_to_which_hole(note, holes):
    assert told(note, "mm") == holes


@every(
    ("note", "unit", "kind", "depth", "drilled", "bound", "limit"),
    [
        ("M8 THRU", None, "through", None, None, "", None),
        ("M8 ↧16", None, "blind", "16", None, "", None),
        ("Ø6.8 ↧22 M8 ↧16", None, "blind", "16", "22", "", None),
        ("Ø6.8 ↧22 MAX M8 ↧16", None, "blind", "16", "22", "MAX", "22"),
        ("Ø6.8 ↧22 MIN M8 ↧16", None, "blind", "16", "22", "MIN", None),
        ("Ø6.8 THRU M8 ↧16", None, "through", "16", None, "", None),
        # a depth that stands before everything is that of the part behind it
        ("↧16 M8", None, "blind", "16", None, "", None),
        # turns: 8 x 1.25 = 10 mm = .393701 in; 8/20 = .4 in = 10.16 mm
        ("M8 8 FULL THREADS", "mm", "blind", "10", None, "", None),
        ("M8 8 FULL THREADS", "in", "blind", "0.393701", None, "", None),
        ("1/4-20 UNC 8 FULL THREADS", "in", "blind", "0.4", None, "", None),
        ("1/4-20 UNC 8 FULL THREADS", "mm", "blind", "10.16", None, "", None),
        # a stated depth goes before turns
        ("M8 ↧16 8 FULL THREADS", None, "blind", "16", None, "", None),
        # a word that says not counts in its clause alone
        ("M8 THRU, NOT PAINTED", None, "through", None, None, "", None),
        ("M8 NOT PAINTED, THRU", None, "through", None, None, "", None),
    ],
)
def test_how_deep_a_hole_is(note, unit, kind, depth, drilled, bound, limit):
    found = read(NoteRequest(note, unit))
    (hole,) = found.holes
    lengths = (hole.full_thread_depth, hole.as_written.drill_depth, hole.drill_depth_limit)
    assert (hole.kind, hole.drill_depth_bound, found.questions) == (kind, bound, ())
    assert lengths == tuple(None if one is None else Decimal(one) for one in (depth, drilled, limit))


_NEEDED = "give the full thread depth"
_NO_DEPTH = "The hole is blind and no depth of full thread was read."


@every(
    ("note", "kind", "question", "options"),
    [
        ("M8 ↧", "blind", _NO_DEPTH, (_NEEDED,)),
        ("M8 ⌴ Ø14 ↧", "blind", _NO_DEPTH, (_NEEDED,)),
        ("DRILL AND TAP M8 ↧", "blind", _NO_DEPTH, (_NEEDED,)),
        ("Ø6.8 ↧22 M8 THRU", "through", "The thread goes through, the drilled hole does not.", ("through", "blind")),
        (
            "M8 ↧16 ↧22 ↧30",
            "blind",
            "More depths are written than there are parts: 22 mm, 30 mm.",
            ("thread", "drill"),
        ),
    ],
)
def test_what_is_asked_of_a_depth(note, kind, question, options):
    found = read(NoteRequest(note))
    assert [one.kind for one in found.holes] == [kind]
    (asked,) = found.questions
    assert (asked.code, asked.text.replace("\N{NO-BREAK SPACE}", " "), asked.options) == (
        "depth_of_what",
        question,
        options,
    )


@every(
    ("note", "codes"),
    [
        ("PIPE TAP 8 FULL THREADS", ["thread_ambiguous"]),
        ("PIPE TAP ↧12", ["thread_ambiguous", "depth_of_what"]),
        ("PIPE TAP BLIND", ["thread_ambiguous", "depth_of_what"]),
    ],
)
def test_a_hole_without_a_thread_is_asked_for_it(note, codes):
    found = read(NoteRequest(note))
    assert [(one.thread, one.kind) for one in found.holes] == [(None, "blind")]
    assert [one.code for one in found.questions] == codes


# --- numbers beside a thread ------------------------------------------------------------------------------------------


@every(
    ("note", "asked"),
    [
        ("5.5.5 M8 THRU", "'5.5.5' before M8 was not read: is it a part of the thread?"),
        ("5.5.5 - M8 THRU", "'5.5.5' before M8 was not read: is it a part of the thread?"),
        ("5.5.5   M8 THRU", "'5.5.5' before M8 was not read: is it a part of the thread?"),
        ("5.5.5    M8 THRU", None),
        ("5.5.5, M8 THRU", None),
        ("QV M8 THRU", None),
        ("M8-9Q THRU", "'9Q' behind M8 was not read: is it the class of the thread?"),
        ("M8 9Q THRU", None),
        ("M8-QV THRU", None),
    ],
)
def test_what_was_not_read_beside_a_thread(note, asked):
    found = read(NoteRequest(note))
    threads = [one for one in found.questions if one.code == "thread_ambiguous"]
    assert [(one.text, one.options) for one in threads] == ([] if asked is None else [(asked, ("M8",))])
    assert [one.thread for one in found.holes] == ["M8x1.25" if asked is None else None]


@every("note", ["M6\nM8 QV5 THRU", "M6 QV5 THRU\nM8", "M6 THRU\nQV, M8 THRU"])
def test_what_was_not_read_in_a_hole_says_nothing_of_another(note):
    """A hole without a depth is asked about figures that stand unread in it, and goes through without them."""
    found = read(NoteRequest(note))
    assert [(one.thread, one.kind) for one in found.holes] == [("M6x1", "through"), ("M8x1.25", "through")]
    assert found.questions == ()


def test_what_was_not_read_before_the_thread_of_a_second_hole():
    found = read(NoteRequest("M6 THRU\n5.5.5 M8 THRU"))
    assert [one.thread for one in found.holes] == ["M6x1", None]
    (asked,) = found.questions
    assert (asked.hole, asked.text) == (1, "'5.5.5' before M8 was not read: is it a part of the thread?")


# --- where everything stands ------------------------------------------------------------------------------------------


def test_the_texts_that_a_hole_is_read_from():
    note = "A: 4X M6 TAP ↧12\nB: Ø6.8 ↧24, M8 ↧20 QV"
    found = read(NoteRequest(note))
    assert [marked(note, one.read_from) for one in found.holes] == [
        [
            ("label", "A:"),
            ("count", "4X"),
            ("thread", "M6"),
            ("joining", "TAP"),
            ("depth", "↧12"),
            ("joining", "\n"),
        ],
        [
            ("label", "B:"),
            ("drill", "Ø6.8"),
            ("depth", "↧24"),
            ("joining", ","),
            ("thread", "M8"),
            ("depth", "↧20"),
        ],
    ]
    assert marked(note, found.unread) == [("unread", "QV")]
    assert found.not_holes == ()


@every("note", ["4X M6 ↧12 Ø5 H7\nHOLES", "4X M6 ↧12 Ø5 H7\nREF"])
def test_what_counts_no_fitted_hole_begins_none(note):
    found = read(NoteRequest(note, "mm"))
    (hole,) = found.holes
    assert (hole.read_from[0].start, hole.read_from[-1].end) == (0, len(note))
    assert found.not_holes == ()


def test_lines_said_of_the_drawing_are_no_holes():
    note = "UNLESS OTHERWISE SPECIFIED QV ALL THREADS CLASS 6G\nM8 ↧20\nDIMENSIONS IN MILLIMETERS\nDEBURR"
    found = read(NoteRequest(note))
    assert marked(note, found.not_holes) == [
        ("general_note", "UNLESS OTHERWISE SPECIFIED QV ALL THREADS CLASS 6G"),
        ("general_note", "DIMENSIONS IN MILLIMETERS"),
        ("general_note", "DEBURR"),
    ]
    assert [(one.text, one.changes, one.unread) for one in found.general] == [
        ("UNLESS OTHERWISE SPECIFIED QV ALL THREADS CLASS 6G", ("threads without a class: 6G",), ("QV",)),
        ("DIMENSIONS IN MILLIMETERS", ("bare lengths are in mm",), ()),
        ("DEBURR", ("edges are broken: changes no hole request",), ()),
    ]
    assert [one.thread for one in found.holes] == ["M8x1.25-6G"]
    assert found.unread == ()


def test_a_countersink_without_an_angle_says_nothing_of_all_holes():
    found = read(NoteRequest("M8 THRU", None, ("CSK ALL TAPPED HOLES",)))
    assert found.general[0].changes == ()
    assert found.holes[0].as_written.countersink is None


@every(("bad", "finish"), [(0, True), (7, True), (8, False)])
def test_eight_finishes_are_tried(bad, finish):
    """Texts that look like a finish and name none cost a reading each."""
    notes = (*(f"PLATING {number} QV" for number in range(bad)), "FINISH: ASTM B633 FE/ZN 8")
    (hole,) = read(NoteRequest("M8 THRU", None, notes)).holes
    assert hole.finish == ("ASTM B633 Fe/Zn 8" if finish else None)


@every("note", ["QV", "DEBURR ALL EDGES", "PAINT GREEN\nQV"])
def test_a_note_without_a_thread_is_asked_as_a_whole(note):
    found = read(NoteRequest(note))
    assert found.holes == ()
    (asked,) = found.questions
    assert (asked.code, asked.text, asked.options) == ("not_a_tapped_hole", "The note names no thread.", ())
    assert (asked.hole, asked.start, asked.end) == (None, 0, len(note))


def test_a_label_alone_is_told():
    assert marked("B: ", read(NoteRequest("B: ")).not_holes) == [("label", "B:")]


def test_codes_of_letters_are_formatting():
    note = "\\fArial|b0;M8 THRU"
    found = read(NoteRequest(note))
    assert [one.thread for one in found.holes] == ["M8x1.25"]
    assert marked(note, found.not_holes) == [("formatting", "\\fArial|b0;")]


def test_the_longest_note_and_the_most_holes():
    assert len(read(NoteRequest("M8 THRU".ljust(4000))).holes) == 1
    assert len(read(NoteRequest("M8 THRU\n" * 50)).holes) == 50
    for note, code in (("M8 THRU".ljust(4001), "note_too_long"), ("M8 THRU\n" * 51, "note_too_many_holes")):
        with pytest.raises(BorewrightError) as refused:
            read(NoteRequest(note))
        assert (refused.value.code, refused.value.faults[0].pointer) == (code, "/note")


# --- the copy that is read --------------------------------------------------------------------------------------------


def _each(number):
    return [(place, place + 1) for place in range(number)]


def _drawn(place, letter):
    return ((place, place + 1, f"{letter} before a number is read as the diameter sign"),)


@every(
    ("note", "copy", "spans", "repairs"),
    [
        ("M8×1", "M8x1", [(0, 1), (1, 2), (2, 3), (3, 4)], ()),
        # a fraction of one sign is three, with blanks; each stands for the sign
        ("½", " 1/2 ", [(0, 1)] * 5, ()),
        ("A½", "A 1/2 ", [(0, 1), *[(1, 2)] * 5], ()),
        # letters of other alphabets are told, accents are only taken off
        ("М8", "M8", [(0, 1), (1, 2)], ((0, 1, "the letter U+041C is read as M"),)),
        ("trou taraudé", "trou taraude", _each(12), ()),
        ("À", "A", [(0, 1)], ()),
        ("e\u0300", "e", [(0, 1)], ()),
        ("e\u036f", "e", [(0, 1)], ()),
        ("ȳ", "y", [(0, 1)], ()),
        ("¿", "¿", [(0, 1)], ()),
        ("ß", "ss", [(0, 1), (0, 1)], ()),
        # wide forms
        ("！８～", "!8~", [(0, 1), (1, 2), (2, 3)], ()),
        ("\u00ad8", "8", [(1, 2)], ()),
        # signs drawn with several characters
        ("A |_| 5", "A ⌴ 5", [(0, 1), (1, 2), (2, 5), (5, 6), (6, 7)], ()),
        ("\\/ 5", "⌵ 5", [(0, 2), (2, 3), (3, 4)], ()),
        ("o.201", "Ø.201", _each(5), _drawn(0, "o")),
        ("5 O6.8", "5 Ø6.8", _each(6), _drawn(2, "O")),
        ("%%c6", "Ø6", [(0, 3), (3, 4)], ()),
    ],
)  # fmt: skip
def test_a_note_is_made_plain(note, copy, spans, repairs):
    made = plain_copy(note)
    assert (made.text, list(zip(made.starts, made.ends, strict=True)), made.repairs) == (copy, spans, repairs)


def test_what_is_replaced_in_a_copy_keeps_its_places():
    """As many characters keep each its own place, others stand for all that they replace."""
    copy = plain_copy("ab cd ef")
    same = copy.replaced(3, 5, "xy")
    assert (same.text, same.starts, same.ends) == ("ab xy ef", copy.starts, copy.ends)
    other = copy.replaced(3, 5, "xyz")
    assert other.text == "ab xyz ef"
    assert list(zip(other.starts, other.ends, strict=True))[3:7] == [(3, 5), (3, 5), (3, 5), (5, 6)]


@every(("place", "line"), [(0, (0, 2)), (2, (0, 2)), (3, (3, 3)), (4, (4, 6)), (6, (4, 6))])
def test_the_line_of_a_place(place, line):
    assert plain_copy("ab\n\ncd").line_of(place) == line


def test_the_line_behind_a_line_break_that_begins_the_note():
    """The break is character 0, a and b are 1 and 2."""
    copy = plain_copy("\nab")
    assert (copy.line_of(0), copy.line_of(1), copy.line_of(2)) == ((0, 0), (1, 3), (1, 3))


def test_the_first_of_what_a_hole_says_twice():
    copy = plain_copy("M8 THRU t=3 t=4")
    case = NoteCase(take_apart(read_copy(copy.text, Work()).elements), copy, General(), Questions(0), unread=())
    thickness = case.first("thickness")
    assert thickness is not None
    assert case.words(thickness) == "t=3"
    assert case.first("ream") is None


# --- damage -----------------------------------------------------------------------------------------------------------


@every(
    ("note", "thread", "repaired"),
    [
        # one letter changed, added, left out, and two neighbours that changed places
        ("M8 THRV", "M8x1.25", "'THRV' is read as 'THRU'"),
        ("M8 THRUU", "M8x1.25", "'THRUU' is read as 'THRU'"),
        ("M8 TRHU", "M8x1.25", "'TRHU' is read as 'THRU'"),
        ("M8 BLNID ↧16", "M8x1.25", "'BLNID' is read as 'BLIND'"),
        ("M8 BLIDN ↧16", "M8x1.25", "'BLIDN' is read as 'BLIND'"),
        ("M8 BLID ↧16", "M8x1.25", "'BLID' is read as 'BLIND'"),
        # two slips in a word of seven letters and more, one in a shorter one
        ("M8 THTOUGG", "M8x1.25", "'THTOUGG' is read as 'THROUGH'"),
        ("M8 BOLTMOING TAP ↧16", "M8x1.25", "'BOLTMOING' is read as 'BOTTOMING'"),
        ("M8 BLOTMOING TAP ↧16", "M8x1.25", None),
        ("M8 TRHUU", "M8x1.25", None),
        ("M8 BLNIDD ↧16", "M8x1.25", None),
        # the first letter is right
        ("M8 BHRU", "M8x1.25", None),
        # characters that are taken for each other
        ("MB THRU", "M8x1.25", "'MB' is read as 'M8'"),
        ("M8 ↧l6", "M8x1.25", "'↧l6' is read as '↧16'"),
        ("M1O THRU", "M10x1.5", "'M1O' is read as 'M10'"),
    ],
)
def test_damage_is_mended_and_told(note, thread, repaired):
    found = read(NoteRequest(note))
    assert [one.thread for one in found.holes] == [thread]
    assert [one.partition(" (")[0] for one in found.assumptions] == ([] if repaired is None else [repaired])
