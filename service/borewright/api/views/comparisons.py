"""Kept hole specifications beside those of now."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, request

from borewright.api.answers import JSON, computed, offers
from borewright.api.batch.job import CSV, NDJSON, XLSX, Job
from borewright.api.problems import Refusal
from borewright.api.request_body import read_request
from borewright.api.response_cache import Answer
from borewright.api.strict_json import MostValues
from borewright.contract import verdicts
from borewright.contract.requests.queries import NoQuery, OnlyReviewQuery

blueprint = Blueprint("comparisons", __name__, url_prefix="/v1/hole-specs/compare")

#: More than a reply in full, with its steps and a crib of tools, holds: 7,400 objects and lists, 27,000 values.
_OF_KEPT_REPLY = MostValues(16_384, 40_000)


@blueprint.post("")
def compare() -> Response:
    """What differs between a kept specification and the one of now, and why; nothing is stored."""
    return computed(_compared(read_request(NoQuery(), _OF_KEPT_REPLY)).pieces)


def _compared(body: dict[str, Any]) -> Answer:
    from borewright.contract.compare.comparison import compared  # the first hole does without
    from borewright.contract.compare_replies import compare_pieces
    from borewright.contract.requests.compare import compare_asked

    found = compared(compare_asked(body))
    return Answer(found.verdict, compare_pieces(found))


_JOB = Job(
    "compare",
    "comparison",
    verdicts.COMPARISON,
    _compared,
    query=OnlyReviewQuery(),
    of_item=_OF_KEPT_REPLY,
    cost=2,
    kept=False,
)


@blueprint.post("/batch")
@offers(NDJSON)
def compare_many() -> Response:
    """A comparison for each item; nothing is stored."""
    from borewright.api.batch.reply import reply  # the first hole does without

    if request.mimetype in (CSV, XLSX):
        raise Refusal("media_type_unsupported", "A kept reply has no columns: send JSON.", allowed=(JSON, NDJSON))
    return reply(_JOB)
