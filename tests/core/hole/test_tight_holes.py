"""Blind holes with little room: a bottoming tap where it does, else a refusal whose remedies work.

Build-up by hand: full thread + chamfer + clearance, each in pitches (common practice; bottoming 1 to 1.5 threads is
form F of DIN 2197).
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.errors import HoleError
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest
from hypothesis import given, settings
from hypothesis import strategies as st


def spec(thread: str, unit, full, *, limit=None, wall=None, point="118", material="4140", method="cut"):
    def given_length(value):
        return None if value is None else Length(Decimal(str(value)), unit)

    hole = Hole(
        "blind",
        given_length(full),
        drill_depth_limit=given_length(limit),
        thickness=given_length(wall),
        point_angle_deg=Decimal(point),
    )
    return specify(
        HoleSpecRequest(thread=callout.read(thread), hole=hole, material=MaterialInput(name=material), method=method)
    )


def questions(found) -> dict[str, str]:
    return {one.code: one.text.replace("\N{NO-BREAK SPACE}", " ") for one in found.review}


def test_two_pitches_below_the_thread_are_made_with_a_short_bottoming_tap():
    """1/4-20, 0.5 in of thread in 0.6 in: 0.5 + 1.5 x 0.05 + 0.5 x 0.05 = 0.6."""
    found = spec("1/4-20 UNC-2B", "in", "0.5", limit="0.6", material="1018")
    assert found.depths.drill_depth == Decimal("0.6")
    assert found.depths.tap_travel == Decimal("0.575")
    assert found.tap.recommended.chamfer.name == "plug"
    assert (found.tap.second_tap.chamfer.threads_min, found.tap.second_tap.chamfer.threads_max) == (1, Decimal("1.5"))
    said = questions(found)["bottoming_only"]
    # one pitch of clearance and two threads: 0.5 + 0.15; 0.6 - 0.15 of full thread
    for words in ("0.025 in above the bottom", "0.65 in of full drill diameter", "at most 0.45 in of full thread"):
        assert words in said
    taps = [line.line.text for line in found.operations if line.line.operation == "tap"]
    assert ["bottoming chamfer of 1 to 1.5 threads" in text for text in taps] == [False, True]


def test_room_for_a_usual_bottoming_tap_asks_nothing():
    """Three pitches: two of chamfer, one of clearance."""
    found = spec("1/4-20 UNC-2B", "in", "0.5", limit="0.65", material="1018")
    assert found.tap.second_tap.chamfer.threads_max == 2
    assert "bottoming_only" not in questions(found)


def test_a_wall_is_answered_with_the_flatter_point_named():
    """M6, 10 mm in 14 mm: 10 + 2 + 0.3004 x 5 = 13.5 leaves 0.5 mm; 140 degrees 14 - 12 - 0.91, 180 degrees 2 mm."""
    said = questions(spec("M6", "mm", 10, wall=14))
    assert "140 degrees, which leaves 1.09 mm" in said["thin_wall"]
    assert "180 degrees, which leaves 2 mm" in said["thin_wall"]


def test_a_wall_that_holds_no_tap_names_what_would_do():
    """M6, 11.5 mm in 14 mm: 12.5 mm at 118 degrees, 14 - 0.91 = 13.09 at 140; two pitches of 1 mm are needed."""
    with pytest.raises(HoleError) as caught:
        spec("M6", "mm", "11.5", wall=14)
    detail = caught.value.faults[0].detail.replace("\N{NO-BREAK SPACE}", " ")
    assert "point_angle of 180 degrees" in detail
    assert "point_angle of 140 degrees" not in detail
    assert "at most 10.49 mm of full thread" in detail
    assert "1.5 threads of chamfer" in detail
    assert spec("M6", "mm", "11.5", wall=14, point="180").depths.drill_depth <= 14


@pytest.mark.parametrize(("point", "angle", "flat"), [("118", 120, False), ("135", 140, False), ("180", 140, True)])
def test_no_spot_drill_is_flat(point, angle, flat):
    """Common practice: 120 degrees for 118, 140 for more; a flat-bottom drill starts on the flat or in that spot."""
    lines = [one.line for one in spec("M10", "mm", 15, point=point, material="304").operations]
    spot, drill = lines[:2]
    assert spot.tool["included_angle"] == angle
    assert ("on the flat" in spot.text) is flat
    assert (drill.tool["kind"] == "flat-bottom drill") is flat


@settings(max_examples=60)
@given(
    case=st.sampled_from([("M6", "mm", "1"), ("M10", "mm", "1.5"), ("1/4-20 UNC-2B", "in", "0.05")]),
    pitches=st.integers(4, 14),
    spare=st.decimals("0", "6", places=2),
    by=st.sampled_from(["limit", "wall"]),
    point=st.sampled_from(["118", "135", "140"]),
    method=st.sampled_from(["cut", "form"]),
)
def test_a_tight_hole_fits_or_its_remedies_do(case, pitches, spare, by, point, method):
    thread, unit, pitch = case[0], case[1], Decimal(case[2])
    full, room = pitches * pitch, (pitches + spare) * pitch
    asked = {"unit": unit, by: room, "point": point, "method": method, "material": "6061-T6"}
    step = Decimal("0.001") if unit == "in" else Decimal("0.01")
    try:
        found = spec(thread, full=full, **asked)
    except HoleError as refused:
        _remedies_work(refused, thread, full, asked)
        return
    depths = found.depths
    deepest = depths.drill_tip_depth if by == "wall" else depths.drill_depth
    assert deepest <= room + step
    assert depths.full_thread_depth == full
    assert depths.drill_depth >= full + depths.chamfer_length + pitch / 2 - 2 * step
    assert full + depths.chamfer_length - step <= depths.tap_travel < depths.drill_depth


def _remedies_work(refused: HoleError, thread: str, full: Decimal, asked: dict) -> None:
    fault = refused.faults[0]
    text = fault.detail.replace("\N{NO-BREAK SPACE}", " ")
    most = re.search(r"take at most ([\d.]+) (?:in|mm) of full thread", text)
    if most:
        assert spec(thread, full=most[1], **asked)
    for angle in re.findall(r"point_angle of (\d+) degrees", text):
        assert spec(thread, full=full, **{**asked, "point": angle})
    if 'method "cut"' in text:
        assert spec(thread, full=full, **{**asked, "method": "cut"})
    deep = re.search(r"at least ([\d.]+)", fault.allowed[0] if fault.allowed else "")
    if deep:
        assert spec(thread, full=full, **{**asked, "limit" if "limit" in asked else "wall": deep[1]})
