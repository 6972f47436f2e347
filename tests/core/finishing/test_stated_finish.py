"""What the fields of a finish may hold, at both sides of each bound, and what one stated figure means."""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import span
from borewright.core.errors import FinishError
from borewright.core.finishing import nominal, requested_finish
from borewright.core.finishing.coat import coat
from borewright.core.finishing.finish_text import read
from borewright.core.model import FinishInput, Length, LengthRange, Range
from every import every


def _refusal(call):
    try:
        call()
    except FinishError as refused:
        return refused.code
    return None


def _range(least, most):
    return Range(*(None if end is None else Decimal(end) for end in (least, most)))


@every(
    ("least", "most", "unit", "refused"),
    [
        # 0.04 in and 1 mm are the thickest coats that are read; something must be there
        ("0.04", None, "in", None),
        (None, "0.04", "in", None),
        ("0.0401", None, "in", "value_out_of_range"),
        (None, "0.0401", "in", "value_out_of_range"),
        ("1", None, "mm", None),
        ("1.001", None, "mm", "value_out_of_range"),
        ("0", "0.001", "in", None),
        ("0", None, "in", "value_out_of_range"),
        (None, "0", "in", "value_out_of_range"),
        ("0", "0", "in", "value_out_of_range"),
        ("-0.0001", "0.001", "in", "value_out_of_range"),
        ("0.001", "0.001", "in", None),
        ("0.0011", "0.001", "in", "range_inconsistent"),
        (None, None, "in", "finish_thickness_missing"),
        ("1000", None, "in", "value_out_of_range"),
        ("1E+30", None, "in", "value_out_of_range"),
    ],
)
def test_a_coat_is_thicker_than_nothing_and_thinner_than_a_thread(least, most, unit, refused):
    given = FinishInput(thickness=span(least, most))
    assert _refusal(lambda: requested_finish.stated(given, None, unit)) == refused
    if refused is None:
        assert requested_finish.stated(given, None, unit) == _range(least, most)


@every(
    ("value", "own", "unit", "read"),
    [
        ("0.001", "in", "in", "0.001"),
        ("0.001", None, "in", "0.001"),
        ("0.001", "in", "mm", "0.0254"),
        ("0.0254", "mm", "in", "0.001"),
        ("0.01", "mm", "in", "0.00039370"),  # to a hundredth of a microinch
        ("0.000123", "in", "mm", "0.003124"),  # to a nanometre
    ],
)
def test_a_thickness_carries_its_unit(value, own, unit, read):
    given = FinishInput(thickness=span(value, None, own))
    assert requested_finish.stated(given, None, unit).min == Decimal(read)


@every(
    ("least", "most", "unit", "found"),
    [
        (None, None, "in", "value_out_of_range"),
        ("0.0002", "0.0005", "in", ("0.0002", "0.0005")),
        ("0.0002", None, "in", ("0.0002", "0.0002")),
        (None, "0.0005", "in", ("0.0005", "0.0005")),
        ("0", None, "in", ("0", "0")),
        ("-0.04", "0.04", "in", ("-0.04", "0.04")),
        ("-0.0401", "0.04", "in", "value_out_of_range"),
        ("-0.04", "0.0401", "in", "value_out_of_range"),
        ("-1", "1", "mm", ("-1", "1")),
        ("-1.001", None, "mm", "value_out_of_range"),
        ("0.0003", "0.0003", "in", ("0.0003", "0.0003")),
        ("0.0004", "0.0003", "in", "range_inconsistent"),
    ],
)
def test_growth_by_heat_treatment_goes_either_way(least, most, unit, found):
    given = LengthRange(*(None if end is None else Length(Decimal(end)) for end in (least, most)))
    if isinstance(found, str):
        assert _refusal(lambda: requested_finish.heat(given, unit)) == found
    else:
        assert requested_finish.heat(given, unit) == _range(*found)


@every(("value", "detail"), [
    ("1000", "A coat on a thread is thicker than 0 and at most 0.04 in."), ("1000.1", "That is no thickness or growth"),
])  # fmt: skip
def test_what_can_be_no_length_of_a_coat_is_not_even_converted(value, detail):
    with pytest.raises(FinishError) as refused:
        requested_finish.stated(FinishInput(thickness=span(value, None)), None, "in")
    assert refused.value.faults[0].detail.startswith(detail)


