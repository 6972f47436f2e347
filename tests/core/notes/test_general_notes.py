"""What general notes and stated drills of a drawing say: rules G1 to G6, D1, D4, H7 and Y13, each end tried.

Limits: 1/4-20 UNC-2B minor 0.196 to 0.207, M8-6H 6.647 to 6.912; the tables list 7/16 (0.4375 in) for 1/4-18 NPT.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.notes import NoteRequest, read
from every import every


def said(*notes, note="1/4-20 UNC ↧.50", unit="in"):
    return read(NoteRequest(note, unit, notes))


def only(*notes, note="1/4-20 UNC ↧.50", unit="in"):
    (hole,) = said(*notes, note=note, unit=unit).holes
    return hole


def questions(note, unit="in", *general):
    return [
        (one.code, one.text.replace("\N{NO-BREAK SPACE}", " "))
        for one in said(*general, note=note, unit=unit).questions
    ]


@every(
    ("note", "general", "thread"),
    [
        ("1/4-20 UNC", "ALL THREADS CLASS 3B", "1/4-20 UNC-3B"),
        ("1/4-20 UNC", "ALL THREADS CLASS 1B UNLESS OTHERWISE SPECIFIED", "1/4-20 UNC-1B"),
        ("1/4-20 UNC-2B", "ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED", "1/4-20 UNC-2B"),
        ("M8", "INTERNAL THREADS 6G", "M8x1.25-6G"),
        ("M8", "TAPPED HOLES 4H5H", "M8x1.25-4H5H"),
    ],
)
def test_a_class_for_all_threads_fills_those_without(note, general, thread):
    from borewright.core import callout, standards

    hole = only(general, note=f"{note} THRU", unit=None)
    assert hole.callout is not None
    assert standards.resolve(hole.callout).designation == standards.resolve(callout.read(thread)).designation


def test_a_class_that_does_not_yield_is_asked_about():
    """G6: two classes for one thread; the same one twice is no question."""
    assert questions("1/4-20 UNC-2B ↧.50", "in", "ALL THREADS CLASS 3B")[0][0] == "class_conflict"
    assert questions("1/4-20 UNC-2B ↧.50", "in", "ALL THREADS CLASS 2B") == []
    assert questions("1/4-20 UNC-2B ↧.50", "in", "UNLESS OTHERWISE SPECIFIED ALL THREADS CLASS 3B") == []
    assert (
        only("ALL THREADS CLASS 3B").assumptions != only("ALL THREADS CLASS 3B", note="1/4-20 UNC-3B ↧.50").assumptions
    )


@every(
    ("general", "diameter", "angle"),
    [
        ("COUNTERSINK ALL TAPPED HOLES 90° TO MAJOR DIAMETER", "0.250", "90"),
        ("CSK ALL TAPPED HOLES 82° TO MAJOR DIA", "0.250", "82"),
        ("COUNTERSINK ALL TAPPED HOLES 120° .010 OVER MAJOR DIAMETER", "0.260", "120"),
    ],
)
def test_a_countersink_for_all_holes_goes_to_the_major_diameter(general, diameter, angle):
    """G3: and what OVER MAJOR adds; a countersink of the hole's own wins."""
    sink = only(general).as_written.countersink
    assert (sink.diameter, sink.angle_deg) == (Decimal(diameter), Decimal(angle))
    own = only(general, note="1/4-20 UNC ↧.50 ⌵ Ø.30 X 100°").as_written.countersink
    assert (own.diameter, own.angle_deg) == (Decimal("0.30"), Decimal(100))


