"""Whether tools reach: deep holes, holes at the bottom of a bore or beside a wall.

Lengths of tools are those of the named standards, from memory but for overall lengths and shanks of ASME B94.9 Table 6.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout
from borewright.core.errors import HoleError
from borewright.core.model import Hole, Length
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest


def length(text: str | None, unit) -> Length | None:
    return None if text is None else Length(Decimal(text), unit)


def at_bottom(*, thread="M10", unit="mm", depth="15", access: str | None = None, clearance: str | None = None):
    hole = Hole(
        "blind",
        full_thread_depth=length(depth, unit),
        access_depth=length(access, unit),
        clearance_diameter=length(clearance, unit),
    )
    return specify(HoleSpecRequest(thread=callout.read(thread), hole=hole))


def codes(found) -> set[str]:
    return {caution.code for caution in found.notes.cautions}


@pytest.mark.parametrize(
    ("thread", "unit", "depth"),
    [("M3", "mm", "6"), ("M10", "mm", "20"), ("M10x1", "mm", "20"), ("#2-56 UNC-2B", "in", "0.172"),
     ("1/4-20 UNC-2B", "in", "0.5"), ("1-8 UNC-2B", "in", "2"), ("1-1/4-7 UNC-2B", "in", "2")],
)  # fmt: skip
def test_ordinary_holes_are_passed_in_silence(thread, unit, depth):
    """Two diameters of thread and an open face: every usual tap and jobber drill reaches (common practice)."""
    spec = at_bottom(thread=thread, unit=unit, depth=depth)
    assert spec.reach.ordinary
    assert (spec.reach.access_depth, spec.reach.advice, spec.reach.notes.cautions) == (0, (), ())
    assert "tool_too_short" not in [one.code for one in spec.review]
    assert not [line for line in spec.operations if "reaching" in line.line.text or "reach" in line.line.tool]


def questions(spec) -> list[str]:
    return [one.text.replace("\N{NO-BREAK SPACE}", " ") for one in spec.review if one.code == "tool_too_short"]


def test_a_shank_larger_than_its_hole_meets_the_face():
    """#2-56, 0.5 in: 2.5 threads of 1/56 more, 0.545 in; a #2 tap: 0.44 in of thread, 0.141 in shank; #50: 0.07 in."""
    spec = at_bottom(thread="#2-56 UNC-2B", unit="in", depth="0.5")
    (question,) = questions(spec)
    assert spec.depths.tap_travel == Decimal("0.545")
    for words in ("0.545 in deep", "0.141 in shank", "0.07 in hole", "neck or shank slimmer", "none is held"):
        assert words in question
    assert "at most 0.395 in of full thread" in question  # 0.5 - (0.545 - 0.44)
    assert (spec.reach.tap, spec.reach.shank, spec.verdict) == (None, "small_shank", "review")
    assert not questions(at_bottom(thread="#2-56 UNC-2B", unit="in", depth="0.395"))


def test_the_finding_names_the_long_tap_that_would_reach():
    """ISO 529 M8: recess to 35 mm, 8 mm shank in a 6.8 mm hole; 40 mm of thread ask for ISO 2283, 97 mm."""
    spec = at_bottom(thread="M8", depth="40")
    (question,) = questions(spec)
    assert "long-shank tap of ISO 2283, 97 mm overall" in question
    assert (spec.reach.tap.kind, spec.reach.tap.document) == ("extended", "ISO 2283")
    taps = [line.line for line in spec.operations if line.line.operation == "tap"]
    assert [tap.tool["length"] for tap in taps] == ["extended"]


def test_a_jobber_drill_of_5_16_has_3_3_16_of_flute():
    """From memory of ASME B94.11M; 4.5 in overall."""
    near = at_bottom(thread="3/8-16 UNC-2B", unit="in", depth="1.875", access="0.001").reach.drill
    assert (near.kind, near.cutting_length, near.overall_length) == ("jobber", Decimal("3.1875"), Decimal("4.5"))
    far = at_bottom(thread="3/8-16 UNC-2B", unit="in", depth="3")
    assert far.depths.drill_tip_depth > Decimal("3.1875")
    assert any("taper-length or extra-length" in text and "3.188 in of flute" in text for text in questions(far))


def test_a_drill_between_two_rows_is_taken_as_short_as_the_smaller():
    """No. 7 (0.201 in) lies over 3/16 in: 2-5/16 in of flute are counted on, 2-7/16 are what 13/64 has."""
    drill = at_bottom(thread="1/4-20 UNC-2B", unit="in", depth="0.5").reach.drill
    assert drill.cutting_length == Decimal("2.3125")


