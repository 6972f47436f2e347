"""Part plans: all tapped holes of a part with the fewest tools."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from flask import Blueprint, Response, current_app, request

from borewright.api.answers import JSON, computed, offers, wanted, written
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
    from borewright.solver.part import PartSolver

    query, time = _query(), bounds.Time(current_app.config["BOREWRIGHT"].max_cpu_ms)
    asked = _of_sheet(query, time) if request.mimetype in (NDJSON, CSV, XLSX) else _of_body(query, time)
    plan = plan_part(asked.request, PartSolver(time), time)
    return _shown(plan, asked, query.get("table", "operations"), time)


def _query() -> Mapping[str, Any]:
    from borewright.contract.requests.part_plan import PartPlanQuery

    given = query_object(request.args.items(multi=True), PartPlanQuery)
    PartPlanQuery().read(given)
    return given


def _of_body(query: Mapping[str, Any], time: bounds.Time) -> PartAsked:
    from borewright.contract.requests.part_plan import MOST_HOLES, PartPlanQuery, body_of_query, part_plan_asked

    body = read_request(PartPlanQuery(), bounds.values_of(MOST_HOLES))
    return part_plan_asked(body_of_query(query) | body, work=time)


def _of_sheet(query: Mapping[str, Any], time: bounds.Time) -> PartAsked:
    from borewright.api.batch.part_holes import holes
    from borewright.contract.requests.part_plan import body_of_query, part_plan_asked

    found, unread = holes(request.mimetype, time)
    return part_plan_asked({**body_of_query(query), "holes": found}, unread, time)


def _shown(plan: PartPlan, asked: PartAsked, table: str, time: bounds.Time) -> Response:
    from borewright.contract.part_plans import part_plan_pieces, part_plan_reply
    from borewright.contract.writers import b2mml_part, part_tables

    most_items = current_app.config["BOREWRIGHT"].max_batch_items

    def wrote(size: int) -> None:
        time.check()
        bounds.check_answer(size, most_items, "/holes")

    form = wanted()
    if form == JSON:
        return computed(part_plan_pieces(plan, asked, wrote))
    reply = part_plan_reply(plan, replace(asked, detail="routing"), wrote)  # no other form shows more of a hole
    if form == CSV:
        return written(part_tables.as_csv(part_tables.tables(reply)[table]), CSV)
    if form == XLSX:
        return written(part_tables.as_workbook(reply), XLSX)
    return written(b2mml_part.part_definition(reply), XML)
