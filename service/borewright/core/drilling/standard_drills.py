"""Drills by diameter in one unit, with the hole each makes on average: by the tables' mean oversize or the shop's."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import cached, read_once
from borewright.core.chance.distributions import Spread
from borewright.core.chance.made_sizes import hole_size
from borewright.core.model import MM_PER_INCH, Drill, Length, Material, Range, Status, Thread, Unit
from borewright.core.requests import Machine
from borewright.core.rounding import half_even
from borewright.core.shop_figures import serving
from borewright.core.shop_figures.figures import MeasuredOversize, Scatter, ShopFigures
from borewright.core.shop_figures.serving import MeasuredDrills
from borewright.tables import load

from .drill_sizes import PLACES, SERIES, in_series, printed

#: What the figures stand for, in the words of an assumption.
OWN_OVERSIZE_TEXT = "the drill oversize that the request states for the machine replaces the tables'"
MEAN_OVERSIZE_TEXT = (
    "average of drilled steel and cast iron under shop conditions; a well ground drill cuts closer to size"
)
#: Series a thread is drilled from unless the caller names others: first choice, then what is tried when none
#: fits. A metric job is drilled with metric drills; an inch shop has metric drills for what falls between its own.
USUAL: dict[Unit, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "in": (("fractional", "number", "letter"), ("metric",)),
    "mm": (("metric",), ()),
}


@dataclass(frozen=True, slots=True)
class HoleOversize:
    """Mean oversize in the unit asked for; ``published`` on a tabulated drill, ``computed`` between two of them.

    ``own``: the figure is what the request states for the machine; ``measured``: what the shop measured, on drills of
    a ``neighbouring`` size where that is so.
    """

    value: Decimal
    status: Status
    locator: str
    own: bool = False
    measured: MeasuredOversize | None = None
    neighbouring: bool = False

    @property
    def of_shop(self) -> bool:
        """Whether the figure is the shop's, not the tables'."""
        return self.own or self.measured is not None


@read_once
def _points() -> tuple[tuple[Decimal, ...], tuple[Decimal, ...], tuple[str, ...]]:
    rows = load("drill_mean_oversize").rows
    return (
        tuple(Decimal(row["drill_in"]) for row in rows),
        tuple(Decimal(row["mean_oversize_in"]) for row in rows),
        tuple(row["locator"] for row in rows),
    )


def mean_oversize(diameter: Decimal, unit: Unit) -> HoleOversize | None:
    """Mean oversize of a hole by the diameter of its drill, straight line between tabulated drills.

    Args: ``diameter`` of the drill in ``unit``.
    Returns: the figure in ``unit``, None below the smallest (0.0465 in) and above the largest (1.0469 in) drill known.
    Source: FED-STD-H28/2B (1991) Appendix A Tables II.A.1 and II.A.2.
    """
    drill_in = half_even(diameter if unit == "in" else diameter / MM_PER_INCH, 4)
    drills, oversizes, locators = _points()
    place = bisect_left(drills, drill_in)
    if place == len(drills) or drill_in < drills[0]:
        return None
    if drills[place] == drill_in:
        return HoleOversize(_in_unit(oversizes[place], unit), "published", locators[place])
    below, above = drills[place - 1], drills[place]
    share = (drill_in - below) / (above - below)
    value_in = oversizes[place - 1] + share * (oversizes[place] - oversizes[place - 1])
    return HoleOversize(
        _in_unit(value_in, unit), "computed", f"Tables II.A.1 and II.A.2, between drills {below} and {above} in"
    )


def _in_unit(value_in: Decimal, unit: Unit) -> Decimal:
    return half_even(value_in if unit == "in" else value_in * MM_PER_INCH, PLACES[unit])


class OwnOversize(NamedTuple):
    """How much larger than its drill a hole of this shop is, in the thread's unit; no ``sigma`` = the tables'."""

    mean: Decimal
    sigma: float | None = None


#: What the drills of a shop make: stated for the machine, or measured.
ShopOversize = OwnOversize | MeasuredDrills


def own_oversize(
    thread: Thread, machine: Machine, figures: ShopFigures | None = None, material: Material | None = None
) -> ShopOversize | None:
    """The drill oversize that a caller states for the ``machine``, in the unit of ``thread``, else what its shop's
    ``figures`` say of ``material``; None = neither.
    """
    stated = machine.drill_oversize
    if stated is None:
        return serving.drills(figures, material)
    sigma = stated.standard_deviation
    return OwnOversize(stated.mean.to(thread.unit), None if sigma is None else float(sigma.to(thread.unit)))


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
        """The mean hole where it is known, else the drill's own diameter, in the unit of the rack."""
        return self.diameter if self.expected is None else self.expected


