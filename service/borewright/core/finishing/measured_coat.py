"""The coats that a shop measured, in place of the range of the specification, where a chance is told."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.chance import distributions
from borewright.core.model import Allowance, Diameters, Length, Range, Source, Thread
from borewright.core.shop_figures.figures import MeasuredCoat

from .flank_geometry import flank_factor
from .limits_before_finish import coat_to_come

_ZERO, _ON_DIAMETER = Decimal(0), Decimal(2)


@cached(64)
def with_measured_coat(thread: Thread, allowance: Allowance, measured: MeasuredCoat) -> Allowance:
    """The ``allowance`` of ``thread`` with the coats that were ``measured``: its limits stay the specification's,
    only how often they are held is told by the shop. As it is where no coat reaches the thread.

    Source: the shop; how a coat moves a diameter as in :mod:`flank_geometry`.
    """
    if coat_to_come(allowance) is None or allowance.finish.thickness.max is None:
        return allowance
    share = _middle(allowance.finish.growth_fraction)
    scale = float(Length(Decimal(1), measured.unit).to(thread.unit))
    half = share * Decimal(repr(measured.spread * scale * distributions.factor("coat_sigmas") / 2))
    middle = share * measured.mean.to(thread.unit)
    build_up = Range(middle - half, middle + half)
    change, read = allowance.change, allowance.finish.build_up
    of_flank = flank_factor(thread.thread_angle) or _ON_DIAMETER
    diameters = (
        _moved(change.major_diameter, _ON_DIAMETER, read, build_up),
        _moved(change.pitch_diameter, of_flank, read, build_up),
        _moved(change.minor_diameter, _ON_DIAMETER, read, build_up),
    )
    told = f"the chance of acceptance is by the coats that the shop measured: {measured.told()}"
    source = Source("thickness", "shop figures", measured.date or "", measured.told(), "measured")
    notes = allowance.notes
    return replace(
        allowance,
        measured_change=Diameters(*diameters),
        notes=notes._replace(assumptions=(*notes.assumptions, told), sources=(*notes.sources, source)),
    )


def _moved(change: Range, factor: Decimal, read: Range, measured: Range) -> Range:
    """The ``change`` of a diameter with the ``measured`` build-up, ``factor`` times on it, in place of the one that was
    ``read``; a growth by heat treatment stays.
    """
    heat = _middle(change) + factor * _middle(read)
    return Range(heat - factor * (measured.max or _ZERO), heat - factor * (measured.min or _ZERO))


def _middle(given: Range) -> Decimal:
    return ((given.min or _ZERO) + (given.max or _ZERO)) / 2
