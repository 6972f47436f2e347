"""Findings on the limit of a tap, whole, also under a coat, worked out by hand."""

from __future__ import annotations

from borewright.core.audit import PlannedTap
from borewright.core.model import FinishInput
from borewright.core.requests import Machine
from borewright.core.shop_figures.figures import MeasuredCut, ShopFigures
from every import every

from .planned import H5, PITCH, UNC, findings

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
    text = "Tap limit 0.4505 in - closing in of the thread 0.001 in = 0.4495 in: 0.0005 in below the limit."
    ((code, severity, field, said, planned, expected),) = findings(
        tap=PlannedTap("1/2-13 NC HSS G H2", style="forming"), **formed
    )
    assert (code, severity, field, said, planned) == ("tap_limit_too_low", "warning", "tap", text, "H2")
    assert expected.startswith("0.4500 to 0.4565 in, e.g. H")
    assert "tap_limit_too_low" not in {
        one[0] for one in findings(tap=PlannedTap("1/2-13 NC HSS G H3", style="forming"), **formed)
    }


def test_a_forming_tap_above_the_limit_is_not_excused_by_the_closing_in():
    """H14 is 0.4565 to 0.457 in; the thread may close in by 0.001 in, and may not."""
    said = findings(drill="15/32", tap=PlannedTap("1/2-13 NC HSS G H14", style="forming"), asked={"method": "form"})
    text = "The tap's limit is 0.457 in: 0.0005 in above the limit."
    assert [one[:4] for one in said if one[2] == "tap"] == [("tap_overtapped", "error", "tap", text)]


@every(("method", "style", "low"), [("cut", "forming", True), ("form", None, True), ("form", "forming", True),
                                    ("cut", None, False), ("cut", "spiral_point", False)])  # fmt: skip
def test_a_formed_thread_is_one_by_the_tap_or_by_the_request(method, style, low):
    """H2 begins at 0.4505 in and closes in by 0.001 in; cut it stays above 0.45 in."""
    tap, asked = PlannedTap("1/2-13 NC HSS G H2", style=style), {"method": method}
    codes = [one[0] for one in findings(drill="15/32" if method == "form" else "27/64", tap=tap, asked=asked)]
    assert ("tap_limit_too_low" in codes) is low


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
    ("M8", "M8x1.25 HSS G", "ISO 10684 6AZ", "tap_limit_not_stated", "warning",
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
    # the shop's own spread is 0.3 x 0.0065 = 0.00195 in: 0.00025 in are 0.128 of a deviation of 0.001955 in
    shop = {"shop_figures": ShopFigures(tap_oversize=(MeasuredCut(20, spread=0.3, mean=0.15),))}
    ((_, _, _, own, _, _),) = [one for one in findings(tap=H5.replace("H5", "H11"), asked=shop) if one[2] == "tap"]
    assert own.startswith("Only about 55.0 % of the threads of H11")
    second = findings(tap=H5.replace("H5", "H11"), second=H5)
    assert second == []
    assert [one[2] for one in findings(second=H5.replace("H5", "H11"))] == ["second_tap"]


@every(("measured", "told"), [("form", ["Only about 73.5 % of the threads of H11"]), ("cut", [])])
def test_a_forming_tap_is_judged_by_what_was_measured_of_forming_taps(measured, told):
    """No oversize: 0.00125 in to 0.4565 are 0.6394 deviations of 0.001955 in, 0.00525 in to 0.4500 are 2.685."""
    shop = ShopFigures(tap_oversize=(MeasuredCut(20, spread=0.3, mean=0, method=measured),))
    tap = PlannedTap(H5.replace("H5", "H11"), style="forming")
    said = [one for one in findings(drill="15/32", tap=tap, asked={"shop_figures": shop}) if one[2] == "tap"]
    assert [one[3].partition(" end ")[0] for one in said if one[0] == "tap_often_refused"] == told


@every(
    ("mean", "tapping", "machine", "limit", "severity", "text"),
    [
        # 0.0769 of 0.0065 in are 0.0005 in, just what L1 is short of; 0.0615 are 0.0004 in
        (0.0769, None, None, "L1", "warning", "The tap's limit is 0.4495 in: 0.0005 in below the limit."),
        (0.0615, None, None, "L1", "error", "The tap's limit is 0.4495 in: 0.0005 in below the limit."),
        (0.0769, "rigid", None, "H13", "warning",
         "Tap limit 0.4565 in + expected cut oversize 0.0005 in = 0.457 in: 0.0005 in above the limit."),
        # what was measured behind another machine says nothing of this one: 0.15 of 0.0065 in
        (0.0769, "hand", None, "H13", "warning",
         "Tap limit 0.4565 in + expected cut oversize 0.001 in = 0.4575 in: 0.001 in above the limit."),
        (0.0769, "hand", "hand", "H13", "warning",
         "Tap limit 0.4565 in + expected cut oversize 0.0005 in = 0.457 in: 0.0005 in above the limit."),
        (0.0769, "rigid", "hand", "H13", "warning",
         "Tap limit 0.4565 in + expected cut oversize 0.001 in = 0.4575 in: 0.001 in above the limit."),
        # a tap that cuts smaller than it is: 0.31 of 0.0065 in are 0.002 in
        (-0.31, None, None, "H4", "warning",
         "Tap limit 0.4515 in - closing in of the thread 0.002 in = 0.4495 in: 0.0005 in below the limit."),
    ],
)  # fmt: skip
def test_what_the_shop_measured_takes_the_place_of_the_usual_cut(mean, tapping, machine, limit, severity, text):
    figures = ShopFigures(tap_oversize=(MeasuredCut(20, spread=0.02, mean=mean, tapping=tapping),))
    asked = {"shop_figures": figures, "machine": Machine(tapping=machine)}
    said = [one for one in findings(tap=f"1/2-13 NC HSS G {limit}", asked=asked) if one[0].startswith("tap_limit")]
    assert [(one[1], one[3], one[4]) for one in said] == [(severity, text, limit)]
