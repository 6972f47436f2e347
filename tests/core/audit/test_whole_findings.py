"""Every finding on a plan, whole: code, severity, field, text, planned and expected, worked out by hand.

1/2-13 UNC-2B (ASME B1.1): minor diameter 0.417 to 0.434 in, pitch diameter 0.4500 to 0.4565 in.
Mean oversize of drills: FED-STD-H28/2B Table II.A.1 (0.0047 in about 7/16). A tap cuts 0.15 of 0.0065 in oversize.
H limits (ASME B94.9): number n ends n x 0.0005 in over basic, and begins 0.0005 in below that.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, Finding, PlannedTap, audit
from borewright.core.audit.findings import to_digits_of
from borewright.core.model import FinishInput, Hole, Length, MaterialInput, PercentTarget
from borewright.core.quantity_text import NO_BREAK
from borewright.core.requests import DrillOversize, HoleSpecRequest, Machine
from every import every

UNC, H5 = "1/2-13 UNC-2B", "1/2-13 NC HSS G H5"
THROUGH = Hole("through", thickness=Length(Decimal("0.5"), "in"))
MINOR, PITCH = "0.417 to 0.434 in, e.g. 27/64", "0.4500 to 0.4565 in, e.g. H5"


def findings(thread=UNC, drill="27/64", tap=H5, hole=THROUGH, material=None, second=None, asked=(), **planned):
    """The findings without what only repeats the specification's own decisions and cautions."""
    named = {} if material is None else {"material": MaterialInput(name=material)}
    request = HoleSpecRequest(callout.read(thread), hole, **named, **dict(asked))
    taps = {"tap": tap if isinstance(tap, PlannedTap) else PlannedTap(tap)}
    plan = AsPlanned(drill, **taps, second_tap=None if second is None else PlannedTap(second), **planned)
    said = audit(AuditRequest(request, plan)).findings
    own = [one for one in said if one.code != "cautioned" and one.expected != "as a person decides"]
    return [tuple(getattr(one, name).replace(NO_BREAK, " ") for name in Finding.__slots__) for one in own]


def inch(depth):
    return Length(Decimal(depth), "in")


def mm(depth):
    return Length(Decimal(depth), "mm")


DRILLS = [
    # 0.4375 - 0.434; 7/16 forms (0.5 - 0.4375) 13 / 0.0068 = 119 % and is no forming drill
    ("7/16", "drill_too_large", "error", "The drill alone is 0.0035 in above the largest minor diameter to be made.",
     "7/16 (0.4375 in)"),
    # 0.46875 - 0.434 = 0.03475; it forms 59.7 %
    ("15/32", "drill_for_forming_tap", "error",
     "The drill alone is 0.0348 in above the largest minor diameter to be made.", "15/32 (0.4688 in)"),
    # 11 / 25.4 = 0.43307: 0.433 in the digits of the limit, inside; 0.43777 - 0.434
    ("11 mm", "drill_too_large", "warning",
     "0.4331 in + mean oversize 0.0047 in = 0.4378 in: on average 0.0038 in above the largest minor diameter.",
     "11 mm (0.4331 in)"),
    ("3/8", "drill_too_small", "error",
     "0.375 in + mean oversize 0.0046 in = 0.3796 in: 0.0374 in below the smallest minor diameter to be made.",
     "3/8 (0.375 in)"),
    ("Z", "drill_too_small", "warning",
     "0.413 in + mean oversize 0.0047 in = 0.4177 in: it reaches the smallest minor diameter only by the oversize of"
     " drilling.", "Z (0.413 in)"),
]  # fmt: skip


@every(("drill", "code", "severity", "text", "planned"), DRILLS)
def test_drills_of_a_cut_thread(drill, code, severity, text, planned):
    assert findings(drill=drill) == [(code, severity, "drill", text, planned, MINOR)]


@every("drill", ["27/64", "0.4165 in", "0.4292 in"])
def test_drills_that_hold_the_limits(drill):
    """0.4165 is 0.416 or 0.417 in the digits of the limit: half to the even 0.416, so that 0.4166 is the least."""
    drills = {"0.4165 in": "0.4166 in"}
    assert findings(drill=drills.get(drill, drill)) == []


