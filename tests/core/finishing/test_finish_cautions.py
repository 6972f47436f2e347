"""Cautions of a finish: hydrogen by standard, substrates, what a process leaves thin or full."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

import pytest
from allowances import HOT_DIP, ZINC_8, codes, resolved, said_of
from borewright.core.finishing import allow
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, MaterialInput


class Plated(NamedTuple):
    """A finish on a material, and what its standards say."""

    finish: str
    material: str
    words: tuple[str, ...]
    silent: tuple[str, ...] = ()


@pytest.mark.parametrize(
    "case",
    [
        Plated(
            "ASTM F1941 Fe/Zn 8", "4140 at 41 HRC", ("ASTM F1941 (2000 to 2010), from 40 HRC", "4 h", "above 39 HRC")
        ),
        Plated("ASTM F1941 Fe/Zn 8", "4140 at 39.5 HRC", ("above 39 HRC",), ("from 40 HRC",)),
        Plated("ISO 4042 8 um", "4140 at 34 HRC", ("above 320 HV",), ("above 365 HV", "above 390 HV")),
        Plated("ISO 4042 8 um", "4140 at 42 HRC", ("above 320 HV", "above 365 HV", "above 390 HV"), ("from 360",)),
        Plated("cadmium plate class 2", "4340 at 45 HRC", ("ASTM B849", "ASTM B850"), ("QQ-P-416F", "no cadmium")),
        Plated("AMS 2460 0.0002 in", "4340 at 50 HRC", ("MIL-DTL-14538D",), ("AMS 2460", "48 HRC")),
        Plated("ASTM B633 Fe/Zn 8", "4140 at 35 HRC", ("ASTM B849", "ASTM B850", "bake 8 h"), ("bake 10 h",)),
    ],
)
def test_hydrogen_rules_stay_with_their_standard(case):
    material = part_material.find(MaterialInput(name=case.material))
    said = said_of(
        allow(resolved("1/2-13"), FinishInput(text=case.finish), material=material), "hydrogen_embrittlement"
    )
    for word in case.words:
        assert word in said
    for word in case.silent:
        assert word not in said


@pytest.mark.parametrize(
    ("finish", "material", "bound"),
    [("cadmium plate class 2", "4340 at 45 HRC", "43 HRC"), ("AMS 2460 0.0002 in", "4340 at 50 HRC", "48 HRC")],
)
def test_a_prohibition_is_said_once_as_the_decision(finish, material, bound):
    """QQ-P-416F 3.2.1: above 43 HRC; AMS 2460: from 48 HRC."""
    notes = allow(
        resolved("1/2-13"), FinishInput(text=finish), material=part_material.find(MaterialInput(name=material))
    ).notes
    assert [one.code for one in notes.decisions if bound in one.text] == ["finish_prohibited"]
    assert not any(bound in one.text for one in notes.cautions)


def test_hot_dip_of_hard_steel():
    hard = part_material.find(MaterialInput(name="4140", hardness="36 HRC"))
    assert "risk" in said_of(allow(resolved("1/2-13"), HOT_DIP, material=hard), "hydrogen_embrittlement")


@pytest.mark.parametrize("material", ["4140 at 28 HRC", "1018", "6061-T6", "304"])
def test_no_hydrogen_caution_below_every_rule(material):
    found = allow(resolved("1/2-13"), ZINC_8, material=part_material.find(MaterialInput(name=material)))
    assert "hydrogen_embrittlement" not in codes(found)


def test_unknown_hardness_names_the_bounds():
    assert "1000\N{NO-BREAK SPACE}MPa" in said_of(allow(resolved("1/2-13"), ZINC_8), "hydrogen_embrittlement")


def test_mechanical_zinc_and_films_bring_no_hydrogen():
    for text in ("ASTM B695 Class 8", "black oxide", "MIL-A-8625 Type II"):
        assert "hydrogen_embrittlement" not in codes(allow(resolved("1/2-13"), FinishInput(text=text)))


@pytest.mark.parametrize(
    ("finish", "material", "expected"),
    [("hard anodize", "Ti-6Al-4V", True), ("hard anodize", "6061-T6", False), ("ASTM B633 SC2", "6061-T6", True)],
)
def test_substrate(finish, material, expected):
    found = allow(
        resolved("1/2-13"), FinishInput(text=finish), material=part_material.find(MaterialInput(name=material))
    )
    assert ("finish_substrate" in codes(found)) is expected


def test_tin_is_thicker_on_steel():
    steel = part_material.find(MaterialInput(name="1018"))
    tin = FinishInput(text="ASTM B545 Class C")
    assert allow(resolved("M8"), tin).finish.thickness.min == Decimal("0.008")
    assert allow(resolved("M8"), tin, material=steel).finish.thickness.min == Decimal("0.010")


@pytest.mark.parametrize(
    ("finish", "code"),
    [
        ("ASTM B633 SC2", "plate_thin_in_deep_holes"),
        ("hard chrome", "mask_chromium"),
        ("hard chrome", "finish_thickness_on_drawing"),
        ("hard anodize", "anodize_thin_in_deep_holes"),
        ("flZnnc 480 h", "flake_fills_roots"),
    ],
)
def test_cautions_of_a_process(finish, code):
    assert code in codes(allow(resolved("1/2-13"), FinishInput(text=finish)))
