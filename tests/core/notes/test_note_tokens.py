"""The pieces that a note is cut into: rules T2 to T5, C7, D3 and U4 to U5 of hole notes."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes.tokens import Cutter
from every import every


def cut(text, readings=60, most=1000):
    return Cutter(text, readings).cut(most)


def kinds(text, readings=60):
    return [(one.text, " ".join(sorted(one.kinds))) for one in cut(text, readings)]


@every(
    ("text", "kind", "value", "unit"),
    [
        (".75", "size", "0.75", None),
        ("0,75", "size", "0.75", None),
        ("12", "size whole", "12", None),
        ("0", "size whole", "0", None),
        ("012", "size", "12", None),
        # 1/64 = 0.015625, 63/64 = 1 - 0.015625, 3/8 = 0.375
        ("1/64", "fraction size", "0.015625", None),
        ("63/64", "fraction size", "0.984375", None),
        ("1-3/8", "fraction size", "1.375", None),
        ("1 1/2", "fraction size", "1.5", None),
        ("10 1/32", "fraction size", "10.03125", None),
        ("12 mm", "size", "12", "mm"),
        (".5 in", "size", "0.5", "in"),
        ('3/8"', "fraction size", "0.375", "in"),
        ("12±0.1", "size", "12", None),
        (".50 [12.7]", "size", "0.5", None),
        ("6 H7", "fitted size", "6", None),
        ("90°", "angle", "90", None),
        ("82 DEG", "angle", "82", None),
        ("(4)", "bracketed bracketed_whole", "4", None),
        ("(.201)", "bracketed", "0.201", None),
        ("(3/8)", "bracketed", "0.375", None),
        ("(4 MM)", "bracketed", "4", None),
        ("#7", "numbered", "7", None),
        ("NO. 21", "numbered", "21", None),
        ("FOUR", "4 number_word", "4", None),
    ],
)
def test_numbers(text, kind, value, unit):
    (token,) = cut(text)
    assert (" ".join(sorted(token.kinds)), token.value, token.unit) == (kind, Decimal(value), unit)
    assert (token.start, token.end, token.text) == (0, len(text), text)


@every(
    ("text", "pieces"),
    [
        # an even numerator, or a part that is no part, is no fraction of an inch
        ("2/4", ["2", "/", "4"]),
        ("1 5/4", ["1", "5/4"]),
        # longer than any number of a drawing
        ("1234567890123", ["1234567890123"]),
        # a comma behind a word or a figure parts, before a figure it is a point
        ("M6,5", ["M6,5"]),
        (" ,5", [",5"]),
        ("V Ø7", ["V", "Ø", "7"]),
        ("VØ7", ["V", "Ø", "7"]),
        # after a metric thread a slash parts two depths
        ("M10x25/32", ["M10", "x", "25", "/", "32"]),
        ("M10\n3/32", ["M10", "\n", "3/32"]),
        # a letter glued to a number makes none of it, but for U, V and W
        ("1A", ["1A"]),
        ("12W", ["12", "W"]),
        ("12 A", ["12", "A"]),
        # what could not be read takes its neighbour with it, before and behind
        ("12?", ["12?"]),
        ("?12", ["?12"]),
        ("12 ?", ["12", "?"]),
    ],
)
def test_where_a_piece_ends(text, pieces):
    tokens = cut(text)
    assert [one.text for one in tokens] == pieces
    assert all(text[one.start : one.end] == one.text for one in tokens)


@every(
    ("text", "place", "kind"),
    [
        # C1, C7: x glued to its number and with nothing glued behind it counts
        ("4X M6", 1, "by counting"),
        ("4XØ6", 1, "by counting"),
        ("4x", 1, "by counting"),
        ("4 x M6", 1, "by"),
        ("4x5", 1, "by"),
        ("M6 x 12", 1, "by"),
        ("M6x12", 1, "by"),
        ("12 - 4", 1, "dash spaced_dash"),
        ("12-4", 1, "dash glued_dash"),
        ("12 -4", 1, "dash glued_dash"),
        ("12- 4", 1, "dash glued_dash"),
        ("12 -", 1, "dash spaced_dash"),
    ],
)
def test_x_and_dash(text, place, kind):
    assert kinds(text)[place][1] == kind


@every("text", ["ax 5", "xy", "4 xyz"])
def test_an_x_of_a_word_is_none(text):
    assert not any("by" in one.kinds for one in cut(text))


@every(("text", "metric"), [("M6", True), ("1/4-20 UNC", False), ("M8x1.25-6H", True), ("G 1/4", False)])
def test_a_thread_is_one_piece(text, metric):
    (token,) = cut(text)
    assert token.kinds == ({"thread", "metric"} if metric else {"thread"})


@every(
    ("text", "readings", "threads"),
    [
        ("M6 M6 M6", 3, 3),
        ("M6 M6 M6", 2, 2),
        ("M6 M6 M6", 0, 0),
        # a text that is refused costs three readings, also the last ones
        ("M10x1.3 M6", 4, 2),
        ("M10x1.3 M6", 3, 1),
        ("M10x1.3 M6 M6", 2, 1),
    ],
)
def test_readings_are_bounded(text, readings, threads):
    assert sum("thread" in one.kinds for one in cut(text, readings)) == threads


@every(("most", "pieces"), [(3, ["A", "B", "C"]), (2, ["A", "B", "C"]), (1, ["A", "B C"])])
def test_pieces_are_bounded(most, pieces):
    """The rest of the text is one more piece, of no meaning."""
    tokens = cut("A B C", most=most)
    assert [one.text for one in tokens] == pieces
    assert ("other" in tokens[-1].kinds) is (most < 3)
