"""Which schemas are published as documents of their own."""

from __future__ import annotations

from marshmallow import Schema

from borewright.contract.requests import bodies
from borewright.contract.requests.audit import AuditBatchBody, AuditRequestBody
from borewright.contract.requests.batch import BatchRequestBody
from borewright.contract.requests.compare import CompareBatchBody, CompareRequestBody
from borewright.contract.requests.note import NoteRequestBody
from borewright.contract.requests.part_plan import PartPlanBody
from borewright.contract.requests.rework import ReworkBatchBody, ReworkBody
from borewright.contract.requests.shop_figures_fit import FitRequestBody
from borewright.contract.sections.batch import BatchReply, SheetReadReply
from borewright.contract.sections.compare import CompareBatchReply, CompareReply
from borewright.contract.sections.notes import NoteReply
from borewright.contract.sections.part_plan import PartPlanReply
from borewright.contract.sections.rework import ReworkReply
from borewright.contract.sections.rework_batch import ReworkBatchReply
from borewright.contract.sections.shop_figures import ShopFiguresReply

from . import reply_schemas as shown

#: Published schemas by name.
PUBLISHED: dict[str, type[Schema]] = {
    "hole-spec-request": bodies.HoleSpecRequestBody,
    "hole-spec-reply": shown.HoleSpecReply,
    "hole-spec-figures-reply": shown.HoleSpecFigures,
    "hole-spec-routing-reply": shown.HoleSpecRouting,
    "batch-request": BatchRequestBody,
    "batch-reply": BatchReply,
    "audit-request": AuditRequestBody,
    "audit-reply": shown.AuditReply,
    "audit-batch-request": AuditBatchBody,
    "audit-batch-reply": shown.AuditBatchReply,
    "compare-request": CompareRequestBody,
    "compare-reply": CompareReply,
    "compare-batch-request": CompareBatchBody,
    "compare-batch-reply": CompareBatchReply,
    "part-plan-request": PartPlanBody,
    "part-plan-reply": PartPlanReply,
    "rework-request": ReworkBody,
    "rework-reply": ReworkReply,
    "rework-batch-request": ReworkBatchBody,
    "rework-batch-reply": ReworkBatchReply,
    "sheet-read-reply": SheetReadReply,
    "shop-figures-request": FitRequestBody,
    "shop-figures-reply": ShopFiguresReply,
    "thread-request": bodies.ThreadRequest,
    "thread-reply": shown.ThreadReply,
    "drill-request": bodies.DrillRequestBody,
    "drill-reply": shown.DrillReply,
    "allowance-request": bodies.AllowanceRequestBody,
    "allowance-reply": shown.AllowanceReply,
    "tap-request": bodies.TapRequestBody,
    "tap-reply": shown.TapReply,
    "tap-decode-request": bodies.TapDecodeRequest,
    "tap-decode-reply": shown.TapDecodeReply,
    "note-request": NoteRequestBody,
    "note-reply": NoteReply,
    "thread-catalog-reply": shown.ThreadCatalogReply,
    "catalogue-reply": shown.CatalogueReply,
    "version-reply": shown.VersionReply,
    "health-reply": shown.HealthReply,
    "problem": shown.Problem,
}
