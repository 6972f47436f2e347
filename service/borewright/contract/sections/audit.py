"""The verdict on a plan."""

from __future__ import annotations

from typing import NamedTuple

from borewright.contract import verdicts
from borewright.core.audit import CODES, Audit

from .batch import ItemCounts
from .detail import hole_spec
from .reply import Reply
from .reply_fields import choice, count, rows, section, word
from .reply_fields import text as words_in_units
from .schema import SectionSchema
from .section_text import Pieces
from .service import Problem


class FindingItem(SectionSchema):
    """One remark on a plan. Lengths in its texts are in the units of the reply."""

    code = word(f"Stable code, so far one of: {', '.join(CODES)}.")
    severity = choice("error, warning or info.", ("error", "warning", "info"))
    field = word("Field of `as_planned` that the remark is on; `finish` for that of the request.")
    text = words_in_units("What is wrong, with the arithmetic.")
    planned = words_in_units("What the plan says.")
    expected = words_in_units("What would be right.")


class AuditWithSpecification(NamedTuple):
    """An audit, and the texts of the specification that it held the plan against."""

    audit: Audit
    spec: Pieces


class AuditReply(Reply):
    """Reply of POST /v1/hole-specs/audit."""

    id = word("The caller's own name of the hole.", source="audit.specification.request.id", nullable=True)
    verdict = choice(
        "accept; review where a warning was found; reject where an error was found.",
        verdicts.AUDIT,
        source="audit.verdict",
    )
    findings = rows("Findings, worst first.", FindingItem, source="audit.findings")
    spec = hole_spec("The specification, as POST /v1/hole-specs answers it.")


class AuditResult(SectionSchema):
    """What one item of a batch got: `audit`, or `problem`."""

    index = count("Place of the item", "a count from 0")
    id = word("The caller's own name of the hole.", nullable=True)
    status = choice("ok or error.", ("ok", "error"))
    audit = section("The audit, as POST /v1/hole-specs/audit answers it; present when ok.", AuditReply, present=False)
    problem = section("What is wrong with this item; present when error.", Problem, present=False)


class AuditVerdictCounts(SectionSchema):
    """Plans by verdict."""

    accept = count("Plans that are accepted")
    review = count("Plans that a person must look at")
    reject = count("Plans that are rejected")


class AuditBatchSummary(ItemCounts):
    """How a batch of audits went."""

    verdicts = section("Plans that were judged, by verdict.", AuditVerdictCounts)


class AuditBatchReply(SectionSchema):
    """Reply of POST /v1/hole-specs/audit/batch."""

    summary = section("How the batch went.", AuditBatchSummary)
    results = rows("The results, in the order of the items.", AuditResult)
