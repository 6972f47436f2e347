"""Other origins (CORS): which web pages of other software a browser lets ask this service, none by default.

No cookie is ever taken, and a browser is not told that it may send credentials of its own: a page has a key or none.
"""

from __future__ import annotations

from collections.abc import Collection

from .exchange import Environ, Reply

#: What a page may send beside the headers that every page may send.
_MAY_SEND = "Accept, Authorization, Content-Type, If-None-Match, Traceparent, X-Api-Key, X-Request-Id"
#: What a page may read of a reply beside its body and type.
_MAY_READ = "ETag, Link, RateLimit, RateLimit-Policy, Retry-After, Traceparent, X-Request-Id"
_MAY_ASK = "GET, HEAD, POST"
_ASK_AGAIN_SECONDS = 600


class Origins:
    """The origins that may ask. Args: ``listed`` ``scheme://host[:port]`` each, without the usual port."""

    def __init__(self, listed: Collection[str]) -> None:
        self._listed = frozenset(listed)

    def preflight(self, environ: Environ) -> Reply | None:
        """The answer to a browser that asks whether a page may; None where this is no such question, or it may not.

        It needs no key: a browser sends none with it.
        """
        asks = environ["REQUEST_METHOD"] == "OPTIONS" and "HTTP_ACCESS_CONTROL_REQUEST_METHOD" in environ
        if not asks or environ.get("HTTP_ORIGIN") not in self._listed:
            return None
        headers = [
            ("Access-Control-Allow-Methods", _MAY_ASK),
            ("Access-Control-Allow-Headers", _MAY_SEND),
            ("Access-Control-Max-Age", str(_ASK_AGAIN_SECONDS)),
        ]
        return Reply("200 OK", headers, b"")

    def tell(self, reply: Reply, environ: Environ) -> Reply:
        """``reply`` with the headers by which a browser hands it on to the page; without them it does not."""
        if not self._listed:
            return reply
        vary, origin = ("Vary", "Origin"), environ.get("HTTP_ORIGIN")
        if origin not in self._listed:
            return reply._replace(headers=[*reply.headers, vary])
        told = ("Access-Control-Allow-Origin", origin), ("Access-Control-Expose-Headers", _MAY_READ)
        return reply._replace(headers=[*reply.headers, vary, *told])
