"""What is easy to get wrong in threads neither Unified, metric nor pipe: a test a trap, sources beside the figures."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.model import Length, Range
from borewright.core.requests import ThreadFields
from borewright.core.standards.insert import insert_object
from every import every
from outside_figures import outside

D = Decimal


def rows_of(name):
    return outside(name)


def codes(thread):
    return {caution.code for caution in thread.notes.cautions}


def text_of(thread, code):
    return next(caution.text for caution in thread.notes.cautions if caution.code == code)


def status_of(thread, field):
    return {source.status for source in thread.notes.sources if source.field == field}


# --- inserts -----------------------------------------------------------------------------------------


def test_stated_depth_is_the_drill_depth_code(resolved):
    """Machinery's Handbook 31st ed. p. 1746: M8 x 1.25 STI 23.5 deep, insert M8 x 1.25 x 12.0."""
    insert = resolved("M8x1.25 STI 1.5D").extra["insert"]
    assert str(insert["drill_depth_plug_tap"]) == "23.50"
    assert str(insert["full_thread_depth"]) == "13.25"
    assert (insert["drill_depth"], insert["drill_depth_tap"]) == (D("23.50"), "plug")
    assert insert["insert_length_diameters"] == 1.5


def test_bottoming_tap_needs_less_depth(resolved):
    """G bottoming = length + 4 P, no half diameter for a male centre."""
    assert resolved("M8x1.25 STI 1.5D").extra["insert"]["drill_depth_bottoming_tap"] == D("17.00")


def test_inch_example_of_nasm33537(resolved):
    """.3125-24 UNF-3B, 2 D insert: .67 MIN FULL THD DEPTH."""
    thread = resolved("5/16-24 UNF-3B STI 2D")
    assert str(thread.extra["insert"]["full_thread_depth"]) == "0.6667"
    assert str(thread.extra["insert"]["full_thread_depth_callout"]) == "0.67"


def test_inch_example_of_b18_29_1(resolved):
    """ASME B18.29.1-2010 2.1.1: 1/4-20 UNC-2B STI thread 0.430 min. depth (fits 1.5 D: .375 + .050 rounded up)."""
    assert resolved("1/4-20 UNC-2B STI").extra["insert"]["full_thread_depth_callout_1_5d"] == D("0.430")


def test_inch_maxima_stay_open(resolved):
    thread = resolved("1/2-13 UNC-3B STI")
    assert thread.internal.pitch_diameter == Range(D("0.5500"), None)
    assert thread.internal.minor_diameter == Range(D("0.5167"), None)
    assert "thread_data_missing" in codes(thread)
    assert "greatest pitch diameter" in thread.extra["insert"]["not_held"]


@every("row", rows_of("sti_inch_limits_bracket"), ids=lambda row: f"{row['thread']}-{row['class']}")
def test_inch_minima_are_plausible(resolved, row):
    """The least pitch diameter lies below the tap's greatest and below the derived bound; nothing else is used."""
    size = f"#{row['thread']}" if float(row["D_nominal_in"]) < 0.25 else row["thread"]
    least = resolved(f"{size} {row['series']}-{row['class']} STI").internal.pitch_diameter.min
    assert least < D(row["pd_max_upper_bound_in"])
    assert not row["pd_max_lower_bound_in"] or least < D(row["pd_max_lower_bound_in"])


def test_screw_locking_inserts_want_3b(resolved):
    """ASME B18.29.1-2010 1.4."""
    assert "screw_locking_insert_class" in codes(resolved("1/4-20 UNC-2B STI"))
    assert "screw_locking_insert_class" not in codes(resolved("1/4-20 UNC-3B STI"))


@pytest.mark.parametrize(("text", "width"), [("M6x1", "0.190"), ("M10x1.5", "0.236"), ("M20x2.5", "0.355")])
def test_metric_minor_tolerance_is_the_published_one(resolved, text, width):
    """ISO 965-1 table, grade 5; the raw formula gives 184, 230 and 350 or so."""
    assert resolved(f"{text} STI").internal.minor_diameter.width == D(width)


