"""The endpoint for holes that went wrong, as the OpenAPI document describes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import orjson

from borewright.contract import verdicts
from borewright.contract.requests.csv_columns import COLUMNS
from borewright.contract.requests.queries import ReworkBatchQuery
from borewright.contract.requests.rework import ReworkBatchBody, ReworkBody, rework_asked
from borewright.contract.requests.rework_columns import REWORK_COLUMNS, REWORK_OUTPUT
from borewright.contract.rework_reply import rework_reply
from borewright.contract.sections.rework import ReworkReply
from borewright.contract.sections.rework_batch import ReworkBatchReply
from borewright.core.rework import rework

from .endpoints import Endpoint, listed

#: Holes of Kestrel Ridge Pumps: a pump housing whose thread was stripped, a valve block that GO refuses after plating.
REWORK: Mapping[str, dict[str, Any]] = {
    "stripped_in_a_pump_housing": {
        "id": "KRP-4105-D1",
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75, "thickness": 1.25},
        "material": "6061-T6",
        "found": {"condition": "stripped", "edge_distance": 0.5},
    },
    "go_refused_after_zinc": {
        "id": "KRP-5120-C2",
        "thread": "1/4-20 UNC-2B",
        "hole": {"type": "through", "thickness": 0.5},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
        "found": {
            "condition": "go_does_not_enter",
            "stage": "after_finish",
            "measured": {"pitch_diameter": 0.2168},
        },
    },
}


_STRIPPED = REWORK["stripped_in_a_pump_housing"]
#: The same hole as a row of a sheet.
_ROW = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole.type": "blind",
    "hole.full_thread_depth": "0.75",
    "hole.thickness": "1.25",
    "material": "6061-T6",
    "found.condition": "stripped",
    "found.edge_distance": "0.5",
}


def _rework() -> Mapping[str, Any]:
    asked = rework_asked(_STRIPPED)
    return rework_reply(rework(asked.asked.request), asked)


def _result() -> dict[str, Any]:
    return {"index": 0, "id": _STRIPPED["id"], "status": "ok", "rework": _rework()}


def _rework_batch() -> Mapping[str, Any]:
    result = _result()
    first = result["rework"]["ways"][0]["disposition"]
    counts = {verdict: int(verdict == first) for verdict in verdicts.REWORK}
    return {"summary": {"items": 1, "ok": 1, "failed": 0, "verdicts": counts}, "results": [result]}


REWORKED: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/rework",
        "findRework",
        "rework",
        "Find every way to go on with a hole that went wrong",
        "A hole specification and what was found: drilled or tapped oversize, refused by GO, too shallow, the wrong"
        " thread, stripped, crossed, or with a broken tap in it. Every way comes with its arithmetic (does the new"
        " thread cut the old one away, what strength and what wall is left), its operations, the disposition that is"
        " proposed and who decides it; the ways that are none come with the reason. Nothing is accepted here: use as it"
        " is, repair and scrap always need their authority, and on flight, pressure, lifting and safety hardware only"
        " what brings the part back to its drawing is listed. Figures that contradict the condition are refused. The"
        " call only computes: nothing is stored.",
        ReworkReply,
        _rework,
        request=ReworkBody,
        request_examples=REWORK,
    ),
    Endpoint(
        "post",
        "/v1/rework/batch",
        "findReworks",
        "rework",
        "Find the ways for many holes that went wrong",
        "As POST /v1/rework for many holes, answered in order; one bad item never spoils the rest. One JSON document,"
        " `application/x-ndjson` with an item a line, `text/csv` or a workbook (.xlsx) with a hole a row, read as POST"
        " /v1/hole-specs/batch reads them; answered as JSON, lines, or CSV with the way that is proposed first and the"
        " names of the others. Columns that are read, beside those of POST /v1/hole-specs/batch: "
        + listed({name: column.meaning for name, column in REWORK_COLUMNS.items() if name not in COLUMNS})
        + ". Columns that are written: "
        + listed(REWORK_OUTPUT)
        + ". The call only computes: nothing is stored.",
        ReworkBatchReply,
        _rework_batch,
        query=ReworkBatchQuery,
        request=ReworkBatchBody,
        request_examples={"two_holes": {"items": list(REWORK.values())}},
        other_requests={
            "application/x-ndjson": orjson.dumps(_STRIPPED).decode() + "\n",
            "text/csv": "\r\n".join((",".join(_ROW), ",".join(_ROW.values()), "")),
        },
        other_replies={
            "application/x-ndjson": lambda: orjson.dumps(_result()).decode() + "\n",
            "text/csv": lambda: ",".join(REWORK_OUTPUT) + "\r\n",
        },
    ),
)
