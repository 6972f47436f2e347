"""What a drill is asked for, in the thread's own unit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple, Protocol

from borewright.core.model import Diameters, Material, PercentTarget, Range, Thread
from borewright.core.requests import Machine, Method, Objective


class OwnOversize(NamedTuple):
    """How much larger than its drill a hole of this shop is, in the thread's unit; no ``sigma`` = the tables'."""

    mean: Decimal
    sigma: float | None = None


def own_oversize(thread: Thread, machine: Machine) -> OwnOversize | None:
    """The drill oversize that a caller states for the machine, in the thread's unit; None = not stated."""
    stated = machine.drill_oversize
    if stated is None:
        return None
    sigma = stated.standard_deviation
    return OwnOversize(stated.mean.to(thread.unit), None if sigma is None else float(sigma.to(thread.unit)))


class HoleQuestion(Protocol):
    """Tells of a mean hole (thread's unit) whether it may be taken, and why it may not."""

    def __call__(self, hole_diameter: Decimal) -> bool:
        """Whether the hole may be taken."""

    def why_not(self, hole_diameter: Decimal) -> str:
        """Why a hole that may not be taken is refused, in words."""


@dataclass(frozen=True, slots=True)
class DrillQuestion:
    """What the drills of a thread are ranked by: no rule of the ranking may look at engagement or part material.

    ``minor_diameter`` are the limits to be made (before finish), None = the thread's own; ``stock`` the labels in the
    crib; ``may_take`` tells of a mean hole whether least torque may take it;
    ``coat`` is what a coat will do to the diameters afterwards, None = bare; ``oversize`` what the shop's own
    drills make, None = the tables' mean oversize.
    """

    method: Method = "cut"
    percent: PercentTarget | None = None
    objective: Objective = "chart"
    series: tuple[str, ...] | None = None
    minor_diameter: Range | None = None
    stock: tuple[str, ...] | None = None
    may_take: HoleQuestion | None = None
    coat: Diameters | None = None
    oversize: OwnOversize | None = None


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
        )