def test_insert_must_fit_its_hole(resolved):
    thread = resolved("M8x1.25 STI 1.5D")
    insert_object.check_hole(thread, kind="blind", depth=D("13.25"))
    insert_object.check_hole(thread, kind="through", depth=D("12"))
    for kind, depth in (("blind", "13.2"), ("through", "11.9")):
        with pytest.raises(HoleError) as refusal:
            insert_object.check_hole(thread, kind=kind, depth=D(depth))
        assert refusal.value.code == "thread_deeper_than_hole"


def test_hole_without_insert_length_is_not_judged(resolved):
    insert_object.check_hole(resolved("M8x1.25 STI"), kind="blind", depth=D(1))
    assert "full_thread_depth" not in resolved("M8x1.25 STI").extra["insert"]


def test_nominal_diameter_is_the_screws(resolved):
    thread = resolved("1/4-20 UNC-2B STI")
    assert (thread.nominal_diameter, thread.basic.major_diameter) == (D("0.2500"), D("0.3150"))


# --- Acme --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "bore"),
    [
        ("1/4-16", ".1925"),
        ("5/16-14", ".2461"),
        ("3/8-12", ".2967"),
        ("7/16-12", ".3592"),
        ("1/2-10", ".4050"),
        ("5/8-8", ".5063"),
        ("3/4-6", ".5917"),
        ("7/8-6", ".7167"),
    ],
)
def test_acme_data_sheet(resolved, text, bore):
    """Acme Thread Data Sheets (2009) p. 1, column tap bore diameter max."""
    assert str(resolved(f"{text} ACME-2G").internal.minor_diameter.max) == f"0{bore}"


def test_acme_clearance_changes_at_10_threads(resolved):
    """Machinery's Handbook 27th ed. p. 1828 note a: .020 for 10 tpi and coarser, .010 finer."""
    for text, clearance in (("7/16-12", "0.0100"), ("1/2-10", "0.0200")):
        thread = resolved(f"{text} ACME")
        assert thread.internal.major_diameter.min - thread.basic.major_diameter == D(clearance)


def test_special_acme_pair_names_the_other_rule(resolved):
    thread = resolved("1-4 ACME SPL")
    assert "1 1/2-4" in text_of(thread, "acme_special_pair")
    # ASME B1.5-1997: .006 sqrt(1) + .030 sqrt(.25) on D - P/2
    assert thread.internal.pitch_diameter == Range(D("0.8750"), D("0.8960"))


def test_multi_start_acme(resolved):
    """ASME B1.5-1997 designation example: pitch .4, lead .8."""
    thread = resolved("2.875-0.4P-0.8L-ACME-3G")
    assert (thread.starts, thread.lead, thread.thread_class) == (2, D("0.8"), "3G")
    several = thread.extra["multi_start"]
    angle = math.degrees(math.atan(0.8 / (math.pi * (2.875 - 0.2))))
    assert several["lead_angle"] == pytest.approx(angle, abs=0.005)
    assert "multi_start_tolerance" in codes(thread)


def test_external_acme_as_far_as_held(resolved):
    """External 2G: allowance .008 sqrt(D), minor D - P - clearance; 3G allowance is not held."""
    two, three = resolved("1-5 ACME-2G"), resolved("1-5 ACME-3G")
    assert str(two.external.pitch_diameter.max) == "0.8920"
    assert str(two.external.minor_diameter.max) == "0.7800"
    assert three.external.pitch_diameter == Range(None, None)
    assert "thread_data_missing" in codes(three)


def test_stub_acme_says_its_sizes_were_not_seen(resolved):
    thread = resolved("1/2-10 STUB ACME")
    assert "stub_acme_sizes" in codes(thread)
    assert thread.basic.major_diameter - thread.basic.pitch_diameter == D("0.0300")
    assert status_of(thread, "internal.pitch_diameter.max") == {"from_memory"}


# --- trapezoidal -------------------------------------------------------------------------------------


def r40(value):
    """Nearest R40 preferred number (ISO 3), as the tolerance tables use it."""
    series = (100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300)
    series += (315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950)
    scale = 10 ** (math.floor(math.log10(value)) - 2)
    return min(
        (number * step for number in series for step in (scale, scale * 10)), key=lambda number: abs(number - value)
    )


