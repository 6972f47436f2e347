"""Drills and the choice of one."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, NamedTuple

from .notes import NO_NOTES, Notes
from .quantities import Range, Unit
from .status import Status


@dataclass(frozen=True, slots=True)
class Drill:
    """A standard drill: ``diameter_in`` and ``diameter_mm`` are both held, one of them exact."""

    label: str
    series: str
    diameter_in: Decimal
    diameter_mm: Decimal
    status: Status

    def diameter(self, unit: Unit) -> Decimal:
        """Diameter in ``unit``."""
        return self.diameter_in if unit == "in" else self.diameter_mm


@dataclass(frozen=True, slots=True)
class PercentTarget:
    """Percent of thread asked for, 0.75 H basis; any of the three may be open."""

    target: Decimal | None = None
    min: Decimal | None = None
    max: Decimal | None = None


@dataclass(frozen=True, slots=True)
class DrillCandidate:
    """A drill weighed against the limits of the hole. Lengths in the thread's unit, percents on the choice's basis.

    ``within_minor_diameter_limits`` speaks of the drill's own diameter (of the reamed hole for ``drill_and_ream``),
    None where no limit can judge it (forming, taper). ``margin_below_max`` counts from the mean hole where it is known,
    ``acceptance`` is the chance that the finished minor diameter holds its limits. ``special``: the drill is not sold,
    ``order_text`` is what to order it by.
    """

    drill: Drill
    diameter: Decimal
    percent_thread: Decimal
    expected_hole_diameter: Decimal | None
    expected_percent_thread: Decimal | None
    within_minor_diameter_limits: bool | None
    margin_below_max: Decimal | None
    margin_above_min: Decimal | None
    operation: Literal["drill", "drill_and_ream"]
    in_stock: bool | None
    reasons: tuple[str, ...]
    acceptance: float | None = None
    special: bool = False
    order_text: str | None = None


@dataclass(frozen=True, slots=True)
class RejectedDrill:
    """A drill that was looked at and not taken."""

    label: str
    diameter: Decimal
    reason: str


class DrillChance(NamedTuple):
    """A drill and the chance that the minor diameter it leaves is accepted, None where that is not known."""

    label: str
    acceptance: float | None


@dataclass(frozen=True, slots=True, eq=False)
class DrillChoice:
    """The drill for the thread of the designation ``thread``.

    ``rule`` says what chose it: a published chart, the stated rule or the chance.
    ``minor_diameter`` are the limits the hole was judged by (before finish where a finish applies), ``hole_limits`` the
    recommended band by engagement; ``most_accepted`` is the drill whose holes most often hold the limits.
    """

    thread: str
    method: Literal["cut", "form"]
    objective: str
    rule: Literal["published_chart", "rule", "greatest_acceptance"]
    percent_basis: str
    target_percent: Decimal | None
    target_hole_diameter: Decimal
    minor_diameter: Range
    hole_limits: Range | None
    recommended: DrillCandidate
    alternatives: tuple[DrillCandidate, ...]
    rejected: tuple[RejectedDrill, ...]
    ream_diameter: Decimal | None = None
    chart_drill: DrillChance | None = None
    most_accepted: DrillChance | None = None
    notes: Notes = NO_NOTES

    @property
    def hole_diameter(self) -> Decimal:
        """Diameter to which the hole is drilled, reamed or bored before its thread, in the thread's unit."""
        return self.ream_diameter or self.recommended.diameter
