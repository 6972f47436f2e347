"""JSON values that are finished: many replies share them, so each is written once."""

from __future__ import annotations

from typing import Generic, TypeVar

import orjson

Value = TypeVar("Value")


class Fixed(Generic[Value]):
    """A value that is never changed any more, and its JSON text."""

    __slots__ = ("_rows", "_text", "value")

    def __init__(self, value: Value) -> None:
        self.value = value
        self._text: bytes | None = None
        self._rows: bytes | None = None

    @property
    def text(self) -> bytes:
        """The value as JSON."""
        if self._text is None:
            self._text = _close(orjson.dumps(self.value))
        return self._text

    @property
    def rows(self) -> bytes:
        """The rows of an array as JSON, without its brackets."""
        if self._rows is None:
            self._rows = orjson.dumps(self.value)[1:-1]
        return self._rows


def _close(written: bytes) -> bytes:
    """The same bytes without the room that the writer leaves behind them, which is several times their own."""
    return bytes(memoryview(written))
