"""What the steps of a specification pass to each other: frozen, slotted dataclasses.

Lengths are :class:`decimal.Decimal` in the unit of the thread's own standard (``Thread.unit``), already
rounded as that standard prints them; a name without a unit suffix means exactly that, because one model
serves inch and millimetre standards alike. Each result carries a :class:`Notes` with its assumptions,
cautions, sources and derivation.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, NamedTuple

from .decision import Decision

Unit = Literal["in", "mm"]
Status = Literal["published", "computed", "common_practice", "from_memory"]
Hand = Literal["right", "left"]

MM_PER_INCH = Decimal("25.4")


@dataclass(frozen=True, slots=True)
class Length:
    """A length as it was given: ``unit`` None means the thread's own unit."""

    value: Decimal
    unit: Unit | None = None

    def to(self, unit: Unit) -> Decimal:
        """The length in ``unit``, exact on the way from inch to millimetre."""
        if self.unit is None or self.unit == unit:
            return self.value
        return self.value * MM_PER_INCH if unit == "mm" else self.value / MM_PER_INCH


@dataclass(frozen=True, slots=True)
class LengthRange:
    """A pair of lengths as given; either end may be open."""

    min: Length | None
    max: Length | None


@dataclass(frozen=True, slots=True)
class Range:
    """Two limits in the thread's own unit; None = the standard sets no limit on that side."""

    min: Decimal | None
    max: Decimal | None

    @property
    def width(self) -> Decimal:
        """Tolerance: ``max - min``. Both ends must be set."""
        if self.min is None or self.max is None:
            raise ValueError("an open range has no width")
        return self.max - self.min


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from. ``field`` is the dotted name in the reply that it speaks for."""

    field: str
    document: str
    edition: str
    locator: str
    status: Status


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that can cost money or hurt people, with a stable code."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a derivation, enough to redo the figure on paper.

    ``formula`` is arithmetic over the names in ``inputs`` (operators ``+ - * / **``, functions ``sqrt``,
    ``cbrt``, ``min``, ``max``, ``sin``, ``cos``, ``tan``, ``rad``, ``exp``, ``ln``, ``pi``,
    ``half_even(x, places)``, ``half_up(x, places)``, ``up(x, places)``, ``down(x, places)``, ``cdf(z)`` and
    ``pdf(z)`` of the standard normal distribution), or
    ``"table"`` when ``value`` was read from a table.
    """

    quantity: str
    formula: str
    inputs: Mapping[str, object]
    value: object
    unit: str
    source: str


@dataclass(frozen=True, slots=True)
class Notes:
    """What accompanies every result. ``decisions`` are left to a person: see :mod:`~borewright.core.decision`."""

    assumptions: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    sources: tuple[Source, ...] = ()
    steps: tuple[Step, ...] = ()
    decisions: tuple[Decision, ...] = ()


# --- threads -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class HoleText:
    """What a callout says of the hole besides its thread; ``least``: the depth is a minimum. ``depth`` as written."""

    words: str
    kind: Literal["blind", "through"] | None = None
    depth: Length | None = None
    least: bool = False


@dataclass(frozen=True, slots=True)
class ThreadCallout:
    """What a callout says, in the system's own unit, before any limit is computed.

    ``size`` is the trade's label (``1/2``, ``#10``, ``M8`` -> ``8``); ``thread_class`` is None where none was
    written; ``extra`` holds what only one system has (insert length, stated limits ...).
    """

    system: str
    size: str
    nominal_diameter: Decimal
    unit: Unit
    pitch: Decimal | None = None
    threads_per_inch: Decimal | None = None
    series: str | None = None
    thread_class: str | None = None
    hand: Hand = "right"
    starts: int = 1
    engagement_group: str | None = None
    engagement: Length | None = None
    extra: tuple[tuple[str, object], ...] = ()
    assumptions: tuple[str, ...] = ()
    hole_text: HoleText | None = None


@dataclass(frozen=True, slots=True)
class Diameters:
    """Limits of the three diameters of one member of the pair."""

    major_diameter: Range
    pitch_diameter: Range
    minor_diameter: Range


@dataclass(frozen=True, slots=True)
class BasicDiameters:
    """Basic (design) diameters, as the standard prints them."""

    major_diameter: Decimal
    pitch_diameter: Decimal
    minor_diameter: Decimal


@dataclass(frozen=True, slots=True)
class Standard:
    """The document that defines a thread."""

    document: str
    edition: str


@dataclass(frozen=True, slots=True, eq=False)
class Thread:
    """A thread with its limits of size. Compared and hashed by identity: ``threads.resolve`` hands out one a callout.

    ``thread_angle`` is the included angle in degrees; ``taper`` is on the diameter (1/16 -> 0.0625);
    ``extra`` maps the name of a system-specific object (``pipe``, ``insert``, ``multi_start`` ...) to its
    fields: a Decimal or Range there is a length in ``unit``, everything else is shown as it is.
    """

    designation: str
    system: str
    series: str | None
    size: str
    thread_class: str | None
    hand: Hand
    starts: int
    unit: Unit
    nominal_diameter: Decimal
    pitch: Decimal
    threads_per_inch: Decimal | None
    lead: Decimal
    thread_angle: Decimal
    taper: Decimal | None
    standard: Standard
    basic: BasicDiameters
    internal: Diameters
    external: Diameters | None
    mating_class: str | None
    tensile_stress_area: Decimal | None
    extra: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    notes: Notes = Notes()


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """One standard size: what ``GET /v1/threads/catalog`` lists."""

    designation: str
    system: str
    series: str | None
    size: str
    unit: Unit
    nominal_diameter: Decimal
    pitch: Decimal
    threads_per_inch: Decimal | None
    classes: tuple[str, ...]