@every("row", rows_of("tr_dimensions"), ids=lambda row: row["thread"])
def test_trapezoidal_tolerances_against_their_rule(resolved, row):
    """TD1 (4) = .63 x 230 P^.7; TD2 = k x Td2(6), both on R40 (ISO 2903, rule from memory).

    The table leaves the rule at P 12 (TD1) and at P 18 from 45 to 90 mm (TD2): the table governs there.
    """
    pitch, d = float(row["pitch_mm"]), float(row["d_mm"])
    ranges = ((5.6, 11.2), (11.2, 22.4), (22.4, 45), (45, 90), (90, 180))
    low, high = next(pair for pair in ranges if pair[0] < d <= pair[1])
    base = r40(90 * pitch**0.4 * math.sqrt(low * high) ** 0.1)
    for grade, factor in (("7H", 1.7), ("8H", 2.12), ("9H", 2.65)):
        internal = resolved(f"{row['thread']}-{grade}").internal
        if (pitch, low) != (18, 45):
            assert float(internal.pitch_diameter.width) == pytest.approx(r40(base * factor) / 1000)
        if pitch != 12:
            assert float(internal.minor_diameter.width) == pytest.approx(r40(0.63 * 230 * pitch**0.7) / 1000)


def test_trapezoidal_position_h(resolved):
    """ISO 2903:2016 clause 6; D4 has no upper limit, D1 one grade only."""
    fine, coarse = resolved("Tr 40x7-7H").internal, resolved("Tr 40x7-9H").internal
    assert fine.minor_diameter == coarse.minor_diameter
    assert fine.major_diameter == Range(D("41.000"), None)


def test_old_and_new_trapezoidal_nuts(resolved):
    """Machinery's Handbook 27th ed. p. 1813: the nut of DIN 103 16x4 had a minor diameter of 12.5, ISO has 12.0."""
    thread = resolved("Tr 16x4")
    assert thread.internal.minor_diameter.min == D(12)
    assert "12.5" in text_of(thread, "tr_old_din_103")
    assert "tr_old_din_103" not in codes(resolved("Tr 16x2"))


def test_multi_start_trapezoidal(resolved):
    thread = resolved("Tr 40x14(P7)-7H")
    assert (thread.pitch, thread.lead, thread.starts) == (D(7), D(14), 2)
    assert thread.extra["multi_start"]["lead_angle"] == pytest.approx(
        math.degrees(math.atan(14 / (math.pi * 36.5))), abs=0.005
    )
    assert thread.internal == resolved("Tr 40x7-7H").internal


def test_left_hand_and_long_engagement_are_in_the_designation(resolved):
    assert resolved("Tr 40x7 LH").designation == "Tr 40x7LH-7H"
    assert resolved("Tr 40x7-7H-L").designation == "Tr 40x7-7H-L"


def test_lead_screws_are_out_of_scope(resolved):
    assert "tr_lead_screw_play" in codes(resolved("Tr 40x7"))


# --- Whitworth, BA, square ---------------------------------------------------------------------------


def test_close_class_is_for_special_uses(resolved):
    """BS 84:2007 annex E."""
    assert "close_class_special_use" in codes(resolved("1/2 BSW close"))
    assert "close_class_special_use" not in codes(resolved("1/2 BSW"))


@pytest.mark.parametrize(
    ("text", "other"), [("1/4-20 BSW", "1/4-20 UNC"), ("3/4-12 BSF", "3/4-12 12UN"), ("9/16-16 BSF", "9/16-16 16UN")]
)
def test_same_pitch_as_unified(resolved, text, other):
    assert other in text_of(resolved(text), "whitworth_unified_same_pitch")


def test_other_pitch_than_unified(resolved):
    assert "whitworth_unified_same_pitch" not in codes(resolved("1/2-12 BSW"))


