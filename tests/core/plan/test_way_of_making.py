"""How a thread is made: hardness, engagement and size decide before any tool. Trade cases and arithmetic by hand."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.errors import BorewrightError
from borewright.core.model import Hole, Length, MaterialInput, PercentTarget
from borewright.core.plan.specify import recommend_drill, recommend_tap, specify
from borewright.core.requests import DrillRecommendation, HoleSpecRequest, Machine, Stock, TapRecommendation
from hypothesis import given, settings
from hypothesis import strategies as st

EXPECTED = Path(__file__).parents[2] / "derived" / "trade_cases_way_of_making.csv"
with EXPECTED.open(encoding="utf-8", newline="") as lines:
    CASES = list(csv.DictReader(line for line in lines if not line.startswith("#")))


def hole(kind: str, depth: str, unit: str) -> Hole:
    length = Length(Decimal(depth), unit)
    return Hole("blind", full_thread_depth=length) if kind == "blind" else Hole("through", thickness=length)


def asked(thread: str, kind: str, depth: str, unit: str, name: str = "1018", hardness: str = "", **more):
    return HoleSpecRequest(
        callout.read(thread),
        hole(kind, depth, unit),
        material=MaterialInput(name=name, hardness=hardness or None),
        **more,
    )


def case(row) -> HoleSpecRequest:
    return asked(row["thread"], row["hole"], row["depth"], row["unit"], row["material"], row["hardness"])


@pytest.mark.parametrize("row", CASES, ids=lambda row: row["case"])
def test_trade_case(row):
    spec = specify(case(row))
    assert spec.verdict == row["verdict"]
    assert row["code"] in ("", *(decision.code for decision in spec.review))
    assert (spec.way.threading or "") == row["threading"]
    assert (spec.tap is not None) == (row["threading"] == "tap")
    assert (spec.drill is None) == (row["threading"] == "")
    assert all("by hand" not in one.line.text for one in spec.operations)


@pytest.mark.parametrize("row", [row for row in CASES if row["verdict"] != "ready"], ids=lambda row: row["case"])
def test_audit_never_accepts_what_a_person_must_decide(row):
    plan = AsPlanned(drill="#7" if row["unit"] == "in" else "6.8 mm", tap=PlannedTap(style="straight_flute"))
    assert audit(AuditRequest(case(row), plan)).verdict != "accept"


def named(spec) -> list[str]:
    return [one.line.operation for one in spec.operations]


def test_hardened_part_is_threaded_before_it_is_hardened():
    spec = specify(asked("M8", "blind", "12", "mm", "4140", "62 HRC"))
    order = named(spec)
    assert order.index("tap") < order.index("harden") < order.index("inspect")
    drill = spec.operations[order.index("drill")].line
    assert drill.tool["substrate"] == "HSS"  # 197 HB needs no carbide (common practice)
    assert spec.way.material.hardness_hb < 250  # annealed 4140 is 197 HB
    assert "before hardening" in spec.review[0].text


def test_of_an_unknown_material_hardness_alone_is_known():
    """Common practice: what no table holds is a person's decision; 450 HB wears out high-speed steel whatever it is."""
    unheard, hard = (specify(asked("M12", "through", "12", "mm", "unobtainium", said)) for said in (None, "450 HB"))
    assert [one.code for one in unheard.review] == ["material_not_held"]
    assert unheard.tap.recommended.substrate == "HSS"
    assert [one.code for one in hard.review] == ["hard_to_tap", "material_not_held"]
    assert hard.tap.recommended.substrate == "carbide"
    drill = next(one.line for one in hard.operations if one.line.operation == "drill")
    assert drill.tool["substrate"] == "carbide"


def test_no_annealed_state_no_tools():
    """Nothing is known of the soft state of a steel that is told by its hardness alone."""
    spec = specify(
        HoleSpecRequest(callout.read("M8"), hole("blind", "12", "mm"), material=MaterialInput(hardness="62 HRC"))
    )
    assert (spec.verdict, spec.drill, spec.tap, spec.operations) == ("infeasible", None, None, ())
    assert spec.process.cutting is None


