"""What a note leaves open is asked in so many words: the question, its options and the text that it is about.

Each row is read by the rules C1 to C9, H3 to H8, Y5 to Y13, P6, D4, N1 to N3 and G6 of hole notes.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.notes import NoteRequest, read
from every import every


def asked(note, unit=None, *general):
    """Code, text, options of each question, and the text of the note that it marks."""
    return [
        (one.code, one.text.replace("\N{NO-BREAK SPACE}", " "), one.options, _marked(note, one))
        for one in read(NoteRequest(note, unit, general)).questions
    ]


def _marked(note, question):
    return None if question.start is None else note[question.start : question.end]


def only(note, unit=None, *general):
    (hole,) = read(NoteRequest(note, unit, general)).holes
    return hole


@every(
    ("note", "text", "options"),
    [
        # C4: both numbers and their sum, 2 + 3
        ("2 HOLES NS & 3 FS 1/4-20 UNC-2B ↧.50", "Two numbers of holes are written.", ("2", "3", "5")),
        ("4X Ø.201 ↧.75\n2X 1/4-20 UNC-2B ↧.50", "Different numbers of holes are written for one hole.", ("4", "2")),
        ("0X M6 THRU", "0 holes cannot be meant: a number from 1 to 10000 can.", ("1",)),
        ("10001X M6 THRU", "10001 holes cannot be meant: a number from 1 to 10000 can.", ("1",)),
        ("4 M6 THRU", "4 before the thread is not marked as a number of holes.", ("4", "1")),
        # C9: on one side or on both, 2 x 3
        ("3X M6 ↧12 BOTH SIDES", "Is the number of holes that of one side or of both?", ("3", "6")),
        ("M6 ↧12 BOTH SIDES", "Is the number of holes that of one side or of both?", ("1", "2")),
        ("M6 THRU 4", "4 was not read: is it the number of holes?", ("4", "1")),
        ("M6 THRU 2", "2 was not read: is it the number of holes?", ("2", "1")),
        ("M6 THRU 10000", "10000 was not read: is it the number of holes?", ("10000", "1")),
        ("M6 THRU 10001", "10001 was not read: a number of holes from 1 to 10000 can be meant.", ("1",)),
        # twenty figures are shown of twenty-three
        (
            "M6 THRU 12345678901234567890123",
            "12345678901234567890 was not read: a number of holes from 1 to 10000 can be meant.",
            ("1",),
        ),
        ("TYP M6 THRU", "TYP says that there are several and not how many.", ()),
        # words that nobody read stand right before the number, on its line
        ("QVXW 4 PLCS M6 THRU", "4 stands behind what was not read: is it the number of holes?", ("4", "1")),
        ("M6 THRU QVX(4X)", "4 stands behind what was not read: is it the number of holes?", ("4", "1")),
        ("?X M6 THRU", "The number before x cannot be read: how many holes are there?", ()),
        ("? X M6 THRU", "The number before x cannot be read: how many holes are there?", ()),
    ],
)
def test_a_number_of_holes_that_is_not_certain(note, text, options):
    assert [one[:3] for one in asked(note)] == [("count_ambiguous", text, options)]


@every(
    ("note", "count"),
    [
        ("1X M6 THRU", 1),
        ("10000X M6 THRU", 10_000),
        ("M6 THRU 1", 1),  # one hole is one hole, also where its number is not read
        ("4X M6 THRU, 4 PLACES", 4),
        ("4X M6 THRU TYP", 4),
        ("M6 THRU", 1),
        ("(3) M6 THRU", 3),
        # what was not read stands elsewhere: with text between, behind the number, on another line
        ("M6 THRU QVXW, 4 PLCS", 4),
        ("M6 THRU, 4 PLCS, QVXW", 4),
        ("(4X) M6 THRU QVXW", 4),
        ("M6 THRU QVXW\n(4X)", 4),
        ("M6 THRU Q 4 PLCS", 4),  # and a letter or two are no words
        ("M6 THRU QV 4 PLCS", 4),
        ("3X M6 ↧12 ⌵ Ø7 X 90° BOTH SIDES", 3),  # C9: on a countersink it is no question
    ],
)
def test_a_number_of_holes_that_is_certain(note, count):
    assert (only(note).count, asked(note)) == (count, [])


@every(
    ("note", "general", "text", "options", "marked"),
    [
        ("1/4-20 UNC-2B CLASS 3B ↧.50", (), "The note says both 2B and 3B.", ("2B", "3B"), None),
        ("1/4-20 UNC-2B 3B ↧.50", (), "The note says both 2B and 3B.", ("2B", "3B"), None),
        ("1/4-20 UNC-2B STI3B ↧.50", (), "The note says both 2B and 3B.", ("2B", "3B"), None),
        (
            "1/4-20 UNC-2B ↧.50",
            ("ALL THREADS CLASS 3B",),
            "The note says 2B, a general note says 3B and not that a class in a note stands before it.",
            ("2B", "3B"),
            None,
        ),
        (
            "1/4-20 UNC-2A THRU",
            (),
            "2A is the class of the screw; the hole that takes it has an internal class, usually 2B.",
            ("1/4-20 UNC-2B",),
            "1/4-20 UNC-2A",
        ),
    ],
)
def test_two_classes(note, general, text, options, marked):
    assert asked(note, None, *general) == [("class_conflict", text, options, marked)]


@every(
    ("note", "text", "options", "marked"),
    [
        ("M8-9Q THRU", "'9Q' behind M8 was not read: is it the class of the thread?", ("M8",), "M8"),
        (
            "1/4 PIPE TAP",
            "PIPE does not say which pipe thread: taper or parallel, American or ISO.",
            ("1/4 NPT", "G 1/4", "Rc 1/4", "Rp 1/4"),
            "1/4 PIPE TAP",
        ),
        ("PIPE TAP THRU", "PIPE TAP names neither the size nor the thread.", (), "PIPE TAP"),
        (
            "#8 TAP THRU",
            "#8 without threads per inch can be more than one thread.",
            ("#8-32 UNC", "#8-36 UNF"),
            "#8 TAP",
        ),
        ("M10x1.3 THRU", "ISO 261 has no M10 with pitch 1.3 mm.", ("M10x1.25", "M10x1.5", "M10x1"), "M10x1.3"),
    ],
)
def test_which_thread(note, text, options, marked):
    assert asked(note) == [("thread_ambiguous", text, options, marked)]


@every(
    ("note", "text", "options"),
    [
        ("M8 BLIND THRU", "The note says both through and blind.", ("through", "blind")),
        (
            "M8 ↧16 MAX",
            "16 mm is the most that the thread may be deep: how deep must it be full?",
            ("give the full thread depth",),
        ),
        (
            "DRILL AND TAP 1/4-20 UNC-2B .50 DEEP",
            "0.5 in stands behind drill and thread: whose depth is it?",
            ("thread", "drill", "both"),
        ),
        # a sign between the word and THRU, whether it says nothing or was not read
        ("M8 NOT/THRU", "A word before THRU says not: is the hole through?", ("through", "blind")),
        ("M8 NOT>THRU", "A word before THRU says not: is the hole through?", ("through", "blind")),
        (
            "M8 6 FULL THREADS, 8 FULL THREADS",
            "Different numbers of full threads are written for one hole: how deep is the full thread?",
            ("6 full threads", "8 full threads", "give the full thread depth"),
        ),
        ("M8 ↧12-14", "Two depths are written as a range: which is the full thread depth?", ("12 mm", "14 mm")),
        ("M8 TAP TO BOTTOM", "TAP TO BOTTOM gives no depth of full thread.", ("give the full thread depth",)),
        (
            "Ø6.8 ↧22 M8 DRILL DEPTH 22",
            "22 mm is the depth of the drilled hole: how deep is the full thread?",
            ("thread", "both", "give the full thread depth"),
        ),
        ("M8 BLIND", "The hole is blind and no depth of full thread was read.", ("give the full thread depth",)),
    ],
)
def test_which_depth(note, text, options):
    assert ("depth_of_what", text, options) in [
        (code, said, tuple(one.replace("\N{NO-BREAK SPACE}", " ") for one in choices))
        for code, said, choices, _ in asked(note)
    ]


@every(
    ("note", "text"),
    [
        ("CLEARANCE FOR M8", "The note says a hole for a screw or pin, not a thread."),
        ("CLEARANCE FOR 1/4-20 UNC-2A", "The note says a hole for a screw or pin, not a thread."),
        ("CLEARANCE FOR M10x1.3", "The note says a hole for a screw or pin, not a thread."),
        ("1/4-20 UNC-2A x 2.0 LG", "The length or the word is that of a screw or stud, not of a hole."),
        ("4X Ø6.5 THRU", "The note names no thread."),
        ("REAM Ø6 THRU", "The note says a reamed or fitted hole, not a thread."),
    ],
)
def test_what_is_no_tapped_hole(note, text):
    """The whole of it is marked, and no hole comes out."""
    assert asked(note) == [("not_a_tapped_hole", text, (), note)]
    assert read(NoteRequest(note)).holes == ()


@every(
    ("note", "unit", "text", "marked"),
    [
        (
            "Ø.208 ↧.75 1/4-20 UNC-2B ↧.50",
            "in",
            "The stated drill, 0.208 in, is above the limits of the minor diameter of 1/4-20 UNC-2B.",
            "Ø.208",
        ),
        ("Ø.500 1/4-18 NPT", "in", "No tap drill table lists 0.5 in for 1/4-18 NPT.", "Ø.500"),
        (
            "Ø6.8 ↧15 M8 ↧16",
            "mm",
            "The drilled hole, 15 mm deep, is less deep than the full thread, 16 mm.",
            None,
        ),
    ],
)
def test_what_is_wrong_with_the_drill(note, unit, text, marked):
    assert asked(note, unit) == [("drill_disagrees", text, ("keep as written", "use the service's"), marked)]


def test_full_threads_that_are_said_twice():
    """The same number twice is one, 8 x 1.25 = 10 mm; of two numbers none is taken."""
    assert only("M8 8 FULL THREADS MIN, 8 FULL THREADS").full_thread_depth == Decimal(10)
    assert only("M8 6 FULL THREADS, 8 FULL THREADS").full_thread_depth is None


def test_two_reams_for_one_hole():
    """As of two drills none is taken; the same size twice is one."""
    note = "REAM Ø6.7 REAM Ø6.8 M8 THRU"
    options = ("REAM Ø6.7", "REAM Ø6.8")
    assert asked(note, "mm") == [("drill_disagrees", "Two drills are written for one hole.", options, None)]
    assert only(note, "mm").as_written.drill is None
    assert only("REAM Ø6.8 REAM Ø6.8 M8 THRU", "mm").as_written.drill == Decimal("6.8")


@every(
    ("note", "thread"),
    [
        ("M8 THRU", "M8x1.25"),
        ("M8-6H THRU", "M8x1.25-6H"),
        ("M8 CLASS 6 THRU", "M8x1.25-6H"),
        ("CLASS 2B 1/4-20 UNC THRU", "1/4-20 UNC-2B"),
        ("1/4-20 UNC THRU", "1/4-20 UNC"),
        ("1/4-20 UNC CLASS 3 THRU", "1/4-20 UNC-3B"),
        ("G 1/4 A THRU", "G 1/4 A"),
        ("1/4-20 UNC LH THRU", "1/4-20 UNC LH"),
    ],
)
def test_the_thread_is_named_as_it_is_asked_for(note, thread):
    """A class is named where the note states it (H2), the hand where it is left (H6)."""
    assert only(note).thread == thread


@pytest.mark.parametrize("note", ["1/4-20 UNC-2B THRU 3B", "1/4-20 UNC-2B CLASS 2B ↧.50"])
def test_no_second_class(note):
    """What stands apart from the thread is not its class, and one class said twice is one."""
    assert "class_conflict" not in [code for code, *_ in asked(note)]