# --- material ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class MaterialInput:
    """A part material as the caller named it."""

    name: str | None = None
    group: str | None = None
    hardness: str | None = None
    tensile_strength_mpa: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Material:
    """A part material as far as it is known. Strengths in MPa, hardness HB (3000 kg) unless said.

    ``iso_group`` is the ISO 513 letter (P M K N S H); ``value_basis`` tells minimum from typical.
    """

    name: str
    family: str | None
    iso_group: str | None
    chip_type: Literal["long", "short"] | None
    hardness_hb: float | None
    hardness_hrc: float | None
    tensile_strength_mpa: float | None
    yield_strength_mpa: float | None
    shear_strength_mpa: float | None
    value_basis: str | None
    material_id: str | None = None
    notes: Notes = Notes()


# --- drilling ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Drill:
    """A standard drill: ``diameter_in`` and ``diameter_mm`` are both held, one of them exact."""

    label: str
    series: str
    diameter_in: Decimal
    diameter_mm: Decimal
    status: Status

    def diameter(self, unit: Unit) -> Decimal:
        """Diameter in ``unit``."""
        return self.diameter_in if unit == "in" else self.diameter_mm


@dataclass(frozen=True, slots=True)
class PercentTarget:
    """Percent of thread asked for, 0.75 H basis; any of the three may be open."""

    target: Decimal | None = None
    min: Decimal | None = None
    max: Decimal | None = None


@dataclass(frozen=True, slots=True)
class DrillCandidate:
    """A drill weighed against the limits of the hole. Lengths in the thread's unit, percents on the choice's basis.

    ``within_minor_diameter_limits`` speaks of the drill's own diameter (of the reamed hole for ``drill_and_ream``),
    None where no limit can judge it (forming, taper). ``margin_below_max`` counts from the mean hole where it is known,
    ``acceptance`` is the chance that the finished minor diameter holds its limits. ``special``: the drill is not sold,
    ``order_text`` is what to order it by.
    """

    drill: Drill
    diameter: Decimal
    percent_thread: Decimal
    expected_hole_diameter: Decimal | None
    expected_percent_thread: Decimal | None
    within_minor_diameter_limits: bool | None
    margin_below_max: Decimal | None
    margin_above_min: Decimal | None
    operation: Literal["drill", "drill_and_ream"]
    in_stock: bool | None
    reasons: tuple[str, ...]
    acceptance: float | None = None
    special: bool = False
    order_text: str | None = None


@dataclass(frozen=True, slots=True)
class RejectedDrill:
    """A drill that was looked at and not taken."""

    label: str
    diameter: Decimal
    reason: str


class DrillChance(NamedTuple):
    """A drill and the chance that the minor diameter it leaves is accepted, None where that is not known."""

    label: str
    acceptance: float | None


@dataclass(frozen=True, slots=True, eq=False)
class DrillChoice:
    """The drill for a thread. ``rule`` says what chose it: a published chart, the stated rule or the chance.

    ``minor_diameter`` are the limits the hole was judged by (before finish where a finish applies), ``hole_limits`` the
    recommended band by engagement; ``most_accepted`` is the drill whose holes most often hold the limits.
    """

    method: Literal["cut", "form"]
    objective: str
    rule: Literal["published_chart", "rule", "greatest_acceptance"]
    percent_basis: str
    target_percent: Decimal | None
    target_hole_diameter: Decimal
    minor_diameter: Range
    hole_limits: Range | None
    recommended: DrillCandidate
    alternatives: tuple[DrillCandidate, ...]
    rejected: tuple[RejectedDrill, ...]
    ream_diameter: Decimal | None = None
    chart_drill: DrillChance | None = None
    most_accepted: DrillChance | None = None
    notes: Notes = Notes()


# --- finishing ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FinishInput:
    """A finish as the caller gave it: text, or fields. Lengths carry their own unit.

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

    ``axial_movement`` of the gauge plane of a taper thread is positive where the gauge stands farther out.
    ``stress_relief`` and ``bake`` are what hard steel needs before and after plating, None where nothing is asked.
    """

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
    notes: Notes = Notes()
    stress_relief: str | None = None
    bake: str | None = None


# --- tapping -----------------------------------------------------------------------------------------


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
    """The tap for a hole; ``second_tap`` finishes what the first cannot reach."""

    recommended: Tap
    second_tap: Tap | None
    alternatives: tuple[Tap, ...]
    rejected: tuple[RejectedTap, ...]
    notes: Notes = Notes()


# --- the hole ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Hole:
    """The hole as asked for; ``point_angle_deg`` is the drill's included point angle.

    ``run_out`` is the rule for the depth below the full thread; ``access_depth`` and ``clearance_diameter`` describe a
    bore or wall above the entry face that the tools must pass.
    """

    kind: Literal["blind", "through"]
    full_thread_depth: Length | None = None
    thickness: Length | None = None
    drill_depth_limit: Length | None = None
    point_angle_deg: Decimal = Decimal(118)
    access_depth: Length | None = None
    clearance_diameter: Length | None = None
    run_out: Literal["chamfer", "din_76_1", "bs_1936"] = "chamfer"


@dataclass(frozen=True, slots=True, eq=False)
class Depths:
    """Depths from the entry face, in the thread's unit."""

    drill_depth: Decimal
    drill_tip_depth: Decimal
    full_thread_depth: Decimal
    tap_travel: Decimal
    chamfer_length: Decimal
    countersink_diameter: Decimal
    countersink_angle_deg: Decimal
    breakthrough: Decimal | None
    wall_left: Decimal | None
    notes: Notes = Notes()
