"""The factory: the only place that knows every blueprint, and what stands in the door."""

from __future__ import annotations

from flask import Flask
from werkzeug.exceptions import HTTPException

from borewright.api.door.admission import Admission
from borewright.api.door.door import Door
from borewright.api.door.exchange import UNKNOWN, Environ
from borewright.api.door.hole_spec_lane import HoleSpecLane
from borewright.api.door.origins import Origins

from .answers import RESPONSE_CACHE, JsonResponse
from .keys import Keys
from .response_cache import ResponseCache
from .settings import Settings
from .shared_answers import SharedAnswers
from .views import BLUEPRINTS, arrival, errors, hole_specs


class _Application(Flask):
    response_class = JsonResponse

    def route_of(self, environ: Environ) -> str:
        """The rule of the address that is asked for."""
        try:
            rule, _ = self.url_map.bind_to_environ(environ).match(return_rule=True)
        except HTTPException:
            return UNKNOWN
        return rule.rule


def create_app(settings: Settings | None = None, shared: SharedAnswers | None = None) -> Flask:
    """The service as a WSGI application.

    Args: ``settings`` None = the defaults, whatever the environment says; ``shared`` = answers that processes which are
    made of this one share, None where it stays alone.
    """
    settings = settings or Settings()
    app = _Application("borewright", static_folder=None)
    app.config["BOREWRIGHT"] = settings
    app.config["MAX_CONTENT_LENGTH"] = settings.max_body_bytes
    kept = app.config[RESPONSE_CACHE] = ResponseCache(settings.response_cache_bytes)
    app.url_map.merge_slashes = False  # a redirect would be HTML; such an address is simply unknown
    arrival.install(app)
    errors.install(app)
    for blueprint in BLUEPRINTS:
        app.register_blueprint(blueprint)
    keys = Keys(settings.api_keys_file) if settings.api_keys_file else None
    app.wsgi_app = Door(  # type: ignore[method-assign]
        app.wsgi_app,
        HoleSpecLane(
            hole_specs.blueprint.url_prefix or "", hole_specs.JOB.name, hole_specs.specification, kept, shared, settings
        ),
        Admission(keys, settings.max_concurrency),
        Origins(settings.cors_origins),
        app.route_of,
    )
    return app
