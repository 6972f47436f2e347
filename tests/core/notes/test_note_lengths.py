"""Lengths of a note in the unit of the hole: 1 in = 25.4 mm, to 0.00001 mm and 0.000001 in (rules U1 to U5, Y9)."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes import NoteRequest, read
from every import every


@every(
    ("note", "unit", "depth"),
    [
        # 12 / 25.4 = 0.47244094; 5/8 in = 15.875 mm; 0.123456 x 25.4 = 3.1357824
        ("1/4-20 UNC ↧12 MM", "in", "0.472441"),
        ("M8 ↧5/8 IN", "mm", "15.875"),
        ("1/4-20 UNC ↧5/8", "mm", "15.875"),
        ("1/4-20 UNC ↧5/8 MM", "mm", "0.625"),
        ("M8 ↧.123456 IN", "mm", "3.13578"),
        ("M8 ↧.123456", "mm", "0.123456"),
        # a number is of the unit that the request states, whatever the thread's own
        ("M8 ↧.5", "in", "0.5"),
        ("1/4-20 UNC ↧12", "mm", "12"),
        # turns: 7 x 1.25 / 25.4 = 0.34448819; 3 x 25.4 / 28 = 2.72142857
        ("M8 7 FULL THREADS", "in", "0.344488"),
        ("1/4-28 UNF 3 FULL THREADS", "mm", "2.72143"),
    ],
)
def test_a_depth_in_the_unit_of_the_hole(note, unit, depth):
    (hole,) = read(NoteRequest(note, unit)).holes
    assert (hole.unit, hole.full_thread_depth) == (unit, Decimal(depth))


@every(
    ("note", "unit", "said"),
    [
        # told to 0.0001 in and 0.001 mm: 0.3445 in, 2.721 mm
        ("M8 7 FULL THREADS", "in", "7 full threads are 0.3445 in."),
        ("1/4-28 UNF 3 FULL THREADS", "mm", "3 full threads are 2.721 mm."),
        ("M8 8 FULL THREADS", "mm", "8 full threads are 10 mm."),
        ("M8", "mm", "No depth and no THRU is written: the hole is read as through."),
        ("1/4-20 UNC CLASS 3 THRU", "in", "Class 3 without a letter is read as 3B: the thread is that of a hole."),
        ("M8 CLASS 6 THRU", "mm", "Class 6 without a letter is read as 6H: the thread is that of a hole."),
    ],
)
def test_what_is_assumed_of_a_hole(note, unit, said):
    (hole,) = read(NoteRequest(note, unit)).holes
    assert [one.replace("\N{NO-BREAK SPACE}", " ") for one in hole.assumptions] == [said]


@every(
    ("note", "unit", "thickness"),
    [
        ("M8 THRU 20 THK", "mm", "20"),
        ("M8 THRU .75 IN THK", "mm", "19.05"),
        ("1/4-20 UNC THRU .375 THK", "in", "0.375"),
        ("1/4-20 UNC THRU 3/8 THK", "mm", "9.525"),
        ("1/4-20 UNC THRU", "in", None),
    ],
)
def test_a_thickness(note, unit, thickness):
    """P7: 0.75 x 25.4 = 19.05 mm; 3/8 is of an inch, 9.525 mm."""
    (hole,) = read(NoteRequest(note, unit)).holes
    assert hole.as_written.thickness == (None if thickness is None else Decimal(thickness))
    assert hole.kind == "through"
