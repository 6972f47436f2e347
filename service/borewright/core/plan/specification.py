"""What the orchestrator answers with: one record a kind of request."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain
from typing import NamedTuple, Protocol

from borewright.core.derivation import one_after_the_other
from borewright.core.hole.reach import Reach
from borewright.core.model import Allowance, Caution, Depths, DrillChoice, Material, Notes, TapChoice, Thread, decision
from borewright.core.model.decision import Decision, Verdict
from borewright.core.requests import HoleSpecRequest
from borewright.core.tapping import LimitChoice
from borewright.core.way_of_making import Way

from .headline import Headline
from .limits_by_purpose import PurposeLimits
from .operation import Operation
from .process import Process


class Noted(Protocol):
    """A part with notes of its own."""

    @property
    def notes(self) -> Notes:
        """What accompanies it."""


@dataclass(frozen=True, slots=True)
class DrillResult:
    """Answer to a drill recommendation."""

    thread: Thread
    allowance: Allowance | None
    drill: DrillChoice
    notes: Notes


@dataclass(frozen=True, slots=True)
class AllowanceResult:
    """Answer to an allowance: the limits before and after the finish, and the tap that makes the former."""

    thread: Thread
    allowance: Allowance
    tap: LimitChoice
    notes: Notes


@dataclass(frozen=True, slots=True)
class TapResult:
    """Answer to a tap recommendation."""

    thread: Thread
    allowance: Allowance | None
    tap: TapChoice
    notes: Notes


class Specification(NamedTuple):
    """The complete tapped hole.

    ``drill`` None: nothing can be planned; ``tap`` None: the thread is milled, single-pointed or not made at all.
    """

    request: HoleSpecRequest
    thread: Thread
    allowance: Allowance | None
    material: Material | None
    way: Way
    drill: DrillChoice | None
    tap: TapChoice | None
    depths: Depths
    reach: Reach | None
    process: Process
    operations: tuple[Operation, ...]
    limits: PurposeLimits
    headline: Headline
    review: tuple[Decision, ...]
    notes: Notes

    def noted(self) -> tuple[Noted | None, ...]:
        """The parts with notes of their own."""
        chosen = (self.thread, self.allowance, self.drill, self.tap, self.depths, self.reach)
        return *chosen, *self.process.noted()

    def cautions(self) -> tuple[Caution, ...]:
        """What the shop must know, each once."""
        noted = (self.notes, *(part.notes for part in self.noted() if part is not None))
        return tuple(dict.fromkeys(caution for notes in noted for caution in notes.cautions))

    @property
    def verdict(self) -> Verdict:
        """Whether the hole can go to the shop as it stands."""
        return decision.verdict(self.review)


def joined(*several: Notes) -> Notes:
    """Notes of ``several`` parts one after the other.

    Source: definition.
    """
    return Notes(
        assumptions=tuple(chain.from_iterable(notes.assumptions for notes in several)),
        cautions=tuple(chain.from_iterable(notes.cautions for notes in several)),
        sources=tuple(chain.from_iterable(notes.sources for notes in several)),
        steps=one_after_the_other(*(notes.steps for notes in several)),
        decisions=tuple(chain.from_iterable(notes.decisions for notes in several)),
    )


def review(own: Notes, *parts: Noted | None) -> tuple[Decision, ...]:
    """What a specification, by its ``own`` decisions, and each of its ``parts`` leave to a person, most important
    first.

    Source: order of :mod:`~borewright.core.model.decision`.
    """
    noted = (own, *(part.notes for part in parts if part is not None))
    return decision.ordered(one for notes in noted for one in notes.decisions)
