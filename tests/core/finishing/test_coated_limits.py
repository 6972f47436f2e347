"""How a coat of b a surface moves the diameters, by hand: 2 b on major and minor, k b on pitch diameter, k = 4 at 60
degrees; both limits before the finish in the inch standard, the lower one in the metric one; rounded inwards.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import pytest
from allowances import assumes, resolved, span
from borewright.core.errors import FinishError
from borewright.core.finishing import allow, feasibility, flank_geometry, overtap
from borewright.core.model import Diameters, FinishInput, Material, Range
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


# --- what can be made -----------------------------------------------------------------------------------------------


@every(
    ("text", "width", "moved", "feasible"),
    [
        # a tap of 1/4-20 is 0.0005 in wide and cuts 0.15 x 0.0049 = 0.0007 in over
        ("1/4-20 UNC-2B", "0.0012", True, False),
        ("1/4-20 UNC-2B", "0.0013", True, True),
        ("1/4-20 UNC-2B", "0.0012", False, True),
        ("1/4-20 UNC-2B", "-0.01", False, True),
        # one of M8 0.025 mm, and 0.15 x 0.160 = 0.024 mm
        ("M8", "0.049", True, False),
        ("M8", "0.050", True, True),
    ],
)
def test_a_tap_needs_its_own_tolerance_and_its_oversize(text, width, moved, feasible):
    thread = resolved(text)
    low = thread.internal.pitch_diameter.min
    before = replace(thread.internal, pitch_diameter=Range(low, low + Decimal(width)))
    assert feasibility.is_feasible(thread, before, moved=moved) is feasible


@every(("width", "feasible"), [("0.001", True), ("0", False), ("-0.001", False)])
def test_a_drill_needs_some_room(width, feasible):
    minor = Range(Decimal("0.417"), Decimal("0.417") + Decimal(width))
    assert feasibility.is_feasible(HALF, replace(HALF.internal, minor_diameter=minor), moved=True) is feasible
    none = replace(HALF.internal, minor_diameter=_range("0.417", None), pitch_diameter=_range(None, "0.4565"))
    assert feasibility.is_feasible(HALF, none, moved=True)


_MASK = "mask or plug the thread, or tap after the finish (the thread is then bare)"
_IN, _MM, _UM = (f"\N{NO-BREAK SPACE}{unit}" for unit in ("in", "mm", "um"))
_G = f"{_UM} without any change of limits (ISO 4042:1999 Table 2)"
ZINC_25 = FinishInput(text="ASTM B633 Fe/Zn 25")


@every(
    ("text", "finish", "remedies"),
    [
        # Fe/Zn 12 of at most 0.00075 in takes 0.003 of 0.0049 in; (0.0049 - 0.0012 - 0.0001) / 4; 1B: 0.0073 in
        (
            "1/4-20 UNC-2B", ZINC_25,
            [f"ASTM B633 Fe/Zn 12 SC3 fits: it leaves 0.0019{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.0009{_IN} anywhere in the thread fits", "class 1B fits: 1/4-20 UNC-1B", _MASK],
        ),
        # 0.0036 in: Fe/Zn 8 of at most 0.00045 in takes 0.0018; (0.0036 - 0.0012 - 0.0001) / 4 = 0.000575
        (
            "1/4-20 UNC-3B", ZINC_25,
            [f"ASTM B633 Fe/Zn 8 SC2 fits: it leaves 0.0018{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00057{_IN} anywhere in the thread fits", "class 1B fits: 1/4-20 UNC-1B", _MASK],
        ),
        # M6: 0.150 mm less 4 x 0.018; (0.150 - 0.046 - 0.001) / 4 = 0.02575; 7H has 0.190 - 0.150, 8H 0.236 - 0.150
        (
            "M6", ZINC_25,
            [f"ASTM B633 Fe/Zn 12 SC3 fits: it leaves 0.078{_MM} of pitch diameter tolerance",
             f"a coat of at most 0.0257{_MM} anywhere in the thread fits", "class 8H fits: M6x1-8H",
             f"position G takes a nominal coat of 5{_G}", _MASK],
        ),
        # 28 um take 0.112 mm: 6G has 0.026 mm more than 0.150, 7H 0.190; no specification, no thinner class of it
        (
            "M6", FinishInput(thickness=span("0.02", "0.028")),
            [f"a coat of at most 0.0257{_MM} anywhere in the thread fits", "class 6G fits: M6x1-6G",
             "class 7H fits: M6x1-7H", f"position G takes a nominal coat of 5{_G}", _MASK],
        ),
        # 6G has 0.034 mm of room: (0.200 + 0.034 - 0.062 - 0.001) / 4 = 0.04275; by the inch reading it has none
        (
            "M12-6G", FinishInput(thickness=span("0.05", "0.06")),
            [f"a coat of at most 0.0427{_MM} anywhere in the thread fits", _MASK],
        ),
        (
            "M12-6G", FinishInput(thickness=span("0", "0.06"), reading="asme"),
            [f"a coat of at most 0.0342{_MM} anywhere in the thread fits", _MASK],
        ),
        # heat scatters by 0.0002 in: (0.0049 - 0.0012 - 0.0002 - 0.0001) / 4; with 0.0036 in nothing is left
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0.0001", "0.0003")),
            [f"a coat of at most 0.00085{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0", "0.0035")),
            [f"a coat of at most 0.00002{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0.001", "0.003"), heat_treat_growth=span("0", "0.0036")),
            [_MASK],
        ),
        # half of the film lies outside: 0.0036 / (4 x 0.5)
        (
            "1/4-20 UNC-2B", FinishInput(thickness=span("0", "0.004"), growth_fraction=Decimal("0.5")),
            [f"a coat of at most 0.0018{_IN} anywhere in the thread fits", _MASK],
        ),
        # Class 12 of at most 0.000709 in takes 0.0029 of 0.0065 in; (0.0065 - 0.0015 - 0.0001) / 4 = 0.001225
        (
            "1/2-13 UNC-2B", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.0036{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00122{_IN} anywhere in the thread fits",
             f"tap oversize by 0.018{_IN} as ASTM A563 does for zinc of 40 um and more (from memory for ASTM B695)",
             _MASK],
        ),
        # no row of the overtapping table is fine; 0.4675 to 0.4731 in: a room of 0.0013, and 0.4731 less 0.4704
        (
            "1/2-20 UNF-2B", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.0027{_IN} of pitch diameter tolerance",
             f"a coat of at most 0.00105{_IN} anywhere in the thread fits", _MASK],
        ),
        (
            "M12", FinishInput(text="ASTM B695 Class 55"),
            [f"ASTM B695 Class 12 fits: it leaves 0.128{_MM} of pitch diameter tolerance",
             f"a coat of at most 0.0342{_MM} anywhere in the thread fits", f"position G takes a nominal coat of 8{_G}",
             _MASK],
        ),
    ],
)  # fmt: skip
def test_what_would_make_a_finish_possible(text, finish, remedies):
    found = allow(resolved(text), finish)
    assert found.feasible is False
    assert list(found.remedies) == remedies


# --- oversize for zinc ----------------------------------------------------------------------------------------------


@every(
    ("text", "large"),
    [("1 1/2-6 UNC-2B", False), ("1 3/4-5 UNC-2B", True), ("1/2-13 UNC-2B", False)],
)
def test_above_one_and_a_half_inches_the_bolt_may_be_cut_undersize(text, large):
    found = allow(resolved(text), FinishInput(text="ASTM A153"))
    said = [one.text for one in found.notes.cautions if one.code == "overtap_large"]
    assert bool(said) is large
    assert not large or said == [f"Above 1.5{_IN} it may be better to cut the bolt undersize (0.031{_IN}) instead."]


@every(
    ("text", "finish", "standard", "system", "status", "assumed"),
    [
        ("1/2-13 UNC-2B", "ASTM A153", "ASTM A563", "inch overtap", "second_hand", False),
        ("M12", "ISO 10684", "ISO 965-5", "6AZ", "second_hand", True),
        ("M12", "ISO 10684 6AZ", "ISO 965-5", "6AZ", "second_hand", False),
        ("M12", "ISO 10684 6AX", "ISO 965-5", "6AX", "second_hand", False),
        ("M12-6AX", "ISO 10684", "ISO 965-5", "6AX", "second_hand", False),
        ("M12", "ASTM A563M", "ASTM A563M", "6AX", "from_memory", False),
    ],
)
def test_the_system_of_an_overtap(text, finish, standard, system, status, assumed):
    found = allow(resolved(text), FinishInput(text=finish))
    assert (found.overtap.standard, found.overtap.system) == (standard, system)
    assert assumes(found, "position AZ is taken") is assumed
    source = next(one for one in found.notes.sources if one.field == "overtap")
    assert (source.document, source.status) == (standard, status)
    marks = [one.text for one in found.notes.cautions if one.code == "overtap_mark"]
    assert marks == ([] if system == "inch overtap" else [
        f"A nut tapped {system} is marked {system[-1]}; say so on the drawing of a tapped part."
    ])  # fmt: skip


@every(("text", "reduced"), [("M8", True), ("M10", True), ("M12", False), ("M14", False)])
def test_the_proof_load_of_m8_and_m10_is_reduced(text, reduced):
    found = allow(resolved(text), FinishInput(text="ISO 10684"))
    assert ("overtap_reduced_load" in [one.code for one in found.notes.cautions]) is reduced


def test_an_own_zone_needs_no_derivation_a_moved_one_shows_all_four_ends():
    assert not [step for step in allow(resolved("M12-6AZ"), FinishInput(text="ISO 10684")).notes.steps
                if step.quantity.startswith("overtap")]  # fmt: skip
    moved = [step for step in allow(resolved("M12"), FinishInput(text="ISO 10684")).notes.steps
             if step.quantity.startswith("overtap")]  # fmt: skip
    assert [(step.quantity, str(step.value)) for step in moved] == [
        ("overtap.amount", "0.335"),  # ISO 965-5: M12 AZ 335 um on 6H, 10.863 to 11.063 and 10.106 to 10.441
        ("overtap.limits.pitch_diameter.min", "11.198"),
        ("overtap.limits.pitch_diameter.max", "11.398"),
        ("overtap.limits.minor_diameter.min", "10.441"),
        ("overtap.limits.minor_diameter.max", "10.776"),
    ]
    assert moved[1].source == "ISO 965-5 position AZ"


@pytest.mark.parametrize("text", ["1/2-13 UNC-3B", "1/2-13 UNC-1B"])
def test_another_class_than_2b_names_it(text):
    with pytest.raises(FinishError) as refused:
        allow(resolved(text), FinishInput(text="ASTM A153"))
    assert refused.value.faults[0].did_you_mean == ("1/2-13 UNC-2B",)


def test_amounts_of_the_inch_table():
    assert overtap.inch_amount(HALF) == Decimal("0.018")
    assert overtap.inch_amount(resolved("1/2-20 UNF-2B")) is None
    assert overtap.inch_amount(resolved("1-4 SQUARE DEPTH .125")) is None


# --- sizes and materials --------------------------------------------------------------------------------------------


@every(
    ("text", "finish", "finish_class", "least"),
    [
        # 0.0017 in to 3/8 in, 0.002 in above; 3/8 in are 9.525 mm
        ("3/8-16 UNC-2B", "ASTM F2329", "to 3/8 in", "0.0017"),
        ("7/16-14 UNC-2B", "ASTM F2329", "over 3/8 in", "0.002"),
        ("M8", "ASTM F2329", "to 3/8 in", "0.04318"),
        ("M10", "ASTM F2329", "over 3/8 in", "0.0508"),
        ("3/8-16 UNC-2B", "ASTM A153", "Class D", "0.0017"),
        ("7/16-14 UNC-2B", "ASTM A153", "Class C", "0.0021"),
        ("3/8-16 UNC-2B", "ASTM F2329 .003 in min", "to 3/8 in", "0.003"),
        ("7/16-14 UNC-2B", "ASTM F2329 .003 in min", "over 3/8 in", "0.003"),
    ],
)
def test_the_row_of_a_size(text, finish, finish_class, least):
    found = allow(resolved(text), FinishInput(text=finish)).finish
    assert (found.finish_class, found.thickness.min) == (finish_class, Decimal(least))


@every(
    ("name", "family", "least"),
    [
        ("1018", "carbon steel", "0.010"),
        ("spring steel", None, "0.010"),
        ("bronze", None, "0.008"),
        ("a", "brass", "0.008"),
    ],
)
def test_tin_is_thicker_on_whatever_is_called_steel(name, family, least):
    part = Material(name, family, None, None, None, None, None, None, None, None)
    found = allow(M8, FinishInput(text="ASTM B545 Class C"), material=part)
    assert found.finish.thickness.min == Decimal(least)


def test_what_cannot_be_put_on_has_its_reason_for_a_remedy_and_no_caution():
    part = Material("the part", "aluminium", None, None, None, None, None, None, None, None)
    found = allow(HALF, FinishInput(text="ASTM A153"), material=part)
    (decision,) = found.notes.decisions
    assert (found.feasible, found.overtap, found.remedies) == (False, None, (decision.text,))
    assert found.notes.cautions == ()


def test_what_is_only_asked_about_stays_possible():
    part = Material("the part", "alloy steel", "P", None, None, 44.0, None, None, None, None)
    found = allow(HALF, FinishInput(text="QQ-P-416 Class 2"), material=part)
    assert [one.code for one in found.notes.decisions] == ["finish_prohibited"]
    assert (found.feasible, found.remedies) == (True, ())
    assert "plate_thin_in_deep_holes" in [one.code for one in found.notes.cautions]


def test_a_masked_part_hears_of_the_mask_only():
    part = Material("the part", "alloy steel", "P", None, None, None, 1450.0, None, None, None)
    found = allow(HALF, FinishInput(text="ASTM B633 SC2", masked=True), material=part)
    assert [one.code for one in found.notes.cautions] == ["mask_and_strip"]
    assert assumes(found, "the thread is masked")
    assert found.axial_movement is None
    assert allow(resolved("1/2-14 NPT"), FinishInput(masked=True)).axial_movement == NONE
