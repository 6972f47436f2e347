"""A reply as JSON in pieces: a text that many replies share is a piece of its own, the same object in all of them.

Whoever keeps replies keeps such a text once; whoever sends one joins its pieces. The first piece and every second one
after it are the reply's own, those between are shared.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import orjson

from borewright.core.caches import cached

from .fixed import Fixed, Text

Pieces = tuple[bytes, ...]

#: A shorter text is copied into its reply: a piece of its own would take as much memory.
_SHORTEST_SHARED = 160


class Array(NamedTuple):
    """A JSON array of which the texts of its rows are known; a text may hold several rows."""

    texts: Sequence[Text]


def in_pieces(reply: Mapping[str, object]) -> Pieces:
    """The JSON object of a reply whose values are plain ones, :class:`Fixed` or :class:`Array`."""
    found: list[bytes] = []
    own: list[bytes] = []
    for name, value in reply.items():
        own.append(_name(name))
        if isinstance(value, Fixed):
            own = _put(value.text, found, own)
        elif isinstance(value, Array):
            own.append(b"[")
            for place, text in enumerate(value.texts):
                if place:
                    own.append(b",")
                own = _put(text, found, own)
            own.append(b"]")
        else:
            own.append(orjson.dumps(value))
    found.append(b"".join((*own, b"}")))
    found[0] = b"{" + found[0][1:]
    return tuple(found)


@cached(256)
def _name(name: str) -> bytes:
    """What stands before a value; no comma is wanted before the first."""
    return b',"%s":' % name.encode()


def _put(text: Text, found: list[bytes], own: list[bytes]) -> list[bytes]:
    """What is left of the reply's own after a text. One that comes the second time is shared: most never come again."""
    if not text.used or len(text.json) < _SHORTEST_SHARED:
        text.used = True
        own.append(text.json)
        return own
    found += (own[0] if len(own) == 1 else b"".join(own), text.json)
    return []