def test_hand_is_said_only_when_hands_turn_the_tap():
    texts = [
        " ".join(
            one.line.text for one in specify(asked("M8", "blind", "12", "mm", machine=Machine(tapping=way))).operations
        )
        for way in ("hand", "rigid", None)
    ]
    assert ["by hand" in text for text in texts] == [True, False, False]


def test_a_missing_speed_is_said_as_missing():
    spec = specify(asked("1/4-20 UNC-2B", "blind", "0.5", "in", "acetal"))
    texts = {one.line.operation: one.line.text for one in spec.operations}
    assert "speed not held" in texts["drill"]
    assert "speed not held" in texts["tap"]


def test_plastic_takes_no_oversize_of_steel():
    """FED-STD-H28/2B gives #7 a mean hole of 0.2048 in steel; a plastic closes in."""
    spec = specify(asked("1/4-20 UNC-2B", "blind", "0.5", "in", "acetal"))
    best = spec.drill.recommended
    assert best.expected_hole_diameter is None
    assert best.acceptance is None
    assert spec.process.acceptance.minor_diameter is None
    assert best.margin_below_max == spec.thread.internal.minor_diameter.max - best.diameter
    assert "plastic_closes_in" in {caution.code for caution in spec.notes.cautions}


@pytest.mark.parametrize(
    ("thread", "thickness", "unit", "countersink", "full"),
    [
        # (1.05 x 0.25 - 0.201) / 2 = 0.0308 a face is over 15 % of 0.06: edges of 5 % = 0.003, 0.201 + 0.006 wide
        ("1/4-20 UNC-2B", "0.06", "in", "0.207", "0.054"),
        # 0.0308 is 12 % of 0.25: the usual countersink, 1.05 x 0.25 = 0.2625
        ("1/4-20 UNC-2B", "0.25", "in", "0.262", "0.25"),
        # (8.4 - 6.8) / 2 / tan 60 = 0.462 is over 15 % of 2.5: edges of 0.125; 6.8 + 2 x 0.125 x tan 60 = 7.233
        ("M8", "2.5", "mm", "7.23", "2.25"),
    ],
)
def test_countersink_of_thin_sheet(thread, thickness, unit, countersink, full):
    spec = specify(asked(thread, "through", thickness, unit, "A36"))
    assert spec.depths.countersink_diameter == Decimal(countersink)
    assert spec.depths.full_thread_depth == Decimal(full)
    said = "countersink_limited" in {caution.code for caution in spec.depths.notes.cautions}
    assert said == (full != thickness)


@pytest.mark.parametrize(
    ("thread", "depth", "pilots"),
    [
        ("1/2-13 UNC-2B", "1", []),
        # drill 1-7/64 = 1.1094 in: 0.3 x 1.1094 = 0.333, nearest sixteenth 5/16
        ("1 1/4-7 UNC-2B", "1.25", ["5/16"]),
        # drill 1-25/32 = 1.7812 in: 0.534 -> 9/16, 0.65 x 1.7812 = 1.158 -> 1-3/16
        ("2-4.5 UNC-2B", "3", ["9/16", "1-3/16"]),
    ],
)
def test_large_holes_are_opened_out_in_steps(thread, depth, pilots):
    spec = specify(asked(thread, "through", depth, "in", "A36"))
    lines = [one.line for one in spec.operations if one.line.operation == "pilot_drill"]
    assert [line.tool["label"] for line in lines] == pilots
    assert ("drill_thrust" in {caution.code for caution in spec.notes.cautions}) == bool(pilots)


def test_a_tap_in_the_crib_is_used_for_a_large_thread():
    spec = specify(asked("1 1/2-6 UNC-2B", "through", "1.5", "in", stock=Stock(taps=("1 1/2-6 NC HSS G H4",))))
    assert spec.tap.recommended.in_stock
    assert spec.verdict == "review"


