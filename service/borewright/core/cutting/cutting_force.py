"""Specific cutting force of a material in tapping chips, by the hardness or tensile strength of the part.

Every family has one force at a reference strength; from there it follows the strength of the part without steps.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import cast

from borewright import tables
from borewright.core.caches import OF_MATERIALS, cached, read_once
from borewright.core.materials.profile import CuttingProfile, groups_of
from borewright.core.model import Status, by_formula
from borewright.core.practice import number

from .speeds import factor

_HARDEST_HB = number("hardest_cut_hb")

#: 1 hp of 550 ft lbf a second, 745.700 W, over 1 in3 a minute, 273.118 mm3 a second.
_N_MM2_PER_HP_IN3_MIN = 2730.32
_STEEL = "steel"

#: Points of a strength (HB or MPa) and what holds there, weakest first.
Points = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class CuttingForce:
    """Specific cutting force: ``at_1mm`` N/mm2 times chip thickness to the power ``-mc``, times ``correction``."""

    at_1mm: float
    mc: float
    correction: float
    text: str
    status: Status

    def at(self, chip_mm: float) -> float:
        """Specific cutting force in N/mm2 for a chip of ``chip_mm``."""
        return float(self.at_1mm * chip_mm ** (-self.mc) * self.correction)


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the table: its force holds at ``reference`` (HB, or MPa where ``by_tensile``; None = not told)."""

    force: float
    mc: float
    reference: float | None
    by_tensile: bool
    power_group: str
    text: str
    status: Status


@cached(OF_MATERIALS)
def cutting_force(material: CuttingProfile) -> CuttingForce | None:
    """Specific cutting force of a material in tapping chips, None where no constant is held.

    kc1.1 and mc of a textbook where it has the material; else the larger of the handbook's power constant times the
    thin-chip factor and the all-in constant of the older handbook. All follow the strength of the part.

    Source: cutting_forces and materials tables.
    """
    group = material.row.force_group
    if (material.hardness_hb or 0.0) > _HARDEST_HB:
        return None
    for row in _rows("thin_chip").get(group, ()):
        return _thin_chip(row, material)
    power, rows = _power_constant(material), _rows("all_in").get(group, _rows("reference").get(group, ()))
    all_in = _by_strength(rows, material) if rows else None
    if power is not None and (all_in is None or power * factor("thin_chip") >= all_in):
        text = f"power constant {power:.0f} N/mm2 x {factor('thin_chip'):g} for thin chips"
        return CuttingForce(power, 0.0, factor("thin_chip"), text, "from_memory")
    if all_in is None:
        return None
    nearest = _nearest(rows, material)
    return CuttingForce(all_in, 0.0, 1.0, nearest.text, by_formula(nearest.status))


def along(points: Points, value: float) -> float:
    """What ``points`` of strength and figure say for the strength ``value``, in the unit of the points: a straight line
    between two points, outside them the end by the power of strength.

    Source: strength_exponent of the tapping_factors table (common practice).
    """
    for (x1, y1), (x2, y2) in pairwise(points):
        if x1 <= value <= x2:
            return y1 + (y2 - y1) * (value - x1) / (x2 - x1)
    end, there = points[0] if value < points[0][0] else points[-1]
    return float(there * (value / end) ** factor("strength_exponent"))


def _thin_chip(row: _Row, material: CuttingProfile) -> CuttingForce:
    text = f"kc1.1 and mc of {row.text}"
    return CuttingForce(row.force, row.mc, _correction(row, material), text, by_formula(row.status))


def _correction(row: _Row, material: CuttingProfile) -> float:
    """Force at the strength of the part over that at the reference strength."""
    strength = _strength(row, material)
    if strength is None or row.reference is None:
        return 1.0
    if row.power_group:
        return _power_at(row.power_group, strength) / _power_at(row.power_group, row.reference)
    return along([(row.reference, 1.0)], strength)


def _strength(row: _Row, material: CuttingProfile) -> float | None:
    return material.tensile_mpa if row.by_tensile else material.hardness_hb


def _by_strength(rows: Sequence[_Row], material: CuttingProfile) -> float:
    first, *_ = rows
    strength = _strength(first, material)
    points = [(row.reference, row.force) for row in rows if row.reference is not None]
    return first.force if strength is None else along(points, strength)


def _nearest(rows: Sequence[_Row], material: CuttingProfile) -> _Row:
    first, *_ = rows
    strength = _strength(first, material) or 0.0
    return min(rows, key=lambda row: abs((row.reference or 0.0) - strength))


def _power_at(group: str, hardness_hb: float) -> float:
    """Power constant by hardness; beyond the last row it grows as the older handbook's constants of steel do."""
    points = _power()[group]
    last_hb, last = points[-1]
    if hardness_hb <= last_hb:
        return along(points, hardness_hb)
    steel = [(row.reference, row.force) for row in _rows("all_in")[_STEEL] if row.reference is not None]
    return last * along(steel, hardness_hb) / along(steel, last_hb)


def _power_constant(material: CuttingProfile) -> float | None:
    group, constant = material.row.force_group, material.row.power_constant
    if group in _power():
        return _power_at(group, material.hardness_hb or _power()[group][0][0])
    if constant is None:
        return None
    rows = _rows("all_in").get(group, _rows("reference").get(group, ()))
    return constant * _N_MM2_PER_HP_IN3_MIN * (_correction(*rows, material) if len(rows) == 1 else 1.0)


@read_once
def _rows(kind: str) -> Mapping[str, tuple[_Row, ...]]:
    found: dict[str, tuple[_Row, ...]] = {}
    for cells in tables.load("cutting_forces").rows:
        for group in groups_of(cells["force_group"]) if cells["kind"] == kind else ():
            found[group] = (*found.get(group, ()), _row(cells))
    return found


def _row(cells: Mapping[str, str]) -> _Row:
    reference = cells["reference_mpa"] or cells["reference_hb"]
    return _Row(
        force=float(cells["force_n_mm2"] or 0),
        mc=float(cells["mc"] or 0),
        reference=float(reference) if reference else None,
        by_tensile=bool(cells["reference_mpa"]),
        power_group=cells["power_group"],
        text=f"{cells['printed_as']} ({cells['source']})",
        status=cast(Status, cells["status"]),
    )


@read_once
def _power() -> Mapping[str, tuple[tuple[float, float], ...]]:
    """Power constants at the middle of their range of hardness."""
    found: dict[str, tuple[tuple[float, float], ...]] = {}
    for row in tables.load("cutting_forces").rows:
        if row["kind"] == "power_constant":
            point = ((float(row["hb_from"]) + float(row["hb_to"])) / 2, float(row["force_n_mm2"]))
            found[row["force_group"]] = (*found.get(row["force_group"], ()), point)
    return found
