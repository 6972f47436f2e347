"""What an audit takes and gives, and the codes of its findings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.model import Length, Notes, Range, Thread, decision
from borewright.core.plan.specification import Specification
from borewright.core.quantity_text import length, span
from borewright.core.requests import HoleSpecRequest
from borewright.core.rounding import half_even

Severity = Literal["error", "warning", "info"]
Verdict = Literal["accept", "review", "reject"]

#: Every code of a finding with what it means. Its severity depends on how far the plan is off.
CODES: Mapping[str, str] = {
    **decision.CODES,
    "cautioned": "What the specification warns of holds for the plan as well",
    "not_to_be_tapped": "The hole is not one to drill and tap as it stands",
    "drill_unknown": "The drill cannot be read or is no drill size",
    "drill_too_large": "The hole leaves too little thread for the class",
    "drill_too_small": "The hole is below the smallest minor diameter to be made",
    "drill_for_cutting_tap": "The drill is that of a cutting tap, the thread is formed",
    "drill_for_forming_tap": "The drill is that of a forming tap, the thread is cut",
    "percent_above_practice": "More percent of thread than shops cut in the material at that depth",
    "percent_outside_request": "The percent of thread is outside the bounds of the request",
    "ream_missing": "No drill holds the limits and the plan does not ream",
    "tap_unreadable": "The tap cannot be read",
    "tap_system_differs": "The tap cuts another thread system",
    "tap_size_differs": "The tap cuts another size",
    "tap_pitch_differs": "The tap cuts another pitch",
    "tap_hand_differs": "The tap cuts the other hand",
    "tap_starts_differ": "The tap cuts another number of starts",
    "tap_limit_too_high": "The tap makes a pitch diameter above the limit to be made",
    "tap_limit_too_low": "The tap makes a pitch diameter below the limit to be made",
    "tap_not_overtapped": "A standard tap in a thread that is tapped oversize after hot-dip zinc",
    "tap_overtapped": "An oversize tap in a thread that carries no such coat",
    "tap_limit_not_stated": "The tap's limit is not stated though the finish needs a certain one",
    "tap_method_differs": "A forming tap for a cut thread, or the reverse",
    "tap_style_unsuited": "The style of the tap does not suit the hole",
    "tap_chamfer_no_room": "The tap's chamfer has no room below the full thread",
    "hole_too_shallow": "The drilled depth does not hold the full thread and a chamfer",
    "drill_depth_over_limit": "The drilled depth is above the limit of the request",
    "drill_breaks_through": "The drill's tip passes the wall of a blind hole",
    "wall_thin": "Little wall is left under the drill's tip",
    "drill_speed_too_high": "The drill turns faster than the tables hold for the material",
    "tap_speed_too_high": "The tap turns faster than the tables hold for the material",
    "speed_above_machine": "The spindle speed is above what the machine turns",
    "galvanized_after_tapping": "Hot-dip zinc after tapping fills the thread",
    "finished_before_tapping": "The thread is cut through a coat that was to be allowed for",
    "mask_missing": "The thread is to be masked and the plan does not say so",
    "operations_out_of_order": "Operations in an order that cannot make the hole",
    "tap_words_unread": "Words on the tap's shank were not understood",
    "tap_grade_low": "The tap is of a softer grade than the part asks for",
    "finish_not_named": "The plan puts a finish on the part that the request does not name",
}


@dataclass(frozen=True, slots=True)
class PlannedTap:
    """A tap of the plan: its marking, and what is known beside it; ``limit`` alone means a tap of the right thread."""

    marking: str | None = None
    limit: str | None = None
    style: str | None = None
    chamfer: str | None = None


@dataclass(frozen=True, slots=True)
class AsPlanned:
    """What the routing says. ``second_tap`` finishes what ``tap`` leaves; ``spindle_speed_rpm`` is the drill's."""

    drill: str
    tap: PlannedTap
    second_tap: PlannedTap | None = None
    drill_depth: Length | None = None
    spindle_speed_rpm: float | None = None
    tap_spindle_speed_rpm: float | None = None
    operations_order: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class AuditRequest:
    """A hole and the plan to be checked."""

    hole_spec: HoleSpecRequest
    as_planned: AsPlanned


@dataclass(frozen=True, slots=True)
class Finding:
    """One remark: ``field`` is the field of the plan, ``planned`` and ``expected`` are texts with their unit."""

    code: str
    severity: Severity
    field: str
    text: str
    planned: str
    expected: str

    def __post_init__(self) -> None:
        """Refuse a code that is not documented."""
        if self.code not in CODES:
            raise LookupError(f"undocumented finding {self.code!r}")


@dataclass(frozen=True, slots=True, eq=False)
class Audit:
    """The verdict on a plan: any error rejects it, any warning asks for a review."""

    verdict: Verdict
    findings: tuple[Finding, ...]
    specification: Specification
    notes: Notes


def say(value: Decimal, thread: Thread) -> str:
    """``value``, a length in the unit of ``thread``, in words to the digits that a shop measures."""
    return length(value, thread.unit)


def to_digits_of(size: Decimal, *, limit: Decimal) -> Decimal:
    """``size`` to the digits in which ``limit`` is printed, both in one unit: 37/64 in is 0.578 against a limit of
    0.578.
    """
    places = limit.as_tuple().exponent
    return half_even(size, -places) if isinstance(places, int) and places < 0 else size


def window(limits: Range, thread: Thread) -> str:
    """Two ``limits`` in the unit of ``thread``, in words; an open end is said."""
    if limits.min is None:
        return "no limit" if limits.max is None else f"at most {say(limits.max, thread)}"
    if limits.max is None:
        return f"at least {say(limits.min, thread)}"
    return span(limits, thread.unit)
