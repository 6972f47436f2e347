"""What the service refuses, as problems: the one place that knows which code has which HTTP status."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping, Sequence

import orjson
from gunicorn.http.errors import ParseException
from werkzeug.http import HTTP_STATUS_CODES

from borewright.api.door.exchange import Exchange, Reply
from borewright.contract import problem
from borewright.contract.problem import Kind
from borewright.contract.texts import Unit
from borewright.core.errors import BorewrightError, Fault

from . import metrics

MEDIA_TYPE = "application/problem+json"
_log = logging.getLogger("borewright")

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
    "too_much_work": Kind(413, "The request holds more values, or takes more processor time, than the limit"),
    "line_too_long": Kind(400, "A line of the batch is longer than the limit"),
    "upload_truncated": Kind(400, "The upload broke off before its end"),
    "csv_unreadable": Kind(400, "The sheet or one of its rows cannot be read"),
    "csv_column_unknown": Kind(400, "The head of the sheet names a column that is not read here"),
    "workbook_unreadable": Kind(400, "The body is no workbook (.xlsx), or holds what is not read here"),
    "key_missing_or_unknown": Kind(401, "The request carries no valid API key"),
    "too_many_at_once": Kind(429, "The worker answers as many requests at once as it may"),
    "media_type_unsupported": Kind(415, "The request body has a media type that is not read here"),
    "content_encoding_unsupported": Kind(415, "The request body has a content encoding that is not read here"),
    "address_too_long": Kind(414, "The request line is longer than the limit"),
    "header_too_large": Kind(431, "The headers are larger than the limit"),
    "request_refused": Kind(400, "The request was refused"),
    "draining": Kind(503, "The service is stopping and takes no new requests"),
}

#: What only the balancer tells (docker/nginx.conf).
_BALANCER = {
    "not_passed_on": Kind(501, "The balancer does not pass this on"),
    "service_unreachable": Kind(502, "The balancer reaches no service"),
    "service_too_slow": Kind(504, "The service did not answer the balancer in time"),
}

#: Every code that an answer can carry.
KINDS: Mapping[str, Kind] = {**_API, **_BALANCER, **problem.KINDS}


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
        self.faults: tuple[Fault, ...] = (Fault(code, detail, pointer, tuple(allowed), tuple(did_you_mean)),)

    @classmethod
    def of(cls, faults: Sequence[Fault]) -> Refusal:
        """The refusal that tells several faults, the first one as its own."""
        refusal = cls(faults[0].code, faults[0].detail)
        refusal.faults = tuple(faults)
        return refusal


def document(
    code: str, detail: str, found: Iterable[Fault], *, instance: str, request_id: str, unit: Unit | None = None
) -> dict[str, object]:
    """The body of a problem; see :func:`problem.document`."""
    return problem.document(code, KINDS[code], detail, found, instance=instance, request_id=request_id, unit=unit)


def reply(error: Exception, exchange: Exchange) -> Reply:
    """The reply to a request that met an error: what is no refusal is a fault of ours.

    Then the log has the trace, the reply only the request id to find it.
    """
    if isinstance(error, Refusal):
        return made(error.code, error.detail, error.faults, exchange, headers=error.headers)
    if isinstance(error, BorewrightError):
        more = len(error.faults) - 1
        detail = error.faults[0].detail + (f" ({more} more in `errors`)" if more else "")
        return made(error.code, detail, error.faults, exchange)
    if isinstance(error, ParseException):  # of a body in chunks; its text is what was sent
        return made("request_unreadable", KINDS["request_unreadable"].title + ".", (), exchange)
    _log.error("request %s failed", exchange.request_id, exc_info=error)
    return made("internal_error", "The request could not be answered; quote the request id.", (), exchange)


def made(
    code: str, detail: str, found: Iterable[Fault], exchange: Exchange, *, headers: Mapping[str, str] | None = None
) -> Reply:
    """The reply that tells a problem."""
    metrics.count_refusal(code)
    body = document(code, detail, found, instance=exchange.path, request_id=exchange.request_id, unit=exchange.unit)
    status = KINDS[code].status
    own = [("Content-Type", MEDIA_TYPE), *(headers or {}).items()]
    return Reply(f"{status} {HTTP_STATUS_CODES[status].upper()}", own, orjson.dumps(body))
