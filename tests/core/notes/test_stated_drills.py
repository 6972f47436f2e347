"""A drill that a note states beside a thread: rules D1, D3, D4, H7 of hole notes.

Of 1/4-18 NPT the tables list 27/64 = 0.421875 in and 7/16 = 0.4375 in; 2 % away is 0.4134375 and 0.44625.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes import NoteRequest, read
from every import every


def drill_of(note, unit):
    found = read(NoteRequest(note, unit))
    (hole,) = found.holes
    return hole.as_written.drill, [one.text for one in found.questions if one.code == "drill_disagrees"]


@every(
    ("size", "agrees"),
    [(".44625", True), (".44626", False), (".4134375", True), (".4134374", False), (".43", True)],
)
def test_how_far_a_drill_of_a_taper_thread_may_be_from_the_tables(size, agrees):
    drill, asked = drill_of(f"Ø{size} 1/4-18 NPT", "in")
    assert (drill, not asked) == (Decimal(size), agrees)


@every(
    ("note", "unit", "drill", "asked"),
    [
        # a label beside TDD is no depth, be there such a drill or not; without a thread a number may be either
        ("1/4-20 UNC ↧.5 TDD #7", "in", "0.201", []),
        ("M8 ↧16 TDD #99", "mm", None, ["There is no drill #99."]),
        ("1/4 TAP ↧.5 TDD .201", "in", None, []),
        ("PIPE TAP THRU TDD .201", "in", None, []),
    ],
)
def test_what_stands_beside_the_drill_of_a_tap(note, unit, drill, asked):
    assert drill_of(note, unit) == (None if drill is None else Decimal(drill), asked)
