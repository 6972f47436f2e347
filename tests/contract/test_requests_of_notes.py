"""The request that a hole of a note comes to: what the note says is in its fields, what it leaves open stays out."""

from __future__ import annotations

from borewright.contract import note_requests
from borewright.core.notes import NoteRequest, read
from every import every

ZINC = "ASTM B633 Fe/Zn 8"
BLIND = {"type": "blind", "full_thread_depth": 16}
INCH = {"type": "blind", "full_thread_depth": 0.5}
THROUGH = {"type": "through"}


def request_of(note, general=(), defaults=None):
    (hole,) = read(NoteRequest(note, None, general)).holes
    return hole, note_requests.hole_request(hole, defaults or {})


@every(
    ("note", "hole"),
    [
        # number, letter and fraction drills go by their label, any other size with the unit of the hole
        ("#7 DRILL, 1/4-20 UNC-2B ↧.5", {**INCH, "drill": "#7"}),
        ("F DRILL, 5/16-18 UNC-2B ↧.5", {**INCH, "drill": "F"}),
        ("5/16 DRILL, 3/8-16 UNC-2B ↧.5", {**INCH, "drill": "5/16"}),
        ("1-3/8 DRILL, 1-1/2-6 UNC-2B ↧.5", {**INCH, "drill": "1-3/8"}),
        ("Ø.201, 1/4-20 UNC-2B ↧.5", {**INCH, "drill": "0.201 in"}),
        ("Ø6.8, M8-6H ↧16", {**BLIND, "drill": "6.8 mm"}),
        # there is no such drill: its label is kept, as it was asked about
        ("M8 ↧16 TDD #99", {**BLIND, "drill": "#99"}),
        # the size of a ream is that of no drill
        ("REAM Ø6.8, M8-6H ↧16", BLIND),
        # a depth of the drilled hole is exact, a least one or a bound, as the note says
        ("Ø6.8 ↧20 M8-6H ↧16", {**BLIND, "drill": "6.8 mm", "drill_depth": 20}),
        ("Ø6.8 ↧20 MIN M8-6H ↧16", {**BLIND, "drill": "6.8 mm", "least_drill_depth": 20}),
        ("Ø6.8 ↧20 MAX M8-6H ↧16", {**BLIND, "drill": "6.8 mm", "drill_depth_limit": 20}),
        # a hole that goes through has no depth but that of its thread
        ("Ø6.8 ↧20 M8-6H THRU", {**THROUGH, "drill": "6.8 mm"}),
        ("Ø6.8 THRU M8-6H ↧16", {**THROUGH, "drill": "6.8 mm", "full_thread_depth": 16}),
        ("M8-6H THRU 20 THK", {**THROUGH, "thickness": 20}),
        # countersink and counterbore with what is said of them
        ("M8-6H THRU ⌵Ø9 X 90°", {**THROUGH, "countersink": {"angle": 90, "diameter": 9}}),
        ("M8-6H THRU ⌵90°", {**THROUGH, "countersink": {"angle": 90}}),
        ("M8-6H THRU ⌵Ø9 BOTH SIDES", {**THROUGH, "countersink": {"diameter": 9, "sides": "both"}}),
        ("M8-6H THRU ⌵Ø9 NEAR SIDE", {**THROUGH, "countersink": {"diameter": 9}}),
        ("M8-6H THRU BOTH SIDES", THROUGH),
        ("M8-6H ↧16 ⌴Ø15 ↧9", {**BLIND, "counterbore": {"diameter": 15, "depth": 9}}),
        ("M8-6H ↧16 SPOTFACE Ø15", {**BLIND, "counterbore": {"diameter": 15}}),
        # both through and blind is neither
        ("M6 THRU BLIND", {}),
    ],
)
def test_the_hole_of_a_note(note, hole):
    assert request_of(note)[1]["hole"] == hole


