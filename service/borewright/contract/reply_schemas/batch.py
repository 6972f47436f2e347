"""Schema of the answers to a batch."""

from __future__ import annotations

from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice

from .base import Section, figure, rows, section, text
from .detail import hole_spec
from .service import Problem


class VerdictCounts(ReplySchema):
    """Items by verdict."""

    ready = figure("Items that can go to the shop as they are", "a count", whole=True)
    review = figure("Items that leave something to decide", "a count", whole=True)
    infeasible = figure("Items whose drawing no plan holds", "a count", whole=True)


class ItemCounts(ReplySchema):
    """Items of any batch."""

    items = figure("Items of the batch", "a count", whole=True)
    ok = figure("Items that were answered", "a count", whole=True)
    failed = figure("Items that have a problem", "a count", whole=True)


class BatchSummary(ItemCounts):
    """How a batch went."""

    verdicts = section("Items that were answered, by verdict.", VerdictCounts)


class BatchResult(ReplySchema):
    """The answer to one item."""

    index = figure("Place of the item in the batch", "a count from 0", whole=True)
    id = text("The caller's own name of the hole.", nullable=True)
    status = Choice("ok or error.", ("ok", "error"), required=True)
    spec = hole_spec("The specification, as POST /v1/hole-specs answers it; present when ok.", required=False)
    problem = Section("What is wrong with this item; present when error.", Problem, nullable=False)


class BatchReply(ReplySchema):
    """Reply of POST /v1/hole-specs/batch."""

    summary = section("How the batch went.", BatchSummary)
    results = rows("An answer an item, in order.", BatchResult)
