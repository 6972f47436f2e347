"""Facts of the trade about taps (common practice, no source) and worked examples with theirs."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.model import Diameters, Material, Range, Thread
from borewright.core.tapping import ChamferRoom, TapRequest, tap_build
from borewright.core.tapping.marking import decode


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def window(found: Thread, low: str, high: str) -> Diameters:
    inside = found.internal
    return Diameters(inside.major_diameter, Range(Decimal(low), Decimal(high)), inside.minor_diameter)


def material(family: str | None, group: str | None, *, chips="long", hardness: float | None = None) -> Material:
    return Material(
        name=family or "part",
        family=family,
        iso_group=group,
        chip_type=chips,
        hardness_hb=hardness,
        hardness_hrc=None,
        tensile_strength_mpa=None,
        yield_strength_mpa=None,
        shear_strength_mpa=None,
        value_basis=None,
    )


STEEL = material("carbon steel", "P", hardness=150)


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [("taper", 7, 10), ("plug", 3, 5), ("semi_bottoming", 2, Decimal("2.5")), ("bottoming", 1, 2)],
)
def test_chamfer_lengths_in_threads(name, least, most):
    found = tap_build.chamfer(name).chamfer
    assert (found.name, found.threads_min, found.threads_max) == (name, least, most)


@pytest.mark.parametrize(
    ("form", "least", "most"),
    [("A", "6", "8"), ("B", "3.5", "5.5"), ("C", "2", "3"), ("D", "3.5", "5"), ("E", "1.5", "2"), ("F", "1", "1.5")],
)
def test_chamfer_forms_of_din_2197(form, least, most):
    found = decode(f"M8x1.25 HSS-E ISO2 FORM {form}").chamfer
    assert (str(found.threads_min), str(found.threads_max)) == (least, most)


@pytest.mark.parametrize("letter", ["H", "L"])
def test_each_limit_step_is_half_a_thousandth_of_pitch_diameter(letter):
    tops = [decode(f"1/2-13 NC HSS G {letter}{number}").limit.pitch_diameter.max for number in range(1, 12)]
    assert {abs(after - before) for before, after in itertools.pairwise(tops)} == {Decimal("0.0005")}


@pytest.mark.parametrize(("label", "over_basic"), [("H2", "0.0010"), ("H3", "0.0015")])
def test_h2_and_h3_make_a_general_purpose_fit_in_half_thirteen(label, over_basic):
    found = decode(f"1/2-13 NC HSS G {label}")
    assert str(found.limit.pitch_diameter.max - found.thread.basic.pitch_diameter) == over_basic
    assert "2B" in {hold.thread_class for hold in found.holds}
    choice = tapping.recommend(thread("1/2-13 UNC-2B"), TapRequest(hole_kind="through"))
    fitting = {tap.limit.label for tap in (choice.recommended, *choice.alternatives)}
    assert label in fitting


def test_half_thirteen_marking():
    found = decode("1/2-13 NC HSS G H3")
    assert found.thread.designation == "1/2-13 UNC-2B"
    assert (found.substrate, found.ground, found.hand) == ("HSS", True, "right")
    assert (str(found.limit.pitch_diameter.min), str(found.limit.pitch_diameter.max)) == ("0.4510", "0.4515")
    assert found.unread == ()


def test_printed_limit_examples_of_the_handbook():
    """Machinery's Handbook 31st ed. p. 972: 3/8-16 H1 0.3344-0.3349, L2 0.3334-0.3339; 7/16-14 plus .0017.

    The amount is the minimum over basic: 0.3911 + 0.0017 = 0.3928; the tolerance of the H limits, 0.0005, is on top.
    """
    for marking, low, high in (
        ("3/8-16 NC HS H1", "0.3344", "0.3349"),
        ("3/8-16 NC HS L2", "0.3334", "0.3339"),
        ("7/16-14 NC HS PLUS .0017", "0.3928", "0.3933"),
    ):
        band = decode(marking).limit.pitch_diameter
        assert (str(band.min), str(band.max)) == (low, high)


def test_spiral_point_for_through_holes_and_spiral_flute_for_blind_ones():
    found = thread("3/8-16 UNC-2B")
    through = tapping.recommend(found, TapRequest(hole_kind="through", material=STEEL)).recommended
    blind = tapping.recommend(found, TapRequest(hole_kind="blind", material=STEEL)).recommended
    assert (through.style, through.chamfer.name) == ("spiral_point", "plug")
    assert blind.style == "spiral_flute"


@pytest.mark.parametrize("kind", ["blind", "through"])
@pytest.mark.parametrize(("family", "group"), [("grey iron", "K"), ("brass", "N")])
def test_straight_flutes_where_chips_break_short(kind, family, group):
    request = TapRequest(hole_kind=kind, material=material(family, group, chips="short"))
    assert tapping.recommend(thread("3/8-16 UNC-2B"), request).recommended.style == "straight_flute"


def test_hole_type_not_given_is_said():
    choice = tapping.recommend(thread("3/8-16 UNC-2B"), TapRequest(material=STEEL))
    assert choice.recommended.style == "straight_flute"
    assert any("blind or through was not given" in text for text in choice.notes.assumptions)


def test_two_taps_where_the_first_chamfer_has_no_room():
    found = thread("3/8-16 UNC-2B")
    room = Decimal("2.2") * found.pitch
    choice = tapping.recommend(found, TapRequest(hole_kind="blind", material=STEEL, chamfer_room=ChamferRoom(room)))
    assert choice.recommended.chamfer.name == "plug"
    assert choice.second_tap is not None
    assert choice.second_tap.chamfer.name == "bottoming"
    assert choice.second_tap.limit == choice.recommended.limit
    assert not [caution for caution in choice.notes.cautions if caution.code == "chamfer_room_short"]


def test_hole_without_room_for_any_chamfer_is_cautioned():
    found = thread("3/8-16 UNC-2B")
    choice = tapping.recommend(
        found, TapRequest(hole_kind="blind", material=STEEL, chamfer_room=ChamferRoom(found.pitch))
    )
    assert "chamfer_room_short" in {caution.code for caution in choice.notes.cautions}


def test_plating_takes_a_higher_limit():
    """1/4-28 UNF-2B, 0.0002 to 0.0003 in a side: before plating 0.2280-0.2319 (B1.1-1989 7.4.2, 7.5.2 by a gage note).

    Over basic 0.0012 to 0.0051: H4 to H10 lie inside; with oversize and wear the middle, H5 or H6, is taken.
    """
    found = thread("1/4-28 UNF-2B")
    choice = tapping.recommend(found, TapRequest(limits=window(found, "0.2280", "0.2319")))
    assert choice.recommended.limit.label in ("H5", "H6")
    plain = tapping.recommend(found, TapRequest()).recommended
    assert plain.limit.pitch_diameter.max < choice.recommended.limit.pitch_diameter.max
    others = {tap.limit.label for tap in choice.alternatives}
    assert {"H4", "H7", "H8"} <= others
    rejected = {tap.label for tap in choice.rejected}
    assert {"H1", "H2", "H3", "H11"} <= rejected


def test_looser_class_takes_no_lower_limit():
    labels = [
        tapping.recommend(thread(f"3/8-16 UNC-{name}"), TapRequest()).recommended.limit.label
        for name in ("3B", "2B", "1B")
    ]
    assert [int(label[1:]) for label in labels] == sorted(int(label[1:]) for label in labels)
    assert labels[0] == "H3"


def test_arithmetic_of_the_fit():
    """1/4-20, class 2B 0.2175-0.2224: 0.15 of the tolerance is 0.0007 in (derived assumption); H5 is 0.2195-0.2200."""
    arithmetic = tapping.recommend(thread("1/4-20 UNC-2B"), TapRequest()).recommended.fit
    assert str(arithmetic.cut_oversize) == "0.0007"
    assert str(arithmetic.largest_cut) == "0.2207"
    assert str(arithmetic.margin_below_max) == "0.0017"
    assert str(arithmetic.margin_above_min) == "0.0020"


def test_oversize_is_taken_from_the_general_purpose_class():
    """The same tap cuts the same whatever class the hole is called: 1/4-20, 0.0007 in."""
    for thread_class in ("1B", "2B", "3B"):
        arithmetic = tapping.recommend(thread(f"1/4-20 UNC-{thread_class}"), TapRequest()).recommended.fit
        assert str(arithmetic.cut_oversize) == "0.0007"
    for thread_class in ("4H", "6H", "6G", "7H"):  # TD2 of grade 6 is 0.160 at M8: 0.024
        arithmetic = tapping.recommend(thread(f"M8-{thread_class}"), TapRequest()).recommended.fit
        assert str(arithmetic.cut_oversize) == "0.024"


@pytest.mark.parametrize(
    ("callout_text", "label", "numbered"),
    [
        ("M8-6H", "ISO 2", "D5"),
        ("M8-4H", "ISO 1", "D3"),
        ("MJ8x1.25-4H6H", "ISO 1", "D3"),
        ("M12x1.25-6H", "ISO 2", None),
        ("M8-6G", "ISO 3", None),
        ("M8-7H", "ISO 3", None),
        ("M8-5H", "ISO 1", None),
    ],
)
def test_metric_limits_by_class(callout_text, label, numbered):
    """ISO 2857: class 1 for 4H and 5H, 2 for 6H, 3 for 7H, 8H and 6G; D limits where they are asked for and tabled."""
    assert tapping.recommend(thread(callout_text), TapRequest()).recommended.limit.label == label
    if numbered is not None:
        asked = TapRequest(tap_limits="metric_d")
        assert tapping.recommend(thread(callout_text), asked).recommended.limit.label == numbered


@pytest.mark.parametrize(("callout_text", "deviation"), [("M12-6AZ", "335"), ("M12-6AX", "365"), ("M24-6AX", "640")])
def test_galvanized_classes_are_ordered_over_basic(callout_text, deviation):
    """No ISO tap class fits 6AZ or 6AX: basic pitch diameter, EI and the tap's own band (ISO 965-5, ISO 2857)."""
    found = thread(callout_text)
    tap = tapping.recommend(found, TapRequest()).recommended
    assert tap.limit.label.startswith("basic plus ")
    least = found.basic.pitch_diameter + Decimal(deviation) / 1000
    assert least <= tap.limit.pitch_diameter.min < tap.limit.pitch_diameter.max
    assert tap.fit.largest_cut <= found.internal.pitch_diameter.max