FORMED = [
    # (0.5 - 0.421875) 13 / 0.0068 = 149.36 %: the drill of a cutting tap, as it is above 0.417 - 0.05 x 0.0769 = 0.4132
    ("27/64", "drill_for_cutting_tap", "(0.5 - 0.421875) / (0.0068 x 0.076923) = 149.36 % of thread formed; 50 to 80 %"
     " can be formed.", "27/64 (0.4219 in)"),
    # (0.5 - 0.40625) 13 / 0.0068 = 179.23 %: below it
    ("13/32", "drill_too_small", "(0.5 - 0.40625) / (0.0068 x 0.076923) = 179.23 % of thread formed; 50 to 80 % can be"
     " formed.", "13/32 (0.4062 in)"),
    # (0.5 - 0.414) 13 / 0.0068 = 164.41 %: 0.414 is above 0.4132, 0.413 not
    ("0.414 in", "drill_for_cutting_tap", "(0.5 - 0.414) / (0.0068 x 0.076923) = 164.41 % of thread formed; 50 to 80 %"
     " can be formed.", "0.414 in (0.414 in)"),
    ("Z", "drill_too_small", "(0.5 - 0.413) / (0.0068 x 0.076923) = 166.32 % of thread formed; 50 to 80 % can be"
     " formed.", "Z (0.413 in)"),
    # (0.5 - 0.484375) 13 / 0.0068 = 29.87 %
    ("31/64", "drill_too_large", "(0.5 - 0.484375) / (0.0068 x 0.076923) = 29.87 % of thread formed; 50 to 80 % can be"
     " formed.", "31/64 (0.4844 in)"),
]  # fmt: skip


@every(("drill", "code", "text", "planned"), FORMED)
def test_drills_of_a_formed_thread(drill, code, text, planned):
    """65 percent asks for 0.5 - 0.0068 x 65 / 13 = 0.466 in; 11.7 mm drill 0.4606 + 0.0047 = 0.4653 in."""
    said = findings(drill=drill, tap=PlannedTap("1/2-13 NC HSS G H5", style="forming"), asked={"method": "form"})
    assert said == [(code, "error", "drill", text, planned, "0.466 in, e.g. 11.7 mm")]


@every(
    ("drill", "code"),
    [("7.31 mm", "drill_too_large"), ("7.32 mm", "drill_for_forming_tap"), ("7.575 mm", "drill_for_forming_tap"),
     ("7.58 mm", "drill_too_large")],
)  # fmt: skip
def test_which_drills_are_those_of_a_forming_tap(drill, code):
    """M8: 80 % are formed by 8 - 0.0068 x 80 x 1.25 = 7.32 mm, 50 % by 7.575 mm; 6.912 mm is the largest minor."""
    ((found, severity, *_),) = findings("M8", drill=drill, tap="M8x1.25 HSS G D5")
    assert (found, severity) == (code, "error")


@every(
    ("drill", "told"),
    [("0.4581 in", ["drill_for_cutting_tap"]), ("0.458154 in", []), ("0.473846 in", []),
     ("0.4739 in", ["drill_too_large"])],
)  # fmt: skip
def test_which_drills_can_be_formed(drill, told):
    """1/2-13: 80 % by 0.5 - 0.0068 x 80 / 13 = 0.458154 in, 50 % by 0.473846 in."""
    said = findings(drill=drill, tap=PlannedTap(H5, style="forming"), asked={"method": "form"})
    assert [one[0] for one in said if one[2] == "drill"] == told


@every(("drill", "severity"), [("0.434 in", "warning"), ("0.4345 in", "warning"), ("0.4346 in", "error")])
def test_a_drill_is_measured_in_the_digits_of_the_limit(drill, severity):
    """0.4345 in is 0.434 in three digits, half to the even one; 0.4346 in is 0.435."""
    ((code, told, *_),) = findings(drill=drill)
    assert (code, told) == ("drill_too_large", severity)


def test_the_oversize_that_the_request_states():
    """Minor diameter 0.417 to 0.434 in: the mean hole is judged, at both limits and beside them."""

    def told(drill, mean):
        asked = {"machine": Machine(drill_oversize=DrillOversize(inch(mean)))}
        return [(one[0], one[1], one[3]) for one in findings(drill=drill, asked=asked) if one[2] == "drill"]

    assert told("0.4290 in", "0.005") == []
    assert told("0.4291 in", "0.005") == [
        ("drill_too_large", "warning",
         "0.4291 in + mean oversize 0.005 in = 0.4341 in: on average 0.0001 in above the largest minor diameter.")
    ]  # fmt: skip
    only = "0.41 in + mean oversize 0.007 in = 0.417 in: it reaches the smallest minor diameter only by the oversize of"
    assert told("0.4100 in", "0.007") == [("drill_too_small", "warning", f"{only} drilling.")]
    assert told("0.4099 in", "0.007") == [
        ("drill_too_small", "error",
         "0.4099 in + mean oversize 0.007 in = 0.4169 in: 0.0001 in below the smallest minor diameter to be made.")
    ]  # fmt: skip


