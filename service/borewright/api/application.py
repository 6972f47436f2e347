"""The factory: the only place that knows every blueprint."""

from __future__ import annotations

from flask import Flask

from . import exchange, guard, observing, problems
from .answers import JsonResponse
from .express import ExpressLane
from .keys import Keys
from .routes import BLUEPRINTS, hole_specs
from .settings import Settings


class _Application(Flask):
    response_class = JsonResponse


def create_app(settings: Settings | None = None) -> Flask:
    """The service as a WSGI application. Args: ``settings`` None = the defaults, whatever the environment says."""
    settings = settings or Settings()
    app = _Application("borewright", static_folder=None)
    app.config["BOREWRIGHT"] = settings
    app.config["MAX_CONTENT_LENGTH"] = settings.max_body_bytes
    app.config["BOREWRIGHT_MAX_JSON_DEPTH"] = settings.max_json_depth
    app.url_map.merge_slashes = False  # a redirect would be HTML; such an address is simply unknown
    observing.install(app)
    exchange.install(app)
    keys = Keys(settings.api_keys_file) if settings.api_keys_file else None
    guard.install(app, settings, keys)
    problems.install(app)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    app.wsgi_app = ExpressLane(  # type: ignore[method-assign]
        app.wsgi_app,
        hole_specs.blueprint.url_prefix or "",
        hole_specs.specification_in_pieces,
        settings=settings,
        keys=keys,
    )
    return app
