"""Damage of a note is mended where exactly one repair gives a thread, class, word or size that exists (rule T6).

What is expected of each row follows from the rule alone: the one repair that reads, or none where two do, where a
character is missing or where the repair says nothing.
"""

from __future__ import annotations

from borewright.core.notes import NoteRequest, read
from borewright.core.notes.characters import plain_copy
from borewright.core.notes.damage import mend
from borewright.core.notes.reading import Work
from every import every


def mended(note):
    copy, _ = mend(plain_copy(note), Work())
    return copy.text


# --- what is taken for what -------------------------------------------------------------------------------------------


@every(
    ("note", "copy"),
    [
        # letters and signs that stand for a figure: M10, M5, M8, M20, M6
        ("M1O THRU", "M10 THRU"),
        ("M1o THRU", "M10 THRU"),
        ("M1Q THRU", "M10 THRU"),
        ("M1D THRU", "M10 THRU"),
        ("Ml0 THRU", "M10 THRU"),
        ("MI0 THRU", "M10 THRU"),
        ("Mi0 THRU", "M10 THRU"),
        ("M|0 THRU", "M10 THRU"),
        ("MS THRU", "M5 THRU"),
        ("Ms THRU", "M5 THRU"),
        ("MB THRU", "M8 THRU"),
        ("MZ0 THRU", "M20 THRU"),
        ("Mz0 THRU", "M20 THRU"),
        ("MG THRU", "M6 THRU"),
        ("Mb THRU", "M6 THRU"),
        # figures that stand for a letter
        ("M8 8LIND ↧16", "M8 BLIND ↧16"),
        ("M8 BL1ND ↧16", "M8 BLIND ↧16"),
        ("M8 BOTT0MING TAP ↧16", "M8 BOTTOMING TAP ↧16"),
        ("M8 40 L6", "M8 40 LG"),
        ("M8 THRU C5K 90°", "M8 THRU CSK 90°"),
        # two characters drawn as one and the other way round
        ("M8 THRLI", "M8 THRU"),
        ("RN8 THRU", "M8 THRU"),
        ("TVVO M6 THRU", "TWO M6 THRU"),
        ("CLRILL 6.8 M8 THRU", "DRILL 6.8 M8 THRU"),
        ("M8 TI-IRU", "M8 THRU"),
        ("M8 Tl-lRU", "M8 THRU"),
        # a class that ends in H or begins with 6
        ("M8-6N THRU", "M8-6H THRU"),
        ("M8-NH THRU", "M8-6H THRU"),
        # a figure 0 where the sign of a diameter was
        ("0.201 1/4-20 UNC THRU", "Ø.201 1/4-20 UNC THRU"),
        ("06.8 M8 THRU", "Ø6.8 M8 THRU"),
        ("010 M12 THRU", "Ø10 M12 THRU"),
        # what stands beside it is looked at, four words on either side
        ("M8 THRU CSK TO 90° X .Z8", "M8 THRU CSK TO 90° X .28"),
        ("M8 THRU .Z8 X 90° CSK", "M8 THRU .28 X 90° CSK"),
        # ... and no fifth one: TO, 90, ° and X stand between
        ("M8 THRU CSK TO 90 ° X .Z8", "M8 THRU CSK TO 90 ° X .Z8"),
        ("M8 THRU C5K Ø0 X 90°", "M8 THRU CSK Ø0 X 90°"),
        # two characters of one run, both letters or both figures
        ("MlO THRU", "M10 THRU"),
        ("M8 8L1ND ↧16", "M8 BLIND ↧16"),
    ],
)
def test_one_repair_reads(note, copy):
    assert mended(note) == copy


@every(
    "note",
    [
        # 5H by its letter, 6H by its form: two classes
        "M8-SH THRU",
        # nothing is of size 0
        "M8 ↧O",
        # M8-6G and G6 behind M8
        "M8-66 THRU",
        # M10x1.3 is no thread
        "M1Ox1.3 THRU",
        # a hole is named anyway: the word would say nothing
        "M8 H0LE THRU",
        # a letter and a figure of one run
        "1/4-2OUNC-28 THRU",
        # whole words
        "M8 THRU GO",
        "M8 THRU SO",
        # two slips of one kind in a run: a repair mends one, and leaves the other one unread
        "M8 THRU 06.8/022",
        "M8 THRLI/THRLI",
        # first letter wrong, two letters of a short word
        "M8 BHRU",
        "M8 TRHUU",
    ],
)
def test_no_repair_or_two(note):
    copy, _ = mend(plain_copy(note), Work())
    assert (copy.text, copy.repairs) == (note, ())


# --- what is told -----------------------------------------------------------------------------------------------------


@every(
    ("note", "told"),
    [
        ("M8 THRV", ["'THRV' is read as 'THRU' (characters 3 to 7)."]),
        # punctuation behind a word is none of it
        ("M8 THRV, 4 PLCS", ["'THRV' is read as 'THRU' (characters 3 to 7)."]),
        ("M8 THRV; 4 PLCS", ["'THRV' is read as 'THRU' (characters 3 to 7)."]),
        # in the order of the note, each where it stands
        (
            "MB THRV\nM1O THRLI",
            [
                "'MB' is read as 'M8' (characters 0 to 2).",
                "'THRV' is read as 'THRU' (characters 3 to 7).",
                "'M1O' is read as 'M10' (characters 8 to 11).",
                "'THRLI' is read as 'THRU' (characters 12 to 17).",
            ],
        ),
        # a longer text stands for all that it replaces: the letter Ø of %%c is of three characters
        ("%%c6.8 MB THRU", ["'MB' is read as 'M8' (characters 7 to 9)."]),
    ],
)
def test_what_was_mended_is_told(note, told):
    assert list(read(NoteRequest(note)).assumptions) == told


