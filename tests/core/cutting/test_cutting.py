"""Cutting data of whole holes: handbook example, caps, bands, cautions, and answers redone from their derivation."""

import math
from dataclasses import replace
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from itertools import pairwise

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import cutting_data, drilling_forces, speeds, torque
from borewright.core.cutting.records import CuttingRequest
from borewright.core.materials import alloys, part_material
from borewright.core.materials.profile import profile
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

HOLE = CuttingRequest(
    material=part_material.find(MaterialInput("4140 at 28 HRC")),
    hole_kind="blind",
    drill_diameter=Decimal("0.4219"),
    hole_diameter=Decimal("0.4266"),
    drill_depth=Decimal("1.05"),
    full_thread_depth=Decimal("0.6"),
    tap_travel=Decimal("0.85"),
    style="spiral_flute",
    chamfer_name="semi_bottoming",
    chamfer_threads=Decimal("2.5"),
)
THREAD = standards.resolve(callout.read("1/2-13 UNC-2B"))


def _data(material="4140 at 28 HRC", thread=THREAD, **changes):
    return cutting_data.recommend(
        thread, HOLE._replace(material=part_material.find(MaterialInput(material)), **changes)
    )


def _codes(data) -> set[str]:
    return {caution.code for caution in data.notes.cautions}


def test_handbook_drilling_example():
    """Machinery's Handbook 31st ed. p. 1152: 7/8 in, 200 HB, 0.008 in/rev, W 1.30, 350 rpm: 2313 lb, 559 lb in."""
    size = {"kd": 24_000, "feed_in_rev": 0.008, "diameter_in": 0.875, "wear": 1.30}
    chisel = drilling_forces.standard_chisel()
    assert f"{drilling_forces.thrust_lbf(**size, chisel=chisel):.0f}" == "2313"
    turning = drilling_forces.torque_lbf_in(**size, chisel=chisel)
    assert f"{turning:.0f}" == "559"
    power = (
        drilling_forces.power_kw(torque_n_m=turning * drilling_forces.N_M_PER_LBF_IN, spindle_speed_rpm=350) / 0.7457
    )
    assert f"{power:.1f}" == "3.1"
    assert f"{power / 0.80:.1f}" == "3.9"


@pytest.mark.parametrize(
    ("text", "ft_min"),
    [
        ("1018 150 HB", 90),  # plain carbon 1006-1026, 125-175 HB
        ("1010 100 HB", 100),  # 100-125 HB
        ("1045 200 HB", 75),  # 1027-1050, 175-225 HB
        ("1045 187.5 HB", (90 + 3 * 75) / 4),  # three quarters of the way from 150 to 200 HB
        ("12L14", 120),
        ("304 160 HB", 55),
        ("316 160 HB", 50),
        ("303 160 HB", 85),
        ("A48 class 20 175 HB", 90),  # 150-200 HB
        ("O1", 45),
        ("D2", 30),
        ("A2 225 HB", 50),
        ("W1", 85),
        ("416", 90),
        ("A536 65-45-12 165 HB", 100),
    ],
)
def test_drilling_speeds_of_the_handbook(text, ft_min):
    """Machinery's Handbook 27th ed. Tables 17-21, high-speed steel drills: at the middle of a range of hardness."""
    assert speeds.drilling_speed(profile(part_material.find(MaterialInput(text)))).value_ft_min == pytest.approx(ft_min)


def test_harder_metal_is_drilled_slower():
    found = [
        speeds.drilling_speed(profile(part_material.find(MaterialInput(f"4140 {hb} HB")))).value_ft_min
        for hb in (200, 271, 340, 450)
    ]
    assert found == sorted(found, reverse=True)
    assert len(set(found)) == 4


@pytest.mark.parametrize(
    ("diameter_in", "low", "high"), [(0.1, 0.001, 0.002), (0.25, 0.002, 0.004), (0.3, 0.004, 0.007), (2, 0.015, 0.025)]
)
def test_feeds_of_the_navy_course(diameter_in, low, high):
    row = speeds.drilling_feed(diameter_in)
    assert (row.low_in_rev, row.high_in_rev) == (low, high)


def test_spindle_speed_makes_the_cutting_speed():
    drill = _data().drill
    circumference = math.pi * 0.4219 * 25.4 / 1000
    assert drill.cutting_speed_m_min == pytest.approx(45 * 0.3048)
    assert drill.spindle_speed_rpm == math.floor(drill.cutting_speed_m_min / circumference)


