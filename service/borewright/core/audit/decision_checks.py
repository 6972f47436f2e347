"""What the specification leaves to a person or warns of holds for a plan of the same hole as well."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.model.decision import Decision

from .case import AuditCase
from .findings import Finding, Severity

#: Decisions about the very drill or tap that the specification takes; another one is judged by the checks on tools.
_ABOUT_DRILL = frozenset({"drill_often_outside", "percent_above_practice"})
#: ... about the depth that it takes itself.
_ABOUT_DEPTH = frozenset({"thin_wall"})
_ABOUT_TAP = frozenset({"tap_often_refused", "tap_made_to_order"})


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on what the hole of ``case`` itself leaves to decide, whichever tools the plan names; cautions are
    remarks.

    Source: as each decision and caution of the specification.
    """
    of_the_way = set(case.spec.way.notes.decisions)
    for decision in case.told.review:
        if decision not in of_the_way and _concerns(case, decision):
            yield _finding(case, decision)
    for caution in case.told.cautions():
        yield Finding("cautioned", "info", "", caution.text, "", caution.code)


def _concerns(case: AuditCase, decision: Decision) -> bool:
    if decision.code in _ABOUT_DEPTH and case.plan.drill_depth is not None:
        return case.plan.drill_depth.to(case.thread.unit) <= case.told.depths.drill_depth
    if decision.code in _ABOUT_DRILL:
        return case.drill == case.best_drill.recommended.drill
    return decision.code not in _ABOUT_TAP or case.is_best_tap


def _finding(case: AuditCase, decision: Decision) -> Finding:
    masked = decision.code == "finish_not_feasible" and "mask" in (case.plan.operations_order or ())
    severity: Severity = "error" if decision.blocks and not masked else "warning"
    return Finding(decision.code, severity, _field(decision), decision.text, "as planned", "as a person decides")


def _field(decision: Decision) -> str:
    """Field of the plan that a decision is on, else of the request."""
    if decision.code in _ABOUT_DRILL:
        return "drill"
    return "tap" if decision.code in _ABOUT_TAP else decision.pointer.strip("/").replace("/", ".")
