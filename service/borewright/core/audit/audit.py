"""The audit: the hole is specified, the plan is read, and each check adds its findings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from borewright.core import finishing
from borewright.core.model import Notes, Source
from borewright.core.plan.specify import specify, specify_as_tapped

from . import (
    decision_checks,
    depth_checks,
    drill_checks,
    order_checks,
    speed_checks,
    tap_build_checks,
    tap_checks,
    tap_limits,
    way_checks,
)
from .case import AuditCase
from .findings import Audit, AuditRequest, Finding, Verdict
from .planned_tools import read_drill, read_tap

_CHECKS: tuple[Callable[[AuditCase], Iterable[Finding]], ...] = (
    way_checks.check,
    decision_checks.check,
    drill_checks.check,
    tap_checks.check,
    tap_limits.check,
    tap_build_checks.check,
    depth_checks.check,
    speed_checks.check,
    order_checks.check,
)
_RANK = {"error": 0, "warning": 1, "info": 2}
_SOURCES = (
    Source("findings", "shop practice", "", "severity of a finding; percent of thread by material", "common_practice"),
)
_ASSUMED = (
    "the plan is judged by the limits, tables and practice of the specification; what it does not say is not judged"
)


def audit(request: AuditRequest) -> Audit:
    """What the routing of ``request`` plans for its hole, checked.

    Returns: verdict, findings (worst first), the specification they were held against.
    Raises: BorewrightError when the hole itself cannot be specified, as :func:`specify` does.
    Source: as the specification; severities are common practice.
    """
    told, spec = specify(request.hole_spec), specify_as_tapped(request.hole_spec)
    plan, refused = request.as_planned, list[Finding]()
    tap = read_tap(spec.thread, plan.tap, "tap", refused)
    second = None if plan.second_tap is None else read_tap(spec.thread, plan.second_tap, "second_tap", refused)
    case = AuditCase(spec, told, plan, finishing.limits_to_make(spec.thread, spec.allowance), None, tap, second)
    drill = read_drill(spec.thread, plan.drill, case.best_drill.recommended.drill, refused)
    case = replace(case, drill=drill)
    findings = tuple(sorted((*refused, *_findings(case)), key=lambda finding: _RANK[finding.severity]))
    notes = Notes(assumptions=(_ASSUMED,), sources=_SOURCES)
    return Audit(_verdict(findings), findings, told, notes)


def _findings(case: AuditCase) -> Iterator[Finding]:
    for check in _CHECKS:
        yield from check(case)


def _verdict(findings: tuple[Finding, ...]) -> Verdict:
    severities = {finding.severity for finding in findings}
    if "error" in severities:
        return "reject"
    return "review" if "warning" in severities else "accept"
