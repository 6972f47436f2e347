"""Findings on the drilled depth, whole.

M8 has a pitch of 1.25 mm; a point of 118 degrees is 0.3004 of the drill high: 2.043 mm at 6.8 mm.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import PlannedTap
from borewright.core.model import Hole
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest

from .planned import findings, mm

M8 = {"thread": "M8", "drill": "6.8 mm"}


D5 = "M8x1.25 HSS G D5"


def depths(hole, depth, tap=D5):
    planned = {} if depth is None else {"drill_depth": mm(depth)}
    return [one for one in findings(**M8, tap=tap, hole=hole, **planned) if one[2] == "drill_depth"]


def test_depth_of_a_through_hole():
    hole = Hole("through", thickness=mm(12))
    text = "The wall is 12 mm: 0.5 mm are not drilled."
    assert depths(hole, "11.5") == [("hole_too_shallow", "error", "drill_depth", text, "11.5 mm", "12 mm")]
    for depth in ("12", "11.995", "13", None):
        assert depths(hole, depth) == []
    assert depths(hole, "11.994") != []


def test_depth_past_the_limit_of_the_request():
    hole = Hole("blind", full_thread_depth=mm(10), drill_depth_limit=mm(18))
    text = "The drilled depth passes the limit of the request by 2 mm."
    assert depths(hole, "20") == [("drill_depth_over_limit", "error", "drill_depth", text, "20 mm", "18 mm")]
    assert depths(hole, "18") == depths(hole, "18.005") == []
    assert depths(hole, "18.006") != []


def test_point_through_the_wall():
    hole = Hole("blind", full_thread_depth=mm(10), thickness=mm(22))
    text = "20 mm + point 2.043 mm = 22.043 mm in a wall of 22 mm: -0.043 mm left."
    assert depths(hole, "20") == [("drill_breaks_through", "error", "drill_depth", text, "20 mm", "19.957 mm")]
    # 22 - 2.043 - 18.8 = 1.157 mm are less than the pitch; 18.7 leaves 1.257 mm
    ((code, severity, _, text, planned, _),) = depths(hole, "18.8")
    assert (code, severity, planned) == ("wall_thin", "warning", "18.8 mm")
    assert text == "18.8 mm + point 2.043 mm = 20.843 mm in a wall of 22 mm: 1.157 mm left."
    assert depths(hole, "18.7") == []


def test_a_flat_point_has_no_height():
    """A wall of 20 mm: nothing is left of it at 20 mm, less than the pitch of 1.25 mm above 18.75 mm."""
    hole = Hole("blind", full_thread_depth=mm(10), thickness=mm(20), point_angle_deg=Decimal(180))
    text = "20 mm + point 0 mm = 20 mm in a wall of 20 mm: 0 mm left."
    assert depths(hole, "20") == [("drill_breaks_through", "error", "drill_depth", text, "20 mm", "20 mm")]
    assert [one[0] for one in depths(hole, "19.99")] == ["wall_thin"]
    assert [one[0] for one in depths(hole, "18.76")] == ["wall_thin"]
    assert depths(hole, "18.74") == []


PLUG = PlannedTap(D5, chamfer="plug")


def test_room_for_the_chamfer():
    """Plug 3 to 5 threads: 10 + 3 x 1.25 = 13.75 mm are needed, 10 + 5 x 1.25 = 16.25 mm wanted."""
    hole = Hole("blind", full_thread_depth=mm(10))
    (full,) = depths(hole, "9.9")
    assert full[:5] == ("hole_too_shallow", "error", "drill_depth",
                        "10 mm of full thread do not fit in 9.9 mm of drilled depth.", "9.9 mm")  # fmt: skip
    for depth, severity, threads, needed in (("13", "error", "3", "13.75"), ("16", "warning", "5", "16.25")):
        (short,) = depths(hole, depth, PLUG)
        text = (
            f"10 mm of full thread + {threads} threads of plug chamfer x 1.25 mm = {needed} mm; {depth} mm are drilled."
        )
        assert short[:5] == ("tap_chamfer_no_room", severity, "drill_depth", text, f"{depth} mm")
        # no less is expected than the specification drills: 10 mm, 3 threads of semi-bottoming chamfer and a clearance
        own = specify(HoleSpecRequest(callout.read("M8"), hole)).depths.drill_depth
        assert Decimal(short[5].removesuffix(" mm")) == max(Decimal(needed), own)
    taper = PlannedTap(D5, chamfer="taper")
    (short,) = depths(hole, "14", taper)
    assert short[5] == "18.75 mm"  # 10 + 7 x 1.25, more than the specification drills
    assert depths(hole, "13.745", PLUG)[0][1] == "warning"
    assert depths(hole, "13.744", PLUG)[0][1] == "error"
    assert depths(hole, "16.245", PLUG) == []


def test_a_depth_that_is_not_planned_is_the_deepest_that_the_request_allows():
    """A wall of 15.2 mm less the point: 13.157 mm; a limit of 13 mm: 13 mm. Plug needs 13.75 mm."""
    for limit, drilled in ((None, "13.157 mm"), (mm(13), "13 mm")):
        hole = Hole("blind", full_thread_depth=mm(10), thickness=mm("15.2"), drill_depth_limit=limit)
        (short,) = depths(hole, None, PLUG)
        assert (short[0], short[1], short[4]) == ("tap_chamfer_no_room", "error", drilled)
    assert depths(Hole("blind", full_thread_depth=mm(10)), None, PLUG) == []
