"""Shank markings as they are etched: every usual spelling, and what is not understood kept."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import tapping
from borewright.core.errors import BorewrightError, TapError
from borewright.core.tapping.marking import decode
from hypothesis import given
from hypothesis import strategies as st

SPELLINGS = [
    ("1/2-13 NC HSS G H3", "1/2-13 UNC-2B", "H3"),
    ("1/2 13 UNC HS GH3", "1/2-13 UNC-2B", "H3"),
    ("1/2-13UNC-2B GH3", "1/2-13 UNC-2B", "H3"),
    ("½-13 UNC g h3", "1/2-13 UNC-2B", "H3"),
    ('1/2"-13 NC H-3', "1/2-13 UNC-2B", "H3"),
    (".500-13 NC G H 3", "1/2-13 UNC-2B", "H3"),
    ("1 1/2-6 NC HSS G H4", "1 1/2-6 UNC-2B", "H4"),
    ("1-1/2-6 NC HSS G H4", "1 1/2-6 UNC-2B", "H4"),
    ("10-32 NF HSS G H3", "#10-32 UNF-2B", "H3"),
    ("#10-32 GH3", "#10-32 UNF-2B", "H3"),
    ("No. 10-32 NF GH3", "#10-32 UNF-2B", "H3"),
    ("1-8 NC G H4", "1-8 UNC-2B", "H4"),
    ("1 1/8-8N G H4", "1 1/8-8 UN-2B", "H4"),
    ("1/4-20 LH G L2", "1/4-20 UNC-2B LH", "L2"),
    ("1/4-28 UNJF-3B GH3", "1/4-28 UNJF-3B", "H3"),
    ("M8 X 1.25 HSS-E ISO2 6H", "M8x1.25-6H", "ISO 2"),
    ("M8X1,25 HSS-E 6H/ISO2", "M8x1.25-6H", "ISO 2"),
    ("M8×1.25 ISO 2", "M8x1.25-6H", "ISO 2"),
    ("M8-1.25 HSS D5", "M8x1.25-6H", "D5"),
    ("M8 1.25 D5", "M8x1.25-6H", "D5"),
    ("M8 6H HSSE", "M8x1.25-6H", "ISO 2"),
    ("MF10x1 6G", "M10x1-6G", "ISO 3"),
    ("M6 DU2", "M6x1-6H", "DU2"),
    ("HSS M42 1/2-13 GH3", "1/2-13 UNC-2B", "H3"),
    ("2 FL 10-32 NF GH3 SP PT", "#10-32 UNF-2B", "H3"),
]


@pytest.mark.parametrize(("marking", "designation", "label"), SPELLINGS, ids=[row[0] for row in SPELLINGS])
def test_spellings(marking, designation, label):
    found = decode(marking)
    assert found.thread.designation == designation
    assert found.limit.label == label
    assert found.ground


WORDS = [
    ("1/2-13 HS", "substrate", "HSS"),
    ("1/2-13 HSS", "substrate", "HSS"),
    ("1/2-13 HSS-E", "substrate", "HSS-E"),
    ("1/2-13 HSS E", "substrate", "HSS-E"),
    ("1/2-13 HSS-Co", "substrate", "HSS-E"),
    ("1/2-13 CS", "substrate", "carbon_steel"),
    ("1/2-13 PM", "substrate", "HSS-E-PM"),
    ("1/2-13 CARB", "substrate", "carbide"),
    ("1/2-13 GH3", "substrate", None),
    ("1/2-13 GH3 TiN", "surface", "TiN"),
    ("1/2-13 GH3 TICN", "surface", "TiCN"),
    ("1/2-13 GH3 TiAlN", "surface", "TiAlN"),
    ("1/2-13 GH3 OX", "surface", "oxide"),
    ("1/2-13 GH3 NIT", "surface", "nitride"),
    ("1/2-13 GH3 CRM", "surface", "chromium"),
    ("1/2-13 GH3", "surface", None),
    ("1/2-13 SPIRAL POINT", "style", "spiral_point"),
    ("1/2-13 GH3", "hand", "right"),
    ("1/2-13 LH GH3", "hand", "left"),
    ("1/2-13 L.H. GH3", "hand", "left"),
    ("1/2-13 left hand GH3", "hand", "left"),
]


@pytest.mark.parametrize(("marking", "field", "value"), WORDS, ids=[f"{row[0]} {row[1]}" for row in WORDS])
def test_words(marking, field, value):
    assert getattr(decode(marking), field) == value


@pytest.mark.parametrize(
    ("marking", "name"),
    [
        ("TAPER", "taper"),
        ("PLUG", "plug"),
        ("BOTT", "bottoming"),
        ("BOTTOMING", "bottoming"),
        ("SEMI-BOTT", "semi_bottoming"),
    ],
)
def test_chamfer_words(marking, name):
    assert decode(f"3/8-16 NC G H3 {marking}").chamfer.name == name


def test_unknown_words_are_listed_as_etched():
    found = decode("1/2-13 NC HSS G H3 Kestrel 4-Flute Lot#77 H5")
    assert found.unread == ("Kestrel", "4", "Flute", "Lot#77", "H5")
    assert found.limit.label == "H3"
    assert decode("1/2-13 NC HSS G H3 KRP- /77").unread == ("KRP-", "/77")


@pytest.mark.parametrize(
    ("marking", "position", "designation"),
    [
        ("M8x1.25 HSS-E TiN 6HX DIN 371 C", "6HX", "M8x1.25-6H"),
        ("M6x1 6HX HSS-E-PM TiCN", "6HX", "M6x1-6H"),
        ("M10 6GX", "6GX", "M10x1.5-6G"),
        ("M5 4HX", "4HX", "M5x0.8-4H"),
        ("1/4-20 UNC 2BX", "2BX", "1/4-20 UNC-2B"),
        ("M8 ISO 2X", "ISO 2X", "M8x1.25-6H"),
    ],
)
def test_a_makers_own_position_is_known_without_limits(marking, position, designation):
    """6HX and the like (common practice): for forming taps and hard materials; the band stands in the maker's list."""
    found = decode(marking)
    assert found.thread.designation == designation
    assert (found.limit.label, found.limit.pitch_diameter.min, found.limit.pitch_diameter.max) == (position, None, None)
    assert found.holds == ()
    assert position not in found.unread
    assert found.ground
    assert any(position in text and "maker's list" in text for text in found.notes.assumptions)


