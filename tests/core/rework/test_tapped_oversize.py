"""A thread tapped too large, with every way, its words, its routing and its figures: arithmetic beside each.

3/8-16 UNC: 2B pitch diameter to 0.3401, 1B to 0.3429, 3B to 0.3387 in (ASME B1.1). A coat of 0.0002 to 0.0004 closes
the pitch diameter by 0.0008 at least: 0.3409 and 0.3437 before it. A tap leaves 0.375 + 0.130/16 = 0.3831, and as much
more as it cut over its limit.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Range
from borewright.core.requests import MatingScrew
from every import every
from reworked import answer, coat, plain

COAT, STRIP, LOOSER, AS_IT_IS = "thicker_coat", "strip_and_coat_thicker", "looser_class", "use_oversize"
INSERT, LARGER, PLUG, CLEAN = (
    "insert_in_the_same_place",
    "next_larger_thread",
    "plug_and_remake",
    "clean_and_gauge_again",
)
GRADE_5 = MatingScrew(grade="SAE J429 grade 5")
FINISHED = ["inspect", "wash", "finish", "inspect"]
NO_METAL = (
    "a tap cuts metal away and puts none back: a thread that NOT GO enters is never cured by a tap, whatever its limit"
)
D = Decimal


def tapped(thread, pitch=None, **given):
    measured = given.pop("measured", {}) | ({} if pitch is None else {"pitch_diameter": pitch})
    asked = {} if thread.startswith("M") else {"mating_screw": GRADE_5}
    return answer(thread, "tapped_oversize", measured=measured, asked=asked, **given)


def test_every_way_before_the_coat():
    """0.3415 needs (0.3415 - 0.3401)/4 = 0.00035 of coat. The groove is 0.3831 + 0.0006 = 0.3837 wide, which the
    insert's hole from 0.3885 cuts away, of 7/16-14 (0.4375 - 0.3837)/(1.299038/14) = 58.0 percent stand."""
    found = tapped("3/8-16 UNC-2B", 0.3415, stage="before_finish", finish=coat(0.0002, 0.0004))
    assert found.names == [COAT, LOOSER, AS_IT_IS, INSERT, *[LARGER] * 4, PLUG]
    assert found.ruled_out == {
        "tap_again": NO_METAL,
        LARGER: "7/16-14 UNC-2B does not clean up: the old thread reaches 0.3837 in, at least 58 % of its thread would"
        " stand",
    }
    shown = {"pitch_diameter": D("0.3415"), "pitch_diameter_max": D("0.3409"), "over_by": D("0.00060")}
    assert dict(found[COAT].proof) == {**shown, "coat_needed": D("0.00035"), "minor_closes_by": D("0.00070")}
    assert (found.work(COAT), found.codes(COAT)) == (FINISHED, ["coat_every_hole"])
    assert found[LOOSER].text == "Accept the hole as 3/8-16 UNC-1B: the design authority changes the class"
    assert found[LOOSER].proof["pitch_diameter_max_looser"] == D("0.3437")
    assert (found.work(LOOSER), found.codes(LOOSER), found[LOOSER].regrade) == (FINISHED, ["looser_fit"], True)
    assert found[AS_IT_IS].text == (
        "Use the thread as it is, as the strength allows, where nothing seals or locates on it"
    )
    assert (found.work(AS_IT_IS), found.codes(AS_IT_IS), found[AS_IT_IS].regrade) == (FINISHED, ["looser_fit"], False)
    assert "pitch_diameter_max_looser" not in found[AS_IT_IS].proof
    clean = [
        (one.thread, one.proof["new_minor_diameter"], one.proof["cleans_up"], one.proof["radial_clean_up"])
        for one in found.found.ways[3:-1]
    ]
    assert clean == [
        ("3/8-16 UNC-2B STI", Range(D("0.3885"), None), "full_any_hole", D("0.00240")),
        ("7/16-20 UNF-2B", Range(D("0.383"), D("0.395")), "full_upper_hole", D("0.00565")),
        ("1/2-13 UNC-2B", Range(D("0.417"), D("0.434")), "full_any_hole", D("0.01665")),
        ("M12x1.75-6H", Range(D("0.3979"), D("0.4111")), "full_any_hole", D("0.00710")),  # 10.106 to 10.441 mm
        ("M12x1.5-6H", Range(D("0.4085"), D("0.4203")), "full_any_hole", D("0.01240")),  # 10.376 to 10.676 mm
    ]
    for one in found.found.ways[3:-1]:
        assert {**shown, "envelope": D("0.3837")}.items() <= one.proof.items()
        assert "coat_needed" not in one.proof
    drill = next(line.line for line in found.found.ways[4].operations if line.line.operation == "drill")
    assert drill.tool["label"] == "W"  # 0.3860 is the first of the inch drills from 0.3837 on
    assert found.work(INSERT) == [
        "drill", "countersink", "tap", "inspect", "wash", "finish", "inspect", "install_insert", "break_off_tang",
        "inspect",
    ]  # fmt: skip


