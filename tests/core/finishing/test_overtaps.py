"""Oversize for hot-dip zinc: its system, its amounts, what it takes of the proof load."""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import assumes, resolved
from borewright.core.errors import FinishError
from borewright.core.finishing import allow, overtap
from borewright.core.model import FinishInput
from every import every

HALF = resolved("1/2-13 UNC-2B")
_IN = "\N{NO-BREAK SPACE}in"


@every(
    ("text", "large"),
    [("1 1/2-6 UNC-2B", False), ("1 3/4-5 UNC-2B", True), ("1/2-13 UNC-2B", False)],
)
def test_above_one_and_a_half_inches_the_bolt_may_be_cut_undersize(text, large):
    found = allow(resolved(text), FinishInput(text="ASTM A153"))
    said = [one.text for one in found.notes.cautions if one.code == "overtap_large"]
    assert bool(said) is large
    assert not large or said == [f"Above 1.5{_IN} it may be better to cut the bolt undersize (0.031{_IN}) instead."]


@every(
    ("text", "finish", "standard", "system", "status", "assumed"),
    [
        ("1/2-13 UNC-2B", "ASTM A153", "ASTM A563", "inch overtap", "second_hand", False),
        ("M12", "ISO 10684", "ISO 965-5", "6AZ", "second_hand", True),
        ("M12", "ISO 10684 6AZ", "ISO 965-5", "6AZ", "second_hand", False),
        ("M12", "ISO 10684 6AX", "ISO 965-5", "6AX", "second_hand", False),
        ("M12-6AX", "ISO 10684", "ISO 965-5", "6AX", "second_hand", False),
        ("M12", "ASTM A563M", "ASTM A563M", "6AX", "from_memory", False),
    ],
)
def test_the_system_of_an_overtap(text, finish, standard, system, status, assumed):
    found = allow(resolved(text), FinishInput(text=finish))
    assert (found.overtap.standard, found.overtap.system) == (standard, system)
    assert assumes(found, "position AZ is taken") is assumed
    source = next(one for one in found.notes.sources if one.field == "overtap")
    assert (source.document, source.status) == (standard, status)
    place = "overtapping table (Table 5)" if system == "inch overtap" else f"position {system[1:]}, grade 6"
    assert source.locator.endswith(place)
    marks = [one.text for one in found.notes.cautions if one.code == "overtap_mark"]
    assert marks == ([] if system == "inch overtap" else [
        f"A nut tapped {system} is marked {system[-1]}; say so on the drawing of a tapped part."
    ])  # fmt: skip


@every(("text", "reduced"), [("M8", True), ("M10", True), ("M12", False), ("M14", False)])
def test_the_proof_load_of_m8_and_m10_is_reduced(text, reduced):
    found = allow(resolved(text), FinishInput(text="ISO 10684"))
    codes = [one.code for one in found.notes.cautions]
    assert ("overtap_reduced_load" in codes) is reduced
    assert {"tap_after_galvanizing", "overtap_systems_exclusive", "overtap_mark"} <= set(codes)


def test_an_own_zone_needs_no_derivation_a_moved_one_shows_all_four_ends():
    assert not [step for step in allow(resolved("M12-6AZ"), FinishInput(text="ISO 10684")).notes.steps
                if step.quantity.startswith("overtap")]  # fmt: skip
    moved = [step for step in allow(resolved("M12"), FinishInput(text="ISO 10684")).notes.steps
             if step.quantity.startswith("overtap")]  # fmt: skip
    assert [(step.quantity, str(step.value)) for step in moved] == [
        ("overtap.amount", "0.335"),  # ISO 965-5: M12 AZ 335 um on 6H, 10.863 to 11.063 and 10.106 to 10.441
        ("overtap.limits.pitch_diameter.min", "11.198"),
        ("overtap.limits.pitch_diameter.max", "11.398"),
        ("overtap.limits.minor_diameter.min", "10.441"),
        ("overtap.limits.minor_diameter.max", "10.776"),
    ]
    assert moved[1].source == "ISO 965-5 position AZ"


@pytest.mark.parametrize("text", ["1/2-13 UNC-3B", "1/2-13 UNC-1B"])
def test_another_class_than_2b_names_it(text):
    with pytest.raises(FinishError) as refused:
        allow(resolved(text), FinishInput(text="ASTM A153"))
    assert refused.value.faults[0].did_you_mean == ("1/2-13 UNC-2B",)


def test_amounts_of_the_inch_table():
    assert overtap.inch_amount(HALF) == Decimal("0.018")
    assert overtap.inch_amount(resolved("1/2-20 UNF-2B")) is None
    assert overtap.inch_amount(resolved("1-4 SQUARE DEPTH .125")) is None