def test_no_oversize_is_guessed_where_none_is_printed():
    """2 1/4-6 UN: minor diameter 2.070 to 2.100 in; the tables print no mean oversize of drills that large."""
    hole = Hole("through", thickness=inch(2))
    said = findings("2 1/4-6 UN-2B", drill="2-1/16", tap=PlannedTap(style="straight_flute"), hole=hole)
    (text,) = [one[3] for one in said if one[0] == "ream_missing"]
    assert "= 2.0625 in: below 2.070 to 2.100 in" in text


def test_a_hole_that_is_to_be_reamed():
    """3/4-6 Acme: minor diameter 0.75 - 1/6 = 0.5833 in, 0.05/6 = 0.0083 in more at most; 37/64 is 0.5781 in."""
    text = (
        "0.5781 in + mean oversize 0.0049 in = 0.583 in: below 0.5833 to 0.5917 in, so that it is reamed (or bored)"
        " after drilling."
    )
    hole = Hole("through", thickness=inch(1))
    plan = {"thread": "3/4-6 ACME-2G", "drill": "37/64", "tap": "3/4-6 ACME-2G HSS G", "hole": hole}
    expected = [("ream_missing", "warning", "operations_order", text, "37/64 (0.5781 in)", "drill, then ream")]
    for order in (None, ("drill", "tap")):
        assert findings(**plan, operations_order=order) == expected
    for order in (("drill", "ream", "tap"), ("drill", "bore", "tap")):
        assert findings(**plan, operations_order=order) == []


#: 1/4-18 NPT: chart 7/16 (0.4375 in); the printed heights 0.04444 and 0.03833 in are 0.0414 in the middle, on
#: diameter 0.0828 in.
TAPER = [
    ("7/16", []),
    # 0.4531 - 0.4375 = 0.0156 in: over a tenth
    ("29/64", ["drill_too_large", "error", "0.0156 in above", "0.0156 in / 0.0828 in = 18.9 %"]),
    # 0.0021 in is over a fortieth, 0.00207 in; 0.002 in is not
    ("0.4396 in", ["drill_too_large", "warning", "0.0021 in above", "0.0021 in / 0.0828 in = 2.5 %"]),
    ("0.4395 in", ["drill_too_large", "info", "0.002 in above", "0.002 in / 0.0828 in = 2.4 %"]),
]


#: 0.15 of the tolerance 0.0065 in is 0.000975, 0.001 in to four digits.
CUTS = [
    ("H12", "tap_limit_too_high", "warning", "0.456 in + expected cut oversize 0.001 in = 0.457 in: 0.0005 in above"),
    ("H13", "tap_limit_too_high", "warning", "0.4565 in + expected cut oversize 0.001 in = 0.4575 in: 0.001 in above"),
    # it begins where the tolerance ends
    ("H14", "tap_overtapped", "error", "0.457 in + expected cut oversize 0.001 in = 0.458 in: 0.0015 in above"),
]


@every(("limit", "code", "severity", "arithmetic"), CUTS)
def test_taps_above_the_limit(limit, code, severity, arithmetic):
    said = findings(tap=f"1/2-13 NC HSS G {limit}")
    assert said == [(code, severity, "tap", f"Tap limit {arithmetic} the limit.", limit, PITCH)]


BELOW = [
    # begins 0.0005 in under the basic diameter, less than a tenth of 0.0065 in, and the cut makes it up
    ("L1", "warning", "The tap's limit is 0.4495 in: 0.0005 in below the limit."),
    # 0.001 in is more than a tenth of the tolerance
    ("L2", "error", "The tap's limit is 0.449 in: 0.001 in below the limit."),
]


@every(("limit", "severity", "text"), BELOW)
def test_taps_below_the_limit(limit, severity, text):
    said = findings(tap=f"1/2-13 NC HSS G {limit}")
    assert said == [("tap_limit_too_low", severity, "tap", text, limit, PITCH)]


