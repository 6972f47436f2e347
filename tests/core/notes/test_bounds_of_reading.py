"""How much of a note is read at once and in all, what reading counts, and which unread pieces are one text."""

from __future__ import annotations

from borewright.core.notes.reading import Work, read_copy
from every import every


@every(
    ("before", "signs", "unread"),
    [
        # a thousand pieces at once, the rest of the text is one piece that nobody reads
        (0, 1000, ()),
        (0, 1001, ((1000, 1001),)),
        (0, 1500, ((1000, 1500),)),
        # 2,500 of all that is read
        (2498, 2, ()),
        (2499, 2, ((1, 2),)),
        (2500, 2, ((0, 2),)),
    ],
)
def test_so_many_pieces_are_read(before, signs, unread):
    assert read_copy("(" * signs, Work(tokens=before)).unread == unread


def test_sixty_threads_are_read():
    reading = read_copy("M6 " * 61, Work())
    assert [one.reads for one in reading.elements].count("thread") == 60


def test_each_piece_and_each_rule_that_is_tried_counts_once():
    """Only one rule can begin with LH: that of a left hand."""
    work = Work()
    read_copy("LH", work)
    assert (work.tokens, work.steps) == (1, 1)
    read_copy("LH LH", work)
    assert (work.tokens, work.steps) == (3, 3)


@every(
    ("text", "unread"),
    [
        ("QV QW", ["QV QW"]),
        ("QV - QW", ["QV - QW"]),
        ("QV\nQW", ["QV", "QW"]),
        ("QV\nQW QX", ["QV", "QW QX"]),
        # FULL THD is one piece over two lines, and what follows stands on the second of them
        ("FULL\nTHD QV", ["FULL\nTHD QV"]),
        ("FULL\nTHD\nQV", ["FULL\nTHD", "QV"]),
    ],
)
def test_unread_neighbours_on_a_line_are_one_text(text, unread):
    assert [text[start:end] for start, end in read_copy(text, Work()).unread] == unread
