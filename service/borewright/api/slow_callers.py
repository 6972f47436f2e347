"""How long a caller may keep a thread waiting: for the head of a request, the next bytes of its body, or room to send.

Threads are few. Without a bound as many callers as there are threads, each sending a byte now and then, or none, would
keep everybody else out.
"""

from __future__ import annotations

import errno
import math
import time
from typing import Any

from .problems import Refusal

_MOST_SENT = 262_144
#: A head is a few hundred bytes, sent at once by whoever means it.
_HEAD_SECONDS = 5


class TooSlow(Refusal):
    """The caller kept the service waiting longer than it may."""

    def __init__(self, seconds: float) -> None:
        super().__init__("request_too_slow", f"The service waits {seconds:g} seconds for the rest of a request.")


class PatientSocket:
    """A socket that waits a bounded time for the whole head of a request, then for each piece of what follows.

    Args:
        socket: the connection.
        seconds: how long it waits for a piece of a body, or for room to send; at most five of them for a head.
    """

    def __init__(self, socket: Any, seconds: float) -> None:
        self._socket, self._seconds = socket, seconds
        self._wait, self._head_until = seconds, math.inf
        self._late = self._answered = False

    def __getattr__(self, name: str) -> Any:  # noqa: D105
        return getattr(self._socket, name)

    def setblocking(self, wait: bool) -> None:
        """Wait, as long as is bearable, or not at all."""
        self._socket.settimeout(self._wait if wait else 0.0)

    def begin_head(self) -> None:
        """A request is expected from now on."""
        self._answered = False
        self._wait = min(self._seconds, _HEAD_SECONDS)
        self._head_until = time.monotonic() + self._wait

    def end_head(self) -> None:
        """The head is here: what follows may take as long as its pieces keep coming."""
        self._wait, self._head_until = self._seconds, math.inf
        self._socket.settimeout(self._wait)

    def end_answer(self) -> None:
        """The answer is sent: what is left of the body is only read away."""
        self._answered = True

    def recv(self, size: int) -> bytes:
        """What has come. Raises: TooSlow; TimeoutError to whoever reads on, for what comes late is no request."""
        if self._late:
            raise TimeoutError
        if time.monotonic() <= self._head_until:
            try:
                received: bytes = self._socket.recv(size)
            except TimeoutError:
                pass
            else:
                return received
        self._late = True
        if self._answered:
            raise TimeoutError
        raise TooSlow(self._wait)

    def sendall(self, data: bytes) -> None:
        """Send everything. Raises: BrokenPipeError where the caller does not take a piece of it in time."""
        left = memoryview(data)
        try:
            while left:
                left = left[self._socket.send(left[:_MOST_SENT]) :]
        except TimeoutError:
            raise BrokenPipeError(errno.EPIPE, "the caller does not read") from None
