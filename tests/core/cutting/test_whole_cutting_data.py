"""Whole cutting data of holes, every figure by the printed formulas written once more: inches and pounds for the drill
(Machinery's Handbook 31st ed. p. 1152), the chip section for the tap.
"""

from __future__ import annotations

from decimal import Decimal
from math import exp, floor, hypot, log, pi, sqrt, tan

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import torque as torque_model
from borewright.core.cutting.drill_tool import DrillTool, drill_tool
from borewright.core.cutting.other_operations import other_cut
from borewright.core.cutting.torque import Band
from borewright.core.materials import part_material
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from every import every
from whole_data import about, of, plain, said, tap_torque

FT, LBF, INCH = 0.3048, 4.4482216152605, 25.4


def drill_forces(kd, feed_mm, d_mm, wear):
    """2 Kd Ff FT B W + Kd D^2 J W, and Kd Ff FM A W; chisel edge 0.18 D: A 1.085, B 1.355, J 0.030 (Table 7)."""
    f, d = feed_mm / INCH, d_mm / INCH
    thrust = (2 * kd * f**0.8 * d**0.8 * 1.355 + kd * d**2 * 0.030) * wear * LBF
    return thrust, kd * f**0.8 * d**1.8 * 1.085 * wear * LBF * INCH / 1000


BREAKING = [pi / 16 * (core * 8) ** 3 * 1600 / 1000 for core in (0.42, 0.50, 0.56)]


def test_the_drill():
    """90 ft/min to 175 HB (150), 75 at 200: 75.6 at 198 HB. Feed 0.004 to 0.007 in: its middle at 200 HB and softer."""
    drill, speed, feed = of().drill, 75.6 * FT, 0.0055 * INCH
    turns = floor(1000 * speed / (pi * 6.8))
    thrust, torque = drill_forces(24000, feed, 6.8, 1.3)
    assert (drill.cutting_speed_m_min, drill.spindle_speed_rpm) == (about(speed), turns)
    assert turns == 1078
    # with 70 to 80 of the general row: 70 to 90 at 150 HB, 70 to 80 at 200 HB
    assert drill.speed_range_m_min == (about(70 * FT), about(80.4 * FT))
    assert (drill.feed_mm_rev, drill.feed_range_mm_rev) == (about(feed), (about(0.004 * INCH), about(0.007 * INCH)))
    assert (drill.thrust_n, drill.torque_n_m) == (about(thrust), about(torque))
    assert drill.power_kw == about(torque * turns / 9550)
    data = of()
    assert data.drill_time_s == about(60 * 20 / (feed * turns))
    assert (data.peck.count, data.peck.first_mm, data.peck.next_mm) == (1, None, None)


@every(
    ("text", "hb", "share", "kd", "wear"),
    [
        # 1045: the middle of the feeds to 200 HB, the low end from 300; Kd 24000 at 200, 31000 at 300, 34000 at 400 HB
        ("1045", 150, 0.5, 24000, 1.3), ("1045", 200, 0.5, 24000, 1.3), ("1045", 250, 0.25, 27500, 1.3),
        ("1045", 300, 0, 31000, 1.3), ("1045", 350, 0, 32500, 1.3), ("1045", 351, 0, 32530, 1.5),
        ("1045", 400, 0, 34000, 1.5),
        # stainless and titanium: always the low end; titanium is hard to machine
        ("304", 165, 0, 24000, 1.3), ("Ti-6Al-4V", 330, 0, 18000, 1.5),
    ],
)  # fmt: skip
def test_feed_and_forces_by_hardness(text, hb, share, kd, wear):
    material = part_material.find(MaterialInput(f"{text} {hb} HB"))
    drill = of(material=material).drill
    feed = (0.004 + share * 0.003) * INCH
    assert drill.feed_mm_rev == about(feed)
    assert (drill.thrust_n, drill.torque_n_m) == tuple(map(about, drill_forces(kd, feed, 6.8, wear)))


