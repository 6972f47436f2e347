"""GO does not enter: what is done before a finish and after it, which tap is next, what a chase costs.

1/4-20 UNC-2B: pitch 0.2175 to 0.2224, minor 0.196 to 0.207 (ASME B1.1); the nth H limit ends n x 0.0005 over 0.2175 and
is 0.0005 wide; H1, H2, H3, H5, H7 and H11 are listed; the plan of the bare hole has H5.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Range
from every import every
from reworked import answer, coat, plain

CLEAN, SAME, NEXT = "clean_and_gauge_again", "tap_again_same_limit", "tap_again_next_limit"
MINOR, OVERTAP, STRIP = "open_the_minor_diameter", "tap_again_oversize", "strip_tap_and_coat_again"
CHASE, MASK = "chase_the_coated_thread", "strip_mask_and_coat_again"
D = Decimal


def refused(**given):
    return answer("1/4-20 UNC-2B", "go_does_not_enter", **given)


def limits(low, high):
    return Range(D(low), D(high))


@every(
    ("pitch", "short", "stays_short", "codes"),
    [
        (0.2170, "0.00050", True, []),
        (0.2174, "0.00010", True, []),
        (0.2175, "0.00000", False, ["go_checks_more"]),
        (0.2224, "0.00000", False, ["go_checks_more"]),
        (None, None, False, []),
    ],
)
def test_cleaning_comes_first_and_says_what_it_cannot_mend(pitch, short, stays_short, codes):
    found = refused(measured={} if pitch is None else {"pitch_diameter": pitch})
    assert found.names[0] == CLEAN
    assert found[CLEAN].proof.get("short_by") == (None if short is None else D(short))
    assert ("stays short" in found[CLEAN].text) is stays_short
    assert found.codes(CLEAN) == codes
    assert found[CLEAN].text.startswith("Clean chips and burrs out of the thread")
    assert (found.work(CLEAN), found[CLEAN].disposition) == (["inspect"], "rework")
    assert "chips and burrs" in found[CLEAN].operations[0].line.text
    assert found[CLEAN].proof["window"] == limits("0.2175", "0.2224")


def test_a_thread_that_both_gauges_refuse_is_never_tapped_again():
    """0.2230 is over 0.2224: nothing is said of a pitch diameter inside its limits."""
    found = refused(measured={"pitch_diameter": 0.2230, "not_go_enters": True})
    assert found.names.count(CLEAN) == 1
    assert found.codes(CLEAN) == []
    assert not {SAME, NEXT} & set(found.names)
    assert "lead, roundness or a burr" in found.ruled_out["tap_again"]
    assert {"looser_class", "use_oversize"} <= set(found.names)
    inside = refused(measured={"pitch_diameter": 0.2224, "not_go_enters": True})
    assert (inside.names.count(CLEAN), inside.codes(CLEAN)) == (1, ["go_checks_more"])


@every(
    ("pitch", "again", "text"),
    [
        # H5 begins at 0.2175 + 4 x 0.0005 = 0.2195
        (
            0.2194,
            True,
            "Tap again with a new tap of the planned limit (H5): the one used was worn, or of a smaller limit",
        ),
        (0.2195, False, "H5 begins at 0.2195 in, the thread has that already: the tap would cut nothing"),
        (
            None,
            True,
            "Tap again with a new tap of the planned limit (H5): the one used was worn, or of a smaller limit",
        ),
    ],
)
def test_a_new_tap_of_the_same_limit_where_it_would_cut(pitch, again, text):
    found = refused(measured={} if pitch is None else {"pitch_diameter": pitch})
    assert (SAME in found.names) is again
    if not again:
        assert found.ruled_out[SAME] == text
        return
    assert found[SAME].text == text
    proof = found[SAME].proof
    assert (proof["tap_limit"], proof["tap_pitch_diameter"]) == ("H5", limits("0.2195", "0.2200"))
    assert proof["limits_inside_window"] == [f"H{number}" for number in range(1, 10)]  # H9 ends at 0.2220
    assert found.codes(SAME) == ["start_in_the_thread"]
    assert found.work(SAME) == ["tap", "inspect"]


def test_the_next_limit_that_is_listed_and_begins_where_the_planned_one_ends():
    """H6 begins where H5 ends but is not listed; H7, 0.2205 to 0.2210. Of class 3B (to 0.2211) H3, then H5."""
    found = refused(measured={"pitch_diameter": 0.2170})
    proof = found[NEXT].proof
    assert (proof["tap_limit"], proof["tap_pitch_diameter"]) == ("H7", limits("0.2205", "0.2210"))
    assert found[NEXT].text == "Tap again with the next limit, H7, where the planned one is refused again"
    assert (found.codes(NEXT), found.work(NEXT)) == (["start_in_the_thread"], ["tap", "inspect"])
    assert "H7" in found[NEXT].operations[0].line.text
    assert found[NEXT].plan.specification.tap.recommended.limit.label == "H7"
    close = answer("1/4-20 UNC-3B", "go_does_not_enter")
    assert (close[SAME].proof["tap_limit"], close[NEXT].proof["tap_limit"]) == ("H3", "H5")
    assert close[NEXT].proof["limits_inside_window"] == [f"H{number}" for number in range(1, 8)]  # H7 ends at 0.2210


def test_neighbouring_limits_are_next_to_one_another():
    """ISO 2 of M8 is 7.226 to 7.251, ISO 3 begins there; 6H goes to 7.348."""
    found = answer("M8", "go_does_not_enter")
    assert (found[SAME].proof["tap_limit"], found[NEXT].proof["tap_limit"]) == ("ISO 2", "ISO 3")
    assert found[NEXT].proof["limits_inside_window"] == ["ISO 1", "ISO 2", "ISO 3"]


def test_a_window_holds_a_limit_that_fills_it_to_its_end():
    """Before a coat of 0.00025 to 0.0005 limits are 0.2175 + 0.002 to 0.2224 + 0.001: 0.2195 to 0.2234, H5 to H11."""
    found = refused(stage="before_finish", finish=coat(0.00025, 0.0005))
    assert found[SAME].proof["window"] == limits("0.2195", "0.2234")
    assert found[SAME].proof["limits_inside_window"] == [f"H{number}" for number in range(5, 12)]
    # 0.2224 + 4 x 0.00015 = 0.2230 is where H11 ends; from 0.0001499 on it is outside
    for least, last in ((0.00015, "H11"), (0.0001, "H10")):
        assert (
            refused(stage="before_finish", finish=coat(least, 0.0002))[SAME].proof["limits_inside_window"][-1] == last
        )


def test_where_no_larger_limit_is_sold_that_is_said():
    """Before a coat of 0.0008 to 0.0009 limits are 0.2211 to 0.2256: of what is listed H11 only lies inside."""
    found = refused(stage="before_finish", finish=coat(0.0008, 0.0009))
    assert found[SAME].proof["tap_limit"] == "H11"
    assert found[SAME].proof["limits_inside_window"] == ["H9", "H10", "H11"]
    assert found.ruled_out[NEXT] == "no larger limit that is sold lies inside the window"
    assert NEXT not in found.names


@every(
    ("hole", "label"),
    [
        ({"hole_diameter": 0.1900}, "#7 drill or reamer"),
        ({"hole_diameter": 0.1959}, "#7 drill or reamer"),
    ],
)
def test_a_hole_too_small_is_opened_to_its_limits(hole, label):
    found = refused(measured=hole)
    short = D("0.196") - D(str(hole["hole_diameter"]))
    assert found[MINOR].proof["minor_short_by"] == short
    assert found[MINOR].proof["hole_diameter"] == D(str(hole["hole_diameter"]))
    assert found.work(MINOR) == ["ream", "tap", "inspect"]
    first = found[MINOR].operations[0].line
    assert plain(first.text) == f"Open the minor diameter to 0.196 to 0.207 in, {label}"
    assert first.tool == {"kind": label}
    assert MINOR not in refused(measured={"hole_diameter": 0.1960}).names


def test_a_milled_thread_is_run_again():
    """2-4.5 is larger than taps that are stocked: it is thread-milled."""
    found = answer("2-4.5 UNC-2B", "go_does_not_enter", hole=("through", {"thickness": 2}))
    assert found.names[:2] == [CLEAN, SAME]
    assert "wear offset raised" in found[SAME].text
    assert (found.work(SAME), found.codes(SAME)) == (["thread_mill", "inspect"], [])
    assert "tap_limit" not in found[SAME].proof


def test_a_finish_that_leaves_no_room_lets_no_tap_help():
    """Hard anodize of 0.002 in moves M6 by 4 x 0.0254 mm and more, of a tolerance of 0.150 mm."""
    before = answer("M6", "go_does_not_enter", stage="before_finish", finish="MIL-A-8625 Type III")
    assert not {SAME, NEXT} & set(before.names)
    assert before.ruled_out[SAME].startswith("the finish leaves no room in this class")
    after = answer("M6", "go_does_not_enter", stage="after_finish", finish="MIL-A-8625 Type III",
                   measured={"pitch_diameter": 5.31})  # fmt: skip
    assert after.names[:3] == [CLEAN, MASK, CHASE]
    assert after.ruled_out[STRIP].startswith("the finish leaves no room in this class")
    assert after.work(MASK) == ["strip", "inspect", "wash", "mask", "finish", "strip", "inspect"]
    assert after.codes(MASK) == ["strip_by_the_standard", "stripping_opens_thread"]
    assert after.codes(CHASE) == ["chased_flanks", "hard_coat_dulls"]
    assert (after[CHASE].proof["cut_per_side"], after[CHASE].proof["bare_after_chase"]) == (D("0.0100"), False)
    assert after[CLEAN].text.startswith("Clean coat nodules and blast media out of the thread")


def test_after_a_coat_it_is_stripped_and_a_larger_tap_run():
    """0.0002 to 0.0004 of coat: 0.2175 + 0.0016 to 0.2224 + 0.0008 before it; H5 (0.2195) to H11 (0.2230)."""
    found = refused(stage="after_finish", finish=coat(0.0002, 0.0004), measured={"pitch_diameter": 0.2170})
    assert found.names[:3] == [CLEAN, STRIP, CHASE]
    proof = found[STRIP].proof
    assert proof["window_before_finish"] == limits("0.2191", "0.2232")
    assert proof["limits_inside_window"] == [f"H{number}" for number in range(5, 12)]
    assert plain(found[STRIP].text) == "Strip the coat, tap to 0.2191 to 0.2232 in pitch diameter, and coat again"
    assert found.work(STRIP)[:2] == ["strip", "tap"]
    assert found.codes(STRIP) == ["strip_by_the_standard"]
    assert (found[STRIP].disposition, found[CHASE].disposition) == ("rework", "repair")


def test_a_thread_under_hot_dip_zinc_is_tapped_after_it():
    found = answer("5/8-11 UNC-2B", "go_does_not_enter", stage="after_finish", material="A36",
                   finish="hot-dip galvanized ASTM F2329")  # fmt: skip
    assert found.names[:2] == [CLEAN, OVERTAP]
    assert not {STRIP, CHASE, MASK} & set(found.names)
    assert (found.work(OVERTAP), found.codes(OVERTAP)) == (["tap", "inspect"], ["start_in_the_thread"])


def test_without_a_pitch_diameter_a_chase_is_taken_to_bare_the_flanks():
    found = refused(stage="after_finish", finish=coat(0.0002, 0.0004))
    assert not {"cut_per_side", "bare_after_chase", "coat"} & set(found[CHASE].proof)
    (flanks,) = found[CHASE].cautions
    assert flanks.text.startswith("The flanks are bare afterwards")
    assert found.work(CHASE) == ["chase", "inspect"]