@pytest.mark.parametrize(("marking", "kept"), [("1/2-13 UNC 6HX", "6HX"), ("1/2-13 NC 2BX GH5", "2BX")])
def test_a_position_that_does_not_fit_the_rest_is_kept(marking, kept):
    assert kept in decode(marking).unread


@pytest.mark.parametrize(
    ("marking", "kept"),
    [
        ("3/8-16 NC HS G H3 +.005", "+.005"),
        ("3/8-16 +.005 NC HS G H3", "+.005"),
        ("3/8-16 NC HS G H3 PLUS .005", "PLUS .005"),
        ("3/8-16 NC HS G H3 .005 OVERSIZE", ".005 OVERSIZE"),
        ("3/8-16 NC HS G H3 O/S .005", "O/S .005"),
    ],
)
def test_an_amount_beside_a_limit_is_oversize_and_never_dropped(marking, kept):
    """H3 of 3/8-16 is 0.3354-0.3359; 0.005 on top is 0.3404-0.3409, above the 0.3401 of class 2B."""
    found = decode(marking)
    assert kept in found.unread
    assert (str(found.limit.pitch_diameter.min), str(found.limit.pitch_diameter.max)) == ("0.3404", "0.3409")
    assert {"2B", "3B"}.isdisjoint(hold.thread_class for hold in found.holds)
    assert any("oversize" in text for text in found.notes.assumptions)


def test_a_second_word_that_says_otherwise_is_kept():
    found = decode("1/2-13 NC HSS G H3 PLUG CARBIDE BOTT H5 3B 2B")
    assert found.unread == ("CARBIDE", "BOTT", "H5", "2B")
    assert (found.substrate, found.chamfer.name, found.limit.label) == ("HSS", "plug", "H3")


def test_a_better_grade_named_later_is_taken():
    assert decode("1/2-13 HSS G H3 COBALT").substrate == "HSS-E"


def test_a_class_of_another_system_is_not_read():
    found = decode("1/2-13 NC G H3 6H")
    assert found.unread == ("6H",)
    assert found.thread.thread_class == "2B"


