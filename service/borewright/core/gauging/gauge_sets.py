"""Gauges as records. Sizes in the thread's unit; a range is the zone that the gauge maker may use."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from borewright.core.model import Notes, Range

System = Literal["asme", "iso"]


@dataclass(frozen=True, slots=True)
class ThreadMember:
    """One end of a thread plug. ``wear_limit`` is the pitch diameter below which it is scrapped, None = not held."""

    pitch_diameter: Range
    major_diameter: Range | None
    wear_limit: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ThreadPlug:
    """GO and NOT GO thread plugs of one system. ``tolerance`` names the rule of the makers' zones, None = not held.

    ``former_go`` is the GO pitch-diameter zone of the former class Y, for gauges still in the drawer.
    """

    system: System | None
    tolerance: str | None
    go: ThreadMember
    not_go: ThreadMember
    former_go: Range | None = None


@dataclass(frozen=True, slots=True)
class PlainPlug:
    """GO and NOT GO plain plugs for the minor diameter; ``gauge_class`` None = no makers' tolerance held."""

    gauge_class: str | None
    go: Range
    not_go: Range


@dataclass(frozen=True, slots=True)
class GaugeSet:
    """Gauges for one state of the part; a member is None where the limits it needs are open."""

    thread_plug: ThreadPlug | None
    plain_plug: PlainPlug | None


@dataclass(frozen=True, slots=True, eq=False)
class Gauging:
    """Gauges of the finished thread, of the thread before its finish (None = the same), and the rule in words."""

    finished: GaugeSet
    before_finish: GaugeSet | None
    acceptance: tuple[str, ...]
    notes: Notes
