"""The thread tables prove themselves: formulas against cells, names against figures, order, coverage."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from itertools import groupby, pairwise

import pytest
from borewright import tables
from every import every


def rows(name):
    return tables.load(name).rows


# --- Unified -----------------------------------------------------------------------------------------


def inches(label: str) -> Decimal:
    """Basic major diameter a label stands for: screw number, fraction, whole and fraction (ASME B1.1 section 10.1)."""
    if label.startswith("#"):
        return Decimal("0.060") + Decimal("0.013") * int(label[1:])
    value = sum(Fraction(part) for part in label.split())
    return Decimal(value.numerator) / Decimal(value.denominator)


@every("row", lambda: rows("unified_series"), ids=lambda row: row["nominal"])
def test_unified_labels_and_constant_pitch_columns(row):
    assert Decimal(row["basic_major_in"]) == inches(row["nominal"])
    graded = {row[name] for name in ("UNC", "UNF", "UNEF")} - {""}
    for column in ("4UN", "6UN", "8UN", "12UN", "16UN", "20UN", "28UN", "32UN"):
        if row[column][:1].isdigit():
            assert row[column] == column.removesuffix("UN")
            assert row[column] not in graded, "a graded thread goes by its graded name"
        elif row[column]:
            assert row[row[column]] == column.removesuffix("UN"), "the name in the cell holds that pitch"
    assert {name for name in row["from_memory"].split() if not row[name]} == set()


def test_unified_sizes_increase():
    sizes = [Decimal(row["basic_major_in"]) for row in rows("unified_series")]
    assert all(small < large for small, large in pairwise(sizes))
    assert (len(sizes), str(sizes[0]), str(sizes[-1])) == (71, "0.0600", "6.0000")


def test_selected_specials_are_in_no_series():
    series = {row["nominal"]: set(row.values()) for row in rows("unified_series")}
    keys = [(Decimal(row["basic_major_in"]), Decimal(row["tpi"])) for row in rows("unified_selected_uns")]
    assert keys == sorted(keys)
    for row in rows("unified_selected_uns"):
        assert Decimal(row["basic_major_in"]) == inches(row["nominal"])
        assert row["tpi"] not in series.get(row["nominal"], set())
        assert (row["seen_in"] == "") == (row["status"] == "from_memory")


#: Diameters at which the tables take the tolerance of series engaged for nine pitches.
ANCHORS_IN = {
    **dict.fromkeys(("13/16", "7/8"), 0.75),
    "15/16": 1.0,
    **dict.fromkeys(("2 1/8", "2 3/16", "2 1/4"), 2.0),
    **dict.fromkeys(("2 7/8", "3", "3 1/8", "3 1/4"), 3.0),
}


@every(
    "row", lambda: rows("unified_exceptions"), ids=lambda row: f"{row['nominal']}-{row['tpi']} {row['thread_class']}"
)
def test_exceptions_leave_the_formula_by_one_in_the_last_place(row):
    """Td2 of ASME B1.1 section 5 in floats: the formula column is what the printed cell departs from."""
    diameter, pitch = float(row["basic_major_in"]), 1 / float(row["tpi"])
    anchor = ANCHORS_IN.get(row["nominal"])
    counted_in_pitches = row["tpi"] in ("12", "16") or row["nominal"] == "2 1/4"
    at, length = (anchor, 9 * pitch) if counted_in_pitches else (diameter, diameter)
    td2 = 0.0015 * math.cbrt(at) + 0.0015 * math.sqrt(length) + 0.015 * pitch ** (2 / 3)
    factor = 0.3 if row["quantity"] == "allowance" else {"1A": 1.5, "2A": 1.0, "3A": 0.75}[row["thread_class"]]
    assert factor * td2 == pytest.approx(float(row["formula_in"]), abs=0.000051)
    assert abs(Decimal(row["printed_in"]) - Decimal(row["formula_in"])) == Decimal("0.0001")


@every("row", lambda: rows("unified_unr_depth"), ids=lambda row: row["tpi"])
def test_unr_depth_is_that_of_the_profile(row):
    """ASME B1.30-2002: 2 hs = 1.19078493 P; the printed depths lie within 0.00012 in of it."""
    for column in ("depth_in", "depth_uns_in"):
        assert float(row[column]) == pytest.approx(1.19078493 / float(row["tpi"]), abs=0.00012)


@every("row", lambda: rows("unified_miniature"), ids=lambda row: row["size"])
def test_miniature_minor_diameter(row):
    """UNM: D - 1.04 P and a tolerance of 0.32 P + 0.012 mm, within the rounding of the printed rows."""
    size, pitch = float(row["diameter_mm"]), float(row["pitch_mm"])
    low, high = float(row["minor_min_mm"]), float(row["minor_max_mm"])
    assert low == pytest.approx(size - 1.04 * pitch, abs=0.00051)
    assert high - low == pytest.approx(0.32 * pitch + 0.012, abs=0.00101)


# --- ISO metric --------------------------------------------------------------------------------------

R40 = "100 106 112 118 125 132 140 150 160 170 180 190 200 212 224 236 250 265 280 300 315 335 355 375 400 425 450"
R40_DECADE = [int(text) for text in (R40 + " 475 500 530 560 600 630 670 710 750 800 850 900 950").split()]
R40_SERIES = [value * scale for scale in (0.1, 1, 10) for value in R40_DECADE]
#: Ranks of the grades from grade 6 (R40 steps), found in every cell of the tables.
RANKS = {
    "TD1": {"4": -8, "5": -4, "6": 0, "7": 4, "8": 8},
    "Td": {"4": -8, "6": 0, "8": 8},
    "Td2": {"3": -12, "4": -8, "5": -4, "6": 0, "7": 4, "8": 8, "9": 12},
    "TD2": {"4": -3, "5": 1, "6": 5, "7": 9, "8": 13},
}
#: Cells where the printed table leaves the rule, by (quantity, upper diameter, pitch): the printed base, grade 6.
PRINTED_BASE = {
    ("TD2", "5.6", "0.5"): 75,
    ("TD2", "90", "5"): 250,
    ("TD2", "355", "3"): 250,
    ("TD2", "355", "4"): 280,
    ("TD1", "", "0.25"): 71,
    ("TD1", "", "0.5"): 140,
    ("TD1", "", "1"): 236,
    ("TD1", "", "2.5"): 450,
    ("Td", "", "4"): 475,
}


def ranked():
    return [row for row in rows("iso965_tolerances") if row["quantity"] in RANKS]


def raw_grade_6(row) -> float:
    """Formulas of ISO 965-1:1998 clause 13 for grade 6, micrometres."""
    pitch = float(row["pitch_mm"])
    if row["quantity"] == "TD1":
        return 433 * pitch - 190 * pitch**1.22 if pitch < 0.9 else 230 * pitch**0.7
    if row["quantity"] == "Td":
        return 180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch)
    mean = math.sqrt(float(row["d_over_mm"]) * float(row["d_to_mm"]))
    return 90 * pitch**0.4 * mean**0.1


def by_rank(row) -> float:
    quantity = "TD2" if row["quantity"] == "Td2" else row["quantity"]
    base = PRINTED_BASE.get((quantity, row["d_to_mm"], row["pitch_mm"]))
    if base is None:
        raw = raw_grade_6(row)
        base = min(R40_SERIES, key=lambda value: abs(value - raw))
    at = next(index for index, value in enumerate(R40_SERIES) if abs(value - base) < 1e-6)
    return R40_SERIES[at + RANKS[row["quantity"]][row["grade"]]]


@every("row", ranked, ids=lambda row: f"{row['quantity']} {row['d_to_mm']} {row['pitch_mm']} {row['grade']}")
def test_tolerances_move_by_ranks(row):
    """Every tolerance is a preferred number, whole ranks from grade 6; one cell of Td stands alone."""
    expected = by_rank(row)
    if (row["quantity"], row["pitch_mm"], row["grade"]) == ("Td", "8", "8"):
        expected = 1180  # printed so; the rank would be 1120
    assert float(row["value"]) == pytest.approx(expected, abs=0.5)


def cells(quantity: str) -> dict[tuple[str, str, str], Decimal]:
    return {
        (row["d_to_mm"], row["pitch_mm"], row["grade"]): Decimal(row["value"])
        for row in rows("iso965_tolerances")
        if row["quantity"] == quantity
    }


def test_deviations():
    """ISO 965-1: G and g are 15 + 11 P, f 30 + 11 P, e 50 + 11 P micrometres, preferred numbers near it."""
    inside, outside = cells("EI"), cells("es")
    for (_, pitch, _), value in inside.items():
        assert outside["", pitch, "g"] == -value
        assert float(value) == pytest.approx(15 + 11 * float(pitch), rel=0.06)
    for (_, pitch, position), value in outside.items():
        base = {"g": 15, "f": 30, "e": 50}[position]
        assert float(-value) == pytest.approx(base + 11 * float(pitch), rel=0.06 if position == "g" else 0.1)


def test_tolerances_grow_with_grade_and_pitch():
    for quantity in RANKS:
        found = cells(quantity)
        for (upper, pitch, grade), value in found.items():
            coarser = found.get((upper, pitch, str(int(grade) + 1)))
            assert coarser is None or coarser > value
            wider = [p for (u, p, g) in found if (u, g) == (upper, grade) and Decimal(p) > Decimal(pitch)]
            assert all(found[upper, p, grade] >= value for p in wider)


def test_engagement_groups():
    low, high = cells("LE_N_min"), cells("LE_N_max")
    assert low.keys() == high.keys()
    assert all(low[key] < high[key] for key in low)


@pytest.mark.parametrize("name", ["metric_series", "metric_j_series"])
def test_metric_combinations_have_tolerances(name):
    """Order of the list, and ISO 965-1 covers every diameter range and pitch of it."""
    ranges = {(row["d_over_mm"], row["d_to_mm"], row["pitch_mm"]) for row in ranked() if row["quantity"] == "TD2"}
    found = [(Decimal(row["diameter_mm"]), Decimal(row["pitch_mm"]), row) for row in rows(name)]
    assert found == sorted(found, key=lambda entry: (entry[0], -entry[1]))
    for size, pitch, row in found:
        assert any(Decimal(o) < size <= Decimal(t) and p == row["pitch_mm"] for o, t, p in ranges), (size, pitch)
    for _, group in groupby(found, key=lambda entry: entry[0]):
        kinds = [row["series"] for *_, row in group]
        assert "coarse" not in kinds[1:], "the coarse pitch is the coarsest"


def test_iso_262_is_a_selection():
    """ISO 262 takes coarse and fine pitches of M1 to M64 out of ISO 261."""
    chosen = [row for row in rows("metric_series") if row["iso262"] == "1"]
    assert 0 < len(chosen) < len(rows("metric_series"))
    assert {Decimal(row["diameter_mm"]) for row in chosen} <= {
        Decimal(row["diameter_mm"]) for row in rows("metric_series") if Decimal(row["diameter_mm"]) <= 64
    }
