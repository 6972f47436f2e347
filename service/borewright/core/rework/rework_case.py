"""A hole that went wrong with everything that its ways are judged by, in the unit of its own thread."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core import standards
from borewright.core.errors import BorewrightError
from borewright.core.model import Diameters, Length, Thread, ThreadCallout, Unit
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.standards.systems import traits

from .found import Criticality, FaultFound, Measured, ReworkRequest, Stage
from .rework_way import ReworkWay, RuledOut

#: Where a request names the thread that was tapped.
WRONG_THREAD = "/found/wrong_thread"


class Sizes(NamedTuple):
    """What was measured, in the unit of the drawn thread; None = not measured."""

    hole_diameter: Decimal | None
    pitch_diameter: Decimal | None
    major_diameter: Decimal | None
    full_thread_depth: Decimal | None
    drill_depth: Decimal | None
    coat: Decimal | None


@dataclass(frozen=True, slots=True, eq=False)
class ReworkCase:
    """``planned`` is the hole as the drawing asks for it, ``limits`` those that judge it at this ``stage``."""

    request: ReworkRequest
    planned: Specification
    stage: Stage
    measured: Sizes
    limits: Diameters
    criticality: Criticality | None

    @property
    def found(self) -> FaultFound:
        """What was found."""
        return self.request.found

    @property
    def thread(self) -> Thread:
        """The thread of the drawing."""
        return self.planned.thread

    @property
    def unit(self) -> Unit:
        """Unit of every length."""
        return self.thread.unit

    @property
    def blind(self) -> bool:
        """Whether the hole is blind."""
        return self.planned.request.hole.kind == "blind"

    @property
    def depth_wanted(self) -> Decimal:
        """Full thread as the drawing asks for it, in the unit of the thread."""
        return self.planned.depths.full_thread_depth

    @property
    def engagement(self) -> Decimal:
        """Length of engagement as the request states it, else the full thread, in its unit."""
        stated = self.request.hole.length_of_engagement
        return self.depth_wanted if stated is None else stated.to(self.unit)

    def length(self, given: Length | None) -> Decimal | None:
        """The length ``given`` in the unit of the thread."""
        return None if given is None else given.to(self.unit)


#: What a condition goes through: ways in the order in which a shop thinks of them, and what is none.
Judged = Iterator[ReworkWay | RuledOut]
Judge = Callable[[ReworkCase], Judged]


def case_of(request: ReworkRequest) -> ReworkCase:
    """The case of ``request``. Raises BorewrightError where the hole as drawn cannot be specified.

    Source: the specification of the hole.
    """
    planned = specify(request.hole)
    stage: Stage = request.found.stage or "before_finish"
    limits = planned.limits.to_tap if stage == "before_finish" else planned.limits.finished
    return ReworkCase(
        request,
        planned,
        stage,
        _sizes(request.found.measured, planned.thread.unit),
        limits,
        _critical(request, planned),
    )


def other_thread(given: ThreadCallout, pointer: str) -> Thread:
    """The thread of ``given``, which the request names at ``pointer``. Raises BorewrightError that points there.

    Source: the thread's own standard.
    """
    try:
        return standards.resolve(given)
    except BorewrightError as error:
        error.faults = tuple(replace(one, pointer=pointer) for one in error.faults)
        raise


def _sizes(measured: Measured, unit: Unit) -> Sizes:
    given = {one.name: getattr(measured, one.name) for one in fields(Measured)}
    return Sizes(*(None if given[name] is None else given[name].to(unit) for name in Sizes._fields))


def _critical(request: ReworkRequest, planned: Specification) -> Criticality | None:
    """A pipe thread holds pressure unless the request says something worse."""
    if request.found.criticality is not None:
        return request.found.criticality
    return "pressure" if traits(planned.thread).is_pipe else None
