"""How a coat of b a surface moves the diameters, by hand: 2 b on major and minor, k b on pitch diameter, k = 4 at 60
degrees; both limits before the finish in the inch standard, the lower one in the metric one; rounded inwards.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest
from allowances import assumes, resolved, span
from borewright.core.finishing import allow, flank_geometry
from borewright.core.model import Diameters, FinishInput, Range
from every import every

NONE = Range(Decimal(0), Decimal(0))
HALF, M8 = resolved("1/2-13 UNC-2B"), resolved("M8")


def _range(least, most):
    return Range(*(None if end is None else Decimal(end) for end in (least, most)))


def _limits(thread, build_up, reading, heat=NONE):
    return flank_geometry.limits(thread, build_up=_range(*build_up), heat=heat, reading=reading)


def _ends(diameters):
    return [
        (str(one.min), str(one.max))
        for one in (diameters.major_diameter, diameters.pitch_diameter, diameters.minor_diameter)
    ]


@every(
    ("text", "build_up", "heat", "reading", "change", "before"),
    [
        # 1/2-13 2B: major from 0.5000, pitch 0.4500 to 0.4565, minor 0.417 to 0.434 in
        (
            "1/2-13 UNC-2B", ("0.0002", "0.0003"), ("0", "0"), "asme",
            [("-0.0006", "-0.0004"), ("-0.0012", "-0.0008"), ("-0.0006", "-0.0004")],
            [("0.5006", None), ("0.4512", "0.4573"), ("0.4176", "0.4344")],
        ),
        (
            "1/2-13 UNC-2B", ("0.0002", "0.0003"), ("0", "0"), "iso",
            [("-0.0006", "-0.0004"), ("-0.0012", "-0.0008"), ("-0.0006", "-0.0004")],
            [("0.5006", None), ("0.4512", "0.4565"), ("0.4176", "0.4340")],
        ),
        # a heat treatment opens it by 0.0001 to 0.0002 in: 4 x 0.0003 less 0.0001, 4 x 0.0002 less 0.0002
        (
            "1/2-13 UNC-2B", ("0.0002", "0.0003"), ("0.0001", "0.0002"), "asme",
            [("-0.0005", "-0.0002"), ("-0.0011", "-0.0006"), ("-0.0005", "-0.0002")],
            [("0.5005", None), ("0.4511", "0.4571"), ("0.4175", "0.4342")],
        ),
        (
            "1/2-13 UNC-2B", ("0.0002", "0.0003"), ("0.0001", "0.0002"), "iso",
            [("-0.0005", "-0.0002"), ("-0.0011", "-0.0006"), ("-0.0005", "-0.0002")],
            [("0.5005", None), ("0.4511", "0.4563"), ("0.4175", "0.4338")],
        ),
        # changes outwards to a microinch or 0.01 um, limits inwards to the standard's digits
        (
            "1/2-13 UNC-2B", ("0.00012341", "0.00012345"), ("0", "0"), "asme",
            [("-0.000247", "-0.000246"), ("-0.000494", "-0.000493"), ("-0.000247", "-0.000246")],
            [("0.5003", None), ("0.4505", "0.4569"), ("0.4173", "0.4342")],
        ),
        # M8: major from 8, pitch 7.188 to 7.348, minor 6.647 to 6.912 mm
        (
            "M8", ("0.0123451", "0.0123456"), ("0", "0"), "asme",
            [("-0.0247", "-0.02469"), ("-0.04939", "-0.04938"), ("-0.0247", "-0.02469")],
            [("8.025", None), ("7.238", "7.397"), ("6.672", "6.936")],
        ),
        # M12 6G: 10.897 to 11.097, 10.140 to 10.475; H begins at 12, 10.863 and 10.106
        (
            "M12-6G", ("0", "0.012"), ("0", "0"), "iso",
            [("-0.024", "0"), ("-0.048", "0"), ("-0.024", "0")],
            [("12.034", None), ("10.911", "11.097"), ("10.140", "10.475")],
        ),
        (
            "M12-6G", ("0", "0.012"), ("0", "0"), "asme",
            [("-0.024", "0"), ("-0.048", "0"), ("-0.024", "0")],
            [("12.058", None), ("10.945", "11.097"), ("10.164", "10.475")],
        ),
        # a square groove has no flank that would move a pitch diameter
        (
            "1-4 SQUARE DEPTH .125", ("0.0002", "0.0003"), ("0", "0"), "asme",
            [("-0.0006", "-0.0004"), ("-0.0006", "-0.0004"), ("-0.0006", "-0.0004")],
            [("1.0006", None), (None, None), ("0.7506", None)],
        ),
    ],
)  # fmt: skip
def test_limits_before_a_coat(text, build_up, heat, reading, change, before):
    found = _limits(resolved(text), build_up, reading, _range(*heat))
    for name, moved, limit in zip(("major", "pitch", "minor"), change, before, strict=True):
        assert getattr(found.change, f"{name}_diameter") == _range(*moved), name
        assert getattr(found.before, f"{name}_diameter") == _range(*limit), name


@every(
    ("digits", "before"),
    [
        (("0.45001", "0.45651"), ("0.45051", "0.45700")),  # 0.450504 and 0.457003
        (("0.450", "0.457"), ("0.4505", "0.4574")),  # four decimals at least
        (("0.45", "0.46"), ("0.4505", "0.4604")),
    ],
)
def test_limits_keep_the_digits_of_their_standard_and_have_four_at_least(digits, before):
    """The coat takes 0.000494 in and gives back 0.000493 in."""
    thread = replace(HALF, internal=Diameters(_range(None, None), _range(*digits), _range(None, None)))
    found = _limits(thread, ("0.00012341", "0.00012345"), "asme")
    assert _ends(found.before)[1] == before


@every(
    ("text", "formula", "low"),
    [
        # 10.863 + 4 x 0.012 is above the 10.897 of 6G, 10.863 + 4 x 0.001 is not
        ("M12", "up(limit - change, places)", "10.911"),
        ("M12-6G", "max(up(limit - change, places), own)", "10.911"),
    ],
)
def test_how_the_lower_limit_is_told(text, formula, low):
    steps = {one.quantity: one for one in _limits(resolved(text), ("0", "0.012"), "iso").steps}
    least, most = (steps[f"before_finish.pitch_diameter.{end}"] for end in ("min", "max"))
    own = resolved(text).internal.pitch_diameter
    inputs = {"limit": Decimal("10.863"), "change": Decimal("-0.048"), "places": 3, "own": own.min}
    assert (least.formula, least.inputs, least.value, least.unit) == (formula, inputs, Decimal(low), "mm")
    assert least.source == "ISO 965-3:2021 clause 4: tolerance before coating, position H not passed after"
    inputs = {"limit": own.max, "change": Decimal(0), "places": 3}
    assert (most.formula, most.inputs, most.value) == ("down(limit - change, places)", inputs, own.max)


@pytest.mark.parametrize(("angle", "moves"), [("0.99", False), ("1", True), ("0", False)])
def test_flanks_of_a_degree_still_move_a_pitch_diameter(angle, moves):
    factor = flank_geometry.flank_factor(Decimal(angle))
    assert factor == (Decimal(f"{2 / math.sin(math.radians(0.5)):.4f}") if moves else None)


@every(
    ("text", "movement"),
    [
        # 1 in 16: 16 x 4 x 0.0003 and 16 x 4 x 0.0002 in; parallel threads have no gauge plane
        ("1/2-14 NPT", ("0.0128", "0.0192")),
        ("1/2-13 UNC-2B", None),
    ],
)
def test_the_gauge_plane(text, movement):
    found = _limits(resolved(text), ("0.0002", "0.0003"), "asme")
    assert found.axial == (None if movement is None else _range(*movement))
    steps = {step.quantity: step.value for step in found.steps}
    assert steps.get("axial_movement.max") == (None if movement is None else Decimal("0.0192"))


def test_a_thread_that_is_gauged_first_comes_out_smaller_rounded_apart():
    """#10-32 2B: major from 0.1900, pitch 0.1697 to 0.1736, minor 0.156 to 0.164 in; 0.000494 and 0.000247 in go."""
    limits = resolved("10-32 UNF-2B").internal
    change = Diameters(*(_range(*one) for one in (("-.000247", "-.000246"), ("-.000494", "-.000493")) for _ in (0,)),
                       _range("-.000247", "-.000246"))  # fmt: skip
    after, steps = flank_geometry.moved(limits, change, "in")
    assert _ends(after) == [("0.1897", "None"), ("0.1692", "0.1732"), ("0.1557", "0.1638")]
    assert [(step.quantity, str(step.value)) for step in steps] == [
        ("finished.major_diameter.min", "0.1897"),
        ("finished.pitch_diameter.min", "0.1692"),
        ("finished.pitch_diameter.max", "0.1732"),
        ("finished.minor_diameter.min", "0.1557"),
        ("finished.minor_diameter.max", "0.1638"),
    ]


