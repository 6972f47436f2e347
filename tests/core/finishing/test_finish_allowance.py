"""Allowances: readings, kinds of growth, what cannot be made and what would help, cautions by standard."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

import pytest
from borewright.core import callout, standards
from borewright.core.errors import FinishError
from borewright.core.finishing import allow
from borewright.core.materials import part_material
from borewright.core.model import FinishInput, Length, LengthRange, MaterialInput

ZINC_8 = FinishInput(text="ASTM B633 Fe/Zn 8")
ZINC_25 = FinishInput(text="ASTM B633 Fe/Zn 25")
HOT_DIP = FinishInput(text="hot-dip galvanized")


def _thread(text):
    return standards.resolve(callout.read(text))


def _span(least, most, unit=None):
    return LengthRange(*(None if end is None else Length(Decimal(end), unit) for end in (least, most)))


def _codes(allowance):
    return [caution.code for caution in allowance.notes.cautions]


def _said(allowance, code):
    return next(caution.text for caution in allowance.notes.cautions if caution.code == code)


def _says(allowance, *words):
    return any(all(word in line for word in words) for line in allowance.notes.assumptions)


# --- readings ---------------------------------------------------------------------------------------------------------


def test_inch_reading_moves_both_limits():
    found = allow(_thread("1/2-13 UNC-2B"), FinishInput(text="ASTM B733 SC1"))
    assert found.reading == "asme"
    # 5 um = 0.00019685 in, and 1.5 times that: 0.4500 + 4 x 0.00029528 up, 0.4565 + 4 x 0.00019685 down
    assert str(found.before_finish.pitch_diameter.min) == "0.4512"
    assert str(found.before_finish.pitch_diameter.max) == "0.4572"


def test_metric_reading_keeps_the_upper_limit():
    found = allow(_thread("M8"), ZINC_8)
    assert found.reading == "iso"
    # 8 um, at most 12: 7.188 + 0.048; 7.348 stays
    assert str(found.before_finish.pitch_diameter.min) == "7.236"
    assert str(found.before_finish.pitch_diameter.max) == "7.348"
    assert str(found.before_finish.minor_diameter.min) == "6.671"
    assert _says(found, "ISO 965")


@pytest.mark.parametrize(("text", "reading"), [("1/2-13", "iso"), ("M8", "asme")])
def test_the_caller_may_choose_the_reading(text, reading):
    own = allow(_thread(text), FinishInput(thickness=_span("0.0003", "0.0004")))
    other = allow(_thread(text), FinishInput(thickness=_span("0.0003", "0.0004"), reading=reading))
    assert other.reading == reading != own.reading
    assert other.before_finish.pitch_diameter.min == own.before_finish.pitch_diameter.min
    assert (other.before_finish.pitch_diameter.max < own.before_finish.pitch_diameter.max) == (reading == "iso")
    assert _says(other, "asked for")


def test_position_g_is_room_for_the_coat():
    """M12 6G: 34 um over basic; a coat up to 12 um needs 48."""
    found = allow(_thread("M12-6G"), ZINC_8)
    assert str(found.finished.pitch_diameter.min) == "10.863"
    assert str(found.before_finish.pitch_diameter.min) == "10.911"
    assert str(found.before_finish.minor_diameter.min) == "10.140"  # 24 um are inside the 34
    assert str(found.before_finish.pitch_diameter.max) == "11.097"


# --- kinds of growth --------------------------------------------------------------------------------------------------


def test_minimum_is_not_counted_where_holes_are_exempt():
    found = allow(_thread("3/8-16 UNC-2B"), ZINC_8)
    assert (found.finish.thickness.min, found.finish.thickness.max) == (Decimal("0.0003"), Decimal("0.00045"))
    assert found.finish.build_up.min == 0
    assert found.before_finish.pitch_diameter.max == found.finished.pitch_diameter.max
    assert _says(found, "does not hold inside a threaded hole")
    assert _says(found, "1.5 times the minimum")


@pytest.mark.parametrize("text", ["ASTM B733 SC1", "MIL-T-81955 Class 1", "MIL-A-8625 Type II", "zinc 0.0003 in"])
def test_minimum_is_counted_where_the_deposit_follows_the_hole_or_is_stated(text):
    assert allow(_thread("1/2-13"), FinishInput(text=text)).finish.build_up.min > 0


def test_phosphate_counts_its_whole_film_at_most_and_half_at_least():
    found = allow(_thread("1/2-13"), FinishInput(text="MIL-DTL-16232 Type M"))
    assert (found.finish.build_up.min, found.finish.build_up.max) == (Decimal("0.0001"), Decimal("0.0004"))


@pytest.mark.parametrize("text", ["black oxide", "passivate", "MIL-DTL-5541 type II class 3"])
def test_films_without_build_up_change_nothing(text):
    thread = _thread("1/4-28 UNF-2B")
    found = allow(thread, FinishInput(text=text))
    assert found.feasible
    assert found.before_finish.pitch_diameter == thread.internal.pitch_diameter
    assert found.change.pitch_diameter.min == found.change.pitch_diameter.max == 0


def test_growth_fraction_of_the_caller():
    found = allow(_thread("1/2-13"), FinishInput(thickness=_span("0.001", "0.001"), growth_fraction=Decimal("0.5")))
    assert found.change.pitch_diameter.min == Decimal("-0.002")


def test_only_a_maximum_counts_no_minimum():
    found = allow(_thread("1/2-13"), FinishInput(thickness=_span(None, "0.0005")))
    assert (found.finish.build_up.min, found.finish.build_up.max) == (0, Decimal("0.0005"))
    assert _says(found, "no minimum thickness")


def test_lengths_carry_their_own_unit():
    metric = allow(_thread("M8"), FinishInput(thickness=_span("0.0005", "0.001", "in")))
    assert metric.change.pitch_diameter.min == Decimal("-0.1016")


def test_heat_treatment_is_the_callers_figure_on_diameter():
    """Growth opens the thread: the limits before it are smaller by the same."""
    found = allow(_thread("1/2-13 UNC-2B"), FinishInput(heat_treat_growth=_span("0.0002", "0.0005")))
    assert (found.change.pitch_diameter.min, found.change.pitch_diameter.max) == (Decimal(".0002"), Decimal(".0005"))
    assert str(found.before_finish.pitch_diameter.min) == "0.4498"
    assert str(found.before_finish.pitch_diameter.max) == "0.4560"


def test_heat_treatment_that_closes_the_thread():
    found = allow(_thread("1/2-13"), FinishInput(text="nitride", heat_treat_growth=_span("-0.0006", "-0.0004")))
    assert str(found.before_finish.pitch_diameter.min) == "0.4506"
    assert "mask_heat_treatment" in _codes(found)


def test_coat_and_heat_treatment_add_up():
    both = FinishInput(thickness=_span("0.0002", "0.0003"), heat_treat_growth=_span("0.0001", "0.0002"))
    found = allow(_thread("1/4-28 UNF-2B"), both)
    assert (found.change.pitch_diameter.min, found.change.pitch_diameter.max) == (Decimal("-.0011"), Decimal("-.0006"))


def test_masked_thread_keeps_its_limits():
    thread = _thread("1/4-20")
    found = allow(thread, FinishInput(text="hard chrome", masked=True))
    assert found.before_finish == found.finished == thread.internal
    assert found.finish.applied == "masked"
    assert found.feasible
    assert "mask_and_strip" in _codes(found)


def test_masked_needs_no_thickness():
    assert allow(_thread("1/4-20"), FinishInput(text="AMS 2404", masked=True)).feasible
    assert allow(_thread("M8-6G"), FinishInput(masked=True)).finish.specification is None


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
    thread = _thread(text)
    thick = Decimal("0.0004") if thread.unit == "in" else Decimal("0.01")
    found = allow(thread, FinishInput(thickness=LengthRange(Length(thick), Length(thick))))
    exact = -Decimal(factor) * thick
    step = Decimal("0.000001") if thread.unit == "in" else Decimal("0.00001")
    assert exact - step <= found.change.pitch_diameter.min <= exact
    assert found.change.minor_diameter.min == -2 * thick


@pytest.mark.parametrize(("text", "turns_of_taper"), [("1/2-14 NPT", "64"), ("Rc 1/2", "69.3024")])
def test_the_gauge_plane_of_a_taper_thread_moves(text, turns_of_taper):
    """64 times the build-up for NPT, 69.3 times for ISO 7."""
    found = allow(_thread(text), FinishInput(thickness=_span("0.01", "0.02", "mm")))
    expected = Decimal(turns_of_taper) * (Decimal("0.02") if text[0] == "R" else Decimal("0.02") / Decimal("25.4"))
    assert abs(found.axial_movement.max - expected) < Decimal("0.001")
    assert 0 < found.axial_movement.min < found.axial_movement.max


def test_parallel_threads_have_no_gauge_plane():
    assert allow(_thread("1/2-13"), ZINC_8).axial_movement is None


def test_square_flanks_are_said():
    found = allow(_thread("1-4 SQUARE DEPTH .125"), FinishInput(thickness=_span("0.0002", "0.0003")))
    assert "square_flanks" in _codes(found)


# --- what cannot be made ----------------------------------------------------------------------------------------------


def test_too_thick_is_an_answer_with_remedies():
    found = allow(_thread("1/4-20 UNC-2B"), ZINC_25)
    assert not found.feasible
    # 0.2175 + 4 x 0.0015 is above 0.2224
    assert str(found.before_finish.pitch_diameter.min) == "0.2235"
    assert found.remaining_tolerance_pitch == Decimal("-0.0011")
    text = " | ".join(found.remedies)
    for word in ("ASTM B633 Fe/Zn 12 SC3 fits", "class 1B fits", "mask", "at most"):
        assert word in text
    assert "thick_coat" in _codes(found)


def test_the_remedies_are_true():
    thread = _thread("1/4-20 UNC-2B")
    assert allow(thread, FinishInput(text="ASTM B633 Fe/Zn 12")).feasible
    assert allow(_thread("1/4-20 UNC-1B"), ZINC_25).feasible
    most = next(line for line in allow(thread, ZINC_25).remedies if "at most" in line).split()[5]
    assert allow(thread, FinishInput(thickness=_span(None, most))).feasible


def test_metric_remedies_name_looser_classes_and_position_g():
    found = allow(_thread("M6"), ZINC_25)
    assert not found.feasible
    assert any("8H fits" in line for line in found.remedies)
    assert any("5\N{NO-BREAK SPACE}um" in line and "ISO 4042:1999 Table 2" in line for line in found.remedies)
    assert allow(_thread("M6-8H"), ZINC_25).feasible


def test_thick_mechanical_zinc_names_the_overtap():
    found = allow(_thread("1/2-13"), FinishInput(text="ASTM B695 Class 55"))
    assert not found.feasible
    assert any("0.018\N{NO-BREAK SPACE}in" in line and "A563" in line for line in found.remedies)


# --- hot-dip zinc -----------------------------------------------------------------------------------------------------


def test_hot_dip_is_tapped_afterwards():
    found = allow(_thread("1/2-13 UNC-2B"), HOT_DIP)
    assert found.finish.applied == "after_finish"
    assert found.finish.build_up.max == 0
    assert found.change.pitch_diameter.min == 0
    assert found.before_finish == found.finished == found.overtap.limits
    assert {"tap_after_galvanizing", "overtap_systems_exclusive"} <= set(_codes(found))


@pytest.mark.parametrize(("text", "finish_class"), [("3/8-16", "to 3/8 in"), ("7/16-14", "over 3/8 in")])
def test_hot_dip_class_goes_by_size(text, finish_class):
    assert allow(_thread(text), HOT_DIP).finish.finish_class == finish_class


def test_centrifuged_is_assumed_for_metric():
    found = allow(_thread("M12"), HOT_DIP)
    assert found.overtap.system == "6AZ"
    assert _says(found, "6AX", "6az")
    assert "overtap_reduced_load" not in _codes(found)
    assert "overtap_reduced_load" in _codes(allow(_thread("M10"), HOT_DIP))


def test_class_6g_gets_the_zone_of_6az():
    assert allow(_thread("M12-6G"), HOT_DIP).overtap.limits == allow(_thread("M12"), HOT_DIP).overtap.limits


@pytest.mark.parametrize("text", ["M6", "M10x1", "1/4-28", "1/2-13 UNC-3B", "1/2-14 NPT", "#10-24", "G 1/2", "M72x6"])
def test_no_overtap_is_invented(text):
    with pytest.raises(FinishError) as refused:
        allow(_thread(text), HOT_DIP)
    assert refused.value.code == "overtap_not_defined"
    assert refused.value.faults[0].pointer == "/thread"
    assert refused.value.faults[0].allowed


def test_systems_are_not_mixed():
    with pytest.raises(FinishError) as refused:
        allow(_thread("M12-6AZ"), FinishInput(text="ISO 10684 6AX"))
    assert refused.value.code == "finish_conflict"


def test_m8_is_computed_not_published():
    found = allow(_thread("M8"), HOT_DIP)
    assert next(source.status for source in found.notes.sources if source.field == "overtap") == "computed"


# --- cautions ---------------------------------------------------------------------------------------------------------


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
    said = _said(allow(_thread("1/2-13"), FinishInput(text=case.finish), material=material), "hydrogen_embrittlement")
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
        _thread("1/2-13"), FinishInput(text=finish), material=part_material.find(MaterialInput(name=material))
    ).notes
    assert [one.code for one in notes.decisions if bound in one.text] == ["finish_prohibited"]
    assert not any(bound in one.text for one in notes.cautions)


def test_hot_dip_of_hard_steel():
    hard = part_material.find(MaterialInput(name="4140", hardness="36 HRC"))
    assert "risk" in _said(allow(_thread("1/2-13"), HOT_DIP, material=hard), "hydrogen_embrittlement")


@pytest.mark.parametrize("material", ["4140 at 28 HRC", "1018", "6061-T6", "304"])
def test_no_hydrogen_caution_below_every_rule(material):
    found = allow(_thread("1/2-13"), ZINC_8, material=part_material.find(MaterialInput(name=material)))
    assert "hydrogen_embrittlement" not in _codes(found)


def test_unknown_hardness_names_the_bounds():
    assert "1000\N{NO-BREAK SPACE}MPa" in _said(allow(_thread("1/2-13"), ZINC_8), "hydrogen_embrittlement")


def test_mechanical_zinc_and_films_bring_no_hydrogen():
    for text in ("ASTM B695 Class 8", "black oxide", "MIL-A-8625 Type II"):
        assert "hydrogen_embrittlement" not in _codes(allow(_thread("1/2-13"), FinishInput(text=text)))


@pytest.mark.parametrize(
    ("finish", "material", "expected"),
    [("hard anodize", "Ti-6Al-4V", True), ("hard anodize", "6061-T6", False), ("ASTM B633 SC2", "6061-T6", True)],
)
def test_substrate(finish, material, expected):
    found = allow(
        _thread("1/2-13"), FinishInput(text=finish), material=part_material.find(MaterialInput(name=material))
    )
    assert ("finish_substrate" in _codes(found)) is expected


def test_tin_is_thicker_on_steel():
    steel = part_material.find(MaterialInput(name="1018"))
    tin = FinishInput(text="ASTM B545 Class C")
    assert allow(_thread("M8"), tin).finish.thickness.min == Decimal("0.008")
    assert allow(_thread("M8"), tin, material=steel).finish.thickness.min == Decimal("0.010")


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
    assert code in _codes(allow(_thread("1/2-13"), FinishInput(text=finish)))


# --- refusals ---------------------------------------------------------------------------------------------------------


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
        (FinishInput(text="zinc 0.0003 in", thickness=_span("0.0003", None)), "finish_conflict", "/finish/thickness"),
        (FinishInput(text="nitrided 0.0003 in"), "finish_conflict", "/finish/thickness"),
        (FinishInput(thickness=_span("0.0003", "0.0002")), "range_inconsistent", "/finish/thickness"),
        (FinishInput(thickness=_span("0", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=_span("-0.0002", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=_span("0.2", None)), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=_span("1E+99", None, "mm")), "value_out_of_range", "/finish/thickness"),
        (FinishInput(thickness=_span(None, None)), "finish_thickness_missing", "/finish/thickness"),
        (FinishInput(text="zinc 5 in"), "value_out_of_range", "/finish"),
        (FinishInput(heat_treat_growth=_span("0.2", "0.3")), "value_out_of_range", "/finish/heat_treat_growth"),
        (FinishInput(heat_treat_growth=_span("0.003", "0.001")), "range_inconsistent", "/finish/heat_treat_growth"),
        (
            FinishInput(thickness=_span("0.001", None), growth_fraction=Decimal("1.5")),
            "value_out_of_range",
            "/finish/growth_fraction",
        ),
        (
            FinishInput(text="AMS 2404", heat_treat_growth=_span("0.0001", "0.0002")),
            "finish_thickness_missing",
            "/finish/thickness",
        ),
    ],
)
def test_refusals(finish, code, pointer):
    with pytest.raises(FinishError) as refused:
        allow(_thread("1/2-13"), finish)
    assert (refused.value.code, refused.value.faults[0].pointer) == (code, pointer)


def test_a_given_thickness_replaces_the_class():
    found = allow(_thread("1/2-13"), FinishInput(text="ASTM B633 SC3 0.0002 in"))
    assert found.finish.thickness.min == Decimal("0.0002")
    assert _says(found, "replaces that of ASTM B633 Fe/Zn 12 SC3", "thinner")


def test_a_specification_without_thickness_takes_the_drawings():
    fields = FinishInput(specification="AMS 2404", thickness=_span("0.0005", "0.0007"))
    assert allow(_thread("1/2-13"), fields).change.pitch_diameter.min == Decimal("-0.0028")
