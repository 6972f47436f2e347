"""Replies in gzip, where the caller takes it."""

from __future__ import annotations

import gzip

from werkzeug.datastructures import Accept
from werkzeug.http import parse_accept_header

_LEVEL = 1  # a reply is 25 KB: more effort costs more time than the wire does
#: A shorter reply is sent as it is.
_SHORTEST = 1024


def asked_for(accept_encoding: str) -> bool:
    """Whether a caller takes gzip. Args: the header, empty where there is none."""
    if "gzip" not in accept_encoding:
        return False
    if ";" not in accept_encoding:  # nothing is weighed: the usual case, known without parsing
        return any(coding.strip() in ("gzip", "*") for coding in accept_encoding.split(","))
    return parse_accept_header(accept_encoding, Accept).quality("gzip") > 0


def worth_it(body: bytes) -> bool:
    """Whether a reply is long enough."""
    return len(body) >= _SHORTEST


def compressed(body: bytes) -> bytes:
    """The body in gzip, always the same bytes."""
    return gzip.compress(body, _LEVEL, mtime=0)
