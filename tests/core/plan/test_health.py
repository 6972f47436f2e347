"""What harms people is said once, with a code of its own, and only where it is there."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.finishing.products import specifications
from borewright.core.materials import alloys
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest
from borewright.tables import load

HARMS = {row["code"] for row in load("health").rows}
COAT = Length(Decimal("0.0003"), "in")
HOLE = Hole("blind", full_thread_depth=Length(Decimal("0.5"), "in"))


def said(material=None, finish=None):
    spec = specify(
        HoleSpecRequest(
            callout.read("3/8-16 UNC-2B"),
            HOLE,
            material=None if material is None else MaterialInput(name=material),
            finish=None if finish is None else FinishInput(text=finish),
        )
    )
    return [one.code for one in spec.notes.cautions if one.code in HARMS]


@pytest.mark.parametrize(
    ("material", "code"),
    [
        ("beryllium copper", "beryllium_dust"),  # 1.8 to 2 % Be
        ("C360", "lead_in_chips"),  # 2.5 to 3 % Pb
        ("SAE 660", "lead_in_chips"),  # bearing bronze, 6 to 8 % Pb
        ("12L14", "lead_in_chips"),  # 0.15 to 0.35 % Pb
        ("leaded brass", "lead_in_chips"),
        ("AZ91D", "magnesium_chips"),
        ("class 30 grey iron", "iron_dust"),
        ("A536 65-45-12", "iron_dust"),
        ("G10", "composite_dust"),
        ("carbon fibre plate", "composite_dust"),
    ],
)
def test_harm_of_a_material(material, code):
    assert said(material) == [code]


@pytest.mark.parametrize(
    ("finish", "material", "code"),
    [
        ("QQ-P-416 type II class 2", "4140", "cadmium_poisonous"),
        ("ASTM B696 class 8", "4140", "cadmium_poisonous"),
        ("chromate conversion", "6061-T6", "chromate_poisonous"),
        ("MIL-DTL-5541 type I class 1A", "6061-T6", "chromate_poisonous"),
        ("chromic acid anodize", "6061-T6", "chromate_poisonous"),
        ("ASTM B633 Fe/Zn 8 Type II", "1018", "chromate_poisonous"),
    ],
)
def test_harm_of_a_finish(finish, material, code):
    assert said(material, finish) == [code]


@pytest.mark.parametrize("material", [None, "1018", "C110", "lead free brass", "6061-T6", "304", "nylon"])
def test_nothing_is_said_of_what_harms_nobody(material):
    assert said(material) == []


@pytest.mark.parametrize(
    ("finish", "material"), [("MIL-DTL-5541 type II class 3", "6061-T6"), ("ASTM B633 Fe/Zn 8", "4140")]
)
def test_a_film_without_hexavalent_chromium_is_not_warned_of(finish, material):
    assert said(material, finish) == []


def test_what_the_table_names_exists():
    known = {
        "alloy": {row.alloy for row in alloys.alloys()},
        "family": {row.family for row in alloys.alloys()},
        "finish_family": {one.family for one in specifications().values()},
    }
    for row in load("health").rows:
        assert set(row["named"].split(";")) <= known.get(row["kind"], set(row["named"].split(";"))), row


def test_a_coat_told_by_its_figures_alone_harms_nobody_that_is_known():
    spec = specify(
        HoleSpecRequest(callout.read("3/8-16 UNC-2B"), HOLE, finish=FinishInput(thickness=LengthRange(COAT, COAT)))
    )
    assert [one.code for one in spec.notes.cautions if one.code in HARMS] == []


def test_a_harm_is_told_with_the_name_of_what_has_it():
    told = {
        one.code: one.text.partition(":")[0]
        for one in specify(
            HoleSpecRequest(
                callout.read("3/8-16 UNC-2B"),
                HOLE,
                material=MaterialInput(name="12L14"),
                finish=FinishInput(text="QQ-P-416 type I class 2"),
            )
        ).notes.cautions
    }
    assert told["cadmium_poisonous"].startswith("QQ-P-416")
    assert "12L14" in told["lead_in_chips"]
