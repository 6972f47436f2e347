"""The least-torque drill against the chart's: what it gains, and the physics behind it."""

from dataclasses import replace
from decimal import Decimal
from math import pi

import pytest
from borewright.core import callout, standards
from borewright.core.chance.acceptance import hole_chance
from borewright.core.cutting.records import CuttingRequest
from borewright.core.drilling import DrillRequest, find_drill, recommend
from borewright.core.drilling.standard_drills import OwnOversize
from borewright.core.joint import least_torque
from borewright.core.materials import part_material
from borewright.core.model import BasicDiameters, Diameters, DrillCandidate, MaterialInput, Range
from borewright.core.requests import MatingScrew
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

HALF = standards.resolve(callout.read("1/2-13 UNC-2B"))
GRADE_8 = MatingScrew(grade="grade 8")
MM = Decimal("25.4")
#: A shop that drills close: 10.8 mm (0.4252) makes 0.4262, 10.9 mm (0.4291) 0.4301; 1/2-13 ends at 0.434.
CLOSE = {"series": ("metric",), "oversize": OwnOversize(Decimal("0.001"), 0.0003)}


def _cutting(material, engagement):
    return CuttingRequest(
        material=material,
        hole_kind="blind",
        drill_diameter=Decimal(1),
        hole_diameter=Decimal(1),
        drill_depth=engagement * 2,
        full_thread_depth=engagement,
        tap_travel=engagement * 2,
        style="spiral_flute",
        chamfer_threads=Decimal("2.5"),
    )


def _choose(text, material, engagement, grade=GRADE_8, **asked):
    thread, part, length = (
        standards.resolve(callout.read(text)),
        part_material.find(MaterialInput(material)),
        Decimal(engagement),
    )
    chart, least = least_torque.choose(
        thread,
        DrillRequest(material=part, engagement=length, **asked),
        engagement=length,
        screw=grade,
        safety_factor=1.0,
    )
    found = least_torque.compare(
        thread,
        chart=chart.recommended,
        least_torque=least.recommended,
        cutting=_cutting(part, length),
        engagement=length,
        screw=grade,
    )
    return chart, least, found


@pytest.mark.parametrize("material", ["6061-T6", "4140", "4140 at 28 HRC"])
def test_half_inch(material):
    """1/2-13 UNC-2B: the drill nearest to 75 % against the largest one that holds limits and strength."""
    chart, least, found = _choose("1/2-13 UNC-2B", material, "0.75", **CLOSE)
    assert (chart.recommended.drill.label, least.recommended.drill.label) == ("10.8 mm", "10.9 mm")
    assert least.recommended.diameter > chart.recommended.diameter
    assert least.recommended.within_minor_diameter_limits
    assert 0.85 < found.torque_ratio < 1
    assert found.margin_gained == pytest.approx(1 / found.torque_ratio - 1)
    assert found.external_strip_ratio > 0.95
    assert found.strength_ratio <= 1
    for option in (found.chart, found.least_torque):
        assert option.torque.low < option.torque.value < option.torque.high
        assert option.minor_diameter_chance >= 0.95
    assert found.least_torque.break_margin.value > found.chart.break_margin.value
    assert "torque" in found.reasons[0]


def test_soft_metal_loses_no_strength():
    _, _, found = _choose("1/2-13 UNC-2B", "6061-T6", "0.5", **CLOSE)
    assert found.chart.strength.fails_first == "internal_thread"
    assert found.strength_ratio == 1
    assert any("does not depend on the hole" in text for text in found.reasons)


def test_internal_area_is_the_same_for_both():
    _, _, found = _choose("1/2-13 UNC-2B", "4140", "0.5", **CLOSE)
    before, after = found.chart.strength, found.least_torque.strength
    assert before.internal_shear_area_mm2 == after.internal_shear_area_mm2
    assert before.external_shear_area_mm2 > after.external_shear_area_mm2


def test_too_short_an_engagement_keeps_the_chart_drill():
    """Where even the chart's hole leaves the screw's thread too weak, no larger one is taken."""
    chart, least, found = _choose("1/2-13 UNC-2B", "4140 at 36 HRC", "0.34")
    assert least.recommended.drill.label == chart.recommended.drill.label
    assert "already the largest" in found.reasons[0]
    assert found.torque_ratio == 1


