"""What the steps of choosing a tap and of reading one pass to each other. Lengths are in the thread's own unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, NamedTuple

from borewright.core.chance.distributions import Spread
from borewright.core.chance.made_sizes import Aim, Tapping, cut_size
from borewright.core.citation import Cite
from borewright.core.model import (
    Diameters,
    Hand,
    Material,
    Notes,
    Overtap,
    Range,
    Status,
    TapChamfer,
    TapFit,
    TapLimit,
    Thread,
)
from borewright.core.requests import TapBuild, TapLimits
from borewright.core.shop_figures.figures import MeasuredCut


class ChamferRoom(NamedTuple):
    """What a hole leaves for the chamfer below the full thread, as far as any chamfer could use it.

    ``length`` in the thread's unit, None = the longest chamfer there is fits: more than that no rule may look at.
    """

    length: Decimal | None

    def fits(self, chamfer_length: Decimal) -> bool:
        """Whether a chamfer of ``chamfer_length`` (thread's unit) has room."""
        return self.length is None or chamfer_length <= self.length


class TapRequest(NamedTuple):
    """What is known of a hole when its tap is chosen.

    ``limits`` are the diameters to be made (before a finish, oversize for hot-dip zinc), None = the thread's own;
    ``chamfer_room`` is what the hole leaves for the chamfer, None = as much as needed; ``coat`` what a coat will do to
    the diameters afterwards, None = bare; ``tapping`` how the tap is driven; ``tap_limits`` the system of limits asked
    for, None = that of the thread; ``prescribed`` is the limit to take of those that fit, None = the best; ``build``
    how the tap is built, of builds that serve, None = the usual one; ``measured`` what the shop's own taps cut
    oversize, None = the assumption.
    """

    hole_kind: Literal["blind", "through"] | None = None
    material: Material | None = None
    method: Literal["cut", "form"] = "cut"
    limits: Diameters | None = None
    overtap: Overtap | None = None
    stock: tuple[str, ...] | None = None
    chamfer_room: ChamferRoom | None = None
    coat: Diameters | None = None
    tapping: Tapping = "rigid"
    tap_limits: TapLimits | None = None
    prescribed: str | None = None
    build: TapBuild | None = None
    measured: MeasuredCut | None = None

    def of_the_limit(self) -> LimitRequest:
        """What of it the choice of the limit looks at."""
        room = self.chamfer_room if self.stock is not None and self.hole_kind == "blind" else None
        return LimitRequest(
            self.method,
            self.limits,
            self.overtap,
            self.stock,
            room,
            self.coat,
            self.tapping,
            self.tap_limits,
            self.prescribed,
            self.measured,
        )


class LimitRequest(NamedTuple):
    """What is known of a hole when the limit of its tap is chosen: its depth and material count in the build only.

    The fields are those of :class:`TapRequest`; ``chamfer_room`` is what a tap of the crib has in a blind hole.
    """

    method: Literal["cut", "form"]
    limits: Diameters | None
    overtap: Overtap | None
    stock: tuple[str, ...] | None
    chamfer_room: ChamferRoom | None
    coat: Diameters | None
    tapping: Tapping
    tap_limits: TapLimits | None
    prescribed: str | None
    measured: MeasuredCut | None


class Candidate(NamedTuple):
    """A tap limit of a thread with the arithmetic of its two ends, ``tap_max`` and ``tap_min``."""

    limit: TapLimit
    low: Decimal
    high: Decimal
    origin: Cite
    high_formula: str
    low_formula: str
    inputs: Mapping[str, object]
    note: str | None = None


class Weighed(NamedTuple):
    """A candidate in its window: ``margin`` is the smaller of the two margins, negative when it does not fit.

    ``fit`` None: the window is open, so that the limit is taken from its table without a margin. ``chance`` that the
    finished pitch diameter is accepted, None where it was not asked for or cannot be told.
    """

    candidate: Candidate
    fit: TapFit | None
    margin: Decimal
    chance: float | None = None

    @property
    def accepted(self) -> float:
        """Its chance as far as it can be told, else 0."""
        return self.chance or 0.0


class Judge(NamedTuple):
    """What a cut pitch diameter is judged by: finished limits with the coat to come, class tolerance, drive."""

    aim: Aim
    tolerance: Decimal
    tapping: Tapping
    measured: MeasuredCut | None = None

    def size(self, candidate: Candidate, oversize: Decimal) -> Spread:
        """The pitch diameters that taps of the limit ``candidate`` cut with a mean ``oversize``, in
        the thread's unit.
        """
        return cut_size(
            low=candidate.low,
            high=candidate.high,
            oversize=oversize,
            tolerance=self.tolerance,
            tapping=self.tapping,
            measured=self.measured,
        )


@dataclass(frozen=True, slots=True)
class Hold:
    """An internal class that a tap can make, with the smaller of its two margins and the arithmetic."""

    thread_class: str
    margin: Decimal
    fit: TapFit


@dataclass(frozen=True, slots=True, eq=False)
class TapMarking:
    """What a tap's shank says.

    ``thread`` carries the class that was assumed or etched; ``limit`` None = not etched or not held; ``candidate``
    is the limit with its arithmetic; ``substrate`` and ``surface`` None = not etched.
    """

    marking: str
    thread: Thread
    substrate: str | None
    ground: bool
    limit: TapLimit | None
    hand: Hand
    surface: str | None
    chamfer: TapChamfer | None
    style: str | None
    holds: tuple[Hold, ...]
    unread: tuple[str, ...]
    candidate: Candidate | None = None
    notes: Notes = field(default_factory=Notes)


@dataclass(frozen=True, slots=True)
class TapLimitEntry:
    """One row of the catalogue of tap limits; ``over_basic`` is relative to the basic pitch diameter in ``unit``.

    ``per_t`` replaces it for ISO classes: multiples of the tolerance unit t of ISO 2857.
    """

    system: str
    label: str
    applies_to: str
    unit: str
    over_basic: Range | None
    per_t: Range | None
    status: Status
    document: str
    edition: str
    locator: str
