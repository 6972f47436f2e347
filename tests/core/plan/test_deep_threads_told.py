"""A tap asked for alone is told of a deep thread as well as a whole hole is."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.model import Hole, Length
from borewright.core.plan.specify import recommend_tap, specify
from borewright.core.requests import HoleSpecRequest, TapRecommendation
from every import every


@every(("depth", "deep"), [("16", False), ("32", True)])
def test_a_thread_of_four_diameters_is_deep(depth, deep):
    """Taps other than straight-flute ones are routine to three diameters, 24 mm of M8 (common practice)."""
    read, hole = callout.read("M8"), Hole("blind", full_thread_depth=Length(Decimal(depth), "mm"))
    for found in (recommend_tap(TapRecommendation(read, hole=hole)), specify(HoleSpecRequest(read, hole))):
        assert ("deep_thread" in {one.code for one in found.notes.cautions}) is deep
