"""Figures of shop practice are round ones: what is not a whole multiple of its step was mistyped.

Nothing is printed that such a table could be compared with; that a percentage is given in fives, a hardness in tens and
a force constant in thousands is common practice.
"""

from __future__ import annotations

from decimal import Decimal

from borewright import tables
from every import every

STEPS = [
    ("cutting_forces", "hb_from hb_to", "10"),
    ("drill_practice", "hardness_to_hb", "100"),
    ("drilling_constants", "hb kd", "100"),
    ("drilling_depth_factors", "speed_factor feed_factor", "0.1"),
    ("gauge_thread_iso_1502", "tpl_um zpl_um wgo_um wng_um", "0.5"),
    ("hydrogen_rules", "up_to", "10"),
    ("material_names", "tensile_mpa", "10"),
    ("other_operations", "feed_share", "0.5"),
    ("percent_by_material", "hb_from to_1_5d_min to_1_5d_max over_1_5d_min over_1_5d_max", "5"),
    ("tap_practice", "hardness_to_hb", "10"),
    ("tapping_speed_ceilings", "hb_from hb_to coarse_ft_min", "5"),
    ("tapping_speeds", "hb_to", "5"),
]
CELLS = [(table, column, step) for table, columns, step in STEPS for column in columns.split()]


@every("table, column, step", CELLS)
def test_figures_are_multiples_of_their_step(table, column, step):
    figures = [Decimal(row[column]) for row in tables.load(table).rows if row[column]]
    assert figures
    assert [figure for figure in figures if figure % Decimal(step)] == []


@every("row", lambda: [row for row in tables.load("reamer_sizes").rows if row["step"]])
def test_reamers_begin_and_end_at_a_size(row):
    """In sixty-fourths, sixteenths, tenths, halves and whole millimetres."""
    low, high, step = (Decimal(row[column]) for column in ("from", "to", "step"))
    assert step in {Decimal(1) / 64, Decimal(1) / 16, Decimal("0.1"), Decimal("0.5"), Decimal(1)}
    assert low % step == high % step == 0
    assert low < high


def test_reamers_of_a_series_of_drills_begin_and_end_at_one_of_its_sizes():
    sizes = {(row["series"], Decimal(row["diameter_in"])) for row in tables.load("drills").rows}
    ends = [
        (row["series"], Decimal(row[end]))
        for row in tables.load("reamer_sizes").rows
        if not row["step"]
        for end in ("from", "to")
    ]
    assert len(ends) == 4
    assert [end for end in ends if end not in sizes] == []


def test_reamers_of_the_next_step_begin_behind_the_last():
    """Fractions go by 1/64 to 1-1/2 in, then by 1/16; metric sizes by 0.1 to 12 mm, 0.5 to 30, then by 1."""
    rows = tables.load("reamer_sizes").rows
    found = {series: [row for row in rows if row["series"] == series] for series in SERIES}
    for series, (ends, last) in SERIES.items():
        assert [Decimal(row["to"]) for row in found[series]] == [*map(Decimal, ends), Decimal(last)]
        for row, following in zip(found[series], found[series][1:], strict=False):
            assert Decimal(following["from"]) - Decimal(row["to"]) == Decimal(following["step"])


SERIES = {"fractional": (("1.5",), "3"), "metric": (("12", "30"), "50")}


def test_flutes_of_taps():
    """Two to four flutes in small taps, more in large ones, an even number so that they can be measured across."""
    rows = tables.load("tap_flutes").rows
    for style in ("straight", "spiral"):
        found = [(row["to_mm"], int(row["flutes"])) for row in rows if row["style"] == style]
        assert [flutes for _, flutes in found] == sorted({flutes for _, flutes in found})
        assert found[0][1] == 2
        assert found[-1] == ("", 6 if style == "straight" else 4)
        assert [end for end, _ in found[:-1]] == (["1.9", "3.6", "20"] if style == "straight" else ["3.6", "20"])


FACTOR_STEPS = {
    "speed_blind_or_deep": "0.05", "speed_bottoming": "0.05", "speed_coated": "0.05", "speed_taper_pipe": "0.05",
    "form_speed": "0.5", "forming_low": "0.5", "forming_high": "0.5", "packing": "0.5", "packing_from_d": "0.5",
    "packing_full_d": "0.5", "spiral_flute_later_d": "0.5", "spiral_flute": "0.05", "thin_chip": "0.2",
    "drill_wear": "0.1", "drill_wear_hard": "0.1", "core_low": "0.02", "core_mid": "0.02", "core_high": "0.02",
    "break_stress_n_mm2": "100", "strength_exponent": "0.5", "sigma_ln": "0.1",
}  # fmt: skip


@every("name, step", FACTOR_STEPS.items())
def test_factors_of_tapping_are_round(name, step):
    """A quarter more or less, half as much again; what was fitted to measured series is not round and not here."""
    (row,) = [row for row in tables.load("tapping_factors").rows if row["factor"] == name]
    assert Decimal(row["value"]) % Decimal(step) == 0


def test_hardness_borders_of_drilling_speeds_are_round_and_meet():
    """Fives of HB, but for 209 of tool steel W; what is softer than a border ends where the harder begins."""
    rows = tables.load("drilling_speeds").rows
    borders = [Decimal(row[column]) for row in rows for column in ("hb_from", "hb_to") if row[column]]
    assert {border for border in borders if border % 5} == {Decimal(209)}
    ends = {(row["speed_group"], row["hb_to"]) for row in rows}
    assert [row for row in rows if row["hb_from"] == "209" and (row["speed_group"], "209") not in ends] == []


def test_extractors_are_sold_for_taps_of_whole_sixteenths():
    """From 3/16 to 2-1/8 in: 4.7625 and 53.975 mm, held in hundredths."""
    (row,) = [one for one in tables.load("broken_tap_methods").rows if one["method"] == "tap_extractor"]
    ends = [Decimal(row["least_mm"]), Decimal(row["most_mm"])]
    assert ends == [round(Decimal(sixteenths) / 16 * Decimal("25.4"), 2) for sixteenths in (3, 34)]
