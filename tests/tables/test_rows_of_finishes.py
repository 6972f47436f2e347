"""Thicknesses of finishes, overtaps and deviations, whole rows, against tests/published and tests/derived."""

from __future__ import annotations

import re
from decimal import Decimal

from every import every
from outside_figures import outside
from table_rows import held, plain, unlike

FIGURES = ("t_min_um", "t_max_um", "t_min_in", "t_max_in")


def words(text: str) -> list[str]:
    return re.findall(r"[a-z]+|[\d.]+", text.lower())


def same(row: dict[str, str], printed: dict[str, str]) -> bool:
    """Of one standard, and each word of our class stands in the printed one."""
    standard = words(row["specification"])[:2] == words(printed["standard"])[:2]
    return standard and set(words(row["finish_class"])) <= set(words(printed["class_designation"]))


#: Rows that are read otherwise: least and greatest thickness as the row's unit prints them.
OTHERWISE = {
    # ASTM B696 and B766: a class is named by its least thickness in micrometres, as those of ASTM B633 are
    **{("ASTM B696", f"Class {um}"): (f"{um}", "", "", "") for um in (5, 8, 12)},
    **{("ASTM B766", f"Class {um}"): (f"{um}", "", "", "") for um in (5, 8, 12, 25)},
    # ASTM B545 asks for more tin on steel than on copper
    ("ASTM B545", "Class C on steel"): ("10", "", "", ""),
    ("ASTM B545", "Class D on steel"): ("20", "", "", ""),
    # named by the thickness
    ("NASM35649", "tin 0.0001 in"): ("", "", "0.0001", ""),
    ("NASM35649", "silver 0.0001 in"): ("", "", "0.0001", ""),
    # production-lot average: over 3/8 in 0.0020 in, to 3/8 in 0.0017 in
    ("ASTM F2329", "over 3/8 in"): ("", "", "0.0020", ""),
    ("ASTM F2329", "to 3/8 in"): ("", "", "0.0017", ""),
    ("ISO 10684", ""): ("40", "", "", ""),
    ("ISO 10684", "6AZ"): ("40", "", "", ""),
    ("ISO 10684", "6AX"): ("40", "", "", ""),
    # the least of both and the greatest of both
    ("DOD-P-16232F / MIL-DTL-16232G", "Type M or Z"): ("", "", "0.0002", "0.0006"),
    # Class 1 has the range of Type II, from the thickness at which it is sealed: common practice
    ("MIL-A-8625F / MIL-PRF-8625", "Type II Class 1"): ("", "", "0.0002", "0.001"),
}  # fmt: skip


@every(
    "row",
    lambda: [row for row in held("finishes") if any(row[one] for one in FIGURES)],
    ids=lambda row: f"{row['specification']} {row['finish_class']}",
)
def test_a_finish_is_as_thick_as_its_class(row):
    own = {one: plain(row[one]) for one in FIGURES if row[one]}
    given = OTHERWISE.get((row["specification"], row["finish_class"]))
    if given is None:
        printed = [one for one in outside("coatings") + outside("coatings_additions") if same(row, one)]
        rows = [{one: plain(other[one]) for one in FIGURES} for other in printed]
    else:
        rows = [dict(zip(FIGURES, map(plain, given), strict=True))]
    assert any(all(other[one] == figure for one, figure in own.items()) for other in rows), (own, rows)


def test_fasteners_of_3_8_in_are_the_border_of_hot_dip_zinc():
    """ASTM F2329 and ASTM A153 (classes C and D) print 3/8 in."""
    found = [(row["over_in"], row["up_to_in"]) for row in held("finishes") if row["over_in"] or row["up_to_in"]]
    assert sorted(found) == [("", "0.375"), ("", "0.375"), ("0.375", ""), ("0.375", "")]


def a563():
    """Metric allowances are printed in micrometres and held in millimetres."""
    for row in outside("a563_overtap"):
        metric = row["system"] == "metric"
        allowance = Decimal(row["diametral_allowance"]) / (1000 if metric else 1)
        yield {
            "system": "iso_metric" if metric else "unified", "nominal": row["size"].removeprefix("M"),
            "pitch_or_tpi": row["pitch_or_tpi"], "series": row["series"], "allowance": str(allowance),
            "unit": "mm" if metric else "in",
        }  # fmt: skip


def test_overtaps_are_those_from_outside():
    columns = "series allowance unit"
    assert list(unlike(a563(), held("a563_overtap"), "system nominal pitch_or_tpi", columns)) == []


