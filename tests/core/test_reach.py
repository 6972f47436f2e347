"""Holes at the bottom of a bore or beside a wall; lengths of tools are those of the named standards, from memory."""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core.errors import HoleError
from borewright.core.model import Hole, Length
from borewright.core.requests import HoleSpecRequest
from borewright.core.specify import specify


def length(text: str | None, unit) -> Length | None:
    return None if text is None else Length(Decimal(text), unit)


def at_bottom(*, thread="M10", unit="mm", depth="15", access: str | None = None, clearance: str | None = None):
    hole = Hole(
        "blind",
        full_thread_depth=length(depth, unit),
        access_depth=length(access, unit),
        clearance_diameter=length(clearance, unit),
    )
    return specify(HoleSpecRequest(thread=thread, hole=hole))


def codes(found) -> set[str]:
    return {caution.code for caution in found.notes.cautions}


def test_nothing_above_the_face_needs_no_reach():
    assert at_bottom().reach is None


def test_reach_is_access_plus_depth():
    spec = at_bottom(access="60", clearance="30")
    assert spec.reach.drill_reach == 60 + spec.depths.drill_tip_depth
    assert spec.reach.tap_reach == 60 + spec.depths.tap_travel
    assert (spec.reach.length, spec.reach.shank) == ("extended", "standard")


def test_the_shortest_tap_that_reaches_and_can_be_held():
    """ISO 529: M10 is 80 mm long, ISO 2283 108 mm; two diameters, 20 mm, stay for the holder."""
    travel = at_bottom().depths.tap_travel
    just, beyond = 80 - 20 - travel, 80 - 20 - travel + Decimal("0.01")
    near, far = at_bottom(access=str(just)).reach.tap, at_bottom(access=str(beyond)).reach.tap
    assert (near.kind, near.document, near.overall_length, near.left_for_holder) == ("standard", "ISO 529", 80, 20)
    assert (far.kind, far.document, far.overall_length) == ("extended", "ISO 2283", 108)


def test_the_shortest_drill_that_reaches():
    """An 8.5 mm drill: ISO 235 jobber 117 mm with 75 mm of flute, ISO 494 long series 165 mm with 109 mm."""
    shallow, deep = at_bottom(access="20"), at_bottom(access="1", depth="70")
    assert (shallow.reach.drill.kind, shallow.reach.drill.overall_length) == ("jobber", 117)
    assert deep.depths.drill_tip_depth > 75
    assert (deep.reach.drill.kind, deep.reach.drill.overall_length, deep.reach.drill.document) == (
        "long", 165, "ISO 494",
    )  # fmt: skip


def test_a_tap_that_cannot_reach_is_refused_with_what_is_missing():
    """M10: 108 mm less 20 mm for the holder leaves 88 mm; the rest is missing."""
    travel = at_bottom().depths.tap_travel
    with pytest.raises(HoleError) as caught:
        at_bottom(access="90")
    fault = caught.value.faults[0]
    missing = 90 + travel - 88
    assert (fault.code, fault.pointer) == ("hole_not_reachable", "/hole/access_depth")
    assert f"{missing.normalize()} mm are missing" in fault.detail
    assert fault.allowed == (f"at most {(90 - missing).normalize()} mm",)
    assert at_bottom(access=str(90 - missing)).reach.tap.left_for_holder == 20


def test_where_no_length_is_held_reach_and_kind_of_tool_are_told():
    """No length is held for an inch drill, nor for an inch tap beyond the hand tap of ASME B94.9 (1/2: 3.38 in)."""
    near = at_bottom(thread="1/2-13 UNC-2B", unit="in", depth="0.75", access="1").reach
    assert (near.tap.document, near.tap.overall_length, near.drill) == ("ASME B94.9", Decimal("3.38"), None)
    assert codes(near) == {"tool_length_not_held", "tool_length_from_memory"}
    far = at_bottom(thread="1/2-13 UNC-2B", unit="in", depth="0.75", access="4").reach
    assert (far.tap, far.drill, far.length) == (None, None, "extended")
    assert codes(far) == {"tool_length_not_held"}
    tap, drill = far.advice
    assert "extended-shank" in tap
    assert str(far.tap_reach.quantize(Decimal("0.001")).normalize()) in tap
    assert "extra-length" in drill


def test_fine_pitches_and_other_systems_hold_no_length():
    for thread, unit in (("M10x1", "mm"), ("Tr 16x4", "mm")):
        assert at_bottom(thread=thread, unit=unit, access="10").reach.tap is None


def test_narrow_bore_asks_for_a_small_shank():
    """An M10 shank of ISO 529 is 10 mm and passes; a #6 shank of ASME B94.9, 0.141 in, is larger than its thread."""
    assert at_bottom(access="40", clearance="10.05").reach.shank == "standard"
    narrow = at_bottom(thread="#6-32 UNC-2B", unit="in", depth="0.2", access="0.3", clearance="0.14")
    assert narrow.reach.shank == "small_shank"
    assert at_bottom(thread="M10x1", access="40", clearance="12").reach.shank == "small_shank"


def test_a_thread_deeper_than_the_tap_is_long_asks_for_a_neck():
    """ISO 529 M8: 22 mm of thread on an 8 mm shank, larger than the 6.8 mm hole. M12: 9 mm shank in a 10.2 mm hole."""
    assert at_bottom(thread="M8", depth="30", access="1").reach.shank == "small_shank"
    assert at_bottom(thread="M8", depth="12", access="1").reach.shank == "standard"
    assert at_bottom(thread="M12", depth="40", access="1").reach.shank == "standard"


def test_bore_narrower_than_the_tap_is_refused_with_what_is_missing():
    with pytest.raises(HoleError) as caught:
        at_bottom(access="40", clearance="9")
    assert caught.value.code == "hole_not_reachable"
    assert caught.value.faults[0].pointer == "/hole/clearance_diameter"
    assert "1 mm of clearance" in caught.value.faults[0].detail


def test_lengths_name_their_standard_and_that_they_are_from_memory():
    reach = at_bottom(access="40").reach
    statuses = {source.field: (source.document[:7], source.status) for source in reach.notes.sources}
    assert statuses["tap.overall_length"] == ("ISO 529", "from_memory")
    assert statuses["drill.overall_length"] == ("ISO 235", "from_memory")
