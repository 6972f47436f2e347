"""A tapped hole that went wrong: the ways to go on."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.request_body import read_request

blueprint = Blueprint("rework", __name__, url_prefix="/v1/rework")


@blueprint.post("")
def find() -> Response:
    """Every way to go on with a hole that went wrong, best first, and those that are none; nothing is stored."""
    from borewright.contract.requests.rework import rework_asked
    from borewright.contract.rework_reply import rework_pieces  # the first hole does without
    from borewright.core.rework import rework

    asked = rework_asked(read_request())
    return computed(rework_pieces(rework(asked.asked.request), asked))
