"""What a hole's choices see of it: its wall, its room, its crib, its counterbore, the limits before its finish."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.contract.requests import DRILL, HOLE_SPEC
from borewright.core import callout
from borewright.core.errors import BorewrightError
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import recommend_drill, recommend_tap, specify
from borewright.core.requests import DrillRecommendation, HoleSpecRequest, TapRecommendation
from every import every

D = Decimal
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def plain(text):
    return text.replace("\N{NO-BREAK SPACE}", " ")


def asked(found, code):
    return [(one.pointer, plain(one.text)) for one in found.review if one.code == code]


@every(
    ("stock", "tapped"),
    [
        ({"taps": ["2-4.5 NC HSS G H6"]}, True),
        ({"taps": ["1/4-20 NC HSS G H3"]}, False),
        (None, False),
    ],
)
def test_a_large_thread_is_tapped_where_the_crib_holds_its_tap(stock, tapped):
    found = spec("2-4.5 UNC-2B", INCH, **({} if stock is None else {"stock": stock}))
    assert (found.tap is not None, found.way.threading) == (tapped, "tap" if tapped else "thread_mill")


@every(
    ("thickness", "chamfer"),
    [
        # 15 of thread, 1.5 of clearance, 2.5 x 1.5 of chamfer and the point of 8.5: 4.25 / 1.66428 = 2.5536
        ("22.81 mm", "semi_bottoming"),
        # where the point of 8.376, the basic minor diameter, still had room (22.767)
        ("22.79 mm", "plug"),
    ],
)
def test_the_wall_leaves_room_below_the_point_of_the_drill(thickness, chamfer):
    hole = {"type": "blind", "full_thread_depth": "15 mm", "thickness": thickness}
    assert spec("M10", hole).tap.recommended.chamfer.name == chamfer


def test_a_tap_alone_is_held_against_the_widest_hole():
    """6.912, the largest minor diameter of M8-6H (ISO 965-2), has a point of 3.456 / tan 59 = 2.0766: 15.923 of 18 mm
    are left. That of 6.647, the least, would leave 16.003."""
    hole = Hole("blind", Length(D(16), "mm"), thickness=Length(D(18), "mm"))
    with pytest.raises(BorewrightError, match=r"16.mm of full thread do not fit in 15.92.mm"):
        recommend_tap(TapRecommendation(callout.read("M8-6H"), hole=hole))
    assert recommend_tap(
        TapRecommendation(callout.read("M8-6H"), hole=replace(hole, thickness=Length(D("18.08"), "mm")))
    )


@every(
    ("finish", "countersink"),
    [
        # 1.05 x 0.25 = 0.2625
        (None, "0.262"),
        # the thread is cut 2 x 0.0008 larger, 0.2516: 1.05 times that is 0.26418
        ({"thickness": {"min": "0.0008 in", "max": "0.0008 in"}, "growth_fraction": 1}, "0.264"),
    ],
)
def test_the_countersink_is_that_of_the_thread_as_it_is_cut(finish, countersink):
    found = spec("1/4-20 UNC-2B", INCH, **({} if finish is None else {"finish": finish}))
    assert found.depths.countersink_diameter == D(countersink)


@every(
    ("thread", "hole", "words"),
    [
        # edges of 5 % at both faces: 0.108 / 0.05 = 2.16 turns, 0.108 / 0.25 = 0.43
        ("1/4-20 UNC-2B", {"type": "through", "thickness": "0.12 in"},
         ("/hole/thickness", "0.108 in of 1/4-20 UNC-2B in 0.12 in of wall with its edges broken is 2.2 turns of thread"
          " (0.43 of the diameter)")),
        # 0.37 less 0.25 of counterbore is the same wall
        ("1/4-20 UNC-2B",
         {"type": "through", "thickness": "0.37 in", "counterbore": {"diameter": "0.5 in", "depth": "0.25 in"}},
         ("/hole/thickness", "0.108 in of 1/4-20 UNC-2B in 0.12 in of wall with its edges broken is 2.2 turns of thread"
          " (0.43 of the diameter)")),
        # a blind thread keeps its ends: 2.4 turns, 0.48
        ("1/4-20 UNC-2B", {"type": "blind", "full_thread_depth": "0.12 in"},
         ("/hole/full_thread_depth", "0.12 in of 1/4-20 UNC-2B is 2.4 turns of thread (0.48 of the diameter)")),
        # the wall under a blind hole is not the thread's
        ("1/4-20 UNC-2B", {"type": "blind", "full_thread_depth": "0.12 in", "thickness": "1 in"},
         ("/hole/full_thread_depth", "0.12 in of 1/4-20 UNC-2B is 2.4 turns of thread (0.48 of the diameter)")),
        ("1/4-20 UNC-2B",
         {"type": "blind", "full_thread_depth": "0.37 in", "counterbore": {"diameter": "0.5 in", "depth": "0.25 in"}},
         ("/hole/full_thread_depth", "0.12 in of 1/4-20 UNC-2B is 2.4 turns of thread (0.48 of the diameter)")),
    ],
)  # fmt: skip
def test_a_short_thread_is_judged_below_its_counterbore(thread, hole, words):
    ((pointer, text),) = asked(spec(thread, hole), "thread_short")
    assert (pointer, text.partition(":")[0]) == words


@every(
    ("depth", "counterbore", "deep"),
    [
        # 0.75 is 3 D of 1/4, what a spiral flute cuts without care; 0.76 is 3.04 D, told upwards
        ("0.75 in", None, None),
        ("0.76 in", None, "3.1"),
        ("1 in", "0.25 in", None),
        ("1.01 in", "0.25 in", "3.1"),
    ],
)
def test_a_deep_thread_is_counted_from_the_floor_of_its_counterbore(depth, counterbore, deep):
    hole = {"type": "blind", "full_thread_depth": depth}
    if counterbore is not None:
        hole["counterbore"] = {"diameter": "0.5 in", "depth": counterbore}
    told = [one.text for one in spec("1/4-20 UNC-2B", hole).notes.cautions if one.code == "deep_thread"]
    assert [text.partition(" ")[0] for text in told] == ([] if deep is None else [deep])


def test_a_counterbored_hole_holds_the_insert_that_fits_below_its_floor():
    """0.75 less 0.25 of counterbore: 1.5 D + P = 0.425 fits in 0.5, 2 D + P = 0.55 does not."""
    hole = {**INCH, "counterbore": {"diameter": "0.6 in", "depth": "0.25 in"}}
    found = spec("1/4-20 UNC-2B STI", hole)
    (line,) = [one.line for one in found.operations if one.line.operation == "install_insert"]
    assert line.parameters == {"insert_length": D("0.375"), "insert_length_diameters": 1.5, "set_down": None}
    assert plain(line.text) == "Install insert 1/4-20 UNC-2B, 1.5 D (0.375 in) long"
    told = "the callout names no length of insert: 1.5 D (0.375 in) is the longest that the hole holds"
    assert told in map(plain, found.notes.assumptions)


@every(("more", "objective"), [({}, "chart"), ({"objective": "least_torque"}, "chart"), ({"method": "form"}, "chart")])
def test_a_thread_that_no_tap_makes_has_the_hole_of_a_cut_one(more, objective):
    """A mill turns with the torque of its own teeth: there is no least one to look for, and nothing is formed."""
    found = spec("2-4.5 UNC-2B", INCH, material="1018", **more)
    assert found.way.threading == "thread_mill"
    assert (found.drill.objective, found.drill.recommended.drill.label) == (objective, "1-25/32")
    assert found.process.comparison is None


def test_the_depth_of_a_large_hole_is_held_against_one_that_is_milled():
    """A mill needs no chamfer below the thread: 0.75 + 1/4.5 = 0.972, where a tap's 2.5 threads would need 1.528."""
    found = spec("2-4.5 UNC-2B", {**INCH, "drill_depth": "1.6 in"})
    told = [plain(text) for text in found.notes.assumptions if text.startswith("the drawing")]
    assert told == ["the drawing states 1.6 in of full drill diameter; by itself 0.972 in would be drilled"]


