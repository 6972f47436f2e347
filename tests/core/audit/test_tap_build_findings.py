"""Findings on the thread, grade, style and method of a tap, whole."""

from __future__ import annotations

from borewright.core.audit import PlannedTap
from borewright.core.model import Hole
from borewright.core.requests import Machine
from every import every

from .planned import H5, THROUGH, findings, inch

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
    ("1018", "1/2-13 NC", "hand", "warning", "carbon steel", "HSS"),
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


def test_a_ground_tap_of_no_stated_metal_is_not_judged():
    for material in ("brass", "4140 at 45 HRC"):
        assert not [one for one in findings(tap="1/2-13 NC G H5", material=material) if one[0] == "tap_grade_low"]


def test_a_tap_of_another_system():
    """A taper tap cuts no parallel thread, though both have flanks of 60 degrees."""
    text = (
        "The tap cuts a 60 degree taper npt thread, the hole is a 60 degree parallel unified thread: their screws do"
        " not fit."
    )
    said = findings("1/4-18 UNS-2B", drill="5.1 mm", tap="1/4-18 NPT HSS G")
    assert ("tap_system_differs", "error", "tap", text, "1/4-18 NPT HSS G", "1/4-18 UNS-2B") in said


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
