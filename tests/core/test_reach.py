"""Holes at the bottom of a bore or beside a wall."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import HoleError
from borewright.core.model import Hole, Length
from borewright.core.requests import HoleSpecRequest
from borewright.core.specify import specify


def at_bottom(*, access: str | None = None, clearance: str | None = None):
    def mm(text: str | None) -> Length | None:
        return None if text is None else Length(Decimal(text), "mm")

    hole = Hole("blind", full_thread_depth=mm("15"), access_depth=mm(access), clearance_diameter=mm(clearance))
    return specify(HoleSpecRequest(thread="M10", hole=hole))


def test_nothing_above_the_face_needs_no_reach():
    assert at_bottom().reach is None


def test_reach_is_access_plus_depth():
    spec = at_bottom(access="40", clearance="30")
    assert spec.reach.drill_reach == 40 + spec.depths.drill_tip_depth
    assert spec.reach.tap_reach == 40 + spec.depths.tap_travel
    assert (spec.reach.length, spec.reach.shank) == ("extended", "standard")


def test_narrow_bore_asks_for_a_small_shank():
    assert at_bottom(access="40", clearance="12").reach.shank == "small_shank"


def test_bore_narrower_than_the_tap_is_refused_with_what_is_missing():
    with pytest.raises(HoleError) as caught:
        at_bottom(access="40", clearance="9")
    assert caught.value.code == "hole_not_reachable"
    assert caught.value.faults[0].pointer == "/hole/clearance_diameter"
    assert "1 mm of clearance" in caught.value.faults[0].detail