@every(
    ("hb", "kd", "row"),
    [
        (150, 24000, "steel 200 HB"), (200, 24000, "steel 200 HB"), (250, 27500, "up to steel 300 HB"),
        (300, 31000, "up to steel 300 HB"), (350, 32500, "up to steel 400 HB"), (400, 34000, "up to steel 400 HB"),
    ],
)  # fmt: skip
def test_forces_name_the_row_of_their_constant(hb, kd, row):
    """To the first hardness the first row itself, from there the harder one of two."""
    data = of(material=part_material.find(MaterialInput(f"1045 {hb} HB")))
    told = [one.locator for one in data.notes.sources if one.field == "drill.thrust"]
    wear = "1.3" if hb <= 350 else "1.5"
    assert told == [f"p. 1152 formulas; Kd {kd} of {row}, W {wear} and standard chisel edge"]


def test_no_forces_where_no_constant_is_held():
    drill = of(material=part_material.find(MaterialInput("1045 410 HB"))).drill
    assert (drill.thrust_n, drill.torque_n_m, drill.power_kw) == (None, None, None)


def test_a_deep_hole_is_drilled_slower_and_in_pecks():
    """20.4 mm are 3 D: 0.9 of speed and feed, still in one go; then pecks of 3 D, 1 D ...; 40.8 mm are 6 D."""
    for depth, slower, lighter, count in (
        ("20.3", 1, 1, 1), ("20.4", 0.9, 0.9, 1), ("20.5", 0.9, 0.9, 2), ("40.8", 0.6, 0.8, 4),
    ):  # fmt: skip
        data = of(drill_depth=Decimal(depth))
        assert data.drill.cutting_speed_m_min == about(75.6 * FT * slower)
        assert data.drill.feed_mm_rev == about(0.0055 * INCH * lighter)
        assert data.drill.speed_range_m_min == (about(70 * FT * slower), about(80.4 * FT * slower))
        assert data.peck.count == count
        if count > 1:
            assert (data.peck.first_mm, data.peck.next_mm) == (about(20.4), about(6.8))


def test_the_tap():
    """Plug chamfer of 4 threads, three flutes; 1.28 times the model; two deviations of 0.3; back at the same speed."""
    data = of()
    tap = data.tap
    torque = tap_torque(hole_mm=6.9, kc1=2220, mc=0.14, chamfer=4, flutes=3, factor=1.28)
    low, middle, high = BREAKING
    assert tap.torque == tuple(map(about, (torque, torque / exp(0.6), torque * exp(0.6))))
    assert tap.breaking_torque == tuple(map(about, (middle, low, high)))
    margin = middle / torque
    down, up = hypot(0.6, log(middle / low)), hypot(0.6, log(high / middle))
    assert tap.break_margin == tuple(map(about, (margin, margin / exp(down), margin * exp(up))))
    assert tap.clutch_torque_n_m == about(sqrt(torque * exp(0.6) * low))
    assert tap.feed_mm_rev == 1.25
    assert tap.spindle_speed_rpm == floor(1000 * tap.cutting_speed_m_min / (pi * 8))
    assert tap.power_kw == about(torque * tap.spindle_speed_rpm / 9550)
    assert data.tap_time_s == about(2 * 60 * 18 / (1.25 * tap.spindle_speed_rpm))