def test_hot_dip_zinc_is_ordered_over_basic():
    """ASTM A563 overtap of 1/2-13: 0.018 in, pitch diameter 0.4680-0.4745."""
    found = thread("1/2-13 UNC-2B")
    tap = tapping.recommend(found, TapRequest(limits=window(found, "0.4680", "0.4745"))).recommended
    assert tap.limit.label.startswith("basic plus 0.0")
    assert Decimal("0.4680") <= tap.limit.pitch_diameter.min
    assert tap.fit.largest_cut <= Decimal("0.4745")
    assert decode(tap.marking).limit == tap.limit


@pytest.mark.parametrize(
    ("callout_text", "cut", "formed"),
    [
        ("#4-40 UNC-2B", "H2", "H3"),
        ("#10-24 UNC-2B", "H3", "H5"),
        ("3/8-16 UNC-2B", "H5", "H7"),
        ("1/2-13 UNC-2B", "H5", "H7"),
    ],
)
def test_forming_taps_are_larger_than_cutting_taps(callout_text, cut, formed):
    """Common practice: one number to #6, two above."""
    found = thread(callout_text)
    assert tapping.recommend(found, TapRequest()).recommended.limit.label == cut
    tap = tapping.recommend(found, TapRequest(method="form", material=STEEL)).recommended
    assert (tap.style, tap.limit.label) == ("forming", formed)


@pytest.mark.parametrize(
    ("group", "hardness", "substrate"),
    [("P", 150, "HSS"), ("P", 260, "HSS-E"), ("P", 340, "HSS-E-PM"), ("H", 560, "carbide")],
)
def test_harder_steel_takes_a_better_grade(group, hardness, substrate):
    request = TapRequest(hole_kind="through", material=material(None, group, hardness=hardness))
    assert tapping.recommend(thread("3/8-16 UNC-2B"), request).recommended.substrate == substrate


def test_deep_threads_are_cautioned():
    found = thread("1/4-20 UNC-2B")
    for depth, said in (("0.5", False), ("0.8", True)):
        style = tapping.recommend(found, TapRequest(hole_kind="blind", material=STEEL)).recommended.style
        codes = {caution.code for caution in tapping.depth_cautions(found, Decimal(depth), style=style, method="cut")}
        assert ("deep_thread" in codes) is said