def test_every_way_after_the_coat():
    """0.3405 with 0.0003 on it was 0.3417 bare: 0.0004 of coat make 0.3401."""
    given = {"stage": "after_finish", "finish": "ASTM B633 Fe/Zn 8", "material": "4140"}
    found = tapped("3/8-16 UNC-2B", 0.3405, measured={"coat": 0.0003}, **given)
    assert found.names == [STRIP, LOOSER, AS_IT_IS, INSERT, *[LARGER] * 4, PLUG]
    assert dict(found[STRIP].proof) == {
        "pitch_diameter": D("0.3405"),
        "pitch_diameter_max": D("0.3401"),
        "over_by": D("0.00040"),
        "coat_needed": D("0.00040"),
        "minor_closes_by": D("0.00080"),
    }
    assert (found.work(STRIP), found.codes(STRIP)) == (
        ["strip", *FINISHED], ["coat_every_hole", "strip_by_the_standard"]
    )  # fmt: skip
    assert found[STRIP].operations[0].line.text == "Strip the coat as its standard allows"
    assert found[STRIP].operations[0].line.tool == {"kind": "strip of the finish"}
    for one in found.found.ways[3:-1]:
        assert "bare_after_rework" in {caution.code for caution in one.cautions}
        assert "finish" not in [line.line.operation for line in one.operations]


def test_a_coat_that_the_thread_does_not_need_is_none_at_least():
    """0.3399 lies inside the limits: (0.3399 - 0.3401)/4 is below zero, and no coat of less than nothing is told."""
    found = tapped("3/8-16 UNC-2B", 0.3399, stage="before_finish", finish=coat(0.0002, 0.0004))
    assert found.names[:2] == [CLEAN, COAT]
    assert plain(found[COAT].text).startswith("Coat at the thick end of the class, 0 in on a surface at least")
    assert found[COAT].proof["coat_needed"] == D("-0.00005")


@every(
    ("thread", "pitch", "said"),
    [
        # 3B is accepted as 2B to 0.3401, as 1B to 0.3429
        ("3/8-16 UNC-3B", 0.3401, "3/8-16 UNC-2B:"),
        ("3/8-16 UNC-3B", 0.3402, "3/8-16 UNC-1B:"),
        ("3/8-16 UNC-3B", 0.3429, "3/8-16 UNC-1B:"),
        ("3/8-16 UNC-3B", 0.3430, None),
        ("3/8-16 UNC-2B", 0.3402, "3/8-16 UNC-1B:"),
    ],
)
def test_the_first_looser_inch_class_that_holds_it(thread, pitch, said):
    found = tapped(thread, pitch)
    if said is None:
        assert found.ruled_out[LOOSER] == "the pitch diameter is over the limit of 2B and 1B as well"
        return
    assert found[LOOSER].text == f"Accept the hole as {said} the design authority changes the class"


def test_classes_that_there_are_none_of():
    assert tapped("3/8-16 UNC-1B", 0.3435).ruled_out[LOOSER] == "no looser class of 3/8-16 UNC-1B is held"
    pipe = tapped("1/4-18 NPT")
    assert pipe.names == ["refer_to_engineering"]
    assert pipe.ruled_out[LOOSER] == "no looser class of 1/4-18 NPT is held"


def test_a_strength_that_is_open_is_said_of_both():
    found = tapped("3/8-16 UNC-2B", 0.3415, material=None)
    assert found.codes(LOOSER) == found.codes(AS_IT_IS) == ["rework_strength_open", "looser_fit"]


def test_what_is_not_measured_is_asked_for():
    found = tapped("3/8-16 UNC-2B", stage="before_finish", finish=coat(0.0002, 0.0004))
    assert {name: found.ruled_out[name] for name in (COAT, LOOSER, AS_IT_IS)} == {
        COAT: "measure the pitch diameter: how much coat it takes is not known",
        LOOSER: "measure the pitch diameter: whether a looser class holds it is not known",
        AS_IT_IS: "measure the pitch diameter: without it no strength can be proven",
    }
    bare = tapped("3/8-16 UNC-2B", 0.3405, stage="after_finish", finish=coat(0.0002, 0.0004))
    assert bare.ruled_out[STRIP] == "measure the coat: how much more it takes is not known"
    assert COAT not in bare.ruled_out


@every(
    ("thread", "finish", "stage"),
    [
        ("3/8-16 UNC-2B", None, None),
        # hot-dip zinc is tapped after it; hard anodize leaves no room in M6
        ("5/8-11 UNC-2B", "hot-dip galvanized ASTM F2329", "after_finish"),
        ("M6", "MIL-A-8625 Type III", "before_finish"),
    ],
)  # fmt: skip
def test_a_finish_that_closes_no_thread(thread, finish, stage):
    pitch = {"3/8-16 UNC-2B": 0.3415, "5/8-11 UNC-2B": None, "M6": 5.52}[thread]
    material = "A36" if thread.startswith("5/8") else "6061-T6"
    found = tapped(thread, pitch, stage=stage, finish=finish, material=material)
    assert found.ruled_out[COAT].startswith("no finish of the drawing closes the thread")
    assert not {COAT, STRIP} & set(found.names)


@every(
    ("material", "finish", "codes"),
    [
        # an anodic coat has grown into the metal; hard steel is baked after zinc, and each cycle charges it anew
        ("6061-T6", "MIL-A-8625 Type II", ["coat_every_hole", "strip_by_the_standard", "stripping_opens_thread"]),
        ("4140 at 28 HRC", "ASTM B633 Fe/Zn 8", ["coat_every_hole", "strip_by_the_standard"]),
        ("4140 at 42 HRC", "ASTM B633 Fe/Zn 8", ["coat_every_hole", "strip_by_the_standard", "hydrogen_each_cycle"]),
    ],
)
def test_what_is_said_of_stripping(material, finish, codes):
    found = tapped("3/8-16 UNC-2B", 0.3402, stage="after_finish", finish=finish, material=material,
                   measured={"coat": 0.00002})  # fmt: skip
    assert found.codes(STRIP) == codes