@dataclass(frozen=True, slots=True)
class Rack:
    """Entries by diameter."""

    diameters: tuple[Decimal, ...]
    entries: tuple[Entry, ...]

    def between(self, *, low: Decimal, high: Decimal) -> tuple[Entry, ...]:
        """Entries whose diameter lies from ``low`` to ``high``, in the unit of the rack, ends included."""
        return self.entries[bisect_left(self.diameters, low) : bisect_right(self.diameters, high)]

    def below(self, diameter: Decimal, most: int) -> tuple[Entry, ...]:
        """The ``most`` entries next below ``diameter``, in the unit of the rack, smallest first."""
        end = bisect_left(self.diameters, diameter)
        return self.entries[max(0, end - most) : end]

    def above(self, diameter: Decimal, most: int) -> tuple[Entry, ...]:
        """The ``most`` entries next above ``diameter``, in the unit of the rack, smallest first."""
        start = bisect_right(self.diameters, diameter)
        return self.entries[start : start + most]


@cached(2048)
def entry(drill: Drill, unit: Unit, own: ShopOversize | None = None) -> Entry:
    """A drill as an entry of ``unit``, with the tables' mean oversize unless the shop's ``own`` is given."""
    diameter = printed(drill, unit)
    oversize = oversize_of(diameter, unit, own)
    if oversize is None:
        return Entry(drill, diameter, None, None, None)
    expected = diameter + oversize.value
    sigma = scatter(diameter, unit, own)
    return Entry(drill, diameter, oversize, expected, hole_size(diameter, mean=expected, unit=unit, sigma=sigma))


def oversize_of(diameter: Decimal, unit: Unit, own: ShopOversize | None) -> HoleOversize | None:
    """Mean oversize of a hole by the ``diameter`` of its drill in ``unit``: the shop's ``own``, else the tables'.

    Source: the shop, or as :func:`mean_oversize`.
    """
    if isinstance(own, OwnOversize):
        return HoleOversize(own.mean, "computed", "as stated", own=True)
    published = mean_oversize(diameter, unit)
    found = None if own is None else own.serving(diameter, unit)
    if found is None or published is None:
        return published
    figure, neighbouring = found
    at_measured = mean_oversize(half_even(figure.drill_diameter.to(unit), PLACES[unit]), unit)
    apart = Decimal(0) if at_measured is None else published.value - at_measured.value
    value = half_even(figure.mean.to(unit) + apart, PLACES[unit])
    return HoleOversize(value, "measured", figure.told(), measured=figure, neighbouring=neighbouring)


def scatter(diameter: Decimal, unit: Unit, own: ShopOversize | None) -> Scatter | None:
    """Standard deviations of the holes of a drill of ``diameter`` in ``unit`` by the shop's ``own`` figure, None = the
    tables'.
    """
    if own is None:
        return None
    if isinstance(own, OwnOversize):
        return own.sigma
    found = own.serving(diameter, unit)
    if found is None:
        return None
    return found[0].scatter(float(Length(Decimal(1), found[0].unit).to(unit)))


@cached(8)
def rack(unit: Unit, series: tuple[str, ...], own: ShopOversize | None = None) -> Rack:
    """All standard drills of the series given (in the order of ``SERIES``), by their diameter in ``unit``; ``own``
    oversize of the shop makes their mean holes.
    """
    entries = sorted(
        (entry(drill, unit, own) for drill in in_series(series)),
        key=lambda item: (item.diameter, SERIES.index(item.drill.series)),
    )
    return Rack(tuple(item.diameter for item in entries), tuple(entries))


@cached(8)
def mean_holes(unit: Unit, own: ShopOversize | None = None) -> tuple[Decimal, ...]:
    """The mean holes in ``unit`` of all drills, each once, smallest first; by the shop's ``own`` oversize where it has
    one.

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
