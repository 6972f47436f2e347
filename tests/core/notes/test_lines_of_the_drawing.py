"""Lines of a note that are said of the whole drawing: what the request says goes before them (rules G1 to G5)."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.notes import NoteRequest, read
from every import every

_CSK_90, _CSK_82 = ("CSK ALL TAPPED HOLES 90° TO MAJOR DIA DEBURR", "CSK ALL TAPPED HOLES 82° TO MAJOR DIA DEBURR")


def facts(hole):
    sink = hole.as_written.countersink
    return (
        hole.thread,
        hole.unit,
        hole.finish,
        hole.dimensions_apply,
        hole.masked,
        None if sink is None else sink.angle_deg,
    )


@every(
    ("line", "general", "found"),
    [
        ("DEBURR", (), ("M8x1.25", "mm", None, None, False, None)),
        # unit
        ("DIMENSIONS IN INCHES", (), ("M8x1.25", "in", None, None, False, None)),
        ("DIMENSIONS IN INCHES", ("DIMENSIONS IN MILLIMETERS",), ("M8x1.25", "mm", None, None, False, None)),
        ("DIMENSIONS IN MILLIMETERS", ("DIMENSIONS IN INCHES",), ("M8x1.25", "in", None, None, False, None)),
        # finish, and what the limits hold for
        ("FINISH: ASTM B633 FE/ZN 8", (), ("M8x1.25", "mm", "ASTM B633 Fe/Zn 8", None, False, None)),
        (
            "FINISH: ASTM B633 FE/ZN 8",
            ("FINISH: ASTM B633 FE/ZN 25",),
            ("M8x1.25", "mm", "ASTM B633 Fe/Zn 25", None, False, None),
        ),
        ("DIMENSIONS APPLY BEFORE PLATING", (), ("M8x1.25", "mm", None, "before_finish", False, None)),
        (
            "DIMENSIONS APPLY BEFORE PLATING",
            ("DIMENSIONS APPLY AFTER PLATING",),
            ("M8x1.25", "mm", None, "after_finish", False, None),
        ),
        ("DEBURR, MASK THREADS", (), ("M8x1.25", "mm", None, None, True, None)),
        ("DEBURR", ("MASK ALL THREADS",), ("M8x1.25", "mm", None, None, True, None)),
        # class
        ("UNLESS OTHERWISE SPECIFIED CLASS 6G", (), ("M8x1.25-6G", "mm", None, None, False, None)),
        (
            "UNLESS OTHERWISE SPECIFIED CLASS 6G",
            ("ALL THREADS CLASS 5H",),
            ("M8x1.25-5H", "mm", None, None, False, None),
        ),
        # countersink
        (_CSK_90, (), ("M8x1.25", "mm", None, None, False, Decimal(90))),
        (_CSK_90, (_CSK_82,), ("M8x1.25", "mm", None, None, False, Decimal(82))),
        (_CSK_82, (_CSK_90,), ("M8x1.25", "mm", None, None, False, Decimal(90))),
    ],
)
def test_what_a_line_says_of_its_hole(line, general, found):
    (hole,) = read(NoteRequest(f"M8 THRU\n{line}", None, general)).holes
    assert facts(hole) == found


def test_forty_lines_are_read_and_the_rest_is_told_as_unread():
    note = "M8 THRU\n" + "DEBURR\n" * 41
    found = read(NoteRequest(note))
    lines = [(8 + 7 * line, 8 + 7 * line + 6) for line in range(41)]
    assert [(one.start, one.end) for one in found.not_holes if one.read_as == "general_note"] == lines[:40]
    assert [(one.start, one.end) for one in found.unread] == lines[40:]
    assert [one.changes for one in found.general] == [("edges are broken: changes no hole request",)] * 40


def test_what_the_request_says_stands_before_the_lines():
    found = read(NoteRequest("M8 THRU\nDEBURR", None, ("MASK ALL THREADS",)))
    assert [(one.text, one.changes) for one in found.general] == [
        ("MASK ALL THREADS", ("threads are masked",)),
        ("DEBURR", ("edges are broken: changes no hole request",)),
    ]


def test_the_line_break_behind_a_line_of_the_drawing_is_of_the_hole():
    """Of the line itself its characters alone are no hole."""
    note = "DEBURR\nM8 THRU"
    found = read(NoteRequest(note))
    (hole,) = found.holes
    assert [(one.start, one.end, one.read_as) for one in found.not_holes] == [(0, 6, "general_note")]
    assert [(one.start, one.end, one.read_as) for one in hole.read_from] == [
        (6, 7, "joining"),
        (7, 9, "thread"),
        (10, 14, "thru"),
    ]


def test_unread_texts_stand_in_their_order():
    note = "QV M8 THRU, SEE NOTE 3, ZZ"
    found = read(NoteRequest(note))
    assert [note[one.start : one.end] for one in found.unread] == ["QV", "SEE NOTE 3", "ZZ"]
    assert {one.read_as for one in found.unread} == {"unread"}
