"""Depths of a 1/4-18 NPT hole reckoned by hand, each branch and both sides of each boundary.

A tap projects 0.6868 in (L1 = 0.2278 of ANSI/ASME B1.20.1 Table 2 and 0.459 of ANSI/ASME B94.9 Table 24a) and has 2 to
3.5 threads of chamfer; P = 1/18 in. The point of a 118 degree drill of 7/16 is 0.30043 x 0.4375 = 0.131438 in long.
L1 + L3 = 0.3945 in is the useful thread.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from borewright.core import callout, standards
from borewright.core.errors import HoleError
from borewright.core.hole import taper_pipe_depths
from borewright.core.model import Hole, Length, TapChamfer
from borewright.core.model.holes import Counterbore
from every import every

CHAMFER = TapChamfer("taper_pipe", Decimal(2), Decimal("3.5"))


def inch(value):
    return None if value is None else Length(Decimal(value), "in")


def build(kind="blind", *, full="0.5", wall=None, limit=None, bore=None, past="0", milled=False):
    hole = Hole(
        kind,
        full_thread_depth=inch(full),
        thickness=inch(wall),
        drill_depth_limit=inch(limit),
        counterbore=None if bore is None else Counterbore(inch("0.8"), inch(bore)),
    )
    return taper_pipe_depths.build(
        standards.resolve(callout.read("1/4-18 NPT")),
        hole,
        full=Decimal(full),
        drill_diameter=Decimal("0.4375"),
        chamfer=None if milled else CHAMFER,
        clearance=Decimal("0.05"),
        past=Decimal(past),
    )


@every(
    ("asked", "drilled", "tip", "travel", "full", "through", "left"),
    [
        ({}, "0.737", "0.868", "0.6868", "0.5", None, None),
        ({"past": "0.02"}, "0.757", "0.888", "0.7068", "0.5", None, None),
        ({"bore": "0.1", "full": "0.6"}, "0.837", "0.968", "0.7868", "0.6", None, None),
        ({"wall": "1"}, "0.737", "0.868", "0.6868", "0.5", None, "0.132"),
        # through a wall the point and the clearance come out below it
        ({"kind": "through", "wall": "0.75"}, "0.750", "0.931", "0.6868", "0.5", "0.182", None),
        ({"milled": True}, "0.550", "0.681", "0.5000", "0.5", None, None),
    ],
)
def test_depths(asked, drilled, tip, travel, full, through, left):
    found = build(**asked)
    assert (str(found.drill_depth), str(found.drill_tip_depth)) == (drilled, tip)
    assert (str(found.tap_travel), found.full_thread_depth) == (travel, Decimal(full))
    assert str(found.chamfer_length) == ("0.000" if asked.get("milled") else "0.194")
    assert [None if one is None else str(one) for one in (found.breakthrough, found.wall_left)] == [through, left]


def test_derivation():
    steps = {step.quantity: step for step in build(past="0.02").notes.steps}
    assert steps["tap_travel"].inputs == {"to_gauge_line": Decimal("0.6868"), "past": Decimal("0.02")}
    assert steps["drill_depth"].inputs == {"travel": Decimal("0.7068"), "clearance": Decimal("0.05")}
    assert steps["drill_depth"].formula == "travel + clearance"
    assert float(steps["drill_tip_depth"].inputs["below"]) == pytest.approx(0.131438, abs=1e-6)
    assert float(steps["drill_tip_depth"].value) == pytest.approx(0.888238, abs=1e-6)
    assert float(steps["chamfer_length"].inputs["chamfer_threads"]) == pytest.approx(3.5, abs=1e-6)
    through = {step.quantity: step for step in build("through", wall="0.75").notes.steps}
    assert through["drill_depth"].formula == "thickness"
    assert through["drill_depth"].inputs == {"thickness": Decimal("0.75")}
    milled = {step.quantity: step for step in build(milled=True, past="0.02").notes.steps}
    assert milled["tap_travel"].inputs == {"to_gauge_line": Decimal("0.5"), "past": 0}


@every(
    ("full", "bore", "codes", "said"),
    [
        ("0.2277", None, ["pipe_thread_short"], "The full thread of 0.2277 in is less than the 0.2278 in"),
        ("0.2278", None, ["pipe_makeup_short"], "0.2278 in of thread are less than 0.3945 in"),
        ("0.3944", None, ["pipe_makeup_short"], "0.3944 in of thread are less than 0.3945 in"),
        ("0.3945", None, [], ""),
        # 3.5 threads of chamfer leave 0.6868 - 0.1944 = 0.4924 in that are full behind any tap, 2 threads 0.5757
        ("0.4923", None, [], ""),
        ("0.5", None, ["run_out_short"], "The last 0.0076 in of full thread are full only behind"),
        ("0.6", "0.1", ["run_out_short"], "The last 0.0076 in of full thread are full only behind"),
        ("0.5756", None, ["run_out_short"], "The last 0.0832 in of full thread"),
        ("0.5757", None, ["pipe_thread_deep"], "0.5757 in of full thread are more than a tap at size can cut"),
        ("0.6757", "0.1", ["pipe_thread_deep"], "0.5757 in of full thread are more than"),
        ("0.3277", "0.1", ["pipe_thread_short"], "The full thread of 0.2277 in is less than the 0.2278 in"),
    ],
)
def test_what_is_said_of_the_thread(full, bore, codes, said):
    notes = build(full=full, bore=bore).notes
    told = (*notes.decisions, *notes.cautions)
    assert [one.code for one in told] == codes
    assert said in " ".join(one.text for one in told).replace("\N{NO-BREAK SPACE}", " ")


@every(("wall", "thin"), [("0.9237", True), ("0.9239", False)])
def test_less_than_a_pitch_of_wall_is_thin(wall, thin):
    """The tip is 0.868238 in deep, a pitch is 0.055556 in."""
    assert ("thin_wall" in [one.code for one in build(full="0.45", wall=wall).notes.cautions]) is thin


@every(
    ("asked", "code", "allowed"),
    [
        ({"limit": "0.7368"}, "", ()),
        ({"limit": "0.7367"}, "drill_depth_limit_too_shallow", ("at least 0.7368 in",)),
        ({"limit": "0.5"}, "drill_depth_limit_too_shallow", ("at least 0.7368 in",)),
        ({"limit": "0.4999"}, "thread_deeper_than_hole", ()),
        ({"limit": "0.4999", "wall": "1.5"}, "thread_deeper_than_hole", ()),
        ({"wall": "0.8683"}, "", ()),
        ({"wall": "0.8682"}, "drill_depth_limit_too_shallow", ("at least 0.8682 in",)),
    ],
)
def test_what_the_hole_must_have(asked, code, allowed):
    if not code:
        assert build(**asked).drill_depth == Decimal("0.737")
        return
    with pytest.raises(HoleError) as refused:
        build(**asked)
    (fault,) = refused.value.faults
    assert fault.code == code
    assert tuple(one.replace("\N{NO-BREAK SPACE}", " ") for one in fault.allowed) == allowed
    if code == "drill_depth_limit_too_shallow":
        assert "runs 0.6868\N{NO-BREAK SPACE}in past the face" in fault.detail
