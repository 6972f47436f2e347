"""Lengths of standard taps and drills as far as they are held, most of them from memory: check the tool at hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright.core.caches import cached, read_once
from borewright.core.citation import cite
from borewright.core.model import MM_PER_INCH, Drill, Source, Status, Thread, Unit
from borewright.core.standards.systems import traits
from borewright.tables import load

_PITCHED_COARSE = "coarse"


@dataclass(frozen=True, slots=True)
class TapLength:
    """One standard length of tap, in the thread's unit; what is not held is None.

    ``thread`` is the length of thread, ``necked`` how deep the tap goes where its shank is larger than the hole: to the
    end of a recess behind the thread. ``status`` is that of overall length and shank; ``thread`` is from memory.
    """

    kind: str
    overall: Decimal
    thread: Decimal | None
    shank: Decimal | None
    necked: Decimal | None
    document: str
    status: Status

    def depth_into(self, hole_diameter: Decimal) -> Decimal | None:
        """How deep, in its unit, the tap goes into a hole of ``hole_diameter`` before its shank meets the face, None
        where the shank does not.
        """
        if self.shank is None or self.shank < hole_diameter:
            return None
        return self.necked


@dataclass(frozen=True, slots=True)
class DrillLength:
    """One standard length of drill in millimetres."""

    series: str
    flute_mm: Decimal
    overall_mm: Decimal
    document: str


def taps_of(thread: Thread) -> tuple[TapLength, ...]:
    """Lengths that taps of a thread are made to, the shorter first; empty where none is held.

    Source: ASME B94.9 (inch: overall length and shank of #4 and larger published, the rest from memory), ISO 529 and
        ISO 2283 (metric, coarse pitches), from memory.
    """
    table = traits(thread).tap_lengths
    if table == "inch":
        return _taps("in").get(thread.nominal_diameter, ())
    if table == "coarse_metric" and thread.series == _PITCHED_COARSE:
        return _taps("mm").get(thread.nominal_diameter, ())
    return ()


@cached(1024)
def drills_of(drill: Drill) -> tuple[DrillLength, ...]:
    """Lengths that a drill is made to, the shorter first; empty beyond the tables.

    Source: ISO 235 (jobber) and ISO 494 (long series) for metric drills, ASME B94.11M (jobber) for inch drills, from
        memory.
    """
    if drill.series != "metric":
        return _inch_jobber(drill.diameter_in)
    size = drill.diameter_mm
    return tuple(length for over, to, length in _drills() if over < size <= to)


@read_once
def tap_source(field: str, unit: Unit, status: Status) -> Source:
    """Where the length of a tap of ``unit``, shown in ``field``, comes from, with its ``status``."""
    return cite(_TAPS[unit], status=status).source(field)


@read_once
def drill_source(field: str, *, metric: bool) -> Source:
    """Where the length of a drill, ``metric`` or inch, shown in ``field``, comes from."""
    return cite("drill_lengths_metric" if metric else "drill_lengths_inch").source(field)


_TAPS: Mapping[Unit, str] = {"in": "tap_lengths_inch", "mm": "tap_lengths_metric"}
_TAP_DOCUMENTS = {("in", "standard"): "ASME B94.9", ("mm", "standard"): "ISO 529", ("mm", "extended"): "ISO 2283"}
_DRILL_DOCUMENTS = {"jobber": "ISO 235", "long": "ISO 494"}


@read_once
def _taps(unit: Unit) -> Mapping[Decimal, tuple[TapLength, ...]]:
    found: dict[Decimal, tuple[TapLength, ...]] = {}
    for row in load(_TAPS[unit]).rows:
        length = TapLength(
            row["kind"],
            Decimal(row[f"overall_{unit}"]),
            _length_or_unknown(row, f"thread_{unit}"),
            _length_or_unknown(row, f"shank_{unit}"),
            _necked(row, unit),
            _TAP_DOCUMENTS[unit, row["kind"]],
            cast(Status, row.get("status", "from_memory")),
        )
        nominal = Decimal(row[f"nominal_{unit}"])
        found[nominal] = (*found.get(nominal, ()), length)
    return found


def _length_or_unknown(row: Mapping[str, str], name: str) -> Decimal | None:
    return Decimal(row[name]) if row.get(name) else None


def _necked(row: Mapping[str, str], unit: Unit) -> Decimal | None:
    """End of the slim part: of the thread, of the recess behind it, or of a short thread with its optional neck."""
    short, neck = _length_or_unknown(row, f"short_thread_{unit}"), _length_or_unknown(row, f"neck_{unit}")
    ends = [_length_or_unknown(row, f"thread_{unit}"), _length_or_unknown(row, f"recess_end_{unit}")]
    if short is not None and neck is not None:
        ends.append(short + neck)
    return max((end for end in ends if end is not None), default=None)


def _inch_jobber(diameter_in: Decimal) -> tuple[DrillLength, ...]:
    """The jobber drill of the next smaller row, so that no more flute is promised than there is."""
    rows = _inch_drills()
    if diameter_in > rows[-1][0]:
        return ()
    smaller = [length for diameter, length in rows if diameter <= diameter_in]
    return tuple(smaller[-1:])


@read_once
def _inch_drills() -> tuple[tuple[Decimal, DrillLength], ...]:
    return tuple(
        (
            Decimal(row["diameter_in"]),
            DrillLength(
                row["series"],
                Decimal(row["flute_in"]) * MM_PER_INCH,
                Decimal(row["overall_in"]) * MM_PER_INCH,
                "ASME B94.11M",
            ),
        )
        for row in load("drill_lengths_inch").rows
    )


@read_once
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
