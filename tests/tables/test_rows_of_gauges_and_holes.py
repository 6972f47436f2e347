"""Gauges, lengths of holes and tools, rework: whole rows against tests/published and tests/derived."""

from __future__ import annotations

import re
from decimal import Decimal

from outside_figures import outside, published
from table_rows import held, plain, unlike


def asme_x():
    names = {
        "tpi": "tpi", "major_minor_in": "major_minor_to_4_in", "major_minor_over_4_in": "major_minor_over_4_in",
        "pitch_to_1_5_in": "pitch_to_1_5_in", "pitch_over_1_5_in": "pitch_over_1_5_to_4_in",
        "pitch_over_4_in": "pitch_over_4_to_8_in",
    }  # fmt: skip
    rows = {row["tpi"]: {own: row[theirs] for own, theirs in names.items()} for row in published("gauge_asme_b1_2_x")}
    # 27 is printed for large threads only; below 1.5 in it lies between 28 and 24, which have the same figures
    rows["27"] |= {one: rows["28"][one] for one in ("major_minor_in", "pitch_to_1_5_in")}
    return list(rows.values())


def test_gauges_of_class_x_have_the_printed_tolerances():
    columns = "major_minor_in major_minor_over_4_in pitch_to_1_5_in pitch_over_1_5_in pitch_over_4_in"
    assert list(unlike(asme_x(), held("gauge_thread_asme_x"), "tpi", columns)) == []


def iso_1502():
    """T_PL is the width of GO, Z_PL how high its middle lies; wear limits are counted from the middles.

    Where whole micrometres hide a half, the row of a metric gauge size table (M1.4, M3, M6 to M10) says which.
    """
    for row in published("gauge_iso1502"):
        upper, lower = Decimal(row["go_pd_upper_um"]), Decimal(row["go_pd_lower_um"])
        not_go = (Decimal(row["notgo_pd_upper_um"]) + Decimal(row["notgo_pd_lower_um"])) / 2
        middle = (upper + lower) / 2
        figures = {
            "tpl_um": upper - lower, "zpl_um": middle, "wgo_um": middle - Decimal(row["go_worn_um"]),
            "wng_um": not_go - Decimal(row["notgo_worn_um"]),
        }  # fmt: skip
        figures |= SEEN_ON_GAUGES.get(row["td2_over_um"], {})
        named = {"td2_over_um": row["td2_over_um"], "td2_to_um": row["td2_to_um"]}
        yield named | {one: str(figure) for one, figure in figures.items()}


SEEN_ON_GAUGES = {
    # GO 1.2072 +/- 0.0035 worn at 1.1977; 2.6813 +/- 0.0045 worn at 2.6688; 5.3625 +/- 0.0055 worn at 5.3450
    over: dict(zip(("tpl_um", "zpl_um", "wgo_um", "wng_um"), figures, strict=True))
    for over, figures in (("50", (7, 2, 9.5, 7.5)), ("80", (9, 6, 12.5, 9.5)), ("125", (11, 12, 17.5, 11.5)))
}


def test_gauges_of_iso_1502_have_the_printed_limits():
    columns = "tpl_um zpl_um wgo_um wng_um"
    assert list(unlike(iso_1502(), held("gauge_thread_iso_1502"), "td2_over_um td2_to_um", columns)) == []


def test_a_pipe_tap_stands_out_of_its_ring_by_its_travel_less_l1():
    """Travel to the gauge's plane is projection + L1; L1 of ASME B1.20.1 Table 2."""
    l1 = {row["size"]: Decimal(row["L1_in"]) for row in outside("npt_dimensions")}
    travels = {}
    for row in outside("pipe_tap_travel"):
        if row["unit"] == "in":
            size = row["thread"].rpartition("-")[0]
            travels[size] = Decimal(row["travel"]) - l1[size]
    ours = {row["size"]: Decimal(row["projection_in"]) for row in held("tap_projection_npt")}
    assert ours == travels


# --- broken taps: what a method asks of the tap's size --------------------------------------------------------------


