"""The lines that a finish brings into a routing, whole: order, tool, parameters and words.

Limits of ASME B1.1 and ISO 965-1; a coat moves a pitch diameter by four times its thickness, zinc closes a hole by
twice its own. Washing, masking and gauging twice are common practice.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.contract.requests import HOLE_SPEC
from borewright.core.model import Range
from borewright.core.plan.specify import specify
from every import every

D = Decimal
INCH = {"type": "blind", "full_thread_depth": "0.75 in"}
THROUGH = {"type": "through", "thickness": "0.75 in"}
PLATE = {"type": "through", "thickness": "20 mm"}
MM = {"type": "blind", "full_thread_depth": "16 mm"}
COAT = {"thickness": {"min": "0.0003 in", "max": "0.0004 in"}, "growth_fraction": 1}
WASH = ("wash", {"kind": "wash"}, {}, "Wash chips and fluid out of the hole")
GAUGES = {"kind": "thread plug gauge and plain plug gauge"}
ONCE = "Inspect thread, once: the finish does not move it"
FIRST = "Inspect thread before finish, with before-finish gauges"


def spec(thread, hole, **more):
    return specify(HOLE_SPEC.asked({"thread": thread, "hole": hole, **more}).request)


def after_the_tap(found):
    """Operation, tool, parameters and words of what follows the tap or the first line of the finish."""
    lines = [one.line for one in found.operations]
    names = [line.operation for line in lines]
    first = min(names.index(name) for name in ("tap", "finish") if name in names)
    kept = [line for line in lines[first:] if line.operation != "tap"]
    return [
        (line.operation, dict(line.tool), dict(line.parameters), line.text.replace("\N{NO-BREAK SPACE}", " "))
        for line in kept
    ]


def inspected(words, low, high, unit, thread, tool=GAUGES):
    """An inspection with the window that it judges."""
    window = {"pitch_diameter": Range(D(low), D(high))}
    return ("inspect", tool, window, f"{words}: {thread}, pitch diameter {low} to {high} {unit}")


def finished(low, high, thread):
    """The inspection of a thread that a coat has moved."""
    words = f"Inspect finished thread {thread} with GO and NOT GO thread plugs"
    return (
        "inspect",
        {"kind": "thread plug gauge", "condition": "finished"},
        {"pitch_diameter": Range(D(low), D(high))},
        words,
    )


def coated(words, kind, specification=None, finish_class=None, low=None, high=None):
    """The line of the finish itself, its thickness from low to high."""
    thickness = Range(None if low is None else D(low), None if high is None else D(high))
    told = {"specification": specification, "class": finish_class, "thickness": thickness}
    return ("finish", {"kind": kind}, told, words)


@every(
    ("thread", "hole", "more", "expected"),
    [
        ("3/8-16 UNC-2B", THROUGH, {}, [inspected("Inspect thread", "0.3344", "0.3401", "in", "3/8-16 UNC-2B")]),
        # 0.2175 + 4 x 0.0004 to 0.2211 + 4 x 0.0003
        ("1/4-20 UNC-3B", INCH, {"finish": COAT}, [
            inspected(FIRST, "0.2191", "0.2223", "in", "1/4-20 UNC-3B"),
            WASH,
            coated("Finish: as given", "finish", low="0.0003", high="0.0004"),
            finished("0.2175", "0.2211", "1/4-20 UNC-3B"),
        ]),
        # steel that grows by 0.005 to 0.010: 7.188 - 0.005 to 7.348 - 0.010
        ("M8", MM, {"finish": {"heat_treat_growth": {"min": "5 um", "max": "10 um"}}}, [
            inspected(FIRST, "7.183", "7.338", "mm", "M8x1.25-6H"),
            WASH,
            coated("Finish: heat treatment", "heat treatment"),
            finished("7.188", "7.348", "M8x1.25-6H"),
        ]),
        # black oxide has no thickness: one inspection, before it
        ("3/8-16 UNC-2B", THROUGH, {"finish": "black oxide"}, [
            inspected(ONCE, "0.3344", "0.3401", "in", "3/8-16 UNC-2B"),
            WASH,
            coated("Finish: MIL-DTL-13924D / MIL-C-13924C", "black oxide", "MIL-DTL-13924D / MIL-C-13924C"),
        ]),
        # a least thickness of 0.0002 in (ASTM B633 Fe/Zn 5), kept off the thread
        ("3/8-16 UNC-2B", THROUGH, {
            "finish": {"specification": "ASTM B633", "class": "Fe/Zn 5", "masked": True},
        }, [
            inspected("Inspect thread", "0.3344", "0.3401", "in", "3/8-16 UNC-2B"),
            WASH,
            ("mask", {"kind": "plug or stop-off"}, {}, "Mask or plug thread 3/8-16 UNC-2B"),
            coated("Finish: ASTM B633 Fe/Zn 5 SC1", "electrodeposited zinc", "ASTM B633", "Fe/Zn 5 SC1", "0.0002"),
            ("strip", {"kind": "mask"}, {}, "Remove mask and leakage from thread 3/8-16 UNC-2B"),
            ("inspect", {"kind": "thread plug gauge"}, {}, "Check unmasked thread 3/8-16 UNC-2B"),
        ]),
        # 0.320 of coat on a tolerance of 0.100: no tap can make it, so it is kept off (upper end 1.5 times the lower)
        ("M3", {"type": "blind", "full_thread_depth": "5 mm"}, {
            "finish": {"thickness": "80 um", "growth_fraction": 1},
        }, [
            inspected("Inspect thread", "2.675", "2.775", "mm", "M3x0.5-6H"),
            WASH,
            ("mask", {"kind": "plug or stop-off"}, {}, "Mask or plug thread M3x0.5-6H"),
            coated("Finish: as given", "finish", low="0.080", high="0.120"),
            ("strip", {"kind": "mask"}, {}, "Remove mask and leakage from thread M3x0.5-6H"),
            ("inspect", {"kind": "thread plug gauge"}, {}, "Check unmasked thread M3x0.5-6H"),
        ]),
        # zinc first: 0.6850 and 0.6927 with the 0.020 of ASTM A563; 2 x 0.002 (ASTM F2329, no upper end)
        ("3/4-10", THROUGH, {"finish": "hot-dip galvanized"}, [
            coated("Finish before tapping: ASTM F2329 over 3/8 in", "hot-dip zinc (spun)", "ASTM F2329", "over 3/8 in",
                   "0.002"),
            ("redrill", {"kind": "drill or reamer", "label": "43/64", "diameter": D("0.6719")}, {"depth": D("0.750")},
             "Re-drill or ream the hole, which the zinc has closed by 0.004 in or more: 43/64 drill (0.6719 in)"),
            inspected("Inspect thread (tapped after the finish) with oversize plugs", "0.7050", "0.7127", "in",
                      "3/4-10 UNC-2B"),
        ]),
        # 2 x 0.002 to 2 x 0.003
        ("3/4-10", THROUGH, {"finish": "hot-dip galvanized 0.0020 to 0.0030 in"}, [
            coated("Finish before tapping: ASTM F2329 over 3/8 in", "hot-dip zinc (spun)", "ASTM F2329", "over 3/8 in",
                   "0.0020", "0.0030"),
            ("redrill", {"kind": "drill or reamer", "label": "43/64", "diameter": D("0.6719")}, {"depth": D("0.750")},
             "Re-drill or ream the hole, which the zinc has closed by 0.004 in to 0.006 in: 43/64 drill (0.6719 in)"),
            inspected("Inspect thread (tapped after the finish) with oversize plugs", "0.7050", "0.7127", "in",
                      "3/4-10 UNC-2B"),
        ]),
        # 18.376 and 18.600 with the 0.350 of ISO 10684; no drill leaves 81 to 82 % of 1.299038 x 2.5 below 20.35, so
        # that the hole is reamed to the largest that does, 20.35 - 0.81 x 3.247595 = 17.719
        ("M20", PLATE, {"finish": "ISO 10684", "percent_thread": {"min": 81, "max": 82}}, [
            coated("Finish before tapping: ISO 10684", "hot-dip spun zinc", "ISO 10684", low="0.040"),
            ("redrill", {"kind": "drill or reamer", "label": "17.25 mm", "diameter": D("17.719")}, {"depth": D(20)},
             "Re-drill or ream the hole, which the zinc has closed by 0.08 mm or more: reamer 17.719 mm"),
            inspected("Inspect thread (tapped after the finish) with oversize plugs", "18.726", "18.950", "mm",
                      "M20x2.5-6H"),
        ]),
        # 4 x 0.0003 / 0.0625 = 0.0192 in deeper, 0.346 of a turn of 1/18
        ("1/4-18 NPT", THROUGH, {"finish": {"thickness": {"min": "0.0003 in", "max": "0.0003 in"}}}, [
            ("inspect", {"kind": "taper thread plug gauge"}, {},
             f"{FIRST}: 1/4-18 NPT, L1 taper thread plug, 0.35 turns (0.019 in) deeper than for the finished thread,"
             " within 1 turns either way"),
            WASH,
            coated("Finish: as given", "finish", low="0.0003", high="0.0003"),
            ("inspect", {"kind": "taper thread plug gauge"}, {},
             "Inspect finished thread: 1/4-18 NPT, L1 taper thread plug, notch flush with the face within 1 turn either"
             " way"),
        ]),
    ],
)  # fmt: skip
def test_the_lines_of_a_finish(thread, hole, more, expected):
    assert after_the_tap(spec(thread, hole, **more)) == expected


@every(
    ("material", "expected"),
    [
        ("4140 45 HRC", ["tap", "inspect", "wash", "stress_relief", "finish", "bake", "inspect"]),
        # hardened after tapping: nothing was cut in the hard part
        ("4140 62 HRC", ["tap", "harden", "inspect", "wash", "finish", "bake", "inspect"]),
        ("4140 20 HRC", ["tap", "inspect", "wash", "finish", "inspect"]),
    ],
)
def test_hard_steel_is_relieved_before_and_baked_after_plating(material, expected):
    """ASTM B849 and F1941: cut hard it is stress-relieved first, and baked within 4 h."""
    found = spec("3/8-16 UNC-2B", INCH, material=material, finish="ASTM F1941 grade 5")
    assert [name for name, *_ in [("tap",), *after_the_tap(found)]] == expected
    lines = {one.line.operation: one.line for one in found.operations}
    if "bake" in lines:
        baked = lines["bake"]
        assert (baked.tool, baked.parameters, baked.text) == (
            {"kind": "oven"},
            {"start_within_h": 4},
            found.allowance.bake,
        )
        assert "within 4 h" in baked.text
    if "stress_relief" in lines:
        relieved = lines["stress_relief"]
        expected = ({"kind": "oven"}, {}, found.allowance.stress_relief)
        assert (relieved.tool, relieved.parameters, relieved.text) == expected
    if "harden" in lines:
        hardened = lines["harden"]
        expected = ({"kind": "furnace"}, {}, "Harden to 62 HRC, then check the thread")
        assert (hardened.tool, hardened.parameters, hardened.text) == expected


@every(
    ("more", "feasible"),
    [
        ({}, True),
        ({"finish": "black oxide"}, True),
        ({"finish": {"thickness": "8 um"}}, True),
        ({"finish": {"thickness": "80 um", "growth_fraction": 1}}, False),
    ],
)
def test_only_a_finish_that_leaves_no_room_is_for_a_person(more, feasible):
    found = spec("M3", {"type": "blind", "full_thread_depth": "5 mm"}, **more)
    asked = [(one.pointer, one.blocks) for one in found.review if one.code == "finish_not_feasible"]
    assert asked == ([] if feasible else [("/finish", True)])
    planned = "the finish leaves no room in this thread, so the thread is planned masked (or tapped afterwards)"
    assert (planned in found.notes.assumptions) is not feasible
    assert (found.verdict == "infeasible") is not feasible