def test_lengths_of_inch_taps_say_what_is_published():
    sources = {source.field: source.status for source in at_bottom(
        thread="1/4-20 UNC-2B", unit="in", depth="0.5").reach.notes.sources}  # fmt: skip
    assert sources["tap.overall_length"] == "published"
    assert sources["tap.cutting_length"] == sources["drill.overall_length"] == "from_memory"


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
    detail, allowed = (text.replace("\N{NO-BREAK SPACE}", " ") for text in (fault.detail, *fault.allowed))
    assert f"{missing.normalize()} mm are missing" in detail
    assert allowed == f"at most {(90 - missing).normalize()} mm"
    assert at_bottom(access=str(90 - missing)).reach.tap.left_for_holder == 20


def test_where_no_longer_tap_is_held_the_kind_of_tool_is_told():
    """ASME B94.9 1/2: 3.38 in, of which two shank diameters of 0.367 in are held; 27/64 jobber: 5-3/8 in (memory)."""
    near = at_bottom(thread="1/2-13 UNC-2B", unit="in", depth="0.75", access="1").reach
    assert (near.tap.document, near.tap.overall_length, near.drill.kind) == ("ASME B94.9", Decimal("3.38"), "jobber")
    assert codes(near) == {"tool_length_from_memory"}
    spec = at_bottom(thread="1/2-13 UNC-2B", unit="in", depth="0.75", access="4")
    far = spec.reach
    assert (far.tap, far.drill, far.length) == (None, None, "extended")
    assert len(questions(spec)) == 2
    tap, drill = far.advice
    assert "extended-shank" in tap
    assert str(far.tap_reach.quantize(Decimal("0.001")).normalize()) in tap
    assert "extra-length" in drill


def test_a_deep_thread_without_a_length_held_says_so():
    assert "tool_length_not_held" in codes(at_bottom(thread="M10x1", depth="35").reach)
    assert codes(at_bottom(thread="M10x1", depth="20").reach) == set()


def test_fine_pitches_and_other_systems_hold_no_length():
    for thread, unit in (("M10x1", "mm"), ("Tr 16x4", "mm")):
        assert at_bottom(thread=thread, unit=unit, access="10").reach.tap is None


def test_a_standard_tool_is_advised_where_nothing_is_in_its_way():
    """NIHS taps and drills below 1 mm have no length held; at a face standard ones reach, in a bore none may."""
    tap, drill = at_bottom(thread="0.5 UNM", depth="1.5").reach.advice
    assert tap.startswith("tap: a standard tap")
    assert drill.startswith("drill 0.38 mm: a standard drill")
    tap, drill = at_bottom(thread="0.5 UNM", depth="1.5", access="5").reach.advice
    assert tap.startswith("tap: an extended-shank tap")
    assert drill.startswith("drill 0.38 mm: a long, taper-length or extra-length drill")


def test_narrow_bore_asks_for_a_small_shank():
    """An M10 shank of ISO 529 is 10 mm and passes; a #6 shank of ASME B94.9, 0.141 in, is larger than its thread."""
    assert at_bottom(access="40", clearance="10.05").reach.shank == "standard"
    narrow = at_bottom(thread="#6-32 UNC-2B", unit="in", depth="0.2", access="0.3", clearance="0.14")
    assert narrow.reach.shank == "small_shank"
    assert at_bottom(thread="M10x1", access="40", clearance="12").reach.shank == "small_shank"


def test_a_thread_deeper_than_the_tap_is_long_asks_for_a_neck():
    """ISO 529 M8: recess to 35 mm, then an 8 mm shank over the 6.8 mm hole. M12: 9 mm shank in a 10.2 mm hole."""
    assert at_bottom(thread="M8", depth="34", access="1").reach.shank == "small_shank"
    assert at_bottom(thread="M8", depth="12", access="1").reach.shank == "standard"
    assert at_bottom(thread="M12", depth="40", access="1").reach.shank == "standard"


def test_bore_narrower_than_the_tap_is_refused_with_what_is_missing():
    with pytest.raises(HoleError) as caught:
        at_bottom(access="40", clearance="9")
    assert caught.value.code == "hole_not_reachable"
    assert caught.value.faults[0].pointer == "/hole/clearance_diameter"
    assert "1\N{NO-BREAK SPACE}mm of clearance" in caught.value.faults[0].detail


def test_lengths_name_their_standard_and_that_they_are_from_memory():
    reach = at_bottom(access="40").reach
    statuses = {source.field: (source.document[:7], source.status) for source in reach.notes.sources}
    assert statuses["tap.overall_length"] == ("ISO 529", "from_memory")
    assert statuses["drill.overall_length"] == ("ISO 235", "from_memory")
