"""Which way is one, to the last digit of the limit that decides it: arithmetic beside each figure.

Limits: 3/8-16 UNC-2B pitch 0.3344 to 0.3401, minor 0.307 to 0.321, 1B pitch to 0.3429 (ASME B1.1); M8-6H minor 6.647 to
6.912 (ISO 965-2). A coat of t moves the pitch diameter of a 60 degree thread by 4 t, the minor diameter by 2 t.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.requests import HoleSpecRequest, MatingScrew
from borewright.core.rework import FaultFound, Measured, ReworkRequest, rework
from every import every

STEEL, ALUMINIUM = MaterialInput(name="4140", hardness="28 HRC"), MaterialInput(name="6061-T6")
GRADE_5, GRADE_8 = MatingScrew(grade="SAE J429 grade 5"), MatingScrew(grade="SAE J429 grade 8")


def inch(value):
    return None if value is None else Length(Decimal(str(value)), "in")


def mm(value):
    return Length(Decimal(str(value)), "mm")


#: 0.0002 to 0.0004 in of a coat that grows outward altogether.
COAT = FinishInput(thickness=LengthRange(inch(0.0002), inch(0.0004)), growth_fraction=Decimal(1))


def judged(thread, found, hole=None, **asked):
    """Ways and what is ruled out, by name."""
    hole = hole or Hole("blind", full_thread_depth=inch(0.75), thickness=inch(1.25))
    answer = rework(ReworkRequest(HoleSpecRequest(callout.read(thread), hole, **asked), found))
    return {one.name: one for one in answer.ways}, {one.name: one.why for one in answer.ruled_out}


def oversize(stage=None, *, material=STEEL, screw=GRADE_5, finish=COAT, hole=None, **measured):
    sizes = Measured(**{name: inch(value) for name, value in measured.items()})
    found = FaultFound("tapped_oversize", stage, sizes)
    return judged("3/8-16 UNC-2B", found, hole, finish=finish, material=material, mating_screw=screw)


def test_limits_are_those_of_the_stage():
    """Before the finish the least coat still closes 4 x 0.0002: 0.3409 and 0.3437; after it 0.3401 and 0.3429 hold."""
    for stage, most, looser in (("before_finish", "0.3409", "0.3437"), ("after_finish", "0.3401", "0.3429")):
        ways, _ = oversize(stage, pitch_diameter=looser)
        assert ways["looser_class"].proof["pitch_diameter_max"] == Decimal(most)
        assert ways["looser_class"].proof["pitch_diameter_max_looser"] == Decimal(looser)
        assert ways["looser_class"].regrade
        beyond = str(Decimal(looser) + Decimal("0.0001"))
        ways, ruled_out = oversize(stage, pitch_diameter=beyond)
        assert "looser_class" not in ways
        assert "over the limit of 1B as well" in ruled_out["looser_class"]


@every(
    ("stage", "measured", "name", "coat"),
    [
        # (0.3417 - 0.3401)/4 = 0.0004, the thick end; a ten-thousandth more is past it
        ("before_finish", {"pitch_diameter": 0.3417}, "thicker_coat", "0.00040"),
        ("before_finish", {"pitch_diameter": 0.3418}, "thicker_coat", None),
        # bare again 0.3405 + 4 x 0.0003 = 0.3417; with 0.0002 on it 0.3413, which takes 0.0003
        ("after_finish", {"pitch_diameter": 0.3405, "coat": 0.0003}, "strip_and_coat_thicker", "0.00040"),
        ("after_finish", {"pitch_diameter": 0.3406, "coat": 0.0003}, "strip_and_coat_thicker", None),
        ("after_finish", {"pitch_diameter": 0.3405, "coat": 0.0002}, "strip_and_coat_thicker", "0.00030"),
        # the coat that is on it is not known
        ("after_finish", {"pitch_diameter": 0.3405}, "strip_and_coat_thicker", None),
        # twice 0.00035 closes 0.3077 to 0.3070, which is the limit, and 0.3076 below it
        ("before_finish", {"pitch_diameter": 0.3415, "hole_diameter": 0.3077}, "thicker_coat", "0.00035"),
        ("before_finish", {"pitch_diameter": 0.3415, "hole_diameter": 0.3076}, "thicker_coat", None),
    ],
)
def test_a_thicker_coat_closes_the_thread_up_to_its_class(stage, measured, name, coat):
    ways, ruled_out = oversize(stage, **measured)
    if coat is None:
        assert name not in ways
        assert name in ruled_out
        return
    proof = ways[name].proof
    assert (proof["coat_needed"], proof["minor_closes_by"]) == (Decimal(coat), 2 * Decimal(coat))
    first = ways[name].operations[0].line.operation
    assert (first == "strip") is (stage == "after_finish")
    codes = {one.code for one in ways[name].cautions}
    assert ("strip_by_the_standard" in codes) is (stage == "after_finish")


def test_no_coat_that_the_drawing_does_not_name():
    _, ruled_out = oversize(finish=None, pitch_diameter=0.3415)
    assert "changes the drawing" in ruled_out["thicker_coat"]
    assert not {"thicker_coat", "strip_and_coat_thicker"} & set(oversize(finish=None, pitch_diameter=0.3415)[0])


def test_what_cannot_be_known_without_the_pitch_diameter():
    ways, ruled_out = oversize("before_finish")
    for name in ("thicker_coat", "looser_class", "use_oversize"):
        assert name not in ways
        assert ruled_out[name].startswith("measure the pitch diameter")


def areas(pitch):
    """Internal shear area of 3/8-16, FED-STD-H28/2B (2a) without what both have: 2A screw of 0.3643 at least."""
    return 1 / 32 + 0.57735 * (0.3643 - pitch)


def test_the_weaker_of_the_two_threads_decides():
    """Aluminium strips before the screw's thread: the factor falls with the part's area. In steel a grade 8 screw's own
    thread is the weaker one in so short a hole, and a pitch diameter too large costs nothing."""
    short = Hole("blind", full_thread_depth=inch(0.25), thickness=inch(1.25))
    less = areas(0.3420) / areas(0.3401)
    assert less == pytest.approx(0.97574, abs=5e-6)  # 0.044125/0.045222
    weak, ruled_out = oversize(material=ALUMINIUM, finish=None, hole=short, pitch_diameter=0.3420)
    assert "use_oversize" not in weak
    assert "would strip" in ruled_out["use_oversize"]
    assert "would strip" in ruled_out["looser_class"]
    strong, _ = oversize(screw=GRADE_8, finish=None, hole=short, pitch_diameter=0.3402)
    proof = strong["use_oversize"].proof
    assert proof["safety_factor_as_drawn"] < 1
    assert proof["fails_first"] == "external_thread"
    assert proof["safety_factor"] == pytest.approx(proof["safety_factor_as_drawn"], rel=1e-9)
    long = Hole("blind", full_thread_depth=inch(0.75), thickness=inch(1.25))
    part, _ = oversize(material=ALUMINIUM, finish=None, hole=long, pitch_diameter=0.3420)
    proof = part["use_oversize"].proof
    assert proof["internal_shear_area_ratio"] == pytest.approx(less, rel=1e-4)
    assert proof["safety_factor"] / proof["safety_factor_as_drawn"] == pytest.approx(less, rel=1e-4)


def test_a_safety_factor_that_is_asked_for_is_kept():
    """What the joint has as drawn it must keep, unless it has more than was asked for."""
    drawn = oversize(material=ALUMINIUM, finish=None, pitch_diameter=0.3420)[0]["use_oversize"].proof
    now, before = drawn["safety_factor"], drawn["safety_factor_as_drawn"]
    assert 1 < now < before
    for needed, kept in ((now * 0.999, True), (now, True), (now * 1.001, False), (before * 1.5, False)):
        hole = Hole("blind", full_thread_depth=inch(0.75), thickness=inch(1.25))
        found = FaultFound("tapped_oversize", measured=Measured(pitch_diameter=inch(0.3420)))
        ways, _ = judged("3/8-16 UNC-2B", found, hole, material=ALUMINIUM, mating_screw=GRADE_5, safety_factor=needed)
        assert ("use_oversize" in ways) is kept, needed


def test_strength_that_is_not_known_is_said():
    ways, _ = oversize(material=None, finish=None, pitch_diameter=0.3420)
    assert "rework_strength_open" in {one.code for one in ways["use_oversize"].cautions}
    assert "rework_strength_open" not in {
        one.code for one in oversize(finish=None, pitch_diameter=0.3420)[0]["use_oversize"].cautions
    }


def test_a_thread_inside_its_limits_is_gauged_again():
    for pitch, again in ((0.3401, True), (0.3402, False)):
        assert ("clean_and_gauge_again" in oversize(finish=None, pitch_diameter=pitch)[0]) is again


def test_only_thread_that_is_there_and_is_used_counts():
    """0.6 in of engagement: 0.7 in of thread serve it whole, of 0.5 in there are 0.5."""
    for depth, counted in ((0.7, "0.6"), (0.5, "0.5")):
        found = FaultFound("too_shallow", measured=Measured(full_thread_depth=inch(depth)))
        ways, _ = judged("3/8-16 UNC-2B", found, material=STEEL, mating_screw=GRADE_5, length_of_engagement=inch(0.6))
        assert ways["use_shorter_thread"].proof["length_of_engagement"] == Decimal(counted)


def wrong(drawn, tapped, *, hole=None, **measured):
    sizes = Measured(**measured)
    return judged(
        drawn, FaultFound("wrong_thread", wrong_thread=callout.read(tapped), measured=sizes), hole, material=ALUMINIUM
    )


def drills(way):
    return [one.line.tool["label"] for one in way.operations if one.line.operation == "drill"]


@every(
    ("drawn", "tapped", "name", "figures", "drill"),
    [
        # 0.190 + 0.130/32 = 0.1941, inside 0.196 to 0.207: any hole cuts it away, by (0.196 - 0.1941)/2
        ("1/4-20 UNC-2B", "#10-32 UNF", "drill_and_tap_as_drawn", ("0.1941", "0.00095"), "#7"),
        # 0.250 + 0.130/20 = 0.2565, inside 0.252 to 0.265: only a drill from there on; F is 0.257
        ("5/16-18 UNC-2B", "1/4-20 UNC", "drill_and_tap_as_drawn", ("0.2565", "0.00425"), "F"),
        # 7 + 0.080 x 1 = 7.080, over 6.912: (8 - 7.080)/(1.299038 x 1.25) = 56.7 % stand
        ("M8", "M7x1", "cut_over_the_wrong_thread", ("7.080", None), "6.8 mm"),
    ],
)
def test_a_wrong_thread_is_cut_away_or_over(drawn, tapped, name, figures, drill):
    deep = Hole("blind", full_thread_depth=mm(16), thickness=mm(40))
    ways, _ = wrong(drawn, tapped, hole=deep)
    way = ways[name]
    envelope, radial = figures
    assert way.proof["envelope"] == Decimal(envelope)
    assert drills(way) == [drill]
    if radial is None:
        assert way.proof["percent_left"] == pytest.approx(56.7)
        assert (way.disposition, way.needs_authority, way.conforms) == ("repair", True, False)
        assert "traces_stay" in {one.code for one in way.cautions}
    else:
        assert way.proof["radial_clean_up"] == Decimal(radial)
        assert (way.disposition, way.conforms) == ("rework", True)


@every(
    ("drawn", "tapped", "why"),
    [
        # 12 + 0.080 x 1.75 = 12.14 mm = 0.4780 in: (0.5 - 0.4780)/(1.299038/13) = 22.0 %, less than half
        ("1/2-13 UNC-2B", "M12", "only 22 % of the right thread would stand"),
        # 0.375 + 0.130/24 = 0.3804, past 0.375: nothing stands
        ("3/8-16 UNC-2B", "3/8-24 UNF", "past the major diameter 0.375 in"),
    ],
)
def test_a_wrong_thread_that_leaves_too_little(drawn, tapped, why):
    ways, ruled_out = wrong(drawn, tapped)
    assert not {"drill_and_tap_as_drawn", "cut_over_the_wrong_thread"} & set(ways)
    assert why in ruled_out["cut_over_the_wrong_thread"].replace("\N{NO-BREAK SPACE}", " ")


def test_the_usual_drill_is_none_where_the_wrong_thread_reaches_past_it():
    """5 + 0.080 x 0.8 = 5.064 lies in the 4.917 to 5.153 of M6, but past its usual 5.0 mm: the next one sold, 5.1 mm,
    cuts past the limit with the 0.06 mm and more that a drill of that size cuts oversize."""
    ways, ruled_out = wrong("M6", "M5")
    assert "drill_and_tap_as_drawn" not in ways
    assert "5.1 mm" in ruled_out["drill_and_tap_as_drawn"]
    assert "reamer" in ruled_out["drill_and_tap_as_drawn"]


def test_the_wrong_thread_never_stays():
    for tapped in ("1/4-20 UNC", "#10-32 UNF", "M8"):
        ways, ruled_out = wrong("5/16-18 UNC-2B", tapped)
        assert "keep_the_wrong_thread" not in ways
        assert "does not fit" in ruled_out["keep_the_wrong_thread"]


def test_a_measured_major_diameter_goes_before_the_rule():
    """0.2490 measured is below the 0.252 of 5/16-18: any hole cuts it away, with the drill that is usual."""
    ways, _ = wrong("5/16-18 UNC-2B", "1/4-20 UNC", major_diameter=inch(0.2490))
    proof = ways["drill_and_tap_as_drawn"].proof
    assert (proof["envelope"], proof["cleans_up"]) == (Decimal("0.2490"), "full_any_hole")
    assert proof["radial_clean_up"] == Decimal("0.0015")


@every(
    ("thread", "depth", "insert", "plug", "unit"),
    [
        # 6 threads under the insert: 0.5625 + 6/16 = 0.9375
        ("3/8-16 UNC-2B", 0.65, 0.5625, 0.9375, "in"),
        # taps up to 8 mm have a male centre of half their diameter: 12 + 6 x 1.25 + 4
        ("M8", 14, 12, 23.5, "mm"),
        # and those over it none: 15 + 6 x 1.5
        ("M10", 18, 15, 24, "mm"),
        # 5/16 in counts to those; 1.5 D is printed 0.4688: 0.4688 + 6/18 + 0.15625 = 0.95838
        ("5/16-18 UNC-2B", 0.55, 0.4688, 0.95838, "in"),
    ],
)
def test_a_plug_tap_breaks_through_where_its_hole_ends_at_the_floor(thread, depth, insert, plug, unit):
    """NASM33537 by the inserts' standards: drilled 6 pitches deeper than the insert for a plug tap."""
    length = inch if unit == "in" else mm
    step = {"in": 0.001, "mm": 0.02}[unit]
    for thickness, breaks in ((plug + step, False), (plug - step, True)):
        hole = Hole("blind", full_thread_depth=length(depth), thickness=length(round(thickness, 5)))
        ways, _ = judged(thread, FaultFound("stripped"), hole, material=ALUMINIUM)
        way = ways["insert_in_the_same_place"]
        assert float(way.proof["insert_length"]) == pytest.approx(insert)
        assert float(way.proof["drill_depth_plug_tap"]) == pytest.approx(plug, abs=2e-5)
        assert ("plug_tap_breaks_out" in {one.code for one in way.cautions}) is breaks