def test_a_higher_safety_factor_never_takes_a_larger_drill():
    part = part_material.find(MaterialInput("4140 at 36 HRC"))
    length = Decimal("0.56")
    request = DrillRequest(material=part, engagement=length, **CLOSE)
    sizes = [
        least_torque.choose(HALF, request, engagement=length, screw=GRADE_8, safety_factor=factor)[
            1
        ].recommended.diameter
        for factor in (1.0, 1.2, 1.4, 2.0)
    ]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[0] > sizes[-1]


def test_series_asked_for_are_kept():
    _, least, _ = _choose("1/2-13 UNC-2B", "6061-T6", "0.75", series=("fractional",))
    assert least.recommended.drill.series == "fractional"


@pytest.mark.parametrize(
    "text", ["1/4-20 UNC-2B", "#10-24 UNC-2B", "3/8-16 UNC-2B", "3/4-10 UNC-2B", "M8", "M10", "M12", "M20"]
)
def test_other_sizes(text):
    engagement = "0.6" if "UN" in text else "20"
    chart, least, found = _choose(text, "6061-T6", engagement, MatingScrew())
    assert least.recommended.diameter >= chart.recommended.diameter
    assert found.torque_ratio <= 1
    chances = found.least_torque.minor_diameter_chance, found.chart.minor_diameter_chance
    assert chances[0] >= min(least_torque.LEAST_ACCEPTANCE, chances[1])


def test_short_engagement_never_asks_for_a_smaller_hole_than_the_chart():
    """3/4-10 at 0.5 in: the hole limits for up to 0.67 D end below the mean hole of the chart's 21/32."""
    _, least, found = _choose("3/4-10 UNC-2B", "6061-T6", "0.5", MatingScrew())
    assert least.recommended.drill.label == "21/32"
    assert found.torque_ratio == 1


def test_inch_and_metric_drills_are_not_changed_for_a_small_gain():
    """M24 in titanium: 53/64 in (21.03 mm) would gain 2 %; a metric shop has none."""
    _, least, _ = _choose("M24", "Ti-6Al-4V", "36", MatingScrew())
    assert least.recommended.drill.label == "21 mm"


def test_without_a_material_the_ratio_is_geometry():
    _, _, found = _choose("1/2-13 UNC-2B", "unobtainium", "0.75", **CLOSE)
    assert found.chart.torque is None
    assert found.strength_ratio is None
    assert 0.85 < found.torque_ratio < 1


@settings(max_examples=40)
@given(st.decimals("0.4256", "0.44", places=4), st.decimals("0.4256", "0.44", places=4))
def test_acceptance_falls_as_the_hole_nears_its_limit(one, other):
    near, far = sorted((one, other))
    assert hole_chance(HALF, near) >= hole_chance(HALF, far)


def _millimetres(limits):
    def scaled(zone):
        return Range(*(None if size is None else size * MM for size in (zone.min, zone.max)))

    return Diameters(
        *(scaled(getattr(limits, name)) for name in ("major_diameter", "pitch_diameter", "minor_diameter"))
    )


def _metric_copy(thread):
    """The same thread with every length in millimetres."""
    basic = thread.basic
    return replace(
        thread,
        unit="mm",
        nominal_diameter=thread.nominal_diameter * MM,
        pitch=thread.pitch * MM,
        lead=thread.lead * MM,
        basic=BasicDiameters(
            *(size * MM for size in (basic.major_diameter, basic.pitch_diameter, basic.minor_diameter))
        ),
        internal=_millimetres(thread.internal),
        external=_millimetres(thread.external),
        tensile_stress_area=thread.tensile_stress_area * MM**2,
    )


def _metric_drill(drill: DrillCandidate) -> DrillCandidate:
    return replace(drill, diameter=drill.diameter * MM, expected_hole_diameter=drill.expected_hole_diameter * MM)


def test_scaling_to_metric_gives_the_same_ratios():
    chart, least, inch = _choose("1/2-13 UNC-2B", "4140 at 28 HRC", "0.5")
    part = part_material.find(MaterialInput("4140 at 28 HRC"))
    metric = least_torque.compare(
        _metric_copy(HALF),
        chart=_metric_drill(chart.recommended),
        least_torque=_metric_drill(least.recommended),
        cutting=_cutting(part, Decimal("12.7")),
        engagement=Decimal("12.7"),
        screw=GRADE_8,
    )
    assert metric.torque_ratio == pytest.approx(inch.torque_ratio, rel=1e-9)
    assert metric.strength_ratio == pytest.approx(inch.strength_ratio, rel=1e-9)
    assert metric.external_strip_ratio == pytest.approx(inch.external_strip_ratio, rel=1e-9)
    for one, other in ((metric.chart, inch.chart), (metric.least_torque, inch.least_torque)):
        assert one.torque.value == pytest.approx(other.torque.value, rel=1e-9)
        assert one.minor_diameter_chance == pytest.approx(other.minor_diameter_chance, rel=1e-9)


