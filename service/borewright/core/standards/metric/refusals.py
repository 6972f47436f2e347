"""What a metric callout that cannot be is told: what exists, and what was probably meant."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.caches import read_once
from borewright.core.callout.thread_as_written import Written
from borewright.core.errors import CalloutError
from borewright.core.quantity_text import length
from borewright.core.rounding import plain
from borewright.tables import load

from . import sizes as series_table
from .class_text import internal_name

LETTER = {"iso_metric": "M", "metric_j": "MJ"}
_LIST = {"iso_metric": "ISO 261", "metric_j": "ISO 5855-1"}
#: Pitches with tolerances in ISO 965-1, in mm: a special thread has one of them.
_PITCHES = frozenset(pitch for diameter in series_table.DIAMETERS for pitch in series_table.pitches_for(diameter))
_OVER_MM, _LARGEST_MM = Decimal("0.99"), Decimal(355)


@read_once
def _mj_pitches() -> Mapping[Decimal, tuple[Decimal, ...]]:
    """Pitches of the MJ list of ISO 5855-1 by diameter, in mm, coarsest first."""
    found: dict[Decimal, list[Decimal]] = {}
    for row in load("metric_j_series").rows:
        found.setdefault(Decimal(row["diameter_mm"]), []).append(Decimal(row["pitch_mm"]))
    return {diameter: tuple(sorted(pitches, reverse=True)) for diameter, pitches in found.items()}


def pitches_of(system: str, diameter: Decimal) -> tuple[Decimal, ...]:
    """Pitches in mm that the system's list gives a diameter, coarsest first."""
    return _mj_pitches().get(diameter, ()) if system == "metric_j" else series_table.pitches_for(diameter)


def series_of(system: str, *, diameter: Decimal, pitch: Decimal) -> str | None:
    """``coarse`` or ``fine`` for ``diameter`` and ``pitch`` (both in mm) of the system's list, None for any other."""
    if pitch not in pitches_of(system, diameter):
        return None
    return "coarse" if series_table.coarse_pitch(diameter) == pitch else "fine"


def can_be_special(*, diameter: Decimal, pitch: Decimal) -> bool:
    """Whether ISO 965-1 can have tolerances for ``diameter`` and ``pitch`` (both in mm) that ISO 261 does not list."""
    return pitch in _PITCHES and _OVER_MM < diameter <= _LARGEST_MM and diameter > 2 * pitch


def _name(system: str, diameter: Decimal, pitch: Decimal, written: Written) -> str:
    grade = internal_name(written.thread_class or "")
    hand = "-LH" if written.hand == "left" else ""
    return f"{LETTER[system]}{plain(diameter)}x{plain(pitch)}{f'-{grade}' if grade else ''}{hand}"


def no_pitch(system: str, diameter: Decimal, written: Written) -> CalloutError:
    """The error of a callout, as ``written``, of ``diameter`` in mm whose missing pitch the standard of ``system``
    leaves open.
    """
    pitches = pitches_of(system, diameter)
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


def not_listed(system: str, written: Written, *, diameter: Decimal, pitch: Decimal) -> CalloutError:
    """The error of a ``diameter`` and ``pitch`` (both in mm), as ``written``, that the list of ``system`` does not
    combine.
    """
    pitches = pitches_of(system, diameter)
    if not pitches:
        return _size_unknown(system, diameter, pitch, written)
    nearest = sorted(pitches, key=lambda known: abs(known - pitch))
    return CalloutError(
        "thread_pitch_unknown",
        f"{_LIST[system]} has no {LETTER[system]}{plain(diameter)} with pitch {length(pitch, 'mm')}.",
        pointer="/pitch",
        allowed=tuple(plain(known) for known in pitches),
        did_you_mean=(
            *(_name(system, diameter, known, written) for known in nearest[:3]),
            *_special(system, diameter, pitch),
        ),
    )


def _size_unknown(system: str, diameter: Decimal, pitch: Decimal | None, written: Written) -> CalloutError:
    known = _mj_pitches() if system == "metric_j" else series_table.DIAMETERS
    nearest = sorted(known, key=lambda one: abs(one - diameter))[:6]
    if pitch is None:
        meant = [_name(system, one, _usual_pitch(system, one), written) for one in nearest]
    else:
        meant = [_name(system, one, pitch, written) for one in nearest if pitch in pitches_of(system, one)]
    return CalloutError(
        "thread_size_unknown",
        f"{_LIST[system]} has no diameter {plain(diameter)} mm.",
        pointer="/size",
        allowed=tuple(f"{LETTER[system]}{plain(one)}" for one in sorted(nearest)),
        did_you_mean=(*meant[:3], *(_special(system, diameter, pitch) if pitch is not None else ())),
    )


def _usual_pitch(system: str, diameter: Decimal) -> Decimal:
    coarse = series_table.coarse_pitch(diameter)
    pitches = pitches_of(system, diameter)
    return coarse if coarse in pitches else pitches[0]


def _special(system: str, diameter: Decimal, pitch: Decimal) -> tuple[str, ...]:
    if not can_be_special(diameter=diameter, pitch=pitch):
        return ()
    return (f"{LETTER[system]}{plain(diameter)}x{plain(pitch)} SPL",)
