"""What a drawing fixes of a hole, told beside the own choice word by word.

Percent of thread is (D - drill) / 1.299038 P, of ACME (D - drill) over the basic depth of both sides; a chance is that
of a normal size inside the minor diameter limits. 1/4-20 UNC-2B has 0.196 to 0.207, 2 1/4-20 UN-3B 2.196 to 2.206
(ASME B1.1), 1 1/4-5 ACME-2G 1.05 to 1.06 (ASME B1.5).
"""

from __future__ import annotations

import pytest
from borewright.contract.requests import HOLE_SPEC
from borewright.core.plan import as_stated
from borewright.core.plan.specify import specify
from every import every

INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}
SHEET = {"type": "through", "thickness": "16 mm"}
INSIDE, OUTSIDE = "more often misses the minor diameter limits", "does not hold the minor diameter limits"


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def told(found):
    return [plain(text) for text in found.notes.assumptions if text.startswith(("the drawing", "the hole goes"))]


def asked(found):
    return [(plain(one.text), one.blocks, one.pointer) for one in found.review if one.code == "drill_of_drawing"]


def cutting(mean, spread):
    """A shop whose holes are so much larger than their drill, in inches."""
    return {"machine": {"drill_oversize": {"mean": f"{mean} in", "standard_deviation": f"{spread} in"}}}


@every(
    ("thread", "hole", "more", "own", "costs", "what"),
    [
        # 0.041/0.0649519 = 63.12, 0.049/0.0649519 = 75.44; means 0.211 and 0.203: 4 spreads outside, 4 inside
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#4"}, cutting("0.002", "0.001"), "the #7 drill (0.2010 in)",
            "63.12 % of thread instead of 75.44 %; 0.0 % of the holes inside the limits instead of 100.0 %", OUTSIDE,
        ),
        # 0.046/0.0649519 = 70.82; a mean of 0.206 is one spread below 0.207: 0.8413
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#6"}, cutting("0.002", "0.001"), "the #7 drill (0.2010 in)",
            "70.82 % of thread instead of 75.44 %; 84.1 % of the holes inside the limits instead of 100.0 %", INSIDE,
        ),
        # 0.001 / 0.00064 = 1.5625 spreads: 0.9409, more than 0.05 below 1
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#6"}, cutting("0.002", "0.00064"), "the #7 drill (0.2010 in)",
            "70.82 % of thread instead of 75.44 %; 94.1 % of the holes inside the limits instead of 100.0 %", INSIDE,
        ),
        # 0.001 / 0.00059 = 1.6949: 0.9550, within 0.05 of it
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#6"}, cutting("0.002", "0.00059"), "the #7 drill (0.2010 in)",
            "70.82 % of thread instead of 75.44 %; 95.5 % of the holes inside the limits instead of 100.0 %", None,
        ),
        # 0.01/1.623798 = 0.62, 1.2/1.623798 = 73.9; 6.85 is 1.24 spreads below 6.912: 0.8925; in
        # 8.04 a tap finds nothing to turn against
        (
            "M8", {**MM, "drill": "7.99 mm"}, {
                "material": "4140",
                "machine": {"drill_oversize": {"mean": "0.05 mm", "standard_deviation": "0.05 mm"}},
            }, "the 6.8 mm drill (6.80 mm)",
            "0.62 % of thread instead of 73.9 %; 0.0 % of the holes inside the limits instead of 89.2 %", OUTSIDE,
        ),
        # 1.62/1.623798 = 99.77: just larger than the core of the tap
        (
            "M8", {**MM, "drill": "6.38 mm"}, {
                "machine": {"drill_oversize": {"mean": "0.05 mm", "standard_deviation": "0.05 mm"}},
            }, "the 6.8 mm drill (6.80 mm)",
            "99.77 % of thread instead of 73.9 %; 0.0 % of the holes inside the limits instead of 89.2 %", OUTSIDE,
        ),
        # 0.2165/0.2165064 = 100.00: the very core; 1-11/32 comes nearest to 75 %, 0.1562/0.2165064 = 72.15
        (
            "1 1/2-6 UNC-2B", {**THROUGH, "drill": "1.2835 in"}, {}, "the 1-11/32 drill (1.3438 in)",
            "100 % of thread instead of 72.15 %", OUTSIDE,
        ),
        # the own hole is reamed to 76 % (0.2006): no chance of it is known to hold the drill's against
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#6"},
            {**cutting("0.002", "0.001"), "percent_thread": {"min": 76, "max": 78}},
            "the #10 drill (0.1935 in) and a reamer", "70.82 % of thread instead of 76.06 %", OUTSIDE,
        ),
        # no chance is told of a plastic, which closes in
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#4"}, {"material": "acetal"}, "the #7 drill (0.2010 in)",
            "63.12 % of thread instead of 75.44 %", OUTSIDE,
        ),
        (
            "1/4-20 UNC-2B", {**INCH, "drill": "#6"}, {"material": "acetal"}, "the #7 drill (0.2010 in)",
            "70.82 % of thread instead of 75.44 %", None,
        ),
        # reamed to (2.196 + 2.206)/2 = 2.201, 0.0135 over 2-3/16: 0.0625/0.0649519 = 96.225, upwards, 0.049 as above
        (
            "2 1/4-20 UN-3B", {**THROUGH, "drill": "2-3/16"}, {}, "the 2-3/16 drill (2.1875 in) and a reamer",
            "96.23 % of thread instead of 75.44 %", OUTSIDE,
        ),
        # bored to 1.055, 0.0238 over 1-1/32, more than a reamer's 0.020: 0.1875/0.2 = 93.75, 0.195/0.2 = 97.5
        (
            "1 1/4-5 ACME-2G", {**THROUGH, "drill": "1-1/16"}, {}, "the 1-1/32 drill (1.0312 in) and a boring bar",
            "93.75 % of thread instead of 97.5 %", OUTSIDE,
        ),
        # (0.540 - 0.4219) is 117 % and (0.540 - 0.4375) 98.17 % of a pipe thread's height: what it costs is told
        (
            "1/4-18 NPT", {**THROUGH, "drill": "27/64"}, {}, "the 7/16 drill (0.4375 in)", None,
            "is no tap drill of this taper thread's tables",
        ),
    ],
)  # fmt: skip
def test_another_drill_than_the_own_is_told_and_asked_by_its_risk(thread, hole, more, own, costs, what):
    found = spec(thread, hole, **more)
    best = found.drill.recommended
    places = 2 if thread.startswith("M") else 4
    stated = f"the {best.drill.label} drill ({best.diameter:.{places}f} {found.thread.unit})"
    (text,) = told(found)
    start = f"the drawing states {stated}; by itself {own} is taken: "
    assert text.startswith(start)
    if costs is not None:
        assert text == start + costs
    decide = f"Decide: keep it as drawn, or have the drawing changed to {own}."
    question = f"The drill of the drawing, {stated}, {what}: {text.removeprefix(start)}. {decide}"
    assert asked(found) == ([] if what is None else [(question, False, "/hole/drill")])


