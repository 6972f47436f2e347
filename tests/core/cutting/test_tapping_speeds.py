"""Factors on the tap's speed, its power, and the power constants of metals without a force of their own.

The shares are shop and handbook consensus (common practice): formed 1.5 times a cut one in the same metal, blind or
deeper than 1.5 D 20 to 30 percent less, a bottoming chamfer 25 percent less, a coat 25 to 50 percent more. No table was
seen for them: what is held here is the consensus and how they come together.
"""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import cutting_data, cutting_force
from borewright.core.cutting.records import CuttingRequest
from borewright.core.cutting.speeds import factor
from borewright.core.materials import alloys, part_material
from borewright.core.materials.profile import profile
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from every import every

M8 = standards.resolve(callout.read("M8"))
#: 6061-T6: taps start at 70 ft/min, up to 120 (common practice): 21.336 to 36.576 m/min.
START, UPPER = 21.336, 36.576
#: 12 mm of thread is just 1.5 D.
HOLE = CuttingRequest(
    material=part_material.find(MaterialInput("6061-T6")),
    hole_kind="through",
    drill_diameter=Decimal("6.8"),
    hole_diameter=Decimal("6.9"),
    drill_depth=Decimal(16),
    full_thread_depth=Decimal(12),
    tap_travel=Decimal(20),
)


def tap(**changes):
    return cutting_data.recommend(M8, HOLE._replace(**changes)).tap


@every(
    ("changes", "share"),
    [
        ({}, 1),
        ({"hole_kind": "blind"}, 0.75),
        ({"full_thread_depth": Decimal("12.1")}, 0.75),
        ({"hole_kind": "blind", "full_thread_depth": Decimal(20)}, 0.75),  # once, not twice
        ({"chamfer_name": "bottoming", "chamfer_threads": Decimal("1.5")}, 0.75),
        ({"hole_kind": "blind", "chamfer_name": "bottoming", "chamfer_threads": Decimal("1.5")}, 0.5625),
        ({"chamfer_name": "semi_bottoming", "chamfer_threads": Decimal("2.5")}, 1),
        ({"method": "form", "style": "forming"}, 1.5),
        ({"method": "form", "style": "forming", "hole_kind": "blind"}, 1.125),
        ({"coated": True}, 1),  # a coat raises the upper end alone
    ],
)
def test_the_speed_to_start_with(changes, share):
    found = tap(**changes)
    assert found.cutting_speed_m_min == pytest.approx(START * share)
    assert found.spindle_speed_rpm == math.floor(1000 * START * share / (math.pi * 8))
    coat = 1.25 if changes.get("coated") else 1
    assert found.speed_range_m_min == pytest.approx((START * share, UPPER * share * coat))


def test_a_taper_pipe_tap_runs_at_half_to_three_quarters():
    pipe = standards.resolve(callout.read("1/4-18 NPT"))
    sizes = {"drill_diameter": Decimal("0.4375"), "hole_diameter": Decimal("0.4375"), "drill_depth": Decimal("0.75")}
    sizes |= {"full_thread_depth": Decimal("0.4"), "tap_travel": Decimal("0.7")}
    found = cutting_data.recommend(pipe, HOLE._replace(**sizes)).tap
    assert 0.5 * START <= found.cutting_speed_m_min <= 0.75 * START


@every(
    ("name", "least", "most"),
    [
        ("speed_blind_or_deep", 0.70, 0.80),
        ("speed_bottoming", 0.75, 0.75),
        ("speed_coated", 1.25, 1.50),
        ("form_speed", 1.5, 1.5),
        ("speed_taper_pipe", 0.5, 0.75),
        ("thin_chip", 1.3, 1.6),
        ("packing", 1.5, 2),
        # 1/0.7 to 1/0.6 of a spiral point; 0.7 to 0.8 of a straight flute
        ("straight_flute", 1 / 0.7, 1 / 0.6),
        ("spiral_flute", 0.7 / 0.65, 0.8 / 0.65),
        ("drill_wear", 1.30, 1.30),
    ],
)
def test_factors_lie_where_shops_have_them(name, least, most):
    assert least <= factor(name) <= most


def test_thin_chips_by_the_textbooks_own_exponents():
    """kc = kc1.1 h^-mc: from chips of 0.3 mm to those of taps, 0.02 to 0.06 mm, a force grows with mc of 0.15 to 0.25
    by (0.3/0.06)^0.15 = 1.27 to (0.3/0.02)^0.25 = 1.97; the factor taken lies near the lower end, for 0.04 mm and 0.17.
    """
    assert factor("thin_chip") == pytest.approx((0.3 / 0.04) ** 0.17, abs=0.02)


def test_power_is_torque_times_angular_speed():
    """P = 2 pi n T / 60 000 kW; a machine of little power slows the tap to what it drives."""
    free = tap()
    watts = free.torque.value * 2 * math.pi * free.spindle_speed_rpm / 60
    assert free.power_kw * 1000 == pytest.approx(watts, rel=1e-4)
    half = tap(machine=Machine(max_power_kw=free.power_kw / 2))
    assert half.spindle_speed_rpm == pytest.approx(free.spindle_speed_rpm / 2, abs=1.5)
    assert half.power_kw <= free.power_kw / 2
    assert tap(machine=Machine(max_power_kw=free.power_kw * 2)).spindle_speed_rpm == free.spindle_speed_rpm


#: 1 hp = 745.70 W and 1 in3/min = 273.12 mm3/s: N/mm2 for 1 hp/(in3/min).
NEWTONS = 745.70 / 0.27312


@every(
    ("text", "constant"),
    [
        # Machinery's Handbook 31st ed. p. 1147 Table 1b, at the middle of a range of hardness
        ("1117 110 HB", 0.41),
        ("1117 150 HB", 0.44),
        ("1137 190 HB", 0.51),
        # a quarter of the way from 110 (0.41) to 130 (0.42), and by the root of the hardness under the first
        ("1117 115 HB", 0.4125),
        ("1117 90 HB", 0.41 * math.sqrt(90 / 110)),
        # not printed by hardness (from memory): at the strength that the constant stands for
        ("TI-GR1", 0.65),
    ],
)
def test_a_power_constant_times_that_of_thin_chips(text, constant):
    row = alloys.by_id().get(text)
    found = cutting_force.cutting_force(profile(part_material.find(MaterialInput(text if row is None else row.name))))
    assert found is not None
    assert found.at(0.04) == found.at(0.3) == pytest.approx(constant * NEWTONS * 1.4, rel=1.5e-3)
