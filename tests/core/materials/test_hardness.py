"""Hardness texts and their conversion: printed rows come back as printed, nothing is extrapolated."""

from contextlib import suppress

import pytest
from borewright.core.errors import MaterialError
from borewright.core.materials import hardness
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st
from outside_figures import outside


def _printed(table: str) -> list[dict[str, str]]:
    return [row for row in outside("hardness_conversion") if row["table"].startswith(table)]


@every("row", _printed("HRC"), ids=lambda row: f"HRC{row['HRC']}")
def test_printed_rockwell_c_rows(row):
    found = hardness.convert(hardness.HardnessReading("HRC", float(row["HRC"])))
    assert (found.hb is None) == (row["HB_3000kg"] == "")
    assert row["HB_3000kg"] in ("", f"{found.hb or 0:.0f}")
    assert row["tensile_MPa"] in ("", f"{found.tensile_mpa or 0:.0f}")
    assert found.status == ("from_memory" if "memory" in row["notes"] else "second_hand")
    by_vickers = hardness.convert(hardness.HardnessReading("HV", float(row["HV"])))
    assert by_vickers.hrc == float(row["HRC"])


@pytest.mark.parametrize("row", _printed("HRB"), ids=lambda row: f"HRB{row['HRB']}")
def test_printed_rockwell_b_rows(row):
    found = hardness.convert(hardness.HardnessReading("HRB", float(row["HRB"])))
    assert f"{found.hb:.0f}" == row["HB_3000kg"]
    assert f"{found.tensile_mpa:.0f}" == row["tensile_MPa"]


def test_row_counts():
    assert (len(_printed("HRC")), len(_printed("HRB"))) == (49, 13)


@pytest.mark.parametrize(
    ("text", "scale", "value"),
    [
        ("28 HRC", "HRC", 28),
        ("28HRC", "HRC", 28),
        ("HRC 28", "HRC", 28),
        ("Rc 28", "HRC", 28),
        ("28 Rockwell C", "HRC", 28),
        ("285 HB", "HB", 285),
        ("HB285", "HB", 285),
        ("285 BHN", "HB", 285),
        ("285 HBW", "HB", 285),
        ("300 hv", "HV", 300),
        ("90 HRB", "HRB", 90),
        ("28,5 HRC", "HRC", 28.5),
        ("28-32 HRC", "HRC", 30),
        ("28 to 32 HRC", "HRC", 30),
        ("HRC 28–32", "HRC", 30),
    ],
)
def test_texts_as_people_type_them(text, scale, value):
    found = hardness.read(text)
    assert (found.scale, found.value) == (scale, value)
    assert (found.assumption is not None) == (value == 30)


@pytest.mark.parametrize("text", ["", "hard", "28", "HRC", "28 HRX", "-5 HRC", "28 HRC 30 HRC", "0 HB", "9" * 61])
def test_unreadable_texts(text):
    with pytest.raises(MaterialError) as caught:
        hardness.read(text)
    assert caught.value.code == "hardness_unreadable"
    assert caught.value.faults[0].allowed == hardness.SCALES


@pytest.mark.parametrize(
    ("scale", "value"), [("HRC", 19), ("HRC", 69), ("HB", 740), ("HV", 175), ("HV", 941), ("HRB", 65), ("HRB", 100)]
)
def test_one_step_past_the_table_is_refused(scale, value):
    with pytest.raises(MaterialError) as caught:
        hardness.convert(hardness.HardnessReading(scale, value))
    assert caught.value.code == "hardness_out_of_table"


def test_soft_brinell_needs_no_conversion():
    found = hardness.convert(hardness.HardnessReading("HB", 95))
    assert (found.hb, found.hrc, found.tensile_mpa, found.status) == (95, None, None, "computed")


def test_between_rows_is_linear_and_shows_it():
    found = hardness.convert(hardness.HardnessReading("HRC", 36.5))  # rows 36: 336 HB, 37: 344 HB
    assert found.hb == pytest.approx(340)
    step = next(step for step in found.steps if step.unit == "HB")
    assert (step.inputs["y1"], step.inputs["y2"]) == (336, 344)
    assert found.status == "from_memory"  # row 37 is


@settings(max_examples=100)
@given(st.floats(20, 58), st.floats(20, 58))
def test_harder_is_harder_on_every_scale(one, other):
    soft, hard = (hardness.convert(hardness.HardnessReading("HRC", value)) for value in sorted((one, other)))
    assert soft.hb <= hard.hb
    assert soft.tensile_mpa <= hard.tensile_mpa


@settings(max_examples=100)
@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text):
    with suppress(MaterialError):
        assert hardness.convert(hardness.read(text)).hrc != 0