@every(
    ("stated", "pointer"),
    [
        ({"mean": "0.026 in"}, "/machine/drill_oversize"),
        ({"mean": "0.026 in", "standard_deviation": "0.001 in"}, "/machine/drill_oversize/mean"),
        ({"mean": "0.001 in", "standard_deviation": "0.026 in"}, "/machine/drill_oversize/standard_deviation"),
        ({"mean": "0.025 in", "standard_deviation": "0.025 in"}, None),
    ],
)
def test_more_than_a_tenth_of_the_diameter_is_no_oversize(stated, pointer):
    machine = {"drill_oversize": stated}
    try:
        spec("1/4-20 UNC-2B", INCH, machine=machine)
    except Exception as refused:
        (fault,) = refused.faults
        assert (fault.code, fault.pointer, fault.allowed) == (
            "value_out_of_range", pointer, ("0 to 0.025\N{NO-BREAK SPACE}in",),
        )  # fmt: skip
        assert plain(fault.detail) == (
            "0.026 in is no oversize of a hole drilled for 1/4-20 UNC-2B: more than a tenth of its diameter."
        )
    else:
        assert pointer is None


def mm(value):
    return Length(D(value), "mm")


def test_a_drill_alone_is_chosen_for_the_length_asked_or_one_diameter():
    """A longer engagement leaves more strength, so that its drill of least torque is never smaller."""
    thread, steel = callout.read("M8"), MaterialInput("4140")

    def drill(length):
        asked = DrillRecommendation(thread, objective="least_torque", length_of_engagement=length, material=steel)
        return recommend_drill(asked).drill.recommended.diameter

    assert drill(None) == drill(mm("8"))
    assert drill(mm("3")) <= drill(mm("8")) <= drill(mm("20"))