def test_ratios_can_be_redone():
    _, _, found = _choose("1/2-13 UNC-2B", "4140", "0.75")
    redone = {
        step.quantity: eval(step.formula, {"__builtins__": {}}, {"min": min, **step.inputs})
        for step in found.notes.steps
    }
    assert redone["torque_ratio"] == pytest.approx(found.torque_ratio)
    assert redone["strength_ratio"] == pytest.approx(found.strength_ratio)
    assert redone["external_strip_ratio"] == pytest.approx(found.external_strip_ratio)
    assert redone["margin_gained"] == pytest.approx(found.margin_gained)


def test_what_is_said_is_what_was_found():
    """Drills, torque, percent of thread and strength of the reasons are those of the options."""
    _, _, found = _choose("1/2-13 UNC-2B", "4140", "0.5", **CLOSE)
    torque, strength = (100 * (one - 1) for one in (found.torque_ratio, found.strength_ratio))
    percents = [one.expected_percent_thread for one in (found.chart, found.least_torque)]
    assert torque < -1
    assert found.reasons[0] == (
        f"10.9 mm instead of 10.8 mm: torque {torque:+.0f} %, thread {percents[0]} to {percents[1]} %"
    )
    assert found.reasons[1].startswith(f"strength of the joint {strength:+.1f} % (")
    assert {step.quantity: step.value for step in found.notes.steps} == {
        "torque_ratio": found.torque_ratio,
        "strength_ratio": found.strength_ratio,
        "external_strip_ratio": found.external_strip_ratio,
        "margin_gained": found.margin_gained,
    }


def test_one_drill_twice_is_the_largest():
    _, _, found = _choose("1/2-13 UNC-2B", "4140 at 36 HRC", "0.34")
    label = found.chart.drill.drill.label
    assert found.reasons == (f"the chart drill {label} is already the largest that holds limits and strength",)


def test_without_a_material_torque_goes_as_section_times_arm():
    """h = (0.5 - hole) / 2; section h (P / 8 + h tan 30) at its centroid h / 3 x (a + 2 b) / (a + b) from the major."""
    _, _, found = _choose("1/2-13 UNC-2B", "unobtainium", "0.75", **CLOSE)

    def turning(hole):
        depth, crest = (0.5 - hole) / 2, 1 / 13 / 8
        base = crest + 2 * 0.57735 * depth
        arm = 0.25 - depth / 3 * (crest + 2 * base) / (crest + base)
        return depth * (crest + 0.57735 * depth) * arm

    holes = [float(one.hole_diameter) for one in (found.chart, found.least_torque)]
    assert found.torque_ratio == pytest.approx(turning(holes[1]) / turning(holes[0]), rel=5e-3)
    assert len(found.reasons) == 1
    assert (found.strength_ratio, found.external_strip_ratio) == (None, None)


def _outside(hole):
    """External shear area of 3/8-16 in in2 an inch of length, FED-STD-H28/2B (4a) with the screw of class 2A."""
    return pi * 16 * hole * (1 / 32 + 0.57735 * (0.3287 - hole))


@every(
    ("hole", "side", "label"),
    [
        (0.3199, -1, "8.1 mm"),
        (0.3199, 1, "O"),
        (0.3170, -1, "O"),
        (0.3170, 1, "8 mm"),
        (0.3160, 1, "8 mm"),
    ],
)
def test_the_largest_drill_that_is_strong_enough_is_taken_and_none_beyond(hole, side, label):
    """3/8-16 UNC-2B, 0.307 to 0.321 in: 8 mm (0.3150) is nearest to 75 %, 0.3141, and never blamed; then come O
    (0.3160) and 8.1 mm (0.3189), each 0.001 in oversize. 0.42 in of 4140 at 36 HRC, two pitches of it incomplete; the
    screw carries 0.0775 in2 x 150 ksi, its thread 0.58 x 150 ksi over the area that the hole leaves. The factor of a
    hole is asked for, a thousandth less and a thousandth more.
    """
    thread, length = standards.resolve(callout.read("3/8-16 UNC-2B")), Decimal("0.42")
    asked = DrillRequest(
        material=part_material.find(MaterialInput("4140 at 36 HRC")),
        engagement=length,
        series=("fractional", "number", "letter", "metric"),
        oversize=CLOSE["oversize"],
    )
    factor = 0.58 * _outside(hole) * (0.42 - 2 / 16) / 0.0775 + side * 0.001
    _, least = least_torque.choose(thread, asked, engagement=length, screw=GRADE_8, safety_factor=factor)
    assert least.recommended.drill.label == label


