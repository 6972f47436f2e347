"""Tables of taps, whole rows and no others, against rows from outside; what is our own at its bounds."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from borewright.core import callout, standards
from borewright.core.tapping import availability, fit
from every import every
from outside_figures import outside, published
from table_rows import held, plain, unlike


def inches(text: str) -> str:
    """The size that a screw number or fraction stands for: #4 is 0.060 + 4 x 0.013 in, 1-1/8 is 1.125 in."""
    if text.startswith("#"):
        return str(Decimal("0.060") + Decimal("0.013") * int(text[1:]))
    return str(Decimal(str(float(sum(Fraction(part) for part in text.split("-"))))))


def of_kind(*kinds: str) -> list[dict[str, str]]:
    return [row for row in outside("tap_limits") if row["kind"] in kinds]


def over_basic(row: dict[str, str]) -> dict[str, str]:
    return {
        "label": row["limit"], "min_over_basic_in": row["pd_min_rel_basic_in"],
        "max_over_basic_in": row["pd_max_rel_basic_in"],
    }  # fmt: skip


#: Where the rows of a text begin and end, and the coarsest pitch that they hold for.
RANGES = {
    "through 1 in": {"over_in": "", "through_in": "1", "coarsest_tpi": ""},
    "over 1 through 1-1/2 in (6 tpi and finer)": {"over_in": "1", "through_in": "1.5", "coarsest_tpi": "6"},
    "over 1-1/2 in": {"over_in": "1.5", "through_in": "", "coarsest_tpi": ""},
}


def ground():
    rows = of_kind("ground_H", "ground_L", "ground_H_over_1in_OLD_RULE")
    return [RANGES[row["size_range_or_size"]] | over_basic(row) for row in rows]


def over_1_in():
    for row in of_kind("ground_H_over_1in"):
        yield {"nominal_in": inches(row["size_range_or_size"]), "tpi": row["tpi"]} | over_basic(row)


def cut():
    for row in of_kind("cut_thread"):
        yield {
            "nominal_in": inches(row["size_range_or_size"]), "tpi": row["tpi"], "major_min_in": row["major_min_in"],
            "major_max_in": row["major_max_in"], "basic_pitch_in": row["pd_basic_in"],
            "pitch_min_in": row["pd_min_in"], "pitch_max_in": row["pd_max_in"],
        }  # fmt: skip


def inserts_inch():
    for row in outside("sti_inch_tap_limits"):
        size, tpi = re.fullmatch(r"(.+)-(\d+)", row["thread"]).groups()
        for one in ("2B", "3B"):
            yield {
                "nominal_in": inches(f"#{size}" if "/" not in size else size), "tpi": tpi, "class": one,
                "label": f"H{row[f'H_limit_for_{one}']}", "pitch_min_in": row[f"tap_pd_{one}_min_in"],
                "pitch_max_in": row[f"tap_pd_{one}_max_in"],
            }  # fmt: skip


def metric_d():
    for row in outside("b94_9_metric_d_limits"):
        yield {
            "nominal_mm": row["D"], "pitch_mm": row["P"], "limit_6H": row["D_limit_6H"], "limit_4H": row["D_limit_4H"],
            "max_over_basic_um": row["max_over_basic_um"], "tolerance_um": row["pd_tolerance_um"],
        }  # fmt: skip


def recommended_h():
    for row in outside("recommended_h_limits"):
        yield {
            "size": row["size"], "nominal_in": row["major_in"], "tpi": row["tpi"], "limit_2B": row["rec_2B"],
            "limit_3B": row["rec_3B"],
        }  # fmt: skip


LIMITS = [
    ("tap_limits_ground_inch", ground, "over_in through_in label",
     "coarsest_tpi min_over_basic_in max_over_basic_in"),
    ("tap_limits_over_1in", over_1_in, "nominal_in tpi", "label min_over_basic_in max_over_basic_in"),
    ("tap_limits_cut_inch", cut, "nominal_in tpi",
     "major_min_in major_max_in basic_pitch_in pitch_min_in pitch_max_in"),
    ("tap_limits_sti_inch", inserts_inch, "nominal_in tpi class", "label pitch_min_in pitch_max_in"),
    ("tap_limits_metric_d", metric_d, "nominal_mm pitch_mm", "limit_6H limit_4H max_over_basic_um tolerance_um"),
    ("tap_recommended_h", recommended_h, "nominal_in tpi", "size limit_2B limit_3B"),
]  # fmt: skip


@every(("table", "rows", "key", "compared"), LIMITS)
def test_limits_are_those_from_outside(table, rows, key, compared):
    printed = list(rows())
    assert printed
    assert list(unlike(printed, held(table), key, compared)) == []


