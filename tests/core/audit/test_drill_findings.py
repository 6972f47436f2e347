"""Findings on the drill, whole: code, severity, text, planned and expected, worked out by hand."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.audit import PlannedTap
from borewright.core.audit.findings import to_digits_of, window
from borewright.core.model import Hole, PercentTarget, Range
from borewright.core.quantity_text import NO_BREAK
from borewright.core.requests import DrillOversize, Machine
from every import every

from .planned import H5, MINOR, findings, inch

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


@every(("drill", "code"), [("6.5845 mm", "drill_for_cutting_tap"), ("6.584 mm", "drill_too_small")])
def test_a_drill_a_twentieth_of_the_pitch_under_the_limit_is_still_one_of_a_cut_thread(drill, code):
    """M8: 6.647 - 0.05 x 1.25 = 6.5845 mm."""
    tap = PlannedTap("M8x1.25 HSS G D5", style="forming")
    said = findings("M8", drill=drill, tap=tap, asked={"method": "form"})
    assert [one[0] for one in said if one[2] == "drill"] == [code]


def test_an_oversize_that_is_not_known_is_none():
    """2 1/4-6 UN at 2.09 in: (2.25 - 2.09) x 6 / 1.299038 = 73.90 % by the drill and by the hole."""
    hole, asked = Hole("through", thickness=inch(2)), {"percent_thread": PercentTarget(max=Decimal(70))}
    said = findings("2 1/4-6 UN-2B", drill="2.09 in", tap=PlannedTap(style="straight_flute"), hole=hole, asked=asked)
    ((_, _, _, text, planned, _),) = [one for one in said if one[0] == "percent_outside_request"]
    assert planned == "73.90 %"
    assert "73.90 % by the drill, 73.90 % by the expected hole of 2.09 in" in text


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
    assert text.startswith(
        "2.0625 in, for which no mean oversize is known: below 2.070 to 2.100 in, so that it is reamed"
    )


def test_a_drill_of_the_chart_that_reaches_the_limit_needs_no_reamer():
    """2 1/4-6 UN: 2-1/16 with 0.0075 in more is just 2.070 in; with less it is reamed."""
    hole = Hole("through", thickness=inch(2))

    def told(mean):
        asked = {"machine": Machine(drill_oversize=DrillOversize(inch(mean)))}
        said = findings("2 1/4-6 UN-2B", drill="2-1/16", tap=PlannedTap(style="straight_flute"), hole=hole, asked=asked)
        return [one[0] for one in said if one[0] in ("drill_too_small", "ream_missing")]

    assert told("0.0075") == ["drill_too_small"]
    assert told("0.0074") == ["ream_missing"]


def test_limits_in_words():
    thread = standards.resolve(callout.read("1/2-13 UNC-2B"))
    ends = [(None if one is None else Decimal(one)) for one in ("0.417", "0.434", None)]
    words = [window(Range(low, high), thread).replace(NO_BREAK, " ")
             for low, high in (ends[:2], ends[::2], (None, ends[1]), (None, None))]  # fmt: skip
    assert words == ["0.417 to 0.434 in", "at least 0.417 in", "at most 0.434 in", "no limit"]


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


def test_the_drill_before_the_reamer_is_one_all_the_same_where_no_other_way_is_left():
    """1 1/4-5 Acme: minor diameter 1.05 to 1.06 in, which no drill of the lists holds with its oversize."""
    hole = Hole("through", thickness=inch(1))
    said = findings("1 1/4-5 ACME-2G", drill="1-1/32", tap="1 1/4-5 ACME-2G HSS G", hole=hole)
    assert [(one[0], one[1], one[4], one[5]) for one in said] == [
        ("ream_missing", "warning", "1-1/32 (1.0312 in)", "drill, then ream")
    ]
    smaller = findings("1 1/4-5 ACME-2G", drill="1 in", tap="1 1/4-5 ACME-2G HSS G", hole=hole)
    assert [(one[0], one[1]) for one in smaller] == [("drill_too_small", "error")]


#: 1/4-18 NPT: chart 7/16 (0.4375 in); the sharp height 0.04811 in less the middle of the printed truncations, 0.0018
#: and 0.0049 in, at crest and root is 0.04141 in, on diameter 0.08282 in.
TAPER = [
    ("7/16", []),
    # 0.4531 - 0.4375 = 0.0156 in: over a tenth
    ("29/64", ["drill_too_large", "error", "0.0156 in above", "0.0156 in / 0.0828 in = 18.9 %"]),
    # 0.0021 in is over a fortieth, 0.00207 in; 0.002 in is not
    ("0.4396 in", ["drill_too_large", "warning", "0.0021 in above", "0.0021 in / 0.0828 in = 2.5 %"]),
    ("0.4395 in", ["drill_too_large", "info", "0.002 in above", "0.002 in / 0.0828 in = 2.4 %"]),
    # just a tenth, 0.008282 in, is not above it
    ("0.445782 in", ["drill_too_large", "warning", "0.0083 in above", "0.0083 in / 0.0828 in = 10.0 %"]),
    ("0.445783 in", ["drill_too_large", "error", "0.0083 in above", "0.0083 in / 0.0828 in = 10.0 %"]),
]
#: 1/8-27 NPT: the largest drill of the chart is R (0.339 in); 0.06416 - 2 x (0.0012 + 0.0036) = 0.05456 in on diameter.
TAPER_BY_LETTERS = [
    # just a fortieth, 0.001364 in, is not above it
    ("0.340364 in", ["drill_too_large", "info", "0.0014 in above", "0.0014 in / 0.0546 in = 2.5 %"]),
    ("0.340365 in", ["drill_too_large", "warning", "0.0014 in above", "0.0014 in / 0.0546 in = 2.5 %"]),
]


@every(
    ("thread", "drill", "told", "chart"),
    [
        *(("1/4-18 NPT", *row, "7/16") for row in TAPER),
        *(("1/8-27 NPT", *row, "21/64, Q, R") for row in TAPER_BY_LETTERS),
    ],
)
def test_taper_drills_beside_their_chart(thread, drill, told, chart):
    """Shares of the thread height on diameter."""
    said = findings(thread, drill=drill, tap=f"{thread} HSS G")
    assert len(said) == bool(told)
    for code, severity, field, text, _, expected in said:
        assert [code, severity] == told[:2]
        assert text == f"{told[2]} the drills of the chart: {told[3]} of the thread height."
        assert field == "drill"
        assert chart in expected


def test_a_size_to_the_digits_of_a_limit():
    """Half to the even digit; a limit of whole numbers has none to round to."""
    sizes = [("0.4345", "0.434", "0.434"), ("0.4346", "0.434", "0.435"), ("1.26", "1.2", "1.3"), ("1.26", "12", "1.26")]
    for size, limit, expected in sizes:
        assert to_digits_of(Decimal(size), limit=Decimal(limit)) == Decimal(expected)


def test_the_specification_decides_of_its_own_drill_that_is_charted_below_the_limits():
    """The charts of dryseal straight threads name drills below the minor diameter: no more than told of, where the
    specification takes the same drill; a warning where it is another.
    """
    for text, drill, severity in (("1/4-18 NPSF", "7/16", "info"), ("1/8-27 NPSF", "R", "info")):
        asked = {"machine": Machine(drill_oversize=DrillOversize(inch("0")))}
        hole = Hole("through", thickness=inch(2))
        said = findings(text, drill=drill, tap=PlannedTap(style="straight_flute"), hole=hole, asked=asked)
        assert [one[1] for one in said if one[0] == "ream_missing"] == [severity]
