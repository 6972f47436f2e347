"""Every figure of a row against the row that is printed elsewhere, or made by formula or from memory (tests/derived).

What is compared is the cell itself: also the unit that no answer is made of, and a figure that no other test asks for.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from borewright import tables
from every import every
from outside_figures import outside, published


def named(*names):
    return {name: name for name in names}


def strengths(*kinds):
    return {f"{kind}_{unit}": f"{kind}_{unit.lower()}" for kind in kinds for unit in ("ksi", "MPa")}


ISO_7 = {
    "tpi": "threads_per_inch", "pitch_mm": "pitch_mm", "h_mm": "height_mm", "D_gauge_mm": "major_mm",
    "D2_gauge_mm": "pitch_diameter_mm", "D1_gauge_mm": "minor_mm", "gauge_len_basic_mm": "gauge_length_mm",
    "gauge_len_tol_pm_mm": "gauge_length_tolerance_mm", "gauge_len_tol_turns": "gauge_length_tolerance_turns",
    "internal_gauge_plane_tol_pm_mm": "gauge_plane_tolerance_mm", "internal_tol_turns": "gauge_plane_tolerance_turns",
    "fitting_allowance_mm": "fitting_allowance_mm", "fitting_allowance_turns": "fitting_allowance_turns",
    "useful_thread_basic_mm": "useful_thread_basic_mm", "useful_thread_for_max_gauge_mm": "useful_thread_max_gauge_mm",
    "useful_thread_for_min_gauge_mm": "useful_thread_min_gauge_mm", "Rp_dia_tol_pm_mm": "diameter_tolerance_mm",
    "JIS_Rc_useful_from_gauge_plane_l_mm": "useful_from_gauge_plane_mm",
    "JIS_Rp_useful_from_face_lprime_mm": "useful_from_face_mm",
    "JIS_useful_no_incomplete_thread_t_mm": "useful_with_relief_mm",
}  # fmt: skip


def hardness(table):
    """The rows of one of the three relations."""
    return [row for row in outside("hardness_conversion") if row["table"].startswith(table)]


def taps(kind):
    return [row for row in published("tap_limits") if row["kind"] == kind]


HARDNESS = {"HRC": "hrc", "HRB": "hrb", "HV": "hv", "HB_3000kg": "hb", "tensile_MPa": "tensile_mpa",
            "tensile_ksi": "tensile_ksi"}  # fmt: skip
#: What is printed, our table, printed columns that name a row with ours, and those that are compared.
WHOLE = [
    # 1.33 of its tensile strength: no plastic shears like that, a column of that page may be misread
    ("materials", lambda: [row for row in outside("materials") if row["material_id"] != "PL-PVC"], "materials",
     named("material_id"),
     {"HB_typ": "hardness_hb", "uts_ksi": "tensile_ksi", "uts_MPa": "tensile_mpa", "Kp_hp_per_in3_min": "kp_hp_in3_min",
      **strengths("yield", "shear")}),
    # that standard names grades of ISO 3506 without strengths
    ("screws", lambda: [row for row in outside("screw_grades") if row["standard"] != "ASTM F738M"],
     "screw_grades",
     {"standard": "standard", "grade": "grade", "size_range": "size_printed"},
     {**strengths("proof", "yield", "tensile"), "shear_ksi": "shear_ksi"}),
    ("hardness of British type", lambda: hardness("HB"), "hardness_conversion",
     {"HV": "hv", "HB_3000kg": "hb"}, HARDNESS),
    ("Rockwell C", lambda: hardness("HRC"), "hardness_conversion",
     {"HRC": "hrc", "HV": "hv", "HB_3000kg": "hb"}, HARDNESS),
    ("Rockwell B", lambda: hardness("HRB"), "hardness_conversion", {"HRB": "hrb"}, HARDNESS),
    ("pipe threads of ISO 7", lambda: published("iso7_dimensions"), "iso_7", named("size"), ISO_7),
    ("metric series", lambda: outside("metric_series"), "metric_series", {"D": "diameter_mm", "P": "pitch_mm"},
     named("series", "iso262")),
    ("miniature threads", lambda: published("unm_hole_limits"), "unified_miniature", {"designation": "size"},
     named("pitch_mm", "minor_min_mm", "minor_max_mm")),
    ("cut-thread taps", lambda: taps("cut_thread"), "tap_limits_cut_inch",
     {"pd_basic_in": "basic_pitch_in", "tpi": "tpi"},
     {"major_min_in": "major_min_in", "major_max_in": "major_max_in", "pd_min_in": "pitch_min_in",
      "pd_max_in": "pitch_max_in"}),
    ("taps of inserts", lambda: taps("STI_2B"), "insert_tap_majors", {"size_range_or_size": "size", "tpi": "tpi"},
     named("major_max_in")),
]  # fmt: skip


def figure(cell):
    text = cell.removesuffix(" UNM").removesuffix(" (see note)")
    return Decimal(text) if re.fullmatch(r"-?[\d.]+", text) else text


@every(("subject", "printed", "table", "key", "compared"), WHOLE)
def test_a_row_is_held_as_it_is_printed(subject, printed, table, key, compared):
    """A row that is not held fails as one that is held otherwise."""
    ours = {tuple(figure(row[own]) for own in key.values()): row for row in tables.load(table).rows}
    rows, other = printed(), []
    for row in rows:
        held = ours.get(tuple(figure(row[column]) for column in key), {})
        other += [
            (row[next(iter(key))], own, row[column], held.get(own))
            for column, own in compared.items()
            if figure(row[column]) != figure(held.get(own, "not held"))
        ]
    assert rows
    assert other == []


def sizes_of(printed):
    """The ends of a printed range of sizes: M1.6-M39, 1/4-1-1/2 in, to 4 in (from 0)."""
    if printed.startswith("M"):
        return [Decimal(end) for end in re.findall(r"M([\d.]+)", printed)]
    parts = re.findall(r"\d+-\d+/\d+|\d+/\d+|\d+", printed)
    ends = [Decimal(str(float(sum(Fraction(one) for one in part.split("-"))))) for part in parts]
    return ends if len(ends) == 2 else [Decimal(0), *ends]


def test_a_screw_has_the_sizes_that_its_range_says():
    """Ferritic grades of ISO 3506-1 end at 24 mm, as the words of their range say."""
    checked = 0
    for row in tables.load("screw_grades").rows:
        printed = row["size_printed"]
        if row["size_from"] and re.match(r"M[\d.]+-M|[^N<]*\d in$", printed):
            low, high = sizes_of(printed)
            high = Decimal(24) if row["grade"].startswith("F1") else high
            assert (Decimal(row["size_from"]), Decimal(row["size_to"])) == (low, high), (row["grade"], printed)
            checked += 1
    assert checked > 70


def test_an_exception_of_the_hole_limits_is_the_printed_figure_of_its_thread():
    """FED-STD-H28/2B, Appendix A Tables II.A.3 and II.A.4: the range that we call short is 0.33 to 0.67 D."""
    printed = {
        (Decimal(row["basic_major_in"]), row["tpi"], row["class"]): row for row in published("unified_hole_limits")
    }
    held = tables.load("unified_hole_limit_exceptions").rows
    assert held
    for row in held:
        thread = printed[Decimal(row["basic_major_in"]), row["threads_per_inch"], row["class"]]
        assert row["range"] == "short"
        assert Decimal(thread[f"le_0.33D_to_0.67D_{row['end']}"]) == Decimal(row["limit_in"]), row
