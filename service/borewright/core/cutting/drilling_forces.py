"""Thrust and torque of a twist drill by the handbook's formulas."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from borewright import tables
from borewright.core.caches import OF_MATERIALS, cached, read_once
from borewright.core.materials.profile import CuttingProfile, groups_of
from borewright.core.practice import number

from .speeds import factor

N_PER_LBF = 4.4482216152605
N_M_PER_LBF_IN = 0.1129848290276167

_STANDARD_CHISEL = number("standard_chisel_edge")
_HARD_HB = number("hard_drilling_over_hb")


@dataclass(frozen=True, slots=True)
class Chisel:
    """Chisel-edge factors: A on torque, B and J on thrust."""

    a: float
    b: float
    j: float


@dataclass(frozen=True, slots=True)
class MaterialConstant:
    """Constant Kd of a material, with the row it was read from."""

    kd: float
    printed_as: str


def thrust_lbf(*, kd: float, feed_in_rev: float, diameter_in: float, wear: float, chisel: Chisel) -> float:
    """Thrust of a drill in lbf: 2 Kd Ff FT B W + Kd D^2 J W, with Ff = f^0.8 and FT = D^0.8.

    Args: ``kd`` of the material; ``feed_in_rev`` a revolution; ``diameter_in``; ``wear`` W; ``chisel`` B and J.
    Source: Machinery's Handbook 31st ed. p. 1152.
    """
    lips: float = 2 * kd * feed_in_rev**0.8 * diameter_in**0.8 * chisel.b * wear
    return lips + kd * diameter_in**2 * chisel.j * wear


def torque_lbf_in(*, kd: float, feed_in_rev: float, diameter_in: float, wear: float, chisel: Chisel) -> float:
    """Torque of a drill in lbf in: Kd Ff FM A W, with FM = D^1.8.

    Args: ``kd`` of the material; ``feed_in_rev`` a revolution; ``diameter_in``; ``wear`` W; ``chisel`` A.
    Source: Machinery's Handbook 31st ed. p. 1152.
    """
    return float(kd * feed_in_rev**0.8 * diameter_in**1.8 * chisel.a * wear)


def power_kw(*, torque_n_m: float, spindle_speed_rpm: float) -> float:
    """Power at the cutting edge in kW: ``torque_n_m`` times ``spindle_speed_rpm`` / 9550.

    Source: Machinery's Handbook 31st ed. p. 1152.
    """
    return torque_n_m * spindle_speed_rpm / 9550


@read_once
def standard_chisel() -> Chisel:
    """Factors of a standard drill.

    Source: Machinery's Handbook 31st ed. p. 1152 Table 7.
    """
    row = next(row for row in tables.load("drilling_chisel_factors").rows if float(row["c_over_d"]) == _STANDARD_CHISEL)
    return Chisel(float(row["A"]), float(row["B"]), float(row["J"]))


@cached(OF_MATERIALS)
def material_constant(material: CuttingProfile) -> MaterialConstant | None:
    """Constant Kd of ``material``: between two printed hardnesses on a straight line, softer than the first as the
    first, harder: none.

    Source: Machinery's Handbook 31st ed., Machining Power Table 6 (from memory).
    """
    points = _constants().get(material.row.force_group)
    if not points:
        return None
    first_hb, first_kd, label = points[0]
    wanted = material.hardness_hb
    if first_hb is None or wanted is None or wanted <= first_hb:
        return MaterialConstant(first_kd, label)
    for (low_hb, low_kd, _), (high_hb, high_kd, high_label) in pairwise(points):
        if low_hb is not None and high_hb is not None and wanted <= high_hb:
            kd = low_kd + (high_kd - low_kd) * (wanted - low_hb) / (high_hb - low_hb)
            return MaterialConstant(kd, f"up to {high_label}")
    return None


def wear_factor(material: CuttingProfile) -> float:
    """Wear factor W of ``material``: general drilling, or a metal that is hard to machine.

    Source: Machinery's Handbook, Machining Power Table 3 (from memory).
    """
    hard = material.row.iso_group in ("S", "H") or (material.hardness_hb or 0.0) > _HARD_HB
    return factor("drill_wear_hard" if hard else "drill_wear")


@read_once
def _constants() -> Mapping[str, tuple[tuple[float | None, float, str], ...]]:
    found: dict[str, tuple[tuple[float | None, float, str], ...]] = {}
    for row in tables.load("drilling_constants").rows:
        point = (float(row["hb"]) if row["hb"] else None, float(row["kd"]), row["printed_as"])
        for group in groups_of(row["force_group"]):
            found[group] = (*found.get(group, ()), point)
    return found
