"""Stocked limits first, one system of limits a reply, and complete words for what must be ordered."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest
from borewright.core import callout, finishing, standards, tapping
from borewright.core.errors import TapError
from borewright.core.model import FinishInput, Material, Range, Thread
from borewright.core.tapping import TapRequest, availability, limits
from borewright.core.tapping.equivalents import equivalents
from borewright.core.tapping.marking import decode
from borewright.tables import load
from hypothesis import given
from hypothesis import strategies as st


@cache
def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def coated(text: str, finish: str, **known):
    found = thread(text)
    allowance = finishing.allow(found, FinishInput(text=finish))
    request = TapRequest(limits=allowance.before_finish, coat=finishing.coat_to_come(allowance), **known)
    return tapping.recommend(found, request)


def material(family: str, group: str, chips: str) -> Material:
    return Material(family, family, group, chips, None, None, None, None, None, None)


# --- stocked first ------------------------------------------------------------------------------------


def test_a_plated_thread_takes_the_stocked_limit_that_fits():
    """1/2-13 2B under Fe/Zn 12: 0.4530 to 0.4565 to be made; H7 (0.4530-0.4535) is stocked, H8 and H9 are not."""
    choice = coated("1/2-13 UNC-2B", "ASTM B633 Fe/Zn 12")
    assert (choice.recommended.limit.label, choice.recommended.availability) == ("H7", "standard")
    assert choice.recommended.order_text is None
    others = {tap.limit.label: tap.availability for tap in choice.alternatives}
    assert others["H8"] == others["H9"] == "special"
    assert not choice.notes.decisions


@pytest.mark.parametrize("text", ["#4-40 UNC-2B", "1/4-28 UNF-3B"])
def test_a_limit_that_nobody_stocks_is_ordered_in_full(text):
    """Hard anodize asks for 0.0050 to 0.0055 over basic: no list holds H11 at these sizes."""
    tap = coated(text, "MIL-A-8625 Type III", hole_kind="blind").recommended
    assert (tap.limit.label, tap.availability) == ("H11", "special")
    name, tpi = text.lstrip("#").split(" ")[0].split("-")
    size, series = f"{name}-{tpi}", text.split(" ")[1][:3]
    for word in (size, series, "H11", "spiral flute", "semi-bottoming", "HSS", "right-hand"):
        assert word in tap.order_text
    assert str(tap.limit.pitch_diameter.min) in tap.order_text


def test_a_special_tap_is_a_question_unless_the_crib_has_it():
    found = coated("#4-40 UNC-2B", "MIL-A-8625 Type III")
    (asked,) = found.notes.decisions
    assert asked.code == "tap_made_to_order"
    assert found.recommended.order_text in asked.text
    held = coated("#4-40 UNC-2B", "MIL-A-8625 Type III", stock=("H11",))
    assert (held.recommended.in_stock, held.recommended.availability) == (True, "special")
    assert not held.notes.decisions


def test_a_metric_thread_that_no_class_makes_is_ordered_by_its_amount():
    """M6 under 0.0005 in of nickel: 5.427 to 5.500 mm; ISO 3 ends at 5.433, so the amount over basic is written."""
    tap = coated("M6", "electroless nickel 0.0005 in").recommended
    amount = Decimal(tap.limit.label.removeprefix("basic plus "))
    assert tap.limit.pitch_diameter.min == Decimal("5.350") + amount
    assert Decimal("5.427") <= tap.limit.pitch_diameter.min
    assert tap.fit.largest_cut <= Decimal("5.500")
    assert tap.availability == "special"
    assert f"basic plus at least {amount.normalize()}" in tap.order_text
    assert tap.marking.endswith(f"PLUS {amount}")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1/4-20 UNC-2B", "standard"),
        ("1/4-28 UNF-3B", "standard"),
        ("1/4-32 UNEF-2B", "standard"),
        ("5/16-27 UNS-2B", "special"),
        ("1 1/4-7 UNC-2B", "standard"),
        ("2-4.5 UNC-2B", "standard"),
        ("M8", "standard"),
        ("M12x1.25-6H", "standard"),
        ("M12-6AZ", "special"),
    ],
)
def test_which_threads_have_stocked_taps(text, kind):
    tap = tapping.recommend(thread(text), TapRequest()).recommended
    assert tap.availability == kind
    assert (tap.order_text is None) is (kind == "standard")


def test_large_sizes_take_the_printed_limit():
    """Machinery's Handbook 31st ed. Table 21 prints H4 for every size over 1 in that it lists."""
    for row in load("tap_limits_over_1in").rows:
        found = thread(f"{row['nominal_in']}-{row['tpi']}")
        assert tapping.recommend(found, TapRequest()).recommended.limit.label == row["label"] == "H4"


