"""Headers that every reply carries."""

from __future__ import annotations

from .exchange import Exchange, Headers

#: Set where the reply has none of its own.
_DEFAULTS = (
    ("X-Content-Type-Options", "nosniff"),
    ("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'"),
    ("Referrer-Policy", "no-referrer"),
    ("Cache-Control", "no-store"),
)
_VARY = ("Vary", "Accept, Accept-Encoding")


def complete(headers: Headers, exchange: Exchange, *, good: bool) -> Headers:
    """The headers of a reply with those that every one carries. Args: ``good`` = the status is 200 or 304."""
    own = {name.lower() for name, _ in headers}
    found = [*headers, *(one for one in _DEFAULTS if one[0].lower() not in own), ("X-Request-Id", exchange.request_id)]
    if good:
        found.append(_VARY)
    if exchange.trace:
        found.append(("Traceparent", exchange.trace))
    return found
