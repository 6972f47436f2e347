"""The verdict on a plan with its findings and the specification they were held against."""

from __future__ import annotations

from dataclasses import replace

from ...core.audit import Audit, AuditRequest, Finding
from ..reading import Asked
from ..unit_view import Json, view
from .hole_spec import hole_spec_reply
from .parts import close, part


def audit_reply(audit: Audit, asked: Asked[AuditRequest]) -> Json:
    """Reply of POST /v1/hole-specs/audit."""
    spec = hole_spec_reply(audit.specification, replace(asked, request=asked.request.hole_spec))  # type: ignore[arg-type]
    body: Json = {
        "id": audit.specification.request.id,
        "verdict": audit.verdict,
        "findings": [_finding(finding) for finding in audit.findings],
        "spec": spec,
    }
    return close(body, [part({}, audit.notes)], view(audit.specification.thread.unit, asked.unit))


def _finding(finding: Finding) -> Json:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "field": finding.field,
        "text": finding.text,
        "planned": finding.planned,
        "expected": finding.expected,
    }
