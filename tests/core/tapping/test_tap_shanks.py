"""Whole shanks: everything that a marking says, everything that is kept unread, and what is taken for granted."""

from __future__ import annotations

import pytest
from borewright.core.errors import BorewrightError, TapError
from borewright.core.tapping import tap_build
from borewright.core.tapping.marking import decode, read_shank
from borewright.core.tapping.marking_words import fold, read_words
from borewright.core.tapping.shank_size import find_size, numbered_size, system_word
from every import every

NO_LIMIT = "no pitch-diameter limit is etched"
CUT = "limits of a cut-thread tap"
CUT_UNKNOWN = "cut-thread tap of a size whose limits are not held"
NOT_GROUND = "neither G nor a limit is etched, so a cut-thread tap is taken (common practice)"
SPECIAL = "no Unified series holds this size and pitch: read as a special thread (UNS)"
BY_CLASS = "{} is read as tap class {} (ISO 2857, from memory)"
NOT_HELD = "no limit {} is held for taps of this thread"
AMOUNT = (
    "the amount is read as the least that the pitch diameter is over basic (ASME B94.9), with a tap tolerance of {}"
)
NO_CLASS = "{} is no internal class of this thread"
BESIDE = (
    "{0} beside {1} is no marking of ASME B94.9: the tap is read as oversize by it over {1}; measure the tap, or ask"
    " who made it"
)
POSITION = (
    "{} is the maker's own position for {} threads, above the usual tap limit: for forming taps, hard and abrasive"
    " materials. Its limits stand in the maker's list, so no class is told as held"
)
PRINTED = "the limit printed for class {}"

