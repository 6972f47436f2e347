"""Whole Acme, trapezoidal, Whitworth, BA, square, miniature and insert threads, by hand from their formulas."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import BorewrightError, ThreadError
from borewright.core.model import Length
from borewright.core.requests import ThreadFields
from every import every
from whole_threads import OPEN, basic, codes, ends, form, head, limits, statuses, text_of

D = Decimal


def refused(do):
    """The first fault of what must be refused."""
    with pytest.raises(BorewrightError) as error:
        do()
    return error.value.faults[0]


# --- Acme: h = P/2, clearance .020 to 10 an inch and .010 finer, T = a sqrt(D) + b sqrt(P) ---------------------

#: Callout; basic; internal; external; cautions.
ACME = [
    # D 1, P .2: T 2G .006 + .030 x .44721 = .01942; minor + .05 x .2; screw: - .008, minor 1 - .2 - .02 less 1.5 T
    (
        "1-5 ACME-2G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9194"), ("0.8000", "0.8100")),
        ((None, "1.0000"), ("0.8726", "0.8920"), ("0.7509", "0.7800")),
        (),
    ),
    # T 3G .0028 + .014 x .44721 = .00906; the allowance of its screw is not held
    (
        "1-5 ACME-3G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9091"), ("0.8000", "0.8100")),
        ((None, "1.0000"), OPEN, ("0.7664", "0.7800")),
        ("thread_data_missing",),
    ),
    # T 4G .002 + .010 x .44721 = .00647; minor .78 - 1.5 x .00647 = .77029
    (
        "1-5 ACME-4G",
        ("1.0000", "0.9000", "0.8000"),
        (("1.0200", "1.0400"), ("0.9000", "0.9065"), ("0.8000", "0.8100")),
        ((None, "1.0000"), OPEN, ("0.7703", "0.7800")),
        ("thread_data_missing",),
    ),
    # D .25, P .0625: D - P/2 = .21875; T 2G .003 + .0075; .05 P = .0031, so .005; screw .21875 - .004
    (
        "1/4-16 ACME",
        ("0.2500", "0.2188", "0.1875"),
        (("0.2600", "0.2700"), ("0.2188", "0.2293"), ("0.1875", "0.1925")),
        ((None, "0.2500"), ("0.2043", "0.2148"), ("0.1618", "0.1775")),
        (),
    ),
    # h = .3 P; T 2G .006 x .70711 + .030 x .31623 = .01373; no screw is held
    (
        "1/2-10 STUB ACME",
        ("0.5000", "0.4700", "0.4400"),
        (("0.5200", "0.5400"), ("0.4700", "0.4837"), ("0.4400", "0.4450")),
        None,
        ("stub_acme_sizes",),
    ),
    # D 2.875, P .4: T 3G .0028 x 1.69558 + .014 x .63246 = .01360; minor + .05 x .4; screw 2.455 less 1.5 T
    (
        "2.875-0.4P-0.8L-ACME-3G",
        ("2.8750", "2.6750", "2.4750"),
        (("2.8950", "2.9150"), ("2.6750", "2.6886"), ("2.4750", "2.4950")),
        ((None, "2.8750"), OPEN, ("2.4346", "2.4550")),
        ("acme_special_pair", "multi_start_tolerance", "thread_data_missing"),
    ),
]


@every(("text", "of_form", "internal", "external", "cautions"), ACME)
def test_acme_by_hand(resolved, text, of_form, internal, external, cautions):
    thread = resolved(text)
    assert basic(thread) == of_form
    assert limits(thread.internal) == internal
    assert (thread.external and limits(thread.external)) == external
    assert codes(thread) == cautions
    assert thread.thread_angle == 29


@every(
    ("text", "named", "of_form"),
    [
        (
            "1 3/4-4 ACME-3G-LH",
            ("1 3/4-4 ACME-3G-LH", None, "1 3/4", "3G", "3G"),
            ("in", "1.75", "0.2500000", "4", "0.2500000", "1", "29", None),
        ),
        (
            "1/2-10 STUB ACME",
            ("1/2-10 STUB ACME", None, "1/2", "2G", "2G"),
            ("in", "0.5", "0.1000000", "10", "0.1000000", "1", "29", None),
        ),
        (
            "1-0.2P-0.4L-ACME-2G",
            ("1.000-0.2P-0.4L-ACME-2G", None, "1", "2G", "2G"),
            ("in", "1", "0.2000000", "5", "0.4000000", "2", "29", None),
        ),
    ],
)
def test_heads_of_acme_threads(resolved, text, named, of_form):
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == of_form


def test_several_starts_of_acme(resolved):
    """Lead .8 on a pitch diameter of 2.675: atan(.8 / (pi x 2.675)) = 5.44 degrees."""
    several = resolved("2.875-0.4P-0.8L-ACME-3G").extra["multi_start"]
    assert {name: str(value) for name, value in several.items()} == {
        "starts": "2",
        "lead": "0.80000",
        "lead_angle": "5.44",
    }
    assert "multi_start" not in resolved("1-5 ACME").extra


@every(
    ("text", "designation"),
    [
        ("1-5 ACME SPL", "1-5 ACME-2G"),
        ("1-0.2P-0.2L-ACME", "1-5 ACME-2G"),
        ("1-4 ACME SPL", "1.000-0.25P-0.25L-ACME-2G"),
        ("1/4-1 ACME SPL", None),
        ("1/4-10 ACME SPL", "0.250-0.1P-0.1L-ACME-2G"),
        ("5-1 ACME SPL", "5.000-1P-1L-ACME-2G"),
        ("1-16 ACME SPL", "1.000-0.0625P-0.0625L-ACME-2G"),
    ],
)
def test_special_acme_pairs_are_those_that_the_standard_does_not_list(resolved, text, designation):
    """1-5 is listed, whatever is said beside it; specials from .25 to 5 in and from 1 to 16 threads an inch."""
    if designation is None:
        return
    thread = resolved(text)
    assert thread.designation == designation
    assert ("acme_special_pair" in codes(thread)) is ("P-" in designation)


@every("text", ["0.249-16 ACME SPL", "5.001-2 ACME SPL", "2-16.1 ACME SPL", "5-0.9 ACME SPL"])
def test_special_acme_pairs_out_of_range(resolved, text):
    fault = refused(lambda: resolved(text))
    assert (fault.code, fault.pointer) == ("value_out_of_range", "/thread")
    assert "from 0.25 to 5 in and 1 to 16 threads per inch" in fault.detail


def test_acme_pair_that_is_not_listed_is_offered_as_a_special_one(resolved):
    """1 in has 5 threads an inch; 4 belong to 1 1/2 and its neighbours."""
    fault = refused(lambda: resolved("1-4 ACME"))
    assert fault.did_you_mean[0] == "1-5 ACME-2G"
    assert fault.did_you_mean[-1] == "1-4 ACME SPL"
    assert fault.allowed == ("5",)


@every(
    ("given", "code", "words"),
    [
        ("2G/2G", None, "2G"),
        ("2g", None, "2G"),
        ("2G/3G", "thread_class_unknown", "no class"),
        ("2C", "thread_data_missing", "Centralizing"),
        ("5G", "thread_class_unknown", "ACME has no class '5G'"),
        ("twoG", "thread_class_unknown", "ACME has no class 'twoG'"),
    ],
)
def test_classes_of_an_acme_nut(given, code, words):
    """A pair may name nut and screw alike; classes with C are fitted on the major diameter and not held."""

    def read():
        return callout.from_fields(ThreadFields("acme", "1", threads_per_inch=D(5), thread_class=given))

    if code is None:
        assert read().thread_class == words
        return
    fault = refused(read)
    assert (fault.code, fault.pointer, fault.allowed) == (code, "/thread/class", ("2G", "3G", "4G"))
    assert words in fault.detail


def test_how_well_acme_threads_are_known(resolved):
    """Formulas of B1.5 are computed, the greatest major diameter and all tolerances of B1.8 from memory."""
    acme, stub = (statuses(resolved(text), "internal") for text in ("1-5 ACME", "1-5 STUB ACME"))
    assert set(acme.values()) == {"computed", "from_memory"}
    assert [name for name, status in acme.items() if status == "from_memory"] == ["internal.major_diameter.max"]
    assert sorted(name for name, status in stub.items() if status == "from_memory") == [
        "internal.major_diameter.max",
        "internal.minor_diameter.max",
        "internal.pitch_diameter.max",
    ]
    assert (resolved("1-5 ACME").standard.document, resolved("1-5 STUB ACME").standard.document) == (
        "ASME B1.5",
        "ASME B1.8",
    )


# --- trapezoidal: D - P/2, D - P, D + 2 a_c; tolerances of the table ------------------------------------------

#: Tr 40x7: a_c .5, TD2 475 600 750 um, TD1 560 um.
TRAPEZOIDAL = [
    ("Tr 40x7", ("Tr 40x7-7H", None, "40", "7H", "7e"), "36.975"),
    ("Tr 40x7LH-8H", ("Tr 40x7LH-8H", None, "40", "8H", "8e"), "37.100"),
    ("Tr 40x14(P7)-9H-L", ("Tr 40x14(P7)-9H-L", None, "40", "9H", "9c"), "37.250"),
    ("Tr 40x7-9H-N", ("Tr 40x7-9H", None, "40", "9H", "9c"), "37.250"),
]


@every(("text", "named", "greatest"), TRAPEZOIDAL)
def test_trapezoidal_by_hand(resolved, text, named, greatest):
    thread = resolved(text)
    several = "(P7)" in text
    assert head(thread) == named
    assert form(thread) == ("mm", "40", "7", None, "14" if several else "7", "2" if several else "1", "30", None)
    assert basic(thread) == ("40.000", "36.500", "33.000")
    assert limits(thread.internal) == (("41.000", None), ("36.500", greatest), ("33.000", "33.560"))
    assert thread.external is None
    assert codes(thread) == ("tr_lead_screw_play", *(("multi_start_tolerance",) if several else ()))
    known = statuses(thread, "internal")
    assert (known["internal.pitch_diameter.min"], known["internal.pitch_diameter.max"]) == ("computed", "from_memory")


def test_several_starts_of_a_trapezoidal_thread(resolved):
    """atan(14 / (pi x 36.5)) = 6.96 degrees."""
    several = resolved("Tr 40x14(P7)").extra["multi_start"]
    assert {name: str(value) for name, value in several.items()} == {
        "starts": "2",
        "lead": "14.000",
        "lead_angle": "6.96",
    }


@every(
    ("given", "code"),
    [
        ("7H", None),
        ("7H/7e", None),
        ("8e/7h", None),
        ("7e", "thread_class_external"),
        ("7e/8e", "thread_class_external"),
        ("7H/8H", "thread_class_unknown"),
        ("7H/6g", "thread_class_unknown"),
        ("6H", "thread_class_unknown"),
        ("6g", "thread_class_unknown"),
        ("zz", "thread_class_unknown"),
    ],
)
def test_classes_of_a_trapezoidal_nut(given, code):
    """The nut's class, alone or beside one of the screw's 7e, 8e, 8c, 9c (no screw has position h)."""

    def read():
        return callout.from_fields(
            ThreadFields("trapezoidal", "40", pitch=Length(D(7), "mm"), thread_class=given, hand="left")
        )

    if code is None:
        assert read().thread_class == "7H"
        return
    fault = refused(read)
    assert (fault.code, fault.pointer, fault.allowed) == (code, "/thread/class", ("7H", "8H", "9H"))
    assert fault.did_you_mean == ("Tr 40x7LH-7H",)
    assert ("is a class of the screw" in fault.detail) is (code == "thread_class_external")


def test_trapezoidal_text_that_needs_a_word(resolved):
    old, new = resolved("Tr 40x14P7"), resolved("Tr 40x14(P7)")
    assert [one for one in old.notes.assumptions if "without brackets is read as lead and pitch" in one]
    assert not [one for one in new.notes.assumptions if "brackets" in one]
    assert [one for one in new.notes.assumptions if "No class written: 7H" in one]
    assert "12.5 mm" in text_of(resolved("Tr 16x4"), "tr_old_din_103")


def test_trapezoidal_diameter_that_does_not_exist():
    """ISO 2904 steps 40, 42, 44: nearest first, each with its preferred pitch."""
    fault = refused(lambda: callout.from_fields(ThreadFields("trapezoidal", "Tr 41.0", pitch=Length(D(7), "mm"))))
    assert (fault.code, fault.pointer) == ("thread_size_unknown", "/thread/size")
    assert fault.did_you_mean == ("Tr 40x7-7H", "Tr 42x7-7H", "Tr 38x7-7H")


# --- Whitworth: h = .640327 p; T = .002 D^1/3 + .003 L^1/2 + .005 p^1/2 ----------------------------------------

#: 1/2-12: h .05336; T medium .001587 + .002121 + .001443 = .005152, close 2/3, normal 3/2; minor + .2/12 + .007.
WHITWORTH = [
    ("close", "0.4501", ("close_class_special_use",)),
    ("medium", "0.4518", ()),
    ("normal", "0.4544", ()),
]


@every(("grade", "greatest", "cautions"), WHITWORTH)
def test_whitworth_by_hand(resolved, grade, greatest, cautions):
    thread = resolved(f"1/2 BSW {grade} LH")
    assert head(thread) == (f"1/2 in - 12 BSW ({grade}) LH", "BSW", "1/2", grade, None)
    assert form(thread) == ("in", "0.5", "0.0833333", "12", "0.0833333", "1", "55", None)
    assert basic(thread) == ("0.5000", "0.4466", "0.3933")
    assert limits(thread.internal) == (("0.5000", None), ("0.4466", greatest), ("0.3933", "0.4169"))
    assert thread.external is None
    assert codes(thread) == cautions
    assert statuses(thread, "internal.minor") == {
        "internal.minor_diameter.min": "computed",
        "internal.minor_diameter.max": "from_memory",
    }
    assert any("length of engagement taken as the diameter" in one for one in thread.notes.assumptions)


@every(
    ("text", "least", "most"),
    [
        # .2/n + .004 from 26 an inch, + .005 for 24 and 22, + .007 for 20 and coarser
        ("1/4-26 BSF", "0.2007", "0.2124"),
        ("3/16-24 BSW", "0.1341", "0.1475"),
        ("5/16-22 BSF", "0.2543", "0.2684"),
        ("1/4-20 BSW", "0.1860", "0.2030"),
    ],
)
def test_addition_to_the_whitworth_minor_diameter(resolved, text, least, most):
    """D - 2 x .640327/n, and .2/n with the addition above it: 26 an inch, .25 - .049256 and + .007692 + .004."""
    assert ends(resolved(text).internal.minor_diameter) == (least, most)


@every(
    ("length", "greatest"),
    # T medium with L .25: .001587 + .0015 + .001443 = .004531; with L 1.5: .001587 + .003674 + .001443 = .006705
    [("0.25", "0.4512"), ("1.5", "0.4533")],
)
def test_whitworth_by_engagement(resolved, length, greatest):
    """Three diameters are the longest: 1.5 in."""
    read = resolved("1/2 BSW").callout
    thread = standards.resolve(read, engagement=Length(D(length), "in"))
    assert ends(thread.internal.pitch_diameter) == ("0.4466", greatest)
    assert not [one for one in thread.notes.assumptions if "engagement" in one]


def test_whitworth_engagement_too_long(resolved):
    read = resolved("1/2 BSW").callout
    with pytest.raises(ThreadError) as refusal:
        standards.resolve(read, engagement=Length(D("1.5001"), "in"))
    assert refusal.value.faults[0].allowed == ("above 0 to 1.5 in",)


# --- BA: D - h, D - 2 h with the rounded h; .12 p + .03, .375 p ------------------------------------------------


@every(
    ("text", "named", "assumed"),
    [
        ("2 BA", ("2 BA", None, "2", None, None), ()),
        (
            "2 BA close LH",
            ("2 BA LH", None, "2", None, "close"),
            ("class close read as that of the bolt: BA nuts have one class only",),
        ),
    ],
)
def test_ba_by_hand(resolved, text, named, assumed):
    """2 BA: p .81, h .485, D 4.70; .12 x .81 + .03 = .1272 and .375 x .81 = .30375."""
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == ("mm", "4.70", "0.81", None, "0.81", "1", "47.5", None)
    assert basic(thread) == ("4.70", "4.215", "3.73")
    assert limits(thread.internal) == (("4.70", None), ("4.215", "4.342"), ("3.73", "4.034"))
    assert thread.external is None
    assert codes(thread) == ("ba_is_metric",)
    assert thread.notes.assumptions == assumed
    known = statuses(thread, "internal")
    assert (known["internal.major_diameter.min"], known["internal.minor_diameter.max"]) == ("published", "computed")


@every(
    ("size", "words", "offered"),
    [
        ("17", "No. 17 to 25", "16 BA"),
        ("0017", "", "16 BA"),
        ("x", None, None),
    ],
)
def test_ba_numbers_that_do_not_exist(size, words, offered):
    fault = refused(lambda: callout.from_fields(ThreadFields("british_association", size)))
    assert (fault.code, fault.pointer) == ("thread_size_unknown", "/thread/size")
    assert fault.allowed == tuple(str(number) for number in range(17))
    assert ("Numbers 17 to 25" in fault.detail) is size.isdigit()
    assert offered is None or fault.did_you_mean[0] == offered


@every("size", ["2", "02", "002", "#2", "2 BA", "2ba"])
def test_spellings_of_a_ba_number(size):
    assert callout.from_fields(ThreadFields("british_association", size)).size == "2"


# --- square: what the callout states --------------------------------------------------------------------------

SQUARE = [
    (
        "SQUARE 40x14(P7) depth 3.5 LH",
        ("SQUARE 40x14(P7) depth 3.5 LH", None, "40", None, None),
        ("mm", "40", "7.0000000", None, "14.0000000", "2", "0", None),
        ("40", "36.5", "33.0"),
    ),
    (
        "SQUARE 1.5-4 depth 0.125",
        ("SQUARE 1.5-4 depth 0.125", None, "1.5", None, None),
        ("in", "1.5", "0.2500000", "4", "0.2500000", "1", "0", None),
        ("1.5", "1.375", "1.250"),
    ),
    (
        "1/2-0.125P-0.25L SQUARE depth .05",
        ("SQUARE 0.5-0.125P-0.25L depth 0.05", None, "0.5", None, None),
        ("in", "0.5", "0.1250000", "8", "0.2500000", "2", "0", None),
        ("0.5", "0.45", "0.40"),
    ),
]


@every(("text", "named", "of_form", "diameters"), SQUARE)
def test_square_by_hand(resolved, text, named, of_form, diameters):
    thread = resolved(text)
    assert head(thread) == named
    assert form(thread) == of_form
    assert basic(thread) == diameters
    assert limits(thread.internal) == ((diameters[0], None), OPEN, (diameters[2], None))
    assert thread.external is None
    several = ("multi_start_tolerance",) if thread.starts > 1 else ()
    assert codes(thread) == ("square_no_standard", *several)
    assert set(statuses(thread).values()) == {"computed"}
    assert str(thread.extra["square"]["depth_of_thread"]) == str(D(text.lower().split("depth ")[1].split()[0]))


def test_lead_angle_of_a_square_thread(resolved):
    """atan(.25 / (pi x .45)) = 10.03 degrees; its lead to five decimals of an inch, three of a millimetre."""
    several = resolved("1/2-0.125P-0.25L SQUARE depth .05").extra["multi_start"]
    assert (str(several["lead"]), several["lead_angle"]) == ("0.25000", 10.03)
    assert str(resolved("SQUARE 40x14(P7) depth 3.5").extra["multi_start"]["lead"]) == "14.000"


@every(
    ("text", "is_made"),
    [
        ("SQUARE 40x7 depth 7", True),
        ("SQUARE 40x7 depth 7.01", False),
        ("SQUARE 40x7 depth 0", False),
        ("SQUARE 10x6 depth 4.99", True),
        ("SQUARE 10x6 depth 5", False),
        ("SQUARE 10x9.99 depth 3", True),
        ("SQUARE 10x10 depth 3", False),
        ("SQUARE 1-2 depth 0.499", True),
        ("SQUARE 1-2 depth 0.5", False),
        ("SQUARE 1-1 depth 0.3", False),
    ],
)
def test_square_dimensions_that_make_a_thread(resolved, text, is_made):
    """Pitch below the diameter; depth above zero, at most the pitch, below half the diameter."""
    if is_made:
        assert resolved(text).system == "square"
    else:
        assert refused(lambda: resolved(text)).code == "value_out_of_range"


@every(
    ("text", "pointer", "words"),
    [
        ("SQUARE 40x7", "/thread", "so depth must"),
        ("1-4 SQUARE", "/thread", "so depth must"),
        ("SQUARE 40", None, None),
        ("1 SQUARE DEPTH .1", "/thread", "so pitch must"),
        ("1 SQUARE", "/thread", "so pitch and depth must"),
    ],
)
def test_square_dimensions_that_are_missing(resolved, text, pointer, words):
    fault = refused(lambda: resolved(text))
    if words:
        assert (fault.code, fault.pointer) == ("thread_field_missing", pointer)
        assert words in fault.detail


# --- miniature ------------------------------------------------------------------------------------------------


def test_miniature_by_hand(resolved):
    """0.80 UNM: P .200, .800 - .649519 x .2 = .670; minor diameter .608 to .656 as printed."""
    thread = resolved("0.80 UNM LH")
    assert head(thread) == ("0.80 UNM LH", "UNM", "0.80", None, None)
    assert form(thread) == ("mm", "0.80", "0.200", None, "0.200", "1", "60", None)
    assert basic(thread)[:2] == ("0.800", "0.670")
    assert limits(thread.internal)[:2] == (("0.800", None), ("0.670", None))
    assert str(thread.internal.minor_diameter.min) == basic(thread)[2]
    assert thread.external is None
    assert codes(thread) == ("limits_incomplete",)
    assert statuses(thread) == {"internal.minor_diameter": "published", "internal.pitch_diameter": "computed"}
    given = standards.resolve(thread.callout, engagement=Length(D(1), "mm"))
    assert any("length of engagement does not change" in one for one in given.notes.assumptions)


@every(
    ("given", "code", "pointer", "meant"),
    [
        (ThreadFields("unified_miniature", "0.33"), "thread_size_unknown", "/size", ("0.35", "0.30", "0.40")),
        (ThreadFields("unified_miniature", "xx"), "thread_size_unknown", "/size", ("0.30", "0.35", "0.40")),
        (
            ThreadFields("unified_miniature", "0.80", pitch=Length(D("0.25"), "mm")),
            "thread_pitch_unknown",
            "/pitch",
            ("0.80",),
        ),
    ],
)
def test_miniature_sizes_and_pitches_that_do_not_exist(given, code, pointer, meant):
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread{pointer}")
    assert fault.did_you_mean == tuple(f"{one} UNM" for one in meant)


# --- inserts: D + 1.299038 P, D + .649519 P, D + .216506 P; tolerances of the nominal thread -------------------


@every(("grade", "greatest"), [("5H", "8.937"), ("4H5H", "8.912")])
def test_metric_insert_hole_by_hand(resolved, grade, greatest):
    """M8x1.25: 9.6238, 8.8119, 8.2706; TD2 grade 5 125 um, grade 4 100 um; TD1 grade 5 212 um (ISO 965-1)."""
    thread = resolved(f"M8x1.25 STI {grade} LH")
    assert head(thread) == (f"M8x1.25 STI {grade} LH", None, "8", grade, None)
    assert form(thread) == ("mm", "8", "1.25", None, "1.25", "1", "60", None)
    assert basic(thread) == ("9.624", "8.812", "8.271")
    assert limits(thread.internal) == (("9.624", None), ("8.812", greatest), ("8.271", "8.483"))
    assert thread.external is None
    assert codes(thread) == ()
    known = statuses(thread, "internal")
    assert known["internal.pitch_diameter.min"] == "computed"
    assert {known[f"internal.{name}"] for name in ("pitch_diameter.max", "minor_diameter.max")} == {"from_memory"}
    assert known["internal.minor_diameter.min"] == "from_memory"
    assert thread.standard.document == "ASME B18.29.2M"


@every(
    ("text", "cautions"),
    [
        ("1/4-20 UNC-2B STI LH", ("thread_data_missing", "screw_locking_insert_class")),
        ("1/4-20 UNC-3B STI", ("thread_data_missing",)),
    ],
)
def test_inch_insert_hole_by_hand(resolved, text, cautions):
    """1/4-20: .25 + .064952, .25 + .032476, .25 + .010825; greatest sizes are not held."""
    thread = resolved(text)
    grade = "2B" if "2B" in text else "3B"
    assert head(thread) == (text, "UNC", "1/4", grade, None)
    assert form(thread) == ("in", "0.2500", "0.0500000", "20", "0.0500000", "1", "60", None)
    assert basic(thread) == ("0.3150", "0.2825", "0.2608")
    assert limits(thread.internal) == (("0.3150", None), ("0.2825", None), ("0.2608", None))
    assert codes(thread) == cautions
    assert thread.standard.document == "ASME B18.29.1 and NASM33537"
    insert = thread.extra["insert"]
    assert (insert["nominal_thread"], insert["finished_class"]) == (f"1/4-20 UNC-{grade}", grade)
    assert insert["not_held"] == (
        "greatest pitch diameter",
        "greatest minor diameter",
        "countersink diameter",
        "drill depth codes",
    )
    assert "UNJ too" in insert["accepts"]
    assert "set_down" not in insert
    assert statuses(thread)["insert.countersink_angle"] == "second_hand"


#: Insert length in diameters; M8x1.25: k 8, + 1.25, + 7.5 + 4 (male centre), + 5; M10x1.5: k 10, + 1.5, + 9, + 6.
DEPTHS = [
    ("1d", ("8.00", "9.25", "19.50", "13.00"), ("10.00", "11.50", "19.00", "16.00")),
    ("1_5d", ("12.00", "13.25", "23.50", "17.00"), ("15.00", "16.50", "24.00", "21.00")),
    ("2d", ("16.00", "17.25", "27.50", "21.00"), ("20.00", "21.50", "29.00", "26.00")),
    ("2_5d", ("20.00", "21.25", "31.50", "25.00"), ("25.00", "26.50", "34.00", "31.00")),
    ("3d", ("24.00", "25.25", "35.50", "29.00"), ("30.00", "31.50", "39.00", "36.00")),
]


@every(("suffix", "eight", "ten"), DEPTHS)
def test_depths_of_metric_insert_holes(resolved, suffix, eight, ten):
    names = ("insert_length", "full_thread_depth", "drill_depth_plug_tap", "drill_depth_bottoming_tap")
    for text, expected in (("M8x1.25 STI", eight), ("M10x1.5 STI", ten)):
        insert = resolved(text).extra["insert"]
        assert tuple(str(insert[f"{name}_{suffix}"]) for name in names) == expected


def test_insert_that_the_callout_names(resolved):
    insert = resolved("M8x1.25 STI 2D").extra["insert"]
    assert (insert["insert_length_diameters"], str(insert["insert_length"])) == (2.0, "16.00")
    assert (str(insert["full_thread_depth"]), str(insert["drill_depth_bottoming_tap"])) == ("17.25", "21.00")
    assert (str(insert["drill_depth"]), insert["drill_depth_tap"]) == ("27.50", "plug")
    assert ends(insert["set_down"]) == ("0.94", "1.88")  # .75 P and 1.5 P
    assert (str(insert["countersink_angle"]), insert["countersink_angle_tolerance"]) == ("120", 5)
    assert insert["not_held"] == ("countersink diameter",)
    assert "UNJ" not in insert["accepts"]
    assert statuses(resolved("M8x1.25 STI 2D"))["insert.countersink_angle"] == "common_practice"
    inch = resolved("1/4-20 UNC STI 2D").extra["insert"]
    assert (str(inch["insert_length"]), str(inch["full_thread_depth"])) == ("0.5000", "0.5500")
    assert str(inch["full_thread_depth_callout"]) == "0.55"
    assert "drill_depth" not in inch


@every(
    ("system", "given", "code"),
    [
        ("insert_unified", "2b", None),
        ("insert_unified", "2B/2B", "thread_class_unknown"),
        ("insert_unified", "1B", "thread_class_unknown"),
        ("insert_unified", "1a", "thread_class_external"),
        ("insert_unified", "2A", "thread_class_external"),
        ("insert_unified", "3A", "thread_class_external"),
        ("insert_unified", "??", "thread_class_unknown"),
        ("insert_metric", "4H5H", None),
        ("insert_metric", "6H", "thread_class_unknown"),
        ("insert_metric", "5h", "thread_class_external"),
        ("insert_metric", "6g", "thread_class_external"),
    ],
)
def test_classes_of_an_insert_hole(system, given, code):
    inch = system == "insert_unified"
    size = {"size": "1/4", "threads_per_inch": D(20)} if inch else {"size": "8", "pitch": Length(D("1.25"), "mm")}

    def read():
        return callout.from_fields(ThreadFields(system, **size, thread_class=given))

    if code is None:
        assert read().thread_class == given.upper()
        return
    fault = refused(read)
    assert (fault.code, fault.pointer) == (code, "/thread/class")
    assert fault.allowed == (("2B", "3B") if inch else ("5H", "4H5H"))


@every(
    ("given", "code", "pointer", "words", "meant"),
    [
        # the nominal thread exists, the insert is not listed
        (
            ThreadFields("insert_unified", "1/4", threads_per_inch=D(32), thread_class="3B"),
            "thread_pitch_unknown",
            "/threads_per_inch",
            "No insert for 1/4-32 UNEF",
            ("1/4-20 STI 3B", "1/4-28 STI 3B"),
        ),
        (
            ThreadFields("insert_metric", "8", pitch=Length(D("0.75"), "mm")),
            "thread_pitch_unknown",
            "/pitch",
            "No insert for M8x0.75",
            ("M8x1 STI 5H", "M8x1.25 STI 5H"),
        ),
        (
            ThreadFields("insert_metric", "42", pitch=Length(D("4.5"), "mm")),
            "thread_size_unknown",
            "/size",
            "No insert for M42x4.5",
            None,
        ),
        # the nominal thread does not exist either
        (
            ThreadFields("insert_metric", "M8.1", thread_class="4H5H"),
            "thread_size_unknown",
            "/size",
            "",
            ("M8x1 STI 4H5H", "M8x1.25 STI 4H5H"),
        ),
    ],
)
def test_inserts_that_are_not_listed(given, code, pointer, words, meant):
    fault = refused(lambda: callout.from_fields(given))
    assert (fault.code, fault.pointer) == (code, f"/thread{pointer}")
    assert words in fault.detail
    assert meant is None or fault.did_you_mean == meant


def test_nearest_inserts_of_a_size_that_has_none():
    """M42: 39, 36 and 33 lie nearest, each with all its pitches."""
    fault = refused(lambda: callout.from_fields(ThreadFields("insert_metric", "42", pitch=Length(D("4.5"), "mm"))))
    assert fault.did_you_mean == tuple(
        f"M{size}x{pitch} STI 5H"
        for size, pitches in (("39", "234"), ("36", "234"), ("33", ("2", "3.5")))
        for pitch in pitches
    )


# --- what is held of each -------------------------------------------------------------------------------------

#: System; document; smallest and largest, classes; what is lacking; tables.
HELD = [
    ("acme", "ASME B1.5", "1/4 to 5", "centralizing", ("acme", "tap_drill_acme")),
    ("stub_acme", "ASME B1.8", "", "", ("acme",)),
    ("trapezoidal", "ISO 2901 to ISO 2904", "Tr 8 to 100", "external limits", ("trapezoidal", "tap_drill_trapezoidal")),
    ("whitworth", "BS 84", "BSW 1/8 to 6, BSF 3/16 to 4 1/4", "bolts", ("whitworth", "tap_drill_whitworth")),
    (
        "british_association",
        "BS 93",
        "0 to 16 BA",
        "17 to 25",
        ("british_association", "tap_drill_british_association"),
    ),
    ("square", "none", "basic dimensions only", "no current standard", ()),
    ("unified_miniature", "ASME B1.10", "0.30 to 1.40", "largest pitch diameter", ("unified_miniature",)),
    (
        "insert_unified",
        "ASME B18.29.1 and NASM33537",
        "44 threads #1 to 1 1/2, classes 2B and 3B",
        "greatest pitch and minor",
        ("insert_unified", "tap_limits_sti_inch", "tap_drill_insert_unified"),
    ),
    (
        "insert_metric",
        "ASME B18.29.2M",
        "43 threads M2 to M39, classes 5H and 4H5H",
        "countersink diameters",
        ("insert_metric", "tap_limits_sti_metric", "tap_drill_insert_metric", "iso965_tolerances"),
    ),
]


@every(("system", "document", "covers", "lacks", "tables"), HELD)
def test_what_is_held_of_other_threads(system, document, covers, lacks, tables):
    found = next(one for one in standards.coverages() if one.system == system)
    assert found.document == document
    assert covers in found.covers
    assert lacks in found.does_not_cover
    assert set(tables) <= {table.name for table in found.tables}


@every(
    ("system", "designation", "classes"),
    [
        ("acme", "1/4-16 ACME-2G", ("2G", "3G", "4G")),
        ("stub_acme", "1/4-16 STUB ACME", ("2G",)),
        ("trapezoidal", "Tr 8x1.5-7H", ("7H", "8H", "9H")),
        ("whitworth", "1/8 in - 40 BSW (medium)", ("close", "medium", "normal")),
        ("british_association", "0 BA", ()),
        ("unified_miniature", "0.30 UNM", ()),
        ("insert_unified", "#1-64 UNC-2B STI", ("2B", "3B")),
        ("insert_metric", "M2x0.4 STI 5H", ("5H", "4H5H")),
        ("npt", "1/16-27 NPT", ()),
        ("nptf", "1/16-27 NPTF", ("1", "2")),
        ("npsm", "1/8-27 NPSM", ()),
        ("iso_7", "Rc 1/16", ()),
        ("iso_228", "G 1/16", ()),
    ],
)
def test_catalogue_begins_with_the_smallest_and_names_the_classes(system, designation, classes):
    first = next(one for one in standards.catalogue() if one.system == system)
    assert (first.designation, first.classes) == (designation, classes)
