"""Documents: the OpenAPI description, the JSON Schemas, the meaning of each problem."""

from __future__ import annotations

from threading import Lock

from flask import Blueprint, Response, request

from borewright.api.answers import document, offers, wanted
from borewright.api.page_frame import HTML, framed, page
from borewright.api.problems import KINDS, Refusal
from borewright.contract.documents import served
from borewright.contract.problem_help import HELP

blueprint = Blueprint("documents", __name__)
#: Where the documents are made, once, who asks meanwhile waits, instead of making them as well.
_MAKING = Lock()


@blueprint.get("/openapi.json")
def openapi() -> Response:
    """The OpenAPI 3.1 document."""
    with _MAKING:
        made = served.openapi_json()
    return document(made)


@blueprint.get("/schemas/<name>.schema.json")
def schema(name: str) -> Response:
    """A JSON Schema (2020-12)."""
    with _MAKING:
        made = served.schemas_json()
    if name not in made:
        raise Refusal("schema_unknown", "No schema has this name.", allowed=sorted(made))
    return document(made[name])


@blueprint.get("/problems")
@offers(HTML)
def problems() -> Response:
    """Every problem that an answer can carry."""
    every = [_meaning(code) for code in sorted(KINDS)]
    if wanted() == HTML:
        return page(framed("problems.html", request.path, problems=every))
    return document({"items": every})


@blueprint.get("/problems/<code>")
@offers(HTML)
def problem(code: str) -> Response:
    """What one problem means: the address that `type` names."""
    if code not in KINDS:
        raise Refusal("problem_unknown", "No problem has this code; /problems lists them.")
    meaning = _meaning(code)
    return page(framed("problem.html", request.path, problem=meaning)) if wanted() == HTML else document(meaning)


def _meaning(code: str) -> dict[str, object]:
    kind = KINDS[code]
    named = {"type": f"/problems/{code}", "code": code, "status": kind.status, "title": kind.title}
    return {**named, **(HELP[code]._asdict() if code in HELP else {})}
