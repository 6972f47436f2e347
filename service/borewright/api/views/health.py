"""Health: is the process alive, does it take requests."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import computed

blueprint = Blueprint("health", __name__, url_prefix="/health")


@blueprint.get("/live")
def live() -> Response:
    """The process answers."""
    return computed({"status": "live"})


@blueprint.get("/ready")
def ready() -> Response:
    """The service takes requests; while it is stopping, this and every other address answer 503."""
    return computed({"status": "ready"})