@every(
    ("general", "finish", "applies"),
    [
        ("FINISH: ASTM B633 FE/ZN 8", "ASTM B633 Fe/Zn 8", None),
        ("ALL PARTS ZINC PLATED PER ASTM B633 FE/ZN 8", "ASTM B633 Fe/Zn 8", None),
        ("FINISH: ASTM B633 FE/ZN 8. DIMENSIONS APPLY AFTER PLATING", "ASTM B633 Fe/Zn 8", "after_finish"),
        # a document that says no finish without its type, class or thickness keeps the words before it
        ("ZINC PHOSPHATE PER MIL-DTL-16232", "ZINC PHOSPHATE PER MIL-DTL-16232", None),
        ("ELECTROLESS NICKEL .0005 PER MIL-C-26074", "ELECTROLESS NICKEL .0005 PER MIL-C-26074", None),
        # one that has a finish alone stands for it
        ("CHROMATE PER MIL-DTL-5541", "MIL-DTL-5541", None),
        ("LIMITS APPLY BEFORE PLATING", None, "before_finish"),
        ("ALL DIMENSIONS ARE AFTER PLATING", None, "after_finish"),
        ("DEBURR ALL EDGES", None, None),
        ("MASK ALL THREADS", None, None),
    ],
)
def test_finish_and_what_the_limits_hold_for(general, finish, applies):
    hole = only(general)
    assert (hole.finish, hole.dimensions_apply) == (finish, applies)
    assert hole.masked is general.startswith("MASK")


def test_the_first_finish_stands_and_the_rest_is_told():
    both = said("FINISH: ASTM B633 FE/ZN 8", "FINISH: ASTM B633 FE/ZN 25")
    assert both.holes[0].finish == "ASTM B633 Fe/Zn 8"
    assert [bool(one.unread) for one in both.general] == [False, True]


@every(
    ("general", "unit", "note", "depth", "read_unit"),
    [
        (("ALL DIMENSIONS IN MILLIMETERS",), None, "1/4-20 UNC ↧12.7", "12.7", "mm"),
        (("ALL DIMENSIONS IN INCHES",), None, "M8 ↧.50", "0.50", "in"),
        ((), None, "M8 ↧16", "16", "mm"),
        ((), None, "1/4-20 UNC ↧.50", "0.50", "in"),
        # U2: what the request says wins
        (("ALL DIMENSIONS IN MILLIMETERS",), "in", "M6 ↧.50", "0.50", "in"),
    ],
)
def test_the_unit_of_bare_lengths(general, unit, note, depth, read_unit):
    hole = only(*general, note=note, unit=unit)
    assert (hole.full_thread_depth, hole.unit) == (Decimal(depth), read_unit)


@every(
    ("note", "unit", "read_unit"),
    [
        # the pitch is asked, ISO 261 has no M10x1.3, ISO 2904 no Tr 40x8, ISO 228-1 no G 7/16: all are in millimetres
        ("M10 FINE ↧20", None, "mm"),
        ("M10x1.30 ↧20", None, "mm"),
        ("Tr 40x8 ↧30", None, "mm"),
        ("G 7/16 ↧15", None, "mm"),
        ("1/4-21 UNC ↧.5", None, "in"),
        ("1/4-17 NPT ↧.5", None, "in"),
        ("M10 FINE ↧.8", "in", "in"),
    ],
)
def test_a_thread_that_is_asked_about_has_its_lengths_in_the_unit_of_its_standard(note, unit, read_unit):
    hole = only(note=note, unit=unit)
    assert (hole.callout, hole.unit) == (None, read_unit)
    assert questions(note, unit)


def test_what_no_rule_read_in_a_general_note_is_told():
    """Each text by itself, whatever was read before it."""
    (note,) = said("ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED, QVXW, DEBURR, ZZTOP").general
    assert note.unread == ("QVXW", "ZZTOP")
    assert note.changes == ("edges are broken: changes no hole request", "threads without a class: 3B")


def test_what_a_general_note_changes_is_said():
    told = said(
        "ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED", "ALL DIMENSIONS IN INCHES", "DEBURR ALL EDGES",
        "PAINT GREEN OUTSIDE", unit=None,
    ).general  # fmt: skip
    assert ["3B" in one.changes[0] if one.changes else None for one in told] == [True, False, False, None]
    assert "in" in told[1].changes[0].split()
    assert [bool(one.unread) for one in told] == [False, False, False, True]