def test_forming_taps_close_in_by_two_limits():
    """H2 ends at 0.451 and begins at 0.4505 in: 0.4495 in once the thread has closed in; H3 just holds 0.45 in."""
    formed = {"drill": "15/32", "asked": {"method": "form"}}
    text = "Tap limit 0.4505 in - closing in of a formed thread 0.001 in = 0.4495 in: 0.0005 in below the limit."
    ((code, severity, field, said, planned, expected),) = findings(
        tap=PlannedTap("1/2-13 NC HSS G H2", style="forming"), **formed
    )
    assert (code, severity, field, said, planned) == ("tap_limit_too_low", "warning", "tap", text, "H2")
    assert expected.startswith("0.4500 to 0.4565 in, e.g. H")
    assert "tap_limit_too_low" not in {
        one[0] for one in findings(tap=PlannedTap("1/2-13 NC HSS G H3", style="forming"), **formed)
    }


#: ASME B94.9 Table 25 for 1/4-20: H2 0.2830 to 0.2835 in for class 3B, H3 0.2835 to 0.2840 in for class 2B.
def test_taps_for_inserts():
    plan = {"drill": "17/64"}
    above = "The tap's limits are 0.2835 in to 0.284 in; those for class 3B are 0.283 in to 0.2835 in."
    below = "The tap's limits are 0.283 in to 0.2835 in; those for class 2B are 0.2835 in to 0.284 in."
    assert findings("1/4-20 UNC-3B STI", tap="1/4-20 NC STI HSS G H3", **plan) == [
        ("tap_limit_too_high", "error", "tap", above, "H3", "H2")
    ]
    assert findings("1/4-20 UNC-2B STI", tap="1/4-20 NC STI HSS G H2", **plan) == [
        ("tap_limit_too_low", "warning", "tap", below, "H2", "H3")
    ]
    assert findings("1/4-20 UNC-2B STI", tap="1/4-20 NC STI HSS G H3", **plan) == []


OTHER_THREADS = [
    (
        "tap_pitch_differs",
        "1/2-20 NF HSS G H3",
        "The tap cuts 20 threads per inch, the thread has 13 threads per inch.",
    ),
    ("tap_size_differs", "3/8-16 NC HSS G H3", "The tap is for 0.375 in, the hole is 0.5 in (nominal)."),
    ("tap_hand_differs", "1/2-13 NC LH HSS G H5", "The tap is left-hand, the thread right-hand."),
]


@every(("code", "marking", "text"), OTHER_THREADS)
def test_taps_of_another_thread(code, marking, text):
    assert findings(tap=marking) == [(code, "error", "tap", text, marking, "1/2-13 UNC-2B")]


def test_a_second_tap_is_judged_as_the_first():
    marking = "1/2-20 NF HSS G H3"
    text = "The tap cuts 20 threads per inch, the thread has 13 threads per inch."
    said = findings(second=marking)
    assert said == [("tap_pitch_differs", "error", "second_tap", text, marking, "1/2-13 UNC-2B")]


#: High-speed steel for brass; cobalt grade for 4140 of 28 HRC (271 HB, to 300), powder metal at 35 HRC (327 HB, to 420)
#: and carbide at 45 HRC (421 HB): table of tap practice.
GRADES = [
    ("brass", "1/2-13 NC", "", "warning", "carbon steel", "HSS"),
    ("brass", "1/2-13 NC", "hand", "info", "carbon steel", "HSS"),
    ("4140 at 28 HRC", "1/2-13 NC", "hand", "warning", "carbon steel", "HSS-E"),
    ("4140 at 28 HRC", H5, "", "info", "HSS", "HSS-E"),
    ("4140 at 35 HRC", H5, "", "warning", "HSS", "HSS-E-PM"),
    ("4140 at 35 HRC", "1/2-13 NC HSS-E G H5", "", "info", "HSS-E", "HSS-E-PM"),
    ("4140 at 45 HRC", "1/2-13 NC HSS-E-PM G H5", "", "warning", "HSS-E-PM", "carbide"),
]


@every(("material", "marking", "tapping", "severity", "planned", "wanted"), GRADES)
def test_grades_of_taps(material, marking, tapping, severity, planned, wanted):
    """One grade softer is remarked upon; more, or where only carbide does it, is asked about."""
    said = [
        one for one in findings(tap=marking, material=material, asked={"machine": Machine(tapping=tapping or None)})
        if one[0] == "tap_grade_low"
    ]  # fmt: skip
    ((code, told, field, text, tap, expected),) = said
    assert (code, told, field, tap, expected) == ("tap_grade_low", severity, "tap", planned, wanted)
    assert text.startswith(f"The tap is {planned}; in ")
    assert text.endswith(f" the specification takes {wanted}.")


@every(("material", "marking"), [("brass", H5), ("4140 at 28 HRC", "1/2-13 NC HSS-E G H5"),
                                 ("4140 at 28 HRC", "1/2-13 NC HSS-E-PM G H5"), (None, "1/2-13 NC")])  # fmt: skip
