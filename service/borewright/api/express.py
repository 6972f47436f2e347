"""The express lane: the usual request for one hole specification, answered ahead of Flask.

It takes what Flask would answer with 200 and JSON, and nothing else: plain headers, a whole small body, no query.
Whatever is unusual or refused goes on to Flask with its body, which tells why; a test holds that both answer with the
same bytes. Answers are kept by the bytes of their question. Requests are counted, logged and asked for their key here
as they are there.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from io import BytesIO
from typing import Any

from . import exchange, guard, metrics, observing
from .answers import JSON
from .bodies import parse_object
from .draining import STOPPING
from .kept import Answer, KeptAnswers
from .keys import Keys
from .patience import TooSlow
from .settings import Settings

Environ = dict[str, Any]
StartResponse = Callable[..., Any]
Application = Callable[[Environ, StartResponse], Iterable[bytes]]

_LONGEST_BODY = 8192
_MOST_KEPT_BYTES = 8_388_608
_ACCEPTED = (None, "*/*", JSON)


class _Refused:
    """The body of a request whose reading was refused."""

    def __init__(self, refusal: TooSlow) -> None:
        self._refusal = refusal

    def read(self, _size: int = -1) -> bytes:
        """Refuse again, to whoever tells it."""
        raise self._refusal


class ExpressLane:
    """WSGI in front of WSGI.

    Args:
        application: what answers the rest.
        route: the address of the POST that is answered here.
        answer: turns the request's JSON object into the answer, its reply as JSON in pieces.
        keys: keys of the callers, None where none are asked for.
    """

    def __init__(
        self,
        application: Application,
        route: str,
        answer: Callable[[dict[str, Any]], Answer],
        *,
        settings: Settings,
        keys: Keys | None,
    ) -> None:
        self._application, self._route, self._answer, self._keys = application, route, answer, keys
        self._max_depth, self._open = settings.max_json_depth, not settings.max_concurrency
        self._longest = min(_LONGEST_BODY, settings.max_body_bytes)
        self._kept = KeptAnswers()

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Answer, or hand on."""
        if not self._is_usual(environ):
            return self._application(environ, start_response)
        began = time.perf_counter()
        caller = guard.caller(self._keys, environ.get) if self._keys is not None else None
        try:
            body = environ["wsgi.input"].read(int(environ["CONTENT_LENGTH"]))
        except TooSlow as refusal:
            environ["wsgi.input"] = _Refused(refusal)
            return self._application(environ, start_response)
        gzip = exchange.asks_for_gzip(environ.get("HTTP_ACCEPT_ENCODING", "")) or False
        content = None if self._keys is not None and caller is None else self._content(body, gzip=gzip)
        if content is None:
            environ["wsgi.input"] = BytesIO(body)
            return self._application(environ, start_response)
        name = exchange.request_id(environ.get("HTTP_X_REQUEST_ID", ""))
        trace = observing.trace(environ.get("HTTP_TRACEPARENT", ""))
        headers = [
            ("Content-Type", JSON),
            ("Content-Length", str(len(content))),
            *([("Content-Encoding", "gzip")] if gzip else []),
            *exchange.COMPUTED_HEADERS,
            ("X-Request-Id", name),
            *([("Traceparent", trace)] if trace else []),
        ]
        start_response("200 OK", headers)
        observing.tell(observing.told(name, "POST", self._route, 200, trace=trace, caller=caller), began)
        return [content]

    def _is_usual(self, environ: Environ) -> bool:
        length = environ.get("CONTENT_LENGTH", "")
        return (
            environ["PATH_INFO"] == self._route
            and environ["REQUEST_METHOD"] == "POST"
            and environ.get("CONTENT_TYPE") == JSON
            and environ.get("HTTP_ACCEPT") in _ACCEPTED
            and not environ.get("QUERY_STRING")
            and not environ.get("HTTP_CONTENT_ENCODING")
            and exchange.asks_for_gzip(environ.get("HTTP_ACCEPT_ENCODING", "")) is not None
            and length.isascii()
            and length.isdigit()
            and len(length) < 9
            and int(length) <= self._longest
            and self._open
            and not STOPPING.is_set()
        )

    def _content(self, body: bytes, *, gzip: bool) -> bytes | None:
        """The answer as it is sent, None where there is none to give here."""
        question = (gzip, body)
        kept = self._kept.get(question)
        if kept is not None:
            metrics.count_cache_hit()
            return b"".join(kept.pieces)
        try:
            answer = self._answer(parse_object(body, max_depth=self._max_depth))
        except Exception:  # Flask meets it again, tells it and logs it
            return None
        content = b"".join(answer.pieces)
        if gzip:
            content = exchange.compressed(content)
            answer = Answer(answer.verdict, (content,))
        self._kept.keep(question, answer, _MOST_KEPT_BYTES)
        return content
