"""A reply as JSON in pieces: a text that many replies share is a piece of its own, the same object in all of them.

Whoever keeps replies keeps such a text once; whoever sends one joins its pieces.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

import orjson

from .fixed import Fixed

Pieces = tuple[bytes, ...]

#: A shorter text is copied into its reply: a piece of its own would take as much memory.
_SHORTEST_SHARED = 160


class Array(NamedTuple):
    """A JSON array of which the texts of its rows are known; a text may hold several rows."""

    texts: Sequence[bytes]


def in_pieces(reply: Mapping[str, object]) -> Pieces:
    """The JSON object of a reply whose values are plain ones, :class:`Fixed` or :class:`Array`."""
    found: list[bytes] = []
    own = bytearray()
    mark = b"{"
    for name, value in reply.items():
        own += b'%s"%s":' % (mark, name.encode())
        mark = b","
        if isinstance(value, Fixed):
            _put(value.text, found, own)
        elif isinstance(value, Array):
            _put_rows(value.texts, found, own)
        else:
            own += orjson.dumps(value)
    own += b"}"
    found.append(bytes(own))
    return tuple(found)


def _put_rows(texts: Sequence[bytes], found: list[bytes], own: bytearray) -> None:
    mark = b"["
    for text in texts:
        own += mark
        mark = b","
        _put(text, found, own)
    own += b"]" if texts else b"[]"


def _put(text: bytes, found: list[bytes], own: bytearray) -> None:
    if len(text) < _SHORTEST_SHARED:
        own += text
        return
    found += (_between(bytes(own)) if len(own) < _SHORTEST_SHARED else bytes(own), text)
    own.clear()


@lru_cache(1024)
def _between(text: bytes) -> bytes:
    """What stands between two shared texts, the same object wherever it is the same."""
    return text
