"""What a plan of a part is asked for, and what it says. Times in seconds, chances 0 to 1."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from borewright.core.errors import Fault
from borewright.core.model import Notes
from borewright.core.model.decision import Verdict
from borewright.core.plan.specification import Specification
from borewright.core.requests import HoleSpecRequest

from .selection import Row, Selection, Stage
from .used_tools import UsedTool

Objective = Literal["fewest_tools", "least_time", "as_specified"]


@dataclass(frozen=True, slots=True)
class PartHole:
    """A hole of the part (or equal ones): its name, what it is, how many of it; ``pointer`` to it in what was sent."""

    name: str
    request: HoleSpecRequest
    count: int = 1
    pointer: str = ""


class Times(NamedTuple):
    """Times that no tool decides: a tool change chip to chip, going to the next hole and settling there, in s.

    ``usual`` names those of them that the request does not state.
    """

    tool_change_s: float
    positioning_s: float
    usual: frozenset[Literal["tool_changes", "positioning"]] = frozenset()


@dataclass(frozen=True, slots=True)
class PartRequest:
    """All tapped holes of a part. ``refused`` are holes that could not be read, which are named and left out."""

    holes: tuple[PartHole, ...]
    least_acceptance: float
    objective: Objective
    times: Times
    lot_size: int = 1
    refused: tuple[RefusedHole, ...] = ()


#: A solver: the best choice for rows of holes by the objective of the request, with what was proved of it.
Solver = Callable[[Sequence[Row], PartRequest], Selection]


class RefusedHole(NamedTuple):
    """A hole that cannot be planned, and why; the others are."""

    name: str
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class PartTool:
    """A tool of the plan: its name, kind and what identifies it, the holes it serves, how many those are in all.

    ``details`` has no lengths: the holes that a tool serves may be in two units; ``diameter_mm`` is that of a drill.
    """

    name: str
    kind: str
    details: Mapping[str, object]
    diameter_mm: float | None
    holes: tuple[str, ...]
    count: int
    in_stock: bool | None
    availability: Literal["standard", "special"]


class Change(NamedTuple):
    """A hole that is made with other tools than by itself, and what that costs it.

    Costs are those of the plan less those of the hole by itself: percent of thread, chance of acceptance, torque in
    N m; None where one of the two is not known.
    """

    hole: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    why: str
    percent_thread: float | None
    acceptance: float | None
    torque_n_m: float | None


@dataclass(frozen=True, slots=True)
class Loading:
    """One tool at work: what it does in which holes; ``time_s`` of all of them, None where it is not known.

    ``tool_change_s`` comes before it, ``positioning_s`` is the way from hole to hole; both for one part.
    """

    number: int
    stage: int
    tool: str
    operation: str
    holes: tuple[str, ...]
    count: int
    speeds_rpm: tuple[float, ...]
    feeds_mm_rev: tuple[float, ...]
    time_s: float | None
    tool_change_s: float
    positioning_s: float


class AwayFromSpindle(NamedTuple):
    """What is done to the part after a set-up, or beside it: inspection, finish, mask, insert; ``text`` says it."""

    after_stage: int
    operation: str
    text: str
    holes: tuple[str, ...]


class Time(NamedTuple):
    """Seconds for one part and for the lot; ``untimed`` counts the steps whose time is not held."""

    cutting_s: float
    tool_changes_s: float
    positioning_s: float
    total_s: float
    lot_s: float
    loadings: int
    untimed: int


class Kit(NamedTuple):
    """What the setter lays out."""

    tools: tuple[str, ...]
    gauges: tuple[str, ...]
    fluids: tuple[str, ...]
    other: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlannedHole:
    """A hole with the specification that the plan gives it, and its tools in order."""

    hole: PartHole
    specification: Specification
    used: tuple[UsedTool, ...]

    def named_specification(self) -> Specification:
        """The specification under the hole's own name: equal holes share one."""
        return self.specification._replace(request=replace(self.specification.request, id=self.hole.name))


@dataclass(frozen=True, slots=True)
class PartDecision:
    """What a person must decide on the plan: the hole, and the text; ``code`` of the plan's own or of the hole's."""

    code: str
    hole: str
    text: str


class Saved(NamedTuple):
    """Tools saved, of those that the holes take each by itself, down to those of the plan."""

    tools: int
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class PartPlan:
    """The plan. ``by_themselves`` is how many tools the holes take when each is planned alone.

    ``optimal``: no choice is better by what was asked for; ``bound`` tools are needed in any case, as proved;
    ``stages`` tell it stage by stage.
    """

    holes: tuple[PlannedHole, ...]
    refused: tuple[RefusedHole, ...]
    tools: tuple[PartTool, ...]
    by_themselves: int
    bound: int
    optimal: bool
    stages: tuple[Stage, ...]
    changes: tuple[Change, ...]
    steps: tuple[Loading, ...]
    order_optimal: bool
    away: tuple[AwayFromSpindle, ...]
    time: Time
    kit: Kit
    review: tuple[PartDecision, ...]
    verdict: Verdict
    notes: Notes

    @property
    def proved(self) -> tuple[str, ...]:
        """What is proved to be the least, in the order in which it counts."""
        return tuple(stage.what for stage in self.stages if stage.proved)

    @property
    def loss(self) -> Stage | None:
        """What was lost for the sake of tools; None where nothing was asked to be lost least."""
        return next((stage for stage in self.stages if stage.what == "loss"), None)

    @property
    def saved(self) -> Saved:
        """Tools saved."""
        return Saved(self.by_themselves - len(self.tools), self.by_themselves, len(self.tools))