def test_stock_rows_are_limits_of_their_size():
    """Every stocked limit is one that the limit tables know for the size, and has a status."""
    for row in load("tap_stock_limits").rows:
        assert row["status"] in ("published", "from_memory", "common_practice")
        assert row["basis"]
        if row["nominal"]:
            size = decode(f"{Decimal(row['nominal']):.4f}-{row['per']} G").thread
            assert (size.nominal_diameter, size.threads_per_inch) == (Decimal(row["nominal"]), Decimal(row["per"]))
            for label in row["labels"].split("; "):
                assert limits.labelled(size, label) is not None


def test_the_published_rows_are_the_printed_ones():
    """#0-80 to #5-40: H1 and H2 (Table 20); 7/8-14, 1-8, 1-12, 1-14 as Table 21 was seen."""
    printed = {"#0-80": "H1 H2", "#4-40": "H1 H2", "7/8-14": "H2 H4", "1-8": "H4 H6", "1-12": "H4", "1-14": "H4"}
    for size, labels in printed.items():
        listed = availability.stocked_limits(decode(f"{size.lstrip('#')} G").thread, "cut")
        assert {label for label, held in listed.items() if held.status == "published"} == set(labels.split())


THREADS = st.sampled_from(
    [
        "#6-32 UNC-2B",
        "1/4-20 UNC-2B",
        "3/8-24 UNF-2B",
        "1/2-13 UNC-3B",
        "3/4-10 UNC-2B",
        "1-8 UNC-2B",
        "M5",
        "M8",
        "M10x1",
    ]
)


@given(THREADS, st.integers(0, 25), st.sampled_from(["cut", "form"]), st.sampled_from([None, "metric_d"]))
def test_a_special_is_never_first_while_a_stocked_limit_fits(text, microns, method, system):
    found = thread(text)
    um = Decimal(microns) / 1000 if found.unit == "mm" else (Decimal(microns) / 25400).quantize(Decimal("0.000001"))
    pitch = found.internal.pitch_diameter
    moved = replace(found.internal, pitch_diameter=Range(pitch.min + 4 * um, pitch.max + 4 * um))
    try:
        choice = tapping.recommend(found, TapRequest(method=method, limits=moved, tap_limits=system))
    except TapError:
        return
    kinds = [tap.availability for tap in (choice.recommended, *choice.alternatives)]
    assert kinds == sorted(kinds, key="special".__eq__)
    assert (choice.recommended.order_text is None) is (kinds[0] == "standard")
    assert ("tap_made_to_order" in {one.code for one in choice.notes.decisions}) is (kinds[0] == "special")


@pytest.mark.parametrize(("text", "words"), [("Tr20x8(P4)", "ground tap Tr 20x8(P4)-7H, "), ("1/2-10 ACME-2G", "")])
def test_a_tap_of_more_than_one_start_is_made_to_order(text, words):
    tap = tapping.recommend(thread(text), TapRequest()).recommended
    assert (tap.order_text or "").startswith(words)
    assert (tap.availability == "special") is (words != "")


# --- one system a reply -------------------------------------------------------------------------------

SYSTEM_OF = {
    "inch_h": re.compile(r"H[0-9]+"),
    "metric_d": re.compile(r"D[0-9]+"),
    "iso_class": re.compile(r"ISO [123]"),
}


@pytest.mark.parametrize(
    ("text", "asked", "used"),
    [
        ("M20", None, "iso_class"),
        ("M20", "iso_class", "iso_class"),
        ("M20", "metric_d", "metric_d"),
        ("M20", "inch_h", "iso_class"),
        ("M30x2", None, "iso_class"),
        ("1/2-13 UNC-2B", None, "inch_h"),
        ("1/2-13 UNC-2B", "metric_d", "inch_h"),
        ("M8 STI", "iso_class", "inch_h"),
    ],
)
def test_one_system_of_limits_a_reply(text, asked, used):
    choice = tapping.recommend(thread(text), TapRequest(tap_limits=asked))
    for tap in (choice.recommended, *choice.alternatives):
        assert SYSTEM_OF[used].fullmatch(tap.limit.label)
        assert not any(SYSTEM_OF[used].fullmatch(other.label) for other in tap.equivalents)
    told = any("are not made to" in text for text in choice.notes.assumptions)
    assert told is (asked is not None and asked != used)


