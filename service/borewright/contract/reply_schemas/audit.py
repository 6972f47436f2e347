"""Schema of the verdict on a plan."""

from __future__ import annotations

from borewright.contract import verdicts
from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice
from borewright.core.audit import CODES

from .base import Reply, Section, figure, rows, section
from .base import text as words
from .batch import ItemCounts
from .detail import hole_spec
from .service import Problem


class FindingItem(ReplySchema):
    """One remark on a plan. Lengths in its texts are in the units of the reply."""

    code = words(f"Stable code, so far one of: {', '.join(CODES)}.")
    severity = Choice("error, warning or info.", ("error", "warning", "info"), required=True)
    field = words("Field of `as_planned` that the remark is on; `finish` for that of the request.")
    text = words("What is wrong, with the arithmetic.")
    planned = words("What the plan says.")
    expected = words("What would be right.")


class AuditReply(Reply):
    """Reply of POST /v1/hole-specs/audit."""

    id = words("The caller's own name of the hole.", nullable=True)
    verdict = Choice(
        "accept; review where a warning was found; reject where an error was found.",
        verdicts.AUDIT,
        required=True,
    )
    findings = rows("Findings, worst first.", FindingItem)
    spec = hole_spec("The specification, as POST /v1/hole-specs answers it.", required=True)


class AuditResult(ReplySchema):
    """What one item of a batch got: `audit`, or `problem`."""

    index = figure("Place of the item", "a count from 0", whole=True)
    id = words("The caller's own name of the hole.", nullable=True)
    status = Choice("ok or error.", ("ok", "error"), required=True)
    audit = Section("The audit, as POST /v1/hole-specs/audit answers it; present when ok.", AuditReply, nullable=False)
    problem = Section("What is wrong with this item; present when error.", Problem, nullable=False)


class AuditVerdictCounts(ReplySchema):
    """Plans by verdict."""

    accept = figure("Plans that are accepted", "a count", whole=True)
    review = figure("Plans that a person must look at", "a count", whole=True)
    reject = figure("Plans that are rejected", "a count", whole=True)


class AuditBatchSummary(ItemCounts):
    """How a batch of audits went."""

    verdicts = section("Plans that were judged, by verdict.", AuditVerdictCounts)


class AuditBatchReply(ReplySchema):
    """Reply of POST /v1/hole-specs/audit/batch."""

    summary = section("How the batch went.", AuditBatchSummary)
    results = rows("The results, in the order of the items.", AuditResult)
