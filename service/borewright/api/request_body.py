"""The body of the current request, for Flask's views."""

from __future__ import annotations

from typing import Any

from flask import current_app, request
from werkzeug.exceptions import RequestEntityTooLarge

from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.requests.queries import ExplainQuery, query_object
from borewright.contract.texts import unit_asked

from .door import exchange
from .problems import Refusal
from .strict_json import OF_REQUEST, MostValues, parse_object

_QUERY = ExplainQuery()
#: Fields of the body that may stand in the query as well.
_OF_BODY = {"explain", "detail"}


def read_request(query: ObjectSchema = _QUERY, most: MostValues = OF_REQUEST) -> dict[str, Any]:
    """The JSON object that the current request carries; ``explain`` and ``detail`` may also stand in the query.

    Args: ``query`` is the schema of the query; what else it knows is checked, and left to the caller. ``most`` bounds
        the values of the body.

    Raises: Refusal (415, 400), RequestInvalid when the body is JSON but no object or the query has another parameter.
    """
    body = _read_object(most)
    exchange.of(request.environ).unit = unit_asked(body)
    if request.query_string:
        asked = query.read(query_object(request.args.items(multi=True), type(query)))
        for name in asked.keys() & _OF_BODY:
            if body.get(name) is None:  # what the body says wins, and is checked with it
                body = {**body, name: asked[name]}
    return body


def _read_object(most: MostValues) -> dict[str, Any]:
    if request.mimetype != "application/json" or request.mimetype_params.get("charset", "utf-8").lower() != "utf-8":
        raise Refusal(
            "media_type_unsupported",
            "Send the body as application/json in UTF-8.",
            headers={"Accept-Post": "application/json"},
        )
    if (request.headers.get("Content-Encoding") or "identity").lower() != "identity":
        raise Refusal("content_encoding_unsupported", "Send the body without content encoding.")
    body = request.get_data(cache=False)
    if request.content_length is None and len(body) >= current_app.config["MAX_CONTENT_LENGTH"]:
        raise RequestEntityTooLarge  # a chunked body: werkzeug stops reading at the limit and says nothing
    return parse_object(body, max_depth=current_app.config["BOREWRIGHT"].max_json_depth, most=most)