def test_machine_caps():
    free = _data()
    capped = _data(machine=Machine(max_spindle_speed_rpm=60))
    assert (capped.drill.spindle_speed_rpm, capped.tap.spindle_speed_rpm) == (60, 60)
    assert capped.drill.cutting_speed_m_min < free.drill.cutting_speed_m_min
    assert sum("held down" in text for text in capped.notes.assumptions) == 2
    weak = _data(machine=Machine(max_power_kw=0.2))
    feeble = _data(machine=Machine(max_power_kw=0.05))
    assert feeble.tap.power_kw <= 0.05
    assert feeble.tap.spindle_speed_rpm == math.floor(9550 * 0.05 / feeble.tap.torque.value)
    assert weak.drill.power_kw <= 0.2 < free.drill.power_kw
    assert "machine_torque_exceeded" in _codes(_data(machine=Machine(max_torque_n_m=5)))


def test_tapping_by_hand_has_no_speed():
    data = _data(machine=Machine(tapping="hand"))
    assert (data.tap.spindle_speed_rpm, data.tap.cutting_speed_m_min, data.tap.power_kw) == (None, None, None)
    assert data.tap_time_s is None
    assert data.tap.torque is not None


def test_bands_are_in_order_and_said_to_be_unproved():
    data = _data()
    for band in (data.tap.torque, data.tap.breaking_torque, data.tap.break_margin):
        assert band.low < band.value < band.high
    assert any("never a guarantee" in text for text in data.notes.assumptions)
    source = next(source for source in data.notes.sources if source.field == "tap.torque")
    assert "two measured series" in source.locator
    assert data.tap.torque.high < data.tap.clutch_torque_n_m < data.tap.breaking_torque.low


def _standard(name):
    return standards.resolve(callout.read(name))


_HOLES = [
    (_standard(name), Decimal(drill))
    for name, drill in (
        ("#4-40 UNC-2B", "0.089"),
        ("#8-32 UNC-2B", "0.136"),
        ("#10-24 UNC-2B", "0.1495"),
        ("1/4-20 UNC-2B", "0.201"),
        ("3/8-16 UNC-2B", "0.3125"),
        ("1/2-13 UNC-2B", "0.4219"),
        ("1-8 UNC-2B", "0.875"),
    )
]


@every("style", ["spiral_point", "spiral_flute", "straight_flute"])
@every("text", ["1018", "4140 30 HRC", "4140 45 HRC", "304", "6061-T6", "GG25", "Ti-6Al-4V", "C360"])
@every("hole", _HOLES, ids=lambda hole: hole[0].designation)
def test_a_clutch_both_drives_and_protects_or_none_is_advised(hole, text, style):
    thread, drill = hole
    depth = 2 * thread.nominal_diameter
    data = _data(text, thread=thread, style=style, drill_diameter=drill, hole_diameter=drill, full_thread_depth=depth)
    needed, breaking, setting = data.tap.torque, data.tap.breaking_torque, data.tap.clutch_torque_n_m
    said = [*data.notes.assumptions, *(caution.text for caution in data.notes.cautions)]
    if needed.high < breaking.low:
        assert needed.high < setting < breaking.low
    else:
        assert setting is None
        assert sum("no clutch setting both drives and protects" in text for text in said) == 1
    risk = "tap_break_risk" in _codes(data)
    assert risk is (data.tap.break_margin.low < 1)
    assert not risk or needed.high > breaking.low  # never where the bands are apart


def test_a_hand_tap_has_no_clutch():
    data = _data(machine=Machine(tapping="hand"))
    assert data.tap.clutch_torque_n_m is None
    assert not any("clutch" in text for text in data.notes.assumptions)


def test_thin_margin_is_a_warning():
    """#10-24 in 4140: a coarse pitch on a thin core."""
    thread = standards.resolve(callout.read("#10-24 UNC-2B"))
    data = _data(thread=thread, drill_diameter=Decimal("0.1495"), hole_diameter=Decimal("0.1527"))
    caution = next(caution for caution in data.notes.cautions if caution.code == "tap_break_risk")
    assert "no clutch setting both drives and protects" in caution.text
    assert f"{data.tap.breaking_torque.low:.3g}\N{NO-BREAK SPACE}N*m" in caution.text
    assert "warning" in caution.text.casefold()
    assert "tap_break_risk" not in _codes(_data("6061-T6"))


def test_break_margin_adds_spreads_as_squares():
    """10 (5 to 20) needed, 30 (20 to 45) breaking: 3, divided by exp(sqrt(ln 2 ^2 + ln 1.5 ^2)) = 2.2323."""
    margin = torque.break_margin(needed=torque.Band(10, 5, 20), breaking=torque.Band(30, 20, 45))
    assert (margin.value, margin.low, margin.high) == pytest.approx((3, 3 / 2.2323, 3 * 2.2323), rel=1e-4)


