"""What the checks of one audit look at: the specification, the drill and the taps as read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.model import Diameters, Drill, DrillChoice, TapChamfer, TapChoice, Thread
from borewright.core.plan.specification import Specification
from borewright.core.tapping import TapMarking
from borewright.core.tapping.tap_candidates import Candidate

from .findings import AsPlanned


@dataclass(frozen=True, slots=True)
class ReadTap:
    """A planned tap as read. ``marking`` None: only its limit was given; ``candidate`` None: no limit is known."""

    text: str
    field: str
    marking: TapMarking | None
    candidate: Candidate | None
    style: str | None
    chamfer: TapChamfer | None


@dataclass(frozen=True, slots=True)
class AuditCase:
    """One audit. ``spec`` plans drill and tap whatever the part, ``told`` is what the specification says of it.

    ``to_make`` are the limits the tools must make: before a finish, oversize for hot-dip zinc.
    """

    spec: Specification
    told: Specification
    plan: AsPlanned
    to_make: Diameters
    drill: Drill | None
    tap: ReadTap | None
    second_tap: ReadTap | None

    @property
    def thread(self) -> Thread:
        """The thread of the hole."""
        return self.spec.thread

    @property
    def best_drill(self) -> DrillChoice:
        """The drill that the specification takes; held as tapped it always has one."""
        assert self.spec.drill is not None
        return self.spec.drill

    @property
    def best_tap(self) -> TapChoice:
        """The tap that the specification takes; held as tapped it always has one."""
        assert self.spec.tap is not None
        return self.spec.tap

    @property
    def is_best_tap(self) -> bool:
        """Whether the tap that cuts last has the limit that the specification takes."""
        best, last = self.best_tap.recommended.limit, self.last_tap
        planned = None if last is None or last.candidate is None else last.candidate.limit
        return best == planned

    @property
    def last_tap(self) -> ReadTap | None:
        """The tap that cuts last."""
        return self.second_tap or self.tap

    @property
    def drill_diameter(self) -> Decimal:
        """Diameter of the planned drill in the thread's unit, of the recommended one where it is not known."""
        return self.drill.diameter(self.thread.unit) if self.drill is not None else self.best_drill.recommended.diameter
