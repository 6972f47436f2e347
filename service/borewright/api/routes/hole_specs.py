"""Hole specifications: the main job."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from flask import Blueprint, Response, request

from borewright.api import batch
from borewright.api.answers import JSON, computed, offered, offers, wanted, written
from borewright.api.bodies import read_request
from borewright.api.kept import Answer
from borewright.api.problems import Refusal
from borewright.contract import audit_reading, reading, replies, verdicts
from borewright.contract.request_schemas import DetailQuery, HoleSpecQuery
from borewright.contract.writers import b2mml, drawing
from borewright.core.audit import audit
from borewright.core.plan.specify import specify

blueprint = Blueprint("hole_specs", __name__, url_prefix="/v1/hole-specs")

_QUERY, _AUDIT_QUERY = HoleSpecQuery(), DetailQuery()


@blueprint.post("")
@offers(b2mml.MEDIA_TYPE, drawing.MEDIA_TYPE, *drawing.media_types())
def create() -> Response:
    """The complete specification of one tapped hole; nothing is stored."""
    asked = reading.hole_spec_request(read_request(_QUERY))
    spec = specify(asked.request)
    if request.args.get("view") != "section" and wanted() == JSON:
        return computed(replies.hole_spec_reply(spec, asked))
    reply = replies.hole_spec_reply(spec, replace(asked, detail="full"))
    if wanted() in drawing.media_types():
        return _printed(drawing.section_drawing(spec, reply), f"Section of tapped hole {spec.thread.designation}")
    if request.args.get("view") == "section" or wanted() == drawing.MEDIA_TYPE:
        return written(drawing.section_drawing(spec, reply), drawing.MEDIA_TYPE)
    return written(b2mml.operations_definition(reply), b2mml.MEDIA_TYPE)


def _printed(svg: bytes, title: str) -> Response:
    media_type = wanted() or drawing.PDF
    try:
        return written(drawing.printed(svg, media_type, title), media_type)
    except drawing.PrinterMissing as fault:
        possible = [one for one in offered() if one not in drawing.media_types()]
        raise Refusal(
            "media_type_not_acceptable", f"Answers are made as {', '.join(possible)}.", allowed=possible
        ) from fault


def specification(body: dict[str, Any]) -> dict[str, Any]:
    """The full reply to a request for one hole specification, for forms that take no notice of ``detail``.

    Raises: BorewrightError.
    """
    asked = replace(reading.hole_spec_request(body), detail="full")
    return replies.hole_spec_reply(specify(asked.request), asked)


def specification_in_pieces(body: dict[str, Any]) -> Answer:
    """The reply as JSON in pieces, in the detail that is asked for. Raises BorewrightError."""
    asked = reading.hole_spec_request(body)
    spec = specify(asked.request)
    return Answer(spec.verdict, replies.hole_spec_pieces(spec, asked))


_SPECIFY = batch.Job("hole-spec", "spec", verdicts.HOLE, specification, specification_in_pieces)


@blueprint.post("/batch")
@offers(batch.NDJSON, batch.CSV, batch.XML)
def create_many() -> Response:
    """A specification for each item; nothing is stored."""
    return batch.reply(_SPECIFY)


@blueprint.post("/audit")
def check() -> Response:
    """What a routing plans for a hole, checked; nothing is stored."""
    return computed(_check(read_request(_AUDIT_QUERY)))


def _check(body: dict[str, Any]) -> dict[str, Any]:
    asked = audit_reading.audit_request(body)
    return replies.audit_reply(audit(asked.request), asked)


_AUDIT = batch.Job("audit", "audit", verdicts.AUDIT, _check)


@blueprint.post("/audit/batch")
@offers(batch.NDJSON)
def check_many() -> Response:
    """An audit for each item; nothing is stored."""
    if request.mimetype == batch.CSV:
        raise Refusal("media_type_unsupported", "A plan has no columns: send JSON.", allowed=(JSON, batch.NDJSON))
    return batch.reply(_AUDIT)
