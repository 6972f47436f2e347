"""Allowances: readings, kinds of growth, what cannot be made and what would help."""

from __future__ import annotations

from decimal import Decimal

import pytest
from allowances import ZINC_8, assumes, codes, resolved, span
from borewright.core.finishing import allow
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput

ZINC_25 = FinishInput(text="ASTM B633 Fe/Zn 25")


# --- readings ---------------------------------------------------------------------------------------------------------


def test_inch_reading_moves_both_limits():
    found = allow(resolved("1/2-13 UNC-2B"), FinishInput(text="ASTM B733 SC1"))
    assert found.reading == "asme"
    # 5 um = 0.00019685 in, and 1.5 times that: 0.4500 + 4 x 0.00029528 up, 0.4565 + 4 x 0.00019685 down
    assert str(found.before_finish.pitch_diameter.min) == "0.4512"
    assert str(found.before_finish.pitch_diameter.max) == "0.4572"


def test_metric_reading_keeps_the_upper_limit():
    found = allow(resolved("M8"), ZINC_8)
    assert found.reading == "iso"
    # 8 um, at most 12: 7.188 + 0.048; 7.348 stays
    assert str(found.before_finish.pitch_diameter.min) == "7.236"
    assert str(found.before_finish.pitch_diameter.max) == "7.348"
    assert str(found.before_finish.minor_diameter.min) == "6.671"
    assert assumes(found, "ISO 965")


@pytest.mark.parametrize(("text", "reading"), [("1/2-13", "iso"), ("M8", "asme")])
def test_the_caller_may_choose_the_reading(text, reading):
    own = allow(resolved(text), FinishInput(thickness=span("0.0003", "0.0004")))
    other = allow(resolved(text), FinishInput(thickness=span("0.0003", "0.0004"), reading=reading))
    assert other.reading == reading != own.reading
    assert other.before_finish.pitch_diameter.min == own.before_finish.pitch_diameter.min
    assert (other.before_finish.pitch_diameter.max < own.before_finish.pitch_diameter.max) == (reading == "iso")
    assert assumes(other, "asked for")


def test_position_g_is_room_for_the_coat():
    """M12 6G: 34 um over basic; a coat up to 12 um needs 48."""
    found = allow(resolved("M12-6G"), ZINC_8)
    assert str(found.finished.pitch_diameter.min) == "10.863"
    assert str(found.before_finish.pitch_diameter.min) == "10.911"
    assert str(found.before_finish.minor_diameter.min) == "10.140"  # 24 um are inside the 34
    assert str(found.before_finish.pitch_diameter.max) == "11.097"


# --- kinds of growth --------------------------------------------------------------------------------------------------


def test_minimum_is_not_counted_where_holes_are_exempt():
    found = allow(resolved("3/8-16 UNC-2B"), ZINC_8)
    assert (found.finish.thickness.min, found.finish.thickness.max) == (Decimal("0.0003"), Decimal("0.00045"))
    assert found.finish.build_up.min == 0
    assert found.before_finish.pitch_diameter.max == found.finished.pitch_diameter.max
    assert assumes(found, "does not hold inside a threaded hole")
    assert assumes(found, "1.5 times the minimum")


@pytest.mark.parametrize("text", ["ASTM B733 SC1", "MIL-T-81955 Class 1", "MIL-A-8625 Type II", "zinc 0.0003 in"])
def test_minimum_is_counted_where_the_deposit_follows_the_hole_or_is_stated(text):
    assert allow(resolved("1/2-13"), FinishInput(text=text)).finish.build_up.min > 0


def test_phosphate_counts_its_whole_film_at_most_and_half_at_least():
    found = allow(resolved("1/2-13"), FinishInput(text="MIL-DTL-16232 Type M"))
    assert (found.finish.build_up.min, found.finish.build_up.max) == (Decimal("0.0001"), Decimal("0.0004"))


