"""Speed, feed, forces, power and time of the drill."""

from __future__ import annotations

from math import ceil, floor, pi

from borewright.core import quantity_text
from borewright.core.materials.profile import CuttingProfile
from borewright.core.practice import number
from borewright.core.requests import Machine

from . import drilling_forces as forces
from . import speeds
from .records import CuttingNotes, DrillCut, Peck, ToolsRequest
from .speeds import M_MIN_PER_FT_MIN

_MM_PER_IN = 25.4

#: Hardness up to which the middle and from which the low end of the feed range is taken, a straight line between.
_SOFT_HB, _HARD_HB = number("middle_feed_to_hb"), number("low_feed_from_hb")
_CARBIDE_HB = number("carbide_drill_over_hb")

#: Depth over diameter up to which a hole is drilled in one go, and the first and next pecks.
_NO_PECK_D, _FIRST_PECK_D = number("peck_over_diameters"), number("first_peck_diameters")
_NEXT_PECK_D = number("next_peck_diameters")


def drill_cut(material: CuttingProfile, request: ToolsRequest, *, diameter_mm: float, log: CuttingNotes) -> DrillCut:
    """Cutting data of the drill of ``diameter_mm`` in ``material``, in the units that the record's names say.

    Args: ``request`` with depth factors and machine; ``log`` takes the notes.
    Raises: ValueError when no speed is held (ask ``speeds.drilling_speed`` first).

    Source: drilling_speeds, drilling_feeds, drilling_constants tables; Machinery's Handbook 31st ed. p. 1152.
    """
    speed = speeds.drilling_speed(material)
    if speed is None:
        raise ValueError("no drilling speed held")
    slower, lighter = request.drill_factors
    interpolated("drill", speed, log)
    wanted = log.work(
        "drill.cutting_speed", "0.3048 * v * k", {"v": speed.value_ft_min, "k": slower},
        M_MIN_PER_FT_MIN * speed.value_ft_min * slower, "m/min",
    )  # fmt: skip
    feed, feed_range = _feed(material, diameter_mm=diameter_mm, lighter=lighter, log=log)
    thrust, torque = _forces(material, diameter_mm=diameter_mm, feed_mm=feed, log=log)
    turns, speed_m_min = _spindle_speed(
        request.machine, speed_m_min=wanted, diameter_mm=diameter_mm, torque_n_m=torque, log=log
    )
    power = None if torque is None else _power(torque, turns, log)
    _say(material, request.machine, speed, torque, log)
    return DrillCut(
        cutting_speed_m_min=speed_m_min,
        speed_range_m_min=speed_range(speed, speed_factor=slower, used_m_min=speed_m_min),
        spindle_speed_rpm=turns,
        feed_mm_rev=feed,
        feed_range_mm_rev=feed_range,
        thrust_n=thrust,
        torque_n_m=torque,
        power_kw=power,
    )


def interpolated(tool: str, speed: speeds.Speed, log: CuttingNotes) -> None:
    """Note in ``log``, for ``tool``, the step of ``speed`` from two printed ones to the one at the hardness of the
    part, where there is one.

    Source: linear interpolation between the middles of two printed ranges of hardness.
    """
    if speed.between is not None:
        inputs = dict(zip(("x", "x1", "x2", "v1", "v2"), speed.between, strict=True))
        log.work(f"{tool}.table_speed", "v1 + (v2 - v1) * (x - x1) / (x2 - x1)", inputs, speed.value_ft_min, "ft/min")


def speed_range(speed: speeds.Speed, *, speed_factor: float, used_m_min: float) -> tuple[float, float]:
    """Printed range of ``speed`` in m/min times ``speed_factor``; it starts at ``used_m_min`` where a machine holds it
    down.

    Source: as the speed.
    """
    low, high = (end * speed_factor * M_MIN_PER_FT_MIN for end in (speed.low_ft_min, speed.high_ft_min))
    return min(low, used_m_min), max(high, used_m_min)


