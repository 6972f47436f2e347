"""The lane of the main route: the usual request for one hole specification, answered ahead of Flask.

It takes plain headers, a whole small body and no query; all else goes on to Flask. What is wrong in such a request is
refused here, in the same words: a test holds that both answer with the same bytes.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from borewright.api import hole_ids, metrics
from borewright.api.incoming import LONGEST_SHORT_BODY
from borewright.api.response_cache import NO_DEFAULTS, Answer, Pieces, Question, ResponseCache
from borewright.api.settings import Settings
from borewright.api.shared_answers import SharedAnswers
from borewright.api.strict_json import parse_object
from borewright.contract.texts import unit_asked

from . import compression
from .exchange import Environ, Exchange, Reply

_JSON = "application/json"
_ACCEPTED = (None, "*/*", _JSON)
_GOOD = "200 OK"
_TYPE = ("Content-Type", _JSON)
_GZIP = ("Content-Encoding", "gzip")


class HoleSpecLane:
    """Answers what is usual.

    Args:
        route: the address of the POST that is answered here.
        job: name of what is answered, under which batches keep it too.
        specify: turns the request's JSON object into the answer, its reply as JSON in pieces.
        kept: answers that were given before.
        shared: those that other workers gave, None where there are none.
    """

    def __init__(
        self,
        route: str,
        job: str,
        specify: Callable[[dict[str, Any]], Answer],
        kept: ResponseCache,
        shared: SharedAnswers | None,
        settings: Settings,
    ) -> None:
        self._route, self._job, self._specify, self._kept, self._shared = route, job, specify, kept, shared
        self._max_depth = settings.max_json_depth
        self._longest = min(LONGEST_SHORT_BODY, settings.max_body_bytes)

    def answer(self, environ: Environ, exchange: Exchange) -> Reply | None:
        """The reply, None where the request is not usual.

        Raises: BorewrightError, Refusal as the views do.
        """
        if not self._is_usual(environ):
            return None
        exchange.route = self._route
        body = environ["wsgi.input"].read(int(environ["CONTENT_LENGTH"]))
        if compression.asked_for(environ.get("HTTP_ACCEPT_ENCODING", "")):
            return self._compressed(body, exchange)
        return Reply(_GOOD, [_TYPE], b"".join(self._pieces(body, exchange)))

    def _is_usual(self, environ: Environ) -> bool:
        length = environ.get("CONTENT_LENGTH", "")
        return (
            environ["PATH_INFO"] == self._route
            and environ["REQUEST_METHOD"] == "POST"
            and environ.get("CONTENT_TYPE") == _JSON
            and environ.get("HTTP_ACCEPT") in _ACCEPTED
            and not environ.get("QUERY_STRING")
            and not environ.get("HTTP_CONTENT_ENCODING")
            and length.isascii()
            and length.isdigit()
            and len(length) < 9
            and int(length) <= self._longest
        )

    def _pieces(self, body: bytes, exchange: Exchange) -> Pieces:
        """The reply to a body: that to the same request with any id, kept, or made."""
        rest, name = hole_ids.take_out(body)
        question = Question(self._job, NO_DEFAULTS, rest)
        kept = self._kept.get(question) or self._of_others(question)
        if kept is not None:
            metrics.count_cache_hit()
            return hole_ids.put_in(name, kept.pieces)
        request = parse_object(body, max_depth=self._max_depth)
        exchange.unit = unit_asked(request)
        verdict, pieces = self._specify(request)
        nameless = hole_ids.left_out(pieces, name)
        if nameless is not None:
            self._keep(question, Answer(verdict, nameless))
        return pieces

    def _of_others(self, question: Question) -> Answer | None:
        """The answer of another worker, from now on kept here too."""
        found = self._shared.get(question) if self._shared is not None else None
        if found is not None:
            self._kept.keep(question, found)
        return found

    def _keep(self, question: Question, answer: Answer) -> None:
        self._kept.keep(question, answer)
        if self._shared is not None:
            self._shared.keep(question, answer)

    def _compressed(self, body: bytes, exchange: Exchange) -> Reply:
        """The reply in gzip, kept for the very same bytes: to compress takes longer than all the rest."""
        question = Question(self._job + " in gzip", NO_DEFAULTS, body)
        kept = self._kept.get(question)
        if kept is not None:
            metrics.count_cache_hit()
            return Reply(_GOOD, [_TYPE, _GZIP], kept.pieces[0])
        content = b"".join(self._pieces(body, exchange))
        if not compression.worth_it(content):
            return Reply(_GOOD, [_TYPE], content)
        content = compression.compressed(content)
        self._kept.keep(question, Answer("", (content,)))
        return Reply(_GOOD, [_TYPE, _GZIP], content)