@pytest.mark.parametrize("note", ["DEBURR ALL EDGES", "BREAK ALL SHARP EDGES", "REMOVE ALL BURRS", "BREAK SHARP EDGES"])
def test_edges_are_broken_whatever_all_stands_for(note):
    (told,) = said(note).general
    assert told.changes == ("edges are broken: changes no hole request",)
    assert told.unread == ()
    assert said(note).holes == said().holes


def test_general_notes_inside_the_note():
    """A line that says it of the whole drawing is no hole's; the notes of the request go before it."""
    inside = "ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED\n1/4-20 UNC ↧.50"
    assert only(note=inside).thread.endswith("3B")
    assert only("ALL THREADS CLASS 1B UNLESS OTHERWISE SPECIFIED", note=inside).thread.endswith("1B")
    own = only("DIMENSIONS APPLY BEFORE PLATING", note="1/4-20 UNC-2B ↧.50 AFTER PLATING")
    assert (own.dimensions_apply, own.full_thread_depth) == ("after_finish", Decimal("0.50"))
    assert only(note="1/4-20 UNC-2B ↧.50 BEFORE PLATING").dimensions_apply == "before_finish"
    assert only("DIMENSIONS APPLY BEFORE PLATING", note="1/4-20 UNC-2B ↧.50").dimensions_apply == "before_finish"
    assert [only(note=f"1/4-20 UNC-2B ↧.50{words}").masked for words in ("", " MASK THREADS")] == [False, True]
    plated = only(note="1/4-20 UNC ↧.50\nDIMENSIONS APPLY BEFORE PLATING")
    assert plated.dimensions_apply == "before_finish"


@every(
    ("note", "unit", "word"),
    [
        # the limits themselves are inside
        ("Ø.196 ↧.75 1/4-20 UNC-2B ↧.50", "in", None),
        ("Ø.207 ↧.75 1/4-20 UNC-2B ↧.50", "in", None),
        ("Ø.195 ↧.75 1/4-20 UNC-2B ↧.50", "in", "below"),
        ("Ø.208 ↧.75 1/4-20 UNC-2B ↧.50", "in", "above"),
        ("Ø6.647 ↧24 M8-6H ↧16", "mm", None),
        ("Ø6.912 ↧24 M8-6H ↧16", "mm", None),
        ("Ø6.64 ↧24 M8-6H ↧16", "mm", "below"),
        ("Ø6.92 ↧24 M8-6H ↧16", "mm", "above"),
        # 6.8 mm = 0.2677 in, 0.201 in = 5.105 mm, in the other unit than the thread's
        ("Ø.2677 ↧.95 M8-6H ↧.63", "in", None),
        ("Ø.2725 ↧.95 M8-6H ↧.63", "in", "above"),
        ("Ø5.1 ↧19\n1/4-20 UNC-2B ↧12", "mm", None),
        ("Ø5.3 ↧19\n1/4-20 UNC-2B ↧12", "mm", "above"),
    ],
)
def test_a_stated_drill_is_held_against_the_minor_diameter(note, unit, word):
    asked = questions(note, unit)
    assert [code for code, _ in asked] == ([] if word is None else ["drill_disagrees"])
    assert word is None or f"is {word} the limits" in asked[0][1]
    assert only(note=note, unit=unit).as_written.drill is not None  # kept as written


def test_a_drill_for_a_taper_thread_is_held_against_the_tables():
    """H7: 7/16 is listed for 1/4-18 NPT (27/64 for a reamed hole); 13/32 is 0.4063, 7 % below."""
    for drill, agrees in ((".4375", True), (".438", True), (".375", False), (".500", False)):
        asked = questions(f"Ø{drill} 1/4-18 NPT")
        assert ("drill_disagrees" not in [code for code, _ in asked]) is agrees, drill