# --- how much is tried ------------------------------------------------------------------------------------------------


@every(
    ("note", "copy"),
    [
        # six damaged places of a note
        ("M8 THRV\n" * 6, "M8 THRU\n" * 6),
        ("M8 THRV\n" * 7, "M8 THRV\n" * 7),
        # a run of 3 x 4 + 6 + 6 = 24 characters, and one of 25
        ("M8 THRU,THRU,THRU,,,,TI-IRU", "M8 THRU,THRU,THRU,,,,THRU"),
        ("M8 THRU,THRU,THRU,,,,,TI-IRU", "M8 THRU,THRU,THRU,,,,,TI-IRU"),
        # twelve texts that are not read, however few runs they are of (the first W is one with THRV); signs are none
        ("M8 THRV " + "W(" * 12, "M8 THRU " + "W(" * 12),
        ("M8 THRV " + "W(" * 13, "M8 THRV " + "W(" * 13),
        ("M8 THRV " + "~(" * 13, "M8 THRU " + "~(" * 13),
        # what is read only when its neighbour before it is mended is mended in a second round
        ("M8 THRU C8ORE .5O", "M8 THRU CBORE .50"),
        # ... and nothing in a third one: .25 waits for 90°, which waits for CSK
        ("M8 THRU C5K 9O° TO .2S", "M8 THRU CSK 90° TO .2S"),
        # a long note leaves no room for a second one: 550 and 800 more words, read twice, of 2,500
        ("M8 THRU C8ORE .5O" + " THRU" * 550, "M8 THRU CBORE .50" + " THRU" * 550),
        ("M8 THRU C8ORE .5O" + " THRU" * 800, "M8 THRU CBORE .5O" + " THRU" * 800),
        # what is unread behind it on its line is no reason against a repair, on the first line and on another one
        ("M8 THRV QVX", "M8 THRU QVX"),
        ("M6 THRU\nM8 THRV QVX", "M6 THRU\nM8 THRU QVX"),
        # eight characters of a run are looked at: the last of 1.250-12UN-28, none behind it
        ("1.250-12UN-28 THRU", "1.250-12UN-2B THRU"),
        ("1.2500-12UN-28 THRU", "1.2500-12UN-28 THRU"),
        # and five for two at once: B, O, O, 1 and 6
        ("M8 BOTTOM1N6 TAP ↧16", "M8 BOTTOMING TAP ↧16"),
        # ... not the sixth: 1, 2, 5, 0, l and Z
        ("1.250-lZUN-2B THRU", "1.250-lZUN-2B THRU"),
        # what is said of the whole drawing is left as it stands
        ("M8 ↧16\nTHRV DEBURR", "M8 ↧16\nTHRV DEBURR"),
        ("M8 THRV\nDEBURR HQLES 1O", "M8 THRU\nDEBURR HQLES 1O"),
    ],
)
def test_how_much_is_mended(note, copy):
    assert mended(note) == copy


def mended_after(number, note):
    """The text of a note that is mended after so many tokens were cut."""
    copy, _ = mend(plain_copy(note), Work(tokens=number))
    return copy.text


@every(
    ("note", "copy"),
    [
        # 888888888 may have been eighteen texts, of which sixteen are tried: of forty repairs of a note eight are left
        # for what stands before two of them: the last letter of eight, and no pair of letters behind these
        ("DI,DI,DI,DE,8LIND 888888888 888888888", "DI,DI,DI,DE,BLIND 888888888 888888888"),
        ("DI,DI,DI,DI,THRLI 888888888", "DI,DI,DI,DI,THRU 888888888"),
        ("DI,DI,DI,DI,THRLI 888888888 888888888", "DI,DI,DI,DI,THRLI 888888888 888888888"),
        # 91 blanks, 90°, a blank, X and a blank are the 97 characters between CSK and what it explains, 100 with CSK
        ("CSK" + " " * 91 + "90° X .Z8", "CSK" + " " * 91 + "90° X .28"),
        ("CSK" + " " * 92 + "90° X .Z8", "CSK" + " " * 92 + "90° X .Z8"),
    ],
)
def test_how_many_repairs_are_tried_and_how_far_one_looks(note, copy):
    assert mended(note) == copy


def test_a_second_round_is_tried_where_that_fits_as_well():
    """Four pieces are read (THRU, C, 8ORE, .5O), then 5 + 4 of .SO and .50, 3 + 4 of CBORE and C80RE, and three anew.

    Of 2,500 there must be left what was read first and 400 more: 2,500 - 23 - n is no less than 404 + n up to 1,036.
    """
    assert mended_after(1036, "THRU C8ORE .5O") == "THRU CBORE .50"
    assert mended_after(1037, "THRU C8ORE .5O") == "THRU CBORE .5O"


def test_a_repair_is_tried_where_what_was_read_fits_once_more_and_four_hundred_tokens():
    """2,500 in all, of which M8 and THRV take two: after 1,050 as many are left as are needed, 1,450."""
    assert mended_after(1048, "M8 THRV") == "M8 THRU"
    assert mended_after(1049, "M8 THRV") == "M8 THRV"
