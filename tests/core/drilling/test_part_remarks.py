"""What part material and engagement add to a drill, and that they choose none."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from borewright.core.drilling import DrillRequest, recommend

from .choices import drill_for, material, thread


@pytest.mark.parametrize(("engagement", "words"), [("0.5", "60 to 70 %"), ("1.0", "55 to 65 %"), ("0.2", "75 to 83 %")])
def test_usual_percent_is_told_but_decides_nothing(engagement, words):
    """Common practice: alloy steel below 300 HB 60-70 % to 1.5 D, 55-65 % beyond; 75-83 % below 0.5 D."""
    choice = drill_for("1/2-13 UNC-2B", material=material("4140", "long"), engagement=Decimal(engagement))
    assert choice.recommended.drill.label == "27/64"
    assert any(words in reason for reason in choice.recommended.reasons)


def test_depth_and_material_do_not_change_the_pick():
    plain = drill_for("M10")
    asked = replace(DrillRequest(), engagement=Decimal(12), material=material("4140", "long"))
    assert recommend(thread("M10"), asked).recommended.drill == plain.recommended.drill