def test_grades_that_are_as_hard_or_not_judged(material, marking):
    assert not [one for one in findings(tap=marking, material=material) if one[0] == "tap_grade_low"]


STYLES = [
    ("spiral_point", "through", None), ("spiral_flute", "blind", None), ("straight_flute", "blind", None),
    ("spiral_point", "blind", ("warning", "A spiral point pushes its chips ahead: in a blind hole they pack at the"
                                          " bottom and break the tap.")),
    ("spiral_flute", "through", ("info", "A spiral flute draws its chips back through the hole; a spiral point is"
                                         " stronger in a through hole.")),
]  # fmt: skip


@every(("style", "kind", "told"), STYLES)
def test_styles_by_hole(style, kind, told):
    hole = THROUGH if kind == "through" else Hole("blind", full_thread_depth=inch("0.5"))
    said = [one for one in findings(tap=PlannedTap(H5, style=style), hole=hole) if one[0] == "tap_style_unsuited"]
    best = {"through": {"straight_flute", "spiral_point"}, "blind": {"spiral_flute", "straight_flute"}}[kind]
    if told is None:
        assert said == []
    else:
        ((_, severity, field, text, planned, expected),) = said
        assert (severity, text, field, planned) == (*told, "tap", style)
        assert expected in best


METHODS = [
    ("cut", "forming", "A forming tap needs the larger hole of a formed thread; the request cuts the thread."),
    (
        "form",
        "spiral_point",
        "A cutting tap takes no bite in the hole of a formed thread; the request forms the thread.",
    ),
]


@every(("method", "style", "text"), METHODS)
def test_forming_and_cutting(method, style, text):
    drill = "27/64" if method == "cut" else "15/32"
    said = findings(drill=drill, tap=PlannedTap(H5, style=style), asked={"method": method})
    ((_, severity, field, told, planned, _),) = [one for one in said if one[0] == "tap_method_differs"]
    assert (severity, field, told, planned) == ("error", "tap", text, style)


def test_percent_beside_request_and_practice():
    """27/64: (0.5 - 0.421875) 13 / 1.299038 = 78.18 %; with 0.0047 in more (0.426575 in) 73.48 %."""
    arithmetic = (
        "78.18 % by the drill, 73.48 % by the expected hole of 0.4266 in (0.75 H (100 % = 1.299038 P on diameter))"
    )

    def percent(low, high, **other):
        target = PercentTarget(min=low and Decimal(low), max=high and Decimal(high))
        return [
            one for one in findings(asked={"percent_thread": target}, **other) if one[0].startswith("percent_outside")
        ]

    def told(low, high):
        text = f"The request asks for {low} to {high} %; {arithmetic}."
        return [("percent_outside_request", "warning", "drill", text, "78.18 %", f"{low} to {high} %")]

    assert percent("67", "72") == told("67", "72")
    assert percent("79", None) == told("79", "100")
    assert percent(None, "73") == told("0", "73")
    for low, high in (("78", "79"), ("73", "74"), (None, "73.48"), ("78.18", None), ("73.48", "74"), ("78", "78.18")):
        assert percent(low, high) == []


def test_percent_above_what_shops_cut():
    """Alloy steel below 300 HB: 60 to 70 % to 1.5 D, 55 to 65 beyond; 27/64 is what the specification takes itself."""
    text = (
        "78.18 % by the drill, 73.48 % by the expected hole of 0.4266 in (0.75 H (100 % = 1.299038 P on diameter)); 60"
        " to 70 % is common practice in alloy steel at that depth."
    )

    def above(mean):
        """The mean oversize that leaves 70.00 % is 0.5 - 0.7 x 1.299038 / 13 - 0.421875 = 0.008177 in."""
        machine = Machine(drill_oversize=DrillOversize(inch(mean)))
        said = findings(material="4140 at 28 HRC", tap="1/2-13 NC HSS-E G H5", asked={"machine": machine})
        return [one[4] for one in said if one[0] == "percent_above_practice"]

    assert (above("0.008177"), above("0.00817")) == ([], ["70.01 %"])

    def severity(mean):
        """A drill below the recommended one: 0.5 - 0.75 x 1.299038 / 13 - 0.42 = 0.005056 in leaves 75.00 %."""
        machine = Machine(drill_oversize=DrillOversize(inch(mean)))
        tap = "1/2-13 NC HSS-E G H5"
        said = findings(drill="0.42 in", material="4140 at 28 HRC", tap=tap, asked={"machine": machine})
        return [one[1:5:3] for one in said if one[0] == "percent_above_practice"]

    assert severity("0.005056") == [("info", "75.00 %")]
    assert severity("0.00504") == [("warning", "75.02 %")]
    said = findings(material="4140 at 28 HRC", tap="1/2-13 NC HSS-E G H5")
    assert [one for one in said if one[0] == "percent_above_practice"] == [
        ("percent_above_practice", "info", "drill", text, "73.48 %", "at most 70 %")
    ]


