"""What a finish's document says besides its thickness: of a greatest one, of holes, and when the thread is cut.

ASTM B633-98 7.1.2 and its like exempt holes and threads, and plate is thin in them (NAS 672: what a 0.75 in ball does
not touch); a coat out of a bath without current or by immersion follows the hole (AMS 2404 1.2), as anodize and
conversion coats do; of the others nothing was seen. ASME B1.1-2003 7.4.2: one and a half times the least where no
greatest is given.
"""

from __future__ import annotations

from table_rows import held

#: The document has a gauge judge, and no thickness beside the least.
BY_GAUGE = {"ASTM F1941", "ASTM F2329", "ASTM A153", "ISO 10684", "ISO 10683:2000", "ASTM F1136"}
BY_DRAWING = {("QQ-C-320B / AMS-QQ-C-320", "Class 2"), ("ASTM B650", "Class 2")}
NO_BUILD_UP = {"MIL-DTL-13924D / MIL-C-13924C", "MIL-DTL-5541F", "AMS 2700 / ASTM A967"}
FOLLOWS_THE_HOLE = {
    # nickel out of a bath without current, tin by immersion
    "ASTM B733", "MIL-C-26074E", "AMS 2404", "AMS 2405", "MIL-T-81955",
    # phosphate, black oxide, conversion, passivation, anodize; what heat does
    "DOD-P-16232F / MIL-DTL-16232G", *NO_BUILD_UP, "MIL-A-8625F / MIL-PRF-8625",
    "nitriding", "carburizing", "through hardening",
}  # fmt: skip
THIN_IN_HOLES = {
    # zinc, cadmium and chromium by current; mechanical and flake zinc; hot-dip, whose nuts are tapped afterwards
    "ASTM B633", "ASTM F1941", "ISO 4042:1999", "ISO 4042:2018", "ASTM B695",
    "QQ-P-416F / AMS-QQ-P-416", "NAS 672", "MIL-C-8837B / AMS-C-8837", "ASTM B699",
    "QQ-C-320B / AMS-QQ-C-320", "AMS 2460", "ASTM B650", "ASTM B456",
    "ISO 10683:2000", "ISO 10683:2014 / 2018", "ASTM F1136", "ASTM F3393",
    "ASTM F2329", "ASTM A153", "ISO 10684", "ASTM A563", "ASTM A563M",
    # line of sight
    "PVD (TiN, CrN, DLC)",
}  # fmt: skip
TAPPED_AFTER = {"ASTM F2329", "ASTM A153", "ISO 10684", "ASTM A563", "ASTM A563M"}


def greatest(row):
    if row["specification"] in NO_BUILD_UP:
        return "no_build_up"
    if (row["specification"], row["finish_class"]) in BY_DRAWING:
        return "drawing"
    if row["t_max_um"] or row["t_max_in"]:
        return "stated"
    if not (row["t_min_um"] or row["t_min_in"]):
        return "must_be_given"
    return "gauge" if row["specification"] in BY_GAUGE else "one_and_a_half"


def in_holes(row):
    if row["specification"] in FOLLOWS_THE_HOLE:
        return "guaranteed"
    return "exempt" if row["specification"] in THIN_IN_HOLES else "not_known"


def test_what_a_document_says_beside_its_thickness():
    rows = held("finishes")
    assert not FOLLOWS_THE_HOLE & THIN_IN_HOLES
    assert {*FOLLOWS_THE_HOLE, *THIN_IN_HOLES, *BY_GAUGE} <= {row["specification"] for row in rows}
    for row in rows:
        applied = "after_finish" if row["specification"] in TAPPED_AFTER else "before_finish"
        told = (row["max_rule"], row["min_in_holes"], row["applied"])
        assert told == (greatest(row), in_holes(row), applied), (row["specification"], row["finish_class"])
