"""Thread plug gauges of ASME practice: tolerance inside the product limits, GO plus, NOT GO minus."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright import tables
from borewright.core.caches import read_once
from borewright.core.citation import Cite
from borewright.core.model import Diameters, Range, Status, Thread
from borewright.core.rounding import half_even

from .gauge_notes import GaugeNotes
from .gauge_sets import ThreadMember, ThreadPlug

#: Major diameter of the NOT GO plug: its pitch diameter plus half the sharp-V height.
_HALF_H = Decimal("0.433013")
_STEP_1, _STEP_2, _LARGEST = Decimal("1.5"), Decimal(4), Decimal(8)
_CITE = "ASME B1.2-1983 Table 6 (reading of a public calibration script)"


@dataclass(frozen=True, slots=True)
class _Tolerance:
    """Class X tolerance on pitch and on major diameter, inches."""

    pitch: Decimal
    major: Decimal
    status: Status


def thread_plug(thread: Thread, limits: Diameters, sheet: GaugeNotes) -> ThreadPlug | None:
    """GO and NOT GO plugs of class X for the ``limits`` of ``thread``, sizes without zone where the pitch or size is
    not in the table.

    Args: ``sheet`` takes the notes.
    Source: ASME B1.2-1983 Table 6, class X, as read in a public calibration script; former class Y as seen in part.
    """
    pitch, major = limits.pitch_diameter, limits.major_diameter.min
    if pitch.min is None or pitch.max is None:
        return None
    tolerance = _tolerance(thread)
    half_h = half_even(pitch.max + _HALF_H * thread.pitch, 4)
    _cite(thread, tolerance, sheet)
    if tolerance is None:
        go = ThreadMember(Range(pitch.min, None), None if major is None else Range(major, None))
        return ThreadPlug("asme", None, go, ThreadMember(Range(None, pitch.max), Range(None, half_h)))
    on_pitch, on_major = tolerance.pitch, tolerance.major
    low, high = {"D2": pitch.min, "x": on_pitch}, {"D2": pitch.max, "x": on_pitch}
    not_go_major = {"D2": pitch.max, "P": thread.pitch, "x": on_major}
    go = ThreadMember(
        sheet.zone(
            "thread_plug.go.pitch_diameter", ("D2", "D2 + x"), low, Range(pitch.min, pitch.min + on_pitch), _CITE
        ),
        None
        if major is None
        else sheet.zone(
            "thread_plug.go.major_diameter",
            ("D", "D + x"),
            {"D": major, "x": on_major},
            Range(major, major + on_major),
            _CITE,
        ),
    )
    not_go = ThreadMember(
        sheet.zone(
            "thread_plug.not_go.pitch_diameter", ("D2 - x", "D2"), high, Range(pitch.max - on_pitch, pitch.max), _CITE
        ),
        sheet.zone(
            "thread_plug.not_go.major_diameter",
            ("half_even(D2 + 0.433013 * P, 4) - x", "half_even(D2 + 0.433013 * P, 4)"),
            not_go_major,
            Range(half_h - on_major, half_h),
            _CITE,
        ),
    )
    return ThreadPlug("asme", "ASME B1.2 class X", go, not_go, _former_go(thread, pitch.min))


def _cite(thread: Thread, tolerance: _Tolerance | None, sheet: GaugeNotes) -> None:
    if tolerance is None:
        sheet.cite("thread_plug", Cite("ASME B1.1", "", "product limits", "computed"))
        sheet.caution(
            "gauge_tolerance_not_held",
            f"No gauge maker's tolerance is held for {thread.designation}: sizes are the product limits.",
        )
    else:
        place = "Table 6, class X, as read in a public calibration script"
        sheet.cite("thread_plug", Cite("ASME B1.2", "1983", place, tolerance.status))
    sheet.cite("thread_plug.not_go.major_diameter", Cite("ASME B1.2", "", "D2 + 0.5 H", "from_memory"))


def _tolerance(thread: Thread) -> _Tolerance | None:
    """Class X tolerance of a size; None where the standard has no cell for it."""
    row, size = _rows("gauge_thread_asme_x").get(thread.threads_per_inch), thread.nominal_diameter
    if row is None or size > _LARGEST:
        return None
    pitch = "pitch_to_1_5_in" if size <= _STEP_1 else "pitch_over_1_5_in" if size <= _STEP_2 else "pitch_over_4_in"
    major = "major_minor_in" if size <= _STEP_2 else "major_minor_over_4_in"
    if not row[pitch] or not row[major]:
        return None
    return _Tolerance(Decimal(row[pitch]), Decimal(row[major]), cast("Status", row["status"]))


def _former_go(thread: Thread, pitch_min: Decimal) -> Range | None:
    """Zone of a GO plug of the former class Y."""
    row = _rows("gauge_thread_asme_y").get(thread.threads_per_inch)
    if row is None:
        return None
    column = (
        "" if thread.nominal_diameter <= _STEP_1 else "over_1_5_" if thread.nominal_diameter <= _STEP_2 else "over_4_"
    )
    low, high = row[f"pitch_from_{column}in"], row[f"pitch_to_{column}in"]
    return Range(pitch_min + Decimal(low), pitch_min + Decimal(high)) if low else None


@read_once
def _rows(name: str) -> Mapping[Decimal | None, Mapping[str, str]]:
    return {Decimal(row["tpi"]): row for row in tables.load(name).rows}