SHANKS = [
    # marking, thread, label, ends of the limit, grade, ground, coat, hand, chamfer, style, unread, taken for granted
    ("1/2-13 NC HSS G H3", "1/2-13 UNC-2B", "H3", "0.4510 0.4515", "HSS", True, None, "right", None, None, (), ()),
    ("1/2-13 NC HS G H3 TIN PLUG SP PT LH", "1/2-13 UNC-2B LH", "H3", "0.4510 0.4515", "HSS", True, "TiN", "left",
     "plug", "spiral_point", (), ()),
    # ground or not: G, a limit, a coat, a better grade, a maker's class; else a cut-thread tap
    ("#8-32 NC", "#8-32 UNC-2B", "cut", "0.1442 0.1457", None, False, None, "right", None, None, (), (NOT_GROUND, CUT)),
    ("#8-32 NC CS", "#8-32 UNC-2B", "cut", "0.1442 0.1457", "carbon_steel", False, None, "right", None, None, (),
     (CUT,)),
    ("#8-32 NC HSS", "#8-32 UNC-2B", "cut", "0.1442 0.1457", "HSS", False, None, "right", None, None, (),
     (NOT_GROUND, CUT)),
    ("#8-32 NC CUT HSS-E", "#8-32 UNC-2B", "cut", "0.1442 0.1457", "HSS-E", False, None, "right", None, None, (),
     (CUT,)),
    ("#8-32 NC HSS-E", "#8-32 UNC-2B", None, None, "HSS-E", True, None, "right", None, None, (), (NO_LIMIT,)),
    ("#8-32 NC HSS TIN", "#8-32 UNC-2B", None, None, "HSS", True, "TiN", "right", None, None, (), (NO_LIMIT,)),
    ("#8-32 NC G", "#8-32 UNC-2B", None, None, None, True, None, "right", None, None, (), (NO_LIMIT,)),
    ("#8-32 NC CUT H3", "#8-32 UNC-2B", "H3", "0.1447 0.1452", None, False, None, "right", None, None, (), ()),
    ("1/4-20 NC CS", "1/4-20 UNC-2B", None, None, "carbon_steel", False, None, "right", None, None, (), (CUT_UNKNOWN,)),
    ("M8x1.25 CS", "M8x1.25-6H", None, None, "carbon_steel", False, None, "right", None, None, (), (NO_LIMIT,)),
    # limits that the thread has not
    ("1/2-13 NC G D5", "1/2-13 UNC-2B", None, None, None, True, None, "right", None, None, ("D5",),
     (NOT_HELD.format("D5"),)),
    ("M8x1.25 G H3", "M8x1.25-6H", None, None, None, True, None, "right", None, None, ("H3",),
     (NOT_HELD.format("H3"),)),
    ("M8x1.25 G H3 +.02", "M8x1.25-6H", None, None, None, True, None, "right", None, None, ("H3", "+.02"),
     (NOT_HELD.format("H3"),)),
    # an amount, alone and beside a limit
    ("1/2-13 NC G PLUS .0017", "1/2-13 UNC-2B", "basic plus 0.0017", "0.4517 0.4522", None, True, None, "right", None,
     None, (), (AMOUNT.format("0.0005 in"),)),
    ("M8x1.25 HSS-E +0,05 MM", "M8x1.25-6H", "basic plus 0.05", "7.238 7.263", "HSS-E", True, None, "right", None,
     None, (), (AMOUNT.format("0.025 mm"),)),
    ("1/2-14 NPT +.005", "1/2-14 NPT", None, None, None, True, None, "right", None, None, ("+.005",),
     ("basic plus 0.005: the tap's tolerance is not held",)),
    ("3/8-16 NC G H3 .005 O/S", "3/8-16 UNC-2B", "H3 plus 0.005", "0.3404 0.3409", None, True, None, "right", None,
     None, (".005 O/S",), (BESIDE.format(".005 O/S", "H3"),)),
    # an amount in the other unit is the same amount: 0.05 / 25.4 = 0.0020, 0.002 * 25.4 = 0.051; a second one is kept
    ("1/2-13 NC G H3 +0.05 MM", "1/2-13 UNC-2B", "H3 plus 0.0020", "0.4530 0.4535", None, True, None, "right", None,
     None, ("+0.05 MM",), (BESIDE.format("+0.05 MM", "H3"),)),
    ("M8x1.25 G D5 +.002 IN", "M8x1.25-6H", "D5 plus 0.051", "7.273 7.304", None, True, None, "right", None, None,
     ("+.002 IN",), (BESIDE.format("+.002 IN", "D5"),)),
    ('M8x1.25 +.002"', "M8x1.25-6H", "basic plus 0.051", "7.239 7.264", None, True, None, "right", None, None, (),
     (AMOUNT.format("0.025 mm"),)),
    ("1/2-13 PLUS .002 IN", "1/2-13 UNC-2B", "basic plus 0.002", "0.4520 0.4525", None, True, None, "right", None, None,
     (), (AMOUNT.format("0.0005 in"),)),
    # a number behind a limit is none of its digits
    ("1/4-20 NC G H3 4 FL", "1/4-20 UNC-2B", "H3", "0.2185 0.2190", None, True, None, "right", None, None,
     ("4", "FL"), ()),
    ("1/4-20 NC G H 3", "1/4-20 UNC-2B", "H3", "0.2185 0.2190", None, True, None, "right", None, None, (), ()),
    ("1/4-20 NC GH-3", "1/4-20 UNC-2B", "H3", "0.2185 0.2190", None, True, None, "right", None, None, (), ()),
    ("1/4-20 NC D5 HSS", "1/4-20 UNC-2B", None, None, "HSS", True, None, "right", None, None, ("D5",),
     (NOT_HELD.format("D5"),)),
    ("#8-32 NC D5", "#8-32 UNC-2B", None, None, None, True, None, "right", None, None, ("D5",),
     (NOT_HELD.format("D5"),)),
    ("1/2-13 NC G PLUS .0017 PLUS .0020", "1/2-13 UNC-2B", "basic plus 0.0017", "0.4517 0.4522", None, True, None,
     "right", None, None, ("PLUS", ".0020"), (AMOUNT.format("0.0005 in"),)),
    # classes
    ("M8x1.25 HSS-E 4H", "M8x1.25-4H", "ISO 1", "7.201 7.226", "HSS-E", True, None, "right", None, None, (),
     (BY_CLASS.format("4H", "ISO 1"),)),
    ("M8x1.25 7G HSS-E", "M8x1.25-7G", None, None, "HSS-E", True, None, "right", None, None, (), (NO_LIMIT,)),
    ("M8x1.25 ISO2/6H", "M8x1.25-6H", "ISO 2", "7.226 7.251", None, True, None, "right", None, None, (), ()),
    ("1/2-13 NC 3B G H2", "1/2-13 UNC-3B", "H2", "0.4505 0.4510", None, True, None, "right", None, None, (), ()),
    ("1/2-13 NC 6H G H2", "1/2-13 UNC-2B", "H2", "0.4505 0.4510", None, True, None, "right", None, None, ("6H",),
     (NO_CLASS.format("6H"),)),
    ("1/2-13 NC 6HX G", "1/2-13 UNC-2B", None, None, None, True, None, "right", None, None, ("6HX",),
     (NO_CLASS.format("6H"), NO_LIMIT)),
    # a maker's position, which a limit or an amount beside it goes before
    ("M8x1.25 6HX HSS", "M8x1.25-6H", "6HX", "None None", "HSS", True, None, "right", None, None, (),
     (POSITION.format("6HX", "6H"),)),
    ("M8x1.25 6HX D5", "M8x1.25-6H", "D5", "7.222 7.253", None, True, None, "right", None, None, ("6HX",), ()),
    ("M8x1.25 6HX +0.05", "M8x1.25-6H", "basic plus 0.05", "7.238 7.263", None, True, None, "right", None, None,
     ("6HX",), (AMOUNT.format("0.025 mm"),)),
    ("M8x1.25 6HX 6GX", "M8x1.25-6H", "6HX", "None None", None, True, None, "right", None, None, ("6GX",),
     (POSITION.format("6HX", "6H"),)),
    ("M8x1.25 ISO 1X", "M8x1.25-4H", "ISO 1X", "None None", None, True, None, "right", None, None, (),
     (POSITION.format("ISO 1X", "4H"),)),
    ("M8x1.25 ISO3X", "M8x1.25-6G", "ISO3X", "None None", None, True, None, "right", None, None, (),
     (POSITION.format("ISO3X", "6G"),)),
    ("M8x1.25 4H 6HX", "M8x1.25-4H", "6HX", "None None", None, True, None, "right", None, None, (),
     (POSITION.format("6HX", "4H"),)),
    # form letters: of metric taps alone, else with the word
    ("M8x1.25 D5 C", "M8x1.25-6H", "D5", "7.222 7.253", None, True, None, "right", "C", None, (), ()),
    ("1/2-13 NC G H3 C", "1/2-13 UNC-2B", "H3", "0.4510 0.4515", None, True, None, "right", None, None, ("C",), ()),
    ("1/2-13 NC G H3 FORM C", "1/2-13 UNC-2B", "H3", "0.4510 0.4515", None, True, None, "right", "C", None, (), ()),
    ("M8x1.25 D5 FORM-E B", "M8x1.25-6H", "D5", "7.222 7.253", None, True, None, "right", "E", None, ("B",), ()),
    ("M8x1.25 D5 PLUG C", "M8x1.25-6H", "D5", "7.222 7.253", None, True, None, "right", "C", None, ("plug",), ()),
    ("M8x1.25 D5 PLUG B", "M8x1.25-6H", "D5", "7.222 7.253", None, True, None, "right", "B", None, (), ()),
    # a size and pitch that no series holds, machine-screw numbers over 6
    ("1/2-15 G H3", "1/2-15 UNS-2B", "H3", "0.4577 0.4582", None, True, None, "right", None, None, (), (SPECIAL,)),
    ("14-24 NS", "0.242-24 UNS-2B", "cut", "0.2154 0.2174", None, False, None, "right", None, None, (),
     (SPECIAL, NOT_GROUND, CUT)),
    ("#14-24 NS G H3", "0.242-24 UNS-2B", "H3", "0.2159 0.2164", None, True, None, "right", None, None, (),
     (SPECIAL,)),
    ("9-32 UNS G H3", "0.177-32 UNS-2B", "H3", "0.1577 0.1582", None, True, None, "right", None, None, (), (SPECIAL,)),
    ("8-30 NS G H3", "#8-30 UNS-2B", "H3", "0.1433 0.1438", None, True, None, "right", None, None, (), ()),
    # inserts: which classes a printed limit is for
    ("1/4-20 NC STI G H3", "1/4-20 UNC-2B STI", "H3", "0.2835 0.2840", None, True, None, "right", None, None, (),
     (PRINTED.format("2B"),)),
    ("M8x1.25 STI G H2", "M8x1.25 STI 5H", "H2", "8.8265 8.8392", None, True, None, "right", None, None, (),
     (PRINTED.format("4H"), PRINTED.format("4H5H"))),
    ("M8x1.25 STI G H4", "M8x1.25 STI 5H", "H4", "8.8519 8.8646", None, True, None, "right", None, None, (), ()),
    ("EG M8 G H3", "M8x1.25 STI 5H", "H3", "8.8392 8.8519", None, True, None, "right", None, None, (),
     (PRINTED.format("5H"), PRINTED.format("6H"))),
]  # fmt: skip