FACTORS = [
    # changes, factor on 1.28, chamfer, flutes
    ({"style": "straight_flute"}, 1.54, 4, 4), ({"style": "spiral_flute"}, 1.15, 4, 3),
    ({"style": "interrupted"}, 1.54, 4, 4), ({"chamfer_threads": Decimal("2.5")}, 1, 2.5, 3),
    # a thread of 2.5 mm fills half of a chamfer of 5 mm
    ({"full_thread_depth": Decimal("2.5")}, 0.5, 4, 3), ({"full_thread_depth": Decimal(5)}, 1, 4, 3),
    # chips pack from 1 D to 2 D of a blind hole, half as much again: 12 mm are 1.5 D, a quarter more
    ({"hole_kind": "blind"}, 1.25, 4, 3), ({"hole_kind": "blind", "full_thread_depth": Decimal(8)}, 1, 4, 3),
    ({"hole_kind": "blind", "full_thread_depth": Decimal(16)}, 1.5, 4, 3),
    # 12.5 mm are 1.5625 D: 1.28125, told and counted as 1.28
    ({"hole_kind": "blind", "full_thread_depth": Decimal("12.5")}, 1.28, 4, 3),
    ({"hole_kind": "blind", "full_thread_depth": Decimal(30)}, 1.5, 4, 3),
    # a spiral flute lifts them: from 2 D to 3 D
    ({"hole_kind": "blind", "style": "spiral_flute", "full_thread_depth": Decimal(16)}, 1.15, 4, 3),
    ({"hole_kind": "blind", "style": "spiral_flute", "full_thread_depth": Decimal(20)}, 1.15 * 1.25, 4, 3),
    ({"hole_kind": "blind", "style": "spiral_flute", "full_thread_depth": Decimal(24)}, 1.15 * 1.5, 4, 3),
]  # fmt: skip


@every(("changes", "factor", "chamfer", "flutes"), FACTORS)
def test_factors_on_the_torque(changes, factor, chamfer, flutes):
    torque = tap_torque(hole_mm=6.9, kc1=2220, mc=0.14, chamfer=chamfer, flutes=flutes, factor=1.28 * factor)
    assert of(**changes).tap.torque.value == about(torque)


def test_short_chips_do_not_pack():
    iron = part_material.find(MaterialInput("GG25 215 HB"))
    deep = {"hole_kind": "blind", "full_thread_depth": Decimal(20), "material": iron}
    torque = tap_torque(hole_mm=6.9, kc1=1050, mc=0.23, chamfer=4, flutes=4, factor=1.28)
    assert of(style="straight_flute", **deep).tap.torque.value == about(torque)


def test_a_formed_thread():
    """One and a half to three times what a cut tap needs in a hole of 8 - 1.25 mm, without factors of style."""
    tap = of(method="form", style="forming", hole_diameter=Decimal("7.4")).tap
    torque = tap_torque(hole_mm=6.75, kc1=2220, mc=0.14, chamfer=4, flutes=4, factor=1.28)
    assert tap.torque == tuple(map(about, (torque * sqrt(4.5), torque * 1.5, torque * 3)))


def test_a_machine_holds_the_speeds_down():
    """Turns not above 200; power of 0.05 kW at the torque; never below one turn."""
    data = of(machine=Machine(max_spindle_speed_rpm=200.0))
    assert (data.drill.spindle_speed_rpm, data.tap.spindle_speed_rpm) == (200, 200)
    assert data.drill.cutting_speed_m_min == about(pi * 6.8 * 200 / 1000)
    assert data.drill.speed_range_m_min == (about(pi * 6.8 * 200 / 1000), about(80.4 * FT))
    assert data.tap.cutting_speed_m_min == about(pi * 8 * 200 / 1000)
    words = said(data)[0]
    assert "spindle speed of the drill held down by the machine speed" in words
    assert "spindle speed of the tap held down by the machine speed" in words
    weak = of(machine=Machine(max_power_kw=0.05))
    assert weak.drill.spindle_speed_rpm == floor(9550 * 0.05 / weak.drill.torque_n_m)
    assert weak.tap.spindle_speed_rpm == floor(9550 * 0.05 / weak.tap.torque.value)
    assert "spindle speed of the tap held down by the machine power" in said(weak)[0]
    for cut in (of().drill.torque_n_m, of().tap.torque.value):
        data = of(machine=Machine(max_power_kw=100.001 * cut / 9550))
        assert (data.drill if cut == of().drill.torque_n_m else data.tap).spindle_speed_rpm == 100
    both = of(machine=Machine(max_power_kw=0.05, max_spindle_speed_rpm=10.0))
    assert (both.drill.spindle_speed_rpm, both.tap.spindle_speed_rpm) == (10, 10)
    free = of(machine=Machine(max_power_kw=50.0, max_spindle_speed_rpm=20000.0))
    assert free.drill == of().drill
    assert free.tap == of().tap
    assert not [one for one in said(free)[0] if "held down" in one]


