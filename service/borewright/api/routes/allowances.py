"""Allowances: limits before a coating, plating or heat treatment."""

from __future__ import annotations

from flask import Blueprint, Response

from ...contract import reading, replies
from ...core.specify import allow_finish
from ..answers import computed
from ..bodies import read_request

blueprint = Blueprint("allowances", __name__, url_prefix="/v1/allowances")


@blueprint.post("")
def allow() -> Response:
    """What a finish does to a thread."""
    asked = reading.allowance_request(read_request())
    return computed(replies.allowance_reply(allow_finish(asked.request), asked))
