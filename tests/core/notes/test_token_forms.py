"""How far each piece of a note reaches and what it may be: rules T2 to T5, C1, C7, H9, D3 and U4 to U5 of hole notes.

A piece is told as its text and its kinds; a value is what the figures say: 3/8 = 0.375, 1 3/4 = 1.75.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes.tokens import Cutter
from every import every


def pieces(text):
    return [f"{one.text} = {' '.join(sorted(one.kinds))}" for one in Cutter(text, 60).cut(100)]


def texts(text):
    return [one.text for one in Cutter(text, 60).cut(100)]


_SPLIT = ["1/4 = fraction size", "- = dash glued_dash", "20 UNC = thread"]


@every(
    ("text", "found"),
    [
        # a comma and a slash part a thread from what stands before it, a figure behind them goes on with it
        ("Ø5,M6", ["Ø = diameter", "5 = size whole", ", = comma", "M6 = metric thread"]),
        ("Ø5/M6", ["Ø = diameter", "5 = size whole", "/ = slash", "M6 = metric thread"]),
        ("(M6", ["( = open", "M6 = metric thread"]),
        ("/1/4-20 UNC", ["/ = slash", *_SPLIT]),
        ("+M6", ["+ = plus", "M = letter", "6 = size whole"]),
        ("±M6", ["± = other", "M = letter", "6 = size whole"]),
        ("#M6", ["# = number_sign", "M = letter", "6 = size whole"]),
        ("Ø5.M6", ["Ø = diameter", "5 = size whole", ". = point", "M = letter", "6 = size whole"]),
        # a figure behind a sign is a size, a letter opens a thread
        ("Ø1/4-20 UNC", ["Ø = diameter", *_SPLIT]),
        ("↧1/4-20 UNC", ["↧ = depth_sign", *_SPLIT]),
        ("⌴1/4-20 UNC", ["⌴ = counterbore counterbore_sign", *_SPLIT]),
        ("⌵1/4-20 UNC", ["⌵ = countersink", *_SPLIT]),
        ("ØM6", ["Ø = diameter", "M6 = metric thread"]),
        ("↧M6", ["↧ = depth_sign", "M6 = metric thread"]),
        # glued to TAP it is the thread that is tapped, glued to another letter none
        ("TAP1/4-20 UNC", ["TAP = tap", "1/4-20 UNC = thread"]),
        ("P1/4-20 UNC", ["P = letter", *_SPLIT]),
        ("Qx1/4-20 UNC", ["Qx = unknown", *_SPLIT]),
        # glued to a figure none, behind a word of a script without blanks one
        ("5M6", ["5M = other", "6 = size whole"]),
        ("通しM6", ["通し = thru", "M6 = metric thread"]),
        # behind the x of a count
        ("4xM6", ["4 = size whole", "x = by", "M6 = metric thread"]),
    ],
)
def test_where_a_thread_may_begin(text, found):
    assert pieces(text) == found


@every(
    ("text", "found"),
    [
        ("1 2/2", ["1", "2", "/", "2"]),
        ("1 3/4", ["1 3/4"]),
        ("12-3/4", ["12-3/4"]),
        # three blanks part a mixed number at most, and its whole has two figures
        ("1   3/4", ["1   3/4"]),
        ("1    3/4", ["1", "3/4"]),
        ("123 3/4", ["123", "3/4"]),
        ("5/4", ["5/4"]),
        ("6/4", ["6", "/", "4"]),
        ("5/3", ["5", "/", "3"]),
        ("3/4.5", ["3", "/", "4.5"]),
        # behind a metric thread two depths, but for the sign of an inch
        ("M6 3/8", ["M6", "3", "/", "8"]),
        ('M6 3/8"', ["M6", '3/8"']),
        ("M6 3/8 IN", ["M6", "3/8 IN"]),
        ("M6 1-3/8", ["M6", "1", "-", "3", "/", "8"]),
        ("1/4-20 UNC 1-3/8", ["1/4-20 UNC", "1-3/8"]),
        # a tolerance is one piece with its size, also with blanks
        ("12 ±0.1", ["12 ±0.1"]),
        ("12 (±0.1)", ["12 (±0.1)"]),
        ("12 +0.1/-0", ["12 +0.1/-0"]),
        ("12 +0.1 -0", ["12 +0.1 -0"]),
        ("12 +0.1", ["12 +0.1"]),
        # a number with x behind it is no tolerance: it counts or is another size
        ("12 +0.1 x 5", ["12", "+", "0.1", "x", "5"]),
        ("12 + 2x M6", ["12", "+", "2", "x", "M6"]),
        ("6 H7", ["6 H7"]),
        ("6 H13", ["6 H13"]),
        ("6 Z7", ["6", "Z", "7"]),
        # U4, U5: the same in the other unit, and a unit of its own
        (".50 [12.7 MM]", [".50 [12.7 MM]"]),
        (".50 [12.7±0.1]", [".50 [12.7±0.1]"]),
        ("12 [.5", ["12", "[", ".5"]),
        ("1/2 IN LINE", ["1/2", "IN LINE"]),
        # a number of a drill ends with its figures
        ("(#7)", ["(#7)"]),
        ("#123", ["#", "123"]),
        ("#7-8", ["#", "7", "-", "8"]),
        ("#7.5", ["#", "7.5"]),
        ("AN7", ["AN", "7"]),
        # the point of an abbreviation is its own, one before a figure is the figure's
        ("DIA. 5", ["DIA.", "5"]),
        ("DIA.5", ["DIA", ".5"]),
        ("B.C.", ["B.C."]),
        # a phrase goes over one line break, and over a hyphen
        ("BOLT\nCIRCLE", ["BOLT\nCIRCLE"]),
        ("BOLT-CIRCLE", ["BOLT-CIRCLE"]),
        ("BOLT    CIRCLE", ["BOLT", "CIRCLE"]),
        # a letter glued to a number makes none of it, but behind a unit of its own, or behind the word class
        ("CLASS 3B", ["CLASS", "3", "B"]),
        ("3B", ["3B"]),
        ("5 INA", ["5", "INA"]),
        ("5\"A", ["5\"", "A"]),
        # what cannot be read takes with it what is nothing without it
        ("M6?", ["M6?"]),
        ("?M6", ["?M6"]),
        ("?THRU", ["?", "THRU"]),
        ("Ø?5", ["Ø", "?5"]),
    ],
)  # fmt: skip
def test_how_far_a_piece_reaches(text, found):
    assert texts(text) == found


@every(
    ("text", "found"),
    [
        # what the x is glued to says whether it counts or is "by"
        ("4X(M6", "by counting"),
        ("4X\nM6", "by counting"),
        ("4X,M6", "by counting"),
        ("4X#8-32", "by counting"),
        ("4X/M6", "by"),
        ("4 X M6", "by"),
        ("4xTHRU", "by"),
        ("4x深さ", "by"),
    ],
)
def test_what_an_x_is(text, found):
    assert found == " ".join(sorted(Cutter(text, 60).cut(100)[1].kinds))


@every("text", ["4xQV", "4xTHRUQ"])
def test_an_x_before_no_word_is_a_letter_glued_to_a_number(text):
    assert pieces(text) == [f"{text} = other"]


@every(
    ("text", "kind", "value", "unit"),
    [
        ("12 MM", "size", "12", "mm"),
        ("1/2 INCH", "fraction size", "0.5", "in"),
        (".5''", "size", "0.5", "in"),
        ("12 MM ±0.1", "size", "12", "mm"),
        ("6H7", "fitted size", "6", None),
        ("6 H11", "size", "6", None),
        ("6 JS7", "fitted size", "6", None),
        ("6 H4", "size", "6", None),
        ("6 H5", "fitted size", "6", None),
        ("(5)", "bracketed bracketed_whole", "5", None),
        ("(5 MM)", "bracketed", "5", None),
        ("(.201 DIA)", "bracketed", "0.201", None),
        ("(7/32)", "bracketed", "0.21875", None),
        ("NR. 7", "numbered", "7", None),
        ("N7", "letter number_of", None, None),
        ("VØ5", "countersink", None, None),
        ("V  Ø5", "letter", None, None),
        ("V5", "letter", None, None),
        ("F", "letter", None, None),
        ("D", "diameter_word letter", None, None),
        ("DIA", "diameter_word", None, None),
        ("QV", "unknown", None, None),
        ("深さ12", "deep depth_word", None, None),
        ("TWO", "2 number_word", "2", None),
    ],
)
def test_what_the_first_piece_is(text, kind, value, unit):
    first = Cutter(text, 60).cut(100)[0]
    assert (" ".join(sorted(first.kinds)), first.unit) == (kind, unit)
    assert first.value == (None if value is None else Decimal(value))
