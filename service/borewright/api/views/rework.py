"""A tapped hole that went wrong: the ways to go on."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response

from borewright.api.answers import computed, offers
from borewright.api.batch.job import CSV, NDJSON, Job
from borewright.api.request_body import read_request
from borewright.api.response_cache import Answer
from borewright.contract import verdicts

blueprint = Blueprint("rework", __name__, url_prefix="/v1/rework")

#: Each way is specified.
_TIMES_A_SPECIFICATION = 10


@blueprint.post("")
def find() -> Response:
    """Every way to go on with a hole that went wrong, best first, and those that are none; nothing is stored."""
    return computed(_find(read_request()).pieces)


def _find(body: dict[str, Any]) -> Answer:
    from borewright.contract.requests.rework import rework_asked
    from borewright.contract.rework_reply import rework_pieces  # the first hole does without
    from borewright.core.rework import rework

    asked = rework_asked(body)
    found = rework(asked.asked.request)
    return Answer(found.ways[0].disposition, rework_pieces(found, asked))


@blueprint.post("/batch")
@offers(NDJSON, CSV)
def find_many() -> Response:
    """The ways of each item; nothing is stored."""
    from borewright.api.batch.csv_form import CsvForm
    from borewright.api.batch.reply import reply  # the first hole does without
    from borewright.contract.requests.queries import ReworkBatchQuery
    from borewright.contract.requests.rework_columns import REWORK_COLUMNS, REWORK_OUTPUT

    return reply(
        Job(
            "rework",
            "rework",
            verdicts.REWORK,
            _find,
            query=ReworkBatchQuery(),
            cost=_TIMES_A_SPECIFICATION,
            kept=False,
            columns=REWORK_COLUMNS,
            csv=CsvForm(tuple(REWORK_OUTPUT), _in_a_row),
        )
    )


def _in_a_row(result: dict[str, Any]) -> dict[str, Any]:
    """A result with the way that is proposed first apart from the others."""
    reply = result.get("rework") or {}
    first, *others = reply.get("ways") or [{}]
    return {**result, **reply, "first": first, "other": others}
