"""Hydrogen by standard: at which hardness or strength each rule of hydrogen_rules.csv begins and ends.

Vickers bounds by ASTM E140: 32 HRC are 318 HV, 33 are 327, 36 are 354, 37 are 363, 38 are 372, 39 are 382, 40 are 392.
Bands of strength are printed in whole MPa.
"""

from __future__ import annotations

import pytest
from borewright.core.finishing import hydrogen
from borewright.core.finishing.finish_text import read
from borewright.core.model import Material
from every import every

NO_BREAK = "\N{NO-BREAK SPACE}"


def _row(text):
    return read(text, unit="in", thickness_given=True).product


def _part(*, hrc=None, mpa=None, hb=None, family="alloy steel", group="P"):
    return Material("the part", family, group, None, hb, hrc, mpa, None, None, None)


RELIEF = 1000.0


@every(
    ("finish", "hrc", "mpa", "bounds"),
    [
        ("ISO 4042 8 um", 32, None, ()),
        ("ISO 4042 8 um", 33, None, (320,)),
        ("ISO 4042 8 um", 36, None, (320,)),
        ("ISO 4042 8 um", 37, None, (320, 360)),
        ("ISO 4042 8 um", 38, None, (320, 365, 360)),
        ("ISO 4042 8 um", 39, None, (320, 365, 360)),
        ("ISO 4042 8 um", 40, None, (320, 365, 390)),
        ("ASTM F1941 Fe/Zn 8", 39, None, ()),
        ("ASTM F1941 Fe/Zn 8", 39.1, None, (39,)),
        ("ASTM F1941 Fe/Zn 8", 39.9, None, (39,)),
        ("ASTM F1941 Fe/Zn 8", 40, None, (40, 39)),
        ("ASTM F1941 Fe/Zn 8", 30, 1150, (RELIEF, 1101)),
        ("ASTM B633 Fe/Zn 8", 60, None, ()),
        ("ASTM B633 Fe/Zn 8", None, 999.4, ()),
        ("ASTM B633 Fe/Zn 8", None, 999.5, (RELIEF,)),
        ("ASTM B633 Fe/Zn 8", None, 1000, (RELIEF,)),
        ("ASTM B633 Fe/Zn 8", None, 1000.4, (RELIEF,)),
        ("ASTM B633 Fe/Zn 8", None, 1000.5, (RELIEF, 1001)),
        ("ASTM B633 Fe/Zn 8", None, 1100, (RELIEF, 1001)),
        ("ASTM B633 Fe/Zn 8", None, 1101, (RELIEF, 1101)),
        ("ASTM B633 Fe/Zn 8", None, 1800, (RELIEF, 1701)),
        ("ASTM B633 Fe/Zn 8", None, 1801, (RELIEF,)),
        ("QQ-P-416 Class 2", 43, None, ()),
        ("QQ-P-416 Class 2", 43.1, None, (43,)),
        ("AMS 2460", 47.9, None, ()),
        ("AMS 2460", 48, None, (48, None)),
        ("AMS 2460", 47.9, 1050, (RELIEF, 1001, None)),
        ("ASTM F2329", 32.9, None, ()),
        ("ASTM F2329", 33, None, (33,)),
        ("ASTM F2329", 39.9, None, (33,)),
        ("ASTM F2329", 40, None, (33, 40)),
        ("ASTM F2329", 40.1, None, (40,)),
        ("ASTM F2329", None, 1500, ()),
        ("black oxide", 60, 1900, ()),
        ("ASTM B695 Class 8", 60, 1900, ()),
        ("copper plate AMS 2418", None, 1000, (RELIEF,)),
    ],
)
def test_rules_begin_and_end_where_their_standard_says(finish, hrc, mpa, bounds):
    reached = hydrogen.reached_by(_row(finish), _part(hrc=hrc, mpa=mpa))
    assert tuple(rule.least for rule in reached) == bounds


@every(
    ("family", "group", "embrittles"),
    [
        ("alloy steel", "P", True),
        ("stainless, martensitic", "M", True),
        ("stainless, austenitic", "M", False),
        ("plastic, acetal", "O", False),
        ("aluminium, wrought", "N", False),
        (None, None, True),
    ],
)
def test_hydrogen_is_a_matter_of_steel(family, group, embrittles):
    part = _part(hrc=45, mpa=1450, family=family, group=group)
    zinc = _row("ASTM B633 Fe/Zn 8")
    assert bool(hydrogen.reached_by(zinc, part)) is embrittles
    assert bool(hydrogen.cautions(zinc, part)) is embrittles
    assert (hydrogen.bake(zinc, part) is not None) is embrittles


ALL_OF_ZINC = (
    "Hard steel can crack after plating or pickling. ASTM B849, from 1000\N{NO-BREAK SPACE}MPa: stress relief before"
    " plating if worked after heat treatment."
)


