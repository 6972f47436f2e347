"""Torque that a tap needs and torque that breaks it, as bands.

Chip-section model: once the whole chamfer cuts, a revolution removes one thread section a start. Factor and scatter
were fitted to the only absolute series found, so no figure here is validated: bands are for warnings, never guarantees.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from math import exp, pi

from ... import tables
from ..model import Status
from .profile import Profile, groups_of
from .speeds import factor

#: Hardest steel for which the handbook prints a power constant; beyond it no torque is given.
HARDEST_STEEL_HB = 360.0

_STEELS = ("carbon steel", "free-machining steel", "alloy steel", "tool steel")
_N_MM2_PER_HP_IN3_MIN = 2730.4


@dataclass(frozen=True, slots=True)
class Band:
    """A figure that is only known within limits."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Section:
    """Chip section of one thread in a given hole: depth, area, and the radius of its centroid, mm and mm2."""

    depth_mm: float
    area_mm2: float
    arm_mm: float


@dataclass(frozen=True, slots=True)
class CuttingForce:
    """Specific cutting force: ``at_1mm`` N/mm2 times chip thickness to the power ``-mc``, times ``correction``."""

    at_1mm: float
    mc: float
    correction: float
    text: str
    status: Status

    def at(self, chip_mm: float) -> float:
        """Specific cutting force in N/mm2 for a chip of that thickness."""
        return float(self.at_1mm * chip_mm ** (-self.mc) * self.correction)


def section(*, major_mm: float, hole_mm: float, crest_mm: float, tan_half_angle: float) -> Section:
    """Section that a tap cuts out a revolution: h (a + tan(half angle) h), with a the flat of the tap's crest.

    For a 60 degree thread a = P/8 and the section is h (P/8 + 0.57735 h).

    Source: geometry.
    """
    depth = max((major_mm - hole_mm) / 2, 0.0)
    wide = crest_mm + 2 * tan_half_angle * depth
    centroid = depth / 3 * (crest_mm + 2 * wide) / (crest_mm + wide) if depth else 0.0
    return Section(depth, depth * (crest_mm + tan_half_angle * depth), major_mm / 2 - centroid)


def chip_thickness(*, depth_mm: float, chamfer_threads: float, flutes: int, starts: int = 1) -> float:
    """Chip thickness of one tooth of the chamfer: h starts / (c z).

    Source: geometry, small angles.
    """
    return depth_mm * starts / (chamfer_threads * flutes)


def cutting_torque(*, force_n_mm2: float, area_mm2: float, arm_mm: float, total_factor: float) -> float:
    """Torque of a cutting tap in N m: F kc A r / 1000.

    Source: chip-section model; factor fitted to one series (CONEM 2004 paper 21016), not validated.
    """
    return total_factor * force_n_mm2 * area_mm2 * arm_mm / 1000


def scatter(median: float) -> Band:
    """Band of two standard deviations of a lognormal around the model's figure.

    Source: tapping_factors table (sigma of ln 0.30).
    """
    spread = exp(2 * factor("sigma_ln"))
    return Band(median, median / spread, median * spread)


def size_factor(diameter_mm: float) -> float:
    """Total factor F by size: friction is the larger part in small taps; straight line from 5 to 6 mm.

    Source: tapping_factors table.
    """
    large, small = factor("total_6mm_up"), factor("total_under_5mm")
    if diameter_mm >= 6:
        return large
    return small if diameter_mm <= 5 else small + (large - small) * (diameter_mm - 5)


@lru_cache(2048)
def breaking_torque(diameter_mm: float) -> Band:
    """Torque that breaks a high-speed steel tap in N m: pi/16 (q D)^3 tau, with the core q D as a band.

    Source: torsion formula; core and stress are assumptions, no published table of tap breaking torque was found.
    """
    low, mid, high = (
        pi / 16 * (factor(core) * diameter_mm) ** 3 * factor("break_stress_n_mm2") / 1000
        for core in ("core_low", "core_mid", "core_high")
    )
    return Band(mid, low, high)


def break_margin(*, breaking: Band, needed: Band) -> Band:
    """Breaking torque over needed torque; the ends pair the worst and the best of both.

    Source: quotient of two bands.
    """
    return Band(breaking.value / needed.value, breaking.low / needed.high, breaking.high / needed.low)


