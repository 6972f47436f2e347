"""Errors as RFC 9457 problems: the one place that knows which code has which HTTP status."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import orjson
from flask import Flask, Response, current_app, g, request
from werkzeug.exceptions import HTTPException, MethodNotAllowed

from borewright.contract import faults
from borewright.contract.texts import Unit, all_in_units, in_units
from borewright.core import errors
from borewright.core.errors import BorewrightError, Fault, nearest

from . import metrics

MEDIA_TYPE = "application/problem+json"
_log = logging.getLogger("borewright")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of problem: its HTTP status, and the title that says what it means."""

    status: int
    title: str


_API = {
    "json_unreadable": Kind(400, "The request body is not JSON"),
    "json_not_utf8": Kind(400, "The request body is not UTF-8 text"),
    "json_duplicate_key": Kind(400, "An object of the request body holds the same key twice"),
    "json_number_not_finite": Kind(400, "A number of the request body is NaN or infinite"),
    "json_too_deep": Kind(400, "The request body is nested deeper than the limit"),
    "request_unreadable": Kind(400, "The request is not well-formed HTTP"),
    "route_unknown": Kind(404, "No resource has this address"),
    "schema_unknown": Kind(404, "No schema has this name"),
    "catalogue_unknown": Kind(404, "No catalogue has this name"),
    "problem_unknown": Kind(404, "No problem has this code"),
    "method_not_allowed": Kind(405, "The resource does not have this method"),
    "media_type_not_acceptable": Kind(406, "None of the media types that the request accepts can be made"),
    "request_too_slow": Kind(408, "The rest of the request did not come in time"),
    "body_too_large": Kind(413, "The request body is larger than the limit"),
    "batch_too_large": Kind(413, "The batch has more items or bytes than the limit"),
    "line_too_long": Kind(400, "A line of the batch is longer than the limit"),
    "upload_truncated": Kind(400, "The upload broke off before its end"),
    "csv_unreadable": Kind(400, "A row of the batch cannot be read as CSV"),
    "csv_column_unknown": Kind(400, "The head of the CSV names a column that is not read here"),
    "key_missing_or_unknown": Kind(401, "The request carries no valid API key"),
    "too_many_at_once": Kind(429, "The worker answers as many requests at once as it may"),
    "media_type_unsupported": Kind(415, "The request body has a media type that is not read here"),
    "content_encoding_unsupported": Kind(415, "The request body has a content encoding that is not read here"),
    "address_too_long": Kind(414, "The request line is longer than the limit"),
    "header_too_large": Kind(431, "The headers are larger than the limit"),
    "request_refused": Kind(400, "The request was refused"),
    "internal_error": Kind(500, "The service failed; the fault is in the log under the request id"),
    "draining": Kind(503, "The service is stopping and takes no new requests"),
}

#: Every code that an answer can carry. What the contract and the domain refuse was readable: 422.
KINDS: Mapping[str, Kind] = {
    **_API,
    **{code: Kind(422, title) for code, title in faults.CODES.items()},
    **{code: Kind(422, title) for code, title in errors.CODES.items()},
}

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


class Refusal(Exception):
    """The web layer refuses a request. ``pointer`` is empty for the whole body; ``headers`` go out with the problem."""

    def __init__(
        self,
        code: str,
        detail: str,
        *,
        pointer: str = "",
        allowed: Iterable[str] = (),
        did_you_mean: Iterable[str] = (),
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(detail)
        self.code, self.detail, self.headers = code, detail, headers or {}
        self.faults = (Fault(code, detail, pointer, tuple(allowed), tuple(did_you_mean)),)


def install(app: Flask) -> None:
    """Answer every error of ``app`` with a problem."""
    app.register_error_handler(BorewrightError, _domain)
    app.register_error_handler(Refusal, _refusal)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _failure)


def document(
    code: str, detail: str, found: Iterable[Fault], *, instance: str, request_id: str, unit: Unit | None = None
) -> dict[str, object]:
    """The problem as a dict in its final order, its quantities in ``unit``; None = as the domain holds them."""
    kind = KINDS[code]
    return {
        "type": f"/problems/{code}",
        "title": kind.title,
        "status": kind.status,
        "detail": in_units(detail, unit),
        "instance": instance,
        "code": code,
        "request_id": request_id,
        "errors": [_fault(fault, unit) for fault in found],
    }


def _fault(fault: Fault, unit: Unit | None) -> dict[str, object]:
    shown: dict[str, object] = {"pointer": fault.pointer, "code": fault.code, "detail": in_units(fault.detail, unit)}
    if fault.allowed:
        shown["allowed"] = all_in_units(fault.allowed, unit)
    if fault.did_you_mean:
        shown["did_you_mean"] = fault.did_you_mean
    return shown


def _answer(code: str, detail: str, found: Iterable[Fault], headers: Mapping[str, str]) -> Response:
    metrics.count_refusal(code)
    body = document(code, detail, found, instance=request.path, request_id=g.get("request_id", ""), unit=g.get("unit"))
    return Response(orjson.dumps(body), status=KINDS[code].status, mimetype=MEDIA_TYPE, headers=dict(headers))


def _domain(error: BorewrightError) -> Response:
    detail = error.faults[0].detail
    more = len(error.faults) - 1
    if more:
        detail += f" ({more} more in `errors`)"
    return _answer(error.code, detail, error.faults, {})


def _refusal(error: Refusal) -> Response:
    return _answer(error.code, error.detail, error.faults, error.headers)


def _http(error: HTTPException) -> Response:
    """Flask's and werkzeug's own refusals."""
    if error.code is None or error.code >= 500:
        return _failure(error)
    if isinstance(error, MethodNotAllowed):
        methods = sorted(error.valid_methods or ())
        detail = f"{request.path} has the methods {', '.join(methods)}."
        return _answer("method_not_allowed", detail, (), {"Allow": ", ".join(methods)})
    if error.code == 404:
        return _answer("route_unknown", _no_route(), (), {})
    if error.code == 413:
        limit = current_app.config["MAX_CONTENT_LENGTH"]
        return _refusal(Refusal("body_too_large", f"A request body has at most {limit} bytes."))
    code = _OF_STATUS.get(error.code, "request_refused")
    return _answer(code, KINDS[code].title + ".", (), {})


def _no_route() -> str:
    known = [rule.rule for rule in current_app.url_map.iter_rules() if "<" not in rule.rule]
    meant = nearest(request.path[:80], known, most=1)
    return f"Nothing is at this address; did you mean {meant[0]}?" if meant else "Nothing is at this address."


def _failure(error: Exception) -> Response:
    """A fault of ours: the log has the trace, the answer only the request id to find it."""
    _log.error("request %s failed", g.get("request_id", ""), exc_info=error)
    return _answer("internal_error", "The request could not be answered; quote the request id.", (), {})