def test_a_length_in_the_other_unit_is_the_only_question():
    """0.75 in is 19.05 mm, 19.05 / 8 = 2.4 diameters of M8; nothing else is asked before that is answered."""
    review = specify(asked("M8", "blind", "0.75", "mm")).review
    assert [(decision.code, decision.blocks) for decision in review] == [("unit_doubtful", True)]
    assert "0.75 in (2.4 diameters)" in review[0].text
    deep = specify(asked("1/4-20 UNC-2B", "blind", "12", "in")).review
    assert deep[0].code == "unit_doubtful"
    assert "12 mm (1.9 diameters)" in deep[0].text


@pytest.mark.parametrize(("percent", "doubted"), [("0.75", True), ("1", True), ("60", False)])
def test_a_share_instead_of_percent_is_asked_about(percent, doubted):
    request = asked("M8", "blind", "12", "mm", percent_thread=PercentTarget(target=Decimal(percent)))
    try:
        codes = {decision.code for decision in specify(request).review}
    except BorewrightError as error:
        assert error.code == "percent_out_of_range"
        assert doubted
    else:
        assert ("percent_doubtful" in codes) == doubted


@pytest.mark.parametrize(
    ("thread", "material", "codes"),
    [
        ("M8", MaterialInput(name="4140", hardness="62 HRC"), {"too_hard_to_tap"}),
        ("2-4.5 UNC-2B", MaterialInput(name="A36"), {"large_thread"}),
        ("M8", MaterialInput(name="4140"), set()),
    ],
)
def test_drill_and_tap_alone_carry_the_warning(thread, material, codes):
    for reply in (
        recommend_drill(DrillRecommendation(callout.read(thread), material=material)),
        recommend_tap(TapRecommendation(callout.read(thread), material=material)),
    ):
        told = {caution.code for caution in reply.notes.cautions}
        assert told & {"too_hard_to_tap", "hard_to_tap", "large_thread"} == codes


THREADS = (
    *("#0-80 UNF-2B", "#4-40 UNC-2B", "1/4-20 UNC-2B", "1/2-13 UNC-2B", "1-8 UNC-2B", "1 3/8-6 UNC-2B"),
    *("2-4.5 UNC-2B", "4-4 UNC-2B", "M3", "M8", "M20", "M36", "M64"),
)


@given(
    thread=st.sampled_from(THREADS),
    hardness_hrc=st.integers(20, 70),
    pitches=st.decimals("0.2", "60", places=1),
    kind=st.sampled_from(["blind", "through"]),
    name=st.sampled_from(["4140", "D2", "304", "unobtainium"]),
)
@settings(max_examples=300)
def test_never_ready_beyond_the_thresholds(thread, hardness_hrc, pitches, kind, name):
    """Common practice: 45 HRC, 1-1/4 in or 32 mm, three turns and half a diameter of thread."""
    pitch = recommend_drill(DrillRecommendation(callout.read(thread))).thread.pitch
    unit = "mm" if thread.startswith("M") else "in"
    depth = (pitch * pitches).quantize(Decimal("0.0001"))
    try:
        spec = specify(asked(thread, kind, str(depth), unit, name, f"{hardness_hrc} HRC"))
    except BorewrightError as error:
        assert error.code
        return
    assert all("by hand" not in one.line.text for one in spec.operations)
    size = spec.thread.nominal_diameter
    hard = name in ("4140", "D2") and hardness_hrc >= 45
    large = size > (Decimal("1.25") if unit == "in" else 32)
    short = pitches < 3 or depth < size / 2
    if hard or large or short or depth > 10 * size:
        assert spec.verdict != "ready"
    if pitches < 1:
        assert (spec.verdict, spec.tap) == ("infeasible", None)
    if size >= 2 and unit == "in":
        assert spec.tap is None
