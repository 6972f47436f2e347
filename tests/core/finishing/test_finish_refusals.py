"""Finishes that are refused, at their field; what a stated thickness replaces or adds."""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import assumes, resolved, span
from borewright.core.errors import FinishError
from borewright.core.finishing import allow
from borewright.core.model import FinishInput


@pytest.mark.parametrize(
    ("finish", "code", "pointer"),
    [
        (FinishInput(), "finish_thickness_missing", "/finish"),
        (FinishInput(text="AMS 2404"), "finish_thickness_missing", "/finish/thickness"),
        (FinishInput(text="AMS 2410"), "finish_thickness_missing", "/finish/thickness"),
        (FinishInput(text="nitride"), "finish_thickness_missing", "/finish/thickness"),
        (FinishInput(growth_fraction=Decimal("0.5")), "finish_thickness_missing", "/finish"),
        (FinishInput(text="zinc plate"), "finish_ambiguous", "/finish"),
        (FinishInput(specification="ASTM B633"), "finish_ambiguous", "/finish/specification"),
        (FinishInput(specification="ASTM B633", finish_class="SC7"), "finish_class_unknown", "/finish/class"),
        (FinishInput(specification="ASTM B9999"), "finish_unknown", "/finish/specification"),
        (FinishInput(text="zinc Fe/Zn 8", specification="ASTM B633"), "finish_conflict", "/finish"),
        (FinishInput(text="zinc 0.0003 in", thickness=span("0.0003", None)), "finish_conflict", "/finish/thickness"),
        (FinishInput(text="nitrided 0.0003 in"), "finish_conflict", "/finish/thickness"),
        (FinishInput(thickness=span("0.0003", "0.0002")), "range_inconsistent", "/finish/thickness"),
        (FinishInput(thickness=span("0", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=span("-0.0002", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=span("0.2", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=span("1E+99", None, "mm")), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=span(None, None)), "finish_thickness_missing", "/finish/thickness"),
        (FinishInput(text="zinc 5 in"), "value_out_of_range", "/finish"),
        (FinishInput(heat_treat_growth=span("0.2", "0.3")), "value_out_of_range", "/finish/heat_treat_growth"),
        (FinishInput(heat_treat_growth=span("0.003", "0.001")), "range_inconsistent", "/finish/heat_treat_growth"),
        (
            FinishInput(thickness=span("0.001", None), growth_fraction=Decimal("1.5")),
            "value_out_of_range",
            "/finish/growth_fraction",
        ),
        (
            FinishInput(text="AMS 2404", heat_treat_growth=span("0.0001", "0.0002")),
            "finish_thickness_missing",
            "/finish/thickness",
        ),
    ],
)
def test_refusals(finish, code, pointer):
    with pytest.raises(FinishError) as refused:
        allow(resolved("1/2-13"), finish)
    assert (refused.value.code, refused.value.faults[0].pointer) == (code, pointer)


def test_a_given_thickness_replaces_the_class():
    found = allow(resolved("1/2-13"), FinishInput(text="ASTM B633 SC3 0.0002 in"))
    assert found.finish.thickness.min == Decimal("0.0002")
    assert assumes(found, "replaces that of ASTM B633 Fe/Zn 12 SC3", "thinner")


def test_a_specification_without_thickness_takes_the_drawings():
    fields = FinishInput(specification="AMS 2404", thickness=span("0.0005", "0.0007"))
    assert allow(resolved("1/2-13"), fields).change.pitch_diameter.min == Decimal("-0.0028")
