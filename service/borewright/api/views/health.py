"""Health: is the process alive, does it take requests."""

from __future__ import annotations

from flask import Blueprint

blueprint = Blueprint("health", __name__, url_prefix="/health")


@blueprint.get("/live")
def live() -> dict[str, str]:
    """The process answers."""
    return {"status": "live"}


@blueprint.get("/ready")
def ready() -> dict[str, str]:
    """The service takes requests; while it is stopping, this and every other address answer 503."""
    return {"status": "ready"}
