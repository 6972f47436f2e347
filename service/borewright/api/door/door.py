"""The one door: what every request and every reply go through, around the lane of the main route and around Flask.

In: request id and trace (:mod:`exchange`), who is let in (:mod:`admission`, :mod:`origins`). Out: compression, headers,
no wait for the rest of a refused body, log and figures. A fault that comes up to here leaves as a problem.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import Any

from werkzeug.wsgi import ClosingIterator

from borewright.api import problems

from . import access_log, compression, exchange, reply_headers
from .admission import Admission
from .exchange import Application, Environ, Exchange, Headers, Reply, StartResponse
from .hole_spec_lane import HoleSpecLane
from .origins import Origins


class Door:
    """WSGI around WSGI.

    Args:
        application: Flask, which answers all but what the lane takes.
        lane: the main route.
        admission: who is let in.
        origins: which pages of other software may ask.
        route_of: looks up the rule of an address, for a request that neither of the two saw.
    """

    def __init__(
        self,
        application: Application,
        lane: HoleSpecLane,
        admission: Admission,
        origins: Origins,
        route_of: Callable[[Environ], str],
    ) -> None:
        self._application, self._lane, self._admission = application, lane, admission
        self._origins, self._route_of = origins, route_of

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Answer a request."""
        known, leave = exchange.begin(environ), None
        reply = self._origins.preflight(environ)
        try:
            if reply is None:
                leave = self._admission.enter(environ, known)
                reply = self._lane.answer(environ, known) or _ask(self._application, environ)
        except Exception as error:
            reply = problems.reply(error, known)
        if known.route is None:
            known.route = self._route_of(environ)
        reply = self._origins.tell(reply, environ)
        ended = partial(_end, known, reply.code, leave)
        if not isinstance(reply.body, bytes):
            start_response(reply.status, reply_headers.complete(reply.headers, known, good=reply.code in (200, 304)))
            return ClosingIterator(reply.body, ended)
        headers, body = _whole(reply, reply.body, environ)
        ended()
        start_response(reply.status, reply_headers.complete(headers, known, good=reply.code in (200, 304)))
        return [] if environ["REQUEST_METHOD"] == "HEAD" else [body]


def _end(known: Exchange, code: int, leave: Callable[[], None] | None) -> None:
    if leave is not None:
        leave()
    access_log.tell(known, code)


def _whole(reply: Reply, body: bytes, environ: Environ) -> tuple[Headers, bytes]:
    """Headers and bytes of a reply that is no stream."""
    headers = reply.headers
    if reply.code == 304:
        return headers, body
    if reply.code == 200:
        if _to_compress(reply, body, environ):
            body = compression.compressed(body)
            headers = [*headers, ("Content-Encoding", "gzip")]
    else:
        _refuse_rest(environ)
    return [*headers, ("Content-Length", str(len(body)))], body


def _to_compress(reply: Reply, body: bytes, environ: Environ) -> bool:
    return (
        compression.worth_it(body)
        and compression.asked_for(environ.get("HTTP_ACCEPT_ENCODING", ""))
        and not any(name == "Content-Encoding" for name, _ in reply.headers)
    )


def _refuse_rest(environ: Environ) -> None:
    """What a refused request still sends is not waited for: the server closes its connection."""
    refuse_rest = getattr(environ.get("gunicorn.socket"), "refuse_rest", None)
    if refuse_rest is not None:
        refuse_rest()


def _ask(application: Application, environ: Environ) -> Reply:
    """The reply of a WSGI application; HEAD is asked as GET, its body is left out at the end."""
    status, headers = "", Headers()

    def start_response(started: str, given: Headers, _: Any = None) -> Callable[[bytes], object]:
        nonlocal status, headers
        status, headers = started, given
        return lambda _: None

    if environ["REQUEST_METHOD"] == "HEAD":
        environ = {**environ, "REQUEST_METHOD": "GET"}
    body = application(environ, start_response)
    length = any(name == "Content-Length" for name, _ in headers)
    if not length and not status.startswith("304"):
        return Reply(status, headers, body)
    try:
        whole = b"".join(body)
    finally:
        if hasattr(body, "close"):
            body.close()
    return Reply(status, [one for one in headers if one[0] != "Content-Length"], whole)
