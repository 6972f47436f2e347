"""How long a caller may keep a thread waiting: for the rest of a body, or room to send.

Threads are few. Without a bound as many callers as there are threads, each sending a byte now and then, or none, would
keep everybody else out. So a request gets its thread when its head and the beginning of its body, mostly all of it, are
here: they are gathered as they come. Then its body has so long in all; a batch, which may take hours, so long for
each piece and a least rate.
"""

from __future__ import annotations

import errno
import re
import time
from collections.abc import Callable
from typing import Any

from .problems import Refusal

_MOST_SENT = 262_144
#: A head is a few hundred bytes, sent at once by whoever means it.
_HEAD_SECONDS = 5
#: What may stand before the end of a head: more is given to the parser, which knows its limits.
_LONGEST_HEAD = 32_768
#: So much of a body is gathered before it gets a thread.
_GATHERED_BODY = 65_536
_PIECE = 65_536
#: A batch that is sent slower, by the mean of its time and beyond a start of ten waits, is given up.
_LEAST_BYTES_PER_SECOND = 1024
_WAITS_AT_START = 10
#: What is left of the body of a refused request is read away for so long, that its sender gets to see the answer.
_REST_SECONDS = 1.0
_LENGTH = re.compile(rb"\r\ncontent-length:[ \t]*([0-9]{1,12})[ \t]*\r\n", re.IGNORECASE)
_EXPECTS = re.compile(rb"\r\nexpect:", re.IGNORECASE)


class TooSlow(Refusal):
    """The caller kept the service waiting longer than it may."""

    def __init__(self, seconds: float) -> None:
        super().__init__("request_too_slow", f"The service waits {seconds:g} seconds for the rest of a request.")


class PatientSocket:
    """A socket that gathers a request without waiting, then waits a bounded time for the rest.

    Args:
        socket: the connection.
        seconds: how long it waits for a body, for a piece of a batch, or for room to send; at most five for a head.
    """

    def __init__(self, socket: Any, seconds: float) -> None:
        self._socket, self._seconds = socket, seconds
        self._gathered = bytearray()
        self._began = self._until = 0.0
        self._wait, self._received = seconds, 0
        self._late = self._answered = self._stream = False
        #: When the request that is gathered is given a thread whatever is missing, None where nothing of it has come.
        self.due: float | None = None

    def __getattr__(self, name: str) -> Any:  # noqa: D105
        return getattr(self._socket, name)

    def setblocking(self, wait: bool) -> None:
        """Wait, as long as is bearable, or not at all."""
        self._socket.settimeout(self._wait if wait else 0.0)

    def gather(self, left_over: Callable[[], bytes]) -> bool:
        """Whether a request is here, or never will be. Args: ``left_over`` = what came with the last one."""
        if self.due is None:
            self._begin(left_over())
        self._socket.settimeout(0.0)
        try:
            while not self._is_here():
                received = self._socket.recv(_PIECE)
                if not received:
                    return True
                self._gathered += received
        except BlockingIOError:
            return self.due is None or time.monotonic() >= self.due
        except OSError:
            return True  # who reads on meets it again
        return True

    def _begin(self, left_over: bytes) -> None:
        self._gathered[:] = left_over
        self._answered = self._stream = False
        self._wait, self._received = min(self._seconds, _HEAD_SECONDS), 0
        self._began = time.monotonic()
        self.due = self._until = self._began + self._wait

    def _is_here(self) -> bool:
        end = self._gathered.find(b"\r\n\r\n")
        if end < 0:
            bare = self._gathered.count(b"\n") != self._gathered.count(b"\r\n")
            return bare or len(self._gathered) > _LONGEST_HEAD
        head = bytes(self._gathered[: end + 2])
        length = _LENGTH.search(head)
        if length is None or _EXPECTS.search(head):
            return True
        self.due = self._began + self._seconds
        return len(self._gathered) - end - 4 >= min(int(length[1]), _GATHERED_BODY)

    def end_head(self, *, stream: bool) -> None:
        """The head is read. Args: ``stream`` = what follows may take as long as its pieces keep coming."""
        self._wait, self._stream = self._seconds, stream
        self._until = self._began + self._seconds

    def end_answer(self) -> None:
        """The answer is made, or sent: what is left of the body is only read away."""
        self._answered, self._stream, self.due = True, False, None
        self._until = min(self._until, time.monotonic() + _REST_SECONDS)

    def recv(self, size: int) -> bytes:
        """What has come. Raises: TooSlow; TimeoutError to whoever reads on, for what comes late is no request."""
        if self._gathered:
            gathered = bytes(self._gathered)
            self._gathered.clear()
            return gathered
        left = self._time_left()
        if not self._late and left > 0:
            self._socket.settimeout(left)
            try:
                received: bytes = self._socket.recv(size)
            except TimeoutError:
                pass
            else:
                self._received += len(received)
                return received
        if self._late or self._answered:
            raise TimeoutError
        self._late = True
        raise TooSlow(self._wait)

    def _time_left(self) -> float:
        now = time.monotonic()
        if not self._stream:
            return self._until - now
        earned = self._seconds * _WAITS_AT_START + self._received / _LEAST_BYTES_PER_SECOND
        return min(self._seconds, self._began + earned - now)

    def sendall(self, data: bytes) -> None:
        """Send everything. Raises: BrokenPipeError where the caller does not take a piece of it in time."""
        self._socket.settimeout(self._seconds)
        left = memoryview(data)
        try:
            while left:
                left = left[self._socket.send(left[:_MOST_SENT]) :]
        except TimeoutError:
            raise BrokenPipeError(errno.EPIPE, "the caller does not read") from None
