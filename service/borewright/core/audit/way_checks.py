"""Whether the hole is one to drill and tap at all: hardness, engagement and size, as the specification decides them."""

from __future__ import annotations

from collections.abc import Iterator

from .case import AuditCase
from .findings import Finding, Severity


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on a plan, that of ``case``, that drills and taps what the specification would make in another way, or
    not at all.

    Source: thresholds of way_of_making (common practice).
    """
    for decision in case.spec.way.notes.decisions:
        severity: Severity = "error" if decision.blocks else "warning"
        planned = f"{case.plan.drill}, {case.tap.text if case.tap is not None else 'tap'}"
        yield Finding("not_to_be_tapped", severity, decision.pointer, decision.text, planned, "as decided")
