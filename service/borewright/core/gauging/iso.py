"""Thread plug gauges of ISO 1502: the NOT GO zone lies above the product's maximum, unlike ASME practice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.citation import Cite
from borewright.core.model import Diameters, Range, Status, Thread
from borewright.core.quantity_text import length
from borewright.core.rounding import half_up

from .gauge_notes import GaugeNotes
from .gauge_sets import ThreadMember, ThreadPlug

_D2_FACTOR = Decimal("0.6495")
_UM = Decimal("0.001")
_CITE = "ISO 1502"
_NAME = "thread_plug.go.pitch_diameter"


@dataclass(frozen=True, slots=True)
class _Zone:
    """Tolerance and positions for a pitch-diameter tolerance of the product, millimetres."""

    over_mm: Decimal
    to_mm: Decimal
    tpl_mm: Decimal
    zpl_mm: Decimal
    wgo_mm: Decimal
    wng_mm: Decimal
    seen: str
    status: Status


def thread_plug(thread: Thread, limits: Diameters, sheet: GaugeNotes) -> ThreadPlug | None:
    """GO and NOT GO plugs for the ``limits`` of ``thread`` with their wear limits, in mm; sizes without zone where the
    tolerance is not in the table.

    GO pitch diameter D2 + EI + ZPL -/+ TPL/2, NOT GO D2 + EI + TD2 + TPL/2 -/+ TPL/2; D2 = D - 0.6495 P unrounded.

    Args: ``sheet`` takes the notes.
    Source: ISO 1502 (rows 50 to 200 um recomputed from a published gauge size table, others read in a public
    calibration script that names AS 1014 Tables 4.6 and 4.7).
    """
    pitch, major = limits.pitch_diameter, limits.major_diameter.min
    if pitch.min is None or pitch.max is None:
        return None
    zone = _zone(pitch.max - pitch.min)
    if zone is None:
        sheet.caution(
            "gauge_tolerance_not_held",
            f"ISO 1502 is held for pitch-diameter tolerances over 0.024 to {length(Decimal('0.67'), 'mm')}, not for"
            f" {thread.designation}: sizes are the product limits.",
        )
        go = ThreadMember(Range(pitch.min, None), None if major is None else Range(major, None))
        return ThreadPlug("iso", None, go, ThreadMember(Range(None, pitch.max), None))
    place = f"GO and NOT GO plug, by TD2; {zone.seen}"
    sheet.cite("thread_plug", Cite(_CITE, "", place, zone.status))
    size = {
        "D": thread.nominal_diameter,
        "P": thread.pitch,
        "EI": pitch.min - thread.basic.pitch_diameter,
        "TPL": zone.tpl_mm,
    }
    go = _go(thread, size, zone, major, sheet)
    return ThreadPlug("iso", _CITE, go, _not_go(size, pitch.max - pitch.min, zone, sheet))


def _go(
    thread: Thread, size: Mapping[str, Decimal], zone: _Zone, major: Decimal | None, sheet: GaugeNotes
) -> ThreadMember:
    inputs = {**size, "ZPL": zone.zpl_mm}
    middle = thread.nominal_diameter - _D2_FACTOR * thread.pitch + size["EI"] + zone.zpl_mm
    centre, half = "D - 0.6495 * P + EI + ZPL", zone.tpl_mm / 2
    zone_of_pitch = Range(half_up(middle - half, 4), half_up(middle + half, 4))
    pitch = sheet.zone(
        _NAME, (f"half_up({centre} - TPL / 2, 4)", f"half_up({centre} + TPL / 2, 4)"), inputs, zone_of_pitch, _CITE
    )
    worn = {**inputs, "W": zone.wgo_mm}
    wear = sheet.size(
        "thread_plug.go.wear_limit", f"half_up({centre} - W, 4)", worn, half_up(middle - zone.wgo_mm, 4), _CITE
    )
    if major is None:
        return ThreadMember(pitch, None, wear)
    crest = {"D": major, "ZPL": zone.zpl_mm, "TPL": zone.tpl_mm}
    outer = Range(half_up(major + zone.zpl_mm - zone.tpl_mm, 4), half_up(major + zone.zpl_mm + zone.tpl_mm, 4))
    formulas = ("half_up(D + ZPL - TPL, 4)", "half_up(D + ZPL + TPL, 4)")
    return ThreadMember(pitch, sheet.zone("thread_plug.go.major_diameter", formulas, crest, outer, _CITE), wear)


def _not_go(size: Mapping[str, Decimal], tolerance: Decimal, zone: _Zone, sheet: GaugeNotes) -> ThreadMember:
    inputs = {**size, "TD2": tolerance}
    largest = size["D"] - _D2_FACTOR * size["P"] + size["EI"] + tolerance
    centre = "D - 0.6495 * P + EI + TD2"
    pitch = sheet.zone(
        "thread_plug.not_go.pitch_diameter",
        (f"half_up({centre}, 4)", f"half_up({centre} + TPL, 4)"),
        inputs,
        Range(half_up(largest, 4), half_up(largest + zone.tpl_mm, 4)),
        _CITE,
    )
    wear = sheet.size(
        "thread_plug.not_go.wear_limit",
        f"half_up({centre} + TPL / 2 - W, 4)",
        {**inputs, "W": zone.wng_mm},
        half_up(largest + zone.tpl_mm / 2 - zone.wng_mm, 4),
        _CITE,
    )
    return ThreadMember(pitch, None, wear)


def _zone(tolerance_mm: Decimal) -> _Zone | None:
    for zone in _zones():
        if zone.over_mm < tolerance_mm <= zone.to_mm:
            return zone
    return None


@read_once
def _zones() -> tuple[_Zone, ...]:
    return tuple(
        _Zone(
            over_mm=_mm(row["td2_over_um"]),
            to_mm=_mm(row["td2_to_um"]),
            tpl_mm=_mm(row["tpl_um"]),
            zpl_mm=_mm(row["zpl_um"]),
            wgo_mm=_mm(row["wgo_um"]),
            wng_mm=_mm(row["wng_um"]),
            seen=row["seen_on"],
            status=cast("Status", row["status"]),
        )
        for row in tables.load("gauge_thread_iso_1502").rows
    )


def _mm(cell_um: str) -> Decimal:
    return Decimal(cell_um) * _UM
