"""The planned spindle speeds against the cutting speeds held for the part material."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from math import floor, pi

from borewright.core.cutting import speeds
from borewright.core.joint.geometry import in_mm
from borewright.core.materials.profile import profile
from borewright.core.practice import number
from borewright.core.quantity_text import cutting_speed, length

from .case import AuditCase
from .findings import Finding, Severity

_OVER_RANGE = number("audit_speed_over_range")
_CARBIDE = "carbide"


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on the spindle speeds that ``case`` plans. Nothing is said where the tables hold no speed for the
    material.

    Source: drilling and tapping speed tables of high-speed steel; v = pi d n.
    """
    yield from _machine(case)
    material = None if case.spec.material is None else profile(case.spec.material)
    if material is None:
        return
    drilling, tapping = speeds.drilling_speed(material), speeds.tapping_speed(material)
    if case.plan.spindle_speed_rpm is not None and drilling is not None:
        diameter_mm = in_mm(case.drill_diameter, case.thread)
        most = drilling.high_ft_min * speeds.M_MIN_PER_FT_MIN
        yield from _speed(case, "drill", case.plan.spindle_speed_rpm, diameter_mm=diameter_mm, most_m_min=most)
    if case.plan.tap_spindle_speed_rpm is not None and tapping is not None:
        ends = (tapping.high_ft_min, *(tapping.ceiling_ft_min or ()))
        diameter_mm = in_mm(case.thread.basic.major_diameter, case.thread)
        most = max(ends) * speeds.M_MIN_PER_FT_MIN
        yield from _speed(case, "tap", case.plan.tap_spindle_speed_rpm, diameter_mm=diameter_mm, most_m_min=most)


def _machine(case: AuditCase) -> Iterator[Finding]:
    most_rpm = case.spec.request.machine.max_spindle_speed_rpm
    planned = (
        ("spindle_speed", case.plan.spindle_speed_rpm),
        ("tap_spindle_speed", case.plan.tap_spindle_speed_rpm),
    )
    for field, planned_rpm in planned:
        if most_rpm is not None and planned_rpm is not None and planned_rpm > most_rpm:
            text = f"{planned_rpm:g} rev/min is planned; the machine turns {most_rpm:g} rev/min."
            expected = f"at most {most_rpm:g} rev/min"
            yield Finding("speed_above_machine", "warning", field, text, f"{planned_rpm:g} rev/min", expected)


def _speed(
    case: AuditCase, tool: str, planned_rpm: float, *, diameter_mm: float, most_m_min: float
) -> Iterator[Finding]:
    speed_m_min = pi * diameter_mm * planned_rpm / 1000
    if speed_m_min <= _OVER_RANGE * most_m_min:
        return
    carbide = tool == "tap" and _is_carbide(case)
    severity: Severity = "info" if carbide else "warning"
    name = case.spec.material.name if case.spec.material is not None else ""
    most_rpm = floor(1000 * most_m_min / (pi * diameter_mm))
    text = (
        f"{planned_rpm:g} rev/min on {length(Decimal(repr(diameter_mm)), 'mm')} are {cutting_speed(speed_m_min)}; the"
        f" tables of high-speed steel end at {cutting_speed(most_m_min)} ({most_rpm} rev/min) in {name}. Carbide or a"
        " coat may bear more."
    )
    field = "spindle_speed" if tool == "drill" else "tap_spindle_speed"
    yield Finding(
        f"{tool}_speed_too_high", severity, field, text, f"{planned_rpm:g} rev/min", f"at most {most_rpm} rev/min"
    )


def _is_carbide(case: AuditCase) -> bool:
    return case.tap is not None and case.tap.marking is not None and case.tap.marking.substrate == _CARBIDE