def test_least_margin_is_of_the_most_that_is_needed_and_the_least_that_breaks():
    """10 (8 to 15) and 40 (30 to 50): 4 / exp(sqrt(ln 1.5 ^2 + ln (4/3) ^2)) = 4 / 1.64404 = 2.43304; upward ln 1.25
    twice, 4 x exp(.315573) = 5.48418.
    """
    margin = torque.break_margin(needed=torque.Band(10, 8, 15), breaking=torque.Band(40, 30, 50))
    assert (margin.value, margin.low, margin.high) == pytest.approx((4, 2.43304, 5.48418), rel=1e-5)


def test_forming_is_a_multiple_of_cutting_and_asks_for_a_trial():
    formed = _data("6061-T6", method="form", style="forming")
    assert formed.tap.torque.high / formed.tap.torque.low == pytest.approx(2)
    assert any("make a trial" in text for text in formed.notes.assumptions)
    source = [source for source in formed.notes.sources if source.field == "tap.torque"][-1]
    assert source.status == "common_practice"


def test_style_and_depth_factors():
    straight, spiral, point = (
        _data(style=style, full_thread_depth=Decimal("0.5")).tap.torque.value
        for style in ("straight_flute", "spiral_flute", "spiral_point")
    )
    # 3 flutes of a spiral tap instead of 4 make thicker chips: the exponent 0.24 of low-alloy steel applies
    assert spiral / straight == pytest.approx(0.75 * (3 / 4) ** 0.24, rel=5e-3)
    assert point / straight == pytest.approx(0.65 * (3 / 4) ** 0.24, rel=5e-3)
    through = _data(full_thread_depth=Decimal("0.8"), hole_kind="through").tap.torque.value
    assert through == pytest.approx(spiral)


@pytest.mark.parametrize(
    ("style", "depth_d", "times"),
    [
        ("spiral_point", "1", 1),  # chips begin to pack at 1 D, have packed at 2 D: 1.5 (common practice)
        ("spiral_point", "1.5", 1.25),
        ("spiral_point", "2", 1.5),
        ("straight_flute", "3", 1.5),
        ("spiral_flute", "2", 1),  # a spiral flute lifts them one diameter more
        ("spiral_flute", "2.5", 1.25),
        ("spiral_flute", "3", 1.5),
    ],
)
def test_chips_pack_along_a_ramp(style, depth_d, times):
    depth = Decimal(depth_d) * Decimal("0.5")
    blind, through = (
        _data(style=style, full_thread_depth=depth, hole_kind=kind).tap.torque.value for kind in ("blind", "through")
    )
    assert blind / through == pytest.approx(times)


def test_short_chips_neither_pack_nor_ask_for_a_style():
    """Ductile iron breaks its chips: 4 straight flutes against 3 differ by the chip only, mc 0.28."""
    blind, through = (
        _data("A536 65-45-12", style="straight_flute", full_thread_depth=Decimal(1), hole_kind=kind).tap.torque.value
        for kind in ("blind", "through")
    )
    point = _data("A536 65-45-12", style="spiral_point", full_thread_depth=Decimal(1)).tap.torque.value
    assert blind == pytest.approx(through)
    assert point / blind == pytest.approx((3 / 4) ** 0.28)


@pytest.mark.parametrize("style", ["spiral_point", "spiral_flute", "straight_flute"])
def test_a_thousandth_of_depth_never_jumps(style):
    found = [
        _data(style=style, full_thread_depth=Decimal("0.3") + Decimal("0.001") * step).tap.torque.value
        for step in range(1300)
    ]
    assert all(one <= other <= 1.012 * one for one, other in pairwise(found))


def test_hole_shorter_than_the_chamfer_needs_less():
    short = _data(full_thread_depth=Decimal("0.1")).tap.torque.value
    assert short < _data(full_thread_depth=Decimal("0.5")).tap.torque.value


def test_deep_holes_are_pecked_and_slower():
    shallow, deep = _data(), _data(drill_depth=Decimal("2.2"))
    assert shallow.peck.first_mm is None
    assert deep.peck.count == 1 + math.ceil(2.2 / 0.4219 - 3)
    assert deep.drill.cutting_speed_m_min == pytest.approx(0.7 * shallow.drill.cutting_speed_m_min)
    assert deep.drill.feed_mm_rev == pytest.approx(0.8 * shallow.drill.feed_mm_rev)


def test_magnesium_is_kept_from_water():
    data = _data("AZ91D")
    assert any("fire" in caution.text for caution in data.notes.cautions)
    assert "water" not in data.fluid.drilling


@pytest.mark.parametrize("text", ["unobtainium", "", "H"])
def test_unknown_material_has_no_cutting_data(text):
    assert _data(text) is None