ORDERS = [
    (("tap", "drill"), "operations_out_of_order", "error", "The tap needs the drill before it.", "drill, tap"),
    (("drill", "tap", "ream"), "operations_out_of_order", "error", "The tap needs the ream before it.", "ream, tap"),
    (("drill", "tap", "finish"), "finish_not_named", "warning",
     "The plan has a finish, the request names none: what the coat does to the limits is not judged.",
     "name the finish"),
]  # fmt: skip


@every(("order", "code", "severity", "text", "expected"), ORDERS)
def test_orders_of_operations(order, code, severity, text, expected):
    said = findings(operations_order=order)
    assert said == [(code, severity, "operations_order", text, ", ".join(order), expected)]


@every("order", [("drill", "tap"), ("drill", "ream", "tap"), ("drill",), ("tap",), ("ream", "tap"), ()])
def test_orders_that_can_make_the_hole(order):
    assert findings(operations_order=order) == []


COATED = [
    ("ASTM B633 Fe/Zn 5", "H6", ("drill", "finish", "tap"), "finished_before_tapping",
     "The limits allow for a coat on the thread; a tap that follows the finish cuts the coat away.", "tap, finish"),
    ("ASTM F2329", "H6", ("drill", "tap", "finish"), "galvanized_after_tapping",
     "Hot-dip zinc fills a thread that is tapped before the bath; tap once, oversize, after it.", "finish, tap"),
]  # fmt: skip


@every(("finish", "limit", "order", "code", "text", "expected"), COATED)
def test_the_finish_stands_on_the_right_side_of_the_tap(finish, limit, order, code, text, expected):
    asked = {"finish": FinishInput(text=finish)}
    tap = f"1/2-13 NC HSS G {limit}"
    said = [one for one in findings(tap=tap, asked=asked, operations_order=order) if one[2] == "operations_order"]
    assert said == [(code, "error", "operations_order", text, ", ".join(order), expected)]
    right = tuple({"tap": "finish", "finish": "tap"}.get(one, one) for one in order)
    assert not [one for one in findings(tap=tap, asked=asked, operations_order=right) if one[2] == "operations_order"]


def test_a_masked_thread_is_masked_first():
    asked = {"finish": FinishInput(text="ASTM B633 Fe/Zn 8", masked=True)}
    text = "The coat must not reach the thread: mask or plug it first."
    order = ("drill", "tap", "finish")
    assert findings(asked=asked, operations_order=order) == [
        ("mask_missing", "error", "operations_order", text, "drill, tap, finish", "mask, finish")
    ]
    for other in (("drill", "tap", "mask", "finish"), ("drill", "tap"), None):
        assert findings(asked=asked, operations_order=other) == []


# --- depths: M8 has a pitch of 1.25 mm; a point of 118 degrees is 0.3004 of the drill high: 2.043 mm at 6.8 mm --------

M8 = {"thread": "M8", "drill": "6.8 mm"}
D5 = "M8x1.25 HSS G D5"


def depths(hole, depth, tap=D5):
    planned = {} if depth is None else {"drill_depth": mm(depth)}
    return [one for one in findings(**M8, tap=tap, hole=hole, **planned) if one[2] == "drill_depth"]


def test_depth_of_a_through_hole():
    hole = Hole("through", thickness=mm(12))
    text = "The wall is 12 mm: 0.5 mm are not drilled."
    assert depths(hole, "11.5") == [("hole_too_shallow", "error", "drill_depth", text, "11.5 mm", "12 mm")]
    for depth in ("12", "11.995", "13", None):
        assert depths(hole, depth) == []
    assert depths(hole, "11.994") != []


def test_depth_past_the_limit_of_the_request():
    hole = Hole("blind", full_thread_depth=mm(10), drill_depth_limit=mm(18))
    text = "The drilled depth passes the limit of the request by 2 mm."
    assert depths(hole, "20") == [("drill_depth_over_limit", "error", "drill_depth", text, "20 mm", "18 mm")]
    assert depths(hole, "18") == depths(hole, "18.005") == []
    assert depths(hole, "18.006") != []


