"""Which diameters and pitches ISO 261 combines, for readers, resolvers and catalogues (millimetres)."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import cast

from borewright.core.caches import read_once
from borewright.core.model import Status
from borewright.tables import load

#: Nominal diameters of ISO 261, smallest first, in mm.
DIAMETERS: tuple[Decimal, ...] = tuple(dict.fromkeys(Decimal(row["diameter_mm"]) for row in load("metric_series").rows))


@read_once
def _pitches() -> Mapping[Decimal, tuple[Decimal, ...]]:
    table: dict[Decimal, list[Decimal]] = {}
    for row in load("metric_series").rows:
        table.setdefault(Decimal(row["diameter_mm"]), []).append(Decimal(row["pitch_mm"]))
    return {diameter: tuple(pitches) for diameter, pitches in table.items()}


@read_once
def _coarse() -> Mapping[Decimal, Decimal]:
    rows = load("metric_series").rows
    return {Decimal(row["diameter_mm"]): Decimal(row["pitch_mm"]) for row in rows if row["series"] == "coarse"}


@read_once
def _statuses() -> Mapping[tuple[Decimal, Decimal], Status]:
    rows = load("metric_series").rows
    return {(Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"])): cast(Status, row["status"]) for row in rows}


def coarse_pitch(d_mm: Decimal) -> Decimal | None:
    """Coarse pitch in mm of the nominal diameter ``d_mm``, None where ISO 261 gives none (M15, M70 and
    above 68 ...).
    """
    return _coarse().get(d_mm)


def pitches_for(d_mm: Decimal) -> tuple[Decimal, ...]:
    """Every pitch in mm that ISO 261 gives ``d_mm``, coarsest first; empty for a diameter it does not list."""
    return _pitches().get(d_mm, ())


def series_for(d_mm: Decimal, *, pitch_mm: Decimal) -> str | None:
    """``coarse`` or ``fine`` for ``d_mm`` and ``pitch_mm`` of ISO 261, None for any other."""
    if pitch_mm not in pitches_for(d_mm):
        return None
    return "coarse" if coarse_pitch(d_mm) == pitch_mm else "fine"


def series_status(d_mm: Decimal, *, pitch_mm: Decimal) -> Status:
    """How well ``d_mm`` with ``pitch_mm``, which ISO 261 lists, is known."""
    return _statuses()[d_mm, pitch_mm]


@read_once
def _selected() -> frozenset[tuple[Decimal, Decimal]]:
    rows = load("metric_series").rows
    return frozenset((Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"])) for row in rows if row["iso262"] == "1")


def is_of_iso_262(d_mm: Decimal, *, pitch_mm: Decimal) -> bool:
    """Whether ``d_mm`` with ``pitch_mm`` is of the selection for screws and nuts (ISO 262)."""
    return (d_mm, pitch_mm) in _selected()
