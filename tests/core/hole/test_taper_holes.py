"""Taper pipe holes: how deep the tap runs, how much thread there must be, and how the thread is gauged.

Travel of the tap is in pipe_tap_travel.csv (tests/published, tests/derived). Lengths: those of
ANSI/ASME B1.20.1 Table 2 (L1, L3) and ISO 7-1 Table 1 with JIS B 0203 for useful internal lengths.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole.taper_pipe import gauge_words
from borewright.core.model import FinishInput, Hole, Length, LengthRange, MaterialInput
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest, Machine
from hypothesis import assume, given
from hypothesis import strategies as st
from outside_figures import outside

_TRAVELS = outside("pipe_tap_travel")
_CHARTED = {
    "NPT": ("1/16-27", "1/8-27", "1/4-18", "3/8-18", "1/2-14", "3/4-14", "1-11.5", "1 1/4-11.5", "2-11.5", "3-8"),
    "NPTF": ("1/16-27", "1/8-27", "1/4-18", "3/8-18", "1/2-14", "3/4-14", "1-11.5", "2-11.5"),
    "PTF-SAE SHORT": ("1/8-27", "1/4-18", "1/2-14"),
}
_AMERICAN = [f"{size} {series}" for series, sizes in _CHARTED.items() for size in sizes]
_ISO = [f"Rc {size}" for size in ("1/16", "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/4", "2")]


def inch(text: str) -> Length:
    return Length(Decimal(text), "in")


def spec(thread: str, hole: Hole, *, finish: FinishInput | None = None, machine: Machine | None = None):
    return specify(
        HoleSpecRequest(
            thread=callout.read(thread),
            hole=hole,
            material=MaterialInput(name="A36"),
            finish=finish,
            machine=machine or Machine(),
        )
    )


def said(found, operation: str) -> list[str]:
    return [
        one.line.text.replace("\N{NO-BREAK SPACE}", " ") for one in found.operations if one.line.operation == operation
    ]


@pytest.mark.parametrize("row", _TRAVELS, ids=lambda row: row["thread"])
def test_the_tap_runs_to_its_gauge_line_whatever_the_wall(row):
    """Within a fifth of a turn; the plug itself has one turn."""
    for times in ("1", "3"):
        wall = Length(Decimal(row["wall"]) * Decimal(times), row["unit"])
        found = spec(row["thread"], Hole("through", thickness=wall))
        within = 0 if row["unit"] == "in" else found.thread.lead / 5
        assert abs(found.depths.tap_travel - Decimal(row["travel"])) <= within
        (tap,) = (one.line for one in found.operations if one.line.operation == "tap")
        assert tap.parameters["travel"] == found.depths.tap_travel
        assert tap.parameters["turns_past_gauge_line"] == 0
        assert "to the gauge line" in tap.text


@pytest.mark.parametrize(
    ("thread", "full"),
    [
        ("1/8-27 NPT", "0.2726"),  # 0.1615 + 0.1111
        ("1/2-14 NPT", "0.5343"),  # 0.320 + 0.2143
        ("2-11.5 NPT", "0.6969"),  # 0.436 + 0.2609
        ("1/2-14 NPTF", "0.5343"),
        ("1/2-14 PTF-SAE SHORT", "0.4629"),  # one turn of 0.0714 less than NPTF
    ],
)
def test_useful_thread_is_the_standards(thread, full):
    """ANSI/ASME B1.20.1: L1 + L3 from the face, in a blind hole and in a wall of three inches."""
    for hole in (Hole("blind"), Hole("through", thickness=inch("3"))):
        assert spec(thread, hole).depths.full_thread_depth == Decimal(full)


def test_useful_thread_of_rc_depends_on_where_it_ends():
    """JIS B 0203 (as ISO 7-1), Rc 1/2: 15.0 mm from the face, 9.1 mm where the thread ends in a relief or a wall."""
    assert spec("Rc 1/2", Hole("blind")).depths.full_thread_depth == Decimal("15.0")
    assert spec("Rc 1/2", Hole("through", thickness=Length(Decimal(25), "mm"))).depths.full_thread_depth == Decimal(
        "9.1"
    )


def test_a_straight_hole_is_said_to_cut_the_last_crests_short():
    """1/2-14 NPT: 16 (0.77843 - 0.06186 + 2 x 0.0056 - 0.7031) = 0.395 in of 0.5343; all are full in 0.39 in."""
    said_of = {wall: spec("1/2-14 NPT", Hole("through", thickness=inch(wall))) for wall in ("0.75", "0.39")}
    notes = {wall: " ".join(found.depths.notes.assumptions) for wall, found in said_of.items()}
    assert "full crests to 0.395\N{NO-BREAK SPACE}in" in notes["0.75"]
    assert "full crests" not in notes["0.39"]


def test_percent_of_thread_is_that_where_hand_tight_engagement_ends():
    """1/2-14 NPT, 45/64: truncations 0.0024 to 0.0056 make D 0.83229 and D1 0.72457 at the face, D 0.81229 at L1."""
    best = spec("1/2-14 NPT", Hole("blind")).drill.recommended
    assert best.drill.label == "45/64"
    assert best.percent_thread == pytest.approx(Decimal("101.4"), abs=Decimal("0.1"))


def test_a_blind_hole_takes_the_travel_of_the_tap():
    """1/4-18 NPT: 0.6868 in of travel and one pitch of 0.0556 in of clearance, three where the holder floats."""
    hole = Hole("blind", full_thread_depth=inch("0.42"))
    assert spec("1/4-18 NPT", hole).depths.drill_depth == Decimal("0.742")
    assert spec("1/4-18 NPT", hole, machine=Machine(tapping="floating")).depths.drill_depth == Decimal("0.853")


@pytest.mark.parametrize(
    ("thread", "hole", "decided", "cautioned"),
    [
        # L1 = 0.2278, L1 + L3 = 0.3945
        ("1/4-18 NPT", Hole("blind", full_thread_depth=inch("0.1")), "pipe_thread_short", None),
        ("1/4-18 NPT", Hole("blind", full_thread_depth=inch("0.2277")), "pipe_thread_short", None),
        ("1/4-18 NPT", Hole("blind", full_thread_depth=inch("0.2278")), None, "pipe_makeup_short"),
        ("1/4-18 NPT", Hole("blind", full_thread_depth=inch("0.3945")), None, None),
        ("1/4-18 NPT", Hole("through", thickness=inch("0.2")), "pipe_thread_short", None),
        ("1/4-18 NPT", Hole("through", thickness=inch("0.3")), None, "pipe_makeup_short"),
        ("1/4-18 NPT", Hole("through", thickness=inch("1.5")), None, None),
        # 0.6868 - 3.5 / 18 = 0.4924 sure, 0.6868 - 2 / 18 = 0.5757 at most
        ("1/4-18 NPTF", Hole("blind", full_thread_depth=inch("0.49")), None, None),
        ("1/4-18 NPTF", Hole("blind", full_thread_depth=inch("0.55")), None, "run_out_short"),
        ("1/4-18 NPTF", Hole("blind", full_thread_depth=inch("0.6")), "pipe_thread_deep", None),
        # one turn less: L1 = 0.320 - 0.0714
        ("1/2-14 PTF-SAE SHORT", Hole("through", thickness=inch("0.24")), "pipe_thread_short", None),
        ("1/2-14 PTF-SAE SHORT", Hole("through", thickness=inch("0.47")), None, None),
        # JIS B 0203: t = 9.1 mm with a relief, 15.0 mm without
        ("Rc 1/2", Hole("through", thickness=Length(Decimal("9.0"), "mm")), "pipe_thread_short", None),
        ("Rc 1/2", Hole("through", thickness=Length(Decimal("9.1"), "mm")), None, None),
        ("Rc 1/2", Hole("blind", full_thread_depth=Length(Decimal("8"), "mm")), "pipe_thread_short", None),
        ("Rc 1/2", Hole("blind", full_thread_depth=Length(Decimal("12"), "mm")), None, "pipe_makeup_short"),
        ("Rc 1/2", Hole("blind", full_thread_depth=Length(Decimal("15"), "mm")), None, None),
    ],
)
def test_too_little_or_too_much_thread_is_said(thread, hole, decided, cautioned):
    found = spec(thread, hole)
    assert [one.code for one in found.review] == ([] if decided is None else [decided])
    assert [one.code for one in found.depths.notes.cautions] == ([] if cautioned is None else [cautioned])
    assert found.verdict == ("ready" if decided is None else "review")


def test_a_hole_that_cannot_take_the_tap_is_refused_with_what_would_do():
    """1/4-18 NPT: 0.6868 + 0.0556 = 0.7424 in, in a wall also 0.3004 x 0.4375 = 0.1314 in of point."""
    hole = Hole("blind", full_thread_depth=inch("0.4"), drill_depth_limit=inch("0.7"))
    with pytest.raises(HoleError) as caught:
        spec("1/4-18 NPT", hole)
    fault = caught.value.faults[0]
    assert (fault.code, fault.pointer) == ("drill_depth_limit_too_shallow", "/hole/drill_depth_limit")
    assert fault.allowed == ("at least 0.7424\N{NO-BREAK SPACE}in",)
    assert "short projection" in fault.detail
    with pytest.raises(HoleError) as caught:
        spec("1/4-18 NPT", Hole("blind", thickness=inch("0.8")))
    assert caught.value.faults[0].allowed == ("at least 0.8738\N{NO-BREAK SPACE}in",)


def test_words_are_those_of_a_pipe_tap_and_of_its_plug():
    """ANSI/ASME B1.20.1: nobody measures the pitch diameter of a taper thread."""
    found = spec("1/2-14 NPT", Hole("through", thickness=inch("0.75")))
    (tap,), (inspect,) = said(found, "tap"), said(found, "inspect")
    for text in (tap, inspect, *found.headline):
        assert "bottoming" not in text
        assert "pitch diameter" not in text
    assert "chamfer of 2 to 3.5 threads, to the gauge line, tip 0.899 in past the face (12.6 turns at its lead)" in tap
    assert inspect.endswith("L1 taper thread plug, notch flush with the face within 1 turn either way")
    assert found.tap.recommended.chamfer.name == "taper_pipe"
    assert found.headline.gauge.startswith("1/2-14 NPT: L1 taper thread plug, notch flush")
    assert found.headline.depth.startswith("tap to the gauge line, tip 0.899\N{NO-BREAK SPACE}in past the face")


@pytest.mark.parametrize(
    ("thread", "plug"),
    [
        ("1/4-18 NPTF", "and an L3 plug that agrees with it"),
        ("1/4-18 PTF-SAE SHORT", "short L1 taper thread plug"),
        ("1/4-18 ANPT", "SAE AS71051 adds an L3 plug"),
        ("Rc 1/4", "ISO 7-2 taper thread plug"),
        ("Rp 1/4", "ISO 7-2 taper thread plug"),
        ("1/4-18 NPSC", "within 1.5 turns either way"),
    ],
)
def test_each_standard_has_its_own_plug(thread, plug):
    found = spec(thread, Hole("through", thickness=inch("0.75")))
    assert plug in said(found, "inspect")[0]
    assert plug in found.headline.gauge


def test_g_keeps_its_parallel_plugs():
    """ISO 228-2: parallel GO and NOT GO plugs."""
    found = spec("G 1/4", Hole("through", thickness=inch("0.75")))
    assert found.headline.gauge.startswith("G 1/4 GO and NOT GO plugs")


def test_a_coat_is_met_by_turns_past_the_gauge_line():
    """1/2-14 NPT, 0.0002 in a surface: pitch diameter 4 x 0.0002 smaller, 16 x 0.0008 = 0.0128 in or 0.18 turns."""
    coat = FinishInput(thickness=LengthRange(inch("0.0002"), inch("0.0002")))
    found = spec("1/2-14 NPT", Hole("through", thickness=inch("0.75")), finish=coat)
    assert abs(found.depths.tap_travel - Decimal("0.9118")) <= Decimal("0.001")  # limits are rounded to 0.00001 in
    (tap,) = (one.line for one in found.operations if one.line.operation == "tap")
    assert tap.parameters["turns_past_gauge_line"] == pytest.approx(0.18, abs=0.02)
    before, after = said(found, "inspect")
    assert "deeper than for the finished thread" in before
    assert after.endswith("notch flush with the face within 1 turn either way")


@pytest.mark.parametrize("thickness", ["0.75", "1"])
@pytest.mark.parametrize("kind", ["blind", "through"])
def test_pipe_taps_run_at_half_to_three_quarters_of_a_straight_tap(thickness, kind):
    """Common practice: 1/2-14 NPT against 1/2-13 UNC in the same plate."""
    deep = {"full_thread_depth": inch("0.5")} if kind == "blind" else {"thickness": inch(thickness)}
    pipe, straight = (spec(name, Hole(kind, **deep)).process.cutting.tap for name in ("1/2-14 NPT", "1/2-13 UNC-2B"))
    assert 0.5 <= pipe.cutting_speed_m_min / straight.cutting_speed_m_min <= 0.75


def test_a_taper_thread_that_is_milled_needs_no_room_for_a_tap():
    """Rc 4 in a wall: bored straight, taper reamed, milled to the 25.9 mm of JIS B 0203; no tap."""
    found = spec("Rc 4", Hole("through", thickness=Length(Decimal(50), "mm")))
    assert found.tap is None
    assert found.depths.tap_travel == found.depths.full_thread_depth == Decimal("25.9")
    assert found.depths.chamfer_length == 0
    assert "gauge line" not in found.headline.depth
    named = [one.line.operation for one in found.operations]
    assert named.index("drill") < named.index("bore") < named.index("ream") < named.index("thread_mill")


def test_a_size_without_a_listed_tap_says_so():
    """3 1/2 NPT has no row in Table 24a: L1 + L3 + 3.5 threads = 0.821 + 0.25 + 0.4375."""
    found = spec("3 1/2-8 NPT", Hole("through", thickness=inch("3")))
    assert found.depths.tap_travel == Decimal("1.5085")
    assert any("no projection" in text for text in found.thread.notes.assumptions)


@given(
    thread=st.sampled_from(_AMERICAN + _ISO),
    wall_in=st.decimals("0.05", "4", places=3),
    kind=st.sampled_from(["blind", "through"]),
)
def test_no_wall_and_no_depth_moves_the_tap(thread, wall_in, kind):
    """Travel is the thread's own; full thread never exceeds the wall, the depth asked for or what the tap cuts."""
    asked = Length(wall_in, "in")
    hole = Hole("through", thickness=asked) if kind == "through" else Hole("blind", full_thread_depth=asked)
    found = spec(thread, hole)
    assume(found.tap is not None)  # less than a turn is not tapped at all
    depths, pipe = found.depths, found.thread.extra["pipe"]
    assert depths.tap_travel == pipe["tap_travel"]
    assert depths.full_thread_depth <= asked.to(found.thread.unit)
    assert depths.full_thread_depth < depths.tap_travel
    if kind == "blind":
        assert depths.drill_depth > depths.tap_travel - Decimal("0.001")
    short = asked.to(found.thread.unit) < pipe["handtight_engagement"]
    assert not short or "pipe_thread_short" in [one.code for one in found.review]


@pytest.mark.parametrize("thread", [*_AMERICAN, *_ISO])
def test_the_bare_thread_is_gauged_as_its_standard_says(thread):
    found = standards.resolve(callout.read(thread))
    words = gauge_words(found, found.internal.pitch_diameter)
    assert words == found.extra["pipe"]["gauge"]
    assert "plug" in words
