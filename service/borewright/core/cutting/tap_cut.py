"""Speed, torque, break margin, power and time of the tap."""

from __future__ import annotations

from math import floor, pi

from borewright.core import quantity_text
from borewright.core.materials.profile import CuttingProfile
from borewright.core.model import Thread

from . import drilling_forces as forces
from . import speeds
from .drill_cut import interpolated, speed_of, speed_range
from .records import CuttingNotes, TapCut, ToolsRequest
from .speeds import M_MIN_PER_FT_MIN, factor
from .tap_torque import TapForm, break_margin, breaking, clutch, tap_form, tap_torque
from .torque import Band


def tap_cut(material: CuttingProfile, request: ToolsRequest, thread: Thread, *, log: CuttingNotes) -> TapCut:
    """Cutting data of the tap of ``request`` for ``thread`` in ``material``; the speed is None where none is held or
    the tap is turned by hand.

    Args: ``log`` takes the notes.
    Source: tapping_speeds, tapping_factors, cutting_forces tables; chip-section model, not validated.
    """
    form = tap_form(thread)
    needed = tap_torque(material, request, thread, log=log)
    strength = None if thread.taper is not None else breaking(form, log=log)
    margin, driven = None, request.machine.tapping != "hand"
    if needed is not None and strength is not None:
        margin = break_margin(needed=needed, breaking=strength, driven=driven, log=log)
    speed = None if not driven else speeds.tapping_speed(material)
    log.work("tap.feed", "lead", {"lead": form.lead_mm}, form.lead_mm, "mm/rev")
    log.source("tap.feed", "geometry", "the lead of the thread", "computed")
    wanted = turns = power = span = None
    if speed is not None:
        interpolated("tap", speed, log)
        wanted = _speed(speed, request, log, taper=thread.taper is not None)
        factors = wanted / (speed.value_ft_min * M_MIN_PER_FT_MIN)
        turns, wanted = _spindle_speed(wanted, form, needed, request, log)
        span = _range(speed, factors, wanted, request, log)
        log.source("tap.time", "geometry", "in and out at the same speed, no positioning", "computed")
        if needed is not None:
            power = forces.power_kw(torque_n_m=needed.value, spindle_speed_rpm=turns)
            log.work("tap.power", "T * n / 9550", {"T": needed.value, "n": turns}, power, "kW")
            log.source(
                "tap.power", "Machinery's Handbook 31st ed.", "p. 1152, with the torque of the model", "computed"
            )
    at_risk = margin is not None and margin.low < 1
    setting = clutch(needed, strength, at_risk=at_risk, log=log) if driven else None
    return TapCut(
        cutting_speed_m_min=wanted,
        speed_range_m_min=span,
        speed_ceiling_m_min=_metric(speed.ceiling_ft_min) if speed is not None and speed.ceiling_ft_min else None,
        spindle_speed_rpm=turns,
        feed_mm_rev=form.lead_mm,
        torque=needed,
        breaking_torque=strength,
        break_margin=margin,
        clutch_torque_n_m=setting,
        power_kw=power,
    )


def tap_time(cut: TapCut, *, travel_mm: float, log: CuttingNotes) -> float | None:
    """Cutting time of ``cut`` in seconds, ``travel_mm`` in and out at the same speed; None for a tap that no spindle
    turns.

    Args: ``log`` takes the notes.
    Source: geometry, travel over feed rate.
    """
    if cut.spindle_speed_rpm is None:
        return None
    inputs = {"travel": travel_mm, "lead": cut.feed_mm_rev, "n": cut.spindle_speed_rpm}
    seconds = 2 * 60 * travel_mm / (cut.feed_mm_rev * cut.spindle_speed_rpm)
    return log.work("tap.time", "2 * 60 * travel / (lead * n)", inputs, seconds, "s")


def _speed(speed: speeds.Speed, request: ToolsRequest, log: CuttingNotes, *, taper: bool) -> float:
    """Cutting speed in m/min: the start value with the factors of hole, chamfer, taper and method."""
    names = ["speed_taper_pipe"] if taper else []
    if request.hole_kind == "blind" or request.deep:
        names.append("speed_blind_or_deep")
    if request.chamfer_name == "bottoming":
        names.append("speed_bottoming")
    if request.method == "form":
        names.append("form_speed")
    inputs: dict[str, object] = {"v": speed.value_ft_min}
    value, formula = speed.value_ft_min, "0.3048 * v"
    for name in names:
        value *= factor(name)
        inputs[name] = factor(name)
        formula += f" * {name}"
    log.source(
        "tap.cutting_speed",
        speed.row.source,
        f"{speed.row.printed_as}: low end to start with"
        + (", interpolated by hardness" if speed.between is not None else ""),
        speed.row.status,
    )
    if speed.ceiling_ft_min is not None:
        log.source(
            "tap.speed_ceiling",
            "Machinery's Handbook 27th ed.",
            "Tables 17-21, quoted in a research note",
            "from_memory",
        )
    return log.work("tap.cutting_speed", formula, inputs, M_MIN_PER_FT_MIN * value, "m/min")


def _range(
    speed: speeds.Speed, factors: float, used_m_min: float, request: ToolsRequest, log: CuttingNotes
) -> tuple[float, float]:
    """Printed range with the factors of the speed; a coat raises its upper end, not the speed to start with."""
    low, high = speed_range(speed, speed_factor=factors, used_m_min=used_m_min)
    if request.coated:
        high *= factor("speed_coated")
        log.assume(f"the coat raises the upper end of the tap's speeds by {factor('speed_coated'):g}")
    return low, high


def _spindle_speed(
    speed_m_min: float, form: TapForm, needed: Band | None, request: ToolsRequest, log: CuttingNotes
) -> tuple[int, float]:
    """Whole revolutions a minute, not above what the machine turns or drives, and the cutting speed they make."""
    machine = request.machine
    inputs: dict[str, object] = {"v": speed_m_min, "d": form.major_mm}
    limits, terms = {"wanted": 1000 * speed_m_min / (pi * form.major_mm)}, ["1000 * v / (pi * d)"]
    if machine.max_spindle_speed_rpm is not None:
        limits["machine speed"], inputs["cap"] = machine.max_spindle_speed_rpm, machine.max_spindle_speed_rpm
        terms.append("cap")
    if machine.max_power_kw is not None and needed is not None:
        limits["machine power"] = 9550 * machine.max_power_kw / needed.value
        inputs |= {"P": machine.max_power_kw, "T": needed.value}
        terms.append("9550 * P / T")
    by = min(limits, key=lambda name: limits[name])
    formula = terms[0] if len(terms) == 1 else f"min({', '.join(terms)})"
    turns = max(floor(limits[by]), 1)
    log.work("tap.spindle_speed", f"down({formula}, 0)", inputs, turns, "rev/min")
    log.source("tap.spindle_speed", "geometry", "v = pi d n", "computed")
    if needed is not None and machine.max_torque_n_m is not None and needed.high > machine.max_torque_n_m:
        log.caution(
            "machine_torque_exceeded",
            f"The tap may need {quantity_text.torque(needed.high)}, more than the machine's"
            f" {quantity_text.torque(machine.max_torque_n_m)}.",
        )
    if by == "wanted":
        return turns, speed_m_min
    log.assume(f"spindle speed of the tap held down by the {by}")
    return turns, speed_of(turns, form.major_mm, "tap.cutting_speed", log)


def _metric(pair_ft_min: tuple[float, float]) -> tuple[float, float]:
    return pair_ft_min[0] * M_MIN_PER_FT_MIN, pair_ft_min[1] * M_MIN_PER_FT_MIN
