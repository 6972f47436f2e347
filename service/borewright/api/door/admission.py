"""Who is let in: nobody while the process stops, who has a key where keys are asked for, so many at once."""

from __future__ import annotations

from base64 import b64decode
from collections.abc import Callable, Mapping
from threading import BoundedSemaphore

from borewright.api.draining import RETRY_AFTER_SECONDS, STOPPING
from borewright.api.keys import Keys
from borewright.api.problems import Refusal

from .exchange import Environ, Exchange

#: Answered even while the process is stopping: the process is alive.
_ALIVE = "/health/live"
#: Answered without a key and without a place: what balancers ask, and a script that pages of others load by its name.
_OPEN = frozenset({_ALIVE, "/health/ready", "/embed.js"})
_TRY_AGAIN_SECONDS = 1
#: A browser looks at the first one only, and asks the person who sits before it.
_CHALLENGE = 'Basic realm="borewright", charset="UTF-8", Bearer realm="borewright"'


class Admission:
    """Lets requests in. Args: ``keys`` None = none are asked for; ``most_at_once`` 0 = no bound."""

    def __init__(self, keys: Keys | None, most_at_once: int) -> None:
        self._keys, self._most = keys, most_at_once
        self._places = BoundedSemaphore(most_at_once) if most_at_once else None

    def enter(self, environ: Environ, exchange: Exchange) -> Callable[[], None] | None:
        """Let a request in. Returns what gives its place free again, None where it takes none.

        Raises: Refusal (503, 401, 429).
        """
        if STOPPING.is_set() and exchange.path != _ALIVE:
            again = {"Retry-After": str(RETRY_AFTER_SECONDS)}
            raise Refusal("draining", "The service is stopping; ask again.", headers=again)
        if exchange.path in _OPEN:
            return None
        if self._keys is not None:
            exchange.caller = _caller(self._keys, environ)
        return None if self._places is None else self._place(self._places)

    def _place(self, places: BoundedSemaphore) -> Callable[[], None]:
        if places.acquire(blocking=False):
            return places.release
        raise Refusal(
            "too_many_at_once",
            f"This worker answers {self._most} requests at once; ask again.",
            headers={"Retry-After": str(_TRY_AGAIN_SECONDS)},
        )


def _caller(keys: Keys, environ: Environ) -> str:
    kind, _, said = environ.get("HTTP_AUTHORIZATION", "").partition(" ")
    read = _READERS.get(kind.lower())
    given = read(said) if read is not None else environ.get("HTTP_X_API_KEY", "")
    name = keys.name_of(given) if given else None
    if name is None:
        raise Refusal(
            "key_missing_or_unknown",
            "Send an API key as `Authorization: Bearer`, as `X-Api-Key`, or as password of `Authorization: Basic`.",
            headers={"WWW-Authenticate": _CHALLENGE},
        )
    return name


def _password(said: str) -> str:
    """The password of basic authentication (RFC 7617), which is how a browser sends a key that a person typed."""
    try:
        return b64decode(said, validate=True).decode().partition(":")[2]
    except ValueError:
        return ""


_READERS: Mapping[str, Callable[[str], str]] = {"bearer": str.strip, "basic": _password}
