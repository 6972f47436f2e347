"""What fits in the place of a spoilt thread: larger threads and inserts, by series, class, hand and stage.

An inch tap leaves D + 0.130 P, a metric one D + 0.080 P (ASME B94.9); limits of minor diameters by ASME B1.1 and ISO
965-1; the hole of an insert is D + 0.216506 P at least (ASME B18.29.1, B18.29.2M).
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.model import Range
from borewright.core.rework import envelope
from borewright.core.rework.insert_in_place import hole_for_insert
from borewright.core.rework.larger_thread import drill_between
from borewright.core.rework.proof import Proof
from every import every
from reworked import answer

INSERT, LARGER, PLUG, SCRAP = "insert_in_the_same_place", "next_larger_thread", "plug_and_remake", "scrap"
D = Decimal


def larger(found):
    return [one.thread for one in found.found.ways if one.name == LARGER]


def thread(text):
    return standards.resolve(callout.read(text))


@every(
    ("drawn", "threads", "partial"),
    [
        # 0.375 + 0.130/16 = 0.3831: over 0.376 of 7/16-14, (0.4375 - 0.3831)/(1.299038/14) = 58.6 % of it stand;
        # 7/16-20 (0.383 to 0.395) cleans; then the other unit. Of two of one size the own series stands first.
        ("3/8-16 UNC-2B", ["7/16-20 UNF-2B", "1/2-13 UNC-2B", "M12x1.75-6H", "M12x1.5-6H"], ("7/16-14 UNC-2B", "58.6")),
        ("3/8-16 UNC-2B LH", ["7/16-20 UNF-2B LH", "1/2-13 UNC-2B LH", "M12x1.75-6H LH", "M12x1.5-6H LH"],
         ("7/16-14 UNC-2B LH", "58.6")),
        # class 3B and 4H5H are kept where the thread has them, the J form is replaced by the plain one
        ("3/8-16 UNJC-3B",
         ["7/16-20 UNF-3B", "1/2-13 UNC-3B", "M12x1.75-6H", "M12x1.5-6H"], ("7/16-14 UNC-3B", "58.6")),
        ("1/4-28 UNF-3B", ["5/16-24 UNF-3B", "5/16-18 UNC-3B", "M8x1.25-6H", "M8x1-6H"], None),
        # 8 + 0.080 x 1.25 = 8.1 mm: M10 from 8.376; 3/8-24 (8.382 to 8.636) too; 3/8-16 (7.798 to 8.153) leaves 0.05 mm
        ("M8-4H5H", ["M10x1.5-4H5H", "M10x1.25-4H5H", "3/8-24 UNF-2B"], None),
        # 0.190 + 0.130/32 = 0.1941: of #12-28 (0.216 in) (0.216 - 0.1941)/(1.299038/28) = 47.2 %
        ("#10-32 UNF-2B", ["1/4-28 UNF-2B", "1/4-20 UNC-2B", "M6x1-6H", "M8x1-6H"], ("#12-28 UNF-2B", "47.2")),
        # an STI hole reaches D + 1.299038 P + 0.130 P = 0.375 + 0.0893 = 0.4643
        ("3/8-16 UNC-2B STI",
         ["9/16-12 UNC-2B", "9/16-18 UNF-2B", "M14x2-6H", "M14x1.5-6H"], ("1/2-13 UNC-2B", "35.7")),
    ],
)  # fmt: skip
def test_the_first_larger_thread_of_each_series(drawn, threads, partial):
    found = answer(drawn, "stripped")
    assert larger(found) == threads
    whys = [one.why.replace("\N{NO-BREAK SPACE}", " ") for one in found.found.ruled_out if one.name == LARGER]
    left = [why for why in whys if "does not clean up" in why]
    if partial is None:
        assert left == []
    else:
        (why,) = left
        name, percent = partial
        assert why.startswith(f"{name} does not clean up: the old thread reaches ")
        assert why.endswith(f"at least {percent} % of its thread would stand")
    for one in found.found.ways:
        if one.name == LARGER:
            assert one.text == f"Open the hole and tap {one.thread} for a larger screw"
            assert (one.disposition, [line.line.operation for line in one.operations]) == (
                "repair", ["drill", "countersink", "tap", "inspect"]
            )  # fmt: skip
            assert one.cautions[0].code == "larger_screw"


def test_a_thread_without_drill_or_tables_is_said():
    whys = [one.why for one in answer("M8-6H", "stripped").found.ruled_out if one.name == LARGER]
    assert "3/8-16 UNC-2B: no drill is sold between the old thread and its limit" in whys
    found = answer("1/2-10 ACME-2G", "stripped")
    assert found.ruled_out[LARGER].startswith(
        "larger threads are looked for in the place of UN and M threads, not of 1/2-10"
    )
    assert found.ruled_out[INSERT] == "no insert for 1/2-10 ACME-2G is held"
    # nothing but a plug is left: the part may as well be scrapped; no critical part is
    assert found.names == [PLUG, SCRAP]
    assert SCRAP not in answer("3/8-16 UNC-2B", "stripped").names
    assert answer("1/2-10 ACME-2G", "stripped", criticality="flight").names == ["refer_to_engineering"]
    known = answer("1/2-10 ACME-2G", "stripped", measured={"major_diameter": 0.51})
    assert known.ruled_out[LARGER].startswith("larger threads are looked for")


@every(
    ("drawn", "sti"),
    [
        ("3/8-16 UNC-2B", "3/8-16 UNC-2B STI"),
        ("3/8-16 UNC-1B", "3/8-16 UNC-2B STI"),
        ("3/8-16 UNC-3B", "3/8-16 UNC-3B STI"),
        ("3/8-16 UNC-2B LH", "3/8-16 UNC-2B STI LH"),
        ("M8-6H", "M8x1.25 STI 5H"),
        ("M8-4H5H", "M8x1.25 STI 4H5H"),
        ("M8x1-6H", "M8x1 STI 5H"),
        ("M8-6H LH", "M8x1.25 STI 5H LH"),
        ("3/8-16 UNC-2B STI", None),
        ("1/4-18 NPT", None),
        ("1/2-10 ACME-2G", None),
        ("2-4.5 UNC-2B", None),
    ],
)
def test_the_hole_for_an_insert_has_the_class_and_hand_of_its_thread(drawn, sti):
    found = hole_for_insert(thread(drawn))
    assert (None if found is None else found.designation) == sti


@every(
    ("drawn", "depth", "insert", "figures"),
    [
        # the longest of 1, 1.5, 2, 2.5 and 3 D that 0.75 in of full thread hold with one pitch: 0.5625 + 0.0625
        ("3/8-16 UNC-2B", 0.75, "0.5625", {"full_thread_depth": "0.62500", "drill_depth_bottoming_tap": "0.81250",
                                            "drill_depth_plug_tap": "0.93750"}),
        # over 5/16 in no male centre, at it half a diameter: 0.4688 + 6/18 + 0.15625 = 0.95838; + 4/18 = 0.69102
        ("5/16-18 UNC-2B", 0.55, "0.4688", {"full_thread_depth": "0.52436", "drill_depth_bottoming_tap": "0.69102",
                                             "drill_depth_plug_tap": "0.95838"}),
        # 8 mm has one, 10 mm none: 12 + 1.25, 12 + 5, 12 + 7.5 + 4; 15 + 1.5, 15 + 6, 15 + 9
        ("M8", 14, "12",
         {"full_thread_depth": "13.25", "drill_depth_bottoming_tap": "17", "drill_depth_plug_tap": "23.5"}),
        ("M10", 18, "15",
         {"full_thread_depth": "16.5", "drill_depth_bottoming_tap": "21", "drill_depth_plug_tap": "24"}),
    ],
)  # fmt: skip
def test_the_depths_of_an_insert(drawn, depth, insert, figures):
    floor = 1.25 if drawn.startswith(("3", "5")) else 30
    found = answer(drawn, "stripped", hole=("blind", {"full_thread_depth": depth, "thickness": floor}))
    proof = found[INSERT].proof
    assert {name: proof[name] for name in figures} == {name: D(value) for name, value in figures.items()}
    assert proof["insert_length"] == D(insert)
    assert proof["floor_left_bottoming"] == D(str(floor)) - D(figures["drill_depth_bottoming_tap"])
    assert proof["floor_left_plug"] == D(str(floor)) - D(figures["drill_depth_plug_tap"])
    through = answer(drawn, "stripped", hole=("through", {"thickness": floor}))[INSERT].proof
    assert "full_thread_depth" in through
    assert not {"drill_depth_plug_tap", "floor_left_plug"} & set(through)
    without = answer(drawn, "stripped", hole=("blind", {"full_thread_depth": depth}))[INSERT].proof
    assert "drill_depth_plug_tap" in without
    assert "floor_left_plug" not in without


def test_a_drawing_that_allows_inserts_makes_it_rework():
    repaired = answer("3/8-16 UNC-2B", "stripped")[INSERT]
    said = "Open the hole to 3/8-16 UNC-2B STI and fit an insert: the screw stays 3/8-16 UNC-2B"
    assert repaired.text == f"{said}. The drawing shows a plain thread, so this is a repair"
    allowed = answer("3/8-16 UNC-2B", "stripped", drawing_allows=("insert",))[INSERT]
    assert (allowed.disposition, allowed.text, allowed.needs_authority) == ("rework", said, False)


def test_an_old_thread_that_is_too_large_for_the_insert_is_said():
    """M10 reaches 10 + 0.12 = 10.12 mm, 0.3984 in; the hole of a 3/8-16 insert has no upper limit that is held. M12 in
    the place of M8 reaches 12.14, the hole is 8.271 to 8.483 mm."""
    found = answer("3/8-16 UNC-2B", "wrong_thread", wrong_thread=callout.read("M10"))
    assert found.ruled_out[INSERT] == (
        "the old thread reaches 0.3984 in, the hole for the insert is 0.3885 in at least and its greatest size is not"
        " held: it cannot be told whether traces stay"
    )
    found = answer("M8", "wrong_thread", wrong_thread=callout.read("M12"))
    assert found.ruled_out[INSERT] == (
        "the old thread reaches 12.14 mm, the hole for the insert is 8.271 mm at least: traces of the old thread would"
        " stay"
    )
    found = answer("3/8-16 UNC-2B", "wrong_thread", wrong_thread=callout.read("1/2-10 ACME-2G"))
    assert found.ruled_out[INSERT] == "what the old thread left is not known: measure the major diameter"


def test_a_hole_cut_after_its_finish_is_bare():
    anodized = "MIL-A-8625 Type II"
    for stage, finish, bare in (("after_finish", anodized, True), ("before_finish", anodized, False),
                                (None, None, False)):  # fmt: skip
        found = answer("3/8-16 UNC-2B", "stripped", stage=stage, finish=finish)
        for one in found.found.ways:
            if one.name in (INSERT, LARGER):
                assert ("bare_after_rework" in {caution.code for caution in one.cautions}) is bare
                assert ("finish" in {line.line.operation for line in one.operations}) is (
                    finish is not None and not bare
                )


@every(
    ("old", "verdict", "radial", "left"),
    [
        # 1/2-13 UNC-2B, minor 0.417 to 0.434, major 0.5, height 1.299038/13 = 0.099926
        ("0.4169", "full_any_hole", "0.00005", None),
        ("0.417", "full_any_hole", "0", None),
        ("0.4171", "full_upper_hole", "0.00845", None),
        ("0.434", "full_upper_hole", "0", None),
        ("0.4341", "partial", None, 65.9),
        ("0.45", "partial", None, 50.0),
        ("0.4501", "no", None, 49.9),
        ("0.5", "no", None, 0.0),
        ("0.51", "no", None, 0.0),
    ],
)
def test_what_a_thread_cuts_away(old, verdict, radial, left):
    wanted = thread("1/2-13 UNC-2B")
    found = envelope.cleans_up(wanted.internal.minor_diameter, D(old), thread=wanted, unit="in")
    assert (found.verdict, found.radial, found.percent_left) == (verdict, None if radial is None else D(radial), left)
    assert found.cleans is verdict.startswith("full")
    for limits in (Range(None, None), Range(D("0.4"), None)):
        unknown = envelope.cleans_up(limits, D(old), thread=wanted, unit="in")
        assert (unknown.verdict, unknown.cleans) == ("unknown", False)


@every(("old", "end", "radial"), [("0.409", "0.417", "0.004"), ("0.42", "0.434", "0.007")])
def test_which_limit_of_the_new_thread_the_clean_up_is_from(old, end, radial):
    """Minor diameter of 1/2-13 UNC-2B .417 to .434 (ASME B1.1): the least where every hole cleans up."""
    wanted, proof = thread("1/2-13 UNC-2B"), Proof("in")
    minor = wanted.internal.minor_diameter
    found = envelope.cleans_up(minor, D(old), thread=wanted, unit="in")
    envelope.note_clean_up(proof, found, minor, D(old))
    assert proof.figures["radial_clean_up"] == (D(end) - D(old)) / 2 == D(radial)
    assert proof.steps[-1].inputs == {"m": D(end), "e": D(old)}


def test_threads_of_the_other_unit_are_told_in_that_of_the_drawing():
    """1/2-13 in mm: (12.7 - 11.2)/(1.299038 x 25.4/13) = 59.1 %; M12 in inches: (0.4724 - 0.44)/(1.299038 x 1.75/25.4)
    = 36.2 %."""
    assert envelope.percent_left(thread("1/2-13 UNC-2B"), D("11.2"), unit="mm") == 59.1
    assert envelope.percent_left(thread("M12"), D("0.44"), unit="in") == 36.2
    # M8 tapped for 3/8-16: 8.1/25.4 = 0.3189; 1/4-20 for M8: 0.2565 x 25.4 = 6.515
    for drawn, tapped, left, formula in (
        ("3/8-16 UNC-2B", "M8", "0.3189", {"D": D(8), "a": D("0.080"), "P": D("1.25"), "per_unit": 1 / D("25.4")}),
        ("M8", "1/4-20 UNC", "6.515", {"D": D("0.25"), "a": D("0.130"), "P": D("0.05"), "per_unit": D("25.4")}),
        ("5/16-18 UNC-2B", "1/4-20 UNC", "0.2565", {"D": D("0.25"), "a": D("0.130"), "P": D("0.05"), "per_unit": D(1)}),
    ):
        found = answer(drawn, "wrong_thread", wrong_thread=callout.read(tapped))
        first = next(one for one in found.found.ways if "envelope" in one.proof)
        assert first.proof["envelope"] == D(left)
        step = next(one for one in first.notes.steps if one.quantity == "proof.envelope")
        assert {name: pytest.approx(value) for name, value in formula.items()} == step.inputs


def test_a_tap_that_cut_oversize_has_left_a_larger_groove():
    """0.3831 + (0.3421 - 0.3401) where the pitch diameter is over its limit; at the limit and below it 0.3831 stays."""
    for pitch, left in ((0.3421, "0.38510"), (0.3402, "0.38320"), (0.3401, "0.3831"), (0.3360, "0.3831")):
        assert answer("3/8-16 UNC-2B", "tapped_oversize", measured={"pitch_diameter": pitch})[INSERT].proof[
            "envelope"
        ] == D(left)
    assert answer("3/8-16 UNC-2B", "tapped_oversize")[INSERT].proof["envelope"] == D("0.3831")
    assert answer("3/8-16 UNC-2B", "stripped", measured={"pitch_diameter": 0.3421})[INSERT].proof["envelope"] == D(
        "0.3831"
    )


def test_a_hole_larger_than_the_groove_goes_before_it():
    """0.3831 is what the tap left: a hole torn to 0.3840 is larger, one of 0.3831 and less is not."""
    for hole, left in ((0.3840, "0.3840"), (0.3831, "0.3831"), (0.3300, "0.3831")):
        assert answer("3/8-16 UNC-2B", "stripped", measured={"hole_diameter": hole})[INSERT].proof["envelope"] == D(
            left
        )


@every(
    ("text", "least", "drill"),
    [
        # W is 0.3860 in, 25/64 0.390625, X 0.3970; 7/16-20 UNF-2B ends at 0.395
        ("7/16-20 UNF-2B", "0.3831", "W"),
        ("7/16-20 UNF-2B", "0.3860", "W"),
        ("7/16-20 UNF-2B", "0.3861", "25/64"),
        # past the inch drills a metric one: 10 mm is 0.3937, 10.1 mm 0.3976
        ("7/16-20 UNF-2B", "0.3910", "10 mm"),
        ("7/16-20 UNF-2B", "0.3938", None),
        # a metric thread is drilled with metric drills only; M10 ends at 8.676
        ("M10", "8.41", "8.5 mm"),
        ("M10", "8.5", "8.5 mm"),
        ("M10", "8.6", "8.6 mm"),
        ("M10", "8.61", None),
    ],
)
def test_the_smallest_drill_from_the_old_thread_on(text, least, drill):
    assert drill_between(thread(text), D(least)) == drill


def test_a_drill_at_the_limit_holds_it():
    """27/64 is printed 0.4219; a thread that ends there takes it."""
    wanted = thread("1/2-13 UNC-2B")
    for most, drill in (("0.4219", "27/64"), ("0.4218", None)):
        limits = replace(wanted.internal, minor_diameter=Range(D("0.4170"), D(most)))
        assert drill_between(replace(wanted, internal=limits), D("0.42165")) == drill
