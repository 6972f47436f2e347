"""Cells of small tables against what is printed elsewhere (tests/published), or consistent with it (tests/derived)."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from borewright import tables
from every import every
from outside_figures import derived, published

READ = {"published": published, "derived": derived}


def read(folder, name):
    return READ[folder](name)


def held(name):
    return tables.load(name).rows


def figure(cell):
    return Decimal(cell) if re.fullmatch(r"-?\d+(\.\d+)?", cell) else cell


#: File, table, columns that name a row, columns that are compared; the names of columns are the same in both.
AS_PUBLISHED = [
    ("gauge_asme_y", "gauge_thread_asme_y", ["tpi"]),
    ("gauge_plain_plug", "gauge_plain_plug", ["over_in", "to_in"]),
    ("drilling_chisel_factors", "drilling_chisel_factors", ["c_over_d"]),
    ("drilling_feeds", "drilling_feeds", ["to_in"]),
    ("tap_blanks_b94_9_table6", "tap_lengths_inch", ["nominal_in"]),
    ("kc11_zerspantechnik", "cutting_forces", ["printed_as"]),
]
CONSISTENT_WITH = [
    ("run_out_din_76_1", "run_out_din_76_1", ["pitch_mm"]),
    ("gauge_asme_x_lead", "gauge_thread_asme_x", ["tpi"]),
    ("tap_lengths_inch", "tap_lengths_inch", ["nominal_in"]),
    ("tap_lengths_metric", "tap_lengths_metric", ["nominal_mm", "kind"]),
    ("drill_lengths_inch", "drill_lengths_inch", ["series", "diameter_in"]),
    ("drill_lengths_metric", "drill_lengths_metric", ["series", "to_mm"]),
    ("kc11_textbooks", "cutting_forces", ["force_group", "force_n_mm2"]),
]


def differences(folder, file, table, key):
    """Rows that are not held, and cells that are held otherwise."""
    printed = read(folder, file)
    compared = [name for name in printed[0] if name not in (*key, "source")]
    ours = {tuple(figure(row[name]) for name in key): row for row in held(table)}
    for row in printed:
        own = ours.get(tuple(figure(row[name]) for name in key))
        if own is None:
            yield [row[name] for name in key], "not held"
            continue
        for name in compared:
            if figure(row[name]) != figure(own[name]):
                yield [row[part] for part in key], name, row[name], own[name]


@pytest.mark.parametrize(
    ("file", "table", "key"), AS_PUBLISHED, ids=lambda given: given if isinstance(given, str) else ""
)
def test_as_published(file, table, key):
    assert list(differences("published", file, table, key)) == []


@pytest.mark.parametrize(
    ("file", "table", "key"), CONSISTENT_WITH, ids=lambda given: given if isinstance(given, str) else ""
)
def test_consistent_with_what_was_remembered_elsewhere(file, table, key):
    assert list(differences("derived", file, table, key)) == []


def plain(name):
    """A printed name without what our row adds to it."""
    return re.sub(r" \(printed .*\)$|, standing for .*$", "", name)


@every("row", lambda: [row for row in held("drilling_speeds") if row["source"]], ids=lambda row: row["printed_as"])
def test_drilling_speeds_as_published(row):
    """Name, hardness and speed of each row; a harder row may reach down to the softer one."""
    said = re.search(r"\(printed (\d+-\d+) HB\)", row["printed_as"])
    found = [
        one["hb"]
        for one in read("published", "drilling_speeds")
        if one["metal"] == plain(row["printed_as"])
        and (figure(one["low_ft_min"]), figure(one["high_ft_min"]))
        == (figure(row["low_ft_min"]), figure(row["high_ft_min"]))
    ]
    assert found
    ends = {hb.rpartition("-")[2] for hb in found if hb}
    if said is not None:
        assert said[1] in found
    elif ends and row["hb_to"] and row["kind"] == "by_hardness" and "standing" not in row["printed_as"]:
        assert row["hb_to"] in ends


@every("row", lambda: held("tapping_speed_ceilings"), ids=lambda row: row["printed_as"])
def test_speed_ceilings_as_published(row):
    ends = f"{row['hb_from']}-{row['hb_to']}".strip("-")
    (found,) = [one for one in read("published", "tapping_speed_ceilings") if one["metal"] == row["printed_as"]]
    assert (found["hb"], found["coarse_ft_min"], found["fine_ft_min"]) == (
        ends,
        row["coarse_ft_min"],
        row["fine_ft_min"],
    )


@every("row", lambda: held("tapping_speeds"), ids=lambda row: row["printed_as"])
def test_tapping_speeds_consistent_with_shop_practice(row):
    found = [
        (one["low_ft_min"], one["high_ft_min"])
        for one in read("derived", "tapping_speeds")
        if plain(row["printed_as"]) in (one["metal"], one["metal"].split(" (")[0])
    ]
    assert (row["low_ft_min"], row["high_ft_min"]) in found


@every(
    "row", lambda: [row for row in held("cutting_forces") if row["kind"] == "all_in"], ids=lambda row: row["printed_as"]
)
def test_old_power_constants_as_quoted(row):
    """1 hp for so many in3/min: 2730 N/mm2 over that figure."""
    (found,) = [one for one in read("published", "power_constants_1959") if one["printed_as"] == row["printed_as"]]
    assert figure(found["force_n_mm2"]) == figure(row["force_n_mm2"])
    assert float(row["force_n_mm2"]) == pytest.approx(2730.32 / float(found["in3_min_hp"]), abs=1)


@every("row", lambda: held("drilling_constants"), ids=lambda row: row["printed_as"])
def test_drilling_constants_consistent_with_memory(row):
    (found,) = [one for one in read("derived", "drilling_constants") if one["printed_as"] == plain(row["printed_as"])]
    assert found["kd"] == row["kd"]


@pytest.mark.parametrize(
    ("family", "metals"),
    [
        ("aluminium wrought", "aluminium"),
        ("aluminium cast", "cast aluminium"),
        ("magnesium", "magnesium"),
        ("zinc die cast", "zinc"),
    ],
)
def test_share_of_shear_is_the_lowest_pair_of_its_family(family, metals):
    """Rounded down or to the nearest hundredth: a thread that is thought too strong would strip."""
    (row,) = [row for row in held("shear_ratios") if row["family"] == family]
    pairs = [
        float(one["shear"]) / float(one["tensile"])
        for one in read("published", "shear_tensile_pairs")
        if one["metal"].startswith(metals)
    ]
    assert len(pairs) >= 4
    assert float(row["ratio"]) == pytest.approx(min(pairs), abs=0.006)


# --- cutting fluids ----------------------------------------------------------------------------------


def fluids():
    return {family: row for row in held("cutting_fluids") for family in row["family"].split(";")}


def test_no_water_on_magnesium_and_no_sulfur_or_chlorine_on_titanium():
    """Burning magnesium takes the oxygen of water; chlorine cracks titanium under stress (common practice)."""
    magnesium, titanium = fluids()["magnesium"], fluids()["titanium"]
    for words in (magnesium["drilling"], magnesium["tapping"]):
        assert not re.search(r"water|soluble|emulsion|synthetic", words)
    assert magnesium["harms"] == titanium["harms"] == "people"
    assert "fire" in magnesium["caution"]
    for words in (titanium["drilling"], titanium["tapping"]):
        assert not re.search(r"sulfur|sulfo|chlorinated", words)


@pytest.mark.parametrize(
    ("families", "metal"),
    [
        ("aluminium wrought;aluminium cast", "aluminium"), ("alloy steel", "alloy steel"), ("brass", "brass"),
        ("carbon steel;tool steel", "tool and low-carbon steel"), ("copper", "copper"), ("bronze", "bronze"),
        ("nickel", "nickel-copper alloy"), ("grey iron;ductile iron", "cast iron"), ("titanium", "titanium"),
        ("malleable iron", "malleable iron"), ("magnesium", "magnesium"), ("stainless PH", "stainless"),
    ],
)  # fmt: skip
def test_fluids_consistent_with_the_handbook(families, metal):
    """The shares of oil and water, and whether it is cut dry, by material."""
    (found,) = [one for one in read("derived", "cutting_fluids") if one["metal"] == metal]
    for family in families.split(";"):
        for use in ("drilling", "tapping"):
            for pattern in (r"\d+(?:-\d+)? %", r"soluble oil|emulsion|\bdry\b|lard|mineral|sulfo?-?\w*"):
                told, printed = set(re.findall(pattern, fluids()[family][use])), set(re.findall(pattern, found[use]))
                assert told <= printed, (family, use)
                assert told or not printed
