"""Answers: a dict as JSON, or a document that may be kept by caches."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

import orjson
from flask import Response, request

JSON = "application/json"
_KEEP_SECONDS = 3600


class JsonResponse(Response):
    """Flask's response; what has no type of its own is JSON, never HTML."""

    default_mimetype = JSON


def computed(body: Mapping[str, object]) -> Response:
    """The answer to a POST that only computes."""
    return JsonResponse(orjson.dumps(body))


def document(body: Mapping[str, object] | bytes, *, keep_seconds: int = _KEEP_SECONDS) -> Response:
    """The answer to a GET: with entity tag, 304 where the caller has it already."""
    content = body if isinstance(body, bytes) else orjson.dumps(body)
    response = JsonResponse(content)
    response.headers["Cache-Control"] = f"public, max-age={keep_seconds}"
    # A weak tag: the compressed and the plain form of an answer are the same answer.
    response.set_etag(hashlib.blake2b(content, digest_size=12).hexdigest(), weak=True)
    response.make_conditional(request)
    return response
