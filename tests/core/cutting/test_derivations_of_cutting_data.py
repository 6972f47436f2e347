"""The derivation of cutting data: each figure has its line, with the value that is shown, and no other has one."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from borewright.core.shop_figures.figures import MeasuredTorque, ShopFigures
from whole_data import about, of, said, tap_torque

BANDS = ("", ".low", ".high")


def told_steps(data):
    return {one.quantity: (one.value, one.unit) for one in data.notes.steps}


def test_every_figure_is_derived():
    """In the order of the work; no other figure is."""
    data = of()
    drill, tap = data.drill, data.tap
    derived = {
        "drill.cutting_speed": (drill.cutting_speed_m_min, "m/min"), "drill.feed": (drill.feed_mm_rev, "mm/rev"),
        "drill.spindle_speed": (drill.spindle_speed_rpm, "rev/min"), "drill.thrust": (drill.thrust_n, "N"),
        "drill.torque": (drill.torque_n_m, "N*m"), "drill.power": (drill.power_kw, "kW"),
        "drill.time": (data.drill_time_s, "s"), "tap.time": (data.tap_time_s, "s"),
        "tap.cutting_speed": (tap.cutting_speed_m_min, "m/min"), "tap.feed": (tap.feed_mm_rev, "mm/rev"),
        "tap.spindle_speed": (tap.spindle_speed_rpm, "rev/min"), "tap.power": (tap.power_kw, "kW"),
        "tap.clutch_torque": (tap.clutch_torque_n_m, "N*m"), "tap.chamfer_fill": (1, ""),
        # 90 ft/min at 150 HB, 75 at 200: 75.6 at 198
        "drill.table_speed": (about(75.6), "ft/min"),
        **{f"tap.torque{end}": (value, "N*m") for end, value in zip(BANDS, tap.torque, strict=True)},
        **{f"tap.breaking_torque{end}": (value, "N*m") for end, value in zip(BANDS, tap.breaking_torque, strict=True)},
        **{f"tap.break_margin{end}": (value, "") for end, value in zip(BANDS, tap.break_margin, strict=True)},
    }  # fmt: skip
    geometry = {"thread_depth", "chip_section", "chip_arm", "chip_thickness", "specific_cutting_force", "total_factor"}
    told = told_steps(data)
    assert {name: told[name] for name in derived} == derived
    assert set(told) - set(derived) == {f"tap.{name}" for name in geometry}
    inputs = {one.quantity: one.inputs for one in data.notes.steps}
    assert inputs["drill.power"] == {"T": drill.torque_n_m, "n": drill.spindle_speed_rpm}
    assert inputs["tap.power"] == {"T": tap.torque.value, "n": tap.spindle_speed_rpm}


def test_a_speed_between_two_printed_ones_is_derived_for_the_tap_too():
    """30 ft/min to 250 HB (225), 15 to 350 (300): 21 at 270 HB."""
    data = of(material=part_material.find(MaterialInput("1045 270 HB")))
    assert told_steps(data)["tap.table_speed"] == (about(21), "ft/min")


def test_turns_that_a_machine_holds_down_are_derived():
    """pi d n / 1000 of the drill of 6.8 mm and the tap of 8 mm at 200 turns."""
    steps = of(machine=Machine(max_spindle_speed_rpm=200.0)).notes.steps
    for tool, diameter in (("drill", 6.8), ("tap", 8.0)):
        last = [one for one in steps if one.quantity == f"{tool}.cutting_speed"][-1]
        assert (last.formula, last.inputs) == ("pi * d * n / 1000", {"d": diameter, "n": 200})


def test_a_torque_that_the_shop_measured():
    """0.8 times the model, 0.6 to 1.1 times for the next hole."""
    data = of(shop_figures=ShopFigures(tapping_torque=(MeasuredTorque(count=5, median=0.8, low=0.6, high=1.1),)))
    model = tap_torque(hole_mm=6.9, kc1=2220, mc=0.14, chamfer=4, flutes=3, factor=1.28)
    assert data.tap.torque == tuple(map(about, (0.8 * model, 0.6 * model, 1.1 * model)))
    steps = [
        (one.quantity, one.formula, one.inputs.get("f")) for one in data.notes.steps if "tap.torque" in one.quantity
    ]
    assert steps[1:] == [
        ("tap.torque", "T * f", 0.8),
        ("tap.torque.low", "T * f", 0.6),
        ("tap.torque.high", "T * f", 1.1),
    ]
    (source,) = [one for one in data.notes.sources if one.field == "tap.torque"]
    assert (source.document, source.locator, source.status) == ("shop figures", "5 pieces", "measured")
    words = said(data)[0]
    assert "tapping torque by what the shop measured: 5 pieces" in words
    assert not [one for one in words if "never a guarantee" in one]


def test_a_formed_torque_is_derived_at_both_ends():
    data = of(method="form", style="forming", hole_diameter=Decimal("7.4"))
    steps = {one.quantity: (one.formula, one.value) for one in data.notes.steps}
    low, high = data.tap.torque[1:]
    assert (steps["tap.torque.low"], steps["tap.torque.high"]) == (("T * low", low), ("T * high", high))