@every(
    ("thread", "hole", "stated", "own", "percent"),
    [
        # 3/1.623798 = 184.75, 1.2/1.623798 = 73.9
        ("M8", {**MM, "drill": "5 mm"}, "5 mm drill (5.00 mm)", "6.8 mm drill (6.80 mm)", ("184.75", "73.9")),
        # 1.63/1.623798 = 100.38
        ("M8", {**MM, "drill": "6.37 mm"}, "6.37 mm drill (6.37 mm)", "6.8 mm drill (6.80 mm)", ("100.38", "73.9")),
        # 0.2188/0.2 = 109.4; the own one is the same drill, but bored behind it
        (
            "1 1/4-5 ACME-2G", {**THROUGH, "drill": "1-1/32"}, "1-1/32 drill (1.0312 in)",
            "1-1/32 drill (1.0312 in) and a boring bar", ("109.4", "97.5"),
        ),
    ],
)  # fmt: skip
def test_a_hole_smaller_than_the_core_of_the_tap_cannot_be_kept(thread, hole, stated, own, percent):
    found = spec(thread, hole)
    ((text, blocks, pointer),) = asked(found)
    assert text.startswith(
        f"The drill of the drawing, the {stated}, makes a hole that the tap's core does not enter: {percent[0]} % of"
        f" thread instead of {percent[1]} %"
    )
    assert text.endswith(f". Decide: have the drawing changed to the {own}.")
    assert (blocks, pointer, found.verdict) == (True, "/hole/drill", "infeasible")