def test_torque_of_a_machine():
    """A caution only above what it bears: the drill's own torque, the tap's highest one."""
    data = of()
    for most, told in ((data.tap.torque.high, None), (data.tap.torque.high * 0.999, "The tap may need")):
        found = said(of(machine=Machine(max_torque_n_m=most)))[1]
        assert found.get("machine_torque_exceeded", "").startswith(told or "")
        assert ("machine_torque_exceeded" in found) == (told is not None)
    cautions = of(machine=Machine(max_torque_n_m=data.drill.torque_n_m * 0.999)).notes.cautions
    told = [one.text for one in cautions if one.code == "machine_torque_exceeded"]
    assert [one.startswith("The drill needs about") for one in told] == [True, False]
    at = of(machine=Machine(max_torque_n_m=data.drill.torque_n_m)).notes.cautions
    assert not [one for one in at if one.text.startswith("The drill")]


def test_a_taper_pipe_tap_has_no_torque():
    pipe = standards.resolve(callout.read("1/4-18 NPT"))
    data = of(pipe, drill_diameter=Decimal("0.4375"), hole_diameter=Decimal("0.4375"), drill_depth=Decimal("0.75"),
              full_thread_depth=Decimal("0.4"), tap_travel=Decimal("0.7"))  # fmt: skip
    assert (data.tap.torque, data.tap.breaking_torque, data.tap.break_margin) == (None, None, None)
    assert (data.tap.clutch_torque_n_m, data.tap.power_kw) == (None, None)
    assert data.tap.feed_mm_rev == pytest.approx(INCH / 18, abs=2e-6)
    assert data.tap_time_s == pytest.approx(2 * 60 * 0.7 * 18 / data.tap.spindle_speed_rpm, rel=2e-6)


def test_a_tap_by_hand():
    data = of(machine=Machine(tapping="hand"))
    tap = data.tap
    assert (tap.cutting_speed_m_min, tap.spindle_speed_rpm, tap.speed_range_m_min, tap.power_kw) == (None,) * 4
    assert (tap.clutch_torque_n_m, data.tap_time_s, tap.speed_ceiling_m_min) == (None, None, None)
    assert tap.torque == of().tap.torque


def test_what_is_told_of_a_usual_hole():
    """A worn tap needs 4.1 / 1.28 = 3.2 times as much: told where that would pass the lowest breaking torque."""
    iron = {"material": part_material.find(MaterialInput("GG25 215 HB")), "style": "straight_flute"}
    # the lowest margin is 2.17 in a hole of 6.9 mm, 1.5 in one of 6.6
    for changes, told in (({}, True), ({"hole_diameter": Decimal("6.6")}, True), (iron, False)):
        words, cautions = said(of(**changes))
        tap = of(**changes).tap
        assert (tap.torque.value * 4.1 / 1.28 > tap.breaking_torque.low) is told
        assert cautions == {}
        assert "tap sharp and well lubricated; style factor 1 over a spiral-point tap" in words
        assert ("a worn or too fast tap may need 3.2 times the torque and break" in words) is told
        assert len(words) == len(set(words)) == 2 + told
    deep, _ = said(of(hole_kind="blind", style="straight_flute", full_thread_depth=Decimal(16)))
    assert "torque x 1.5 for chips that pack in the blind hole" in deep
    assert "tap sharp and well lubricated; style factor 1.54 over a spiral-point tap" in deep