def test_room_of_position_g_is_that_from_outside():
    """ISO 4042 Table 2: pitch, deviation EI and the greatest nominal thickness."""
    printed = [
        {"pitch_mm": row["pitch_mm"],
         "max_nominal_um": row["max_nominal_coating_um_published"] or row["max_nominal_coating_um_check"]}
        for row in outside("iso4042_internal_G")
    ]  # fmt: skip
    assert list(unlike(printed, held("iso4042_position_g"), "pitch_mm", "max_nominal_um")) == []


def test_overtap_deviations_are_those_from_outside():
    """ISO 965-5: AZ is 300 + 20 P, AX 220 P - 20 um; a thread that is not printed follows the formulas."""
    printed = {}
    for row in outside("iso965_5"):
        size, one = Decimal(row["thread"].removeprefix("M").partition("x")[0]), row["class"][-2:]
        printed[size, Decimal(row["pitch_mm"]), one] = Decimal(row["EI_um"])
    for row in held("iso965_5_overtap"):
        size, pitch = Decimal(row["nominal_mm"]), Decimal(row["pitch_mm"])
        formula = {"AZ": 300 + 20 * pitch, "AX": 220 * pitch - 20}
        for one, column in (("AZ", "ei_az_um"), ("AX", "ei_ax_um")):
            assert Decimal(row[column]) == printed.get((size, pitch, one), formula[one]), (row, one)
    coarse = {(plain(row["D"]), plain(row["P"])) for row in outside("metric_series") if row["series"] == "coarse"}
    assert {(plain(row["nominal_mm"]), plain(row["pitch_mm"])) for row in held("iso965_5_overtap")} <= coarse


#: Applies to, edition, measure, threshold and end of each rule: what the documents say of hardness and strength.
HYDROGEN = [
    # ISO 4042:1999 clause 6: over 320 HV a process test, over 365 HV by agreement; 2018: 360 to 390 HV no bake where
    # verified, over 390 HV bake
    ("ISO 4042", "1999", "HV", "320", ""), ("ISO 4042", "1999", "HV", "365", ""),
    ("ISO 4042", "2018", "HV", "360", "390"), ("ISO 4042", "2018", "HV", "390", ""),
    # ASTM F1941: 40 HRC and above to 2010, above 39 HRC from 2015
    ("ASTM F1941", "2000 to 2010", "HRC", "40", ""), ("ASTM F1941/F1941M", "2015", "HRC", "39", ""),
    # ASTM B849: 1000 MPa and above is relieved; ASTM B850: eight classes of 100 MPa from 1001 MPa
    ("ASTM B849", "not stated", "MPa", "1000", ""),
    *(("ASTM B850", "1998 (2009)", "MPa", f"{low}01", f"{low + 1}00") for low in range(10, 18)),
    # QQ-P-416F 3.2.1: above 43 HRC; AMS 2460: 48 HRC and above; ASTM F2329: 33 to 40 HRC at risk, 40 HRC refused
    ("QQ-P-416F", "October 1991", "HRC", "43", ""), ("AMS 2460", "not stated", "HRC", "48", ""),
    ("MIL-DTL-14538D", "D", "", "", ""),
    ("ASTM F2329", "not stated", "HRC", "33", "40"), ("ASTM F2329", "not stated", "HRC", "40", ""),
]  # fmt: skip


def test_hydrogen_rules_begin_where_their_documents_say():
    columns = ("document", "edition", "measure", "threshold", "up_to")
    assert [tuple(row[one] for one in columns) for row in held("hydrogen_rules")] == HYDROGEN


def test_baking_lasts_two_hours_longer_for_each_hundred_megapascals():
    """ASTM B850: 8 h from 1001 MPa to 22 h from 1701 MPa, at 190 to 220 C."""
    said = [row["rule"] for row in held("hydrogen_rules", document="ASTM B850")]
    assert said == [f"bake {hours} h at 190 to 220 C (374 to 428 F)" for hours in range(8, 24, 2)]


def test_hard_anodize_is_two_thousandths_give_or_take_a_fifth():
    """MIL-A-8625F 6.10.4: 0.002 in nominal; plus or minus 20 percent is from memory."""
    (row,) = held("finish_nominals")
    assert (row["finish_class"], row["nominal_in"], row["tolerance_percent"]) == ("Type III", "0.002", "20")
    (thick,) = held("finishes", specification=row["specification"], finish_class="Type III")
    ends = [Decimal(thick[one]) for one in ("t_min_in", "t_max_in")]
    assert ends == [Decimal("0.002") * share for share in (Decimal("0.8"), Decimal("1.2"))]