def test_the_torque_is_that_of_the_two_plans():
    bare, stated = (spec("1/4-20 UNC-2B", {**INCH, **drill}, material="4140") for drill in ({}, {"drill": "#4"}))
    turned, usual = (plan.process.cutting.tap.torque.value for plan in (stated, bare))
    assert turned < usual
    assert told(stated)[0].endswith(f"; tapping torque {turned:.3g} N*m instead of {usual:.3g} N*m")


@every(
    ("thread", "hole", "words"),
    [
        ("1/4-20 UNC-2B", {**INCH, "drill": "#7"},
         ["the drawing states the #7 drill (0.2010 in), which would be chosen by itself too"]),
        ("1/4-18 NPT", {**THROUGH, "drill": "7/16"},
         ["the drawing states the 7/16 drill (0.4375 in), which would be chosen by itself too"]),
        # 16 + 2.5 x 1.25 + 1.25 = 20.375, upwards
        ("M8", {**MM, "drill_depth": "20.38 mm"},
         ["the drawing states 20.38 mm of full drill diameter; by itself as deep as would be drilled anyway"]),
        ("M8", {**MM, "drill_depth": "25 mm"},
         ["the drawing states 25 mm of full drill diameter; by itself 20.38 mm would be drilled"]),
        ("M8", {**MM, "drill_depth": "25.125 mm"},
         ["the drawing states 25.125 mm of full drill diameter; by itself 20.38 mm would be drilled"]),
        ("M8", {**MM, "least_drill_depth": "25 mm"},
         ["the drawing states at least 25 mm of full drill diameter; by itself 20.38 mm would be drilled"]),
        # 0.75 + 3.5/20 = 0.925
        ("1/4-20 UNC-2B", {**INCH, "least_drill_depth": "0.8 in"},
         ["the drawing states at least 0.8 in of full drill diameter; by itself as deep as would be drilled anyway"]),
        ("1/4-20 UNC-2B", {**INCH, "drill_depth": "1.0625 in"},
         ["the drawing states 1.0625 in of full drill diameter; by itself 0.925 in would be drilled"]),
        # told to the ten thousandth of an inch and the thousandth of a millimetre
        ("M8", {**MM, "drill_depth": "25.1256 mm"},
         ["the drawing states 25.126 mm of full drill diameter; by itself 20.38 mm would be drilled"]),
        ("1/4-20 UNC-2B", {**INCH, "drill_depth": "1.06256 in"},
         ["the drawing states 1.0626 in of full drill diameter; by itself 0.925 in would be drilled"]),
        ("M8", {**SHEET, "drill_depth": "25 mm"},
         ["the hole goes through: the depth of drilling that is stated says nothing more"]),
        ("M8", {**SHEET, "least_drill_depth": "25 mm"},
         ["the hole goes through: the depth of drilling that is stated says nothing more"]),
        # 1.05 x 8 = 8.4 at 120 degrees, 1.05 x 0.25 = 0.2625 at 90
        ("M8", {**SHEET, "countersink": {"diameter": "8.4 mm"}},
         ["the drawing states the countersink 8.4 mm at 120 degrees"]),
        ("M8", {**SHEET, "countersink": {"diameter": "8.4 mm", "angle": 90}},
         ["the drawing states the countersink 8.4 mm at 90 degrees; the usual one is 8.4 mm at 120 degrees"]),
        ("1/4-20 UNC-2B", {**INCH, "countersink": {"diameter": "0.28 in"}},
         ["the drawing states the countersink 0.28 in at 90 degrees; the usual one is 0.262 in at 90 degrees"]),
        ("M8", {**MM, "drill": "6.8 mm", "drill_depth": "25 mm", "countersink": {"diameter": "9 mm", "angle": 82}}, [
            "the drawing states the 6.8 mm drill (6.80 mm), which would be chosen by itself too",
            "the drawing states 25 mm of full drill diameter; by itself 20.38 mm would be drilled",
            "the drawing states the countersink 9 mm at 82 degrees; the usual one is 8.4 mm at 120 degrees",
        ]),
        ("M8", MM, []),
    ],
)  # fmt: skip
def test_what_a_drawing_states_beside_what_is_usual(thread, hole, words):
    found = spec(thread, hole)
    assert (told(found), asked(found)) == (words, [])


TIGHT = {**MM, "thickness": "20.5 mm"}


