"""Taps and the choice of one."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from .notes import NO_NOTES, Notes
from .quantities import Range
from .status import Status


@dataclass(frozen=True, slots=True)
class TapChamfer:
    """Chamfer name and its length in threads."""

    name: Literal["taper", "plug", "semi_bottoming", "bottoming", "taper_pipe"]
    threads_min: Decimal
    threads_max: Decimal


@dataclass(frozen=True, slots=True)
class TapLimit:
    """Pitch-diameter limit of a tap: label (``H3``, ``D5``, ``ISO 2`` ...) and limits in the thread's unit."""

    label: str
    pitch_diameter: Range
    status: Status


@dataclass(frozen=True, slots=True)
class TapFit:
    """The arithmetic that chose a limit: the tap's band plus cut oversize inside the limits to be made."""

    limits: Range
    cut_oversize: Decimal
    largest_cut: Decimal
    margin_above_min: Decimal
    margin_below_max: Decimal


@dataclass(frozen=True, slots=True)
class Tap:
    """A tap to buy or take from the crib; ``acceptance`` is the chance that its pitch diameter is accepted.

    ``availability`` special: no maker lists it, ``order_text`` is what to order it by. ``equivalents`` are limits of
    the other systems that hold the same limits of the thread.
    """

    style: str
    chamfer: TapChamfer
    limit: TapLimit | None
    fit: TapFit | None
    substrate: str
    surface: str
    marking: str
    reasons: tuple[str, ...]
    in_stock: bool | None = None
    acceptance: float | None = None
    availability: Literal["standard", "special"] = "standard"
    order_text: str | None = None
    equivalents: tuple[TapLimit, ...] = ()


@dataclass(frozen=True, slots=True)
class RejectedTap:
    """A tap limit or style that was looked at and not taken."""

    label: str
    reason: str


@dataclass(frozen=True, slots=True, eq=False)
class TapChoice:
    """The tap for a hole with the thread of the designation ``thread``.

    ``second_tap`` finishes what the first cannot reach.
    """

    thread: str
    recommended: Tap
    second_tap: Tap | None
    alternatives: tuple[Tap, ...]
    rejected: tuple[RejectedTap, ...]
    notes: Notes = NO_NOTES