def test_a_tap_that_may_break_already_is_not_told_of_wear_as_well():
    """Straight flutes, packed chips and a hole of 6.2 mm: the lowest margin is below one."""
    data = of(hole_kind="blind", style="straight_flute", full_thread_depth=Decimal(16), hole_diameter=Decimal("6.2"))
    torque = tap_torque(hole_mm=6.2, kc1=2220, mc=0.14, chamfer=4, flutes=4, factor=1.28 * 1.54 * 1.5)
    low, middle, _ = BREAKING
    assert middle / torque / exp(hypot(0.6, log(middle / low))) < 1
    words, cautions = said(data)
    assert "tap_break_risk" in cautions
    assert not [one for one in words if one.startswith("a worn or too fast tap")]


def test_what_is_told_of_metals_that_are_not_known_well():
    """A hardness that is not told, a drill of carbide over 400 HB, a metal without speeds, forces or constants."""
    for hb, told in ((400, False), (401, True)):
        words, cautions = said(of(material=part_material.find(MaterialInput(f"4140 {hb} HB"))))
        cobalt = "drilling speed is that of a cobalt drill: a carbide drill bears what its maker says"
        assert (cobalt in words) is told
        assert ("drill_forces_not_held" in cautions) is told
    words, cautions = said(of(material=part_material.find(MaterialInput("4140 520 HB"))))
    assert cautions["tap_torque_not_held"].startswith("No specific cutting force is held for ")
    assert "cutting_speed_not_held" in cautions
    untapped = said(of(material=part_material.find(MaterialInput("4140 520 HB")), tapped=False))[1]
    assert "tap_torque_not_held" not in untapped
    assert of(tapped=False).tap is None
    assert of(tapped=False).tap_time_s is None


def test_a_hole_as_large_as_the_thread():
    data = of(hole_diameter=Decimal(8))
    assert data.tap.torque is None
    assert said(data)[1] == {"tap_torque_not_held": "The hole is as large as the thread: nothing is left to cut."}


def test_several_starts_cut_as_many_sections():
    """Tr20x8(P4): D2 18, flanks of 15 degrees, flat 2 - 2 tan 15; the chip of a tooth is twice as thick."""
    double = standards.resolve(callout.read("Tr20x8(P4)-7H"))
    hole, t = 16.5, tan(pi / 12)
    data = of(double, drill_diameter=Decimal("16.5"), hole_diameter=Decimal("16.5"), full_thread_depth=Decimal(20),
              drill_depth=Decimal(30), style="straight_flute")  # fmt: skip
    tap = data.tap
    h, a = (20 - hole) / 2, 2 - 2 * t
    area = 2 * h * (a + t * h)
    arm = 10 - h / 3 * (3 * a + 4 * t * h) / (2 * a + 2 * t * h)
    force = 2220 * (2 * h / (4 * 4)) ** -0.14
    assert tap.torque.value == about(1.28 * 1.54 * force * area * arm / 1000)
    assert tap.feed_mm_rev == 8
    steps = {one.quantity: one for one in data.notes.steps}
    for name, value, unit in (("chip_section", area, "mm2"), ("chip_arm", arm, "mm"), ("thread_depth", h, "mm"),
                              ("chip_thickness", 2 * h / 16, "mm"), ("specific_cutting_force", force, "N/mm2"),
                              ("total_factor", 1.28 * 1.54, "")):  # fmt: skip
        assert (steps[f"tap.{name}"].value, steps[f"tap.{name}"].unit) == (about(value), unit)
    assert steps["tap.chip_section"].inputs["starts"] == 2


def test_formulas_of_turns_tell_what_holds_them_down():
    def formulas(**machine):
        steps = of(machine=Machine(**machine)).notes.steps
        return [one.formula for one in steps if one.quantity.endswith(".spindle_speed")]

    free, capped = "down(1000 * v / (pi * d), 0)", "down(min(1000 * v / (pi * d), cap), 0)"
    assert formulas() == [free] * 2
    assert formulas(max_spindle_speed_rpm=9000.0) == [capped] * 2
    assert formulas(max_power_kw=9.0) == ["down(min(1000 * v / (pi * d), 9550 * P / T), 0)"] * 2
    both = "down(min(1000 * v / (pi * d), cap, 9550 * P / T), 0)"
    assert formulas(max_power_kw=9.0, max_spindle_speed_rpm=9000.0) == [both] * 2