@every(
    ("thread", "hole", "series", "words", "blocks"),
    [
        # no number drill comes near 26.5 mm: the choice among all drills stands for it; 2.1/(3.5 x 1.299038) = 46.19
        (
            "M30", {**MM, "full_thread_depth": "30 mm", "drill": "27.9 mm"}, ["number"],
            "the 27.9 mm drill (27.90 mm), does not hold the minor diameter limits: 46.19 % of thread instead of"
            " 76.98 %. Decide: keep it as drawn, or have the drawing changed to the 26.5 mm drill (26.50 mm).", False,
        ),
        # 5/(3.5 x 1.299038) = 109.97
        (
            "M30", {**MM, "full_thread_depth": "30 mm", "drill": "25 mm"}, ["number"],
            "the 25 mm drill (25.00 mm), makes a hole that the tap's core does not enter: 109.97 % of thread instead of"
            " 76.98 %. Decide: have the drawing changed to the 26.5 mm drill (26.50 mm).", True,
        ),
        # a shorter point only fits the wall: 16 and two pitches of 1.25 leave 2.0 mm of 20.5, a 6.8 mm drill has a
        # point of 0.30043 x 6.8 = 2.04; 1.5/1.623798 = 92.38 and 3/1.623798 = 184.75
        (
            "M8", {**TIGHT, "drill": "6.5 mm"}, None,
            "the 6.5 mm drill (6.50 mm), does not hold the minor diameter limits: 92.38 % of thread. Decide: keep it as"
            " drawn, or have the drawing changed.", False,
        ),
        (
            "M8", {**TIGHT, "drill": "5 mm"}, None,
            "the 5 mm drill (5.00 mm), makes a hole that the tap's core does not enter: 184.75 % of thread. Decide:"
            " have the drawing changed.", True,
        ),
    ],
)  # fmt: skip
def test_a_drill_outside_the_limits_is_asked_about_where_no_other_can_be_chosen(thread, hole, series, words, blocks):
    found = spec(thread, hole, **({} if series is None else {"drill_series": series}))
    assert asked(found) == [(f"The drill of the drawing, {words}", blocks, "/hole/drill")]
    assert [text.partition("; ")[2].partition(" the ")[0] for text in told(found)] == ["among all drills"] * bool(
        series
    )


@every(
    ("thread", "hole", "series"),
    [
        ("M8", {**TIGHT, "drill": "6.65 mm"}, None),  # 6.647 to 6.912
        ("M30", {**MM, "full_thread_depth": "30 mm", "drill": "26.5 mm"}, ["number"]),
        ("1/4-18 NPT", {**THROUGH, "drill": "7/16"}, ["number"]),
    ],
)
def test_a_drill_inside_the_limits_is_not_asked_about_where_no_other_can_be_chosen(thread, hole, series):
    assert asked(spec(thread, hole, **({} if series is None else {"drill_series": series}))) == []


def test_where_no_drill_is_planned_none_is_compared():
    """Of a steel told by its hardness alone no soft state is known: nothing is drilled."""
    found = spec("M8", {**MM, "drill": "6.8 mm"}, material={"hardness": "62 HRC"})
    assert (found.drill, told(found), asked(found)) == (None, [], [])


@pytest.mark.parametrize("stated", [{"drill": "#4"}, {"drill_depth": "1 in"}, {"least_drill_depth": "1 in"},
                                    {"countersink": {"diameter": "0.28 in"}}])  # fmt: skip
def test_what_would_be_chosen_otherwise_is_of_the_drawing(stated):
    holes = [HOLE_SPEC.asked({"thread": "1/4-20", "hole": {**INCH, **more}}).request.hole for more in ({}, stated)]
    assert [as_stated.holds(hole) for hole in holes] == [False, True]


def test_the_tap_prescribed_from_outside_is_kept_in_the_own_plan():
    """Only what the drawing fixes is left out of the plan that it is held against."""
    request = HOLE_SPEC.asked({"thread": "1/4-20", "hole": {**INCH, "drill": "#4"}, "material": "4140"}).request
    seen = []

    def planned(own):
        seen.append(own)
        return specify(own)

    as_stated.held_against(specify(request), planned)
    (own,) = seen
    assert own == HOLE_SPEC.asked({"thread": "1/4-20", "hole": INCH, "material": "4140"}).request