def test_point_through_the_wall():
    hole = Hole("blind", full_thread_depth=mm(10), thickness=mm(22))
    text = "20 mm + point 2.043 mm = 22.043 mm in a wall of 22 mm: -0.043 mm left."
    assert depths(hole, "20") == [("drill_breaks_through", "error", "drill_depth", text, "20 mm", "19.957 mm")]
    # 22 - 2.043 - 18.8 = 1.157 mm are less than the pitch; 18.7 leaves 1.257 mm
    ((code, severity, _, text, planned, _),) = depths(hole, "18.8")
    assert (code, severity, planned) == ("wall_thin", "warning", "18.8 mm")
    assert text == "18.8 mm + point 2.043 mm = 20.843 mm in a wall of 22 mm: 1.157 mm left."
    assert depths(hole, "18.7") == []


PLUG = PlannedTap(D5, chamfer="plug")


def test_room_for_the_chamfer():
    """Plug 3 to 5 threads: 10 + 3 x 1.25 = 13.75 mm are needed, 10 + 5 x 1.25 = 16.25 mm wanted."""
    hole = Hole("blind", full_thread_depth=mm(10))
    (full,) = depths(hole, "9.9")
    assert full[:5] == ("hole_too_shallow", "error", "drill_depth",
                        "10 mm of full thread do not fit in 9.9 mm of drilled depth.", "9.9 mm")  # fmt: skip
    for depth, severity, threads, needed in (("13", "error", "3", "13.75"), ("16", "warning", "5", "16.25")):
        (short,) = depths(hole, depth, PLUG)
        text = (
            f"10 mm of full thread + {threads} threads of plug chamfer x 1.25 mm = {needed} mm; {depth} mm are drilled."
        )
        assert short[:5] == ("tap_chamfer_no_room", severity, "drill_depth", text, f"{depth} mm")
    assert depths(hole, "13.745", PLUG)[0][1] == "warning"
    assert depths(hole, "13.744", PLUG)[0][1] == "error"
    assert depths(hole, "16.245", PLUG) == []


def test_a_depth_that_is_not_planned_is_the_deepest_that_the_request_allows():
    """A wall of 15.2 mm less the point: 13.157 mm; a limit of 13 mm: 13 mm. Plug needs 13.75 mm."""
    for limit, drilled in ((None, "13.157 mm"), (mm(13), "13 mm")):
        hole = Hole("blind", full_thread_depth=mm(10), thickness=mm("15.2"), drill_depth_limit=limit)
        (short,) = depths(hole, None, PLUG)
        assert (short[0], short[1], short[4]) == ("tap_chamfer_no_room", "error", drilled)
    assert depths(Hole("blind", full_thread_depth=mm(10)), None, PLUG) == []


# --- speeds ---------------------------------------------------------------------------------------------------------


def test_words_on_speeds():
    """Ti-6Al-4V is drilled at 39 ft/min = 11.89 m/min: 353 rev/min of 10.716 mm; 389 rev/min are 13.1 m/min."""
    said = findings(material="Ti-6Al-4V", spindle_speed_rpm=389.0)
    ((code, severity, field, text, planned, expected),) = [one for one in said if "speed" in one[0]]
    assert (code, severity, field) == ("drill_speed_too_high", "warning", "spindle_speed")
    assert text.startswith("389 rev/min on 10.716 mm are 13.1 m/min; the tables of high-speed steel end at 11.9 m/min")
    assert "(353 rev/min) in " in text
    assert text.endswith(". Carbide or a coat may bear more.")
    assert (planned, expected) == ("389 rev/min", "at most 353 rev/min")
    machine = {"machine": Machine(max_spindle_speed_rpm=3000.0)}
    text = "3500 rev/min is planned; the machine turns 3000 rev/min."
    for field in ("spindle_speed", "tap_spindle_speed"):
        assert findings(asked=machine, **{f"{field}_rpm": 3500.0}) == [
            ("speed_above_machine", "warning", field, text, "3500 rev/min", "at most 3000 rev/min")
        ]


def test_taper_drills_beside_their_chart():
    """Shares of the thread height on diameter."""
    for drill, told in TAPER:
        said = findings("1/4-18 NPT", drill=drill, tap="1/4-18 NPT HSS G")
        if not told:
            assert said == []
            continue
        ((code, severity, field, text, _, expected),) = said
        assert [code, severity] == told[:2]
        assert text == f"{told[2]} the drills of the chart: {told[3]} of the thread height."
        assert field == "drill"
        assert "7/16" in expected