def test_a_clutch_needs_room_between_the_bands():
    assert torque_model.clutch_torque(needed=Band(1, 0.5, 2), breaking=Band(4, 2, 8)) is None
    assert torque_model.clutch_torque(needed=Band(1, 0.5, 2), breaking=Band(9, 8, 10)) == 4


@every(("hb", "kind"), [(145, "20"), (150, "20"), (151, "25"), (156, "25")])
def test_the_row_of_a_speed_is_the_nearer_one(hb, kind):
    """Grey iron: class 20 to 150 HB (middle 125), class 25 to 200 HB (175): half-way at 150 HB."""
    iron = part_material.find(MaterialInput(f"A48 class 30 {hb} HB"))
    (source,) = [one for one in of(material=iron).notes.sources if one.field == "drill.cutting_speed"]
    assert source.locator == f"grey iron class {kind}, interpolated by hardness"


@every(("text", "caution"), [("C360", None), ("copper", None), ("AZ91D", "fire"), ("Ti-6Al-4V", "burn"), ("304", None)])
def test_fluids_that_hurt_people_are_a_caution(text, caution):
    """A stain is told among the assumptions only."""
    words, cautions = said(of(material=part_material.find(MaterialInput(text))))
    assert ("cutting_fluid" in cautions) is (caution is not None)
    assert caution is None or caution in cautions["cutting_fluid"]
    assert any("stain copper" in one for one in words) is (text in ("C360", "copper"))


def test_an_operation_never_stands_still():
    """A countersink as wide as 30 mm at a third of one turn of a drill of 10 mm: one turn."""
    slow = of(machine=Machine(max_spindle_speed_rpm=1.0)).drill
    found = other_cut("countersink", slow, drill_mm=10, tool_mm=30, depth_mm=2)
    assert found.spindle_speed_rpm == 1
    assert found.time_s == about(60 * 2 / found.feed_mm_rev)


@every(
    ("operation", "tool", "turns", "feed"),
    [
        # spot drill: the drill's cutting speed, half its feed; a small one turns no faster than the drill
        ("spot_drill", 20, 500, 0.1), ("spot_drill", 25, 400, 0.1), ("spot_drill", 10, 500, 0.1),
        # countersink: 0.33 of the speed; reamer: a half, twice the feed; counterbore: a half, half the feed
        ("countersink", 30, 110, 0.1), ("ream", 20, 250, 0.4), ("counterbore", 40, 125, 0.1),
        ("counterbore", 5, 500, 0.1),
    ],
)  # fmt: skip
def test_operations_beside_a_drill_of_20_mm(operation, tool, turns, feed):
    """500 turns a minute and 0.2 mm of the drill; turns fall as the tool is wider; 6 mm of travel."""
    drill = of().drill._replace(spindle_speed_rpm=500, feed_mm_rev=0.2)
    found = other_cut(operation, drill, drill_mm=20, tool_mm=tool, depth_mm=6)
    assert found == (turns, about(feed), about(60 * 6 / (turns * feed)))


def test_power_is_exhausted_at_the_turn():
    """9550 P / T a little above and below a hundred turns."""
    for cut in ("drill", "tap"):
        torque = of().drill.torque_n_m if cut == "drill" else of().tap.torque.value
        for turns, whole in ((100.001, 100), (99.999, 99)):
            found = getattr(of(machine=Machine(max_power_kw=turns * torque / 9550)), cut)
            assert found.spindle_speed_rpm == whole


def test_a_chamfer_is_told_of_only_where_a_tap_cuts():
    for tapped in (True, False):
        steps = {one.quantity for one in of(tapped=tapped).notes.steps}
        assert ("tap.chamfer_fill" in steps) is tapped


