"""The endpoints that hold kept specifications against those of now, as the OpenAPI document describes them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.contract import verdicts
from borewright.contract.compare.comparison import compared
from borewright.contract.compare_replies import compare_reply
from borewright.contract.requests import queries
from borewright.contract.requests.compare import CompareBatchBody, CompareRequestBody, compare_asked
from borewright.contract.sections.compare import CompareBatchReply, CompareReply

from . import examples
from .endpoints import Endpoint

_HOLE = examples.HOLE_SPEC["plated_blind"]
#: What a routing of Kestrel Ridge Pumps has kept of a hole since an earlier version.
_KEPT = {
    "id": "KRP-4105-D1",
    "spec_id": "5d0e7c1b9a3f42688c17de90ab3457f6",
    "verdict": "ready",
    "operations": [
        {"sequence": 10, "operation": "drill", "tool": {"label": "5/16"}, "text": "Drill 5/16, 0.94 in deep"},
        {"sequence": 20, "operation": "tap", "tool": {"marking": "3/8-16 NC HSS G H5"}, "text": "Tap, 0.75 in deep"},
    ],
    "tables_version": "8a1f03c2d4b6",
    "rules_version": "b2c4d6e8f0a1",
}
COMPARE: Mapping[str, dict[str, Any]] = {
    "deeper_thread": {
        "before": {"request": _HOLE, "spec_id": _KEPT["spec_id"]},
        "after": {**_HOLE, "hole": {"type": "blind", "full_thread_depth": 0.875}},
    },
    "after_an_upgrade": {"before": {"request": _HOLE, "reply": _KEPT}},
}
COMPARE_BATCH: Mapping[str, dict[str, Any]] = {"routing": {"items": list(COMPARE.values())}}


def _compare(body: Mapping[str, Any] = COMPARE["deeper_thread"]) -> Mapping[str, Any]:
    return compare_reply(compared(compare_asked(body)))


def _compare_batch() -> Mapping[str, Any]:
    found = [_compare(item) for item in COMPARE.values()]
    results = [{"index": i, "id": None, "status": "ok", "comparison": one} for i, one in enumerate(found)]
    counts = {verdict: [one["verdict"] for one in found].count(verdict) for verdict in verdicts.COMPARISON}
    return {"summary": {"items": len(found), "ok": len(found), "failed": 0, "verdicts": counts}, "results": results}


COMPARISONS: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/hole-specs/compare",
        "compareHoleSpec",
        "hole specifications",
        "Compare a kept specification with the one of now",
        "What a new version of the service, a new table or another request changes in a specification that was kept:"
        " field by field with both values, the causes as far as `spec_id`, `tables_version` and `rules_version` tell"
        " them apart, and whether it matters: a tool, depth, limit, gauge, operation, decision or caution, not words,"
        " sources and versions. What was kept is compared in its own detail and units, by what it has; a reply of an"
        " older version may lack fields or have others. Keep the request with the reply: a reply does not say what was"
        " asked. The call only computes: nothing is stored, and asking again gives the same answer.",
        CompareReply,
        _compare,
        query=queries.NoQuery,
        request=CompareRequestBody,
        request_examples=COMPARE,
    ),
    Endpoint(
        "post",
        "/v1/hole-specs/compare/batch",
        "compareHoleSpecs",
        "hole specifications",
        "Compare a kept routing after an upgrade",
        "As POST /v1/hole-specs/compare for many holes, answered in order; one bad item never spoils the rest. As"
        " `application/x-ndjson` each line is an item, and each line of the answer a result, streamed. The call only"
        " computes: nothing is stored, and asking again gives the same answer.",
        CompareBatchReply,
        _compare_batch,
        query=queries.OnlyReviewQuery,
        request=CompareBatchBody,
        request_examples=COMPARE_BATCH,
    ),
)
