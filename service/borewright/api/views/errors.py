"""What Flask and werkzeug refuse, as problems."""

from __future__ import annotations

from collections.abc import Mapping

from flask import Flask, Response, current_app, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed

from borewright.api import problems
from borewright.api.door import exchange
from borewright.api.door.exchange import Reply
from borewright.api.problems import KINDS, Refusal
from borewright.core.errors import nearest

#: What werkzeug's own exceptions are called here, by status.
_OF_STATUS = {
    400: "request_unreadable",
    404: "route_unknown",
    405: "method_not_allowed",
    406: "media_type_not_acceptable",
    413: "body_too_large",
    414: "address_too_long",
    415: "media_type_unsupported",
    431: "header_too_large",
}


def install(app: Flask) -> None:
    """Answer every error of ``app`` with a problem."""
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _other)


def _other(error: Exception) -> Response:
    return _response(problems.reply(error, exchange.of(request.environ)))


def _http(error: HTTPException) -> Response:
    """Flask's and werkzeug's own refusals."""
    if error.code is None or error.code >= 500:
        return _other(error)
    if isinstance(error, MethodNotAllowed):
        methods = ", ".join(sorted(error.valid_methods or ()))
        return _told("method_not_allowed", f"{request.path} has the methods {methods}.", {"Allow": methods})
    if error.code == 404:
        return _told("route_unknown", _no_route())
    if error.code == 413:
        limit = current_app.config["MAX_CONTENT_LENGTH"]
        return _other(Refusal("body_too_large", f"A request body has at most {limit} bytes."))
    code = _OF_STATUS.get(error.code, "request_refused")
    return _told(code, KINDS[code].title + ".")


def _no_route() -> str:
    known = [rule.rule for rule in current_app.url_map.iter_rules() if "<" not in rule.rule]
    meant = nearest(request.path[:80], known, most=1)
    return f"Nothing is at this address; did you mean {meant[0]}?" if meant else "Nothing is at this address."


def _told(code: str, detail: str, headers: Mapping[str, str] | None = None) -> Response:
    return _response(problems.made(code, detail, (), exchange.of(request.environ), headers=headers))


def _response(reply: Reply) -> Response:
    return Response(reply.body, reply.status, reply.headers)
