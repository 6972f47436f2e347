"""A thickness that a finish text states is used as a machinist reads it, or refused; nothing is dropped."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import BorewrightError, FinishError
from borewright.core.finishing.coat import coat
from borewright.core.finishing.finish_text import read
from borewright.core.model import FinishInput, Length, LengthRange
from hypothesis import given, settings
from hypothesis import strategies as st


def _limits(text, unit="in", bare=None):
    found = coat(FinishInput(text=text, text_unit=bare), unit=unit).thickness
    return float(found.min), float(found.max)


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("MIL-A-8625F TYPE III CLASS 2 .002 +/-.0005", 0.0015, 0.0025),
        ("hard anodize .002 ±.0005", 0.0015, 0.0025),
        ("hard anodize .002 plus or minus .0005 in", 0.0015, 0.0025),
        ("hard anodize 2 mils +/- 0.5 mil", 0.0015, 0.0025),
        ("hard anodize .002 +/-25%", 0.0015, 0.0025),
        ("nickel plate .0002 +.0003/-.0001", 0.0001, 0.0005),
        ("hard anodize .002 in +.01 mm/-.0005 in", 0.0015, 0.0023937),  # each by its own unit: .01 / 25.4
        ("hard chrome .0005 in +/-.005 mm", 0.00030315, 0.00069685),
        ("electroless nickel .0003/.0005", 0.0003, 0.0005),
        ("electroless nickel .0003 - .0005 THK", 0.0003, 0.0005),
        ("zinc plate .0002 MIN .0005 MAX", 0.0002, 0.0005),
        ("zinc plate min .0002 max .0005", 0.0002, 0.0005),
        ("zinc plate 3 to 5 tenths", 0.0003, 0.0005),
        ("hard chrome 0.001", 0.001, 0.0015),  # one figure: 1.5 times, as ASME B1.1 7.5.2 advises
        ("hard chrome .001 max", 0, 0.001),
        ("hard anodize 1/2 mil +/- .1 mil", 0.0004, 0.0006),
        ("electroless nickel half a thou to 1 thou", 0.0005, 0.001),
        ("hard chrome 2 thousandths", 0.002, 0.003),
        ("hard chrome 1 1/2 thou", 0.0015, 0.00225),
        ("hard chrome five ten-thousandths", 0.0005, 0.00075),
        ("nickel plate 25.4µ both sides", 0.001, 0.0015),
    ],
)
def test_figures_of_drawings(text, least, most):
    assert _limits(text) == pytest.approx((least, most), abs=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "bare", "least", "most"),
    [
        ("hard chrome 0.02", "mm", None, 0.02, 0.03),  # the unit of the thread
        ("hard chrome 0.02", "mm", "mm", 0.02, 0.03),
        ("hard chrome 0.001", "mm", "in", 0.0254, 0.0381),  # the unit of the request: 0.001 in
        ("hard chrome 0.0254 MM", "in", "in", 0.001, 0.0015),  # the unit that is written wins
        ("hard chrome 0,02", "mm", None, 0.02, 0.03),
    ],
)
def test_a_number_without_unit_is_in_the_unit_of_the_request(text, unit, bare, least, most):
    assert _limits(text, unit, bare) == pytest.approx((least, most), rel=1e-4)


def test_what_was_assumed_of_the_unit_is_said():
    assert (
        "the thickness has no unit: it is read in inches"
        in coat(FinishInput(text="hard chrome .001"), unit="in").notes.assumptions
    )


@pytest.mark.parametrize(
    "text",
    [
        "hard anodize 0.002 in",
        "hard anodize .002",
        "hard anodize 50 microns",
        "hard anodize 50 um (.002 in)",
        "hard anodize 2 mil",
    ],
)
def test_naming_the_nominal_of_the_class_changes_nothing(text):
    """MIL-A-8625F Type III: 0.002 in, +/-20 %."""
    assert _limits(text) == (0.0016, 0.0024)


def test_a_number_as_a_field_is_a_nominal_too():
    fields = FinishInput(
        specification="MIL-A-8625", finish_class="Type III", thickness=LengthRange(Length(Decimal("0.002"), "in"), None)
    )
    assert coat(fields, unit="in").thickness.max == Decimal("0.0024")


def test_naming_the_minimum_of_a_plate_leaves_its_holes_exempt():
    """Fe/Zn 8 is 8 um, 0.000315 in; the least build-up in a hole stays zero as without the figure."""
    plain = coat(FinishInput(text="ASTM B633 Fe/Zn 8"), unit="mm")
    assert coat(FinishInput(text="ASTM B633 Fe/Zn 8, 8 um"), unit="mm").build_up == plain.build_up
    assert plain.build_up.min == 0


def test_another_nominal_of_the_class_takes_its_tolerance():
    """0.001 in +/-20 % = 0.0008 to 0.0012 in."""
    assert _limits("hard anodize .001") == pytest.approx((0.0008, 0.0012))


def test_a_minimum_is_no_nominal():
    """0.002 in at least, and 1.5 times it at most."""
    assert _limits("hard anodize .002 min") == pytest.approx((0.002, 0.003))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("hard anodize 50", "finish_ambiguous"),
        ("hard anodize .002 buildup", "finish_ambiguous"),
        ("hard anodize .002 on diameter", "finish_ambiguous"),
        ("electroless nickel .0005 over copper .0001", "finish_conflict"),
        ("hard anodize 0.2", "value_out_of_range"),
        ("hard anodize -0.0005", "value_out_of_range"),
        ("hard anodize twelve thou", "finish_ambiguous"),
        ("hard anodize .002 +/-.003", "value_out_of_range"),
    ],
)
def test_what_cannot_be_told_is_refused(text, code):
    with pytest.raises(FinishError) as refused:
        _limits(text)
    assert refused.value.code == code


@pytest.mark.parametrize(
    "text",
    [
        "hard anodize per MIL-A-8625 Type III Class 1, amendment 1",
        "ASTM B633 Fe/Zn 8, bake 4 h at 375 F within 4 h",
        "electroless nickel SC3 48 HRC",
        "ISO 10683 flZnnc 480 h, 480 h salt spray",
        "ASTM F2329, 3/8 in studs",
    ],
)
def test_other_figures_are_no_thickness(text):
    assert read(text, unit="in").thickness is None


@settings(max_examples=200)
@given(
    st.decimals(min_value="0.0001", max_value="0.0099", places=4),
    st.sampled_from(("hard anodize {}", "hard chrome {} ", "zinc plate, {} THK")),
)
def test_a_stated_figure_is_never_dropped(figure, text):
    """Whatever figure is written lies inside the limits that are taken."""
    try:
        least, most = _limits(text.format(figure))
    except BorewrightError:
        return
    assert least <= float(figure) * 1.02
    assert float(figure) * 0.98 <= most


@pytest.mark.parametrize(
    ("unit", "text", "doubtful"),
    [
        ("mm", "electroless nickel .0005", True),  # 0.5 um is no coat, 0.0005 in is one
        ("mm", "electroless nickel 0.012", False),
        ("in", "hard chrome 0.02", True),  # 0.5 mm is no coat, 0.02 mm is one
        ("in", "hard chrome 0.001", False),
        ("mm", "electroless nickel 0.5 um", False),  # the unit is written
    ],
)
def test_a_figure_that_fits_the_other_unit_only_is_a_question(unit, text, doubtful):
    assert (coat(FinishInput(text=text), unit=unit).doubt is not None) is doubtful