def test_what_each_figure_stands_on():
    """Printed feeds; powers, torques and speeds as the tables say where their rows were read; geometry is computed."""
    sources = {one.field: one for one in of().notes.sources}
    assert {name: one.status for name, one in sources.items()} == {
        "drill.feed": "published", "drill.thrust": "from_memory", "drill.torque": "from_memory",
        "drill.power": "from_memory", "drill.spindle_speed": "computed", "drill.cutting_speed": "second_hand",
        "drill.peck": "common_practice", "drill.time": "computed", "tap.torque": "from_memory",
        "tap.breaking_torque": "common_practice", "tap.break_margin": "computed", "tap.feed": "computed",
        "tap.cutting_speed": "common_practice", "tap.spindle_speed": "computed", "tap.time": "computed",
        "tap.power": "computed", "tap.clutch_torque": "common_practice", "fluid": "from_memory",
    }  # fmt: skip
    forces = "p. 1152 formulas; Kd 24000 of steel 200 HB, W 1.3 and standard chisel edge"
    assert {sources[f"drill.{name}"].locator for name in ("thrust", "torque", "power")} == {forces}
    assert sources["drill.peck"].locator == "in one go to 3 D, then pecks of 1 D"
    assert sources["drill.cutting_speed"].locator == "plain carbon 1027-1050, interpolated by hardness"
    assert sources["tap.cutting_speed"].locator == "medium-carbon steel: low end to start with"
    assert sources["fluid"].locator == "for carbon steel"
    formed = {one.field: one for one in of(method="form", style="forming").notes.sources}
    assert formed["tap.torque"].locator == "forming: 1.5 to 3 times a cut tap's torque"


def test_a_ceiling_of_iron_whose_hardness_is_not_known_is_that_of_the_harder():
    """Grey iron of 120 to 220 HB 90 and 80 ft/min, of 220 to 320 HB 55 and 45 (coarse and fine)."""
    for text, coarse, fine in (("A48 class 30 121 HB", 90, 80), ("A48 class 30 220 HB", 90, 80),
                               ("A48 class 30 221 HB", 55, 45), ("A48 class 30 T6", 55, 45)):  # fmt: skip
        iron = part_material.find(MaterialInput(text))
        assert of(material=iron).tap.speed_ceiling_m_min == (about(coarse * FT), about(fine * FT))
    softer = part_material.find(MaterialInput("A48 class 30 120 HB"))
    assert of(material=softer).tap.speed_ceiling_m_min is None


def test_a_hardness_that_is_not_known_is_told_where_the_speeds_go_by_it():
    """D2 is printed to 250 HB, 12L14 to 200 HB, 316 and 430 as one row to 185 HB: one end is open."""
    for text in ("D2 T6", "12L14 T6", "4140 T6", "316 T6", "430 T6"):
        material = part_material.find(MaterialInput(text))
        told = f"hardness of {material.name} not known: the slowest drilling speed of its group is taken"
        assert told in said(of(material=material))[0]
    known = said(of(material=part_material.find(MaterialInput("D2"))))[0]
    assert not [one for one in known if one.startswith("hardness of")]


TOOLS = [
    # the hardest metal of each row, and the next one; a family goes before its group
    ("4140", 300, "HSS", "oxide", "conventional"), ("4140", 301, "HSS-E", "TiAlN", "split"),
    ("4140", 400, "HSS-E", "TiAlN", "split"), ("4140", 401, "carbide", "TiAlN", "split"),
    ("304", 400, "HSS-E", "TiAlN", "split"), ("304", 401, "carbide", "TiAlN", "split"),
    ("A48 class 30", 300, "HSS", "oxide", "conventional"), ("A48 class 30", 301, "HSS-E", "TiAlN", "split"),
    ("C360", 150, "HSS", "bright", "conventional"), ("Ti-6Al-4V", 330, "HSS-E", "bright", "split"),
    ("416", 250, "HSS-E", "TiAlN", "split"), ("12L14", 300, "HSS", "oxide", "conventional"),
    ("12L14", 301, "HSS-E", "TiAlN", "split"),
]  # fmt: skip


