"""The verdict on a plan with its findings and the specification they were held against."""

from __future__ import annotations

from dataclasses import replace

from borewright.contract.reading import Asked
from borewright.contract.unit_view import Json, UnitView, view
from borewright.core.audit import Audit, AuditRequest, Finding

from .hole_spec import hole_spec_reply
from .parts import close, part


def audit_reply(audit: Audit, asked: Asked[AuditRequest]) -> Json:
    """Reply of POST /v1/hole-specs/audit."""
    spec = hole_spec_reply(audit.specification, replace(asked, request=asked.request.hole_spec))  # type: ignore[arg-type]
    figures = view(audit.specification.thread.unit, asked.unit)
    body: Json = {
        "id": audit.specification.request.id,
        "verdict": audit.verdict,
        "findings": [_finding(finding, figures) for finding in audit.findings],
        "spec": spec,
    }
    return close(body, [part({}, audit.notes)], figures)


def _finding(finding: Finding, figures: UnitView) -> Json:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "field": finding.field,
        "text": figures.text(finding.text),
        "planned": figures.text(finding.planned),
        "expected": figures.text(finding.expected),
    }
