"""What is told of each request: a line of JSON in the log, figures for monitoring. Never bodies, queries or keys."""

from __future__ import annotations

import logging
import re
import time
from datetime import UTC, datetime

import orjson
from flask import Flask, Response, g, request

from . import metrics

LOGGER = "borewright.access"
_log = logging.getLogger(LOGGER)
#: W3C Trace Context, version 00.
_TRACE = re.compile(r"00-[0-9a-f]{32}-[0-9a-f]{16}-[0-9a-f]{2}")


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
        return orjson.dumps(shown, default=str).decode()


def install(app: Flask) -> None:
    """Watch every request of ``app``; must come before what may refuse one."""
    app.before_request(_begin)
    app.after_request(_end)


def _begin() -> None:
    g.began = time.perf_counter()
    trace = request.headers.get("Traceparent", "")
    g.trace = trace if _TRACE.fullmatch(trace) else None


def _end(response: Response) -> Response:
    if g.get("trace"):
        response.headers["Traceparent"] = g.trace
    rule = request.url_rule.rule if request.url_rule is not None else "unknown"
    told = {
        "request_id": g.get("request_id", ""),
        "method": request.method if request.method in _METHODS else "other",
        "route": rule,
        "status": response.status_code,
    }
    for name in ("trace", "caller"):
        if g.get(name):
            told[name] = g.get(name)
    began = g.get("began", time.perf_counter())
    if response.is_streamed:
        response.call_on_close(lambda: _tell(told, began))
    else:
        _tell(told, began)
    return response


_METHODS = ("GET", "HEAD", "POST", "OPTIONS", "PUT", "DELETE", "PATCH")


def _tell(told: dict[str, object], began: float) -> None:
    seconds = time.perf_counter() - began
    metrics.count_request(str(told["method"]), str(told["route"]), int(str(told["status"])), seconds)
    if _log.isEnabledFor(logging.INFO):
        _log.info({**told, "seconds": round(seconds, 6)})
