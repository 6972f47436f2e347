"""A callout as read, and a thread with its limits of size."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from .notes import NO_NOTES, Notes
from .quantities import Length, Range, Unit

Hand = Literal["right", "left"]


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

    ``callout`` is what it was resolved from; ``thread_angle`` is the included angle in degrees; ``taper`` is on the
    diameter (1/16 -> 0.0625); ``extra`` maps the name of a system-specific object (``pipe``, ``insert``,
    ``multi_start`` ...) to its fields: a Decimal or Range there is a length in ``unit``, everything else is shown as it
    is.
    """

    callout: ThreadCallout
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
    notes: Notes = NO_NOTES


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
