"""Room under the full thread of a tight blind hole, shared between chamfer and clearance, at each boundary.

In pitches (common practice): a bottoming tap has 2 of chamfer, the shortest 1.5; rigid tapping keeps 1 of clearance, a
careful stop half of one. M10x1.5 and 1/4-20.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.hole import tight_bottom
from borewright.core.hole.tight_bottom import Ends, Room
from borewright.core.model import TapChamfer
from every import every

M10 = standards.resolve(callout.read("M10x1.5-6H"))
QUARTER = standards.resolve(callout.read("1/4-20 UNC-2B"))
FREE = Ends(Decimal(23), ())


def plain_blanks(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


@every(
    ("below", "of_limit", "of_wall"),
    [
        # a floating holder wants 3 mm: 2 x 1.5 + 3
        ("6", "3", "3"),
        # a usual bottoming tap and rigid tapping: 3 + 1.5; what is over stays under the tap, or in the wall
        ("5.99", "2.99", "1.5"),
        ("4.5", "1.5", "1.5"),
        # the shortest chamfer and rigid tapping: 2.25 + 1.5
        ("4.49", "1.5", "1.5"),
        ("3.75", "1.5", "1.5"),
        # the shortest chamfer and a careful stop: 2.25 + 0.75
        ("3.74", "1.49", "0.75"),
        ("3", "0.75", "0.75"),
        # nothing fits: as planned
        ("2.99", "3", "3"),
    ],
)
def test_clearance(below, of_limit, of_wall):
    for wall, left in ((False, of_limit), (True, of_wall)):
        found = tight_bottom.clearance(M10, Decimal(below), planned=Decimal(3), wall=wall)
        assert found == Decimal(left), wall


@every(
    ("room", "left", "chamfer", "clearance"),
    [
        ("4", "1.5", "4", "1.5"),
        ("4", "1.5", "4.01", "3"),
        # a bottoming tap of two threads, 3 mm, is held against what is left whatever the room
        ("2.25", "1.5", "3", "1.5"),
        ("2.25", "1.5", "3.01", "3"),
        (None, "1.5", "3", "3"),
        ("4", None, "3", "3"),
    ],
)
def test_clearance_under_a_chamfer(room, left, chamfer, clearance):
    given = [None if one is None else Decimal(one) for one in (room, left)]
    space = Room(Decimal(20), given[0], "", given[1])
    found = tight_bottom.left_under(M10, space, Decimal(chamfer), planned=Decimal(3))
    assert found == Decimal(clearance)


@every(
    ("thread", "deepest", "least", "most"),
    [
        (M10, "23", "3", "20.00"),
        (M10, "23.008", "3", "20.00"),
        # less than a pitch of thread is none
        (M10, "4.5", "3", "1.50"),
        (M10, "4.49", "3", None),
        (QUARTER, "0.6009", "0.15", "0.450"),
    ],
)
def test_most_thread_above_the_room(thread, deepest, least, most):
    found = tight_bottom.shallower(thread, Decimal(deepest), least=Decimal(least))
    assert (None if found is None else str(found)) == most


@every(
    ("full", "cut", "said"),
    [
        ("21", False, ["at most 20 mm", "point_angle of 140 degrees", "point_angle of 180 degrees"]),
        ("21.01", False, ["at most 20 mm", "point_angle of 180 degrees"]),
        ("22.01", True, ["at most 20 mm", 'method "cut"']),
    ],
)
def test_remedies(full, cut, said):
    """At 118 degrees 23 mm are allowed, at 140 24 mm, flat 25 mm; 3 mm are needed under the thread."""
    ends = Ends(Decimal(23), ((Decimal(140), Decimal(24)), (Decimal(180), Decimal(25))))
    ways = list(tight_bottom.remedies(M10, Decimal(full), ends, least=Decimal(3), cut_would_do=cut))
    assert len(ways) == len(said)
    assert all(words in plain_blanks(way) for words, way in zip(said, ways, strict=True))


def test_a_forming_tap_alone_is_not_told_to_cut():
    assert not any("cut" in way for way in tight_bottom.remedies(M10, Decimal(20), FREE, least=Decimal(3)))


@every(
    ("left", "longest", "asked"),
    [("1.5", "2", False), ("1.49", "2", True), ("1.5", "1.5", True), ("1.5", "1.51", False)],
)
def test_a_hole_for_a_bottoming_tap_only_is_asked_about(left, longest, asked):
    """1.5 mm of clearance are planned; 20 + 2 x 1.5 + 1.5 mm would do for a usual tap."""
    chamfer = TapChamfer("bottoming", Decimal(1), Decimal(longest))
    found = tight_bottom.question(
        M10, Decimal(20), FREE, chamfer=chamfer, left=Decimal(left), planned=Decimal("1.5"), pointer="/hole/thickness"
    )
    assert (found is not None) is asked
    if found is not None:
        text = plain_blanks(found.text)
        assert f"of 1 to {longest} threads of chamfer that stops {left} mm above the bottom" in text
        assert "allow 24.5 mm of full drill diameter" in text
        assert "at most 18.5 mm of full thread" in text


def test_points_flatter_than_asked():
    told = [tight_bottom.flatter_points(Decimal(angle)) for angle in (118, 140, 141, 180)]
    assert told == [(140, 180), (180,), (180,), ()]


@every(("deepest", "least", "detail", "allowed"), [("4.49", "3", "", ()), ("23", "3", ": take", ("at most 20 mm",))])
def test_a_thread_deeper_than_its_hole(deepest, least, detail, allowed):
    refused = tight_bottom.too_deep(M10, Decimal(25), Ends(Decimal(deepest), ()), least=Decimal(least))
    (fault,) = refused.faults
    assert f"25 mm of full thread do not fit in {deepest} mm of full drill diameter{detail}" in plain_blanks(
        fault.detail
    )
    assert (":" in fault.detail) is bool(detail)
    assert tuple(map(plain_blanks, fault.allowed)) == allowed


RELIEF = "end the thread in a groove"


@every(
    ("deepest", "chamfer", "below", "by", "detail", "allowed"),
    [
        # a bottoming tap: 1.5 threads of chamfer and half a pitch under it are 3 mm, which the hole has not
        (
            "22.9",
            TapChamfer("bottoming", Decimal(1), Decimal("1.5")),
            "4.5",
            "drill_depth_limit",
            "20 mm of full thread need 23 mm of full drill diameter with a bottoming tap of 1.5 threads of chamfer and"
            " half a pitch under it; 22.9 mm are allowed. Do one of these: take at most 19.9 mm of full thread; mill"
            " the thread; end the thread in a groove",
            "at least 23 mm",
        ),
        # what lacks room for more, but has those 3 mm, may be cut
        (
            "23",
            TapChamfer("semi_bottoming", Decimal(2), Decimal(3)),
            "6",
            "drill_depth_limit",
            "need 26 mm of full drill diameter with a semi-bottoming tap; 23 mm are allowed. Do one of these: take at"
            ' most 17 mm of full thread; cut the thread (method "cut") with a short bottoming tap; mill the thread',
            "at least 26 mm",
        ),
        (
            "22.99",
            TapChamfer("semi_bottoming", Decimal(2), Decimal(3)),
            "6",
            "drill_depth_limit",
            "take at most 16.99 mm of full thread; mill the thread; end",
            "at least 26 mm",
        ),
        # no tap at all, less below the thread than any tap needs; a wall must hold the point too
        (
            "21",
            None,
            "1.5",
            "thickness",
            "20 mm of full thread need 21.5 mm of full drill diameter; 21 mm are allowed. Do one of these: take at most"
            " 19.5 mm of full thread; mill the thread; end",
            "at least 24.06 mm",
        ),
        (
            "21",
            TapChamfer("bottoming", Decimal(1), Decimal("1.5")),
            "2",
            "drill_depth",
            "need 22 mm of full drill diameter with a bottoming tap of 1.5 threads",
            "at least 22 mm",
        ),
        (
            "21",
            TapChamfer("bottoming", Decimal(1), Decimal("2.01")),
            "4.5",
            "drill_depth",
            "need 24.5 mm of full drill diameter with a bottoming tap; 21 mm are allowed",
            "at least 24.5 mm",
        ),
    ],
)
def test_a_hole_too_shallow_for_its_thread(deepest, chamfer, below, by, detail, allowed):
    """20 mm of full thread; the point of 2.5537 mm counts where a wall is what limits."""
    space = Room(Decimal(20), None, f"/hole/{by}", ends=Ends(Decimal(deepest), ()))
    refused = tight_bottom.too_shallow(
        M10, space, chamfer, below=Decimal(below), point=Decimal("2.5537"), relief=RELIEF
    )
    (fault,) = refused.faults
    assert (fault.code, fault.pointer) == ("drill_depth_limit_too_shallow", f"/hole/{by}")
    assert detail in plain_blanks(fault.detail)
    assert tuple(map(plain_blanks, fault.allowed)) == (allowed,)