@every(("length", "label"), [("0.45", "10.8 mm"), ("0.5", "10.9 mm")])
def test_a_drill_alone_leaves_the_screw_as_strong_as_it_breaks(length, label):
    """1/2-13 in hard steel, grade 5 (120 ksi, shear 0.58 of it): 10.9 mm makes 0.4301 in. A screw of 2A has a pitch
    diameter of 0.4435: pi 0.4301 (1/2 + 13/sqrt(3) (0.4435 - 0.4301)) = 0.8115 in2 an inch, less two pitches. The screw
    breaks at 120 x 0.1419 = 17.0 kip: 16.7 strip 0.45 in, 19.6 strip 0.5 in.
    """
    body = {
        "thread": "1/2-13 UNC-2B", "objective": "least_torque", "material": "4140 at 36 HRC",
        "drill_series": ["metric"], "length_of_engagement": f"{length} in",
        "machine": {"drill_oversize": {"mean": "0.001 in", "standard_deviation": "0.0003 in"}},
    }  # fmt: skip
    assert recommend_drill(DRILL.asked(body).request).drill.recommended.drill.label == label


@every(("strict", "pointers"), [(None, ["/finish"]), (False, ["/finish"]), (True, ["/finish", "/material"])])
def test_all_that_is_wrong_is_told_together(strict, pointers):
    """A material that no table holds is a fault where the caller is strict only; a drill alone never asks for one."""
    known = {"finish": FinishInput("paint of no table"), "material": MaterialInput("unobtainium")}
    if strict is None:
        asked, answer = DrillRecommendation(callout.read("M8"), **known), recommend_drill
    else:
        asked, answer = HoleSpecRequest(callout.read("M8"), Hole("blind", mm("16")), strict=strict, **known), specify
    with pytest.raises(BorewrightError) as caught:
        answer(asked)
    assert sorted(fault.pointer for fault in caught.value.faults) == pointers


@every(
    ("finish", "cautioned"),
    [(None, False), (FinishInput("black oxide"), False), (FinishInput("ASTM B633 Fe/Zn 25"), True)],
)
def test_a_tap_alone_is_told_of_a_finish_without_room(finish, cautioned):
    """Fe/Zn 25 moves the pitch diameter of M3 by four times 25 um and more: its tolerance is 100 um."""
    found = recommend_tap(
        TapRecommendation(
            callout.read("M3"), hole=Hole("blind", mm("5")), finish=finish, material=MaterialInput("1018")
        )
    )
    told = [one for one in found.notes.decisions if one.code == "finish_not_feasible"]
    assert bool(told) is cautioned
