"""Lengths of standard taps and drills as far as they are held: all from memory, to be checked against the tool."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from borewright.tables import load

from .model import Drill, Source, Thread, Unit

_PITCHED_COARSE = "coarse"


@dataclass(frozen=True, slots=True)
class TapLength:
    """One standard length of tap, in the thread's unit; thread and shank None where not held."""

    kind: str
    overall: Decimal
    thread: Decimal | None
    shank: Decimal | None
    document: str


@dataclass(frozen=True, slots=True)
class DrillLength:
    """One standard length of drill in millimetres."""

    series: str
    flute_mm: Decimal
    overall_mm: Decimal
    document: str


def taps_of(thread: Thread) -> tuple[TapLength, ...]:
    """Lengths that taps of a thread are made to, the shorter first; empty where none is held.

    Source: ASME B94.9 (inch), ISO 529 and ISO 2283 (metric, coarse pitches), from memory.
    """
    if thread.system in ("unified", "unified_j"):
        return _taps("in").get(thread.nominal_diameter, ())
    if thread.system == "iso_metric" and thread.series == _PITCHED_COARSE:
        return _taps("mm").get(thread.nominal_diameter, ())
    return ()


def drills_of(drill: Drill) -> tuple[DrillLength, ...]:
    """Lengths that a metric drill is made to, the shorter first; empty for inch drills and beyond the tables.

    Source: ISO 235 (jobber) and ISO 494 (long series), from memory.
    """
    if drill.series != "metric":
        return ()
    size = drill.diameter_mm
    return tuple(length for over, to, length in _drills() if over < size <= to)


def tap_source(field: str, thread: Thread) -> Source:
    """Where the length of a tap comes from."""
    head = load(_TAPS[thread.unit]).head
    return Source(field, head["document"], head["edition"], head["table"], "from_memory")


def drill_source(field: str) -> Source:
    """Where the length of a drill comes from."""
    head = load("drill_lengths_metric").head
    return Source(field, head["document"], head["edition"], head["table"], "from_memory")


_TAPS: Mapping[Unit, str] = {"in": "tap_lengths_inch", "mm": "tap_lengths_metric"}
_TAP_DOCUMENTS = {("in", "standard"): "ASME B94.9", ("mm", "standard"): "ISO 529", ("mm", "extended"): "ISO 2283"}
_DRILL_DOCUMENTS = {"jobber": "ISO 235", "long": "ISO 494"}


@cache
def _taps(unit: Unit) -> Mapping[Decimal, tuple[TapLength, ...]]:
    found: dict[Decimal, tuple[TapLength, ...]] = {}
    for row in load(_TAPS[unit]).rows:
        thread, shank = (row[f"{name}_{unit}"] for name in ("thread", "shank"))
        length = TapLength(
            row["kind"],
            Decimal(row[f"overall_{unit}"]),
            Decimal(thread) if thread else None,
            Decimal(shank) if shank else None,
            _TAP_DOCUMENTS[unit, row["kind"]],
        )
        nominal = Decimal(row[f"nominal_{unit}"])
        found[nominal] = (*found.get(nominal, ()), length)
    return found


@cache
def _drills() -> tuple[tuple[Decimal, Decimal, DrillLength], ...]:
    return tuple(
        (
            Decimal(row["over_mm"]),
            Decimal(row["to_mm"]),
            DrillLength(
                row["series"],
                Decimal(row["flute_mm"]),
                Decimal(row["overall_mm"]),
                _DRILL_DOCUMENTS[row["series"]],
            ),
        )
        for row in load("drill_lengths_metric").rows
    )
