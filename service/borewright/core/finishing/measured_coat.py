"""The coats that a shop measured, in place of the range of the specification, where a chance is told."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.chance import distributions
from borewright.core.model import Allowance, Diameters, Length, Range, Source, Thread
from borewright.core.shop_figures.figures import MeasuredCoat


@cached(64)
def with_measured_coat(thread: Thread, allowance: Allowance, measured: MeasuredCoat) -> Allowance:
    """The ``allowance`` of ``thread`` with the coats that were ``measured``: its limits stay the specification's,
    only how often they are held is told by the shop.

    Source: the shop; how a coat moves a diameter as in :mod:`flank_geometry`.
    """
    least, most = allowance.finish.thickness.min, allowance.finish.thickness.max
    if least is None or most is None or least + most <= 0:
        return allowance
    middle = (least + most) / 2
    scale = float(Length(Decimal(1), measured.unit).to(thread.unit))
    half = Decimal(repr(measured.spread * scale * distributions.factor("coat_sigmas") / 2))
    share = (measured.mean.to(thread.unit) / middle, half / middle)
    change = allowance.change
    diameters = (change.major_diameter, change.pitch_diameter, change.minor_diameter)
    told = f"the chance of acceptance is by the coats that the shop measured: {measured.told()}"
    source = Source("thickness", "shop figures", measured.date or "", measured.told(), "measured")
    notes = allowance.notes
    return replace(
        allowance,
        measured_change=Diameters(*(_moved(one, *share) for one in diameters)),
        notes=replace(notes, assumptions=(*notes.assumptions, told), sources=(*notes.sources, source)),
    )


def _moved(change: Range, mean: Decimal, half: Decimal) -> Range:
    """The change of a diameter by a coat of ``mean`` times the middle thickness, give or take ``half`` of it."""
    middle = ((change.min or Decimal(0)) + (change.max or Decimal(0))) / 2
    ends = (middle * (mean - half), middle * (mean + half))
    return Range(min(ends), max(ends))
