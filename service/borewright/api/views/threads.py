"""Threads: resolve a callout, list the standard sizes."""

from __future__ import annotations

from flask import Blueprint, Response, request

from borewright.api.answers import computed, document, own_query, paged
from borewright.api.request_body import read_request
from borewright.contract import replies
from borewright.contract.requests import THREAD, queries
from borewright.contract.requests.queries import ThreadQuery
from borewright.core.plan.specify import resolve_thread

blueprint = Blueprint("threads", __name__, url_prefix="/v1/threads")


@blueprint.post("/resolve")
def resolve() -> Response:
    """The thread of a callout with its limits of size."""
    asked = THREAD.asked(read_request())
    return computed(replies.thread_pieces(resolve_thread(asked.request), asked))


@blueprint.get("")
@own_query
def show() -> Response:
    """The same for a callout in the query."""
    query = queries.query_object(request.args.items(multi=True), ThreadQuery)
    asked = THREAD.asked(query)
    return document(b"".join(replies.thread_pieces(resolve_thread(asked.request), asked)))


@blueprint.get("/catalog")
@own_query
def catalog() -> Response:
    """The standard sizes, a page at a time."""
    from borewright.contract.catalogues import thread_catalog  # the first hole does without

    return paged(thread_catalog(queries.catalog_filter(request.args.items(multi=True))))
