"""Limits of ground metric taps: D and DU numbers (ASME B94.9, from memory) and ISO classes 1 to 3 (ISO 2857), in mm.

A D number counts steps of 0.013 mm to the maximum over basic; its tolerance is known for the pitches and size bands
of the table only. The unit t of the ISO classes is the pitch-diameter tolerance of grade 5 of ISO 965-1.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.errors import ThreadError
from borewright.core.model import Range, TapLimit, Thread
from borewright.core.rounding import half_up
from borewright.core.standards.metric import tolerance as metric_tolerance
from borewright.tables import load

from .ground_inch import HIGH_ABOVE, LOW_OF_HIGH
from .tap_candidates import Candidate

STEP_MM = Decimal("0.013")
_LISTED = range(1, 12)
#: Upper ends of the size bands of the tolerance, in mm (from memory).
_BANDS_MM = (Decimal("6.3"), Decimal(25))
_SMALLEST_MM, _LARGEST_MM = Decimal("1.6"), Decimal(36)
_BELOW = "basic - n * step"
_TWO_PARTS = len("4H6H")


class IsoClass(NamedTuple):
    """An ISO tap class: its two deviations in units of t, and the thread classes it is meant for."""

    label: str
    min_t: Decimal
    max_t: Decimal
    thread_classes: tuple[str, ...]
    low_formula: str
    high_formula: str


def t_mm(thread: Thread) -> Decimal | None:
    """Tolerance unit t in mm: TD2 of grade 5 for diameter and pitch of ``thread``, None where ISO 965-1 has no such
    cell.

    Source: ISO 2857:1973 (from memory); ISO 965-1 tolerance tables.
    """
    return pitch_tolerance_mm(thread, "5")


def pitch_tolerance_mm(thread: Thread, grade: str) -> Decimal | None:
    """Pitch-diameter tolerance in mm of ``thread`` by a grade, None where ISO 965-1 has no such cell.

    Source: ISO 965-1 tolerance tables.
    """
    try:
        found = metric_tolerance.cell("TD2", grade, d_mm=thread.nominal_diameter, pitch_mm=thread.pitch)
    except ThreadError:
        return None
    return found.value / 1000


def numbered(thread: Thread, label: str) -> Candidate | None:
    """The D or DU limit of a thread, None where the tolerance of its pitch and size is not known.

    Args: ``thread`` metric; ``label`` as ``D5`` or ``DU2``.
    Source: ASME B94.9, metric tap limits (from memory).
    """
    tolerance = d_tolerance_mm(thread)
    if tolerance is None:
        return None
    basic = thread.basic.pitch_diameter
    number = int(label.lstrip("DU"))
    under = label.startswith("DU")
    high = basic - number * STEP_MM if under else basic + number * STEP_MM
    low = high - tolerance
    inputs = {"basic": basic, "n": number, "step": STEP_MM, "tolerance": tolerance}
    return Candidate(
        TapLimit(label, Range(low, high), "from_memory"),
        low,
        high,
        cite("tap_limits_metric_d"),
        _BELOW if under else HIGH_ABOVE,
        LOW_OF_HIGH,
        inputs,
    )


def classed(thread: Thread, number: int) -> Candidate | None:
    """The ISO tap class of ``number`` 1, 2 or 3 of a thread, deviations rounded half up to whole micrometres.

    Returns: None where t is not defined.
    Source: ISO 2857:1973 (from memory).
    """
    t = t_mm(thread)
    if t is None:
        return None
    found = iso_classes()[number - 1]
    basic = thread.basic.pitch_diameter
    low, high = basic + half_up(found.min_t * t, 3), basic + half_up(found.max_t * t, 3)
    return Candidate(
        TapLimit(found.label, Range(low, high), "from_memory"),
        low,
        high,
        cite("tap_classes_iso2857"),
        found.high_formula,
        found.low_formula,
        {"basic": basic, "t": t},
    )


def listed_d(thread: Thread) -> tuple[Candidate, ...]:
    """The D limits that exist for a thread: M1.6 to M36, D1 to D11.

    Source: ASME B94.9 metric limits, from memory.
    """
    if not _SMALLEST_MM <= thread.nominal_diameter <= _LARGEST_MM:
        return ()
    found = (numbered(thread, f"D{number}") for number in _LISTED)
    return tuple(candidate for candidate in found if candidate is not None)


def listed_classes(thread: Thread) -> tuple[Candidate, ...]:
    """The ISO tap classes that exist for a thread.

    Source: ISO 2857:1973, from memory.
    """
    found = (classed(thread, number) for number in (1, 2, 3))
    return tuple(candidate for candidate in found if candidate is not None)


def tabled_d(thread: Thread) -> tuple[str, ...]:
    """The D limits that the table of recommendations gives for size and pitch of ``thread``, empty where it has no row.

    Source: ASME B94.9 recommended metric limits (from memory).
    """
    row = _d_rows().get((thread.nominal_diameter, thread.pitch))
    return () if row is None else tuple(row[name] for name in ("limit_6H", "limit_4H") if row[name])


def plus_tolerance(thread: Thread) -> Decimal | None:
    """Tolerance in mm of a tap of ``thread`` ordered as basic plus an amount: 0.2 t of ISO 2857; None where t is not
    defined.

    Source: ISO 2857:1973 (from memory).
    """
    t = t_mm(thread)
    return None if t is None else half_up(t / 5, 3)


def iso_class_for(thread_class: str | None) -> IsoClass | None:
    """The tap class meant for ``thread_class`` (6H -> ISO 2), None where ISO 2857 gives none (6AZ, 6AX, 7G, 8G).

    Source: ISO 2857:1973 correspondence (from memory).
    """
    wanted = pitch_class(thread_class)
    return next((found for found in iso_classes() if wanted in found.thread_classes), None)


def class_etched(thread: Thread, label: str) -> str | None:
    """The thread class that is etched beside the tap class ``label``: 4H, 6H or 6G for ISO 1, 2 or 3.

    Returns: None where ISO 965-1 has no such class at the thread's size and pitch.
    Source: common practice.
    """
    name = {"ISO 1": "4H", "ISO 2": "6H", "ISO 3": "6G"}[label]
    return None if pitch_tolerance_mm(thread, name[0]) is None else name


def pitch_class(thread_class: str | None) -> str | None:
    """The part of ``thread_class`` that is for the pitch diameter: 4H of 4H6H.

    Source: ISO 965-1, designation of classes.
    """
    return thread_class[:2] if thread_class is not None and len(thread_class) == _TWO_PARTS else thread_class


def recommended_d(thread: Thread) -> tuple[str, str | None] | None:
    """The D limit recommended for 6H or 4H at size and pitch of ``thread`` with a note on it, None where the table has
    no row.

    Source: ASME B94.9 recommended metric limits (from memory).
    """
    row = _d_rows().get((thread.nominal_diameter, thread.pitch))
    wanted = pitch_class(thread.thread_class)
    if row is None or wanted not in ("6H", "4H"):
        return None
    label = row[f"limit_{wanted}"]
    note = row["note_4H"] if wanted == "4H" else None
    return (label, note or None) if label else None


def d_tolerance_mm(thread: Thread) -> Decimal | None:
    """Pitch-diameter tolerance in mm of a D limit of ``thread``, None for a pitch the size band of the table does not
    hold.

    Source: ASME B94.9, metric tap limits (from memory).
    """
    return _d_tolerances().get((_band(thread.nominal_diameter), thread.pitch))


def _band(diameter_mm: Decimal) -> int:
    return sum(diameter_mm > upper for upper in _BANDS_MM)


@read_once
def _d_rows() -> Mapping[tuple[Decimal, Decimal], Mapping[str, str]]:
    return {(Decimal(row["nominal_mm"]), Decimal(row["pitch_mm"])): row for row in load("tap_limits_metric_d").rows}


@read_once
def _d_tolerances() -> Mapping[tuple[int, Decimal], Decimal]:
    return {
        (_band(diameter), pitch): Decimal(row["tolerance_um"]) / 1000 for (diameter, pitch), row in _d_rows().items()
    }


@read_once
def iso_classes() -> tuple[IsoClass, ...]:
    """The three classes of ISO 2857, in order.

    Source: ISO 2857:1973 (from memory).
    """
    return tuple(
        IsoClass(
            row["label"],
            Decimal(row["min_t"]),
            Decimal(row["max_t"]),
            tuple(row["thread_classes"].split()),
            f"basic + half_up({row['min_t']} * t, 3)",
            f"basic + half_up({row['max_t']} * t, 3)",
        )
        for row in load("tap_classes_iso2857").rows
    )
