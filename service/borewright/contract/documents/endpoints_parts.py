"""The endpoints for the holes of a whole part, as the OpenAPI document describes them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import orjson

from borewright.contract.part_plans import part_plan_reply
from borewright.contract.requests.part_plan import PartPlanBody, PartPlanQuery, part_plan_asked
from borewright.contract.sections.part_plan import PartPlanReply
from borewright.contract.writers import b2mml_elements, b2mml_part, part_tables, workbook
from borewright.core.part import plan_part
from borewright.solver.part import PartSolver

from .endpoints import Endpoint

#: A valve block of Kestrel Ridge Pumps.
PART_PLAN: Mapping[str, dict[str, Any]] = {
    "valve_block": {
        "part": "KRP-5120",
        "defaults": {"material": "6061-T6"},
        "lot_size": 40,
        "holes": [
            {"id": "C1", "thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.5}, "count": 8},
            {"id": "C2", "thread": "1/4-20 UNC-3B", "hole": {"type": "blind", "full_thread_depth": 0.375}, "count": 4},
            {"id": "P1", "thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.75}},
        ],
        "detail": "routing",
    }
}


def _part_plan() -> Mapping[str, Any]:
    asked = part_plan_asked(PART_PLAN["valve_block"])
    return part_plan_reply(plan_part(asked.request, PartSolver()), asked)


def _part_plan_csv() -> str:
    return part_tables.as_csv(part_tables.tables(_part_plan())["operations"]).decode()


def _part_plan_b2mml() -> str:
    return b2mml_part.part_definition(_part_plan()).decode()


PARTS: tuple[Endpoint, ...] = (
    Endpoint(
        "post",
        "/v1/part-plans",
        "createPartPlan",
        "part plans",
        "Plan all tapped holes of a part",
        "The holes come as JSON, or with what is said of the part in the query as a line a hole"
        " (`application/x-ndjson`), as CSV or as a workbook (.xlsx), their columns those of POST /v1/hole-specs/batch"
        " and `count`. `Accept: text/csv` gives the operations, once a tool with their holes and between the"
        " set-ups what is done away from the spindle, or another `table`; a"
        " workbook has tools, operations, holes, changes and what is to be decided on a sheet each;"
        " `Accept: application/xml` gives an OperationsDefinition of B2MML (ISA-95): a segment to set up with the tools"
        " and gauges and the materials, then one a loading and one for each thing done away from the spindle. "
        "The fewest distinct tools for all holes, then the least loss of acceptance, as an exact optimum with its"
        " proof; which holes are made with other tools than by themselves and what that costs each; the order with the"
        " fewest loadings of tools, times, what the setter lays out, and the specification of every hole. No hole"
        " leaves its limits, its least acceptance or its reach for the sake of a tool, and none gets a decision more"
        " than by itself. A hole that cannot be specified is named in `refused`, the others are planned. The call only"
        " computes: nothing is stored.",
        PartPlanReply,
        _part_plan,
        query=PartPlanQuery,
        request=PartPlanBody,
        request_examples=PART_PLAN,
        other_requests={
            "application/x-ndjson": orjson.dumps(PART_PLAN["valve_block"]["holes"][0]).decode() + "\n",
            "text/csv": "id,thread,hole.type,hole.full_thread_depth,count\r\nC1,1/4-20 UNC-2B,blind,0.5,8\r\n",
        },
        other_replies={"text/csv": _part_plan_csv, b2mml_elements.MEDIA_TYPE: _part_plan_b2mml},
        binary_requests=(workbook.MEDIA_TYPE,),
        binary_replies=(workbook.MEDIA_TYPE,),
    ),
)