@every(
    "text,thread,label,ends,substrate,ground,surface,hand,chamfer,style,unread,said", SHANKS, ids=lambda one: one
)  # fmt: skip
def test_what_a_shank_says(
    text, thread, label, ends, substrate, ground, surface, hand, chamfer, style, unread, said
):  # fmt: skip
    shank = read_shank(text)
    found = shank.marking
    assert (found.marking, found.thread.designation) == (text, thread)
    band = None if found.limit is None else found.limit.pitch_diameter
    assert (None if found.limit is None else found.limit.label) == label
    assert (None if band is None else f"{band.min} {band.max}") == ends
    assert (found.substrate, found.ground, found.surface, found.hand) == (substrate, ground, surface, hand)
    wanted = None if chamfer is None else tap_build.chamfer(chamfer).chamfer
    assert (found.chamfer, found.style) == (wanted, style)
    assert found.unread == unread
    assert tuple(one.replace("\N{NO-BREAK SPACE}", " ") for one in shank.said) == said
    assert (found.holds, found.notes.steps) == ((), ())


def test_the_arithmetic_and_sources_of_what_a_shank_says():
    """1/2-13: 0.15 of the 0.0065 in of class 2B is cut oversize."""
    noted = decode("1/2-13 NC HSS G H3 FORM C").notes
    assert [(step.quantity, str(step.value)) for step in noted.steps] == [
        ("limit.pitch_diameter.max", "0.4515"),
        ("limit.pitch_diameter.min", "0.4510"),
        ("cut_oversize", "0.0010"),
    ]
    assert [(one.field, one.status) for one in noted.sources] == [
        ("limit.pitch_diameter", "published"),
        ("chamfer", "second_hand"),
        ("holds", "common_practice"),
    ]
    assert noted.assumptions[-1].startswith("a tap is expected to cut oversize by 15 percent")
    bare = decode("1/2-13 NC HSS G FORM C").notes
    assert ([one.field for one in bare.sources], bare.steps) == (["chamfer"], ())
    assert bare.assumptions == (NO_LIMIT,)
    doubtful = decode("M5 STI G H3").notes
    assert "a misprint" in doubtful.assumptions[-1]