def test_plastic_has_no_invented_figures():
    data = _data("nylon")
    assert data.drill is None
    assert data.tap.torque is None
    assert data.fluid is None
    assert {"cutting_speed_not_held", "tap_torque_not_held"} <= _codes(data)


def test_taper_tap_torque_is_not_modelled():
    data = _data(thread=replace(THREAD, taper=Decimal("0.0625")))
    assert (data.tap.torque, data.tap.breaking_torque) == (None, None)
    assert any("not modelled" in text for text in data.notes.assumptions)


def test_family_stands_on_a_named_alloy():
    data = _data("mild steel")
    assert any("stand for mild steel" in text for text in data.notes.assumptions)


@every("row", alloys.alloys(), ids=lambda row: row.material_id)
def test_every_alloy_answers(row):
    data = _data(row.material_id)
    assert (data.drill is None) == (row.family == "plastic")
    assert (data.fluid is None) == (row.family in ("plastic", "zinc die cast"))
    if data.drill is not None:
        low, high = data.drill.speed_range_m_min
        assert low - 1e-9 <= data.drill.cutting_speed_m_min <= high + 1e-9
        assert 0 < data.drill_time_s < 3600
        assert data.tap.spindle_speed_rpm < data.drill.spindle_speed_rpm
    assert all("three times" not in text for text in (*data.notes.assumptions, *map(str, data.notes.cautions)))


def test_metric_and_inch_of_the_same_hole_agree():
    inch = _data()
    metric_thread = standards.resolve(callout.read("M12x1.75-6H"))
    metric = _data(
        thread=metric_thread,
        drill_diameter=Decimal("10.2"),
        hole_diameter=Decimal("10.32"),
        drill_depth=Decimal(25),
        full_thread_depth=Decimal(15),
        tap_travel=Decimal(20),
    )
    assert metric.drill.cutting_speed_m_min == pytest.approx(inch.drill.cutting_speed_m_min)
    assert metric.tap.torque.high / metric.tap.torque.low == pytest.approx(inch.tap.torque.high / inch.tap.torque.low)


@settings(max_examples=30)
@given(st.decimals("0.417", "0.46", places=4), st.decimals("0.417", "0.46", places=4))
def test_larger_hole_never_lowers_the_margin(one, other):
    small, large = (_data(hole_diameter=hole).tap for hole in sorted((one, other)))
    assert small.torque.value >= large.torque.value
    assert small.break_margin.low <= large.break_margin.low


_WORDS = {
    "pi": math.pi,
    "exp": math.exp,
    "ln": math.log,
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "up": lambda x, places: float(Decimal(repr(x)).quantize(Decimal(1).scaleb(-places), rounding=ROUND_CEILING)),
    "down": lambda x, places: float(Decimal(repr(x)).quantize(Decimal(1).scaleb(-places), rounding=ROUND_FLOOR)),
}


@pytest.mark.parametrize("method", ["cut", "form"])
@pytest.mark.parametrize("text", ["4140 at 28 HRC", "6061-T6", "GG25", "304"])
def test_every_figure_can_be_redone_from_its_derivation(text, method):
    data = _data(text, method=method, machine=Machine(max_spindle_speed_rpm=300, max_power_kw=1))
    assert data.notes.steps
    for step in data.notes.steps:
        redone = eval(step.formula, {"__builtins__": {}}, {**_WORDS, **step.inputs})
        assert redone == pytest.approx(step.value, rel=1e-9), step.quantity
    shown = {step.quantity: step.value for step in data.notes.steps}
    assert shown["drill.thrust"] == data.drill.thrust_n
    assert shown["drill.torque"] == data.drill.torque_n_m
    assert shown["drill.power"] == data.drill.power_kw
    assert shown["drill.time"] == data.drill_time_s
    assert shown["drill.feed"] == data.drill.feed_mm_rev
    assert shown["drill.cutting_speed"] == data.drill.cutting_speed_m_min
    assert shown["tap.torque"] == data.tap.torque.value
    assert shown["tap.torque.high"] == data.tap.torque.high
    assert shown["tap.break_margin.low"] == data.tap.break_margin.low
    assert shown["tap.cutting_speed"] == data.tap.cutting_speed_m_min
    assert shown["tap.time"] == data.tap_time_s


def test_what_stands_in_no_document_says_so():
    """A figure of common practice names that as its document, and nothing else does."""
    sources = {one for material in ("4140", "6061-T6", "Inconel 718") for one in _data(material=material).notes.sources}
    assert {one.status for one in sources} >= {"common_practice", "from_memory", "published"}
    for one in sources:
        assert (one.document == "common practice") is (one.status == "common_practice"), one
