"""Pecks told one by one, cones, holes as large as the tap, ceilings of taps, slow spindles: by hand."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import cutting_data, torque
from borewright.core.cutting.drill_cut import peck
from borewright.core.cutting.other_operations import cone_depth, peck_depths
from borewright.core.cutting.records import CuttingRequest
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from every import every


@every(
    ("depth", "count", "ends"),
    [
        (30, 1, None),  # 3 diameters in one go
        (31, 2, (30, 31)),
        (40, 2, (30, 40)),
        (41, 3, (30, 40, 41)),
        (50, 3, (30, 40, 50)),
        (51, 4, None),  # more than three are told by their step
    ],
)
def test_pecks_of_a_drill_of_10_mm(depth, count, ends):
    """The first is three diameters deep, the others one."""
    advice = peck(diameter_mm=10, depth_mm=depth)
    assert advice.count == count
    assert peck_depths(advice, to_mm=depth) == ends


@every(
    ("wide", "narrow", "angle", "depth"),
    [(10, 0, 90, 5), (10, 4, 90, 3), (10, 4, 120, 3 / math.sqrt(3)), (4, 4, 90, 0), (4, 10, 90, 0)],
)
def test_depth_of_a_cone(wide, narrow, angle, depth):
    """Half the difference over the tangent of half the angle; none where it is no wider than the hole."""
    assert cone_depth(wide_mm=wide, narrow_mm=narrow, angle_deg=angle) == pytest.approx(depth)


@every("hole", [8, 8.1, 10])
def test_a_hole_as_large_as_the_tap_leaves_no_chip(hole):
    cut = torque.section(major_mm=8, hole_mm=hole, crest_mm=0.15625, tan_half_angle=math.tan(math.radians(30)))
    assert (cut.depth_mm, cut.area_mm2, cut.arm_mm) == (0, 0, 4)


M8 = standards.resolve(callout.read("M8"))
HOLE = CuttingRequest(
    material=part_material.find(MaterialInput("6061-T6")),
    hole_kind="through",
    drill_diameter=Decimal("6.8"),
    hole_diameter=Decimal("6.9"),
    drill_depth=Decimal(16),
    full_thread_depth=Decimal(12),
    tap_travel=Decimal(20),
)


@every(
    ("text", "coarse", "fine"),
    [
        ("6061-T6", 635, 565),
        ("1010 110 HB", 140, 185),
        ("4140 200 HB", 125, 160),
        ("304 160 HB", 35, 45),
        ("A48 class 20 175 HB", 90, 80),
        ("A48 class 20 250 HB", 55, 45),
    ],
)
def test_ceilings_of_taps_for_coarse_and_fine_pitch(text, coarse, fine):
    """Machinery's Handbook 27th ed. Tables 17-21, quoted second-hand, in ft/min: 0.3048 m/min each."""
    found = cutting_data.recommend(M8, HOLE._replace(material=part_material.find(MaterialInput(text)))).tap
    assert found.speed_ceiling_m_min == pytest.approx((coarse * 0.3048, fine * 0.3048))


def test_a_machine_of_almost_no_power_still_turns():
    """Never less than one revolution a minute, whatever is asked of it."""
    cut = cutting_data.recommend(M8, HOLE._replace(machine=Machine(max_power_kw=1e-6)))
    assert (cut.drill.spindle_speed_rpm, cut.tap.spindle_speed_rpm) == (1, 1)