# --- taps under a coat ------------------------------------------------------------------------------------------------

#: Fe/Zn 8 is 0.0003 in printed, half as much again at most: 0.4500 + 4 x 0.00045 = 0.4518 in. Hot-dip zinc: ASTM A563
#: overtaps 1/2-13 by 0.018 in. ISO 965-5 6AZ at 1.25 mm: 300 + 20 x 1.25 = 325 um over 7.188 and 7.348 mm.
COATED_TAPS = [
    (UNC, "1/2-13 NC HSS G", "ASTM B633 Fe/Zn 8", "tap_limit_not_stated", "warning",
     "The pitch diameter to be made is 0.4518 to 0.4565 in; no limit is stated.", "0.4518 to 0.4565 in, e.g. H7"),
    (UNC, H5, "ASTM F2329", "tap_not_overtapped", "error", "The tap's limit is 0.452 in: 0.016 in below the limit.",
     "0.4680 to 0.4745 in, e.g. basic plus 0.018"),
    (UNC, "1/2-13 NC HSS G", "ASTM F2329", "tap_limit_not_stated", "warning",
     "The pitch diameter to be made is 0.4680 to 0.4745 in; no limit is stated.",
     "0.4680 to 0.4745 in, e.g. basic plus 0.018"),
    ("M8", D5.partition(" D5")[0], "ISO 10684 6AZ", "tap_limit_not_stated", "warning",
     "The pitch diameter to be made is 7.513 to 7.673 mm; no limit is stated.",
     "7.513 to 7.673 mm, e.g. basic plus 0.325"),
]  # fmt: skip


@every(("thread", "tap", "finish", "code", "severity", "text", "expected"), COATED_TAPS)
def test_taps_under_a_coat(thread, tap, finish, code, severity, text, expected):
    drill = "6.8 mm" if thread == "M8" else "27/64"
    asked = {"finish": FinishInput(text=finish)}
    ((found, told, field, said, planned, limits),) = [
        one for one in findings(thread, drill=drill, tap=tap, asked=asked) if one[2] == "tap"
    ]
    assert (found, told, field, said, limits) == (code, severity, "tap", text, expected)
    assert planned == ("H5" if tap == H5 else tap)


@every(
    ("thread", "tap", "finish"),
    [
        (UNC, "1/2-13 NC HSS G H7", "ASTM B633 Fe/Zn 8"),
        (UNC, "1/2-13 NC HSS G", None),
        ("M8", "M8x1.25 6AZ HSS", "ISO 10684 6AZ"),
    ],
)
def test_taps_that_a_coat_does_not_ask_about(thread, tap, finish):
    asked = {} if finish is None else {"finish": FinishInput(text=finish)}
    drill = "6.8 mm" if thread == "M8" else "27/64"
    assert not [one for one in findings(thread, drill=drill, tap=tap, asked=asked) if one[2] == "tap"]


def test_a_tap_near_the_upper_limit_is_often_refused():
    """H11 is 0.45525 in the middle, 0.45625 with the cut of 0.001: 0.00025 in under 0.4565. One deviation of the cut is
    0.1 x 0.0065 = 0.00065, of the band 0.0005/sqrt(12) = 0.000144, of both 0.000666 in: 0.3755 of it below, 64.6 %.
    """
    text = "Only about 64.6 % of the threads of H11 end inside the pitch diameter limits, cut oversize reckoned."
    assert findings(tap=H5.replace("H5", "H11")) == [("tap_often_refused", "warning", "tap", text, "H11", PITCH)]
    assert findings(tap=H5) == []
    second = findings(tap=H5.replace("H5", "H11"), second=H5)
    assert second == []
    assert [one[2] for one in findings(second=H5.replace("H5", "H11"))] == ["second_tap"]


def test_a_size_to_the_digits_of_a_limit():
    """Half to the even digit; a limit of whole numbers has none to round to."""
    sizes = [("0.4345", "0.434", "0.434"), ("0.4346", "0.434", "0.435"), ("1.26", "1.2", "1.3"), ("1.26", "12", "1.26")]
    for size, limit, expected in sizes:
        assert to_digits_of(Decimal(size), limit=Decimal(limit)) == Decimal(expected)


def test_a_ground_tap_of_no_stated_metal_is_not_judged():
    for material in ("brass", "4140 at 45 HRC"):
        assert not [one for one in findings(tap="1/2-13 NC G H5", material=material) if one[0] == "tap_grade_low"]
