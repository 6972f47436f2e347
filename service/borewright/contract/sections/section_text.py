"""A reply as the texts of its sections: what many replies share is written once, and joined into each of them.

Whoever keeps replies keeps a shared text once; whoever sends one joins its pieces. The first piece and every second one
after it are the reply's own, those between are shared.
"""

from __future__ import annotations

from collections.abc import Iterable

import orjson

Pieces = tuple[bytes, ...]

#: A shorter text is copied into its reply: a piece of its own would take as much memory.
_SHORTEST_SHARED = 160


class SharedText(bytes):
    """A JSON text that many replies have, the same object in all of them."""

    __slots__ = ()


def shared(value: object) -> SharedText:
    """A value as JSON, to be shared."""
    return SharedText(memoryview(orjson.dumps(value)))


def members(text: bytes) -> bytes:
    """What stands between the brackets of an object or array; of a shared text it is shared too."""
    inside = memoryview(text)[1:-1]
    return SharedText(inside) if isinstance(text, SharedText) else bytes(inside)


def pieces(texts: Iterable[bytes]) -> Pieces:
    """The texts of a reply as its pieces."""
    found: list[bytes] = []
    own: list[bytes] = []
    for text in texts:
        if type(text) is SharedText and len(text) >= _SHORTEST_SHARED:
            found += (b"".join(own), text)
            own = []
        else:
            own.append(text)
    return (*found, b"".join(own))
