"""What the specification leaves to a person is left for a plan too, unless it is about a tool that is not taken."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import FinishInput, Hole, Length, MaterialInput
from borewright.core.plan.specify import specify_as_tapped
from borewright.core.requests import HoleSpecRequest
from every import every

from .planned import H5, THROUGH, UNC


def decided(request, drill="27/64", tap=H5, **planned):
    found = audit(AuditRequest(request, AsPlanned(drill, PlannedTap(tap), **planned)))
    said = [(one.code, one.severity, one.field) for one in found.findings if one.expected == "as a person decides"]
    return said, found.verdict


@every("tap", [H5, "1/2-13 NC HSS G H3", "1/2-13 NC HSS-E G H7"])
def test_a_finish_that_is_prohibited_stays_so_with_any_tap(tap):
    """Cadmium on steel of 44 HRC: QQ-P-416F 3.2.1."""
    cadmium = {"material": MaterialInput("4140 at 44 HRC"), "finish": FinishInput(text="QQ-P-416 Class 2")}
    said, _ = decided(HoleSpecRequest(callout.read(UNC), THROUGH, **cadmium), tap=tap)
    assert ("finish_prohibited", "warning", "finish") in said


def test_a_coat_that_leaves_no_room_is_refused_unless_the_plan_masks_the_thread():
    """0.01 in of plate takes 0.04 in of the pitch diameter."""
    thick = {"finish": FinishInput(text="zinc plate 0.01 in", masked=False)}
    request = HoleSpecRequest(callout.read(UNC), THROUGH, **thick)
    for order, severity in ((None, "error"), (("drill", "tap", "finish"), "error"),
                            (("drill", "tap", "mask", "finish"), "warning")):  # fmt: skip
        said, verdict = decided(request, operations_order=order)
        assert ("finish_not_feasible", severity, "finish") in said
        assert verdict == ("reject" if severity == "error" else "review")


def test_a_thin_wall_is_decided_for_a_depth_as_deep_as_the_specification_s():
    """M8 in a wall that leaves 1 mm below the point, less than a pitch, of the depth that the specification takes."""
    free = specify_as_tapped(HoleSpecRequest(callout.read("M8"), Hole("blind", full_thread_depth=_mm("10"))))
    wall = free.depths.drill_depth + Decimal("2.043") + 1
    request = HoleSpecRequest(callout.read("M8"), Hole("blind", full_thread_depth=_mm("10"), thickness=_mm(wall)))
    own = specify_as_tapped(request).depths.drill_depth
    codes = {one.code for one in audit(AuditRequest(request, AsPlanned("6.8 mm", PlannedTap("M8x1.25 HSS G D5"),
                                                                       drill_depth=_mm(own)))).findings}  # fmt: skip
    assert "wall_thin" not in codes  # it is the decision already
    for planned, told in ((None, True), (own, True), (own - 1, True), (own + Decimal("0.001"), False)):
        depth = {} if planned is None else {"drill_depth": _mm(planned)}
        said, _ = decided(request, drill="6.8 mm", tap="M8x1.25 HSS G D5", **depth)
        assert ("thin_wall" in {code for code, _, _ in said}) is told, planned


def _mm(value):
    return Length(Decimal(value), "mm")


@every(
    ("drill", "tap", "verdict"),
    [("27/64", H5, "accept"), ("27/64", "1/2-13 NC HSS G H12", "review"), ("7/16", H5, "reject"),
     ("7/16", "1/2-13 NC HSS G H12", "reject")],
)  # fmt: skip
def test_the_worst_finding_makes_the_verdict(drill, tap, verdict):
    assert decided(HoleSpecRequest(callout.read(UNC), THROUGH), drill, tap)[1] == verdict


@every(
    "tap",
    [PlannedTap("1/2-13 NC HSS G"), PlannedTap("no such tap"), PlannedTap(H5)],
)
def test_a_tap_that_is_made_to_order_is_no_matter_of_another_one(tap):
    """0.0011 in of plate, 0.00165 in at most, take 0.0066 in: what no list holds."""
    request = HoleSpecRequest(callout.read(UNC), THROUGH, finish=FinishInput(text="zinc plate 0.0011 in"))
    assert "tap_made_to_order" in {one.code for one in specify_as_tapped(request).review}
    found = audit(AuditRequest(request, AsPlanned("27/64", tap))).findings
    assert "tap_made_to_order" not in {one.code for one in found}
