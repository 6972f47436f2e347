"""The finish tables prove themselves: identities, closed vocabularies, references between them."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.finishing.finish_text import read
from borewright.core.model import STATUSES
from borewright.tables import load
from every import every


def finishes():
    return load("finishes").rows


def _number(cell):
    return Decimal(cell) if cell else None


def test_closed_vocabularies():
    assert {row["max_rule"] for row in finishes()} == {
        "stated", "one_and_a_half", "drawing", "gauge", "must_be_given", "no_build_up",
    }  # fmt: skip
    assert {row["min_in_holes"] for row in finishes()} == {"guaranteed", "exempt", "not_known"}
    assert {row["applied"] for row in finishes()} == {"before_finish", "after_finish"}
    assert {row[column] for row in finishes() for column in ("status", "growth_status")} <= set(STATUSES)


@every("row", finishes, ids=lambda row: f"{row['specification']} {row['finish_class']}")
def test_a_row_is_consistent(row):
    for unit in ("um", "in"):
        least, most = _number(row[f"t_min_{unit}"]), _number(row[f"t_max_{unit}"])
        assert least is None or most is None or least < most
    assert 0 <= Decimal(row["growth_min"]) <= Decimal(row["growth_max"]) <= 1
    printed = any(row[column] for column in ("t_min_um", "t_max_um", "t_min_in", "t_max_in"))
    assert printed == (row["max_rule"] not in ("must_be_given", "no_build_up"))
    assert (row["max_rule"] == "no_build_up") == (Decimal(row["growth_max"]) == 0)
    if row["max_rule"] == "stated":
        assert row["t_max_um"] or row["t_max_in"]
    assert row["document"]
    assert row["edition"]
    assert row["locator"]


def test_both_printed_units_agree():
    """um and in are separately published roundings: within 0.5 um, or half of the last digit."""
    both = [row for row in finishes() if row["published_unit"] == "both"]
    assert len(both) == 8
    for row in both:
        assert abs(Decimal(row["t_min_um"]) - Decimal(row["t_min_in"]) * 25400) <= Decimal("0.7")


def test_seven_classes_of_mechanical_zinc_are_from_40_um():
    """Scope of ASTM B695: eleven classes to 107 um, seven thickest are mechanically galvanized."""
    minima = [int(row["t_min_um"]) for row in finishes() if row["specification"] == "ASTM B695"]
    assert len(minima) == 11
    assert max(minima) == 107
    assert sum(minimum >= 40 for minimum in minima) == 7


def test_cadmium_documents_agree():
    """QQ-P-416F, NAS 4160 and Machinery's Handbook give the same three classes."""
    classes = {
        name: [row["t_min_in"] for row in finishes() if row["specification"].startswith(name)]
        for name in ("QQ-P-416F", "NAS 4160", "MIL-P-23408B")
    }
    assert set(map(tuple, classes.values())) == {("0.0005", "0.0003", "0.0002")}


def test_tables_refer_to_each_other():
    names = [row["specification"] for row in load("finish_specifications").rows]
    assert len(set(names)) == len(names)
    assert set(names) == {row["specification"] for row in finishes()}
    families = {row["family"] for row in load("finish_specifications").rows}
    for row in load("finish_names").rows:
        for column in ("specifications", "specifications_mm"):
            assert set(filter(None, row[column].split("|"))) <= set(names)
        assert set(row["families"].split("|")) <= families | {"*"}
    for row in load("hydrogen_rules").rows:
        assert set(row["applies_to"].split("|")) <= families | set(names) | {"*"}


@every(
    ("name", "meant"),
    lambda: [(name, row["specifications"]) for row in load("finish_names").rows for name in row["names"].split("|")],
)
def test_every_name_of_the_trade_is_read(name, meant):
    reading = read(f"{name} 0.0002 in", unit="in")
    assert reading.product.specification.name in meant.split("|")


def test_overtap_deviations_are_their_formulas():
    """ISO 965-5: EI(AZ) = 300 + 20 P, EI(AX) = 220 P - 20."""
    rows = load("iso965_5_overtap").rows
    assert len(rows) == 21
    for row in rows:
        pitch = Decimal(row["pitch_mm"])
        assert Decimal(row["ei_az_um"]) == 300 + 20 * pitch
        assert Decimal(row["ei_ax_um"]) == 220 * pitch - 20


def test_position_g_coat_is_the_largest_step_in_its_room():
    """ISO 4042: largest of 3 ... 30 um not above EI/4."""
    steps = (3, 5, 8, 10, 12, 15, 20, 25, 30)
    for row in load("iso4042_position_g").rows:
        assert int(row["max_nominal_um"]) == max(step for step in steps if 4 * step <= int(row["ei_um"]))


def test_hydrogen_bounds_are_ordered():
    for row in load("hydrogen_rules").rows:
        assert row["bound"] in ("over", "from", "")
        assert bool(row["threshold"]) == bool(row["measure"])
        assert not row["up_to"] or float(row["threshold"]) < float(row["up_to"])
