"""Part plans: all tapped holes of a part with the fewest tools."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, current_app, request

from borewright.api.answers import computed, offers, wanted, written
from borewright.api.batch import bounds
from borewright.api.batch.job import CSV, NDJSON, XLSX, XML
from borewright.api.request_body import read_request
from borewright.contract.requests.queries import query_object

if TYPE_CHECKING:
    from borewright.contract.requests.part_plan import PartAsked
    from borewright.core.part.model import PartPlan

blueprint = Blueprint("part_plans", __name__, url_prefix="/v1/part-plans")


@blueprint.post("")
@offers(CSV, XLSX, XML)
def create() -> Response:
    """One plan for all tapped holes of a part; nothing is stored."""
    from borewright.core.part import plan_part  # the first hole does without
    from borewright.solver.part import solved

    query = _query()
    asked = _of_sheet(query) if request.mimetype in (NDJSON, CSV, XLSX) else _of_body(query)
    return _shown(plan_part(asked.request, solved), asked, query.get("table", "operations"))


def _query() -> Mapping[str, Any]:
    from borewright.contract.requests.part_plan import PartPlanQuery

    given = query_object(request.args.items(multi=True), PartPlanQuery)
    PartPlanQuery().read(given)
    return given


def _of_body(query: Mapping[str, Any]) -> PartAsked:
    from borewright.contract.requests.part_plan import MOST_HOLES, PartPlanQuery, body_of_query, part_plan_asked

    return part_plan_asked(body_of_query(query) | read_request(PartPlanQuery(), bounds.values_of(MOST_HOLES)))


def _of_sheet(query: Mapping[str, Any]) -> PartAsked:
    from borewright.api.batch.part_holes import holes
    from borewright.contract.requests.part_plan import body_of_query, part_plan_asked

    found, unread = holes(request.mimetype, bounds.Time(current_app.config["BOREWRIGHT"].max_cpu_ms))
    return part_plan_asked({**body_of_query(query), "holes": found}, unread)


def _shown(plan: PartPlan, asked: PartAsked, table: str) -> Response:
    from borewright.contract.part_plans import part_plan_pieces, part_plan_reply
    from borewright.contract.writers import b2mml_part, part_tables

    form = wanted()
    if form == CSV:
        return written(part_tables.as_csv(part_tables.tables(part_plan_reply(plan, asked))[table]), CSV)
    if form == XLSX:
        return written(part_tables.as_workbook(part_plan_reply(plan, asked)), XLSX)
    if form == XML:
        return written(b2mml_part.part_definition(part_plan_reply(plan, asked)), XML)
    return computed(part_plan_pieces(plan, asked))
