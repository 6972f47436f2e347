"""Every limit of tables from outside, compared as printed text through reader and resolver.

Sources: the documents named in each row of tests/published; rows of tests/derived were not read, but made by the
formulas that they name, or are from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest
from borewright.core.model import Range, Thread
from every import every
from outside_figures import derived, outside

Row = Mapping[str, str]

_NPT = {
    "pipe_od_in": "nominal_diameter",
    "E0_in": "pipe.small_end_pitch_diameter",
    "L1_in": "pipe.handtight_engagement",
    "L1_turns": "pipe.handtight_engagement_turns",
    "E1_in": "pipe.gauge_plane_pitch_diameter",
    "L2_in": "pipe.effective_length",
    "L2_turns": "pipe.effective_length_turns",
    "E2_in": "pipe.pitch_diameter_at_effective_length",
    "L3_in": "pipe.wrench_makeup",
    "E3_in": "pipe.pitch_diameter_at_wrench_makeup",
    "V_in": "pipe.vanish_length",
    "L4_in": "pipe.overall_external_length",
    "L5_in": "pipe.full_form_external_length",
    "E5_in": "pipe.pitch_diameter_at_full_form_length",
    "h_max_in": "truncation.height_max",
    "K0_in": "pipe.small_end_minor_diameter",
    "dia_change_per_turn_in": "pipe.diameter_change_per_turn",
    "E1_minus1turn_in": "internal.pitch_diameter.min",
    "E1_plus1turn_in": "internal.pitch_diameter.max",
}
_NPTF = {
    "E0_in": "pipe.small_end_pitch_diameter",
    "L1_in": "pipe.handtight_engagement",
    "E1_in": "pipe.gauge_plane_pitch_diameter",
    "L2_in": "pipe.effective_length",
    "E2_in": "pipe.pitch_diameter_at_effective_length",
    "L3_in_3threads": "pipe.wrench_makeup",
    "E3_in": "pipe.pitch_diameter_at_wrench_makeup",
    "minor_at_L1_from_large_end_in": "pipe.minor_diameter_at_handtight_engagement",
    "minor_at_L1plusL3_in": "pipe.minor_diameter_at_full_thread_depth",
    "probable_drill_oversize_in": "pipe.probable_drill_oversize",
}
_STRAIGHT = {
    "minor_min_in": "internal.minor_diameter.min",
    "minor_max_in": "internal.minor_diameter.max",
    "pd_min_in": "internal.pitch_diameter.min",
    "pd_max_in": "internal.pitch_diameter.max",
}
_G = {
    "pitch_mm": "pitch",
    "D_mm": "internal.major_diameter.min",
    "D2_mm": "internal.pitch_diameter.min",
    "D2_max_mm": "internal.pitch_diameter.max",
    "D1_mm": "internal.minor_diameter.min",
    "D1_max_mm": "internal.minor_diameter.max",
}
_ISO_7 = {
    "pitch_mm": "pitch",
    "D_gauge_mm": "basic.major_diameter",
    "D2_gauge_mm": "pipe.gauge_plane_pitch_diameter",
    "D1_gauge_mm": "basic.minor_diameter",
    "gauge_len_basic_mm": "pipe.handtight_engagement",
    "gauge_len_tol_pm_mm": "pipe.handtight_engagement_tolerance",
    "gauge_len_tol_turns": "pipe.handtight_engagement_tolerance_turns",
    "internal_gauge_plane_tol_pm_mm": "pipe.gauge_plane_tolerance",
    "internal_tol_turns": "pipe.gauge_plane_tolerance_turns",
    "useful_thread_basic_mm": "pipe.effective_length",
    "useful_thread_for_max_gauge_mm": "pipe.effective_length_for_max_gauge",
    "useful_thread_for_min_gauge_mm": "pipe.effective_length_for_min_gauge",
    "fitting_allowance_mm": "pipe.wrench_makeup",
    "Rp_D2_min_mm": "internal.pitch_diameter.min",
    "Rp_D2_max_mm": "internal.pitch_diameter.max",
    "Rp_D1_min_mm": "internal.minor_diameter.min",
    "Rp_D1_max_mm": "internal.minor_diameter.max",
    "JIS_Rc_useful_from_gauge_plane_l_mm": "pipe.full_thread_depth_from_gauge_plane",
    "JIS_Rp_useful_from_face_lprime_mm": "pipe.full_thread_depth",
    "JIS_useful_no_incomplete_thread_t_mm": "pipe.full_thread_depth_with_relief",
}
_STI_INCH = {
    "D_nominal_in": "nominal_diameter",
    "sti_major_min_in": "internal.major_diameter.min",
    "sti_pd_min_in": "internal.pitch_diameter.min",
    "sti_minor_min_in": "internal.minor_diameter.min",
    "sti_minor_max_in": "internal.minor_diameter.max",
    "full_thread_depth_1D_in": "insert.full_thread_depth_1d",
    "full_thread_depth_1p5D_in": "insert.full_thread_depth_1_5d",
    "full_thread_depth_2D_in": "insert.full_thread_depth_2d",
    "full_thread_depth_2p5D_in": "insert.full_thread_depth_2_5d",
    "full_thread_depth_3D_in": "insert.full_thread_depth_3d",
}
_STI_LENGTHS = {"1D": "1d", "1p5D": "1_5d", "2D": "2d", "2p5D": "2_5d", "3D": "3d"}
_STI_METRIC = {
    "sti_major_min_mm": "internal.major_diameter.min",
    "sti_pd_min_mm": "internal.pitch_diameter.min",
    "sti_minor_min_mm": "internal.minor_diameter.min",
    "sti_minor_max_mm": "internal.minor_diameter.max",
    **{f"T_{printed}_mm": f"insert.full_thread_depth_{name}" for printed, name in _STI_LENGTHS.items()},
    **{f"Gplug_{printed}_mm": f"insert.drill_depth_plug_tap_{name}" for printed, name in _STI_LENGTHS.items()},
    **{f"Gbottom_{printed}_mm": f"insert.drill_depth_bottoming_tap_{name}" for printed, name in _STI_LENGTHS.items()},
}
_ACME = {
    "D_in": "basic.major_diameter",
    "major_min_in": "internal.major_diameter.min",
    "major_max_in": "internal.major_diameter.max",
    "pd_min_in": "internal.pitch_diameter.min",
    "minor_min_in": "internal.minor_diameter.min",
    "minor_max_in": "internal.minor_diameter.max",
}
_STUB = {name: path for name, path in _ACME.items() if name != "major_max_in"}
_TR = {
    "D4_min_mm": "internal.major_diameter.min",
    "D2_min_mm": "internal.pitch_diameter.min",
    "D1_min_mm": "internal.minor_diameter.min",
    "D1_max_4H_mm": "internal.minor_diameter.max",
}
_WHITWORTH = {
    "D_in": "internal.major_diameter.min",
    "eff_min_in": "internal.pitch_diameter.min",
    "minor_min_in": "internal.minor_diameter.min",
    "minor_max_in": "internal.minor_diameter.max",
}
_BA = {
    "pitch_mm": "pitch",
    "D_mm": "internal.major_diameter.min",
    "eff_min_mm": "internal.pitch_diameter.min",
    "eff_max_mm": "internal.pitch_diameter.max",
    "minor_min_mm": "internal.minor_diameter.min",
    "minor_max_mm": "internal.minor_diameter.max",
}


def _number_size(row: Row) -> str:
    return f"#{row['thread']}" if float(row["D_nominal_in"]) < 0.25 else row["thread"]


#: File, number of rows, callout text of a row, printed column -> place in the thread.
CASES: tuple[tuple[str, int, Callable[[Row], str], Mapping[str, str]], ...] = (
    ("npt_dimensions", 24, lambda row: f"{row['size']}-{row['tpi']} NPT", _NPT),
    ("nptf_dimensions", 12, lambda row: f"{row['size']}-{row['tpi']} NPTF", _NPTF),
    ("npsm_dimensions", 15, lambda row: f"{row['size']}-{row['tpi']} NPSM", _STRAIGHT),
    (
        "npsc_dimensions",
        13,
        lambda row: f"{row['size']}-{row['tpi']} NPSC",
        {name: path for name, path in _STRAIGHT.items() if name != "minor_max_in"},
    ),
    (
        "npsf_npsi_dimensions",
        7,
        lambda row: f"{row['size']}-{row['tpi']} NPSF",
        {f"npsf_{name}": path for name, path in _STRAIGHT.items() if name != "minor_max_in"},
    ),
    (
        "npsf_npsi_dimensions",
        7,
        lambda row: f"{row['size']}-{row['tpi']} NPSI",
        {f"npsi_{name}": path for name, path in _STRAIGHT.items() if name != "minor_max_in"},
    ),
    ("iso228_g_dimensions", 24, lambda row: f"G {row['size']}", _G),
    ("iso7_dimensions", 15, lambda row: f"Rp {row['size']}", _ISO_7),
    ("iso7_dimensions", 15, lambda row: f"Rc {row['size']}", _ISO_7),
    (
        "sti_inch_dimensions",
        44,
        lambda row: f"{_number_size(row)} {row['series']}-2B STI",
        {**_STI_INCH, "sti_pd_max_2B_in": "internal.pitch_diameter.max"},
    ),
    (
        "sti_inch_dimensions",
        44,
        lambda row: f"{_number_size(row)} {row['series']}-3B STI",
        {**_STI_INCH, "sti_pd_max_3B_in": "internal.pitch_diameter.max"},
    ),
    (
        "sti_metric_dimensions",
        43,
        lambda row: f"{row['thread']} STI 4H5H",
        {**_STI_METRIC, "sti_pd_max_4H5H_mm": "internal.pitch_diameter.max"},
    ),
    (
        "sti_metric_dimensions",
        43,
        lambda row: f"{row['thread']} STI 5H",
        {**_STI_METRIC, "sti_pd_max_5H_mm": "internal.pitch_diameter.max"},
    ),
    *(
        (
            "acme_dimensions",
            23,
            lambda row, grade=grade: f"{row['thread']} ACME-{grade}",
            {**_ACME, f"pd_max_{grade}_in": "internal.pitch_diameter.max"},
        )
        for grade in ("2G", "3G", "4G")
    ),
    (
        "stub_acme_dimensions",
        23,
        lambda row: f"{row['thread']} STUB ACME",
        {**_STUB, "pd_max_2G_in": "internal.pitch_diameter.max"},
    ),
    *(
        (
            "tr_dimensions",
            95,
            lambda row, grade=grade: f"{row['thread']}-{grade}",
            {**_TR, f"D2_max_{grade}_mm": "internal.pitch_diameter.max"},
        )
        for grade in ("7H", "8H", "9H")
    ),
    *(
        (
            f"{series.lower()}_dimensions",
            30,
            lambda row, series=series, grade=grade: f"{row['size']}-{row['tpi']} {series} ({grade})",
            {**_WHITWORTH, f"eff_max_{grade}_in": "internal.pitch_diameter.max"},
        )
        for series in ("BSW", "BSF")
        for grade in ("close", "medium", "normal")
    ),
    ("ba_dimensions", 17, lambda row: row["size"], _BA),
)


def rows_of(name: str) -> list[Row]:
    return outside(name)


def printed(text: str) -> str:
    """The printed figure with its leading zero; blank = not known."""
    return f"0{text}" if text.startswith(".") else text


def shown(thread: Thread, path: str) -> str:
    """The figure at a dotted path of the reply, as text; blank = no limit stated."""
    head, *rest = path.split(".")
    value: object = thread.extra[head] if head in thread.extra else getattr(thread, head)
    for name in rest:
        value = value[name] if isinstance(value, Mapping) else getattr(value, name)
    if value is None:
        return ""
    assert not isinstance(value, Range)
    return str(value)


def cases(whole):
    """The tables that were read in a document, or those of which a part is a formula's or from memory."""
    found = [case for case in CASES if whole == (not derived(case[0]))]
    ids = [f"{number}-{case[0]}" for number, case in enumerate(found)]
    return pytest.mark.parametrize(("name", "count", "text", "columns"), found, ids=ids)


