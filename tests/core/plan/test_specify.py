"""The whole specification: process sections, least torque against the chart, operations in shop order."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.contract.texts import in_units
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import recommend_drill, specify
from borewright.core.requests import DrillOversize, DrillRecommendation, HoleSpecRequest, Machine, MatingScrew
from borewright.core.shop_figures.figures import MeasuredOversize, ShopFigures


def inches(text: str) -> Length:
    return Length(Decimal(text), "in")


def half_inch(material: str, **more):
    return HoleSpecRequest(
        thread=callout.read("1/2-13 UNC-2B"),
        hole=Hole("blind", full_thread_depth=inches("1")),
        material=MaterialInput(name=material),
        mating_screw=MatingScrew(grade="SAE J429 grade 8"),
        **more,
    )


@pytest.mark.parametrize("material", ["6061-T6", "4140"])
def test_least_torque_against_the_chart(material):
    """The larger hole takes less torque, keeps the joint as strong and is accepted as often as asked."""
    machine = Machine(drill_oversize=DrillOversize(inches("0.001"), inches("0.0003")))
    chart, best = (
        specify(half_inch(material, drill_series=("metric",), objective=objective, machine=machine))
        for objective in ("chart", "least_torque")
    )
    assert chart.drill.recommended.drill.label == "10.8 mm"  # 0.4252 in, 75 % is 0.4251 in
    assert chart.process.comparison is None
    compared = best.process.comparison
    assert compared.chart.drill.drill.label == "10.8 mm"
    assert best.drill.recommended.diameter > chart.drill.recommended.diameter
    assert compared.torque_ratio < 1
    assert compared.margin_gained > 0
    assert best.process.strength.internal_strip_force_n == chart.process.strength.internal_strip_force_n
    assert best.process.strength.safety_factor >= 1
    assert compared.least_torque.minor_diameter_chance >= 0.95


@pytest.mark.parametrize(("depth", "label"), [("0.45", "10.8 mm"), ("0.46", "10.9 mm")])
def test_unless_said_otherwise_the_screws_thread_carries_once_what_the_screw_does(depth, label):
    """1/2-13 in a hole of 0.4301 in: pi 13 0.4301 (1/26 + 0.57735 (0.4435 - 0.4301)) = 0.811 in2 of the screw's thread
    an inch, in shear 0.58 of the tensile strength; it carries the screw's 0.1419 in2 over 0.1419/(0.58 0.811) = 0.302
    in, with two pitches at the ends over 0.455 in. Half as much: over 0.305 in; one and a half: over 0.606 in.
    """
    machine = Machine(drill_oversize=DrillOversize(inches("0.001"), inches("0.0003")))
    asked = half_inch("4140 at 36 HRC", drill_series=("metric",), objective="least_torque", machine=machine)
    asked = replace(asked, hole=Hole("blind", full_thread_depth=inches(depth)))
    drills = [
        specify(one).drill.recommended.drill.label
        for one in (asked, *(replace(asked, safety_factor=factor) for factor in (0.5, 1.0, 1.5)))
    ]
    assert drills == [label, "10.9 mm", label, "10.8 mm"]


@pytest.mark.parametrize("material", ["304", "4140", "Ti-6Al-4V"])
def test_least_torque_is_never_above_the_chart(material):
    """1/2-20: 29/64 is the largest inch drill below 0.457 in; the smaller 11.4 mm would take more torque."""
    hole = Hole("blind", full_thread_depth=inches("0.7"))
    best = specify(
        HoleSpecRequest(
            thread=callout.read("1/2-20 UNF-2B"),
            hole=hole,
            material=MaterialInput(name=material),
            objective="least_torque",
        )
    )
    assert best.drill.recommended.drill.label == "29/64"
    assert best.process.comparison.torque_ratio == 1


def test_least_torque_names_the_true_reason():
    """3/8-16 ends at 0.321: O (0.316) drills 0.3204 on average, about 0.7 of its holes hold; strength is no matter."""
    hole = Hole("blind", full_thread_depth=inches("0.75"))
    best = specify(
        HoleSpecRequest(
            thread=callout.read("3/8-16 UNC-2B"),
            hole=hole,
            material=MaterialInput(name="Ti-6Al-4V"),
            objective="least_torque",
        )
    )
    why = next(one.reason for one in best.drill.rejected if one.label == "O")
    assert "69 % of its holes" in why
    assert "strength" not in why


def test_torque_is_a_band_with_a_margin():
    data = specify(half_inch("4140")).process.cutting
    assert data.tap.torque.low < data.tap.torque.value < data.tap.torque.high
    assert data.tap.break_margin.low < data.tap.break_margin.high
    assert any(source.field.startswith("tap.torque") for source in data.notes.sources)


def test_machine_holds_the_speed():
    slow = specify(half_inch("6061-T6", machine=Machine(max_spindle_speed_rpm=300.0)))
    assert slow.process.cutting.drill.spindle_speed_rpm <= 300
    assert slow.process.cutting.tap.spindle_speed_rpm <= 300


def test_a_floating_holder_needs_more_depth():
    """Clearance 1 pitch rigid, 3 pitches in a tension-compression holder (common practice)."""
    rigid, floating = (specify(half_inch("4140", machine=Machine(tapping=way))) for way in ("rigid", "floating"))
    deeper = floating.depths.drill_depth - rigid.depths.drill_depth
    assert abs(deeper - 2 * rigid.thread.pitch) <= Decimal("0.001")


def test_unknown_material_is_answered_or_refused():
    assert specify(half_inch("unobtainium")).process.cutting is None
    with pytest.raises(BorewrightError) as caught:
        specify(half_inch("unobtainium", strict=True))
    assert caught.value.code == "material_unknown"


def test_unknown_grade_is_refused():
    request = HoleSpecRequest(
        thread=callout.read("M8"),
        hole=Hole("through", thickness=Length(Decimal(12), "mm")),
        material=MaterialInput(name="6061-T6"),
        mating_screw=MatingScrew(grade="99.9"),
    )
    with pytest.raises(BorewrightError) as caught:
        specify(request)
    assert caught.value.code == "screw_grade_unknown"


def order(finish: str | FinishInput | None) -> list[str]:
    request = HoleSpecRequest(
        thread=callout.read("3/8-16 UNC-2B"),
        hole=Hole("through", thickness=inches("0.75")),
        finish=FinishInput(text=finish) if isinstance(finish, str) else finish,
    )
    return [one.line.operation for one in specify(request).operations]


def test_operations_in_shop_order():
    """Hot-dip zinc goes on before the tap, every other coat after it; a masked thread is masked, coated, uncovered."""
    assert order(None) == ["spot_drill", "drill", "countersink", "tap", "inspect"]
    assert order("ASTM B633 Fe/Zn 5") == [
        "spot_drill", "drill", "countersink", "tap", "inspect", "wash", "finish", "inspect",
    ]  # fmt: skip
    assert order("ASTM F2329") == ["spot_drill", "drill", "countersink", "finish", "redrill", "tap", "inspect"]
    masked = order(FinishInput(specification="ASTM B633", finish_class="Fe/Zn 5", masked=True))
    assert masked[-5:] == ["wash", "mask", "finish", "strip", "inspect"]


def test_hard_steel_is_baked_after_plating():
    """ASTM F1941 and B850: hard steel is baked after electroplating; soft steel is not."""

    def operations(hardness: str) -> list[str]:
        request = HoleSpecRequest(
            thread=callout.read("3/8-16 UNC-2B"),
            hole=Hole("through", thickness=inches("0.75")),
            material=MaterialInput(name="4140", hardness=hardness),
            finish=FinishInput(text="ASTM F1941 grade 5"),
        )
        return [one.line.operation for one in specify(request).operations]

    assert "bake" in operations("45 HRC")
    assert "bake" not in operations("20 HRC")


def test_insert_longer_than_its_hole_is_refused():
    request = HoleSpecRequest(
        thread=callout.read("M8x1.25 STI 1.5D"), hole=Hole("blind", full_thread_depth=Length(Decimal(3), "mm"))
    )
    with pytest.raises(BorewrightError):
        specify(request)


@pytest.mark.parametrize("system", sorted({entry.system for entry in standards.catalogue()}))
def test_every_catalogued_thread_is_specified(system):
    """A through hole of one diameter in every standard size of every system is specified in full."""
    for entry in standards.catalogue():
        if entry.system != system:
            continue
        thickness = max(entry.nominal_diameter, 4 * entry.pitch)
        hole = Hole("through", thickness=Length(thickness, entry.unit))
        spec = specify(HoleSpecRequest(thread=callout.read(entry.designation), hole=hole))
        assert spec.drill.recommended.diameter > 0
        assert [line.sequence for line in spec.operations] == [10 * n for n in range(1, len(spec.operations) + 1)]


@pytest.mark.parametrize(("thread", "unit"), [("6-4 UN-2B", "in"), ("M160x6-6H", "mm"), ("5 1/2-8 UN-2B", "in")])
def test_least_torque_of_a_bored_hole_is_the_bore(thread, unit):
    """Beyond the largest drill no drill can be larger than the chart's: the hole is bored, not refused."""
    long = Length(Decimal(6 if unit == "in" else 150), unit)
    chart, best = (
        recommend_drill(DrillRecommendation(callout.read(thread), objective=way, length_of_engagement=long))
        for way in ("chart", "least_torque")
    )
    assert best.drill.objective == "least_torque"
    assert best.drill.recommended == chart.drill.recommended
    assert any("bored" in text for text in best.drill.notes.assumptions)


