"""What a metric callout that cannot be is told: what exists, and what was probably meant."""

from __future__ import annotations

from decimal import Decimal

from ..errors import CalloutError
from ..rounding import plain
from ..threads import metric_series as series_table
from .written import Written

LETTER = {"iso_metric": "M", "metric_j": "MJ"}
#: Pitches with tolerances in ISO 965-1, in mm: a special thread has one of them.
_PITCHES = frozenset(pitch for diameter in series_table.DIAMETERS for pitch in series_table.pitches_for(diameter))
_SMALLEST_MM, _LARGEST_MM = Decimal("0.99"), Decimal(355)
#: Diameters and pitches in mm that ISO 5855-1 Table 2 adds to ISO 261.
MJ_ONLY = frozenset(
    (Decimal(diameter), Decimal(pitch))
    for diameter, pitch in (
        ("11", "1.25"),
        ("35", "2"),
        ("78", "1.5"),
        ("78", "3"),
        ("82", "1.5"),
        ("82", "3"),
        ("85", "1.5"),
        ("88", "1.5"),
        ("90", "1.5"),
    )
)


def can_be_special(diameter: Decimal, pitch: Decimal) -> bool:
    """Whether ISO 965-1 can have tolerances for a thread that ISO 261 does not list (both in mm)."""
    return pitch in _PITCHES and _SMALLEST_MM <= diameter <= _LARGEST_MM and diameter > 2 * pitch


def _name(system: str, diameter: Decimal, pitch: Decimal, written: Written) -> str:
    suffix = f"-{written.thread_class}" if written.thread_class else ""
    hand = "-LH" if written.hand == "left" else ""
    return f"{LETTER[system]}{plain(diameter)}x{plain(pitch)}{suffix}{hand}"


def no_pitch(system: str, diameter: Decimal, written: Written) -> CalloutError:
    """The error of a callout whose missing pitch the standard does not settle."""
    pitches = series_table.pitches_for(diameter)
    if not pitches:
        return _size_unknown(system, diameter, None, written)
    return CalloutError(
        "callout_ambiguous",
        f"{LETTER[system]}{plain(diameter)} needs its pitch: leaving it out means coarse, "
        "for M threads that have a coarse pitch only.",
        pointer="/pitch",
        allowed=tuple(plain(pitch) for pitch in pitches),
        did_you_mean=tuple(_name(system, diameter, pitch, written) for pitch in pitches[:4]),
    )


def not_listed(system: str, diameter: Decimal, pitch: Decimal, written: Written) -> CalloutError:
    """The error of a diameter and pitch that ISO 261 does not combine."""
    pitches = series_table.pitches_for(diameter)
    if not pitches:
        return _size_unknown(system, diameter, pitch, written)
    nearest = sorted(pitches, key=lambda known: abs(known - pitch))
    return CalloutError(
        "thread_pitch_unknown",
        f"ISO 261 has no {LETTER[system]}{plain(diameter)} with pitch {plain(pitch)} mm.",
        pointer="/pitch",
        allowed=tuple(plain(known) for known in pitches),
        did_you_mean=(
            *(_name(system, diameter, known, written) for known in nearest[:3]),
            *_special(system, diameter, pitch),
        ),
    )


def _size_unknown(system: str, diameter: Decimal, pitch: Decimal | None, written: Written) -> CalloutError:
    nearest = sorted(series_table.DIAMETERS, key=lambda known: abs(known - diameter))[:6]
    wanted = [known for known in nearest if pitch is None or pitch in series_table.pitches_for(known)] or nearest
    meant = tuple(
        _name(system, known, _usual_pitch(known) if pitch is None else pitch, written)
        for known in wanted[:3]
        if pitch is None or pitch in series_table.pitches_for(known)
    )
    return CalloutError(
        "thread_size_unknown",
        f"ISO 261 has no diameter {plain(diameter)} mm.",
        pointer="/size",
        allowed=tuple(f"M{plain(known)}" for known in sorted(nearest)),
        did_you_mean=(*meant, *(_special(system, diameter, pitch) if pitch is not None else ())),
    )


def _usual_pitch(diameter: Decimal) -> Decimal:
    coarse = series_table.coarse_pitch(diameter)
    return coarse if coarse is not None else series_table.pitches_for(diameter)[0]


def _special(system: str, diameter: Decimal, pitch: Decimal) -> tuple[str, ...]:
    if not can_be_special(diameter, pitch):
        return ()
    return (f"{LETTER[system]}{plain(diameter)}x{plain(pitch)} SPL",)
