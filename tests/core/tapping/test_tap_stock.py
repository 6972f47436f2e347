"""Taps in the crib: limits and full shank markings weighed for the thread (invented cribs of Kestrel Ridge Pumps)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards, tapping
from borewright.core.errors import TapError
from borewright.core.model import Diameters, Range, Thread
from borewright.core.tapping import ChamferRoom, TapRequest


def thread(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def choose(text: str, *stock: str, **known):
    return tapping.recommend(thread(text), TapRequest(stock=stock, **known))


def plated(text: str, low: str, high: str) -> Diameters:
    inside = thread(text).internal
    return Diameters(inside.major_diameter, Range(Decimal(low), Decimal(high)), inside.minor_diameter)


def codes(choice) -> set[str]:
    return {caution.code for caution in choice.notes.cautions}


def test_the_recommended_limit_is_taken_from_the_crib():
    choice = choose("1/2-13 UNC-2B", "H3", "H5")
    assert (choice.recommended.limit.label, choice.recommended.in_stock) == ("H5", True)
    assert (choice.alternatives[0].limit.label, choice.alternatives[0].in_stock) == ("H3", True)


def test_another_limit_that_fits_is_taken_before_buying():
    choice = choose("1/2-13 UNC-2B", "H3")
    assert (choice.recommended.limit.label, choice.recommended.in_stock) == ("H3", True)
    bought = {tap.limit.label for tap in choice.alternatives if tap.in_stock is False}
    assert "H5" in bought
    assert "H3" not in bought


def test_shank_markings_are_read_and_kept():
    choice = choose("1/2-13 UNC-2B", "3/8-16 NC HSS G H3", "1/2-13 NC HSS-E TiN G H3 PLUG")
    tap = choice.recommended
    assert tap.marking == "1/2-13 NC HSS-E TiN G H3 PLUG"
    assert (tap.limit.label, tap.substrate, tap.surface, tap.chamfer.name) == ("H3", "HSS-E", "TiN", "plug")
    assert "is for 3/8-16 UNC-2B" in {tap.reason for tap in choice.rejected if tap.label.startswith("3/8")}


def test_what_is_not_read_on_a_shank_is_told():
    tap = choose("1/2-13 UNC-2B", "1/2-13 NC HSS G H3 Kestrel").recommended
    assert tap.in_stock
    assert "not read on its shank: Kestrel" in tap.reasons


def test_a_makers_own_position_and_an_oversize_tap_stay_in_the_crib():
    choice = choose("M8", "M8x1.25 6HX HSS-E")
    assert choice.recommended.in_stock is False
    assert "maker's own position" in choice.rejected[-1].reason
    choice = choose("3/8-16 UNC-2B", "3/8-16 NC HS G H3 +.005")
    assert choice.recommended.in_stock is False
    assert "above the maximum" in choice.rejected[-1].reason


def test_a_crib_without_a_fitting_tap_says_what_to_buy():
    choice = choose("1/4-28 UNF-2B", "H2", "H3", limits=plated("1/4-28 UNF-2B", "0.2280", "0.2319"))
    assert choice.recommended.in_stock is False
    assert "stock_has_no_tap" in codes(choice)
    rejected = {tap.label: tap.reason for tap in choice.rejected}
    assert "below the least pitch diameter" in rejected["H3"]
    assert any(choice.recommended.marking in caution.text for caution in choice.notes.cautions)


def test_an_empty_crib_is_a_crib():
    choice = choose("M8")
    assert choice.recommended.in_stock is False
    assert "stock_has_no_tap" in codes(choice)


def test_without_a_crib_nothing_is_said_about_stock():
    choice = tapping.recommend(thread("M8"), TapRequest())
    assert choice.recommended.in_stock is None
    assert "stock_has_no_tap" not in codes(choice)


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("1/2-13 UNC-2B", "D5"),
        ("M8", "H3"),
        ("M8", "M8x1.25 LH D5"),
        ("1/2-13 UNC-2B", "1/2-13 NC HSS G"),
        ("1/2-13 UNC-2B", "1/2-20 NF HSS G H3"),
        ("1/2-13 UNC-2B", "blue box, second drawer"),
        ("1/2-13 UNC-2B", ""),
    ],
)
def test_entries_that_cannot_make_the_thread_are_told_with_a_reason(text, entry):
    choice = choose(text, entry)
    assert choice.recommended.in_stock is False
    assert choice.rejected[-1].reason


@pytest.mark.parametrize("entry", ["H0", "Q7", "ISO 4", "X 12"])
def test_what_looks_like_a_limit_and_is_none_is_refused(entry):
    with pytest.raises(TapError) as refused:
        choose("1/2-13 UNC-2B", "H3", entry)
    assert refused.value.code == "tap_limit_unknown"
    assert refused.value.faults[0].pointer == "/stock/taps/1"
    assert refused.value.faults[0].allowed


def test_a_chamfer_without_room_is_left_in_the_crib():
    found = thread("3/8-16 UNC-2B")
    room = ChamferRoom(Decimal(3) * found.pitch)
    choice = choose("3/8-16 UNC-2B", "3/8-16 NC G H5 PLUG", "3/8-16 NC G H3 BOTT", hole_kind="blind", chamfer_room=room)
    assert choice.recommended.marking == "3/8-16 NC G H3 BOTT"
    assert "no room" in choice.rejected[-1].reason
