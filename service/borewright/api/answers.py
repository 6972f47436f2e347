"""Answers: a dict as JSON, or a document that may be kept by caches."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar
from urllib.parse import urlencode

import orjson
from flask import Response, current_app, request

JSON = "application/json"
#: Where the application's configuration has the answers that are kept.
RESPONSE_CACHE = "BOREWRIGHT_RESPONSE_CACHE"
_KEEP_SECONDS = 3600


View = TypeVar("View", bound=Callable[..., Any])

_OFFERED = "offered_media_types"
_OWN_QUERY = "reads_its_query"
#: The usual headers, known without parsing.
_JSON_WILL_DO = (None, "*/*", JSON)


def offers(*media_types: str) -> Callable[[View], View]:
    """Mark a view that can also answer in ``media_types``; JSON comes first where the caller likes both."""

    def mark(view: View) -> View:
        setattr(view, _OFFERED, (JSON, *media_types))
        return view

    return mark


def only(*media_types: str) -> Callable[[View], View]:
    """Mark a view that answers in ``media_types`` and never as JSON."""

    def mark(view: View) -> View:
        setattr(view, _OFFERED, media_types)
        return view

    return mark


def own_query(view: View) -> View:
    """Mark a view of a GET that reads its query; every other one refuses parameters."""
    setattr(view, _OWN_QUERY, True)
    return view


def takes_query() -> bool:
    """Whether the current request is for a view that reads its query, or whose page does."""
    return hasattr(current_app.view_functions.get(request.endpoint or ""), _OWN_QUERY)


def offered() -> tuple[str, ...]:
    """The media types in which the current request can be answered."""
    view = current_app.view_functions.get(request.endpoint or "")
    return getattr(view, _OFFERED, (JSON,))


def wanted() -> str | None:
    """The offered media type that the caller likes best, None where none will do."""
    accepted, possible = request.headers.get("Accept"), offered()
    if accepted in _JSON_WILL_DO and possible[0] == JSON:
        return JSON
    return request.accept_mimetypes.best_match(possible) if accepted else possible[0]


class JsonResponse(Response):
    """Flask's response; what has no type of its own is JSON, never HTML."""

    default_mimetype = JSON


def computed(reply: Iterable[bytes]) -> Response:
    """The answer to a POST that only computes, JSON in pieces."""
    return JsonResponse(b"".join(reply))


def written(content: bytes, media_type: str) -> Response:
    """The answer to a POST that only computes, in another media type than JSON."""
    return Response(content, mimetype=media_type)


def document(
    body: Mapping[str, object] | bytes, *, keep_seconds: int = _KEEP_SECONDS, media_type: str = JSON
) -> Response:
    """The answer to a GET: with entity tag, 304 where the caller has it already."""
    content = body if isinstance(body, bytes) else orjson.dumps(body)
    response = JsonResponse(content, mimetype=media_type)
    shared = "private" if current_app.config["BOREWRIGHT"].api_keys_file else "public"
    response.headers["Cache-Control"] = f"{shared}, max-age={keep_seconds}"
    # A weak tag: the compressed and the plain form of an answer are the same answer.
    response.set_etag(hashlib.blake2b(content, digest_size=12).hexdigest(), weak=True)
    response.make_conditional(request)
    return response


def paged(body: Mapping[str, Any]) -> Response:
    """The answer to a GET of a list, with links to its other pages (RFC 8288) where it has pages."""
    response = document(body)
    page, pages = body.get("page", 1), body.get("pages", 1)
    places = {"first": 1, "prev": page - 1, "next": page + 1, "last": pages}
    others = [
        f'<{_page_address(number)}>; rel="{relation}"'
        for relation, number in places.items()
        if 1 <= number <= pages and number != page
    ]
    if others:
        response.headers["Link"] = ", ".join(others)
    return response


def _page_address(page: int) -> str:
    return f"{request.path}?{urlencode({**request.args.to_dict(), 'page': page})}"