def test_no_growth_is_none():
    assert requested_finish.heat(None, "in") == Range(Decimal(0), Decimal(0))


@every(
    ("fraction", "refused"),
    [("0", None), ("0.5", None), ("1", None), ("-0.01", "value_out_of_range"), ("1.01", "value_out_of_range")],
)
def test_a_growth_fraction_is_a_part_of_the_thickness(fraction, refused):
    given = FinishInput(thickness=span("0.001", None), growth_fraction=Decimal(fraction))
    assert _refusal(lambda: requested_finish.refuse_contradictions(given)) == refused


@every(
    ("finish", "refused"),
    [
        (FinishInput(text="zinc", specification="ASTM B633"), "finish_conflict"),
        (FinishInput(text="zinc", finish_class="SC2"), "finish_conflict"),
        (FinishInput(specification="ASTM B633", finish_class="SC2"), None),
        (FinishInput(finish_class="SC2"), None),
        (FinishInput(text="zinc"), None),
        (FinishInput(), "finish_thickness_missing"),
        (FinishInput(masked=True), None),
        (FinishInput(thickness=span("0.001", None)), None),
        (FinishInput(heat_treat_growth=span("0.001", None)), None),
        (FinishInput(growth_fraction=Decimal(1)), "finish_thickness_missing"),
    ],
)
def test_a_finish_is_told_in_one_way(finish, refused):
    assert _refusal(lambda: requested_finish.refuse_contradictions(finish)) == refused


@every(
    ("finish", "pointer"),
    [
        (FinishInput(text="ASTM B633 SC7"), "/finish"),
        (FinishInput(text="no such thing"), "/finish"),
        (FinishInput(specification="ASTM B633 SC7"), "/finish/specification"),
        (FinishInput(specification="ASTM B633", finish_class="SC7"), "/finish/class"),
        (FinishInput(specification="no such thing", finish_class="SC7"), "/finish/specification"),
        (FinishInput(specification="", finish_class=None), "/finish/specification"),
    ],
)
def test_a_refusal_points_at_the_field_that_was_read(finish, pointer):
    with pytest.raises(FinishError) as refused:
        requested_finish.reading(finish, "in", on_steel=False)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


@pytest.mark.parametrize(
    "beside", [{"thickness": span("0.001", None)}, {"masked": True}, {"heat_treat_growth": span("0.001", None)}]
)
def test_no_class_is_needed_where_its_thickness_is_not(beside):
    assert requested_finish.reading(FinishInput(text="zinc plate", **beside), "in", on_steel=False) is not None


def test_figures_alone_name_nothing():
    assert requested_finish.reading(FinishInput(thickness=span("0.001", None)), "in", on_steel=False) is None


# --- one figure beside a class ------------------------------------------------------------------------------------

_OWN, _LIMITS, _NONE = "own", "limits", None


