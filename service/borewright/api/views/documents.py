"""Documents: the OpenAPI description, the JSON Schemas, the meaning of each problem."""

from __future__ import annotations

from flask import Blueprint, Response

from borewright.api.answers import document
from borewright.api.problems import KINDS, Refusal

blueprint = Blueprint("documents", __name__)


@blueprint.get("/openapi.json")
def openapi() -> Response:
    """The OpenAPI 3.1 document."""
    from borewright.contract.documents import published  # not needed to answer anything else, and slow to import

    return document(published.openapi_json())


@blueprint.get("/schemas/<name>.schema.json")
def schema(name: str) -> Response:
    """A JSON Schema (2020-12)."""
    from borewright.contract.documents import published

    found = published.schemas_json().get(name)
    if found is None:
        raise Refusal("schema_unknown", "No schema has this name.", allowed=sorted(published.schemas_json()))
    return document(found)


@blueprint.get("/problems")
def problems() -> Response:
    """Every problem that an answer can carry."""
    return document({"items": [_meaning(code) for code in sorted(KINDS)]})


@blueprint.get("/problems/<code>")
def problem(code: str) -> Response:
    """What one problem means: the address that `type` names."""
    if code not in KINDS:
        raise Refusal("problem_unknown", "No problem has this code; /problems lists them.")
    return document(_meaning(code))


def _meaning(code: str) -> dict[str, object]:
    kind = KINDS[code]
    return {"type": f"/problems/{code}", "code": code, "status": kind.status, "title": kind.title}
