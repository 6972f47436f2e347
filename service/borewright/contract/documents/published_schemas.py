"""Which schemas are published as documents of their own."""

from __future__ import annotations

from marshmallow import Schema

from borewright.contract import request_schemas as asked
from borewright.contract import sections as shown
from borewright.contract.batch_requests import BatchRequestBody
from borewright.contract.request_schemas_audit import AuditBatchBody, AuditRequestBody
from borewright.contract.sections.batch import BatchReply

#: Published schemas by name.
PUBLISHED: dict[str, type[Schema]] = {
    "hole-spec-request": asked.HoleSpecRequestBody,
    "hole-spec-reply": shown.HoleSpecReply,
    "hole-spec-figures-reply": shown.HoleSpecFigures,
    "hole-spec-routing-reply": shown.HoleSpecRouting,
    "batch-request": BatchRequestBody,
    "batch-reply": BatchReply,
    "audit-request": AuditRequestBody,
    "audit-reply": shown.AuditReply,
    "audit-batch-request": AuditBatchBody,
    "audit-batch-reply": shown.AuditBatchReply,
    "thread-request": asked.ThreadRequest,
    "thread-reply": shown.ThreadReply,
    "drill-request": asked.DrillRequestBody,
    "drill-reply": shown.DrillReply,
    "allowance-request": asked.AllowanceRequestBody,
    "allowance-reply": shown.AllowanceReply,
    "tap-request": asked.TapRequestBody,
    "tap-reply": shown.TapReply,
    "tap-decode-request": asked.TapDecodeRequest,
    "tap-decode-reply": shown.TapDecodeReply,
    "thread-catalog-reply": shown.ThreadCatalogReply,
    "catalogue-reply": shown.CatalogueReply,
    "version-reply": shown.VersionReply,
    "health-reply": shown.HealthReply,
    "problem": shown.Problem,
}