@every(
    ("note", "general", "finish"),
    [
        ("M8 ↧16", (ZINC,), {"finish": ZINC}),
        ("M8 ↧16 MASK THREADS", (ZINC,), {"finish": {"specification": ZINC, "masked": True}}),
        ("M8 ↧16", (ZINC, "MASK ALL THREADS"), {"finish": {"specification": ZINC, "masked": True}}),
        ("M8 ↧16 MASK THREADS", (), {}),
        ("M8 ↧16", (ZINC, "DIMENSIONS APPLY BEFORE PLATING"), {"finish": ZINC, "dimensions_apply": "before_finish"}),
        ("M8 ↧16", (ZINC, "DIMENSIONS APPLY AFTER PLATING"), {"finish": ZINC, "dimensions_apply": "after_finish"}),
    ],
)
def test_the_finish_of_a_note(note, general, finish):
    assert request_of(note, general)[1] == {"thread": "M8x1.25", "hole": BLIND, "unit_system": "metric", **finish}


@every(
    ("note", "defaults", "request_"),
    [
        # the note goes before the defaults, hole by hole field
        ("M8 ↧16", {"finish": ZINC, "thread": "M6"}, {"thread": "M8x1.25", "hole": BLIND, "finish": ZINC}),
        ("M8 ↧16", {"unit_system": "inch"}, {"thread": "M8x1.25", "hole": BLIND}),
        (
            "M8 ↧16",
            {"hole": {"full_thread_depth": 3, "thickness": 30, "drill": "#1"}},
            {"thread": "M8x1.25", "hole": {**BLIND, "thickness": 30, "drill": "#1"}},
        ),
        # what is no hole gives no fields
        ("M8 ↧16", {"hole": "deep"}, {"thread": "M8x1.25", "hole": BLIND}),
        # that the note's thread is in doubt is not mended by the thread of the defaults
        ("M10 FINE ↧16\nDIMENSIONS IN MM", {"thread": "M6"}, {"hole": BLIND}),
    ],
)
def test_the_note_goes_before_the_defaults(note, defaults, request_):
    assert request_of(note, defaults=defaults)[1] == {**request_, "unit_system": "metric"}


@every(
    ("note", "defaults", "missing", "planned"),
    [
        ("M8 ↧16", {}, [], None),
        ("M8 THRU", {}, ["/hole/thickness"], None),
        ("M8 THRU", {"hole": {"thickness": "20 mm"}}, [], None),
        ("M8 THRU 20 THK", {}, [], None),
        ("M8 BLIND", {}, ["/hole/full_thread_depth"], None),
        ("M6 THRU BLIND", {}, ["/hole/type"], None),
        ("M6 THRU BLIND", {"hole": {"type": ["through"]}}, [], None),
        ("M6 THRU BLIND", {"hole": {"type": "through"}}, ["/hole/thickness"], None),
        ("M8 ↧16 SPOTFACE", {}, ["/hole/counterbore/diameter"], None),
        ("M8 ↧16", {"hole": {"counterbore": {"diameter": 15}}}, [], None),
        ("M8 ↧16", {"hole": {"counterbore": "deep"}}, [], None),
        ("M10 FINE THRU SPOTFACE", {}, ["/thread", "/hole/counterbore/diameter", "/hole/thickness"], None),
        ("#7 DRILL ↧.75, 1/4-20 UNC-2B ↧.5", {}, [], {"drill": "#7", "drill_depth": 0.75}),
        ("Ø6.8 THRU M8-6H ↧16", {}, ["/hole/thickness"], {"drill": "6.8 mm"}),
        ("M8-6H ↧16/20", {}, [], {"drill_depth": 20}),
    ],
)
def test_what_a_request_still_needs_and_what_an_audit_may_hold_it_against(note, defaults, missing, planned):
    hole, asked = request_of(note, defaults=defaults)
    assert (note_requests.missing(asked), note_requests.as_planned(hole)) == (missing, planned)