def flutes(diameter_mm: float, style: str) -> int:
    """Usual number of flutes of a tap.

    Source: ASME B94.9 (from memory).
    """
    kind = "spiral" if style.startswith("spiral") else "straight"
    return next(count for name, to_mm, count in _flutes() if name == kind and (to_mm is None or diameter_mm <= to_mm))


@lru_cache(2048)
def cutting_force(material: Profile) -> CuttingForce | None:
    """Specific cutting force of a material in tapping chips, None where no constant is held.

    Steel and grey iron: kc1.1 and mc of the textbook table, for the hardness by the ratio of handbook power constants.
    Others: the larger of the power constant times the thin-chip factor and the all-in constant of the older handbook.

    Source: cutting_forces and materials tables.
    """
    row = material.row
    if row.family in _STEELS and (material.hardness_hb or 0.0) > HARDEST_STEEL_HB:
        return None
    thin = _thin_chip().get(row.force_group)
    if thin is not None:
        return _with_hardness(thin, material.hardness_hb)
    power = _power_constant(material)
    all_in = _all_in().get(row.force_group)
    thin_chip = factor("thin_chip")
    if power is not None and power * thin_chip >= (all_in.at_1mm if all_in is not None else 0.0):
        text = f"power constant {power:.0f} N/mm2 x {thin_chip:g} for thin chips"
        return CuttingForce(power, 0.0, thin_chip, text, "from_memory")
    return all_in


@dataclass(frozen=True, slots=True)
class _ThinChip:
    """A kc1.1 row; ``reference_hb`` None = no correction for hardness."""

    at_1mm: float
    mc: float
    reference_hb: float | None
    power_group: str
    text: str


def _with_hardness(thin: _ThinChip, hardness_hb: float | None) -> CuttingForce:
    correction = 1.0
    if hardness_hb is not None and thin.reference_hb is not None:
        correction = _power_at(thin.power_group, hardness_hb) / _power_at(thin.power_group, thin.reference_hb)
    return CuttingForce(thin.at_1mm, thin.mc, correction, thin.text, "from_memory")


def _power_at(group: str, hardness_hb: float) -> float:
    """Power constant by hardness; the end rows reach outwards."""
    rows = _power()[group]
    return next((value for to_hb, value in rows if hardness_hb <= to_hb), rows[-1][1])


def _power_constant(material: Profile) -> float | None:
    if material.row.force_group in _power():
        return _power_at(material.row.force_group, material.hardness_hb or 0.0)
    constant = material.row.power_constant
    return None if constant is None else constant * _N_MM2_PER_HP_IN3_MIN


def _rows(kind: str) -> list[Mapping[str, str]]:
    return [row for row in tables.load("cutting_forces").rows if row["kind"] == kind]


@cache
def _thin_chip() -> Mapping[str, _ThinChip]:
    return {
        row["force_group"]: _ThinChip(
            float(row["force_n_mm2"]),
            float(row["mc"]),
            float(row["reference_hb"]) if row["reference_hb"] else None,
            row["power_group"],
            f"kc1.1 and mc of {row['printed_as']} ({row['source']})",
        )
        for row in _rows("thin_chip")
    }


@cache
def _power() -> Mapping[str, tuple[tuple[float, float], ...]]:
    found: dict[str, tuple[tuple[float, float], ...]] = {}
    for row in _rows("power_constant"):
        group = row["force_group"]
        found[group] = (*found.get(group, ()), (float(row["hb_to"]), float(row["force_n_mm2"])))
    return found


@cache
def _all_in() -> Mapping[str, CuttingForce]:
    return {
        group: CuttingForce(
            float(row["force_n_mm2"]), 0.0, 1.0, f"constant of {row['printed_as']} ({row['source']})", "from_memory"
        )
        for row in _rows("all_in")
        for group in groups_of(row["force_group"])
    }


@cache
def _flutes() -> tuple[tuple[str, float | None, int], ...]:
    return tuple(
        (row["style"], float(row["to_mm"]) if row["to_mm"] else None, int(row["flutes"]))
        for row in tables.load("tap_flutes").rows
    )
