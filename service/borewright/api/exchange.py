"""What every request and every answer go through: request id, accepted media types, headers, compression."""

from __future__ import annotations

import gzip
import re
import secrets
from collections.abc import Mapping
from contextlib import suppress

from flask import Flask, Response, g, request

from .answers import offered, wanted
from .draining import RETRY_AFTER_SECONDS, STOPPING
from .problems import Refusal

_REQUEST_ID = re.compile(r"[A-Za-z0-9._:-]{1,128}")
_COMPRESS_FROM = 1024
_COMPRESSION = 1  # a reply is 10 KB: more effort costs more time than the wire does
_HEADERS: Mapping[str, str] = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
}
_NOT_STORED = {"Cache-Control": "no-store"}
_VARY = {"Vary": "Accept, Accept-Encoding"}
#: What an answer that only computes carries beside its own headers.
COMPUTED_HEADERS = (*_HEADERS.items(), *_NOT_STORED.items(), *_VARY.items())
#: Unread bytes of a body that are read away, so that the client gets to see why it was refused.
_MOST_DRAINED = 16_777_216
#: Answered even while the process is stopping: the process is alive.
_ALWAYS = "/health/live"


def install(app: Flask) -> None:
    """Put the exchange around every route of ``app``."""
    app.before_request(_begin)
    app.after_request(_finish)


def request_id(given: str) -> str:
    """The id of a request: the caller's own where it is one, else a new one."""
    return given if _REQUEST_ID.fullmatch(given) else secrets.token_hex(12)


def asks_for_gzip(accept_encoding: str) -> bool | None:
    """Whether gzip is asked for, None where codings are weighed against each other."""
    if ";" in accept_encoding:
        return None
    return "gzip" in [coding.strip() for coding in accept_encoding.split(",")]


def compressed(body: bytes) -> bytes:
    """The body in gzip, always the same bytes."""
    return gzip.compress(body, _COMPRESSION, mtime=0)


def _begin() -> None:
    g.request_id = request_id(request.headers.get("X-Request-Id", ""))
    if STOPPING.is_set() and request.path != _ALWAYS:
        raise Refusal(
            "draining", "The service is stopping; ask again.", headers={"Retry-After": str(RETRY_AFTER_SECONDS)}
        )
    if wanted() is None:
        raise Refusal("media_type_not_acceptable", f"Answers are made as {', '.join(offered())}.", allowed=offered())


def _finish(response: Response) -> Response:
    headers = response.headers
    headers["X-Request-Id"] = g.get("request_id", "")
    for name, value in _HEADERS.items():
        headers.setdefault(name, value)
    if "Cache-Control" not in headers:
        headers.extend(_NOT_STORED)
    if response.status_code == 200:
        headers.update(_VARY)
        _compress(response)
    elif request.method == "POST":
        _drain()
    return response


def _drain() -> None:
    """Read what a refused request still sends: a client that is writing would only see its connection break."""
    if not request.environ.get("wsgi.input_terminated"):
        return
    left = _MOST_DRAINED
    with suppress(Exception):  # the client is gone, or too slow: each server and parser has exceptions of its own
        while left > 0 and (read := request.environ["wsgi.input"].read(65536)):
            left -= len(read)


def _compress(response: Response) -> None:
    if "gzip" not in request.headers.get("Accept-Encoding", "") or response.is_streamed:
        return
    body = response.get_data()
    if len(body) < _COMPRESS_FROM or not request.accept_encodings.quality("gzip"):
        return
    response.set_data(compressed(body))
    response.headers["Content-Encoding"] = "gzip"