@pytest.mark.parametrize(("series", "label"), [(("fractional",), "5/16"), (None, "O")])
def test_a_larger_drill_is_one_of_the_series_asked_for(series, label):
    """3/8-16 UNC-2B, 0.307 to 0.321 in: 5/16 (0.3125) is the only 64th, letter O (0.316) is larger."""
    asked = {"oversize": CLOSE["oversize"], "series": series}
    chart, least, _ = _choose("3/8-16 UNC-2B", "6061-T6", "0.75", **asked)
    assert (chart.recommended.drill.label, least.recommended.drill.label) == ("5/16", label)
    kept = [said for said in least.notes.assumptions if said.endswith("so least torque keeps the chart's 5/16")]
    assert len(kept) == (label == "5/16")


def test_a_formed_thread_has_its_one_hole():
    """Torque of a forming tap is not a matter of the chart's drill: nothing is said of one that is kept."""
    part, thread = part_material.find(MaterialInput("6061-T6")), standards.resolve(callout.read("M10"))
    asked = DrillRequest(method="form", material=part, engagement=Decimal(15))
    _, least = least_torque.choose(thread, asked, engagement=Decimal(15), screw=MatingScrew(), safety_factor=1.0)
    assert least.objective == "least_torque"
    assert not any("least torque keeps" in said for said in least.notes.assumptions)


def _compared(low, high, material="4140 at 28 HRC", engagement="0.5"):
    part, length = part_material.find(MaterialInput(material)), Decimal(engagement)
    chart, least = (recommend(HALF, DrillRequest(stated=find_drill(one))).recommended for one in (low, high))
    return least_torque.compare(
        HALF,
        chart=chart,
        least_torque=least,
        cutting=_cutting(part, length),
        engagement=length,
        screw=GRADE_8,
    )


def test_percents_of_a_comparison_are_whole_shares():
    """27/64 (Table II.A.1: 73 %) against 15/32, whose hole leaves (0.5 - 0.4688 - 0.0048) x 13 / 1.299038 = 26.42 % of
    thread: half and more is gained and lost, so that a hundredth of it would show.
    """
    found = _compared("27/64", "15/32")
    torque, strength = 100 * (found.torque_ratio - 1), 100 * (found.strength_ratio - 1)
    assert (torque, strength) < (-70, -40)
    assert found.least_torque.expected_percent_thread == Decimal("26.42")
    assert found.reasons[0] == f"15/32 instead of 27/64: torque {torque:+.0f} %, thread 73.45 to 26.42 %"
    assert found.reasons[1] == f"strength of the joint {strength:+.1f} % (external thread fails first)"
    other = _compared("27/64", "29/64")
    torque = 100 * (other.torque_ratio - 1)
    assert f"{torque:+.0f}" != f"{1.01 * torque:+.0f}"
    assert f"torque {torque:+.0f} %," in other.reasons[0]


def test_torques_are_compared_where_they_are_known():
    found = _compared("27/64", "7/16")
    (step,) = [one for one in found.notes.steps if one.quantity == "torque_ratio"]
    assert step.inputs == {"chart": found.chart.torque.value, "least": found.least_torque.torque.value}


def test_threads_that_carry_nothing_are_not_compared():
    """0.1 in is less than the two incomplete pitches, 0.154 in."""
    found = _compared("27/64", "7/16", engagement="0.1")
    assert found.chart.strength.external_strip_force_n == 0
    assert (found.strength_ratio, found.external_strip_ratio) == (None, None)
    assert not any("strength of the joint" in said for said in found.reasons)


@pytest.mark.parametrize("series", [None, ("fractional",), ("metric",)])
def test_a_hole_beyond_every_drill_is_bored_whatever_the_series(series):
    """75 % of 5-4: 5 - 0.75 x 1.299038/4 = 4.756 in, and drills end at 4 in."""
    asked, thread = DrillRequest(series=series, engagement=Decimal(5)), standards.resolve(callout.read("5-4 UN-2B"))
    bored, least = least_torque.choose(thread, asked, engagement=Decimal(5), screw=MatingScrew(), safety_factor=1.0)
    assert (bored.ream_diameter, least.ream_diameter) == (Decimal("4.756"),) * 2
    assert any("larger than every drill held" in said for said in least.notes.assumptions)
