"""What a rework answers with: ways with their figures, and what is none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.model import Caution, Notes, Thread
from borewright.core.plan.operation import Operation
from borewright.core.plan.specification import Specification

from .found import ReworkRequest, Stage

Disposition = Literal["use_as_is", "rework", "repair", "scrap"]


@dataclass(frozen=True, slots=True)
class Changed:
    """What the hole of a way asks for otherwise than the hole as drawn; None = the same.

    ``drill`` and ``tap`` are the only ones at hand; ``method`` cut: what stood in the hole is cut away, never formed
    over; ``bare``: the finish is left out; ``full_thread_depth`` in the unit of the drawn thread.
    """

    thread: str | None = None
    drill: str | None = None
    tap: str | None = None
    method: Literal["cut", "form"] | None = None
    bare: bool = False
    full_thread_depth: Decimal | None = None

    @property
    def drilled_otherwise(self) -> bool:
        """Whether the drill that a drawing states for its own thread is none for this hole."""
        return self.thread is not None or self.drill is not None or self.method == "form"


@dataclass(frozen=True, slots=True)
class Replanned:
    """The hole of a way, specified, with what its request asks for otherwise."""

    specification: Specification
    changed: Changed


@dataclass(frozen=True, slots=True, eq=False)
class ReworkWay:
    """One way to go on. ``name`` is stable, ``text`` says it in words; ``proof`` has its figures by name.

    A Decimal in ``proof`` is a length in the drawn thread's unit, a float a ratio or percent. ``plan`` is the hole of
    this way where it is one of its own; ``conforms``: the hole meets the drawing afterwards.
    """

    name: str
    disposition: Disposition
    text: str
    conforms: bool
    needs_authority: bool
    authority: str
    proof: Mapping[str, object]
    plan: Replanned | None
    thread: str | None
    operations: tuple[Operation, ...]
    cautions: tuple[Caution, ...]
    notes: Notes
    regrade: bool


@dataclass(frozen=True, slots=True)
class RuledOut:
    """A way that is none here, and why."""

    name: str
    why: str


@dataclass(frozen=True, slots=True, eq=False)
class Rework:
    """The answer: the ways, best first, and those that are none. ``thread`` is the one of the drawing."""

    request: ReworkRequest
    thread: Thread
    stage: Stage
    ways: tuple[ReworkWay, ...]
    ruled_out: tuple[RuledOut, ...]
    notes: Notes