@every(("text", "hb", "substrate", "surface", "point"), TOOLS)
def test_what_a_drill_is_made_of(text, hb, substrate, surface, point):
    material = part_material.find(MaterialInput(f"{text} {hb} HB"))
    assert drill_tool(material) == DrillTool(substrate, surface, point)


def test_a_drill_for_what_is_not_known():
    assert drill_tool(None) == DrillTool("HSS", "bright", "conventional")
    assert drill_tool(part_material.find(MaterialInput("qqqqq"))) == DrillTool("HSS", "bright", "conventional")
    assert drill_tool(part_material.find(MaterialInput("4140 T6"))) == DrillTool("HSS", "oxide", "conventional")


def test_what_a_holder_cannot_be_set_to_is_told_once():
    """In 6.4 mm the bands meet: an assumption; in 6.2 mm with packed chips the caution says it."""
    data = of(hole_diameter=Decimal("6.4"))
    needed, breaking = data.tap.torque.high, data.tap.breaking_torque.low
    assert needed >= breaking
    assert data.tap.break_margin.low >= 1
    bands = f"it may need up to {needed:.3g} N*m and may break from {breaking:.3g} N*m"
    words, cautions = said(data)
    assert f"tap: {bands}, so no clutch setting both drives and protects it" in [plain(one) for one in words]
    assert "tap_break_risk" not in cautions
    deep = {"hole_kind": "blind", "full_thread_depth": Decimal(16), "style": "straight_flute"}
    for by_hand in (False, True):
        machine = Machine(tapping="hand") if by_hand else Machine()
        data = of(hole_diameter=Decimal("6.2"), machine=machine, **deep)
        needed, breaking = data.tap.torque.high, data.tap.breaking_torque.low
        words, cautions = said(data)
        bands = f"it may need up to {needed:.3g} N*m and may break from {breaking:.3g} N*m"
        setting = "" if by_hand else ", so no clutch setting both drives and protects it"
        assert plain(cautions["tap_break_risk"]).startswith(f"The tap may break: {bands}{setting}. Take a larger drill")
        assert not [one for one in words if "clutch setting" in one]


def test_a_coat_on_the_tap_raises_the_upper_end_only():
    bare, coated = of(), of(coated=True)
    assert coated.tap.speed_range_m_min == (bare.tap.speed_range_m_min[0], about(1.25 * bare.tap.speed_range_m_min[1]))
    assert coated.tap.cutting_speed_m_min == bare.tap.cutting_speed_m_min
    told = "the coat raises the upper end of the tap's speeds by 1.25"
    assert [told in said(one)[0] for one in (bare, coated)] == [False, True]


def test_each_speed_that_is_not_held_is_told():
    """Hardened steel: taps to 485 HB, drills to 560 HB."""
    for hb, tools in ((485, []), (486, ["tapping"]), (560, ["tapping"]), (561, ["drilling", "tapping"])):
        material = part_material.find(MaterialInput(f"4140 {hb} HB"))
        found = [one.text for one in of(material=material).notes.cautions if one.code == "cutting_speed_not_held"]
        assert found == [f"No {tool} speed is held for {material.name} of that hardness." for tool in tools]


def test_what_is_from_memory_stays_so():
    """Power constants with a thin-chip factor, and the ceilings of taps that a note quotes."""
    for text, field in (("C26000", "tap.torque"), ("6061-T6", "tap.speed_ceiling")):
        (found,) = [
            one for one in of(material=part_material.find(MaterialInput(text))).notes.sources if one.field == field
        ]
        assert found.status == "from_memory"
        assert ("x 1.4 for thin chips" in found.locator) is (field == "tap.torque")