#: Rows that are printed with a misprint, which our row names, and one whose printed figures are cut off.
MISPRINTED = {("5", "0.8", "5H 6H"), ("18", "2.5", "5H 6H"), ("33", "3.5", "4H"), ("39", "4", "5H 6H")}


def test_metric_taps_for_inserts_are_those_from_outside():
    """ASME B94.9 Table 26a; a limit whose figures are printed in another column has the order of the figures."""
    printed = {}
    for row in published("sti_metric_tap_limits"):
        size, pitch = re.fullmatch(r"M([\d.]+)x([\d.]+)", row["thread"]).groups()
        printed[size, pitch, "4H"] = [plain(row[f"tap_pd_4H_{end}_in"]) for end in ("min", "max")]
    for row in published("sti_metric_taps_5h6h"):
        figures = [plain(row[f"pitch_{end}_in"]) for end in ("min", "max")]
        printed[row["nominal_mm"], row["pitch_mm"], "5H 6H"] = figures
    rows = {(row["nominal_mm"], row["pitch_mm"], row["class"]): row for row in held("tap_limits_sti_metric")}
    assert rows.keys() == printed.keys()
    other = {
        one for one, row in rows.items() if [plain(row["pitch_min_in"]), plain(row["pitch_max_in"])] != printed[one]
    }
    assert other <= MISPRINTED
    for one in MISPRINTED:
        row = rows[one]
        assert row["note"]
        low, high = Decimal(row["pitch_min_in"]), Decimal(row["pitch_max_in"])
        assert high - low == (Decimal("0.0005") if Decimal(one[0]) < 24 else Decimal("0.0010"))


def test_metric_taps_of_the_coarser_class_begin_one_step_or_two_above_the_finer():
    """5H and 6H: half a thousandth or a whole one above 4H, from M24 a whole one, as the rows print it."""
    rows = {(row["nominal_mm"], row["pitch_mm"], row["class"]): row for row in held("tap_limits_sti_metric")}
    for (size, pitch, _), row in rows.items():
        fine, coarse = rows[size, pitch, "4H"], rows[size, pitch, "5H 6H"]
        shift = Decimal(coarse["pitch_min_in"]) - Decimal(fine["pitch_min_in"])
        assert shift in {Decimal("0.0005"), Decimal("0.0010")}, row
        assert shift == Decimal("0.0010") or Decimal(size) < 24
        assert Decimal(coarse["pitch_max_in"]) - Decimal(fine["pitch_max_in"]) == shift, row


def test_classes_of_iso_2857_are_shares_of_t():
    """Rows of sizes, in whole micrometres: class 1 from 0.1 t to 0.3 t, class 2 to 0.5 t, class 3 to 0.7 t."""
    shares = {row["label"][-1]: (Decimal(row["min_t"]), Decimal(row["max_t"])) for row in held("tap_classes_iso2857")}
    assert shares == {"1": (Decimal("0.1"), Decimal("0.3")), "2": (Decimal("0.3"), Decimal("0.5")),
                      "3": (Decimal("0.5"), Decimal("0.7"))}  # fmt: skip
    for row in published("iso2857_classes"):
        for one, ends in shares.items():
            for share, end in zip(ends, ("min", "max"), strict=True):
                assert abs(share * Decimal(row["t_um"]) - Decimal(row[f"class{one}_{end}_um"])) <= 1, row


def test_chamfers_are_as_long_as_their_form():
    """Threads: TM 9-254 par. 4-27 taper 7 to 10, plug 3 to 5, bottoming 1 to 2; DIN 2197 forms A to F; forming taps by
    Machinery's Handbook p. 985; semi-bottoming and taper pipe as the list of standard taps, from memory.
    """
    lengths = {
        "taper": "7-10", "plug": "3-5", "semi_bottoming": "2-2.5", "bottoming": "1-2", "forming_plug": "3-5",
        "forming_bottoming": "1-2.5", "taper_pipe": "2-3.5", "taper_pipe_iso": "2-3",
        "A": "6-8", "B": "3.5-5.5", "C": "2-3", "D": "3.5-5", "E": "1.5-2", "F": "1-1.5",
    }  # fmt: skip
    assert {row["key"]: f"{row['threads_min']}-{row['threads_max']}" for row in held("tap_chamfers")} == lengths


