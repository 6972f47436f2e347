"""The API reference for people, made from the OpenAPI document: all operations, and each with a way to try it."""

from __future__ import annotations

from functools import cache, lru_cache
from threading import Lock

from flask import Blueprint, Response

from borewright.api.answers import only
from borewright.api.page_frame import HTML, framed, page
from borewright.api.problems import Refusal

blueprint = Blueprint("reference", __name__)
#: The document takes half a second to make, once: who asks meanwhile waits, instead of making it as well.
_MAKING = Lock()
#: More than there are operations.
_PAGES_KEPT = 64


@blueprint.get("/docs")
@only(HTML)
def every_operation() -> Response:
    """What the service does, and its operations by subject."""
    with _MAKING:
        return page(_overview())


@blueprint.get("/docs/<name>")
@only(HTML)
def operation(name: str) -> Response:
    """One operation: its request, its answer, its refusals."""
    with _MAKING:
        made = _operation(name)
    if made is None:
        raise Refusal("route_unknown", "No operation has this name; /docs lists them.")
    return page(made)


@cache
def _overview() -> bytes:
    from borewright.contract.documents import reference  # not needed to answer anything else, and slow to import

    return framed("docs.html", "/docs", overview=reference.overview())


@lru_cache(_PAGES_KEPT)
def _operation(name: str) -> bytes | None:
    from borewright.contract.documents import reference

    found = reference.operation(name)
    return framed("operation.html", f"/docs/{name}", operation=found) if found else None