def test_sizes_at_which_a_broken_tap_is_taken_out():
    """Eroded from about 1 mm, cut out from 3 mm; a fitter's syllabus: only larger taps are annealed, from M6; pressed
    through only small ones, to M5; extractors of 3/16 to 2-1/8 in: 4.76 to 53.98 mm.
    """
    sizes = {row["method"]: (row["least_mm"], row["most_mm"]) for row in held("broken_tap_methods")}
    assert {method: ends for method, ends in sizes.items() if any(ends)} == {
        "tap_extractor": ("4.76", "53.98"), "spark_erosion": ("1", ""), "carbide_cutter": ("3", ""),
        "press_through": ("", "5"), "anneal_and_drill": ("6", ""),
    }  # fmt: skip


# --- percent of thread by material ------------------------------------------------------------------------------------

#: Shop practice on 0.75 H: to 1.5 D and beyond; families as the rows group them, hardness where it splits them.
PERCENT = {
    "free-machining steel": [("", "", "65-75", "60-70")],
    "carbon steel": [("", "300", "60-75", "55-70"), ("300", "401", "55-65", "50-60")],
    "alloy steel": [("", "300", "60-70", "55-65"), ("300", "401", "55-65", "50-60")],
    "tool steel": [("", "401", "55-65", "50-60")],
    "stainless austenitic": [("", "", "60-70", "55-65")],
    **{one: [("", "", "70-75", "65-70")] for one in ("grey iron", "ductile iron")},
    "aluminium wrought": [("", "", "70-75", "60-70")],
    **{one: [("", "", "70-80", "65-75")] for one in ("aluminium cast", "zinc die cast", "brass")},
    **{one: [("", "", "60-70", "55-65")] for one in ("copper", "bronze")},
    **{one: [("", "", "55-65", "50-60")] for one in ("titanium", "nickel", "superalloy")},
}  # fmt: skip


def test_percent_of_thread_is_that_of_the_material():
    """Low-carbon steel as free-machining, medium-carbon as alloy steel: carbon steel has both. Hardened: 300 to 400."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for row in held("percent_by_material"):
        ends = [f"{row[f'{length}_min']}-{row[f'{length}_max']}" for length in ("to_1_5d", "over_1_5d")]
        found.setdefault(row["family"], []).append((row["hb_from"], row["hb_below"], *ends))
    assert found == PERCENT


def test_names_of_a_screw_hold_its_grade():
    """What a caller writes is a word of the grade: 8.8, A2-70, B7; 304 is 18-8 stainless."""
    for row in held("screw_grades"):
        words = (
            f"{row['grade']} {row['standard']}".replace("duplex", "D4 D6 D8")
            .replace("304-A", "304-A 18-8")
            .replace("-", " ")
        )
        grade = set(re.findall(r"[A-Za-z]*[\d.]+[A-Za-z]*", words.replace("-", " ")))
        for name in row["names"].split(";"):
            figures = set(re.findall(r"[A-Za-z]*[\d.]+[A-Za-z]*", name.replace("-", " ")))
            assert figures <= grade, (row["grade"], name)


def test_reamers_are_sold_from_these_sizes():
    """Number drills #60 to #1, letters A to Z, 1/16 to 1-1/2 in by 64ths and to 3 in by 16ths; 1 mm, 12.5 mm, 31 mm."""
    ends = [(row["series"], plain(row["from"]), plain(row["to"])) for row in held("reamer_sizes")]
    sizes = {row["label"]: plain(row["diameter_in"]) for row in outside("drills")}
    assert ends == [
        ("number", sizes["#60"], sizes["#1"]), ("letter", sizes["A"], sizes["Z"]),
        ("fractional", Decimal("0.0625"), Decimal("1.5")), ("fractional", Decimal("1.5625"), Decimal(3)),
        ("metric", Decimal(1), Decimal(12)), ("metric", Decimal("12.5"), Decimal(30)),
        ("metric", Decimal(31), Decimal(50)),
    ]  # fmt: skip


def test_the_shank_of_the_smallest_hand_taps_is_the_smallest_printed():
    """ASME B94.9 Table 6 begins at #4; what is held from memory of #0 to #3 has no other shank."""
    printed = published("tap_blanks_b94_9_table6")
    smallest, *_ = printed
    below = [row for row in held("tap_lengths_inch") if Decimal(row["nominal_in"]) < Decimal(smallest["nominal_in"])]
    assert [row["nominal_in"] for row in below] == ["0.060", "0.073", "0.086", "0.099"]
    assert {row["shank_in"] for row in below} == {smallest["shank_in"]} == {"0.141"}