@every(
    "text,holds",
    [
        # 1/2-13: 1B to 0.4597, 2B to 0.4565, 3B to 0.4548 in; oversize 0.0010
        ("1/2-13 NC G H3", {"1B": "0.0010", "2B": "0.0010", "3B": "0.0010"}),
        ("1/2-13 NC G H7", {"1B": "0.0030", "2B": "0.0020", "3B": "0.0003"}),
        ("1/2-13 NC G H8", {"1B": "0.0035", "2B": "0.0015"}),
        ("1/2-13 NC G H11", {"1B": "0.0032", "2B": "0.0000"}),
        ("1/2-13 NC G H12", {"1B": "0.0027"}),
        ("1/2-13 NC G H1", {"1B": "0.0000", "2B": "0.0000", "3B": "0.0000"}),
        ("1/2-13 NC G L1", {}),
        # M8x1.25: 7.188 basic; TD2 100, 125, 160, 200, 250 by grade; oversize 0.024
        ("M8x1.25 ISO2", {"5H": "0.038", "6H": "0.038", "7H": "0.038", "8H": "0.038", "4H": "0.013", "6G": "0.010"}),
    ],
)  # fmt: skip
def test_classes_that_a_tap_holds_and_by_how_much(text, holds):
    found = decode(text).holds
    assert {one.thread_class: str(one.margin) for one in found} == holds
    for one in found:
        assert one.margin == min(one.fit.margin_above_min, one.fit.margin_below_max)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("14-24 NC G H3", "thread_series_mismatch"),
        ("M8x1.3 D5", "thread_pitch_unknown"),
    ],
)
def test_sizes_that_are_not_read_as_special_are_refused(text, code):
    with pytest.raises(BorewrightError) as refused:
        decode(text)
    assert refused.value.code == code
    assert [one.pointer for one in refused.value.faults] == ["/marking"] * len(refused.value.faults)


def test_a_listed_number_with_a_pitch_that_it_has_not_is_refused_by_its_number():
    with pytest.raises(BorewrightError) as refused:
        decode("8-16 NS G H3")
    assert refused.value.code == "thread_pitch_unknown"
    assert refused.value.faults[0].detail.startswith("#8 takes 20 to 80 threads per inch")


# --- words --------------------------------------------------------------------------------------------


@every(
    "text,read",
    [
        ("½-13", "1/2-13"),
        ("1½-6", "1 1/2-6"),
        ("M8×1.25", "M8x1.25"),
        ("1/2–13  NC\tG", "1/2-13 NC G"),
        ("１/２-13", "1/2-13"),
        ("ß 1/2-13", "? 1/2-13"),
        ("1⁄2-13", "1/2-13"),
        ("M8*1.25", "M8x1.25"),
    ],
)
def test_a_marking_is_read_in_plain_signs(text, read):
    assert fold(text) == read


