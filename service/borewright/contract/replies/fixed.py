"""JSON values that are finished: many replies share them, so each is written once."""

from __future__ import annotations

from typing import Generic, TypeVar

import orjson

Value = TypeVar("Value")


class Text:
    """A JSON text. ``used`` tells whether a reply has it already: what only one reply has is no shared text."""

    __slots__ = ("json", "used")

    def __init__(self, written: bytes) -> None:
        # A copy, because the writer leaves room behind its text that is several times the text itself.
        self.json = bytes(memoryview(written))
        self.used = False


class Fixed(Generic[Value]):
    """A value that is never changed any more, and its JSON text.

    Once it is written only the text is kept, which takes a fraction of the room; the value is read back from it.
    """

    __slots__ = ("_rows", "_text", "_value")

    def __init__(self, value: Value) -> None:
        self._value: Value | None = value
        self._text: Text | None = None
        self._rows: Text | None = None

    @property
    def value(self) -> Value:
        """The value, as JSON has it."""
        value = self._value
        if value is not None:
            return value
        read: Value = orjson.loads(self._text.json if self._text is not None else self._as_array())
        return read

    @property
    def text(self) -> Text:
        """The value as JSON."""
        if self._text is None:
            self._text = Text(orjson.dumps(self.value))
            self._value = None
        return self._text

    @property
    def rows(self) -> Text:
        """The rows of an array as JSON, without its brackets."""
        if self._rows is None:
            self._rows = Text(orjson.dumps(self.value)[1:-1])
            self._value = None
        return self._rows

    def _as_array(self) -> bytes:
        assert self._rows is not None
        return b"[%b]" % self._rows.json