def test_steps_of_an_answer_whose_limits_hold_before():
    """Nothing in the derivation speaks of other limits than those that are told."""
    finish = FinishInput(thickness=span("0.0002", "0.0003"), dimensions_apply="before_finish")
    found = allow(HALF, finish)
    names = [step.quantity for step in found.notes.steps]
    assert not [name for name in names if name.startswith("before_finish.")]
    assert {"flank_factor", "change.pitch_diameter.min", "finished.pitch_diameter.max"} <= set(names)
    assert found.before_finish == HALF.internal
    assert found.dimensions_apply == "before_finish"
    assert _ends(found.finished) == [("0.4994", "None"), ("0.4488", "0.4557"), ("0.4164", "0.4336")]
    assert [source.field for source in found.notes.sources] == ["change"]
    assert assumes(found, "hold before the finish")
    assert allow(resolved("1/2-14 NPT"), finish).axial_movement == _range("0.0128", "0.0192")


@every(
    ("text", "reading", "said", "silent", "statuses"),
    [
        ("1/2-13 UNC-2B", None, ("reading of ASME B1.1",), ("asked for", "is not held", "position"),
         "published second_hand"),
        ("M8", None, ("reading of ISO 965",), ("asked for", "is not held", "away from H"),
         "published published"),
        ("M12-6G", None, ("reading of ISO 965", "away from H"), ("asked for",),
         "published published"),
        ("M8", "asme", ("the asme reading was asked for", "reading of ASME B1.1"), ("is not held",),
         "published second_hand"),
        ("1/2-14 NPT", None, ("is not held: the asme reading", "reading of ASME B1.1"), ("asked for",),
         "published common_practice"),
        ("Tr 20x4-7H", None, ("is not held: the iso reading", "reading of ISO 965"), ("asked for",),
         "computed common_practice"),
        ("1/2-12 BSW", "iso", ("the iso reading was asked for",), ("is not held",),
         "computed common_practice"),
    ],
)  # fmt: skip
def test_which_reading_moved_the_limits_is_said(text, reading, said, silent, statuses):
    found = allow(resolved(text), FinishInput(thickness=span("0.005", "0.005", "mm"), reading=reading))
    assert all(assumes(found, words) for words in said)
    assert not any(assumes(found, words) for words in silent)
    assert assumes(found, "rounded inwards")
    by_field = {source.field: source.status for source in found.notes.sources}
    assert [by_field["change"], by_field["before_finish"]] == statuses.split()
    assert not assumes(found, "heat treatment")


def test_a_growth_is_said_to_be_the_callers():
    found = allow(HALF, FinishInput(heat_treat_growth=span("0.0001", "0.0002")))
    assert assumes(found, "growth by heat treatment is the caller's figure")
    assert found.finish.process == "heat treatment"
    assert not assumes(found, "no process is named")