# --- forming taps: #0 to #6 one limit more, #8 to 3/8 two, larger ones two to three (common practice) -----------------


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("#0-80 UNF", 1), ("#6-32 UNC", 1), ("#8-32 UNC", 2), ("1/4-20 UNC", 2), ("3/8-16 UNC", 2),
        ("7/16-14 UNC", 2), ("1-8 UNC", 2),
    ],
)  # fmt: skip
def test_a_forming_tap_is_some_limits_larger(text, steps):
    """A limit is 0.0005 in: so much is a formed thread reckoned to close in."""
    assert fit.closing_in(standards.resolve(callout.read(text))) == steps * Decimal("0.0005")


def test_the_rule_of_forming_taps_turns_at_number_6_and_at_3_8():
    """#6 is 0.138 in, 3/8 is 0.375 in; the next sizes, #8 and 7/16, are beyond."""
    rows = [(row["through_in"], row["offset"], row["offset_high"]) for row in held("tap_forming_offsets")]
    assert rows == [(inches("#6"), "1", "1"), (inches("3/8"), "2", "2"), ("", "2", "3")]


# --- what is stocked --------------------------------------------------------------------------------------------------


def test_stocked_sizes_are_sizes_of_the_series():
    """A row of a size is one of UNC, UNF, of the tabulated specials of ASME B1.1, or a printed tap (4-36)."""
    series = {
        (plain(row["basic_major_in"]), plain(row[one]))
        for row in outside("unified_series")
        for one in ("UNC", "UNF")
        if row[one]
    }
    special = {(plain(row["basic_major_in"]), plain(row["tpi"])) for row in held("unified_selected_uns")}
    printed = {(plain(row["nominal_in"]), plain(row["tpi"])) for row in cut()}
    sizes = [(plain(row["nominal"]), plain(row["per"])) for row in held("tap_stock_limits") if row["nominal"]]
    assert sizes
    assert [one for one in sizes if one not in series | special | printed] == []


def test_what_is_recommended_is_stocked():
    """Each recommended H limit stands in the row of its size, but for H6 at 7/8-14, 1-12 and 1-14."""
    stocked = {}
    for row in held("tap_stock_limits", system="inch_h", method="cut"):
        if row["nominal"]:
            stocked.setdefault((plain(row["nominal"]), plain(row["per"])), set()).update(row["labels"].split("; "))
    missing = {
        (row["size"], row["tpi"], label)
        for row in recommended_h()
        for label in (row["limit_2B"], row["limit_3B"])
        if label not in stocked[plain(row["nominal_in"]), plain(row["tpi"])]
    }
    assert missing == {("7/8", "14", "H6"), ("1", "12", "H6"), ("1", "14", "H6")}


#: To which diameter taps of a series are listed. H limits are defined through 1 in, and the Unified series end at 4 in
#: for taps; D limits are tabulated to M36; taps of metric series to M39 in all classes, then in one: coarse pitches end
#: at M68, fine ones are listed to M100 (common practice).
LISTED = {
    ("inch_h", "cut"): {one: ["1", "4"] for one in ("UNEF", "UN")} | {one: ["4"] for one in ("UNC", "UNF")},
    ("inch_h", "form"): {one: ["1"] for one in ("UNC", "UNF", "UNEF", "UN")},
    ("metric_d", "form"): {"coarse": ["36"]},
    ("iso_class", "cut"): {"coarse": ["39", "68"], "fine": ["39", "100"]},
    ("iso_class", "form"): {"coarse": ["39"], "fine": ["39"]},
}


def test_series_are_stocked_to_these_diameters():
    found: dict[tuple[str, str], dict[str, list[str]]] = {}
    for row in held("tap_stock_limits"):
        if row["series"]:
            found.setdefault((row["system"], row["method"]), {}).setdefault(row["series"], []).append(row["through"])
    assert found == LISTED


@pytest.mark.parametrize(
    ("text", "method", "labels"),
    [
        ("1-20 UNEF", "cut", "H3"), ("1 1/16-18 UNEF", "cut", "H4"), ("4-4 UNC", "cut", "H4"),
        ("M39", "cut", "ISO 1; ISO 2; ISO 3"), ("M42", "cut", "ISO 2"), ("M68", "cut", "ISO 2"),
        ("M39x3", "cut", "ISO 1; ISO 2; ISO 3"), ("M40x3", "cut", "ISO 2"), ("M100x3", "cut", "ISO 2"),
        ("M105x3", "cut", ""), ("M39", "form", "ISO 2; ISO 3"), ("M42", "form", ""), ("1 1/8-7 UNC", "form", ""),
    ],
)  # fmt: skip
def test_what_is_stocked_at_both_sides_of_a_bound(text, method, labels):
    found = availability.stocked_limits(standards.resolve(callout.read(text)), method)
    expected = {one for one in labels.split("; ") if one}
    assert {one for one in found if one.startswith(("H", "ISO"))} == expected
