"""The question behind a drill: what may be asked, which hole is wanted, between which ends, from which drills."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from borewright.core.chance.made_sizes import Aim
from borewright.core.errors import BorewrightError
from borewright.core.model import Diameters, Drill, Material, PercentTarget, Range, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.requests import Method, Objective, is_long_list
from borewright.core.rounding import half_even
from borewright.core.standards.systems import traits

from .drill_sizes import find_drill, series_of
from .percent_of_thread import Basis, is_common_form
from .standard_drills import USUAL, Entry, Rack, ShopOversize, entry, rack
from .tap_drill_charts import ChartRow

#: Percent of thread (0.75 H) that the wall charts of inch shops aim at.
WALL_CHART_PERCENT = figure("wall_chart_percent")
_THOUSANDTHS = 3


class HoleQuestion(Protocol):
    """Tells of a mean hole (thread's unit) whether it may be taken, and why it may not."""

    def __call__(self, hole_diameter: Decimal) -> bool:
        """Whether the hole may be taken."""

    def why_not(self, hole_diameter: Decimal) -> str:
        """Why a hole of ``hole_diameter`` (thread's unit) that may not be taken is refused, in words."""


@dataclass(frozen=True, slots=True)
class DrillQuestion:
    """What the drills of a thread are ranked by: no rule of the ranking may look at engagement or part material.

    ``minor_diameter`` are the limits to be made (before finish), None = the thread's own; ``stock`` the labels in the
    crib; ``may_take`` tells of a mean hole whether least torque may take it;
    ``coat`` is what a coat will do to the diameters afterwards, None = bare; ``oversize`` what the shop's own
    drills make, None = the tables' mean oversize; ``prescribed`` is the label of the drill to take of those
    that hold the limits, None = the best; ``stated`` is the drill that the drawing states, taken whatever it holds.
    """

    method: Method = "cut"
    percent: PercentTarget | None = None
    objective: Objective = "chart"
    series: tuple[str, ...] | None = None
    minor_diameter: Range | None = None
    stock: tuple[str, ...] | None = None
    may_take: HoleQuestion | None = None
    coat: Diameters | None = None
    oversize: ShopOversize | None = None
    prescribed: str | None = None
    stated: Drill | None = None

    @property
    def has_own_drills(self) -> bool:
        """Whether few questions have the drills that are weighed: a whole crib, or those of an oversize of its own."""
        return is_long_list(self.stock) or self.oversize is not None


@dataclass(frozen=True, slots=True)
class DrillRequest(DrillQuestion):
    """How the drill of a thread is to be chosen: ``engagement`` in the thread's unit and ``material`` add remarks."""

    engagement: Decimal | None = None
    material: Material | None = None

    @property
    def question(self) -> DrillQuestion:
        """What the drills are ranked by."""
        return DrillQuestion(
            self.method,
            self.percent,
            self.objective,
            self.series,
            self.minor_diameter,
            self.stock,
            self.may_take,
            self.coat,
            self.oversize,
            self.prescribed,
            self.stated,
        )


@dataclass(frozen=True, slots=True)
class Target:
    """The hole aimed at, how it was found, and its derivation. ``low`` and ``high`` bound it, None = open."""

    hole: Decimal
    text: str
    formula: str
    inputs: tuple[tuple[str, Decimal], ...]
    low: Decimal | None
    high: Decimal | None
    cautions: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class DrillCase:
    """A thread with everything its drill is chosen by.

    ``moved``: the limits to be made are not the thread's own. ``top`` is the largest mean hole allowed, None = open;
    ``aim`` what the finished minor diameter must hold, None where a drill alone does not decide it.
    """

    thread: Thread
    request: DrillQuestion
    limits: Range
    moved: bool
    basis: Basis
    target: Target
    first: Rack
    second: Rack | None
    chart: tuple[ChartRow, ...]
    crib: tuple[Entry, ...] | None
    top: Decimal | None
    aim: Aim | None = None

    @property
    def series_asked(self) -> bool:
        """Whether the caller named the drill series."""
        return self.request.series is not None

    @property
    def by_chart(self) -> bool:
        """Whether the chart decides: a cut thread without another objective or a percent aimed at."""
        percent = self.request.percent
        return (
            self.request.method == "cut"
            and self.request.objective == "chart"
            and (percent is None or percent.target is None)
        )

    @property
    def by_wall_chart(self) -> bool:
        """Whether the rule of the inch shop's wall chart decides: nearest to 75 percent of thread."""
        return self.by_chart and on_wall_chart(self.thread)

    def inside(self, diameter: Decimal) -> bool:
        """Whether a drill of ``diameter`` (thread's unit) lies between the ends; on an inch thread's own limits it is
        read to a thousandth.
        """
        low, high = self.target.low, self.target.high
        readings = [diameter]
        if on_wall_chart(self.thread) and not self.moved and self.request.percent is None:
            readings.append(half_even(diameter, _THOUSANDTHS))
        return any((low is None or low <= read) and (high is None or read <= high) for read in readings)

    def entry(self, drill: Drill) -> Entry:
        """A drill with the hole that it makes in this shop."""
        return entry(drill, self.thread.unit, self.request.oversize)

    def acceptance(self, item: Entry) -> float | None:
        """Chance from 0 to 1 that with the drill ``item`` the finished minor diameter ends inside its limits; None
        where the drill's spread is not known.

        Source: drilled_hole_spread table; FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2 for the mean hole.
        """
        return None if self.aim is None or item.made is None else self.aim.chance(item.made)

    def in_stock(self, item: Entry) -> bool | None:
        """Whether the crib holds the drill ``item``, None when the stock was not told."""
        if self.crib is None:
            return None
        return any(held.drill.label == item.drill.label for held in self.crib)

    def say(self, value: Decimal) -> str:
        """``value``, a length in the thread's unit, with that unit, without superfluous zeros."""
        return length(value, self.thread.unit)


def on_wall_chart(thread: Thread) -> bool:
    """Whether a thread is one of those that wall charts of inch shops list. Source: common practice."""
    return traits(thread).wall_chart and is_common_form(thread)


def minor_diameter_to_make(thread: Thread, request: DrillQuestion) -> Range:
    """Limits in the thread's unit of the minor diameter that the hole of ``request`` is judged by. Source: the thread's
    standard, or the caller.
    """
    return request.minor_diameter or thread.internal.minor_diameter


def racks(thread: Thread, request: DrillQuestion) -> tuple[Rack, Rack | None]:
    """Racks of first and second choice: the series that ``request`` names, else those usual for the thread's unit."""
    unit, own = thread.unit, request.oversize
    if request.series is not None:
        return rack(unit, series_of(request.series), own), None
    first, second = USUAL[unit]
    return rack(unit, first, own), rack(unit, second, own) if second else None


def drills_in_stock(thread: Thread, request: DrillQuestion) -> tuple[Entry, ...] | None:
    """The drills that ``request`` has in stock for ``thread``, in the order given and each once; of the series asked
    for only. None = stock not told.
    """
    if request.stock is None:
        return None
    allowed = None if request.series is None else series_of(request.series)
    found: dict[str, Entry] = {}
    for place, label in enumerate(request.stock):
        try:
            drill = find_drill(label, thread.unit)
        except BorewrightError as refusal:
            raise refusal.under(f"/stock/drills/{place}") from None
        if allowed is None or drill.series in allowed:
            found[drill.label] = entry(drill, thread.unit, request.oversize)
    return tuple(found.values())
