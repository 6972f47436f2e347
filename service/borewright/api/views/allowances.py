"""Allowances: limits before a coating, plating or heat treatment."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.request_body import read_request
from borewright.contract import replies
from borewright.contract.requests import ALLOWANCE
from borewright.core.plan.specify import allow_finish

blueprint = Blueprint("allowances", __name__, url_prefix="/v1/allowances")


@blueprint.post("")
def allow() -> Response:
    """What a finish does to a thread."""
    asked = ALLOWANCE.asked(read_request())
    return computed(replies.allowance_pieces(allow_finish(asked.request), asked))