def drill_time(cut: DrillCut, *, depth_mm: float, log: CuttingNotes) -> float:
    """Cutting time of ``cut`` in seconds, ``depth_mm`` to the drill's tip; ``log`` takes the notes.

    Source: geometry, travel over feed rate.
    """
    inputs = {"depth": depth_mm, "f": cut.feed_mm_rev, "n": cut.spindle_speed_rpm}
    seconds = 60 * depth_mm / (cut.feed_mm_rev * cut.spindle_speed_rpm)
    return log.work("drill.time", "60 * depth / (f * n)", inputs, seconds, "s")


def peck(*, diameter_mm: float, depth_mm: float) -> Peck:
    """Whether and how to peck a hole of ``diameter_mm``, ``depth_mm`` deep, by depth over diameter.

    Source: common practice.
    """
    ratio = depth_mm / diameter_mm
    if ratio <= _NO_PECK_D:
        return Peck(ratio, None, None, 1)
    pecks = 1 + ceil((ratio - _FIRST_PECK_D) / _NEXT_PECK_D - 1e-9)
    return Peck(ratio, _FIRST_PECK_D * diameter_mm, _NEXT_PECK_D * diameter_mm, pecks)


def _feed(
    material: CuttingProfile, *, diameter_mm: float, lighter: float, log: CuttingNotes
) -> tuple[float, tuple[float, float]]:
    """Feed a revolution: the low end of the range in hard metal, its middle in soft, less in deep holes."""
    row = speeds.drilling_feed(diameter_mm / _MM_PER_IN)
    share = 0.0
    if material.row.iso_group not in ("M", "S", "H"):
        softer = (_HARD_HB - (material.hardness_hb or 0.0)) / (_HARD_HB - _SOFT_HB)
        share = 0.5 * min(max(softer, 0.0), 1.0)
    log.source("drill.feed", "NAVEDTRA 14345 (U.S. Navy training course)", "drilling page, by diameter", "published")
    inputs = {"low": row.low_in_rev, "high": row.high_in_rev, "s": share, "k": lighter}
    value = _MM_PER_IN * (row.low_in_rev + share * (row.high_in_rev - row.low_in_rev)) * lighter
    feed = log.work("drill.feed", "25.4 * (low + s * (high - low)) * k", inputs, value, "mm/rev")
    return feed, (row.low_in_rev * _MM_PER_IN, row.high_in_rev * _MM_PER_IN)


def _forces(
    material: CuttingProfile, *, diameter_mm: float, feed_mm: float, log: CuttingNotes
) -> tuple[float | None, float | None]:
    """Thrust in N and torque in N m, None where no constant is held for the material."""
    constant = forces.material_constant(material)
    if constant is None:
        log.caution("drill_forces_not_held", f"No drilling constant is held for {material.name}: no thrust or torque.")
        return None, None
    chisel, wear = forces.standard_chisel(), forces.wear_factor(material)
    size = {
        "kd": constant.kd,
        "feed_in_rev": feed_mm / _MM_PER_IN,
        "diameter_in": diameter_mm / _MM_PER_IN,
        "wear": wear,
    }
    thrust = forces.thrust_lbf(**size, chisel=chisel) * forces.N_PER_LBF
    torque = forces.torque_lbf_in(**size, chisel=chisel) * forces.N_M_PER_LBF_IN
    shared = {"Kd": constant.kd, "f": feed_mm, "d": diameter_mm, "W": wear}
    log.work(
        "drill.thrust",
        "4.4482216152605 * Kd * W * (2 * (f / 25.4) ** 0.8 * (d / 25.4) ** 0.8 * B + (d / 25.4) ** 2 * J)",
        {**shared, "B": chisel.b, "J": chisel.j},
        thrust,
        "N",
    )
    log.work(
        "drill.torque",
        "0.1129848290276167 * Kd * W * (f / 25.4) ** 0.8 * (d / 25.4) ** 1.8 * A",
        {**shared, "A": chisel.a},
        torque,
        "N*m",
    )
    where = f"p. 1152 formulas; Kd {constant.kd:.0f} of {constant.printed_as}, W {wear:g} and standard chisel edge"
    for name in ("drill.thrust", "drill.torque", "drill.power"):
        log.source(name, "Machinery's Handbook 31st ed.", where, "from_memory")
    return thrust, torque


