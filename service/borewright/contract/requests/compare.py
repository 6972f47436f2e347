"""Body of POST /v1/hole-specs/compare: what was kept of a specification, and the request to hold it against."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from borewright.contract.compare.kept import Kept, kept
from borewright.contract.faults import RequestInvalid, below, invalid
from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.strict import JsonSchema, StrictField, Text
from borewright.core.errors import BorewrightError
from borewright.core.requests import HoleSpecRequest

from .batch import BatchRequestBody
from .bodies import HOLE_SPEC, HoleSpecRequestBody
from .request import Asked


class _Kept(StrictField):
    """What was kept: read for what it has, so that replies of every version can be sent."""

    takes = ("object",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """An object."""
        return {"type": "object"}


class _HoleSpec(StrictField):
    """The request of a hole, read by its own schema."""

    takes = ("object",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A reference to the schema of the request."""
        return dict(converter.resolve_nested_schema(HoleSpecRequestBody))


class CompareRequestBody(ObjectSchema):
    """Body of POST /v1/hole-specs/compare."""

    id = Text("The caller's own name of the hole. Default: the `id` of the kept reply.", longest=200)
    before = _Kept(
        'What was kept: a reply of POST /v1/hole-specs in any detail; or {"request", "reply"}, the reply with what was'
        ' asked; or {"request", "spec_id"}, where no reply was kept; or the result of an item of a batch.',
        required=True,
    )
    after = _HoleSpec("The request to answer now. Default: the kept `request`; needed where none was kept.")


class CompareBatchBody(BatchRequestBody):
    """Body of POST /v1/hole-specs/compare/batch as one JSON document: each item is judged when it is answered."""


@dataclass(frozen=True, slots=True)
class CompareAsked:
    """What was kept, the request that it answered where that is known, and the one that is answered now."""

    id: str | None
    kept: Kept
    before: Asked[HoleSpecRequest] | None
    after: Asked[HoleSpecRequest]
    other_request: bool


_BODY = CompareRequestBody()


def compare_asked(body: Mapping[str, Any]) -> CompareAsked:
    """What a body asks to compare. Raises: BorewrightError, its pointers from the top of the body."""
    given = _BODY.read(body)
    with _inside("before"):
        found = kept(given["before"])
        with _inside("request"):
            before = None if found.request is None else HOLE_SPEC.asked(found.request)
    other = given.get("after")
    with _inside("after"):
        after = before if other is None else HOLE_SPEC.asked(other)
    if after is None:
        raise invalid(
            "kept_request_missing",
            "A reply does not say what was asked: send the request as `after`, or `before` with `request` and `reply`.",
            pointer="/after",
        )
    name = given.get("id") or found.word("id") or after.request.id
    return CompareAsked(name, found, before, after, other is not None)


@contextmanager
def _inside(name: str) -> Iterator[None]:
    """Faults of what stands in the field ``name``, from the object that holds it."""
    try:
        yield
    except BorewrightError as error:
        raise RequestInvalid(below(name, error.faults)) from None
