"""Taps for threads without tap-limit tables: taper pipe, deep forms, inserts (common practice).

The threads are Unified ones with the features that matter to a tap changed, so that no other standard is needed here.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.errors import TapError
from borewright.core.model import BasicDiameters, Diameters, Material, Range, Thread
from borewright.core.tapping import TapRequest


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def taper_pipe() -> Thread:
    return replace(
        thread("1/2-28 UNEF-2B"),
        designation="1/8-27 NPT",
        system="npt",
        thread_class=None,
        taper=Decimal("0.0625"),
    )


def deep_form(angle: str, height_in_pitches: str) -> Thread:
    """A form of that angle and height (major less minor diameter, in pitches)."""
    found = thread("1-8 UNC-2B")
    minor = found.nominal_diameter - Decimal(height_in_pitches) * found.pitch
    basic = BasicDiameters(found.nominal_diameter, found.basic.pitch_diameter, minor)
    return replace(found, designation="a 1-8", system="square", thread_angle=Decimal(angle), basic=basic)


def insert(text: str, *, open_top: bool) -> Thread:
    """An insert thread of the nominal thread's size; the inch standards' maximum pitch diameter is not held."""
    nominal = thread(text)
    shift = 2 * (nominal.nominal_diameter - nominal.basic.pitch_diameter)
    inside = nominal.internal
    low, high = inside.pitch_diameter.min + shift, inside.pitch_diameter.max + shift
    raised = Range(low, None if open_top else high)
    basic = BasicDiameters(
        nominal.basic.major_diameter + shift, nominal.basic.pitch_diameter + shift, nominal.basic.minor_diameter + shift
    )
    return replace(
        nominal,
        system="insert_unified" if nominal.unit == "in" else "insert_metric",
        basic=basic,
        internal=Diameters(inside.major_diameter, raised, inside.minor_diameter),
    )


def material(group: str, chips: str) -> Material:
    return Material("part", None, group, chips, None, None, None, None, None, None)


@pytest.mark.parametrize(
    ("group", "chips", "style"),
    [
        ("P", "long", "taper_pipe"),
        ("K", "short", "taper_pipe"),
        ("M", "long", "interrupted"),
        ("N", "long", "interrupted"),
    ],
)
def test_taper_threads(group, chips, style):
    choice = tapping.recommend(taper_pipe(), TapRequest(hole_kind="blind", material=material(group, chips)))
    assert choice.recommended.style == style
    assert choice.recommended.limit is None
    assert choice.recommended.fit is None
    assert choice.recommended.marking.startswith("1/8-27 NPT HSS")
    assert choice.alternatives == ()


@pytest.mark.parametrize("found", [taper_pipe(), deep_form("29", "1")], ids=["taper", "29 degrees"])
def test_forming_taps_make_straight_60_degree_threads_only(found):
    with pytest.raises(TapError) as refused:
        tapping.recommend(found, TapRequest(method="form"))
    assert refused.value.code == "method_not_applicable"
    assert refused.value.faults[0].pointer == "/method"


@pytest.mark.parametrize(("group", "chips"), [("K", "short"), ("H", "long"), ("S", "long")])
def test_forming_taps_want_metal_that_flows(group, chips):
    with pytest.raises(TapError) as refused:
        tapping.recommend(thread("3/8-16 UNC-2B"), TapRequest(method="form", material=material(group, chips)))
    assert refused.value.code == "method_not_applicable"


@pytest.mark.parametrize(
    ("angle", "height", "taps"),
    [("29", "1", 2), ("30", "1", 2), ("0", "1", 2), ("29", "0.6", 1), ("60", "1.08", 1), ("55", "1.28", 1)],
)
def test_deep_forms_are_roughed_and_finished(angle, height, taps):
    """Acme, trapezoidal and square threads are half a pitch deep on a narrow angle; stub Acme 0.3 pitch."""
    for kind in ("blind", "through"):
        choice = tapping.recommend(deep_form(angle, height), TapRequest(hole_kind=kind))
        assert (1 if choice.second_tap is None else 2) == taps
        assert choice.recommended.limit is None


def test_insert_taps_are_taken_from_the_printed_table_where_the_maximum_is_not_held():
    """ASME B94.9-2008 (R2018) Table 25: 1/4-20, 2B H3 0.2835-0.2840, 3B H2 0.2830-0.2835."""
    for thread_class, label, low, high in (("2B", "H3", "0.2835", "0.2840"), ("3B", "H2", "0.2830", "0.2835")):
        found = insert(f"1/4-20 UNC-{thread_class}", open_top=True)
        tap = tapping.recommend(found, TapRequest(stock=(label,))).recommended
        assert (tap.limit.label, str(tap.limit.pitch_diameter.min), str(tap.limit.pitch_diameter.max)) == (
            label,
            low,
            high,
        )
        assert tap.fit is None
        assert tap.in_stock is True
        assert tap.marking == f"1/4-20 NC STI HSS G {label}"
        assert tapping.limit_for(found, found.internal)[:2] == (tap.limit, None)


def test_an_insert_tap_of_another_class_is_left_in_the_crib():
    choice = tapping.recommend(insert("1/4-20 UNC-3B", open_top=True), TapRequest(stock=("H3",)))
    assert choice.recommended.in_stock is False
    assert choice.rejected[-1].label == "H3"


def test_insert_sizes_that_the_tap_table_lacks_have_no_limit():
    choice = tapping.recommend(insert("9/16-12 UNC-2B", open_top=True), TapRequest())
    assert choice.recommended.limit is None
    assert any("no tap limit table" in text for text in choice.recommended.reasons)


def test_metric_insert_taps_are_weighed():
    """ASME B94.9-2008 (R2018) Table 26a: M8x1.25, 4H, H2 0.3475-0.3480 in."""
    tap = tapping.recommend(insert("M8-4H", open_top=False), TapRequest()).recommended
    assert tap.limit.label == "H2"
    assert f"{tap.limit.pitch_diameter.max / Decimal('25.4'):.4f}" == "0.3480"
    assert tap.fit.margin_below_max >= 0
    assert tap.marking == "M8x1.25 STI HSS G H2"


@pytest.mark.parametrize("text", ["1/4-20 UNC-2B LH", "M10x1-6H LH"])
def test_left_hand_taps_are_marked(text):
    assert " LH " in tapping.recommend(thread(text), TapRequest()).recommended.marking


def test_threads_without_any_tap_limit_say_so():
    """M1x0.2 has no grade 5, so no tap class, and no D limit."""
    choice = tapping.recommend(thread("M1x0.2"), TapRequest())
    assert choice.recommended.limit is None
    assert any("no tap limit table" in text for text in choice.recommended.reasons)
