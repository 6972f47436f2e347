"""What the parts of a plan say reaches the one who asked: decisions, cautions and what was given by the request."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import allow_finish, recommend_tap, specify
from borewright.core.requests import AllowanceRequest, TapRecommendation
from every import every

MM = {"type": "blind", "full_thread_depth": "16 mm"}
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def mm(value):
    return Length(Decimal(value), "mm")


@every(
    ("thread", "hole", "more", "codes"),
    [
        ("M8", MM, {}, []),
        # of the reach: 69 mm of flute (ISO 235) for a tip at 72.42, and the 8 mm shank of a tap (ISO 529) that meets
        # the face of a hole of 6.8 mm
        ("M8", {"type": "blind", "full_thread_depth": "66 mm"}, {}, ["tool_too_short", "tool_too_short"]),
        # of the way of making
        ("M64", {"type": "through", "thickness": "60 mm"}, {}, ["large_thread"]),
        # of the insert
        ("M8 STI", {"type": "blind", "full_thread_depth": "9 mm"}, {}, ["no_insert_fits"]),
        # of the finish
        ("M3", {"type": "blind", "full_thread_depth": "5 mm"},
         {"finish": {"thickness": "80 um", "growth_fraction": 1}}, ["finish_not_feasible"]),
        # of the drill of the drawing
        ("1/4-20 UNC-2B", {**INCH, "drill": "#4"}, {}, ["drill_of_drawing"]),
    ],
)  # fmt: skip
def test_every_part_asks_its_own(thread, hole, more, codes):
    assert [one.code for one in spec(thread, hole, **more).review] == codes


@every(
    ("depth", "ratio"),
    [
        # 24 mm are 3 D of M8, what a spiral flute cuts without care
        ("24", None),
        ("30", "3.8"),
    ],
)
def test_a_tap_alone_is_told_of_its_depth(depth, ratio):
    found = recommend_tap(TapRecommendation(callout.read("M8"), hole=Hole("blind", mm(depth))))
    told = [one.text.partition(" ")[0] for one in found.notes.cautions if one.code == "deep_thread"]
    assert told == ([] if ratio is None else [ratio])


def test_a_finish_alone_is_told_with_what_speaks_against_it():
    """Zinc that is dipped at 450 degrees melts no steel: on aluminium the standards put none."""
    for material, against in (("1018", False), ("6061-T6", True)):
        asked = AllowanceRequest(callout.read("3/4-10"), FinishInput("ASTM F2329"), material=MaterialInput(material))
        codes = {one.code for one in allow_finish(asked).notes.cautions}
        assert ("finish_substrate_impossible" in codes) is against


@every(
    ("more", "code"),
    [
        ({"material": "unobtainium", "strict": True}, "material_unknown"),
        ({"material": "4140", "mating_screw": {"grade": "no grade"}}, "screw_grade_unknown"),
    ],
)
def test_what_cannot_be_is_refused(more, code):
    with pytest.raises(BorewrightError) as caught:
        spec("1/2-13 UNC-2B", INCH, **more)
    assert caught.value.faults[0].code == code


def test_the_length_of_engagement_goes_before_that_of_the_thread():
    """A joint of 8 mm in 16 mm of thread bears half of what the whole thread does, but for its first threads."""
    asked = {"material": "6061-T6", "mating_screw": {"grade": "8.8"}}
    whole = spec("M8", MM, **asked).process.strength.internal_strip_force_n
    short = spec("M8", MM, **asked, length_of_engagement="8 mm").process.strength.internal_strip_force_n
    assert 0.3 * whole < short < 0.55 * whole


def test_a_machine_that_turns_slowly_holds_the_cutting_data():
    for most in (100, 300):
        cutting = spec("M8", MM, material="6061-T6", machine={"max_spindle_speed": most}).process.cutting
        assert (cutting.drill.spindle_speed_rpm, cutting.tap.spindle_speed_rpm) == (most, most)


@every(
    ("finish", "before"), [({}, False), ({"finish": "black oxide"}, False), ({"finish": {"thickness": "8 um"}}, True)]
)
def test_a_thread_that_a_coat_moves_has_gauges_for_before_it(finish, before):
    gauging = spec("M8", MM, **finish).process.gauging
    assert gauging.finished is not None
    assert (gauging.before_finish is not None) is before
