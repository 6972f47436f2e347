"""Drills: the drill for a thread."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.request_body import read_request
from borewright.contract import replies
from borewright.contract.requests import DRILL
from borewright.core.plan.specify import recommend_drill

blueprint = Blueprint("drills", __name__, url_prefix="/v1/drills")


@blueprint.post("/recommend")
def recommend() -> Response:
    """The drill, ranked alternatives, rejected drills."""
    asked = DRILL.asked(read_request())
    return computed(replies.drill_pieces(recommend_drill(asked.request), asked))
