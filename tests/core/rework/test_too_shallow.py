"""Threaded too shallow: how deep the hole lets a tap go, how much deeper it is drilled, what stays as it is.

1/4-20 UNC-2B, 0.75 in deep, pitch 0.05: a bottoming tap has 2 threads of chamfer at most, that of the plan
(semi-bottoming) 2.5; a rigid holder needs 1 pitch below it, a floating one 3 (common practice). Drilled
0.75 + 3.5 x 0.05 = 0.925.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.requests import Machine, MatingScrew
from every import every
from reworked import answer, plain

DEEPER, DRILL, AS_IT_IS = "tap_deeper", "drill_and_tap_deeper", "use_shorter_thread"
D = Decimal
GRADE_5 = MatingScrew(grade="SAE J429 grade 5")


def shallow(full=0.5, drilled=None, *, tapping=None, thread="1/4-20 UNC-2B", **given):
    sizes = {} if full is None else {"full_thread_depth": full}
    sizes |= {} if drilled is None else {"drill_depth": drilled}
    return answer(thread, "too_shallow", measured=sizes, asked={"machine": Machine(tapping=tapping)}, **given)


@every(
    ("drilled", "tapping", "chamfer", "reach", "needed", "extra"),
    [
        # reach: drilled - (chamfer + clearance) x 0.05; needed: 0.75 + (chamfer of the plan's tap + clearance) x 0.05
        (None, None, None, "0.775", "0.925", "0"),
        (0.9, None, None, "0.75", "0.925", "0.025"),
        (0.9, "rigid", None, "0.75", "0.925", "0.025"),
        (0.9, "floating", None, "0.65", "1.025", "0.125"),
        (0.8999, None, None, "0.7499", "0.925", "0.0251"),
        (0.9, None, D(1), "0.8", "0.85", "0"),
        (0.84, None, D(1), "0.74", "0.85", "0.01"),
        (0.9, None, D("1.5"), "0.775", "0.875", "0"),
        (0.95, None, D(5), "0.65", "1.05", "0.1"),
    ],
)
def test_how_deep_a_tap_gets(drilled, tapping, chamfer, reach, needed, extra):
    found = shallow(drilled=drilled, tapping=tapping, tap_chamfer_threads=chamfer)
    proof = found[DRILL].proof
    assert (proof["full_thread_depth_measured"], proof["full_thread_depth_wanted"], proof["missing"]) == (
        D("0.5"), D("0.75"), D("0.25")
    )  # fmt: skip
    assert proof["tap_chamfer_threads"] == float(chamfer or 2)
    told = (proof["deepest_full_thread"], proof["drill_depth_needed"], proof["extra_drill_depth"])
    assert told == (D(reach), D(needed), D(extra))
    assert proof["drill_depth"] == (
        D("1.025" if tapping == "floating" else "0.925") if drilled is None else D(str(drilled))
    )
    assert (DEEPER in found.names) is (D(reach) >= D("0.75"))
    if DEEPER not in found.names:
        short = (D("0.75") - D(reach)).normalize()
        assert (
            found.ruled_out[DEEPER] == f"the hole is {short} in too shallow for a tap of {chamfer or 2} threads chamfer"
        )


def test_the_words_of_the_ways():
    found = shallow(drilled=0.9)
    assert found.names == [DEEPER, DRILL, AS_IT_IS]
    assert found[DEEPER].text == "Tap deeper with a short chamfer: the drilled hole has room for 2 threads"
    assert found.work(DEEPER) == ["clean", "tap", "inspect"]
    tap = found[DEEPER].operations[1].line
    assert plain(tap.text) == "Tap 1/4-20 UNC-2B on to 0.75 in of full thread, chamfer of 2 threads at most"
    assert tap.parameters == {"full_thread_depth": D("0.75")}
    assert plain(found[DRILL].text) == "Drill to 0.925 in as planned, then tap to the full depth"
    assert found.work(DRILL) == ["drill", "tap", "inspect"]
    assert found.codes(DEEPER) == found.codes(DRILL) == ["pick_up_the_thread"]
    assert plain(found[AS_IT_IS].text) == "Use 0.5 in of full thread, as the strength allows"
    assert (found.work(AS_IT_IS), found.codes(AS_IT_IS)) == (["inspect"], ["screw_may_bottom"])
    assert [one.disposition for one in found.found.ways] == ["rework", "rework", "use_as_is"]
    assert "floor_left" not in found[DRILL].proof


def test_little_under_the_drill_is_said():
    """0.5 + 0.175 = 0.675 and 0.06 of point: 0.045 of 0.78 in stay."""
    for thickness, thin in ((0.78, True), (1.5, False)):
        hole = ("blind", {"full_thread_depth": 0.5, "thickness": thickness})
        found = shallow(0.4, 0.55, hole=hole)
        assert found.codes(DRILL) == ["pick_up_the_thread", *(["thin_floor"] if thin else [])]
        assert found[DRILL].proof["floor_left"] == D(str(thickness)) - D("0.735")


def test_a_plan_with_two_taps_ends_with_the_second():
    """M10, 15 deep in 20: plug and bottoming tap, which ends at 2 threads: 15 + 3 x 1.5 = 19.5."""
    hole = ("blind", {"full_thread_depth": 15, "drill_depth_limit": 20})
    found = shallow(10, 18, thread="M10", hole=hole, material="4140")
    assert found.work(DRILL) == ["drill", "tap", "tap", "inspect"]
    assert (found[DRILL].proof["drill_depth_needed"], found[DRILL].proof["extra_drill_depth"]) == (D("19.5"), D("1.5"))


def test_other_threads_go_on_as_planned():
    found = shallow(hole=("through", {"thickness": 0.75}))
    assert found.names == [DEEPER, AS_IT_IS]
    assert found[DEEPER].text == "Run the tap through until its chamfer has left the far side"
    assert (found.work(DEEPER), found.codes(DEEPER)) == (["tap", "inspect"], ["pick_up_the_thread"])
    pipe = shallow(0.3, thread="1/4-18 NPT")
    assert pipe[DEEPER].text == "Go on as planned to the full depth, and gauge"
    assert pipe.names == [DEEPER, "refer_to_engineering"]
    milled = shallow(0.5, thread="2-4.5 UNC-2B", hole=("blind", {"full_thread_depth": 2}))
    assert (milled[DEEPER].text, milled.work(DEEPER)) == (pipe[DEEPER].text, ["thread_mill", "inspect"])
    assert DRILL not in milled.names
    assert milled.codes(DEEPER) == ["pick_up_the_thread"]


def test_without_a_measurement_nothing_stays_as_it_is():
    found = shallow(None)
    assert AS_IT_IS not in found.names
    assert found.ruled_out[AS_IT_IS].startswith("measure the full thread there is")
    assert not {"missing", "full_thread_depth_measured"} & set(found[DRILL].proof)


def test_no_thread_has_no_strength():
    """Whether the material is known or not."""
    for material in ("6061-T6", None):
        found = shallow(0, material=material)
        assert AS_IT_IS not in found.names
        assert found.ruled_out[AS_IT_IS] == "0 in of thread strips before the joint has its strength"
        crossed = answer("1/4-20 UNC-2B", "cross_threaded", measured={"full_thread_depth": 0}, material=material)
        assert "chase_from_the_sound_end" not in crossed.names


def test_a_thread_of_unknown_strength_stays_with_a_caution():
    assert shallow(material=None).codes(AS_IT_IS) == ["rework_strength_open", "screw_may_bottom"]


def test_a_crossed_thread_is_chased_from_its_sound_end():
    """0.5 in of sound thread are 0.5/0.0625 = 8 threads."""
    for hole, where in (
        (None, "in the sound thread below the damage"),
        (("through", {"thickness": 0.75}), "from the far side, where the thread is sound"),
    ):
        found = answer("3/8-16 UNC-2B", "cross_threaded", hole=hole, measured={"full_thread_depth": 0.5},
                       asked={"mating_screw": GRADE_5})  # fmt: skip
        way = found["chase_from_the_sound_end"]
        assert (way.proof["threads_sound"], way.proof["full_thread_depth_sound"]) == (8, D("0.5"))
        assert way.text == (
            f"Chase the thread with a tap that starts {where}; good only where the gauges pass and no thread is missing"
        )
        assert f"by hand {where}" in way.operations[0].line.text
        assert found.work("chase_from_the_sound_end") == ["chase", "inspect"]
        assert found.codes("chase_from_the_sound_end") == ["count_the_threads"]
    unknown = answer("3/8-16 UNC-2B", "cross_threaded")
    assert unknown.codes("chase_from_the_sound_end") == ["rework_strength_open", "count_the_threads"]
    assert "threads_sound" not in unknown["chase_from_the_sound_end"].proof
    short = answer("3/8-16 UNC-2B", "cross_threaded", measured={"full_thread_depth": 0.15})
    assert plain(short.ruled_out["chase_from_the_sound_end"]).startswith("0.15 in of sound thread strips")
