"""A reply as JSON in pieces: a text that many replies share is a piece of its own, the same object in all of them.

Whoever keeps replies keeps such a text once; whoever sends one joins its pieces. The first piece and every second one
after it are the reply's own, those between are shared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

import orjson

from .fixed import Fixed, Text

Pieces = tuple[bytes, ...]

#: A shorter text is copied into its reply: a piece of its own would take as much memory.
_SHORTEST_SHARED = 160
#: What stands between two shared texts is often the same, where it is not longer than this.
_LONGEST_BETWEEN = 64


class Array(NamedTuple):
    """A JSON array of which the texts of its rows are known; a text may hold several rows."""

    texts: Sequence[Text]


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


def _put_rows(texts: Sequence[Text], found: list[bytes], own: bytearray) -> None:
    mark = b"["
    for text in texts:
        own += mark
        mark = b","
        _put(text, found, own)
    own += b"]" if texts else b"[]"


def _put(text: Text, found: list[bytes], own: bytearray) -> None:
    """A text that comes the second time is shared: most come never again, as the depths of one hole."""
    if not text.used or len(text.json) < _SHORTEST_SHARED:
        text.used = True
        own += text.json
        return
    found += (_between(bytes(own)) if len(own) <= _LONGEST_BETWEEN else bytes(own), text.json)
    own.clear()


@lru_cache(1024)
def _between(text: bytes) -> bytes:
    """The same object for the same text."""
    return text
