"""Monitoring: the figures of the service."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api import metrics
from borewright.api.answers import only

blueprint = Blueprint("monitoring", __name__)


@blueprint.get("/metrics")
@only("text/plain")
def show() -> Response:
    """What was counted, over all workers."""
    return Response(metrics.text(), content_type=metrics.MEDIA_TYPE)
