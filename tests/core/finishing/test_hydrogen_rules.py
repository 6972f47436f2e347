"""From which hardness or strength each standard speaks of hydrogen: both sides of every bound, and what is said.

ISO 4042:1999 clause 6 and ISO 4042:2018, ASTM F1941 (2000 to 2010) and F1941/F1941M (2015), ASTM B849, ASTM B850
(1998), QQ-P-416F 3.2.1, AMS 2460, MIL-DTL-14538D 4.5, ASTM F2329, as read for the table of hydrogen rules.
"""

from __future__ import annotations

from allowances import resolved
from borewright.core import finishing
from borewright.core.finishing import hydrogen
from borewright.core.finishing.finish_text import read
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, MaterialInput
from every import every

ZINC, CADMIUM = "ASTM B633 Fe/Zn 8", "cadmium plate class 2"
AFTER_2018, TO_2010 = "ISO 4042:2018 8 um", "ASTM F1941 Fe/Zn 8"


def steel(hard):
    """4140 of a hardness, or of a tensile strength in MPa where it is a number."""
    if isinstance(hard, str):
        return part_material.find(MaterialInput(name="4140", hardness=hard))
    return part_material.find(MaterialInput(name="4140", tensile_strength_mpa=hard))


def said(finish, hard):
    """The caution of a finish on steel of a hardness or strength, with the quantities as they are read."""
    material = None if hard is None else steel(hard)
    found = finishing.allow(resolved("1/2-13 UNC-2B"), FinishInput(text=finish), material=material)
    texts = [one.text for one in found.notes.cautions if one.code == "hydrogen_embrittlement"]
    return texts[0].replace("\N{NO-BREAK SPACE}", " ") if texts else ""


#: Strengths of a band of ASTM B850 and the hours of its bake.
BAKED = [
    (1001, 1100, 8), (1101, 1200, 10), (1201, 1300, 12), (1301, 1400, 14),
    (1401, 1500, 16), (1501, 1600, 18), (1601, 1700, 20), (1701, 1800, 22),
]  # fmt: skip


@every(("least", "most", "hours"), BAKED)
def test_hours_of_a_bake_by_strength(least, most, hours):
    for strength in (least, most):
        text = said(ZINC, float(strength))
        assert (
            f"ASTM B850 (1998 (2009)), from {least} to {most} MPa: bake {hours} h at 190 to 220 C (374 to 428 F)"
            in text
        )
        assert text.count("bake") == 1


@every(
    ("finish", "below", "from_", "words"),
    [
        # at the bound itself, then a little above it: HRC and MPa, HV over the conversion of steel
        (ZINC, 999.0, 1000.0, "ASTM B849, from 1000 MPa: stress relief"),
        (ZINC, 1000.4, 1000.5, "ASTM B850 (1998 (2009)), from 1001 to 1100 MPa"),
        (TO_2010, "39.9 HRC", "40 HRC", "ASTM F1941 (2000 to 2010), from 40 HRC"),
        (TO_2010, "39 HRC", "39.1 HRC", "ASTM F1941/F1941M (2015), above 39 HRC"),
        ("ISO 4042 8 um", "320 HV", "320.5 HV", "ISO 4042 (1999), above 320 HV: needs a process test"),
        ("ISO 4042 8 um", "365 HV", "365.5 HV", "ISO 4042 (1999), above 365 HV: needs written agreement"),
        (AFTER_2018, "359.5 HV", "360 HV", "ISO 4042 (2018), from 360 to 390 HV: no bake"),
        (AFTER_2018, "390 HV", "390.5 HV", "ISO 4042 (2018), above 390 HV: bake"),
        ("hot-dip galvanized", "32.9 HRC", "33 HRC", "ASTM F2329, from 33 to 40 HRC: risk"),
        # from its first rule with a bound on a finish brings the one without: chromium is baked 3 h
        ("AMS 2460 0.0002 in", 999.0, 1000.0, "MIL-DTL-14538D (D): bake at 375 +/-25 F (177 to 204 C) for 3 h or more"),
    ],
)
def test_a_rule_holds_from_its_bound_on(finish, below, from_, words):
    assert words not in said(finish, below)
    assert words in said(finish, from_)


@every(
    ("finish", "last", "beyond", "words"),
    [
        (AFTER_2018, "390 HV", "390.5 HV", "no bake where process and product are verified"),
        ("hot-dip galvanized", "40 HRC", "40.1 HRC", "risk of embrittlement"),
        (ZINC, 1800.0, 1801.0, "ASTM B850"),
    ],
)
def test_a_rule_ends_at_its_upper_bound(finish, last, beyond, words):
    assert words in said(finish, last)
    assert words not in said(finish, beyond)


@every(
    ("finish", "allowed", "not_allowed", "rule"),
    [
        (CADMIUM, "43 HRC", "43.1 HRC", "QQ-P-416F (October 1991), above 43 HRC: no cadmium"),
        ("AMS 2460 0.0002 in", "47.9 HRC", "48 HRC", "AMS 2460, from 48 HRC: no chromium"),
        ("hot-dip galvanized", "39.9 HRC", "40 HRC", "ASTM F2329, from 40 HRC: not to be hot-dip galvanized"),
    ],
)
def test_a_prohibition_is_asked_about_from_its_bound_on(finish, allowed, not_allowed, rule):
    product = read(finish, unit="in").product
    assert hydrogen.prohibited(product, steel(allowed)) is None
    assert rule in hydrogen.prohibited(product, steel(not_allowed)).text


@every(
    ("finish", "bounds"),
    [
        (ZINC, ["ASTM B849, from 1000 MPa"]),
        (CADMIUM, ["ASTM B849, from 1000 MPa", "above 43 HRC"]),
        ("ISO 4042 8 um", ["above 320 HV", "above 365 HV", "from 360 to 390 HV", "above 390 HV"]),
        (TO_2010, ["from 40 HRC", "above 39 HRC"]),
        ("hot-dip galvanized", ["from 33 to 40 HRC", "from 40 HRC"]),
        ("AMS 2460 0.0002 in", ["from 48 HRC"]),
    ],
)
def test_a_part_of_unknown_hardness_is_told_every_bound(finish, bounds):
    """But for the bands of ASTM B850, which would be eight of them."""
    text = said(finish, None)
    assert [bound for bound in bounds if bound not in text] == []
    assert "ASTM B850" not in text
