"""What an audit rests on and tells as a whole: severities are what shops do, no document has them."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap, audit
from borewright.core.model import Hole, Length, MaterialInput
from borewright.core.requests import HoleSpecRequest

from .planned import H5, findings, inch


def test_severities_of_findings_are_common_practice():
    hole = Hole("through", thickness=Length(Decimal("0.5"), "in"))
    plan = AsPlanned("27/64", tap=PlannedTap("1/2-13 NC HSS G H5"))
    found = audit(AuditRequest(HoleSpecRequest(callout.read("1/2-13 UNC-2B"), hole), plan)).notes
    assert [(one.field, one.document, one.status) for one in found.sources] == [
        ("findings", "shop practice", "common_practice")
    ]
    (assumed,) = found.assumptions
    assert "what it does not say is not judged" in assumed


def test_a_plan_is_held_against_a_tap_but_told_what_is_specified():
    """Of a steel told by 62 HRC alone no drill and no tap is planned; the audit says so beside its findings."""
    hole = Hole("through", thickness=Length(Decimal("0.5"), "in"))
    hard = HoleSpecRequest(callout.read("1/2-13 UNC-2B"), hole, material=MaterialInput(hardness="62 HRC"))
    found = audit(AuditRequest(hard, AsPlanned("27/64", tap=PlannedTap("1/2-13 NC HSS G H5"))))
    assert (found.specification.drill, found.specification.tap) == (None, None)


def test_the_worst_finding_comes_first_whatever_is_looked_at_first():
    """The tap is looked at before the depth: its word that is not read is a warning, a hole too shallow an error."""
    blind = Hole("blind", full_thread_depth=inch("0.75"))
    found = findings(hole=blind, tap=f"{H5} QQZ", drill_depth=inch("0.5"))
    assert [row[:2] for row in found] == [("hole_too_shallow", "error"), ("tap_words_unread", "warning")]
