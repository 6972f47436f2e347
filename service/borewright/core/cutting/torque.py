"""Torque that a tap needs and torque that breaks it, as bands.

Chip-section model: once the whole chamfer cuts, a revolution removes one thread section a start. One factor was fitted
to the two absolute series found, and the scatter covers all their values, so no figure here is validated beyond them:
bands are for warnings, never guarantees.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot, log, pi, sqrt
from typing import NamedTuple

from borewright import tables
from borewright.core.caches import cached, read_once

from .speeds import factor


class Band(NamedTuple):
    """A figure that is only known within limits."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class ChipSection:
    """Chip section of one thread in a given hole: depth, area, and the radius of its centroid, mm and mm2."""

    depth_mm: float
    area_mm2: float
    arm_mm: float


def section(*, major_mm: float, hole_mm: float, crest_mm: float, tan_half_angle: float) -> ChipSection:
    """Section in mm2 that a tap cuts out a revolution: h (a + tan(half angle) h), with a the flat of the tap's crest.

    For a 60 degree thread a = P/8 and the section is h (P/8 + 0.57735 h).

    Args: ``major_mm`` of the tap, ``hole_mm`` across the hole, ``crest_mm`` its flat a, ``tan_half_angle`` of the
        flanks.
    Source: geometry.
    """
    depth = max((major_mm - hole_mm) / 2, 0.0)
    wide = crest_mm + 2 * tan_half_angle * depth
    centroid = depth / 3 * (crest_mm + 2 * wide) / (crest_mm + wide) if depth else 0.0
    return ChipSection(depth, depth * (crest_mm + tan_half_angle * depth), major_mm / 2 - centroid)


def chip_thickness(*, depth_mm: float, chamfer_threads: float, flutes: int, starts: int = 1) -> float:
    """Chip thickness in mm of one tooth of the chamfer: h starts / (c z).

    Args: ``depth_mm`` of thread h; ``chamfer_threads`` c; ``flutes`` z.
    Source: geometry, small angles.
    """
    return depth_mm * starts / (chamfer_threads * flutes)


def cutting_torque(*, force_n_mm2: float, area_mm2: float, arm_mm: float, total_factor: float) -> float:
    """Torque of a cutting tap in N m: F kc A r / 1000.

    Args: ``force_n_mm2`` specific force kc; ``area_mm2`` of the chip A; ``arm_mm`` r; ``total_factor`` F.
    Source: chip-section model; factor fitted to two measured series (tapping_factors table).
    """
    return total_factor * force_n_mm2 * area_mm2 * arm_mm / 1000


def scatter(median: float) -> Band:
    """Band of two standard deviations of a lognormal around the model's ``median``, in its unit.

    Source: tapping_factors table (sigma of ln 0.30).
    """
    spread = exp(2 * factor("sigma_ln"))
    return Band(median, median / spread, median * spread)


@cached(512)
def breaking_torque(diameter_mm: float) -> Band:
    """Torque in N m that breaks a high-speed steel tap of ``diameter_mm``: pi/16 (q D)^3 tau, with the core q D as a
    band.

    Source: torsion formula; core and stress are assumptions, no published table of tap breaking torque was found.
    """
    low, mid, high = (
        pi / 16 * (factor(core) * diameter_mm) ** 3 * factor("break_stress_n_mm2") / 1000
        for core in ("core_low", "core_mid", "core_high")
    )
    return Band(mid, low, high)


def break_margin(*, breaking: Band, needed: Band) -> Band:
    """``breaking`` torque over ``needed`` torque, a ratio. The two scatter independently, so the spreads of both add as
    squares.

    Source: quotient of two bands, each read as two standard deviations on the logarithm.
    """
    value = breaking.value / needed.value
    down = hypot(log(needed.high / needed.value), log(breaking.value / breaking.low))
    up = hypot(log(needed.value / needed.low), log(breaking.high / breaking.value))
    return Band(value, value / exp(down), value * exp(up))


def clutch_torque(*, needed: Band, breaking: Band) -> float | None:
    """Setting in N m of a torque-limiting holder that drives the tap and protects it, None where there is none.

    It lies half-way, on the logarithm, between the highest torque ``needed`` and the lowest ``breaking`` one.

    Source: common practice; the ends of the two bands.
    """
    return None if needed.high >= breaking.low else sqrt(needed.high * breaking.low)


def flutes(diameter_mm: float, style: str) -> int:
    """Usual number of flutes of a tap of ``diameter_mm`` and ``style``.

    Source: ASME B94.9 (from memory).
    """
    kind = "spiral" if style.startswith("spiral") else "straight"
    return next(count for name, to_mm, count in _flutes() if name == kind and (to_mm is None or diameter_mm <= to_mm))


@read_once
def _flutes() -> tuple[tuple[str, float | None, int], ...]:
    return tuple(
        (row["style"], float(row["to_mm"]) if row["to_mm"] else None, int(row["flutes"]))
        for row in tables.load("tap_flutes").rows
    )
