"""What is said of a drill, with its arithmetic: forming holes, remedies, percents of thread by material.

Mean oversize of FED-STD-H28/2B (1991) Tables II.A.1 and II.A.2; limits of ASME B1.1 and ISO 965-1; percents by
material are common practice.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.drilling import DrillRequest, find_drill, recommend
from borewright.core.drilling.hole_limits import engagement_step
from borewright.core.drilling.part_remarks import (
    as_drilled_in_plastic,
    forming_material_cautions,
    percent_band,
    plastic_cautions,
    usual_percent,
)
from borewright.core.drilling.standard_drills import OwnOversize, mean_oversize
from borewright.core.drilling.target_hole import cutting_case
from borewright.core.model import Material, PercentTarget
from every import every


def thread(text):
    return standards.resolve(callout.read(text))


def choice(text, **asked):
    return recommend(thread(text), DrillRequest(**asked))


def plain_blanks(texts):
    return " ".join(texts).replace("\N{NO-BREAK SPACE}", " ")


def material(family, hardness=None, chip=None):
    return Material(family, family, "P", chip, hardness, None, None, None, None, None)


@every(
    ("text", "said"),
    [
        # 0.03 mm up to 10 mm; a quarter of the tolerance above: (10.441 - 10.106)/4 mm, (0.376 - 0.360)/4 in
        ("M6", "Hold the hole to 5.558 mm within about 0.03 mm each way (common practice)"),
        ("M10", "within about 0.03 mm each way (common practice)"),
        ("M12", "within about 0.084 mm each way (half the tolerance of a cut hole, common practice)"),
        # 0.03/25.4 = 0.0012 in up to 10/25.4 = 0.3937 in
        ("1/4-20 UNC-2B", "Hold the hole to 0.2279 in within about 0.0012 in each way (common practice)"),
        ("3/8-16 UNC-2B", "within about 0.0012 in each way (common practice)"),
        ("7/16-14 UNC-2B", "within about 0.004 in each way (half the tolerance of a cut hole, common practice)"),
        ("7/16-14 UNC-2B", "check it with a plain plug (0.360 to 0.376 in)."),
        # 5.7 mm is 0.2244 in and cuts 0.0038 in over: 0.2282
        ("1/4-20 UNC-2B", "The drill's hole, 0.2282 in on average, is 0.0003 in from it; try it, or ream."),
    ],
)
def test_how_close_the_hole_of_a_forming_tap_is_held(text, said):
    assert said in plain_blanks(one.text for one in choice(text, method="form").notes.cautions)


@every(
    ("family", "hardness", "diameters", "band"),
    [
        ("carbon steel", 299.0, "1", (60, 75)),
        ("carbon steel", 300.0, "1", (55, 65)),
        ("carbon steel", 299.0, "1.5", (60, 75)),
        ("carbon steel", 299.0, "1.51", (55, 70)),
        ("carbon steel", 400.0, "2", (50, 60)),
        ("carbon steel", 401.0, "1", None),
        ("carbon steel", None, "1", None),
        ("tool steel", 400.0, "1", (55, 65)),
        ("tool steel", 401.0, "1", None),
        ("brass", None, "1", (70, 80)),
        ("brass", 100.0, "2", (65, 75)),
        ("brass", None, "0.5", (70, 80)),
        ("brass", None, "0.49", (75, 83)),
        ("carbon steel", None, "0.49", (75, 83)),
        ("unobtainium", None, "1", None),
    ],
)
def test_percent_of_thread_that_shops_use(family, hardness, diameters, band):
    found, step = thread("M10"), engagement_step(thread("M10"), Decimal(diameters) * 10)
    told = percent_band(found, material(family, hardness), step)
    assert told == (None if band is None else tuple(map(Decimal, band)))
    words = usual_percent(found, material(family, hardness), step)
    if band is None:
        assert words is None
    elif Decimal(diameters) < Decimal("0.5"):
        assert words == "common practice for engagements below 0.5 D is 75 to 83 % of thread"
    else:
        deep = "over" if Decimal(diameters) > Decimal("1.5") else "to"
        usual = f"{band[0]} to {band[1]} % of thread for engagements {deep} 1.5 D"
        assert words == f"common practice in {family} is {usual}"


def test_no_percent_is_usual_in_a_form_that_is_not_common():
    assert percent_band(thread("Tr 20x4"), material("brass"), None) is None
    assert percent_band(thread("M10"), None, None) is None
    assert percent_band(thread("M10"), material("brass"), None) == (70, 80)
    reasons = choice("M10", method="form", material=material("brass", chip="long")).recommended.reasons
    assert "common practice in brass" not in " ".join(reasons)


def test_what_is_known_of_steel_is_left_out_of_plastic():
    found = choice("1/4-20 UNC-2B")
    plastic, steel = material("plastic"), material("carbon steel", 180.0)
    assert as_drilled_in_plastic(found, steel) is found
    assert (plastic_cautions(steel), [one.code for one in plastic_cautions(plastic)]) == ((), ["plastic_closes_in"])
    bare = as_drilled_in_plastic(found, plastic)
    names = {step.quantity for step in bare.notes.steps}
    assert "target.hole_diameter" in names
    assert not {"recommended.expected_hole_diameter", "recommended.acceptance", "mean oversize"} & names
    fields = {source.field for source in bare.notes.sources}
    assert "recommended.label" in fields
    assert "recommended.expected_hole_diameter" not in fields
    assert bare.notes.decisions == found.notes.decisions


def test_what_is_formed_flows():
    request = DrillRequest(method="form").question
    assert [one.code for one in forming_material_cautions(request, None)] == ["forming_needs_ductile_material"]
    assert forming_material_cautions(DrillRequest().question, None) == ()


@every(
    ("text", "unit", "label", "series"),
    [
        # a label of 40 characters is read; a 64th of 1 is the last one; 4 in are read as such, more as millimetres
        ("6.8 mm".rjust(40), None, "6.8 mm", "metric"),
        ("63/64", None, "63/64", "fractional"),
        ("4 in", None, "4", "fractional"),
        ("3.99", "in", "3.99 in", "special"),
        ("4.05", "in", "4.05 mm", "special"),
        ("0.26774", "in", "0.26774 in", "special"),
    ],
)
def test_bounds_of_labels(text, unit, label, series):
    found = find_drill(text, unit)
    assert found.label == label
    assert found.series == series


def test_a_special_size_is_held_in_both_units():
    """6.75 / 25.4 = 0.265748 in; 6.77 / 25.4 = 0.2665354, six decimals are kept; 0.5687 x 25.4 = 14.44498 mm."""
    assert find_drill("6.77 mm").diameter_in == Decimal("0.266535")
    assert find_drill("6.75 mm").diameter_in == Decimal("0.265748")
    assert find_drill("0.5687 in").diameter_mm == Decimal("14.44498")


@every(
    ("text", "percent", "hole"),
    [
        # D - P; inch threads 75 % of 1.299038 P; Acme basic minor; NPTF has its chart
        ("M10", None, "8.500"),
        ("1/2-13 UNC-2B", None, "0.4251"),
        ("1/2-13 UNC-2B", PercentTarget(target=Decimal(70)), "0.4301"),
        ("M10", PercentTarget(target=Decimal(70)), "8.636"),
        # (0.434, 66.05 %) is the largest hole of class 2B, 70 % is 0.4301
        ("1/2-13 UNC-2B", PercentTarget(target=Decimal(50)), "0.4340"),
        ("1/2-13 UNC-2B", PercentTarget(min=Decimal(76)), "0.4241"),
        ("1/2-13 UNC-2B", PercentTarget(max=Decimal(74)), "0.4261"),
    ],
)
def test_the_hole_aimed_at(text, percent, hole):
    case = cutting_case(thread(text), DrillRequest(percent=percent), None)
    assert abs(case.target.hole - Decimal(hole)) <= Decimal("0.00005") * (10 if text == "M10" else 1)


def test_bounds_of_the_published_oversize():
    """Tables II.A.1 and II.A.2 begin at 0.0465 in and end at 1.0469 in."""
    for drill in ("0.0465", "1.0469"):
        assert mean_oversize(Decimal(drill), "in").status == "published"
    for drill in ("0.0464", "1.0470"):
        assert mean_oversize(Decimal(drill), "in") is None


def test_the_decision_on_a_drill_that_cuts_large():
    """1/2-20 UNF-2B ends at 0.457: 29/64 (0.4531) with 0.0047 of oversize drills 0.4578; a stated oversize of 0.006
    makes 0.4591 of it, 0.0021 too much.
    """
    (tables,) = choice("1/2-20 UNF-2B").notes.decisions
    said = plain_blanks([tables.text])
    assert "29/64 drills 0.4578 in on average by the tables' mean oversize, 0.0008 in above the largest minor" in said
    assert "Decide: keep 29/64 where your drills cut closer (machine.drill_oversize); take " in said
    own = OwnOversize(Decimal("0.006"), 0.001)
    found = choice("1/2-20 UNF-2B", oversize=own, stock=("29/64",))
    said = plain_blanks(one.text for one in found.notes.decisions)
    assert found.recommended.drill.label == "29/64"
    assert "with the oversize stated for the machine, 0.0021 in above the largest minor diameter 0.457 in" in said
    assert "keep 29/64" not in said
