"""Thread plug gauges of ASME practice: tolerance inside the product limits, GO plus, NOT GO minus."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from functools import cache

from ... import tables
from ..model import Diameters, Range, Thread
from ..rounding import half_even
from .model import ThreadMember, ThreadPlug
from .parts import Sheet

SYSTEMS = ("unified", "unified_j")

#: Major diameter of the NOT GO plug: its pitch diameter plus half the sharp-V height.
_HALF_H = Decimal("0.433013")
_STEP_1 = Decimal("1.5")
_LARGEST = Decimal(4)
_CITE = "ASME B1.2 (from memory)"


def thread_plug(thread: Thread, limits: Diameters, sheet: Sheet) -> ThreadPlug | None:
    """GO and NOT GO plugs of class X, sizes without zone where the pitch or size is not in the table.

    Source: ASME B1.2 class X (from memory); former class Y as seen in part.
    """
    pitch, major = limits.pitch_diameter, limits.major_diameter.min
    if pitch.min is None or pitch.max is None:
        return None
    tolerance = _tolerance(thread)
    half_h = half_even(pitch.max + _HALF_H * thread.pitch, 4)
    _cite(thread, tolerance is not None, sheet)
    if tolerance is None:
        go = ThreadMember(Range(pitch.min, None), None if major is None else Range(major, None))
        return ThreadPlug("asme", None, go, ThreadMember(Range(None, pitch.max), Range(None, half_h)))
    on_pitch, on_major = tolerance
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


def _cite(thread: Thread, held: bool, sheet: Sheet) -> None:
    sheet.source(
        "thread_plug",
        "ASME B1.2",
        edition="",
        locator="class X gauge tolerances, NOT GO major D2 + 0.5 H",
        status="from_memory",
    )
    if not held:
        sheet.caution(
            "gauge_tolerance_not_held",
            f"No gauge maker's tolerance is held for {thread.designation}: sizes are the product limits.",
        )


def _tolerance(thread: Thread) -> tuple[Decimal, Decimal] | None:
    """Class X tolerance on pitch and on major diameter, inches."""
    row = _rows("gauge_thread_asme_x").get(thread.threads_per_inch)
    if row is None or thread.nominal_diameter > _LARGEST:
        return None
    column = "pitch_to_1_5_in" if thread.nominal_diameter <= _STEP_1 else "pitch_over_1_5_in"
    return Decimal(row[column]), Decimal(row["major_minor_in"])


def _former_go(thread: Thread, pitch_min: Decimal) -> Range | None:
    """Zone of a GO plug of the former class Y."""
    row = _rows("gauge_thread_asme_y").get(thread.threads_per_inch)
    if row is None:
        return None
    column = (
        "" if thread.nominal_diameter <= _STEP_1 else "over_1_5_" if thread.nominal_diameter <= _LARGEST else "over_4_"
    )
    low, high = row[f"pitch_from_{column}in"], row[f"pitch_to_{column}in"]
    return Range(pitch_min + Decimal(low), pitch_min + Decimal(high)) if low and high else None


@cache
def _rows(name: str) -> Mapping[Decimal | None, Mapping[str, str]]:
    return {Decimal(row["tpi"]): row for row in tables.load(name).rows}