@cases(whole=True)
def test_published_limits(resolved, name, count, text, columns):
    compare(resolved, name, count, text, columns)


@cases(whole=False)
def test_limits_consistent_with_formulas_and_memory(resolved, name, count, text, columns):
    compare(resolved, name, count, text, columns)


def compare(resolved, name, count, text, columns):
    rows = rows_of(name)
    assert len(rows) == count
    wrong = []
    for row in rows:
        thread = resolved(text(row))
        for column, path in columns.items():
            expected, found = printed(row[column]), shown(thread, path)
            turns = "turns" in column and expected
            if (float(expected) != float(found)) if turns else (expected != found):
                wrong.append(f"{text(row)} {path}: {found}, printed {expected}")
    assert not wrong, wrong[:20]


@pytest.mark.parametrize("row", rows_of("npt_truncation"), ids=lambda row: row["tpi"])
def test_published_npt_form(resolved, row):
    """ANSI/ASME B1.20.1-1983 Table 1."""
    text = {"27": "1/8-27", "18": "1/4-18", "14": "1/2-14", "11.5": "1-11.5", "8": "3-8"}[row["tpi"]]
    thread = resolved(f"{text} NPT")
    names = {
        "H_in": "sharp_height",
        "h_max_in": "height_max",
        "h_min_in": "height_min",
        "trunc_min_in": "truncation_min",
        "trunc_max_in": "truncation_max",
        "flat_min_in": "flat_min",
        "flat_max_in": "flat_max",
    }
    found = {column: str(thread.extra["truncation"][name]) for column, name in names.items()}
    assert found == {column: printed(row[column]) for column in names}


