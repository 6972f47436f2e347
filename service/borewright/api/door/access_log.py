"""What is told of each request: a line of JSON in the log, figures for monitoring. Never bodies, queries or keys."""

from __future__ import annotations

import json
import logging
import time
from datetime import UTC, datetime

import orjson

from borewright.api import metrics

from .exchange import UNKNOWN, Exchange

LOGGER = "borewright.access"
_log = logging.getLogger(LOGGER)


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


def tell(exchange: Exchange, status: int) -> None:
    """Count and log a request that was answered; its route is told as the rule, never as the address typed."""
    seconds = time.perf_counter() - exchange.began
    route = exchange.route or UNKNOWN
    metrics.count_request(exchange.method, route, status, seconds)
    if not _log.isEnabledFor(logging.INFO):
        return
    known: dict[str, object] = {
        "request_id": exchange.request_id,
        "method": exchange.method,
        "route": route,
        "status": status,
    }
    if exchange.trace:
        known["trace"] = exchange.trace
    if exchange.caller:
        known["caller"] = exchange.caller
    _log.info({**known, "seconds": round(seconds, 6)})
