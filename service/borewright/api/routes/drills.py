"""Drills: the drill for a thread."""

from __future__ import annotations

from flask import Blueprint, Response

from ...contract import reading, replies
from ...core.specify import recommend_drill
from ..answers import computed
from ..bodies import read_request

blueprint = Blueprint("drills", __name__, url_prefix="/v1/drills")


@blueprint.post("/recommend")
def recommend() -> Response:
    """The drill, ranked alternatives, rejected drills."""
    asked = reading.drill_request(read_request())
    return computed(replies.drill_reply(recommend_drill(asked.request), asked))