@every(
    ("part", "said"),
    [
        (None, ALL_OF_ZINC),
        (_part(), ALL_OF_ZINC),
        (_part(hb=226), ALL_OF_ZINC),  # 226 HB are 20 HRC, where the table of steel begins
        (_part(hb=225.9), None),
        (_part(hrc=40), None),
        (_part(mpa=900), None),
        (
            _part(mpa=1050),
            "At this hardness: ASTM B849, from 1000\N{NO-BREAK SPACE}MPa: stress relief before plating if worked after"
            " heat treatment; ASTM B850 (1998 (2009)), from 1001 to 1100\N{NO-BREAK SPACE}MPa: bake 8 h at 190 to 220 C"
            " (374 to 428 F).",
        ),
    ],
)
def test_what_is_said_of_zinc_on_a_part(part, said):
    found = hydrogen.cautions(_row("ASTM B633 Fe/Zn 8"), part)
    assert [one.text for one in found] == ([] if said is None else [said])


@every(
    ("finish", "part", "said"),
    [
        (
            "ASTM F1941 Fe/Zn 8",
            _part(hrc=40),
            "At this hardness: ASTM F1941 (2000 to 2010), from 40 HRC: risk: bake within 4 h of plating and before"
            " chromate; ASTM F1941/F1941M (2015), above 39 HRC: risk of embrittlement.",
        ),
        (
            "AMS 2460",
            _part(hrc=48),
            "At this hardness: MIL-DTL-14538D (D): bake at 375 +/-25 F (177 to 204 C) for 3 h or more, started within 4"
            " h of plating.",
        ),
        ("ASTM F2329", _part(hrc=36), "At this hardness: ASTM F2329, from 33 to 40 HRC: risk of embrittlement."),
        ("QQ-P-416 Class 2", _part(hrc=44), None),  # the prohibition is a decision
        ("black oxide", None, None),
    ],
)
def test_what_is_said_of_other_finishes(finish, part, said):
    found = hydrogen.cautions(_row(finish), part)
    assert [one.text for one in found] == ([] if said is None else [said])


@every(
    ("finish", "part", "bound"),
    [
        ("QQ-P-416 Class 2", _part(hrc=43.1), "above 43 HRC"),
        ("QQ-P-416 Class 2", _part(hrc=43), None),
        ("ASTM F2329", _part(hrc=40), "from 40 HRC"),
        ("AMS 2460", _part(hrc=48), "from 48 HRC"),
        ("AMS 2460", _part(hrc=47.9, mpa=1050), None),
        ("ASTM B633 Fe/Zn 8", _part(hrc=50, mpa=1700), None),
        ("QQ-P-416 Class 2", None, None),
        (None, _part(hrc=50), None),
    ],
)
def test_what_a_standard_prohibits_is_asked_about(finish, part, bound):
    found = hydrogen.prohibited(None if finish is None else _row(finish), part)
    assert (found is None) is (bound is None)
    if found is not None:
        assert found.code == "finish_prohibited"
        assert bound in found.text
        assert f"{_row(finish).label} on the part: " in found.text


@pytest.mark.parametrize("mpa", [999, 1000])
def test_stress_relief_is_asked_from_1000_mpa(mpa):
    said = hydrogen.stress_relief(_row("ASTM B633 Fe/Zn 8"), _part(mpa=mpa))
    assert (said is not None) is (mpa == 1000)
    if said is not None:
        assert f"(ASTM B849, from 1000{NO_BREAK}MPa: " in said


@every(
    ("finish", "part", "words"),
    [
        ("ASTM B633 Fe/Zn 8", _part(mpa=1100), "before any chromate: ASTM B850 (1998 (2009)), from 1001 to 1100"),
        ("QQ-P-416 Class 2", _part(mpa=1100), "before any chromate: "),
        ("ASTM B841", _part(mpa=1100), "before any chromate: "),
        ("ISO 4042 8 um", _part(mpa=1100), "before any chromate: "),
        ("AMS 2418", _part(mpa=1100), "within 4 h of plating: ASTM B850"),
        ("AMS 2460", _part(hrc=48), "within 4 h of plating: MIL-DTL-14538D (D): bake at 375"),
        ("AMS 2460", _part(mpa=1100), "to 428 F); MIL-DTL-14538D (D): bake at 375"),
        ("ISO 4042 8 um", _part(hrc=40), "ISO 4042 (2018), above 390 HV: bake, unless not loaded in tension"),
        ("ISO 4042 8 um", _part(hrc=38), None),
        ("ASTM B633 Fe/Zn 8", _part(mpa=1000), None),
        ("ASTM B633 Fe/Zn 8", None, None),
        (None, _part(mpa=1100), None),
    ],
)
def test_the_bake_after_plating(finish, part, words):
    said = hydrogen.bake(None if finish is None else _row(finish), part)
    assert (said is None) is (words is None)
    if said is not None:
        assert said.startswith("Bake against hydrogen, started within 4 h of plating")
        assert words in said
