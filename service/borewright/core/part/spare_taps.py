"""Spare taps for a lot, by how often the taps of a shop break."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil, exp, sqrt
from statistics import NormalDist

from borewright.core.practice import number
from borewright.core.shop_figures import serving

from .model import PartTool, PlannedHole

#: How often the spares that are laid out are enough.
_ENOUGH = number("part_spare_taps_enough")
_DEVIATIONS = NormalDist().inv_cdf(_ENOUGH)
#: From so many breaks on the sum of Poisson's terms is that of a normal distribution with its skewness: e to the power
#: of their number, with which the sum begins, is soon no number that is held.
_MANY = 500


def spare_taps(planned: Iterable[PlannedHole], tools: Iterable[PartTool], lot_size: int) -> Iterator[str]:
    """What is laid out beside each tap of ``tools`` for a lot of ``lot_size`` parts, where the shop counted how often
    the taps of the holes ``planned`` break.

    Source: the shop's rates; Poisson, for many breaks as Cornish and Fisher approach it.
    """
    holes = {one.hole.name: one for one in planned}
    for tool in tools:
        if tool.kind == "tap":
            expected = lot_size * sum(_breaks(holes[name]) for name in tool.holes)
            spares = _spares(expected)
            if spares:
                yield (
                    f"{spares} spare of {tool.name}: {expected:.2g} are expected to break in"
                    f" {tool.count * lot_size:,} holes by what the shop counted"
                )


def _breaks(planned: PlannedHole) -> float:
    """Taps that are expected to break in the holes of one part, 0 where nothing was counted."""
    spec = planned.specification
    life = serving.tap_life(spec.request.shop_figures, spec.way.material, spec.thread)
    return 0.0 if life is None else planned.hole.count * life.rate


def _spares(expected: float) -> int:
    """The fewest taps that are enough as often as is asked for, where so many breaks are ``expected``."""
    if expected > _MANY:
        return ceil(expected + _DEVIATIONS * sqrt(expected) + (_DEVIATIONS**2 - 1) / 6 - 0.5)
    chance = reached = exp(-expected)
    spares = 0
    while reached < _ENOUGH:
        spares += 1
        chance *= expected / spares
        reached += chance
    return spares
