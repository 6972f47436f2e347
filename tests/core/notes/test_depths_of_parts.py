"""Which number of a note is whose depth, and which drill it has: rules Y1 to Y13, K7, P1 to P6, D1 to D4.

Whole holes: thread, count, kind, full thread depth, drill, its depth with MIN or MAX, counterbore and its depth.
"""

from __future__ import annotations

from borewright.core.notes import NoteRequest, read
from every import every


def told(note, unit="mm"):
    found = read(NoteRequest(note, unit))
    return [" ".join(_words(one)) for one in found.holes], [one.code for one in found.questions]


def _words(hole):
    said = hole.as_written
    yield f"{hole.thread} {hole.count} {hole.kind} {hole.full_thread_depth}"
    yield f"drill {said.drill} {said.drill_depth}{hole.drill_depth_bound} {hole.drill_depth_limit}"
    if said.counterbore is not None:
        yield f"counterbore {said.counterbore.diameter} {said.counterbore.depth}"


@every(
    ("note", "hole", "asked"),
    [
        # Y1: a depth is of the nearest part before it that has none yet
        ("Ø6.8 ↧22 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 22 None", []),
        ("M8 ↧16 Ø6.8 ↧22", "M8x1.25 1 blind 16 drill 6.8 22 None", []),
        ("Ø6.8 M8 ↧16 ↧22", "M8x1.25 1 blind 16 drill 6.8 22 None", []),
        ("Ø6.8 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 None None", []),
        # words win over place
        ("Ø6.8 M8 DRILL DEPTH 22 FULL THD 16", "M8x1.25 1 blind 16 drill 6.8 22 None", []),
        ("Ø6.8 M8 ↧16 DRILL DEPTH 22", "M8x1.25 1 blind 16 drill 6.8 22 None", []),
        # Y7: MAX on the drill is a bound, MIN a floor; MIN on the thread is the normal case
        ("Ø6.8 ↧22 MAX M8 ↧16 MIN", "M8x1.25 1 blind 16 drill 6.8 22MAX 22", []),
        ("Ø6.8 ↧22 MIN M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 22MIN None", []),
        ("Ø6.8 ↧22 MAXIMUM M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 22MAX 22", []),
        ("Ø6.8 ↧22 MAX. M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 22MAX 22", []),
        # P3, P4: a drill that goes through, and a thread with and without depth
        ("Ø6.8 THRU M8 ↧16", "M8x1.25 1 through 16 drill 6.8 None None", []),
        ("Ø6.8 THRU M8", "M8x1.25 1 through None drill 6.8 None None", []),
        ("M8 THRU Ø6.8", "M8x1.25 1 through None drill 6.8 None None", []),
        ("Ø6.8 ↧22 M8 THRU", "M8x1.25 1 through None drill 6.8 22 None", ["depth_of_what"]),
        # K7: after a counterbore a depth is that of the counterbore, THRU never is
        ("M8 ↧16 ⌴ Ø14 ↧8", "M8x1.25 1 blind 16 drill None None None counterbore 14 8", []),
        ("M8 ⌴ Ø14 ↧8", "M8x1.25 1 through None drill None None None counterbore 14 8", []),
        ("Ø6.8 ⌴ Ø14 ↧8 M8 THRU", "M8x1.25 1 through None drill 6.8 None None counterbore 14 8", []),
        # the sign of a counterbore stands before its diameter, the word behind it
        ("Ø6.8 ⌴ Ø14 M8 THRU", "M8x1.25 1 through None drill 6.8 None None counterbore 14 None", []),
        ("Ø14 CBORE ↧8 Ø6.8 M8 THRU", "M8x1.25 1 through None drill 6.8 None None counterbore 14 8", []),
        ("M8 ⌴ Ø14 ↧8 ↧16", "M8x1.25 1 blind 16 drill None None None counterbore 14 8", []),
        ("⌴ Ø14 ↧8 Ø6.8 ↧22 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 22 None counterbore 14 8", []),
        # Y10, Y11: thread / hole, and dashes
        ("M10×25/30", "M10x1.5 1 blind 25 drill None 30 None", []),
        ("M8 - 16", "M8x1.25 1 blind 16 drill None None None", []),
        # more depths than parts, MAX alone, both and neither
        ("M8 ↧16 ↧22 ↧30", "M8x1.25 1 blind 16 drill None None None", ["depth_of_what"]),
        ("M8 ↧16 MAX", "M8x1.25 1 blind None drill None None None", ["depth_of_what"]),
        ("M8 THRU BLIND", "M8x1.25 1 None None drill None None None", ["depth_of_what"]),
        ("M8 NOT Q THRU", "M8x1.25 1 None None drill None None None", ["depth_of_what"]),
        ("M8", "M8x1.25 1 through None drill None None None", []),
        ("M8 Q5", "M8x1.25 1 None None drill None None None", ["depth_of_what"]),
        # a thread that goes through where the drilled hole does not
        ("M8 THRU DRILL DEPTH 22", "M8x1.25 1 through None drill None 22 None", ["depth_of_what"]),
        ("Ø6.8 THRU M8 THRU DRILL DEPTH 22", "M8x1.25 1 through None drill 6.8 22 None", []),
        # the smallest drill inside, and none that a drill could be
        ("TDD 6.8 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 None None", []),
        # a ream is the last size before the tap
        ("DRILL 6.5 REAM 6.8 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 None None", []),
        # one size said twice is one, two are asked about
        ("DRILL 6.8 DRILL 6.8 M8 ↧16", "M8x1.25 1 blind 16 drill 6.8 None None", []),
        ("DRILL 6.8 DRILL 6.7 M8 ↧16", "M8x1.25 1 blind 16 drill None None None", ["drill_disagrees"]),
    ],
)
def test_a_whole_hole(note, hole, asked):
    assert told(note) == ([hole], asked)


@every(
    ("note", "code"),
    [
        # H3, N2: what is said of a hole makes the class of a screw a slip, without it the screw is meant
        ("1/4-20 UNC-2A", "not_a_tapped_hole"),
        ("2X 1/4-20 UNC-2A", "not_a_tapped_hole"),
        ("1/4-20 UNC-2A THRU", "class_conflict"),
        ("1/4-20 UNC-2A BLIND", "class_conflict"),
        ("TAP 1/4-20 UNC-2A", "class_conflict"),
        ("Ø.201 1/4-20 UNC-2A", "class_conflict"),
        ("1/4-20 UNC-2A ↧.50", "class_conflict"),
        ("1/4-20 UNC-2A .50 MIN FULL THD", "class_conflict"),
        ("1/4-20 UNC-2A DRILL DEPTH .75", "class_conflict"),
        ("1/4-20 UNC-2A 8 FULL THREADS", "class_conflict"),
        ("DRILL AND TAP 1/4-20 UNC-2A", "class_conflict"),
        # a class that does not exist
        ("1/4-20 UNC-5B THRU", "class_conflict"),
    ],
)
def test_the_class_of_a_screw(note, code):
    holes, asked = told(note, "in")
    assert asked[0] == code
    assert bool(holes) is (code == "class_conflict")
