"""What a hole's reply says of the shop's figures beside what its parts say of those that they use."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Notes, Source
from borewright.core.rounding import half_even

from . import serving
from .figures import ShopFigures
from .left_out import HoleServed, left_out


def hole_notes(figures: ShopFigures | None, hole: HoleServed) -> Notes:
    """How often the taps of the ``hole`` break by the shop's ``figures``, and which of the figures it does not use.

    Source: the shop.
    """
    if figures is None:
        return Notes()
    unused = left_out(figures, hole)
    life = None if hole.method is None else serving.tap_life(figures, hole.material, hole.thread)
    if life is None:
        return unused
    told = f"a tap of this size breaks {_often(life.rate)}, at most {_often(life.rate_high)}, by what the shop counted"
    source = Source("tap", "shop figures", life.date or "", life.told(), "measured")
    return Notes(
        assumptions=(f"{told}: {life.told()}", *unused.assumptions), cautions=unused.cautions, sources=(source,)
    )


def _often(rate: float) -> str:
    """A ``rate`` of taps a hole, in words."""
    return "never" if rate <= 0 else f"once in {half_even(Decimal(repr(1 / rate)), 0):,} holes"
