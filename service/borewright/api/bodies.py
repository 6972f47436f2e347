"""Strict reading of a JSON request body: what two readers could read differently is refused.

One pass reads and notices duplicate keys, numbers that are no JSON, and lone surrogates; the place of a fault is
looked for only when there is one.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import orjson
from flask import current_app, g, request
from werkzeug.exceptions import RequestEntityTooLarge

from borewright.contract.faults import invalid, step
from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.queries import query_object
from borewright.contract.request_schemas import ExplainQuery
from borewright.contract.texts import unit_asked

from .problems import Refusal

_QUERY = ExplainQuery()
#: Fields of the body that may stand in the query as well.
_OF_BODY = {"explain", "detail"}
_DEPTH_SETTING = "BOREWRIGHT_MAX_JSON_DEPTH"


class _Repeated(dict[str, Any]):
    """An object in which ``key`` stands twice."""

    key: str


class _NotFinite:
    """NaN or an infinity, which JSON does not have."""


def read_request(query: ObjectSchema = _QUERY) -> dict[str, Any]:
    """The JSON object that the current request carries; ``explain`` and ``detail`` may also stand in the query.

    Args: ``query`` is the schema of the query; what else it knows is checked, and left to the caller.

    Raises: Refusal (415, 400), RequestInvalid when the body is JSON but no object or the query has another parameter.
    """
    body = _read_object()
    g.unit = unit_asked(body)
    if request.query_string:
        asked = query.read(query_object(request.args.items(multi=True), type(query)))
        for name in asked.keys() & _OF_BODY:
            if body.get(name) is None:  # what the body says wins, and is checked with it
                body = {**body, name: asked[name]}
    return body


def _read_object() -> dict[str, Any]:
    if request.mimetype != "application/json" or request.mimetype_params.get("charset", "utf-8").lower() != "utf-8":
        raise Refusal(
            "media_type_unsupported",
            "Send the body as application/json in UTF-8.",
            headers={"Accept-Post": "application/json"},
        )
    if request.headers.get("Content-Encoding", "identity").lower() != "identity":
        raise Refusal("content_encoding_unsupported", "Send the body without content encoding.")
    body = request.get_data(cache=False)
    if request.content_length is None and len(body) >= current_app.config["MAX_CONTENT_LENGTH"]:
        raise RequestEntityTooLarge  # a chunked body: werkzeug stops reading at the limit and says nothing
    return parse_object(body, max_depth=current_app.config[_DEPTH_SETTING])


def parse_object(body: bytes, *, max_depth: int) -> dict[str, Any]:
    """The object in ``body``. Raises as :func:`read_request`."""
    value, faulty = parse_marked(body, max_depth=max_depth)
    if faulty:
        refuse_marked(value)
    return value


def parse_marked(body: bytes, *, max_depth: int) -> tuple[dict[str, Any], bool]:
    """The object in ``body`` and whether it holds marks: of a key that stands twice, of a number that is not finite.

    Raises: as :func:`read_request`, but leaves it to the caller to :func:`refuse_marked` the whole or its parts.
    """
    try:
        text = body.decode()
    except UnicodeDecodeError as error:
        raise Refusal("json_not_utf8", f"Byte {error.start} of the body is not UTF-8.") from None
    try:
        value, faulty = _parse(text)
    except RecursionError:
        raise _too_deep(max_depth) from None
    if body.count(b"{") + body.count(b"[") > max_depth and _deeper_than(max_depth, value):
        raise _too_deep(max_depth)
    if not isinstance(value, dict):
        raise invalid("body_not_object", "Expected a JSON object at the top level of the body.")
    return value, faulty


def _parse(text: str) -> tuple[object, bool]:
    faulty = False

    def pairs(found: list[tuple[str, Any]]) -> dict[str, Any]:
        nonlocal faulty
        result = dict(found)
        if len(result) != len(found):
            faulty = True
            result = _Repeated(result)
            names = [name for name, _ in found]
            result.key = next(name for name in names if names.count(name) > 1)
        return result

    def constant(_: str) -> object:
        nonlocal faulty
        faulty = True
        return _NotFinite()

    try:
        value = json.loads(text, object_pairs_hook=pairs, parse_constant=constant)
        if "\\u" in text and not faulty:
            orjson.loads(text)  # it refuses lone surrogates, which json lets pass and no reply could carry
    except ValueError as error:
        raise Refusal("json_unreadable", f"The body is not JSON: {_why(error)}.") from None
    return value, faulty


def _why(error: Exception) -> str:
    if isinstance(error, json.JSONDecodeError):
        return f"{error.msg} at line {error.lineno}, column {error.colno}"
    return "a number has too many digits"


def _too_deep(limit: int) -> Refusal:
    return Refusal("json_too_deep", f"The body is nested deeper than {limit} levels.")


def _deeper_than(limit: int, value: object) -> bool:
    if not isinstance(value, (dict, list)):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return limit == 0 or any(_deeper_than(limit - 1, part) for part in inner)


def refuse_marked(value: object) -> None:
    """Refuse the first mark in ``value``, with its place. Raises Refusal; nothing where there is no mark."""
    pointer, fault = next(_faulty(value, ""), ("", None))
    if fault is None:
        return
    if isinstance(fault, _Repeated):
        raise Refusal("json_duplicate_key", "A key stands twice in an object.", pointer=pointer)
    raise Refusal("json_number_not_finite", "NaN and Infinity are not JSON numbers.", pointer=pointer)


def _faulty(value: object, pointer: str) -> Iterator[tuple[str, object]]:
    if isinstance(value, _NotFinite):
        yield pointer, value
    if isinstance(value, _Repeated):
        yield pointer + step(value.key[:80]), value
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _faulty(inner, pointer + step(name[:80]))
    if isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _faulty(inner, pointer + step(index))