def test_engagement_enters_the_whitworth_tolerance(resolved):
    """BS 84 (from memory): .003 L^1/2; 1/2 in BSW with L = .25 instead of .5 in."""
    usual = resolved("1/2 BSW")
    short = standards.resolve(usual.callout, engagement=Length(D("0.25"), "in"))
    difference = usual.internal.pitch_diameter.width - short.internal.pitch_diameter.width
    assert float(difference) == pytest.approx(0.003 * (math.sqrt(0.5) - math.sqrt(0.25)), abs=0.0001)
    assert status_of(usual, "internal.pitch_diameter.max") == {"from_memory"}


@pytest.mark.parametrize("row", rows_of("ba_dimensions"), ids=lambda row: row["size"])
def test_ba_from_its_formulas(resolved, row):
    """BS 93: p = .9^n to .01, D = 6 p^1.2 to two figures with p not rounded, h = .6 p to .005 mm."""
    number, thread = int(row["size"].split()[0]), resolved(row["size"])
    exact = 0.9**number
    assert float(thread.pitch) == pytest.approx(exact, abs=0.0050001)
    assert float(f"{6 * exact**1.2:.2g}") == float(thread.nominal_diameter)
    height = float(thread.basic.major_diameter - thread.basic.pitch_diameter)
    assert height == pytest.approx(0.6 * float(thread.pitch), abs=0.0026)
    assert height * 200 == pytest.approx(float(f"{height * 200:.0f}"))


def test_13_ba_needs_the_exact_pitch(resolved):
    """With the rounded pitch 0.25 it would come out 1.14."""
    assert str(resolved("13 BA").nominal_diameter) == "1.20"
    assert float(f"{6 * 0.25**1.2:.2f}") == 1.14


def test_ba_is_metric(resolved):
    thread = resolved("2 BA")
    assert (thread.unit, thread.threads_per_inch) == ("mm", None)
    assert "ba_is_metric" in codes(thread)


def test_pitch_and_lead_of_a_square_thread_have_seven_decimals(resolved):
    """Three threads an inch: 1/3 in."""
    thread = resolved("SQUARE 1.5-3 depth 0.1")
    assert (thread.pitch, thread.lead) == (D("0.3333333"), D("0.3333333"))


def test_square_thread_from_stated_dimensions(resolved):
    thread = resolved("SQUARE 40x7 depth 3.5")
    assert thread.internal.minor_diameter == Range(D(33), None)
    assert thread.internal.pitch_diameter == Range(None, None)
    assert thread.basic.pitch_diameter == D("36.5")
    assert "square_no_standard" in codes(thread)
    assert thread.standard.document == "none"


# --- pitch instead of threads per inch ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("given", "tpi"),
    [
        (ThreadFields("npt", "1/2", pitch=Length(D("0.0714"), "in")), D(14)),
        (ThreadFields("iso_228", "1/2", pitch=Length(D("1.814"), "mm")), D(14)),
        (ThreadFields("acme", "2 1/2", pitch=Length(D("0.3333"), "in")), D(3)),
        (ThreadFields("acme", "1", pitch=Length(D("0.25"), "in"), lead=Length(D("0.25"), "in")), D(4)),
        (ThreadFields("whitworth", "3 1/4", series="BSW", pitch=Length(D("0.3077"), "in")), D("3.25")),
    ],
)
def test_pitch_may_stand_for_threads_per_inch(given, tpi):
    assert standards.resolve(callout.from_fields(given)).threads_per_inch == tpi


# --- geometry ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "factor"),
    [("1/4 NPT", "4.0000"), ("G 1/2", "4.3314"), ("2 BA", "4.9659"), ("Tr 40x7", "7.7274"), ("1-5 ACME", "7.9879")],
)
def test_flank_angle_gives_the_pitch_diameter_factor(resolved, text, factor):
    """Change of pitch diameter over coat thickness, 2 / sin(half angle): published 4 and 8 to 1, the rest derived."""
    half = math.radians(float(resolved(text).thread_angle) / 2)
    assert f"{2 / math.sin(half):.4f}" == factor


def test_square_thread_has_no_flank_angle(resolved):
    assert resolved("SQUARE 40x7 depth 3.5").thread_angle == 0