@pytest.mark.parametrize(
    ("stock", "others"),
    [
        (("D5", "H3"), "ISO [123]"),
        (("M8x1.25 HSS G D5",), "ISO [123]"),
        (("ISO 2",), "D[0-9]+"),
        (("M8x1.25 6H",), "D[0-9]+"),
    ],
)
def test_a_crib_is_answered_in_its_own_system(stock, others):
    tap = tapping.recommend(thread("M8"), TapRequest(stock=stock)).recommended
    assert tap.in_stock
    assert tap.equivalents
    assert all(re.fullmatch(others, one.label) for one in tap.equivalents)


@pytest.mark.parametrize("system", ["iso_class", "metric_d"])
@pytest.mark.parametrize("text", ["M3", "M8", "M8-4H", "M10x1.5-6H", "M24"])
def test_equivalents_hold_the_same_limits_of_the_thread(text, system):
    found = thread(text)
    tap = tapping.recommend(found, TapRequest(tap_limits=system)).recommended
    window = found.internal.pitch_diameter
    assert tap.equivalents
    for other in tap.equivalents:
        assert window.min <= other.pitch_diameter.min
        assert other.pitch_diameter.max + tap.fit.cut_oversize <= window.max


@pytest.mark.parametrize(("most", "labels"), [("7.277", ["D3", "D5"]), ("7.276", ["D3"])])
def test_an_equivalent_may_just_fill_the_limits(most, labels):
    """D5 ends 5 x 0.013 over 7.188 mm and cuts 0.15 x 0.16 more: 7.277 mm."""
    window = Range(Decimal("7.188"), Decimal(most))
    found = equivalents(thread("M8"), window, method="cut", system="iso_class", judge=None)
    assert [one.label for one in found] == labels


def test_a_size_that_the_d_table_lacks_has_the_classes_only():
    """The D table has no M30x2."""
    assert not availability.stocked_limits(thread("M30x2"), "cut").keys() & {f"D{number}" for number in range(1, 12)}


# --- J threads, hand, forming -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "marking"),
    [("1/4-28 UNJF-3B", "1/4-28 NF HSS G H3"), ("MJ8x1.25-4H6H", "M8x1.25 HSS ISO1/4H")],
)
def test_a_j_hole_takes_the_standard_tap(text, marking):
    """ASME B1.15, ISO 5855-1: an internal J thread differs from the common one in its minor diameter only."""
    tap = tapping.recommend(thread(text), TapRequest()).recommended
    assert tap.marking == marking
    assert tap.availability == "standard"
    assert any("only the drill and the plain plug differ" in reason for reason in tap.reasons)


@pytest.mark.parametrize(("kind", "chamfers"), [("blind", ["plug", "bottoming"]), ("through", ["plug"])])
def test_hand_tapping_takes_hand_taps(kind, chamfers):
    """Common practice: straight flutes; plug, then bottoming, in a blind hole."""
    request = TapRequest(hole_kind=kind, material=material("aluminium wrought", "N", "long"), tapping="hand")
    choice = tapping.recommend(thread("1/4-20 UNC-2B"), request)
    taps = [choice.recommended, *([choice.second_tap] if choice.second_tap else [])]
    assert [tap.chamfer.name for tap in taps] == chamfers
    assert {tap.style for tap in taps} == {"straight_flute"}


def test_tough_metal_is_started_with_a_taper_tap_by_hand():
    request = TapRequest(hole_kind="blind", material=material("titanium", "S", "long"), tapping="hand")
    assert tapping.recommend(thread("1/4-20 UNC-2B"), request).recommended.chamfer.name == "taper"


@pytest.mark.parametrize(
    ("family", "chips", "trial"),
    [("aluminium cast", "short", True), ("aluminium cast", "long", True), ("zinc die cast", "short", False)],
)
def test_cast_aluminium_and_zinc_are_formed(family, chips, trial):
    """Common practice (table tap_practice): aluminium cast = trial, zinc = yes."""
    request = TapRequest(hole_kind="blind", method="form", material=material(family, "N", chips))
    choice = tapping.recommend(thread("M8"), request)
    assert choice.recommended.style == "forming"
    codes = {one.code for one in choice.notes.decisions}
    assert ("forming_trial" in codes) is trial
    assert ("forming_needs_trial" in {one.code for one in choice.notes.cautions}) is not trial


def test_forming_taps_of_a_class_are_told_by_the_makers_position():
    reasons = tapping.recommend(thread("M8"), TapRequest(method="form")).recommended.reasons
    assert any("6HX" in reason for reason in reasons)
