"""Figures in the findings on drilled depths, by hand: half of a thousandth of an inch is not told."""

from __future__ import annotations

from decimal import Decimal
from math import radians, tan

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import Hole, Length
from borewright.core.requests import HoleSpecRequest
from every import every

IN = "\N{NO-BREAK SPACE}in"


def _inches(value):
    return Length(Decimal(value), "in")


def _found(hole, depth, code):
    asked = HoleSpecRequest(callout.read("1/2-13 UNC-2B"), hole)
    plan = AsPlanned("27/64", PlannedTap("1/2-13 NC HSS G H3"), drill_depth=_inches(depth))
    return [one for one in audit(AuditRequest(asked, plan)).findings if one.code == code]


@every(("depth", "left"), [("0.5", "0.25"), ("0.7494", "0.0006"), ("0.7495", None), ("0.75", None)])
def test_what_of_a_wall_is_not_drilled(depth, left):
    found = _found(Hole("through", thickness=_inches("0.75")), depth, "hole_too_shallow")
    assert bool(found) is (left is not None)
    if left is not None:
        assert found[0].text == f"The wall is 0.75{IN}: {left}{IN} are not drilled."


@every(("depth", "over"), [("1.75", "0.25"), ("1.5006", "0.0006"), ("1.5005", None), ("1.5", None)])
def test_how_far_a_depth_passes_its_limit(depth, over):
    hole = Hole("blind", full_thread_depth=_inches("0.75"), drill_depth_limit=_inches("1.5"))
    found = _found(hole, depth, "drill_depth_over_limit")
    assert bool(found) is (over is not None)
    if over is not None:
        assert found[0].text.endswith(f"by {over}{IN}.")
        assert found[0].expected == f"1.5{IN}"


@every(("depth", "through"), [("1.9", True), ("1.8", False)])
def test_where_the_point_breaks_through(depth, through):
    """The point of 118 degrees of a 27/64 drill is 0.421875 / 2 / tan(59) = 0.1267 in long: 2 in less it are 1.8733."""
    assert round(0.421875 / 2 / tan(radians(59)), 4) == 0.1267
    hole = Hole("blind", full_thread_depth=_inches("0.75"), thickness=_inches("2"))
    found = _found(hole, depth, "drill_breaks_through")
    assert bool(found) is through
    if through:
        assert found[0].expected == f"1.8733{IN}"
        assert f"0.1267{IN} = 2.0267{IN} in a wall of 2{IN}" in found[0].text
