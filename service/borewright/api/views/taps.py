"""Taps: the tap for a hole, and what is etched on a shank."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed
from borewright.api.request_body import read_request
from borewright.contract import replies
from borewright.contract.requests import DECODE, TAP
from borewright.core.plan.specify import decode_marking, recommend_tap

blueprint = Blueprint("taps", __name__, url_prefix="/v1/taps")


@blueprint.post("/recommend")
def recommend() -> Response:
    """The tap, its chamfer and limit, alternatives, rejected limits."""
    asked = TAP.asked(read_request())
    return computed(replies.tap_pieces(recommend_tap(asked.request), asked))


@blueprint.post("/decode")
def decode() -> Response:
    """What a shank marking says and which classes the tap can hold."""
    asked = DECODE.asked(read_request())
    return computed(replies.decode_pieces(decode_marking(asked.request), asked))
