"""Who may ask, and how many at once."""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Callable, Mapping
from threading import BoundedSemaphore

from flask import Flask, Response, g, request

from .keys import Keys
from .problems import Refusal
from .settings import Settings

#: Answered without a key: what balancers ask.
_OPEN = ("/health/live", "/health/ready")
_RETRY_AFTER_SECONDS = 1
#: A browser looks at the first one only, and asks the person who sits before it.
_CHALLENGE = 'Basic realm="borewright", charset="UTF-8", Bearer realm="borewright"'


def install(app: Flask, settings: Settings, keys: Keys | None) -> None:
    """Ask for ``keys`` where there are any, and bound the requests that run at once."""
    if keys is not None:
        app.before_request(lambda: _check(keys))
    if settings.max_concurrency:
        _bound(app, settings.max_concurrency)


def caller(keys: Keys, header: Callable[[str, str], str]) -> str | None:
    """Whose key a request carries, None where it carries none that is known. Args: ``header`` looks up the environ."""
    kind, _, said = header("HTTP_AUTHORIZATION", "").partition(" ")
    read = _READERS.get(kind.lower())
    given = read(said) if read is not None else header("HTTP_X_API_KEY", "")
    return keys.name_of(given) if given else None


def _password(said: str) -> str:
    """The password of basic authentication (RFC 7617), which is how a browser sends a key that a person typed."""
    try:
        return b64decode(said, validate=True).decode().partition(":")[2]
    except ValueError:
        return ""


_READERS: Mapping[str, Callable[[str], str]] = {"bearer": str.strip, "basic": _password}


def _check(keys: Keys) -> None:
    if request.path in _OPEN:
        return
    name = caller(keys, request.environ.get)
    if name is None:
        raise Refusal(
            "key_missing_or_unknown",
            "Send an API key as `Authorization: Bearer`, as `X-Api-Key`, or as password of `Authorization: Basic`.",
            headers={"WWW-Authenticate": _CHALLENGE},
        )
    g.caller = name


def _bound(app: Flask, most: int) -> None:
    places = BoundedSemaphore(most)

    @app.before_request
    def enter() -> None:
        if request.path in _OPEN:
            return
        if not places.acquire(blocking=False):
            raise Refusal(
                "too_many_at_once",
                f"This worker answers {most} requests at once; ask again.",
                headers={"Retry-After": str(_RETRY_AFTER_SECONDS)},
            )
        g.place = places

    @app.after_request
    def hold(response: Response) -> Response:
        if response.is_streamed and "place" in g:
            response.call_on_close(g.pop("place").release)
        return response

    @app.teardown_request
    def leave(_: BaseException | None) -> None:
        place = g.pop("place", None)
        if place is not None:
            place.release()
