"""Hole specifications: the main job."""

from __future__ import annotations

from flask import Blueprint, Response

from ...contract import reading, replies
from ...core.specify import specify
from ..answers import computed
from ..bodies import read_request

blueprint = Blueprint("hole_specs", __name__, url_prefix="/v1/hole-specs")


@blueprint.post("")
def create() -> Response:
    """The complete specification of one tapped hole; nothing is stored."""
    asked = reading.hole_spec_request(read_request())
    return computed(replies.hole_spec_reply(specify(asked.request), asked))
