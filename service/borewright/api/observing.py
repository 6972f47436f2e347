"""What is told of each request: a line of JSON in the log, figures for monitoring. Never bodies, queries or keys."""

from __future__ import annotations

import json
import logging
import re
import time
from datetime import UTC, datetime

import orjson
from flask import Flask, Response, g, request

from . import metrics

LOGGER = "borewright.access"
_log = logging.getLogger(LOGGER)
#: W3C Trace Context, version 00; ids of nothing but zeros are invalid.
_TRACE = re.compile(r"00-(?!0{32})[0-9a-f]{32}-(?!0{16})[0-9a-f]{16}-[0-9a-f]{2}")


class JsonFormatter(logging.Formatter):
    """A log record as a line of JSON: what was logged as a dict keeps its fields."""

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        shown: dict[str, object] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "logger": record.name,
        }
        if isinstance(record.msg, dict):
            shown.update(record.msg)
        else:
            shown["message"] = record.getMessage()
        if record.exc_info:
            shown["trace"] = self.formatException(record.exc_info)
        try:
            return orjson.dumps(shown, default=str).decode()
        except TypeError:  # a text with half of a surrogate pair, which orjson does not write
            return json.dumps(shown, default=str)


def install(app: Flask) -> None:
    """Watch every request of ``app``; must come before what may refuse one."""
    app.before_request(_begin)
    app.after_request(_end)


def trace(given: str) -> str | None:
    """The caller's trace context, None where it is none."""
    return given if _TRACE.fullmatch(given) else None


def told(
    request_id: str, method: str, route: str, status: int, *, trace: str | None, caller: str | None
) -> dict[str, object]:
    """What is told of a request; ``route`` is the rule, never the address as typed."""
    known: dict[str, object] = {"request_id": request_id, "method": method, "route": route, "status": status}
    if trace:
        known["trace"] = trace
    if caller:
        known["caller"] = caller
    return known


def _begin() -> None:
    g.began = time.perf_counter()
    g.trace = trace(request.headers.get("Traceparent", ""))


def _end(response: Response) -> Response:
    if g.get("trace"):
        response.headers["Traceparent"] = g.trace
    rule = request.url_rule.rule if request.url_rule is not None else "unknown"
    method = request.method if request.method in _METHODS else "other"
    known = told(
        g.get("request_id", ""), method, rule, response.status_code, trace=g.get("trace"), caller=g.get("caller")
    )
    began = g.get("began", time.perf_counter())
    if response.is_streamed:
        response.call_on_close(lambda: tell(known, began))
    else:
        tell(known, began)
    return response


_METHODS = ("GET", "HEAD", "POST", "OPTIONS", "PUT", "DELETE", "PATCH")


def tell(known: dict[str, object], began: float) -> None:
    """Count and log a request of which ``known`` is :func:`told`, begun at that reading of the performance counter."""
    seconds = time.perf_counter() - began
    metrics.count_request(str(known["method"]), str(known["route"]), int(str(known["status"])), seconds)
    if _log.isEnabledFor(logging.INFO):
        _log.info({**known, "seconds": round(seconds, 6)})