def test_a_drilled_depth_is_no_less_than_the_full_thread():
    """Y13: as deep is no contradiction, and a through hole has no such depth."""
    for drilled, agrees in ((".50", True), (".49", False)):
        asked = questions(f"Ø.201 ↧{drilled} 1/4-20 UNC-2B ↧.50")
        assert [code for code, _ in asked] == ([] if agrees else ["drill_disagrees"])
    assert "0.49 in deep" in questions("Ø.201 ↧.49 1/4-20 UNC-2B ↧.50")[0][1]


def test_two_drills_for_one_hole_are_asked_about():
    """One size said twice is one; a ream comes last and counts."""
    assert questions("DRILL .201 DRILL .213 1/4-20 UNC-2B ↧.50")[0][0] == "drill_disagrees"
    assert questions("#7 (.201) DRILL ↧.75 1/4-20 UNC-2B ↧.50") == []
    hole = only(note="DRILL .196 REAM .201 TAP 1/4-20 UNC-2B ↧.50")
    assert hole.as_written.drill == Decimal("0.201")


@pytest.mark.parametrize(("label", "diameter"), [("#7", "0.2010"), ("F", "0.2570"), ("27/64", "0.421875")])
def test_a_label_is_its_size(label, diameter):
    thread = {"#7": "1/4-20 UNC-2B", "F": "5/16-18 UNC-2B", "27/64": "1/2-13 UNC-2B"}[label]
    drill = only(note=f"{label} DRILL ↧1.00 {thread} ↧.60").as_written.drill
    assert abs(drill - Decimal(diameter)) <= Decimal("0.00006")


def test_a_drill_that_no_series_has():
    assert "There is no drill" in questions("#99 DRILL 1/4-20 UNC-2B ↧.50")[0][1]


@every(
    ("size", "drill"),
    [
        # between half of 0.250 and 0.250 a number beside TDD is a diameter
        (".201", "0.201"),
        (".126", "0.126"),
        (".750", None),
        (".125", None),
        (".250", None),
    ],
)
def test_tdd_is_a_diameter_where_it_can_be_one(size, drill):
    hole = only(note=f"1/4-20 UNC-2B ↧.50 TDD {size}")
    assert hole.as_written.drill == (None if drill is None else Decimal(drill))
    metric = only(note=f"1/4-20 UNC-2B\n↧12\nTDD {Decimal(size) * Decimal('25.4')}", unit="mm")
    assert (metric.as_written.drill is None) is (drill is None)


@every(
    ("note", "holes"),
    [
        # a count that opens a line is that of the hole that follows, one at the end of a line of the hole before it
        ("1/4-20 UNC-2B ↧.50\n(2) HOLES #10-32 UNF-2B ↧.40", ((1, None), (2, None))),
        ("1/4-20 UNC-2B ↧.50 (2) HOLES\n#10-32 UNF-2B ↧.40", ((2, None), (1, None))),
        # M1: behind AND and a semicolon a drill is that of the next thread, behind a comma of the one before
        ("Ø.201 ↧.75 1/4-20 UNC-2B ↧.50 AND Ø.159 ↧.60\n#10-32 UNF-2B ↧.40", ((1, "0.201"), (1, "0.159"))),
        ("1/4-20 UNC-2B ↧.50; DRILL .159 ↧.60, #10-32 UNF-2B ↧.40", ((1, None), (1, "0.159"))),
        ("1/4-20 UNC-2B ↧.50, DRILL .201 ↧.75", ((1, "0.201"),)),
    ],
)
def test_counts_and_drills_go_to_their_hole(note, holes):
    found = said(note=note).holes
    assert tuple((one.count, one.as_written.drill) for one in found) == tuple(
        (count, None if drill is None else Decimal(drill)) for count, drill in holes
    )


def test_a_drill_that_does_not_exist_cannot_be_kept_as_written():
    (asked,) = [one for one in said(note="#99 DRILL 1/4-20 UNC-2B ↧.50").questions if "no drill" in one.text]
    assert asked.options == ("use the service's",)
    (asked,) = said(note="Ø.208 ↧.75 1/4-20 UNC-2B ↧.50").questions
    assert asked.options == ("keep as written", "use the service's")
