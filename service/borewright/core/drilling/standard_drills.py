"""Drills sorted by diameter in one unit, with the hole each is expected to make: computed once, searched by halving."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from decimal import Decimal

from borewright.core.caches import cached
from borewright.core.chance.distributions import Spread
from borewright.core.chance.made_sizes import hole_size
from borewright.core.model import Drill, Range, Thread, Unit

from .oversize import HoleOversize, mean_oversize
from .request import OwnOversize
from .sizes import SERIES, in_series, printed

#: Series a thread is drilled from unless the caller names others: first choice, then what is tried when none
#: fits. A metric job is drilled with metric drills; an inch shop has metric drills for what falls between its own.
USUAL: dict[Unit, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "in": (("fractional", "number", "letter"), ("metric",)),
    "mm": (("metric",), ()),
}


@dataclass(frozen=True, slots=True)
class Entry:
    """A drill, its printed diameter, the mean hole and the holes it makes, in one unit; None = no data, no guess."""

    drill: Drill
    diameter: Decimal
    oversize: HoleOversize | None
    expected: Decimal | None
    made: Spread | None

    @property
    def hole(self) -> Decimal:
        """The mean hole where it is known, else the drill's own diameter."""
        return self.diameter if self.expected is None else self.expected


@dataclass(frozen=True, slots=True)
class Rack:
    """Entries by diameter."""

    diameters: tuple[Decimal, ...]
    entries: tuple[Entry, ...]

    def between(self, *, low: Decimal, high: Decimal) -> tuple[Entry, ...]:
        """Entries whose diameter lies between both, ends included."""
        return self.entries[bisect_left(self.diameters, low) : bisect_right(self.diameters, high)]

    def below(self, diameter: Decimal, most: int) -> tuple[Entry, ...]:
        """The ``most`` entries next below a diameter, smallest first."""
        end = bisect_left(self.diameters, diameter)
        return self.entries[max(0, end - most) : end]

    def above(self, diameter: Decimal, most: int) -> tuple[Entry, ...]:
        """The ``most`` entries next above a diameter, smallest first."""
        start = bisect_right(self.diameters, diameter)
        return self.entries[start : start + most]


@cached(2048)
def entry(drill: Drill, unit: Unit, own: OwnOversize | None = None) -> Entry:
    """A drill as an entry of ``unit``, with the tables' mean oversize unless the shop's ``own`` is given."""
    diameter = printed(drill, unit)
    oversize = (
        mean_oversize(diameter, unit) if own is None else HoleOversize(own.mean, "computed", "as stated", own=True)
    )
    if oversize is None:
        return Entry(drill, diameter, None, None, None)
    expected = diameter + oversize.value
    sigma = None if own is None else own.sigma
    return Entry(drill, diameter, oversize, expected, hole_size(diameter, mean=expected, unit=unit, sigma=sigma))


@cached(8)
def rack(unit: Unit, series: tuple[str, ...], own: OwnOversize | None = None) -> Rack:
    """All standard drills of the series given (in the order of ``SERIES``), by their diameter in ``unit``."""
    entries = sorted(
        (entry(drill, unit, own) for drill in in_series(series)),
        key=lambda item: (item.diameter, SERIES.index(item.drill.series)),
    )
    return Rack(tuple(item.diameter for item in entries), tuple(entries))


@cached(8)
def mean_holes(unit: Unit, own: OwnOversize | None = None) -> tuple[Decimal, ...]:
    """The mean holes of all drills, each once, smallest first.

    Source: as :func:`candidates_within`.
    """
    return tuple(sorted({item.hole for item in rack(unit, SERIES, own).entries}))


def candidates_within(thread: Thread, limits: Range, series: tuple[str, ...] | None = None) -> tuple[Entry, ...]:
    """Standard drills that stay inside limits, smallest first: the drill and, where known, the mean hole it makes.

    Args: ``limits`` in the thread's unit, an open end does not bound; ``series`` None = those usual for the unit.
    Source: drill sizes ASME B94.11M and BS 328 / ISO 235; mean oversize FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2.
    """
    low = limits.min if limits.min is not None else Decimal(0)
    high = limits.max if limits.max is not None else thread.basic.major_diameter
    found = rack(thread.unit, USUAL[thread.unit][0] if series is None else series).between(low=low, high=high)
    return tuple(item for item in found if item.hole <= high)
