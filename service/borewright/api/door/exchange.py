"""One request and its reply, as the door sees them."""

from __future__ import annotations

import re
import secrets
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, NamedTuple

from borewright.contract.texts import Unit

Environ = dict[str, Any]
StartResponse = Callable[..., Any]
Application = Callable[[Environ, StartResponse], Iterable[bytes]]
Headers = list[tuple[str, str]]

#: Where a request's exchange stands in its environ.
KEY = "borewright.exchange"
#: The route of an address at which nothing is.
UNKNOWN = "unknown"
_METHODS = frozenset({"GET", "HEAD", "POST", "OPTIONS", "PUT", "DELETE", "PATCH"})
_REQUEST_ID = re.compile(r"[A-Za-z0-9._:-]{1,128}")
#: W3C Trace Context, version 00; ids of nothing but zeros are invalid.
_TRACE = re.compile(r"00-(?!0{32})[0-9a-f]{32}-(?!0{16})[0-9a-f]{16}-[0-9a-f]{2}")


class Reply(NamedTuple):
    """What goes out: a body of bytes is sent whole, any other one is streamed and closed at its end."""

    status: str
    headers: Headers
    body: bytes | Iterable[bytes]

    @property
    def code(self) -> int:
        """The number of the status."""
        return int(self.status[:3])


@dataclass(slots=True)
class Exchange:
    """What is known of a request while it is answered.

    ``request_id``: the caller's own where it can be one, else a new one; ``trace``: the caller's trace context;
    ``caller``: whose key it carries; ``route``: the rule of its address, None until it was looked up; ``unit``: that in
    which a problem is told; ``began``: a reading of the performance counter.
    """

    request_id: str
    method: str
    path: str
    trace: str | None
    began: float
    route: str | None = None
    caller: str | None = None
    unit: Unit | None = None


def begin(environ: Environ) -> Exchange:
    """The exchange of a request that arrives; it stays in the environ."""
    given, method = environ.get("HTTP_X_REQUEST_ID", ""), environ["REQUEST_METHOD"]
    trace = environ.get("HTTP_TRACEPARENT", "")
    exchange = Exchange(
        given if _REQUEST_ID.fullmatch(given) else secrets.token_hex(12),
        method if method in _METHODS else "other",
        _path(environ["PATH_INFO"]),
        trace if _TRACE.fullmatch(trace) else None,
        time.perf_counter(),
    )
    environ[KEY] = exchange
    return exchange


def of(environ: Environ) -> Exchange:
    """The exchange of a request that the door let in."""
    found: Exchange = environ[KEY]
    return found


def _path(raw: str) -> str:
    """The address as text: WSGI hands it on as Latin-1 whatever it is."""
    return "/" + (raw if raw.isascii() else raw.encode("latin-1").decode(errors="replace")).lstrip("/")