@pytest.mark.parametrize("text", ["black oxide", "passivate", "MIL-DTL-5541 type II class 3"])
def test_films_without_build_up_change_nothing(text):
    thread = resolved("1/4-28 UNF-2B")
    found = allow(thread, FinishInput(text=text))
    assert found.feasible
    assert found.before_finish.pitch_diameter == thread.internal.pitch_diameter
    assert found.change.pitch_diameter.min == found.change.pitch_diameter.max == 0


def test_growth_fraction_of_the_caller():
    found = allow(resolved("1/2-13"), FinishInput(thickness=span("0.001", "0.001"), growth_fraction=Decimal("0.5")))
    assert found.change.pitch_diameter.min == Decimal("-0.002")


def test_only_a_maximum_counts_no_minimum():
    found = allow(resolved("1/2-13"), FinishInput(thickness=span(None, "0.0005")))
    assert (found.finish.build_up.min, found.finish.build_up.max) == (0, Decimal("0.0005"))
    assert assumes(found, "no minimum thickness")


def test_lengths_carry_their_own_unit():
    metric = allow(resolved("M8"), FinishInput(thickness=span("0.0005", "0.001", "in")))
    assert metric.change.pitch_diameter.min == Decimal("-0.1016")


def test_heat_treatment_is_the_callers_figure_on_diameter():
    """Growth opens the thread: the limits before it are smaller by the same."""
    found = allow(resolved("1/2-13 UNC-2B"), FinishInput(heat_treat_growth=span("0.0002", "0.0005")))
    assert (found.change.pitch_diameter.min, found.change.pitch_diameter.max) == (Decimal(".0002"), Decimal(".0005"))
    assert str(found.before_finish.pitch_diameter.min) == "0.4498"
    assert str(found.before_finish.pitch_diameter.max) == "0.4560"


def test_heat_treatment_that_closes_the_thread():
    found = allow(resolved("1/2-13"), FinishInput(text="nitride", heat_treat_growth=span("-0.0006", "-0.0004")))
    assert str(found.before_finish.pitch_diameter.min) == "0.4506"
    assert "mask_heat_treatment" in codes(found)


def test_coat_and_heat_treatment_add_up():
    both = FinishInput(thickness=span("0.0002", "0.0003"), heat_treat_growth=span("0.0001", "0.0002"))
    found = allow(resolved("1/4-28 UNF-2B"), both)
    assert (found.change.pitch_diameter.min, found.change.pitch_diameter.max) == (Decimal("-.0011"), Decimal("-.0006"))


def test_masked_thread_keeps_its_limits():
    thread = resolved("1/4-20")
    found = allow(thread, FinishInput(text="hard chrome", masked=True))
    assert found.before_finish == found.finished == thread.internal
    assert found.finish.applied == "masked"
    assert found.feasible
    assert "mask_and_strip" in codes(found)


def test_masked_needs_no_thickness():
    assert allow(resolved("1/4-20"), FinishInput(text="AMS 2404", masked=True)).feasible
    assert allow(resolved("M8-6G"), FinishInput(masked=True)).finish.specification is None


@pytest.mark.parametrize(
    ("text", "factor"),
    [
        ("1/2-14 NPT", "4.0000"),
        ("Rc 1/2", "4.3314"),
        ("1/2-12 BSW", "4.3314"),
        ("4 BA", "4.9659"),
        ("Tr 20x4-7H", "7.7274"),
        ("1/2-10 ACME-2G", "7.9879"),
    ],
)
def test_each_form_has_its_own_factor(text, factor):
    thread = resolved(text)
    thick = Decimal("0.0004") if thread.unit == "in" else Decimal("0.01")
    found = allow(thread, FinishInput(thickness=LengthRange(Length(thick), Length(thick))))
    exact = -Decimal(factor) * thick
    step = Decimal("0.000001") if thread.unit == "in" else Decimal("0.00001")
    assert exact - step <= found.change.pitch_diameter.min <= exact
    assert found.change.minor_diameter.min == -2 * thick


