"""What of a hole is kept in the words of its note (rules L1, K1, K6, Y8, Y9 of hole notes); their source."""

from __future__ import annotations

from borewright.core.notes import NoteRequest, read
from every import every


@every(
    ("note", "kept"),
    [
        ("M8 ↧16", []),
        ("M8 THRU", [("through", "THRU")]),
        ("M8 ↧16 BLIND", [("blind", "BLIND")]),
        ("M8 ↧16 EQ SP ON Ø80 B.C.", [("place", "EQ SP ON Ø80 B.C.")]),
        ("M8 ↧16 AS  SHOWN", [("place", "AS SHOWN")]),
        ("M8 ↧16 NEAR SIDE", [("side", "NEAR SIDE")]),
        ("M8 ↧16 BOTH SIDES", [("side", "BOTH SIDES")]),
        ("M8 ↧16 CHAM 1 × 45°", [("chamfer", "CHAM 1 x 45°")]),
        ("M8 ↧16 CORED", [("other", "CORED")]),
        ("M8 ↧16 MASK THREADS", [("finish", "MASK THREADS")]),
        ("M8 8 FULL THREADS", [("full_threads", "8 FULL THREADS")]),
        ("M8 ↧16 (12.5)", [("reference", "(12.5)")]),
        ("4X M8 ↧16 Ø6.8 H7", [("ream", "Ø6.8 H7")]),
        # a drill before a reamer is a pilot, one without is none
        ("PILOT DRILL 5 M8 ↧16", [("pilot", "PILOT DRILL 5")]),
        ("DRILL 6.5 REAM 6.8 M8 ↧16", [("ream", "REAM 6.8"), ("pilot", "DRILL 6.5")]),
        ("DRILL 6.8 M8 ↧16", []),
        # limits and tolerances, also those in the other unit
        ("M8 ↧16±0.5", [("depth_limits", "↧16±0.5")]),
        ("M8 ↧16+0.5", [("depth_limits", "↧16+0.5")]),
        ("M8 ↧16 [.63]", [("depth_limits", "↧16 [.63]")]),
        ("M8 ↧16 MIN", [("depth_limits", "↧16 MIN")]),
        ("M8 ↧16 DRILL DEPTH 22 MAX", [("drill_depth_limits", "DRILL DEPTH 22 MAX")]),
        # two of a kind are both kept
        ("M8 THRU NEAR SIDE AS SHOWN FAR SIDE", [
            ("through", "THRU"), ("side", "NEAR SIDE"), ("side", "FAR SIDE"), ("place", "AS SHOWN"),
        ]),
    ],
)  # fmt: skip
def test_words_of_the_note(note, kept):
    (hole,) = read(NoteRequest(note, "mm")).holes
    assert sorted(hole.as_written.words) == sorted(kept)
    assert hole.as_written.sides == ("both" if "BOTH" in note else "one")


def test_the_forms_of_notes_are_told_as_remembered():
    """The full text of the standards of drawings was not seen."""
    (source,) = read(NoteRequest("M8 THRU")).sources
    assert (source.field, source.status) == ("holes", "from_memory")
