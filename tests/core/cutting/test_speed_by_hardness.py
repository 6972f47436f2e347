"""One axis of hardness for speeds: no cliffs, harder is never faster, speeds inside their own range."""

from decimal import Decimal
from itertools import pairwise

import pytest
from borewright.core import callout, standards
from borewright.core.cutting import cutting_data, speeds
from borewright.core.cutting.records import CuttingRequest
from borewright.core.materials import alloys, part_material
from borewright.core.materials.profile import CuttingProfile, profile
from borewright.core.model import MaterialInput
from borewright.core.requests import Machine
from every import every
from hypothesis import given, settings
from hypothesis import strategies as st

GROUPS = {row.speed_group: row for row in alloys.alloys() if row.family != "plastic"}
SPEEDS = (speeds.drilling_speed, speeds.tapping_speed)
THREAD = standards.resolve(callout.read("3/8-16 UNC-2B"))
HOLE = CuttingRequest(
    material=part_material.find(MaterialInput("4140")),
    hole_kind="blind",
    drill_diameter=Decimal("0.3125"),
    hole_diameter=Decimal("0.316"),
    drill_depth=Decimal("0.9"),
    full_thread_depth=Decimal("0.5"),
    tap_travel=Decimal("0.75"),
)


def _at(row, hardness):
    return CuttingProfile(row.name, row, hardness, row.tensile_mpa, None)


def _data(material, **changes):
    return cutting_data.recommend(THREAD, HOLE._replace(material=part_material.find(material), **changes))


@settings(max_examples=400)
@given(st.sampled_from(sorted(GROUPS)), st.floats(20, 700), st.floats(20, 700))
def test_harder_is_never_faster(group, one, other):
    soft, hard = sorted((one, other))
    for speed in SPEEDS:
        slow, fast = speed(_at(GROUPS[group], hard)), speed(_at(GROUPS[group], soft))
        if slow is not None:
            assert fast is not None
            assert slow.value_ft_min <= fast.value_ft_min + 1e-9
            assert slow.high_ft_min <= fast.high_ft_min + 1e-9


@every("group", sorted(GROUPS))
@every("speed", SPEEDS, ids=("drill", "tap"))
def test_no_cliffs(group, speed):
    """Steepest printed change: 70 to 20 ft/min between the middles of two ranges, under 1.5 ft/min for 1 HB."""
    found = [speed(_at(GROUPS[group], float(hb))) for hb in range(40, 701)]
    held = [one for one in found if one is not None]
    assert held
    assert found[: len(held)] == held
    for one, other in pairwise(held):
        assert one.value_ft_min - other.value_ft_min < 1.5
        assert one.low_ft_min <= one.value_ft_min <= one.high_ft_min


def test_prehard_bar_is_one_bar():
    """4140 of 300 and 301 HB, of 350 and 351 HB: within 3 percent."""
    for soft, hard in ((300, 301), (350, 351)):
        one, other = (_data(MaterialInput("4140", hardness=f"{hb} HB")) for hb in (soft, hard))
        assert one.drill.spindle_speed_rpm == pytest.approx(other.drill.spindle_speed_rpm, rel=0.03)
        assert one.tap.spindle_speed_rpm == pytest.approx(other.tap.spindle_speed_rpm, rel=0.03)


def test_annealed_4140_is_tapped_at_its_own_row():
    """High-carbon and alloy steel annealed: 25 to 40 ft/min up to 250 HB, quarter less in a blind hole."""
    annealed, hardened = _data(MaterialInput("4140")), _data(MaterialInput("4140", hardness="30 HRC"), coated=True)
    assert annealed.tap.cutting_speed_m_min == pytest.approx(25 * 0.75 * 0.3048)
    assert annealed.tap.speed_range_m_min == pytest.approx((25 * 0.75 * 0.3048, 40 * 0.75 * 0.3048))
    assert hardened.tap.spindle_speed_rpm < annealed.tap.spindle_speed_rpm


@every("method", ["cut", "form"])
@every("coated", [True, False])
@every("chamfer", ["plug", "bottoming"])
@every("depth", ["0.5", "2.2"])
@every("text", ["4140", "1018", "304", "6061-T6", "GG25", "Ti-6Al-4V", "718", "D2 at 55 HRC"])
def test_speeds_lie_inside_the_range_they_print(text, depth, chamfer, coated, method):
    for machine in (Machine(), Machine(max_spindle_speed_rpm=50), Machine(max_power_kw=0.05)):
        data = _data(
            MaterialInput(text),
            drill_depth=Decimal(depth),
            chamfer_name=chamfer,
            coated=coated,
            method=method,
            machine=machine,
        )
        for cut in (data.drill, data.tap):
            if cut.cutting_speed_m_min is not None:
                low, high = cut.speed_range_m_min
                assert low <= cut.cutting_speed_m_min <= high


@pytest.mark.parametrize(
    ("mpa", "hb", "hrc"),
    [(1480, 421, 45), (1179, 353, 38), (1007, 301, 32), (758, 226, 20), (558, 167, None), (386, 111, None)],
)
def test_tensile_strength_alone_gives_the_hardness(mpa, hb, hrc):
    """Printed rows of ASTM E140 for steel."""
    for asked in (MaterialInput(group="P", tensile_strength_mpa=mpa), MaterialInput(tensile_strength_mpa=mpa)):
        found = part_material.find(asked)
        assert (found.hardness_hb, found.hardness_hrc) == (hb, hrc)
        assert any("hardness taken from" in text for text in found.notes.assumptions)


def test_strength_and_hardness_say_the_same():
    """38 HRC is 1179 MPa: the same speeds and torque from either."""
    by_strength = _data(MaterialInput("4140", tensile_strength_mpa=1179))
    by_hardness = _data(MaterialInput("4140", hardness="38 HRC"))
    assert by_strength.drill == by_hardness.drill
    assert by_strength.tap == by_hardness.tap


@settings(max_examples=200)
@given(st.sampled_from(["P", "M", "K"]), st.integers(100, 3000), st.integers(100, 3000))
def test_stronger_is_harder(group, one, other):
    weak, strong = (
        part_material.find(MaterialInput(group=group, tensile_strength_mpa=float(mpa))) for mpa in sorted((one, other))
    )
    assert weak.hardness_hb <= strong.hardness_hb


@pytest.mark.parametrize(("group", "words"), [("N", "no hardness is derived"), ("S", "no hardness is derived")])
def test_a_strength_that_gives_no_hardness_is_said(group, words):
    found = part_material.find(MaterialInput(group=group, tensile_strength_mpa=500.0))
    assert any(words in text for text in found.notes.assumptions)


def test_the_condition_nearest_to_the_strength_is_taken():
    """17-4 PH: H1150 931 MPa, H1025 1172 MPa, H900 1379 MPa."""
    found = [
        part_material.find(MaterialInput("17-4PH", tensile_strength_mpa=mpa)).material_id
        for mpa in (940.0, 1160.0, 1370.0)
    ]
    assert found == ["17-4-H1150", "17-4-H1025", "17-4-H900"]


def test_hardened_steel_by_hardness_alone_has_speeds():
    """A hardness of the group H stands on alloy steel; the group alone on nothing."""
    hard = profile(part_material.find(MaterialInput(hardness="47 HRC")))
    named = profile(part_material.find(MaterialInput("4140", hardness="47 HRC")))
    assert speeds.drilling_speed(hard).value_ft_min == speeds.drilling_speed(named).value_ft_min
    assert profile(part_material.find(MaterialInput(group="H"))) is None
