"""The reply of an audit, in pieces as it is sent and kept, or read back as an object."""

from __future__ import annotations

from borewright.contract.sections.audit import AuditReply, AuditWithSpecification
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.audit import Audit, AuditRequest

from .replies import hole_spec_pieces, own, parsed
from .requests import Asked
from .unit_view import Json, view


def audit_pieces(audit: Audit, asked: Asked[AuditRequest]) -> Pieces:
    """Reply of POST /v1/hole-specs/audit."""
    spec = audit.specification
    record = AuditWithSpecification(audit, hole_spec_pieces(spec, asked))
    return pieces(reply_texts(AuditReply, record, view(spec.thread.unit, asked.unit), after=own(audit.notes)))


def audit_reply(audit: Audit, asked: Asked[AuditRequest]) -> Json:
    """The audit as an object."""
    return parsed(audit_pieces(audit, asked))