@every(
    ("finish", "unit", "figure", "meant"),
    [
        # nominal 0.002 in, 0.0508 mm; two percent are 0.00004 in
        ("hard anodize", "in", "0.002", _OWN),
        ("hard anodize", "in", "0.00204", _OWN),
        ("hard anodize", "in", "0.00196", _OWN),
        ("hard anodize", "in", "0.0020401", _LIMITS),
        ("hard anodize", "in", "0.0019599", _LIMITS),
        ("hard anodize", "mm", "0.05", _OWN),
        ("hard anodize", "mm", "0.051", _OWN),
        ("hard anodize", "mm", "0.0525", _LIMITS),
        ("hard anodize", "mm", "0.1", _LIMITS),  # twice as much, though 0.0508 has one decimal less like this
        ("hard anodize", "mm", "0.04", _LIMITS),
        ("hard anodize", "mm", "0.06", _LIMITS),
        # 13 um are 0.000512 in, 0.0005 in with the digits that are written; 0.0003 in are 7.62 um
        ("ASTM B733 SC2", "in", "0.0005", _OWN),
        ("ASTM B733 SC2", "in", "0.00050", _OWN),
        ("ASTM B733 SC2", "in", "0.000500000000000001", _NONE),
        ("ASTM B733 SC2", "in", "0.0004", _NONE),
        ("QQ-P-416 Class 2", "mm", "0.008", _OWN),
        ("QQ-P-416 Class 2", "mm", "0.0075", _OWN),
        ("QQ-P-416 Class 2", "mm", "0.007", _NONE),
        ("ASTM F1136 Grade 4", "mm", "0.008", _OWN),  # 0.00031 in are 7.87 um
        ("ASTM F1941 grade 3", "mm", "0.003", _OWN),
        ("QQ-C-320 Class 1", "mm", "0.0003", _NONE),  # 0.00001 in are 0.25 um
        # 8 um and 0.0003 in are both printed
        ("ASTM B633 Fe/Zn 8", "mm", "0.008", _OWN),
        ("ASTM B633 Fe/Zn 8", "mm", "0.00762", _OWN),
        ("ASTM B633 Fe/Zn 8", "in", "0.0003", _OWN),
        ("ASTM B633 Fe/Zn 8", "in", "0.00031496", _OWN),
        ("ASTM B633 Fe/Zn 8", "in", "0.00028", _NONE),
        ("ASTM B633 Fe/Zn 8", "in", "0.00033", _NONE),
        # a maximum is stated: no nominal is known
        ("QQ-N-290 Class 2", "in", "0.002", _NONE),
        ("ISO 4042 8 um", "mm", "0.007", _NONE),
    ],
)
def test_one_figure_is_the_classs_own_or_another_nominal_of_it(finish, unit, figure, meant):
    found = nominal.meant(Decimal(figure), read(finish, unit="in").product, unit)
    assert (found is None) is (meant is None)
    if found is not None:
        assert (found.thickness is None) is (meant == _OWN)


@every(
    ("figure", "unit", "least", "most", "shown"),
    [
        ("0.003", "in", "0.0024", "0.0036", "0.003\N{NO-BREAK SPACE}in"),
        ("0.1", "mm", "0.08", "0.12", "0.1\N{NO-BREAK SPACE}mm"),
        ("0.00123456", "in", "0.00098765", "0.00148147", "0.00123456\N{NO-BREAK SPACE}in"),
        ("0.012345", "mm", "0.009876", "0.014814", "0.012345\N{NO-BREAK SPACE}mm"),
    ],
)
def test_another_nominal_of_hard_anodize_has_a_fifth_either_way(figure, unit, least, most, shown):
    found = nominal.meant(Decimal(figure), read("hard anodize", unit="in").product, unit)
    assert found.thickness == _range(least, most)
    assert found.said.startswith(f"{shown} is the nominal, with the +/-20 % of ")
    assert found.source.status == "from_memory"


@every(
    ("text", "unit", "code"),
    [
        # 2 um and 0.008 in: what is thinner or thicker and has no unit is asked about
        ("electroless nickel .0019", "mm", "/finish"),
        ("electroless nickel .002", "mm", None),
        ("electroless nickel .0081", "in", "/finish"),
        ("electroless nickel .008", "in", None),
        ("electroless nickel .0001 to .0019", "mm", "/finish"),
        ("electroless nickel .0001 to .002", "mm", None),
        ("electroless nickel .001 to .0081", "in", "/finish"),
        ("electroless nickel .0019 mm", "mm", None),
        ("electroless nickel .0003", "in", None),
        ("electroless nickel .1", "mm", None),
        ("hard chrome", "in", None),
    ],
)
def test_a_bare_figure_that_is_no_coat_in_its_unit(text, unit, code):
    found = coat(FinishInput(text=text, masked="nickel" not in text), unit=unit).doubt
    assert (None if found is None else found.pointer) == code
    if found is not None:
        own, other = ("millimetres", "inches") if unit == "mm" else ("inches", "millimetres")
        assert f"is read in {own}; as a coat it looks like {other}" in found.text
        assert "0.0019" in found.text or "0.0081" in found.text
