"""What is answered to a request that never reaches the application: a problem, with what its head tells of an id."""

from __future__ import annotations

import re
import secrets
import time

from gunicorn.http.errors import LimitRequestHeaders, LimitRequestLine, ParseException

from borewright.api.door.exchange import Exchange, Reply

from . import problems
from .door import reply_headers
from .slow_callers import TooSlow

_REQUEST_ID = re.compile(rb"\r?\nx-request-id:[ \t]*([A-Za-z0-9._:-]{1,128})[ \t]*\r?\n", re.IGNORECASE)


def request_id(gathered: bytes) -> str:
    """The caller's own id where the head of a broken request has one, else a new one."""
    found = _REQUEST_ID.search(gathered)
    return found[1].decode("ascii") if found else secrets.token_hex(12)


def code_of(error: Exception) -> str:
    """The code of what went wrong with a request."""
    if isinstance(error, TooSlow):
        return error.code
    if isinstance(error, LimitRequestLine):
        return "address_too_long"
    if isinstance(error, LimitRequestHeaders):
        return "header_too_large"
    return "request_unreadable" if isinstance(error, ParseException) else "internal_error"


def answer(error: Exception, known_as: str) -> bytes:
    """The bytes of the answer. Args: ``known_as`` is the request's id."""
    code = code_of(error)
    detail = error.detail if isinstance(error, TooSlow) else problems.KINDS[code].title + "."
    exchange = Exchange(known_as, "other", "", None, time.perf_counter())
    return _written(problems.made(code, detail, (), exchange), exchange)


def _written(reply: Reply, exchange: Exchange) -> bytes:
    assert isinstance(reply.body, bytes)
    length = ("Content-Length", str(len(reply.body)))
    headers = reply_headers.complete([("Connection", "close"), *reply.headers, length], exchange, good=False)
    lines = [f"HTTP/1.1 {reply.status}", *(f"{name}: {value}" for name, value in headers), "", ""]
    return "\r\n".join(lines).encode("latin-1") + reply.body
