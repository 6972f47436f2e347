"""Finishes and what they do to a thread."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from .notes import NO_NOTES, Notes
from .quantities import LengthRange, Range, Unit
from .threads import Diameters

DimensionsApply = Literal["before_finish", "after_finish"]


@dataclass(frozen=True, slots=True)
class FinishInput:
    """A finish as the caller gave it: text, or fields. Lengths carry their own unit.

    ``dimensions_apply``: whether the drawing's limits hold before the finish is put on, or on the finished part.
    ``text_unit`` is the unit of a thickness that the text writes without one, None for that of the thread;
    ``at_least``: a thickness without maximum is a minimum, not a nominal.
    """

    text: str | None = None
    specification: str | None = None
    finish_class: str | None = None
    thickness: LengthRange | None = None
    growth_fraction: Decimal | None = None
    heat_treat_growth: LengthRange | None = None
    masked: bool = False
    reading: Literal["asme", "iso"] | None = None
    text_unit: Unit | None = None
    at_least: bool = False
    dimensions_apply: DimensionsApply = "after_finish"


@dataclass(frozen=True, slots=True)
class Finish:
    """A finish as read: thickness and build-up a surface, in the thread's unit.

    ``applied`` says when the thread is cut: ``before_finish`` (plate after tapping), ``after_finish``
    (hot-dip zinc: tap afterwards, oversize) or ``masked`` (the coat does not reach the thread).
    """

    specification: str | None
    finish_class: str | None
    process: str | None
    thickness: Range
    growth_fraction: Range
    build_up: Range
    applied: Literal["before_finish", "after_finish", "masked"]


@dataclass(frozen=True, slots=True)
class Overtap:
    """Oversize system for hot-dip zinc: ``amount`` is added on diameter, limits are what the tap must make."""

    standard: str
    system: str
    amount: Decimal
    limits: Diameters


@dataclass(frozen=True, slots=True, eq=False)
class Allowance:
    """What a finish does to the limits of an internal thread. ``change`` is signed (a coat shrinks: negative).

    ``thread`` is the designation of the thread.
    ``axial_movement`` of the gauge plane of a taper thread is positive where the gauge stands farther out.
    Where ``dimensions_apply`` is ``before_finish`` the class's limits hold before it, and ``finished`` comes out.
    ``measured_change`` is how the coats of the shop itself change the diameters, plus or minus two standard deviations.
    ``stress_relief`` and ``bake`` are what hard steel needs before and after plating, None where nothing is asked.
    """

    thread: str
    finish: Finish
    change: Diameters
    finished: Diameters
    before_finish: Diameters
    reading: Literal["asme", "iso"]
    feasible: bool
    remedies: tuple[str, ...]
    remaining_tolerance_pitch: Decimal | None
    remaining_tolerance_minor: Decimal | None
    overtap: Overtap | None
    axial_movement: Range | None = None
    notes: Notes = NO_NOTES
    stress_relief: str | None = None
    bake: str | None = None
    dimensions_apply: DimensionsApply = "after_finish"
    measured_change: Diameters | None = None
