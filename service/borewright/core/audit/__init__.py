"""The audit of a routing: what it plans for a tapped hole, held against thread, finish, hole and part."""

from .audit import audit
from .findings import CODES, AsPlanned, Audit, AuditRequest, Finding, PlannedTap, Severity, Verdict

__all__ = [
    "CODES",
    "AsPlanned",
    "Audit",
    "AuditRequest",
    "Finding",
    "PlannedTap",
    "Severity",
    "Verdict",
    "audit",
]
