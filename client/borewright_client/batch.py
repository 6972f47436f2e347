"""Many items: sent in slices as NDJSON, asked again where an answer broke off, yielded in order.

:class:`Lines` knows what is to be sent and what came back; the clients only send and receive.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from typing import Any, Generic, Protocol, TypeVar

from .errors import ClientError, NoAnswer, RequestRefused

Result = TypeVar("Result")

#: A slice ends earlier where its lines reach this size: it is then sent whole before its answers are read.
_SLICE_BYTES = 524_288
_TRIES = 6
_FIRST_WAIT_SECONDS = 0.2
_LONGEST_WAIT_SECONDS = 5.0


class _Bar(Protocol):
    def update(self, n: int) -> object: ...

    def close(self) -> None: ...


class Lines(Generic[Result]):
    """One run over many items, whatever sends them.

    A client sends what :meth:`to_send` gives, hands each line of the answer to :meth:`taken`, calls :meth:`ended`
    behind the last one, and where the answer breaks off waits as long as :meth:`wait_after` says; all of it until
    nothing is to be sent.

    Args:
        path: where the items go.
        items: a line an item.
        slice_size: most items a request.
        total: how many items there are, None where it is not known.
        progress: show a bar on a terminal.
    """

    def __init__(self, path: str, items: Iterator[bytes], slice_size: int, total: int | None, progress: bool) -> None:
        if slice_size < 1:
            raise ValueError("slice_size must be at least 1")
        self.path = path
        self._items, self._slice_size = items, slice_size
        self._open: list[bytes] = []
        self._answered = self._tries = self._index = 0
        self._bar = _bar(total) if progress else None

    def to_send(self) -> bytes:
        """The lines that have no answer yet, or the next slice; empty where all are answered."""
        self._open = self._open[self._answered :] or self._next_slice()
        self._answered = 0
        return b"".join(self._open)

    def _next_slice(self) -> list[bytes]:
        found: list[bytes] = []
        size = 0
        for line in self._items:
            found.append(line + b"\n")
            size += len(found[-1])
            if len(found) >= self._slice_size or size >= _SLICE_BYTES:
                break
        self._tries = 0
        return found

    def taken(self, line: bytes) -> Result:
        """The result that a line of the answer holds. Raises a ClientError where it ends the answer."""
        try:
            result: Any = json.loads(line)
        except ValueError:
            raise NoAnswer("the answer broke off within a line") from None
        problem = result.get("problem", {})
        if problem.get("code") == "upload_truncated":
            raise NoAnswer("the service did not get the whole slice")
        if problem.get("code") == "batch_too_large":
            raise RequestRefused(problem["status"], problem)
        if problem.get("code") == "too_much_work" and self._answered:
            raise NoAnswer("the time of the request is over: the rest is another one")
        result["index"] = self._index
        self._answered += 1
        self._index += 1
        if self._bar is not None:
            self._bar.update(1)
        return result  # type: ignore[no-any-return]

    def ended(self) -> None:
        """The answer is over. Raises NoAnswer where lines have none."""
        if self._answered < len(self._open):
            raise NoAnswer(f"the answer ended after {self._answered} of {len(self._open)} items")

    def wait_after(self, error: ClientError) -> float:
        """Seconds to wait before the rest is sent; raises the error where it is no use: a refusal, the sixth try."""
        if isinstance(error, RequestRefused):
            raise error
        self._tries = 1 if self._answered else self._tries + 1
        if self._tries >= _TRIES:
            raise error
        said: float | None = getattr(error, "retry_after", None)
        return said if said is not None else min(_FIRST_WAIT_SECONDS * 2**self._tries, _LONGEST_WAIT_SECONDS)

    def close(self) -> None:
        """Take the bar away."""
        if self._bar is not None:
            self._bar.close()


class Cutter:
    """Cuts what is received into whole lines."""

    def __init__(self) -> None:
        self._rest = b""

    def lines(self, block: bytes) -> list[bytes]:
        """The lines that a block ends."""
        *lines, self._rest = (self._rest + block).split(b"\n")
        return lines

    def end(self) -> None:
        """Nothing more comes. Raises NoAnswer within a line."""
        if self._rest:
            raise NoAnswer("the answer broke off within a line")


def _bar(total: int | None) -> _Bar | None:
    """A bar on a terminal, None in a pipe or without the extra ``borewright-client[progress]``."""
    if not sys.stderr.isatty():
        return None
    try:
        from tqdm import tqdm
    except ImportError:
        return None
    bar: _Bar = tqdm(total=total, unit="item")
    return bar
