"""What the machine is told follows from the hole: its kind slows the tap, its depths stand in the headline."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.chance.distributions import Spread
from borewright.core.model import Counterbore, Hole, Length, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest


def spec(thread, hole, material="6061-T6"):
    return specify(HoleSpecRequest(thread=callout.read(thread), hole=hole, material=MaterialInput(name=material)))


def inch(value):
    return Length(Decimal(value), "in")


BLIND = Hole("blind", full_thread_depth=inch("0.4"))
THROUGH = Hole("through", thickness=inch("0.4"))


def test_long_chips_stay_in_a_blind_hole():
    """Common practice: the tap is run slower there than in a through hole of the same depth."""
    blind, through = (spec("1/2-13 UNC-2B", hole).process.cutting.tap for hole in (BLIND, THROUGH))
    assert blind.cutting_speed_m_min < through.cutting_speed_m_min


def test_the_headline_has_the_depth_to_a_thousandth():
    """5/16-18: a pitch of 1/18 in gives depths that end in the third decimal."""
    found = spec("5/16-18 UNC-2B", BLIND)
    depth = found.depths.drill_depth
    assert depth * 100 != int(depth * 100)
    assert f"{depth.normalize()}\N{NO-BREAK SPACE}in deep" in found.headline.drill


@pytest.mark.parametrize(("limit", "share"), [(0.9, 0), (1.0, 1), (1.1, 1)])
def test_a_size_that_never_varies_is_below_a_limit_or_is_not(limit, share):
    assert Spread(1.0, 0.0).within(low=-1.0, high=limit) == share


def test_a_counterbore_takes_from_the_wall_of_a_taper_thread_first():
    """ANSI/ASME B1.20.1, 1/2-14 NPT: L1 + L3 = 0.320 + 0.2143 of thread. In 0.9 in of wall under a counterbore 0.5 deep
    0.4 in are left, less than that: thread through; in 1.6 in of wall the thread ends 0.5343 in below the counterbore.
    """
    bore = Counterbore(inch("1.25"), inch("0.5"))
    ends = [
        spec("1/2-14 NPT", Hole("through", thickness=inch(wall), counterbore=bore), "1018").depths.full_thread_depth
        for wall in ("0.9", "1.6")
    ]
    assert ends == [Decimal("0.9"), Decimal("1.0343")]