def test_a_class_that_the_size_lacks_is_kept_and_never_written():
    """ISO 965-1 has grades 4 and 5 only at a pitch of 0.25 mm."""
    found = decode("M2.2x0.25 HSS ISO3/6G")
    assert (found.thread.designation, found.limit.label, found.unread) == ("M2.2x0.25-5H", "ISO 3", ("6G",))
    choice = tapping.recommend(found.thread, tapping.TapRequest())
    for tap in (choice.recommended, *choice.alternatives):
        read = decode(tap.marking)
        assert (read.limit, read.unread) == (tap.limit, ())


def test_an_etched_class_is_the_threads_class():
    assert decode("1/2-13 UNC 3B G H3").thread.thread_class == "3B"


def test_amounts_over_basic():
    for marking in ("7/16-14 NC G PLUS .0017", "7/16-14 NC G +.0017", "7/16-14 NC G basic plus 0.0017"):
        band = decode(marking).limit.pitch_diameter
        assert (str(band.min), str(band.max)) == ("0.3928", "0.3933")


def test_a_cut_thread_tap_of_a_size_without_limits():
    found = decode("1/2-13 NC HSS")
    assert (found.ground, found.limit, found.holds) == (False, None, ())
    assert any("cut-thread" in text for text in found.notes.assumptions)


def test_a_left_hand_undersize_tap_holds_no_class():
    assert decode("1/4-20 LH G L2").holds == ()


def test_holds_are_the_classes_with_room_for_oversize():
    """10-24, 3B 0.1629-0.1661: H6 (0.1654-0.1659) with 0.0006 of oversize leaves 3B and keeps 2B (0.1672)."""
    held = {hold.thread_class: hold.margin for hold in decode("10-24 NC G H6").holds}
    assert set(held) == {"1B", "2B"} or set(held) == {"2B"}
    assert str(held["2B"]) == "0.0007"


@pytest.mark.parametrize("marking", ["", "   ", "HSS G H3", "TiN", "x" * 201, "\u0000", "H3"])
def test_markings_without_a_size(marking):
    with pytest.raises(TapError) as refused:
        decode(marking)
    assert refused.value.code == "tap_marking_unreadable"
    assert refused.value.faults[0].pointer == "/marking"


@pytest.mark.parametrize("marking", ["1/2 HSS H3", "M8x1.3 D5", "1/2-13 NF H3", "#11-13 UNC"])
def test_sizes_that_do_not_exist_are_refused_at_the_marking(marking):
    with pytest.raises(BorewrightError) as refused:
        decode(marking)
    assert {fault.pointer for fault in refused.value.faults} == {"/marking"}


@pytest.mark.parametrize(
    ("marking", "said"),
    [("14-10 ACME", "ACME has no size 14"), ("#14-10 UNC", "#14 is not a size"), ("#14-10 STI", "#14 is not a size")],
)
def test_a_screw_number_is_made_a_diameter_where_no_other_series_is_etched(marking, said):
    """14-24 alone or NS is 0.060 + 14 x 0.013 = 0.242 in with 24 threads; other series keep what they lack."""
    for special in ("#14-24", "14-24 NS", "14-24 UNS"):
        assert decode(special).thread.nominal_diameter == Decimal("0.242")
    with pytest.raises(BorewrightError) as refused:
        decode(marking)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("thread_size_unknown", "/marking")
    assert fault.detail.startswith(said)


# fmt: off
PIECES = st.sampled_from([
    "1/2", "13", " ", "-", "/", "M8", "X", "1.25", "½", "#", "NO.", "10", "32", "NF", "H3", "G", "ISO", "2", "6H",
    "D5", "TR", "NPT", "LH", "PLUS", ".0017", "+", "(", ")", "FORM", "C", "EG", "STI", ",", ".", "'", '"', "é", "Ⅻ",
    "ﬁ", "6HX",
])
# fmt: on
JOINED = st.lists(PIECES, max_size=12)


@given(st.one_of(st.text(max_size=200), JOINED.map("".join), JOINED.map(" ".join)))
def test_any_text_is_read_or_refused_with_a_code(marking):
    try:
        found = decode(marking)
    except BorewrightError as refused:
        found, pointers = None, {fault.pointer for fault in refused.faults}
    assert pointers == {"/marking"} if found is None else found.thread.designation
