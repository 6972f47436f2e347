"""Shares of shear and speeds that are common practice, beside the pairs and ranges that they are drawn from."""

from __future__ import annotations

import pytest
from every import every
from outside_figures import published
from table_rows import held


def pair(metal: str) -> float:
    (row,) = [one for one in published("shear_tensile_pairs") if one["metal"] == metal]
    return float(row["shear"]) / float(row["tensile"])


#: The share of a family and the printed pair that it is rounded from.
PAIRS = [
    ("ductile iron", "ductile iron 65-45-12"), ("malleable iron", "malleable iron A47"),
    ("aluminium wrought", "aluminium 7075-T6"), ("aluminium cast", "cast aluminium 380 die cast"),
    ("magnesium", "magnesium AZ80A-T5"), ("copper", "copper, hard strip"), ("titanium", "Ti-6Al-4V annealed"),
    ("stainless austenitic", "stainless 304 half hard"), ("zinc die cast", "zinc ZA-12"),
]  # fmt: skip


@every(("family", "metal"), PAIRS)
def test_a_share_is_the_printed_pair_to_a_hundredth(family, metal):
    """Never rounded up by more than half a hundredth: a thread that is thought too strong would strip."""
    (row,) = held("shear_ratios", family=family)
    assert -0.006 <= float(row["ratio"]) - pair(metal) <= 0.005


def test_shares_without_a_pair():
    """Steels, nickel and superalloys: the floor 0.58 (distortion energy 0.577), to 0.60 as measured; grey iron 1.00;
    brass by the low end of 32/57 ksi, bronze as brass.
    """
    shares = {row["family"]: (row["ratio"], row["cap"]) for row in held("shear_ratios")}
    steels = {family for family in shares if "steel" in family or family.startswith("stainless")}
    assert len(steels) == 9
    assert {shares[one] for one in steels} == {("0.58", "0.60")}
    assert shares["nickel"] == shares["superalloy"] == ("0.58", "")
    assert shares["grey iron"] == ("1.00", "1.00")
    assert shares["malleable iron"] == ("0.96", "1.00")
    assert float(shares["brass"][0]) == pytest.approx(32 / 57, abs=0.005)
    assert shares["bronze"] == shares["brass"]


def test_drilling_speeds_of_common_practice():
    """Hardness in HB (400 to 560 is about 45 to 55 HRC) and ranges in ft/min where nothing is printed."""
    columns = ("printed_as", "hb_from", "hb_to", "low_ft_min", "high_ft_min")
    found = [tuple(row[one] for one in columns) for row in held("drilling_speeds") if not row["source"]]
    assert found == [
        ("hardened steel 45-55 HRC (HSS-Co)", "400", "560", "7", "20"),
        ("nickel-base superalloy (718 type)", "", "", "10", "20"),
        ("magnesium alloys", "", "", "250", "400"),
        ("copper", "", "", "60", "100"),
    ]