@pytest.mark.parametrize("row", rows_of("nptf_truncation"), ids=lambda row: row["tpi"])
def test_dryseal_form_consistent_with_its_fractions(resolved, row):
    """ANSI B1.20.3-1976 Table 1, from memory; each value is its fraction of the pitch to .0001 in."""
    text = {"27": "1/8-27", "18": "1/4-18", "14": "1/2-14", "11.5": "1-11.5", "8": "3-8"}[row["tpi"]]
    thread = resolved(f"{text} NPTF")
    for name in ("crest_min", "crest_max", "root_min", "root_max"):
        assert str(thread.extra["truncation"][name]) == printed(row[f"{name}_in"])
        fraction = Decimal(row[f"{name}_xP"]) / Decimal(row["tpi"])
        assert abs(thread.extra["truncation"][name] - fraction) <= Decimal("0.0001")


@every("row", rows_of("iso228_g_dimensions"), ids=lambda row: row["size"])
@every("mating_class", ["A", "B"])
def test_external_g_consistent_with_its_tolerances(resolved, row, mating_class):
    """ISO 228-1:2000 Table 1: upper deviations zero, class B twice the tolerance of class A."""
    external = resolved(f"G {row['size']} {mating_class}").external
    major, pitch = Decimal(row["D_mm"]), Decimal(row["D2_mm"])
    assert external.major_diameter == Range(major - Decimal(row["Td_mm"]), major)
    assert external.pitch_diameter == Range(pitch - Decimal(row[f"Td2_class{mating_class}_mm"]), pitch)
    assert str(external.pitch_diameter.max) == row["D2_mm"]


@pytest.mark.parametrize("grade", ["2G", "3G", "4G"])
def test_acme_consistent_with_its_tolerance_formula(resolved, grade):
    """ASME B1.5-1997: the printed tolerance is the width of the limits, both ends rounded."""
    for row in rows_of("acme_dimensions"):
        width = resolved(f"{row['thread']} ACME-{grade}").internal.pitch_diameter.width
        assert abs(width - Decimal(row[f"pd_tol_{grade}_in"])) <= Decimal("0.0001")