@pytest.mark.parametrize(
    ("text", "words"),
    [("x" * 201, "at most 200 characters"), ("\t \n", "holds no text"), ("HSS G H3", "no thread size such as 1/2-13")],
)
def test_why_a_marking_is_not_read(text, words):
    with pytest.raises(TapError) as refused:
        read_words(text)
    (fault,) = refused.value.faults
    assert (fault.code, fault.pointer) == ("tap_marking_unreadable", "/marking")
    assert words in fault.detail


def test_the_longest_marking_is_read():
    assert read_words(f"1/2-13 {'x' * 193}").unread == ["x" * 193]


@every(
    "text,unread",
    [
        ("1/2-13 NC (G) H3", []),
        ("1/2-13 NC - G / H3", []),
        ("1/2-13 NC G,H3", ["G,H3"]),
        ("1/2-13 UNC-2B G H3 LOT-7", ["LOT", "7"]),
        ("1/2-13 NC G H3; H5", ["H5"]),
        ("1/2-13 NC SPIRAL POINT G H3 SPIRAL FLUTE", ["SPIRAL", "FLUTE"]),
        ("1/2-13 NC HSS HSS-E-PM CARBIDE G H3", ["CARBIDE"]),
        ("1/2-13 NC CARBIDE HSS G H3", ["HSS"]),
        ("1/2-13 NC HSS-E HSS G H3", []),
        ("1/2-13 NC G H3 TIN TIN", []),
        ("1/2-13 NC G H3 TIN TICN", ["TICN"]),
        ("1/2-13 NC G H3 1 2 3", ["1", "2", "3"]),
    ],
)
def test_words_that_are_kept(text, unread):
    assert read_words(text).unread == unread


def test_the_better_grade_of_high_speed_steel_counts():
    for text in ("1/2-13 HSS HSS-E G", "1/2-13 HSS-E HSS G"):
        assert read_words(text).said["substrate"] == "HSS-E"


# --- sizes --------------------------------------------------------------------------------------------

SIZES = [
    ("1/2-13 NC", "1/2-13", "", " NC"),
    ("HSS M42 1/2-13 GH3", "1/2-13", "HSS M42 ", " GH3"),
    ("1 1/2-6 NC", "1 1/2-6", "", " NC"),
    ("1-1/2-6 NC", "1 1/2-6", "", " NC"),
    ('1/2"-13 G', "1/2-13", "", " G"),
    ("1/2 IN-13", "1/2-13", "", ""),
    ("1-11 1/2 NPSM", "1-11 1/2", "", " NPSM"),
    ("M8X1.25 D5", "M8x1.25", "", " D5"),
    ("M8 - 1.25 D5", "M8x1.25", "", " D5"),
    ("M8 1.25 D5", "M8x1.25", "", " D5"),
    ("MF10X1 6G", "M10x1", "", " 6G"),
    ("M8XPH2P1 6H", "M8xPH2P1", "", " 6H"),
    ("EG M8X1.25 H2", "M8x1.25 STI", "", " H2"),
    ("EG M8 H2", "M8 STI", "", " H2"),
    ("X MF10 6G", "M10", "X ", " 6G"),
    ("X M8 6H", "M8", "X ", " 6H"),
    ("X TR 20X4 7H", "TR 20X4", "X ", " 7H"),
    ("X TR20X8(P4) 7H", "TR20X8(P4)", "X ", " 7H"),
    ("G NPT 1/2-14", "NPT 1/2-14", "G ", ""),
    ("G 1/2", "G 1/2", "", ""),
    ("X RC 1/2 Y", "RC 1/2", "X ", " Y"),
    ("X 1/2 NC", "1/2", "X ", " NC"),
    ("X NO. 10 NF", "NO. 10", "X ", " NF"),
]


@every("text,size,before,after", SIZES)
def test_where_the_size_stands(text, size, before, after):
    assert find_size(text) == (size, before, after)


@every("text", ["HSS G", "", "ABC1/2-13X", "H3"])
def test_texts_without_a_size(text):
    assert find_size(text) is None


@every(
    "word,read",
    [("N", "UN"), ("NC", "NC"), ("8N", "8UN"), ("8UN", "8UN"), ("12UN", "12UN"), ("123N", None), ("ABC", None)],
)
def test_words_that_name_a_system(word, read):
    assert system_word(word) == read


@every(
    "size,read",
    [
        ("14-24", "0.242-24"),  # 0.060 + 14 * 0.013
        ("#7-32", "0.151-32"),
        ("No.7-32", None),
        ("NO. 7-32", "0.151-32"),
        ("6-4", None),
        ("1/2-13", None),
    ],
)
def test_machine_screw_numbers_over_6(size, read):
    assert numbered_size(size) == read
