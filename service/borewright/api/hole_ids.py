"""The caller's own id of a hole: the same hole with another id is the same question.

An id is found in the bytes of a request without parsing them. What lies before and after the text of an id is the same
JSON whatever that text is, so that of two requests that differ in nothing else either both can be answered or none.
"""

from __future__ import annotations

import re
from typing import NamedTuple

import orjson

from borewright.contract.hole_id import is_usable

NONE = b"null"
_KEY = b'"id"'
_MEMBER = re.compile(rb'"id"[ \t\r\n]*:[ \t\r\n]*("(?:[^"\\]|\\.)*")')


class Named(NamedTuple):
    """A request without the text of its id, and that id as a reply writes it: null where the request has none."""

    rest: bytes
    name: bytes


def take_out(request: bytes) -> Named:
    """The request without its id. An id that is not usable, or not plain to see, stays where it is."""
    if request.count(_KEY) != 1 or (found := _MEMBER.search(request)) is None:
        return Named(request, NONE)
    try:
        name = orjson.loads(found[1])
    except ValueError:
        return Named(request, NONE)
    if not is_usable(name):
        return Named(request, NONE)
    return Named(request[: found.start(1)] + request[found.end(1) :], orjson.dumps(name))


def left_out(pieces: tuple[bytes, ...], name: bytes) -> tuple[bytes, ...] | None:
    """The pieces of a reply without its head that holds the id; None where the reply has another id."""
    head = _head(name)
    return (pieces[0].removeprefix(head), *pieces[1:]) if pieces[0].startswith(head) else None


def put_in(name: bytes, pieces: tuple[bytes, ...]) -> tuple[bytes, ...]:
    """The pieces of a reply with its head."""
    return (_head(name) + pieces[0], *pieces[1:])


def _head(name: bytes) -> bytes:
    return b'{"id":%b,' % name