@pytest.mark.parametrize(("text", "turns_of_taper"), [("1/2-14 NPT", "64"), ("Rc 1/2", "69.3024")])
def test_the_gauge_plane_of_a_taper_thread_moves(text, turns_of_taper):
    """64 times the build-up for NPT, 69.3 times for ISO 7."""
    found = allow(resolved(text), FinishInput(thickness=span("0.01", "0.02", "mm")))
    expected = Decimal(turns_of_taper) * (Decimal("0.02") if text[0] == "R" else Decimal("0.02") / Decimal("25.4"))
    assert abs(found.axial_movement.max - expected) < Decimal("0.001")
    assert 0 < found.axial_movement.min < found.axial_movement.max


def test_parallel_threads_have_no_gauge_plane():
    assert allow(resolved("1/2-13"), ZINC_8).axial_movement is None


def test_square_flanks_are_said():
    found = allow(resolved("1-4 SQUARE DEPTH .125"), FinishInput(thickness=span("0.0002", "0.0003")))
    assert "square_flanks" in codes(found)


# --- what cannot be made ----------------------------------------------------------------------------------------------


def test_too_thick_is_an_answer_with_remedies():
    found = allow(resolved("1/4-20 UNC-2B"), ZINC_25)
    assert not found.feasible
    # 0.2175 + 4 x 0.0015 is above 0.2224
    assert str(found.before_finish.pitch_diameter.min) == "0.2235"
    assert found.remaining_tolerance_pitch == Decimal("-0.0011")
    text = " | ".join(found.remedies)
    for word in ("ASTM B633 Fe/Zn 12 SC3 fits", "class 1B fits", "mask", "at most"):
        assert word in text
    assert "thick_coat" in codes(found)


def test_the_remedies_are_true():
    thread = resolved("1/4-20 UNC-2B")
    assert allow(thread, FinishInput(text="ASTM B633 Fe/Zn 12")).feasible
    assert allow(resolved("1/4-20 UNC-1B"), ZINC_25).feasible
    most = next(line for line in allow(thread, ZINC_25).remedies if "at most" in line).split()[5]
    assert allow(thread, FinishInput(thickness=span(None, most))).feasible


def test_metric_remedies_name_looser_classes_and_position_g():
    found = allow(resolved("M6"), ZINC_25)
    assert not found.feasible
    assert any("8H fits" in line for line in found.remedies)
    assert any("5\N{NO-BREAK SPACE}um" in line and "ISO 4042:1999 Table 2" in line for line in found.remedies)
    assert allow(resolved("M6-8H"), ZINC_25).feasible


def test_thick_mechanical_zinc_names_the_overtap():
    found = allow(resolved("1/2-13"), FinishInput(text="ASTM B695 Class 55"))
    assert not found.feasible
    assert any("0.018\N{NO-BREAK SPACE}in" in line and "A563" in line for line in found.remedies)


# --- materials --------------------------------------------------------------------------------------------------------


def _on(thread, *names):
    return [allow(thread, ZINC_8, material=part_material.find(MaterialInput(name))) for name in names]


def test_equal_finishes_on_materials_that_add_nothing_are_one_allowance():
    """Zinc on soft steels: neither hydrogen nor the substrate is a question."""
    one, other, third = _on(resolved("3/8-16 UNC-2B"), "1018", "4140", "A36")
    assert one is other is third


def test_hard_steel_adds_its_own_cautions_and_bake_to_the_shared_allowance():
    soft, hard, soft_again = _on(resolved("3/8-16 UNC-2B"), "1018", "4340 at 45 HRC", "1018")
    assert "hydrogen_embrittlement" in codes(hard)
    assert hard.bake is not None
    assert hard.before_finish == soft.before_finish
    assert "hydrogen_embrittlement" not in codes(soft)
    assert soft.bake is None
    assert soft_again is soft
