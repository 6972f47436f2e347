"""Sizes, pitches, limits and tolerances of threads, whole rows and no others: tests/published and tests/derived."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from decimal import Decimal
from fractions import Fraction

from every import every
from outside_figures import derived, outside, published
from table_rows import held, plain, unlike


def renamed(rows, **columns):
    """Rows from outside by our names of their columns: ours = theirs."""
    return [{own: row[theirs] for own, theirs in columns.items()} for row in rows]


def designated(rows, pattern, *columns):
    """Rows whose designation is read by a pattern with a group a column."""
    return [dict(zip(columns, re.match(pattern, row["thread"]).groups(), strict=True)) for row in rows]


NPS = {"size": "size", "threads_per_inch": "tpi"}
PITCHES = {"minor_min_in": "minor_min_in", "pitch_diameter_min_in": "pd_min_in", "pitch_diameter_max_in": "pd_max_in"}
INCH_MINOR = r"(.+)-([\d.]+)"


def dryseal():
    for row in outside("npsf_npsi_dimensions"):
        for kind in ("NPSF", "NPSI"):
            given = {f"pitch_diameter_{end}_in": row[f"{kind.lower()}_pd_{end}_in"] for end in ("min", "max")}
            minor = row[f"{kind.lower()}_minor_min_in"]
            if minor:
                yield {
                    "series": kind,
                    "size": row["size"],
                    "threads_per_inch": row["tpi"],
                    "minor_min_in": minor,
                    **given,
                }


def bsw_and_bsf():
    for series in ("BSW", "BSF"):
        for row in outside(f"{series.lower()}_dimensions"):
            yield {"series": series, "size": row["size"], "threads_per_inch": row["tpi"]}


SERIES = "UNC UNF UNEF 4UN 6UN 8UN 12UN 16UN 20UN 28UN 32UN"


def trapezoidal():
    names = {
        "preferred": "preferred_pitch",
        "diameter_mm": "d_mm",
        "pitch_mm": "pitch_mm",
        "crest_clearance_mm": "ac_mm",
    }
    tolerances = {f"tolerance_d2_{grade.lower()}_um": f"TD2_{grade}_um" for grade in ("7H", "8H", "9H")}
    return renamed(derived("tr_dimensions"), **names, **tolerances, tolerance_d1_4h_um="TD1_4H_um")


ROWS = [
    ("unified_series", lambda: outside("unified_series"), "nominal", f"basic_major_in {SERIES}"),
    ("whitworth", bsw_and_bsf, "series size", "threads_per_inch"),
    ("british_association",
     lambda: [{**row, "size": row["size"].removesuffix(" BA")} for row in renamed(
         outside("ba_dimensions"), size="size", pitch_mm="pitch_mm", height_mm="h_mm", major_mm="D_mm")],
     "size", "pitch_mm height_mm major_mm"),
    ("acme", lambda: designated(outside("acme_dimensions"), INCH_MINOR, "size", "threads_per_inch"),
     "size", "threads_per_inch"),
    ("trapezoidal", trapezoidal, "diameter_mm pitch_mm",
     "preferred crest_clearance_mm tolerance_d2_7h_um tolerance_d2_8h_um tolerance_d2_9h_um tolerance_d1_4h_um"),
    ("iso_228",
     lambda: renamed(outside("iso228_g_dimensions"), size="size", threads_per_inch="tpi", pitch_mm="pitch_mm",
                     height_mm="h_mm", major_mm="D_mm", pitch_diameter_mm="D2_mm", minor_mm="D1_mm",
                     tolerance_d2_mm="TD2_mm", tolerance_d1_mm="TD1_mm", class_a_mm="Td2_classA_mm",
                     class_b_mm="Td2_classB_mm", tolerance_major_external_mm="Td_mm"),
     "size", "threads_per_inch pitch_mm height_mm major_mm pitch_diameter_mm minor_mm tolerance_d2_mm tolerance_d1_mm "
     "class_a_mm class_b_mm tolerance_major_external_mm"),
    ("npsc", lambda: renamed(outside("npsc_dimensions"), **NPS, **PITCHES),
     "size", "threads_per_inch minor_min_in pitch_diameter_min_in pitch_diameter_max_in"),
    ("npsm", lambda: renamed(outside("npsm_dimensions"), **NPS, **PITCHES, minor_max_in="minor_max_in"),
     "size", "threads_per_inch minor_min_in minor_max_in pitch_diameter_min_in pitch_diameter_max_in"),
    ("dryseal_straight", dryseal, "series size",
     "threads_per_inch minor_min_in pitch_diameter_min_in pitch_diameter_max_in"),
    ("npt",
     lambda: renamed(outside("npt_dimensions"), **NPS, pipe_od_in="pipe_od_in",
                     **{f"{one.lower()}_in": f"{one}_in" for one in NPT_LENGTHS}),
     "size", "threads_per_inch pipe_od_in e0_in l1_in e1_in l2_in e2_in l3_in e3_in v_in l4_in l5_in e5_in k0_in"),
    ("npt_form",
     lambda: renamed(outside("npt_truncation"), threads_per_inch="tpi", sharp_height_in="H_in",
                     **{f"{ours}_{end}_in": f"{theirs}_{end}_in" for end in ("min", "max") for ours, theirs in
                        (("height", "h"), ("truncation", "trunc"), ("flat", "flat"))}),
     "threads_per_inch",
     "sharp_height_in height_max_in height_min_in truncation_min_in truncation_max_in flat_min_in flat_max_in"),
    ("nptf",
     lambda: renamed(outside("nptf_dimensions"), **NPS, l3_in="L3_in_3threads", e3_in="E3_in",
                     minor_at_l1_in="minor_at_L1_from_large_end_in", minor_at_l1_l3_in="minor_at_L1plusL3_in",
                     drill_oversize_in="probable_drill_oversize_in"),
     "size", "threads_per_inch l3_in e3_in minor_at_l1_in minor_at_l1_l3_in drill_oversize_in"),
    ("nptf_form",
     lambda: renamed(outside("nptf_truncation"), threads_per_inch="tpi",
                     **{f"{one}_in": f"{one}_in" for one in ("crest_min", "crest_max", "root_min", "root_max")}),
     "threads_per_inch", "crest_min_in crest_max_in root_min_in root_max_in"),
    ("insert_metric", lambda: renamed(outside("sti_metric_dimensions"), diameter_mm="D_nominal_mm",
                                      pitch_mm="pitch_mm"),
     "diameter_mm pitch_mm", ""),
    ("iso965_tolerances", lambda: outside("iso965_tables"), "quantity d_over_mm d_to_mm pitch_mm grade", "value"),
]  # fmt: skip
NPT_LENGTHS = ("E0", "L1", "E1", "L2", "E2", "L3", "E3", "V", "L4", "L5", "E5", "K0")


@every(("table", "rows", "key", "compared"), ROWS)
def test_the_rows_are_those_from_outside(table, rows, key, compared):
    printed = list(rows())
    assert printed
    assert list(unlike(printed, held(table), key, compared)) == []


def test_inserts_for_unified_threads_have_these_sizes():
    printed = [*designated(outside("sti_inch_dimensions"), INCH_MINOR, "size", "threads_per_inch")]
    series = [row["series"] for row in outside("sti_inch_dimensions")]
    ours = [{**row, "size": row["size"].removeprefix("#")} for row in held("insert_unified")]
    theirs = [{**row, "series": one} for row, one in zip(printed, series, strict=True)]
    assert list(unlike(theirs, ours, "size threads_per_inch series", "")) == []


def test_mj_threads_have_these_sizes_and_the_series_of_the_same_m_thread():
    printed = renamed(outside("metric_j_series"), diameter_mm="D", pitch_mm="P")
    assert list(unlike(printed, held("metric_j_series"), "diameter_mm pitch_mm", "")) == []
    series = {(plain(row["D"]), plain(row["P"])): row["series"] for row in outside("metric_series")}
    for row in held("metric_j_series"):
        assert series.get((plain(row["diameter_mm"]), plain(row["pitch_mm"])), "fine") == row["series"], row


def test_unr_depth_is_what_most_printed_threads_of_the_pitch_have():
    """Largest major diameter less the reference minor diameter of UNR; UNS is printed a ten-thousandth otherwise."""
    depths = {False: defaultdict(Counter), True: defaultdict(Counter)}
    for row in published("unified_external_limits"):
        if row["unr_minor_max_ref"]:
            depth = Decimal(row["major_max"]) - Decimal(row["unr_minor_max_ref"])
            depths[row["series"] == "UNS"][Decimal(row["tpi"])][depth] += 1
    for row in held("unified_unr_depth"):
        of_series, of_uns = (depths[special][Decimal(row["tpi"])] for special in (False, True))
        usual = (of_series or of_uns).most_common(1)[0][0]
        special = (of_uns or of_series).most_common(1)[0][0]
        assert Decimal(row["depth_in"]) == usual, row
        assert Decimal(row["depth_uns_in"]) == special, row


def test_special_threads_are_printed_or_of_a_pitch_in_use():
    """What was seen stands in a printed table; the others have a pitch of FED-STD-H28/2B 5.1 or of a graded series."""
    files = ("unified_external_limits", "unified_internal_limits", "unified_hole_limits")
    printed = {(plain(row["basic_major_in"]), plain(row["tpi"])) for file in files for row in published(file)}
    preferred = {40, 36, 32, 28, 24, 20, 16, 12, 10, 8, 6, 4}
    graded = {56, 48, 18, 14}
    for row in held("unified_selected_uns"):
        if row["seen_in"]:
            assert (plain(row["basic_major_in"]), plain(row["tpi"])) in printed, row
        else:
            assert int(row["tpi"]) in preferred | graded | {27}, row


def test_exceptions_have_the_printed_tolerance_or_allowance():
    """Where the class of the thread is printed; ASME B1.1, limits table of external threads."""
    printed = {(plain(row["basic_major_in"]), plain(row["tpi"]), row["class"]): row
               for row in published("unified_external_limits")}  # fmt: skip
    checked = 0
    for row in held("unified_exceptions"):
        found = printed.get((plain(row["basic_major_in"]), plain(row["tpi"]), row["thread_class"]))
        if found is not None:
            tolerance = Decimal(found["pitch_max"]) - Decimal(found["pitch_min"])
            amount = Decimal(found["allowance"]) if row["quantity"] == "allowance" else tolerance
            assert Decimal(row["printed_in"]) == amount, row
            checked += 1
    assert checked >= 10


def test_exceptions_name_the_diameter_of_their_size():
    for row in held("unified_exceptions"):
        assert float(row["basic_major_in"]) == sum(Fraction(part) for part in row["nominal"].split()), row
