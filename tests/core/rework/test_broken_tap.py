"""How a broken tap comes out, by its size, its material and the part: the rows of the reference folder, each end tried.

Sizes of extractors 3/16 to 2-1/8 in (NAVEDTRA 14003, TM 1-1500-204-23-9 par. 4-20); nitric acid leaves aluminium whole
that has no copper (amateur radio journal, December 1960, p. 52); the rest is common practice or a workshop note.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.requests import HoleSpecRequest
from borewright.core.rework import BrokenTap, FaultFound, ReworkRequest, rework
from every import every

ALUMINIUM, STEEL = MaterialInput(name="6061-T6"), MaterialInput(name="1018 hot rolled")
HARD = MaterialInput(name="4140", hardness="50 HRC")
CARBON, HIGH_SPEED, CARBIDE = (BrokenTap(one) for one in ("carbon_steel", "high_speed_steel", "carbide"))
CHEMISTRY_AND_HEAT = {"alum", "nitric_acid", "anneal_and_drill"}


def ways(thread, tap=HIGH_SPEED, part=ALUMINIUM, *, blind=False, criticality=None, **asked):
    """The ways to take a tap out, and why the others are none."""
    named = callout.read(thread)
    deep = Length(Decimal(2 * named.nominal_diameter), named.unit)
    hole = Hole("blind", full_thread_depth=deep) if blind else Hole("through", thickness=deep)
    found = FaultFound("broken_tap", broken_tap=tap, criticality=criticality)
    answer = rework(ReworkRequest(HoleSpecRequest(named, hole, material=part, **asked), found))
    return {one.name: one for one in answer.ways}, {one.name: one.why for one in answer.ruled_out}


@every(
    ("thread", "method", "why"),
    [
        # 3/16 in is 4.76 mm: #10 is 4.826 mm, M5 is 5 mm, #8 4.166 mm, M4 4 mm
        ("#10-32 UNF-2B", "tap_extractor", None),
        ("M5", "tap_extractor", None),
        ("#8-32 UNC-2B", "tap_extractor", "too small"),
        ("M4", "tap_extractor", "too small"),
        # 2-1/8 in is 53.98 mm: 2 in is 50.8, M52 below, M56 and 2-1/4 in (57.15 mm) above
        ("2-4.5 UNC-2B", "tap_extractor", None),
        ("M52", "tap_extractor", None),
        ("2 1/8-12 UN-2B", "tap_extractor", None),
        ("M55x2", "tap_extractor", "too large"),
        ("M56", "tap_extractor", "too large"),
        ("2 1/4-4.5 UNC-2B", "tap_extractor", "too large"),
        # both ends belong to the range
        ("M3", "carbide_cutter", None),
        ("#4-40 UNC-2B", "carbide_cutter", "too small"),  # 2.845 mm
        ("M5", "press_through", None),
        ("#10-32 UNF-2B", "press_through", None),
        ("M6", "press_through", "too large"),
        ("1/4-20 UNC-2B", "press_through", "too large"),
        ("M1", "spark_erosion", None),
        ("#0-80 UNF-2B", "spark_erosion", None),
    ],
)
def test_a_method_has_its_sizes(thread, method, why):
    listed, ruled_out = ways(thread)
    assert (method in listed) is (why is None)
    assert why is None or why in ruled_out[method]


def test_annealing_takes_a_soft_part_and_a_tap_of_some_size():
    """Steel of 116 HB bears it, 300 HB and more is ruined; of aluminium it is no question."""
    for hardness, listed in (("299 HB", True), ("300 HB", False), ("320 HB", False)):
        part = MaterialInput(name="4140", hardness=hardness)
        assert ("anneal_and_drill" in ways("M10", CARBON, part)[0]) is listed, hardness
    for thread, part, listed in (("M6", STEEL, True), ("M5", STEEL, False), ("M6", HARD, False),
                                 ("M6", ALUMINIUM, False), ("M6", None, False)):  # fmt: skip
        assert ("anneal_and_drill" in ways(thread, CARBON, part)[0]) is listed, (thread, part)


@every(
    ("tap", "out", "stay"),
    [
        (CARBON, {"tap_extractor", "spark_erosion", "carbide_cutter", "alum", "nitric_acid"}, set()),
        (HIGH_SPEED, {"tap_extractor", "spark_erosion", "carbide_cutter", "nitric_acid"}, {"alum"}),
        (BrokenTap(), {"tap_extractor", "spark_erosion", "carbide_cutter", "nitric_acid"}, {"alum"}),
        (CARBIDE, {"spark_erosion"}, {"tap_extractor", "carbide_cutter", "alum", "nitric_acid"}),
    ],
)
def test_the_material_of_the_tap_decides(tap, out, stay):
    """Carbide is neither milled nor dissolved; alum takes carbon steel only; unknown is taken for high-speed steel."""
    listed, ruled_out = ways("M10", tap)
    assert out <= set(listed)
    assert stay <= set(ruled_out)


@every(
    ("part", "nitric", "alum"),
    [
        ("5052-H32", True, True),
        ("6061-T6", True, True),
        ("3003-H14", True, True),
        ("2024-T3", False, True),
        ("7075-T6", False, True),
        ("A380", False, True),
        ("C26000", False, True),
        ("304", False, False),
        ("1018 hot rolled", False, False),
        ("grey iron", False, False),
    ],
)
def test_acid_is_for_metals_that_bear_it(part, nitric, alum):
    listed, _ = ways("M10", CARBON, MaterialInput(name=part))
    assert ("nitric_acid" in listed, "alum" in listed) == (nitric, alum)
    assert all(
        "broken_tap_method" in {one.code for one in listed[name].cautions}
        for name in listed.keys() & CHEMISTRY_AND_HEAT
    )


def test_what_the_hole_and_the_tap_allow():
    assert "blind" in ways("M4", blind=True)[1]["press_through"]
    assert "press_through" in ways("M4")[0]
    for proud, can in ((True, True), (None, True), (False, False)):
        assert ("back_out" in ways("M4", BrokenTap("high_speed_steel", proud))[0]) is can
    assert "no flutes" in ways("M10", method="form")[1]["tap_extractor"]
    for part, conducts in (("plastic", False), ("carbon composite", False), ("grey iron", True)):
        assert ("spark_erosion" in ways("M10", part=MaterialInput(name=part))[0]) is conducts, part
    assert "spark_erosion" in ways("M10", part=None)[0]


def test_chemistry_and_heat_need_leave_and_are_never_for_critical_parts():
    listed, _ = ways("M10", CARBON)
    assert {name: one.needs_authority for name, one in listed.items() if one.disposition == "rework"} == {
        "back_out": False, "tap_extractor": False, "spark_erosion": False, "carbide_cutter": False,
        "alum": True, "nitric_acid": True,
    }  # fmt: skip
    listed, ruled_out = ways("M10", CARBON, criticality="flight")
    assert not CHEMISTRY_AND_HEAT & set(listed)
    assert not set(listed) & set(ruled_out)
    assert "chemical on flight hardware" in ruled_out["alum"]


def test_every_way_of_a_broken_tap_ends_at_the_gauge():
    """The hole is judged anew by what is measured, never by the method."""
    listed, _ = ways("M10", CARBON)
    for one in listed.values():
        if one.disposition == "rework":
            assert [line.line.operation for line in one.operations].index("clean") == 1
            assert "gauges pass" in one.text
            assert "judge_anew" in {caution.code for caution in one.cautions}