def test_operations_name_the_reach_of_their_tools():
    def tools(**way):
        hole = Hole("blind", Length(Decimal(16), "mm"), **way)
        lines = [one.line for one in specify(HoleSpecRequest(callout.read("M8"), hole)).operations]
        return {line.operation: line for line in lines}

    free, deep = tools(), tools(access_depth=Length(Decimal(60), "mm"))
    assert "reach" not in free["drill"].tool
    assert "reach" not in free["tap"].tool
    assert deep["drill"].tool["reach"] == 60 + free["drill"].parameters["tip_depth"]
    assert deep["tap"].tool["reach"] == 60 + free["tap"].parameters["travel"]
    assert deep["tap"].tool["length"] == "extended"  # ISO 529 M8: 72 mm overall is less than the reach (from memory)
    assert "extended length reaching" in deep["tap"].text


@pytest.mark.parametrize(
    ("thread", "words"), [("M8", "Drill 6.8 mm, through 12 mm"), ("1/2-13 UNC-2B", "Drill 27/64 (0.4219 in), through ")]
)
def test_a_drill_is_named_with_its_diameter_once(thread, words):
    """27/64 in is 0.421875 in."""
    hole = Hole("through", thickness=Length(Decimal(12), "mm"))
    found = specify(HoleSpecRequest(thread=callout.read(thread), hole=hole))
    text = next(one.line.text for one in found.operations if one.line.operation == "drill")
    assert in_units(text, found.thread.unit).startswith(words)


def test_a_drill_alone_is_told_which_of_two_oversizes_of_the_shop_it_has():
    def inch(value):
        return Length(Decimal(value), "in")

    measured = MeasuredOversize(30, spread=0.0007, drill_diameter=inch("0.421875"), mean=inch("0.0016"), unit="in")
    asked = DrillRecommendation(callout.read("1/2-13 UNC-2B"), shop_figures=ShopFigures(drill_oversize=(measured,)))
    stated = replace(asked, machine=Machine(drill_oversize=DrillOversize(inch("0.002"), inch("0.001"))))
    said = "the shop's figures of drilled holes are not used: machine.drill_oversize goes before them"
    assert [said in recommend_drill(one).notes.assumptions for one in (asked, stated)] == [False, True]