def _spindle_speed(
    machine: Machine, *, speed_m_min: float, diameter_mm: float, torque_n_m: float | None, log: CuttingNotes
) -> tuple[int, float]:
    """Whole revolutions a minute, not above what the machine turns or drives, and the cutting speed they make."""
    inputs: dict[str, object] = {"v": speed_m_min, "d": diameter_mm}
    limits = {"wanted": 1000 * speed_m_min / (pi * diameter_mm)}
    terms = ["1000 * v / (pi * d)"]
    if machine.max_spindle_speed_rpm is not None:
        limits["machine speed"], inputs["cap"] = machine.max_spindle_speed_rpm, machine.max_spindle_speed_rpm
        terms.append("cap")
    if machine.max_power_kw is not None and torque_n_m is not None:
        limits["machine power"] = 9550 * machine.max_power_kw / torque_n_m
        inputs |= {"P": machine.max_power_kw, "T": torque_n_m}
        terms.append("9550 * P / T")
    by = min(limits, key=lambda name: limits[name])
    formula = terms[0] if len(terms) == 1 else f"min({', '.join(terms)})"
    turns = max(floor(limits[by]), 1)
    log.work("drill.spindle_speed", f"down({formula}, 0)", inputs, turns, "rev/min")
    log.source("drill.spindle_speed", "geometry", "v = pi d n", "computed")
    if by == "wanted":
        return turns, speed_m_min
    log.assume(f"spindle speed of the drill held down by the {by}")
    return turns, speed_of(turns, diameter_mm, "drill.cutting_speed", log)


def speed_of(turns: int, diameter_mm: float, quantity: str, log: CuttingNotes) -> float:
    """Cutting speed in m/min that ``turns`` a minute make at ``diameter_mm``; ``log`` notes it as ``quantity``.

    Source: geometry, v = pi d n.
    """
    value = pi * diameter_mm * turns / 1000
    return log.work(quantity, "pi * d * n / 1000", {"d": diameter_mm, "n": turns}, value, "m/min")


def _power(torque_n_m: float, turns: int, log: CuttingNotes) -> float:
    value = forces.power_kw(torque_n_m=torque_n_m, spindle_speed_rpm=turns)
    return log.work("drill.power", "T * n / 9550", {"T": torque_n_m, "n": turns}, value, "kW")


def _say(
    material: CuttingProfile, machine: Machine, speed: speeds.Speed, torque_n_m: float | None, log: CuttingNotes
) -> None:
    row = speed.row
    line = ", interpolated by hardness" if speed.between is not None else ""
    log.source("drill.cutting_speed", row.source, row.printed_as + line, row.status)
    log.source("drill.peck", "", f"in one go to {_NO_PECK_D:g} D, then pecks of {_NEXT_PECK_D:g} D", "common_practice")
    log.source("drill.time", "geometry", "cutting time only: no positioning, pecking or tool change", "computed")
    if material.hardness_hb is None and (row.hb_from is not None or row.hb_to is not None):
        log.assume(f"hardness of {material.name} not known: the slowest drilling speed of its group is taken")
    if (material.hardness_hb or 0.0) > _CARBIDE_HB:
        log.assume("drilling speed is that of a cobalt drill: a carbide drill bears what its maker says")
    if torque_n_m is not None and machine.max_torque_n_m is not None and torque_n_m > machine.max_torque_n_m:
        log.caution(
            "machine_torque_exceeded",
            f"The drill needs about {quantity_text.torque(torque_n_m)}, more than the machine's"
            f" {quantity_text.torque(machine.max_torque_n_m)}.",
        )
