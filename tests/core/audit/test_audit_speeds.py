"""Planned spindle speeds against printed cutting speeds: v = pi d n, in both units, to a revolution.

Ti-6Al-4V, one row each: drills 39 ft/min ("Fundamentals of Machining", Table 5.4), taps 10 to 20 ft/min (our table);
brass drills 200 to 300 ft/min (NAVEDTRA 14345);
aluminium has a ceiling of taps above its usual range. A plan may lie a tenth above the highest (our decision).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.requests import HoleSpecRequest, Machine

#: 39 ft/min = 468 in/min = 11.8872 m/min; 20 ft/min = 240 in/min = 6.096 m/min; 635 ft/min = 7620 in/min.
BY_HAND = (
    # 468/(pi 0.421875) = 353.1; 1.1 times 388.4
    ("drill", "1/2-13 UNC-2B", "27/64", "Ti-6Al-4V", 388, 389, 353),
    # 11887.2/(pi 6.8) = 556.4; 612.1
    ("drill", "M8", "6.8 mm", "Ti-6Al-4V", 612, 613, 556),
    # 91440/(pi 6.8) = 4280.4; 4708.4: the upper end of the range
    ("drill", "M8", "6.8 mm", "brass", 4708, 4709, 4280),
    # 240/(pi 0.5) = 152.8; 168.1
    ("tap", "1/2-13 UNC-2B", "27/64", "Ti-6Al-4V", 168, 169, 152),
    # 6096/(pi 8) = 242.6; 266.8
    ("tap", "M8", "6.8 mm", "Ti-6Al-4V", 266, 267, 242),
    # 7620/(pi 0.5) = 4851.0; 5336.1: the ceiling of coarse threads counts, not the 120 ft/min to start with
    ("tap", "1/2-13 UNC-2B", "27/64", "6061-T6", 5336, 5337, 4851),
)


def speeds(thread, drill, material, *, tap="", machine=None, **planned):
    hole = Hole("through", thickness=Length(Decimal(12), "mm"))
    asked = HoleSpecRequest(
        callout.read(thread), hole, material=MaterialInput(name=material), machine=machine or Machine()
    )
    said = audit(AuditRequest(asked, AsPlanned(drill, PlannedTap(tap or None), **planned))).findings
    return [one for one in said if one.code.startswith(("drill_speed", "tap_speed", "speed_"))]


@pytest.mark.parametrize(("tool", "thread", "drill", "material", "silent", "told", "most"), BY_HAND)
def test_a_speed_is_told_from_a_tenth_above_the_printed_one(tool, thread, drill, material, silent, told, most):
    field = "spindle_speed" if tool == "drill" else "tap_spindle_speed"
    assert speeds(thread, drill, material, **{f"{field}_rpm": float(silent)}) == []
    (finding,) = speeds(thread, drill, material, **{f"{field}_rpm": float(told)})
    assert (finding.code, finding.severity, finding.field) == (f"{tool}_speed_too_high", "warning", field)
    assert (finding.planned, finding.expected) == (f"{told} rev/min", f"at most {most} rev/min")


def test_a_carbide_tap_bears_more_than_the_tables_a_drill_beside_it_does_not():
    plan = {"tap": "M8x1.25 VHM D5", "spindle_speed_rpm": 613.0, "tap_spindle_speed_rpm": 267.0}
    severities = {one.code: one.severity for one in speeds("M8", "6.8 mm", "Ti-6Al-4V", **plan)}
    assert severities == {"drill_speed_too_high": "warning", "tap_speed_too_high": "info"}


def test_the_machine_may_turn_as_fast_as_it_turns():
    machine = Machine(max_spindle_speed_rpm=500.0)
    for rpm, codes in ((500.0, []), (500.5, ["speed_above_machine"])):
        said = speeds("M8", "6.8 mm", "Ti-6Al-4V", machine=machine, spindle_speed_rpm=rpm)
        assert [one.code for one in said] == codes