def test_a_plug_tap_breaks_through_at_just_the_floor():
    hole = Hole("blind", full_thread_depth=inch(0.65), thickness=inch("0.9375"))
    ways, _ = judged("3/8-16 UNC-2B", FaultFound("stripped"), hole, material=ALUMINIUM)
    assert "plug_tap_breaks_out" in {one.code for one in ways["insert_in_the_same_place"].cautions}
    through = Hole("through", thickness=inch("0.75"))
    ways, _ = judged("3/8-16 UNC-2B", FaultFound("stripped"), through, material=ALUMINIUM)
    assert "plug_tap_breaks_out" not in {one.code for one in ways["insert_in_the_same_place"].cautions}


@pytest.mark.parametrize(
    ("pitch", "accepted"), [("7.360", "6G"), ("7.376", "6G"), ("7.377", "7H"), ("7.388", "7H"), ("7.389", "8H")]
)
def test_the_first_looser_metric_class_that_holds_it(pitch, accepted):
    """ISO 965-1, M8x1.25: TD2 160, 200 and 250 um in grades 6, 7 and 8, EI 28 um in position G, on 7.188 mm."""
    found = FaultFound("tapped_oversize", measured=Measured(pitch_diameter=mm(pitch)))
    hole = Hole("blind", full_thread_depth=mm(16))
    ways, _ = judged("M8", found, hole, material=STEEL, mating_screw=MatingScrew(grade="8.8"))
    assert f"M8x1.25-{accepted}:" in ways["looser_class"].text


def test_who_decides_stands_on_clauses_whose_wording_was_not_read():
    """MIL-STD-1520C: the numbers of the clauses are in its contents list, their wording is from memory."""
    ways, _ = wrong("5/16-18 UNC-2B", "1/4-20 UNC")
    for way in ways.values():
        assert {one.status for one in way.notes.sources if one.field == "disposition"} == {"from_memory"}
