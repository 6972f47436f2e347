"""Hole specifications: the main job."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import orjson
from flask import Blueprint, Response, request

from borewright.api import page_link
from borewright.api.answers import JSON, computed, offered, offers, wanted, written
from borewright.api.batch.job import CSV, NDJSON, XLSX, XML, Job
from borewright.api.problems import Refusal
from borewright.api.request_body import read_request
from borewright.api.response_cache import Answer
from borewright.contract import replies, verdicts
from borewright.contract.requests import HOLE_SPEC, Asked
from borewright.contract.requests.queries import DetailQuery, HoleSpecQuery, NoQuery
from borewright.contract.writers import b2mml, drawing
from borewright.contract.writers.machine_sheet import machine_sheet
from borewright.core.plan.specify import specify

blueprint = Blueprint("hole_specs", __name__, url_prefix="/v1/hole-specs")

_QUERY, _AUDIT_QUERY = HoleSpecQuery(), DetailQuery()


@blueprint.post("")
@offers(b2mml.MEDIA_TYPE, drawing.MEDIA_TYPE, *drawing.media_types())
def create() -> Response:
    """The complete specification of one tapped hole; nothing is stored."""
    body = read_request(_QUERY)
    asked = HOLE_SPEC.asked(body)
    spec = specify(asked.request)
    section = request.args.get("view") == "section"
    if not section and wanted() == JSON:
        return computed(replies.hole_spec_pieces(spec, asked))
    reply = replies.hole_spec_reply(spec, replace(asked, detail="full"))
    if wanted() == drawing.DXF:
        return written(drawing.section_dxf(spec, reply), drawing.DXF)
    if wanted() == drawing.PDF and not section:
        return _printed(lambda: _sheet(spec, reply, body), f"Tapped hole {spec.thread.designation}")
    if wanted() in drawing.printed_types():
        return _printed(
            lambda: drawing.section_drawing(spec, reply), f"Section of tapped hole {spec.thread.designation}"
        )
    if section or wanted() == drawing.MEDIA_TYPE:
        return written(drawing.section_drawing(spec, reply), drawing.MEDIA_TYPE)
    return written(b2mml.operations_definition(reply), b2mml.MEDIA_TYPE)


def _sheet(spec: Any, reply: Mapping[str, Any], body: dict[str, Any]) -> bytes:
    usual = "letter" if reply["units"]["length"] == "in" else "a4"
    opens = page_link.link(request.host_url.rstrip("/"), body)
    return machine_sheet(spec, reply, paper=request.args.get("paper", usual), link=opens)


def _printed(svg: Callable[[], bytes], title: str) -> Response:
    media_type = wanted() or drawing.PDF
    try:
        return written(drawing.printed(svg(), media_type, title), media_type)
    except (drawing.PrinterMissing, OSError) as fault:
        possible = [one for one in offered() if one not in drawing.printed_types()]
        raise Refusal(
            "media_type_not_acceptable", f"Answers are made as {', '.join(possible)}.", allowed=possible
        ) from fault


def specification(body: dict[str, Any]) -> Answer:
    """The reply to a request for one hole specification as JSON in pieces, in the detail that is asked for.

    Raises: BorewrightError.
    """
    return _answer(HOLE_SPEC.asked(body))


def _answer(asked: Asked[Any]) -> Answer:
    spec = specify(asked.request)
    return Answer(spec.verdict, replies.hole_spec_pieces(spec, asked))


def _item(body: dict[str, Any]) -> Answer:
    """The reply to an item of a batch: a request for one hole specification, or a note that describes one hole."""
    return _answer(_asked(body))


def _item_in_full(body: dict[str, Any]) -> Answer:
    return _answer(replace(_asked(body), detail="full"))


def _asked(body: dict[str, Any]) -> Asked[Any]:
    if "note" not in body:
        return HOLE_SPEC.asked(body)
    from borewright.contract.note_hole import asked_of_note  # who sends no notes does without

    return asked_of_note(body)


JOB = Job("hole-spec", "spec", verdicts.HOLE, _item, _item_in_full)


@blueprint.post("/batch")
@offers(NDJSON, CSV, XLSX, XML)
def create_many() -> Response:
    """A specification for each item; nothing is stored."""
    return _batch(JOB)


@blueprint.post("/requests")
@offers(NDJSON)
def read_rows() -> Response:
    """The rows of a sheet of holes as requests; nothing is stored."""
    from borewright.contract.sheets.rows import PART_COLUMNS  # the first hole does without

    if request.mimetype not in (CSV, XLSX):
        raise Refusal("media_type_unsupported", "Send a sheet: CSV or a workbook.", allowed=(CSV, XLSX))
    return _batch(Job("request", "request", verdicts.ROW, _as_read, query=NoQuery(), kept=False, columns=PART_COLUMNS))


def _as_read(body: dict[str, Any]) -> Answer:
    return Answer(verdicts.ROW[0], (orjson.dumps(body),))


@blueprint.post("/audit")
def check() -> Response:
    """What a routing plans for a hole, checked; nothing is stored."""
    return computed(_check(read_request(_AUDIT_QUERY)).pieces)


def _check(body: dict[str, Any]) -> Answer:
    from borewright.contract import audit_replies  # the first hole does without
    from borewright.contract.requests.audit import AUDIT
    from borewright.core.audit import audit

    asked = AUDIT.asked(body)
    found = audit(asked.request)
    return Answer(found.verdict, audit_replies.audit_pieces(found, asked))


_AUDIT = Job("audit", "audit", verdicts.AUDIT, _check)


@blueprint.post("/audit/batch")
@offers(NDJSON)
def check_many() -> Response:
    """An audit for each item; nothing is stored."""
    if request.mimetype in (CSV, XLSX):
        raise Refusal("media_type_unsupported", "A plan has no columns: send JSON.", allowed=(JSON, NDJSON))
    return _batch(_AUDIT)


def _batch(job: Job) -> Response:
    from borewright.api.batch.reply import reply  # the first hole does without

    return reply(job)
