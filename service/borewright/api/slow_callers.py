"""How long a caller may keep a thread waiting: for the rest of a body, or room to send.

Threads are few. Without a bound as many callers as there are threads, each sending a byte now and then, or none, would
keep everybody else out. So a request is answered when it is here: it is gathered as it comes (:mod:`incoming`).
What is too long for that, and batches, which may take hours, are read by threads of their own; each of them waits so
long for a piece, and in all by how much has moved. Where others wait for the same threads, callers have to keep moving.
"""

from __future__ import annotations

import errno
import select
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from socket import SO_SNDBUF, SOL_SOCKET
from typing import Any, TypeVar

from .incoming import Incoming, Stage
from .problems import Refusal

#: A head is a few hundred bytes, sent at once by whoever means it.
_HEAD_SECONDS = 5
_PIECE = 65_536
#: What the kernel takes of an answer whose caller is slow.
_SEND_BUFFER = 1_048_576
#: So long a thread sleeps until it looks again whether others wait for it.
_SLICE_SECONDS = 0.25
_LEAST_BYTES_PER_SECOND = 1024
_WAITS_OF_A_STREAM = 10
#: What a caller still sends after the end is read away up to here.
_MOST_DROPPED = 16_777_216
_CONTINUE = b"HTTP/1.1 100 Continue\r\n\r\n"
_Moved = TypeVar("_Moved")


class TooSlow(Refusal):
    """The caller kept the service waiting longer than it may."""

    def __init__(self, seconds: float) -> None:
        super().__init__("request_too_slow", f"The service waits {seconds:g} seconds for the rest of a request.")


@dataclass(frozen=True, slots=True)
class Patience:
    """How long a thread waits for a caller in all: so many seconds, and one more for so many bytes that moved."""

    seconds: float
    bytes_per_second: int

    def left(self, waited: float, moved: int) -> float:
        """Seconds that are left."""
        return self.seconds + moved / self.bytes_per_second - waited


class PatientSocket:
    """A socket that gathers a request without waiting, then waits a bounded time for the rest.

    Args:
        socket: the connection.
        seconds: how long it waits for a body, for a piece of a batch, or for room to send; at most five for a head.
    """

    def __init__(self, socket: Any, seconds: float) -> None:
        socket.setblocking(False)
        self._socket, self._seconds = socket, seconds
        self._incoming = Incoming()
        self._began = 0.0
        self._late = self._over = self._widened = False
        self._crowded: Callable[[], bool] = bool
        self._calm = self._hurried = Patience(seconds, _LEAST_BYTES_PER_SECOND)
        self._waited = {select.POLLIN: 0.0, select.POLLOUT: 0.0}
        self._moved = self._dropped = 0
        self._missing: int | None = 0
        self._expects = False
        self._request: Any = None
        #: When the request that is gathered is answered whatever is missing, None where nothing of it has come.
        self.due: float | None = None
        #: What was gathered of the request: its head, and mostly all of it.
        self.gathered = b""
        self._held: list[bytes] | None = None

    def __getattr__(self, name: str) -> Any:  # noqa: D105
        return getattr(self._socket, name)

    def setblocking(self, wait: bool) -> None:
        """It never blocks, and waits by rules of its own."""

    def settimeout(self, seconds: float | None) -> None:
        """As :meth:`setblocking`."""

    def gather(self, left_over: Callable[[], bytes]) -> Stage:
        """How far the request has come. Args: ``left_over`` = what came with the last one."""
        if self.due is None:
            self._incoming = Incoming(left_over())
            self._began = time.monotonic()
        try:
            while (stage := self._incoming.stage()) is Stage.COMING:
                received = self._socket.recv(_PIECE)
                if not received:
                    return Stage.WHOLE
                self._incoming.add(received)
        except BlockingIOError:
            return self._still_coming()
        except OSError:
            return Stage.WHOLE  # who reads on meets it again
        return stage

    def _still_coming(self) -> Stage:
        if not self._incoming:
            return Stage.COMING
        self.due = self._began + (self._seconds if self._incoming.in_body else min(self._seconds, _HEAD_SECONDS))
        self._late = time.monotonic() >= self.due
        return Stage.WHOLE if self._late else Stage.COMING

    def begin_answer(self, crowded: Callable[[], bool], hurried: Patience) -> None:
        """A thread takes what was gathered.

        Args:
            crowded: whether others wait for this thread and its like.
            hurried: how long it waits then.
        """
        self._crowded, self._hurried = crowded, hurried
        self._calm = Patience(self._seconds, _LEAST_BYTES_PER_SECOND)
        self._waited, self._moved = {select.POLLIN: 0.0, select.POLLOUT: 0.0}, 0
        self._missing, self.gathered = self._incoming.missing, self._incoming.content
        self._over = self._expects = False
        self.due = None

    def end_head(self, request: Any, *, stream: bool, expects: bool) -> None:
        """The head is read.

        Args:
            request: what gunicorn read.
            stream: what follows may take as long as its pieces keep coming.
            expects: the caller sends the rest when it is told to go on, or refused without it.
        """
        self._request, self._expects = request, expects
        if stream:
            self._calm = Patience(self._seconds * _WAITS_OF_A_STREAM, _LEAST_BYTES_PER_SECOND)

    def refuse_rest(self) -> None:
        """The request is refused: what is still to come of it is not waited for, and ends the connection."""
        if self._missing != 0 or self._request.body.failed:
            self._over = True
            self._request.force_close()

    def end_answer(self) -> None:
        """The answer is sent: nothing more of its request is read."""
        self._over = True

    def recv(self, size: int) -> bytes:
        """What has come. Raises: TooSlow; TimeoutError to whoever reads on, for what comes late is no request."""
        if self._incoming:
            self._incoming = Incoming()
            return self.gathered
        if self._over:
            raise TimeoutError
        try:
            if self._late:
                raise TimeoutError
            received: bytes = self._when(select.POLLIN, lambda: self._go_on().recv(size))
        except TimeoutError:
            self._over = True
            raise TooSlow(self._most_seconds()) from None
        self._moved += len(received)
        if self._missing is not None:
            self._missing = max(0, self._missing - len(received))
        return received

    def read_away(self, size: int) -> bool:
        """Drop what still comes on a connection that is closed. Returns whether more may come."""
        try:
            self._dropped += len(self._socket.recv(size)) or _MOST_DROPPED
        except BlockingIOError:
            return True
        except OSError:
            return False
        return self._dropped < _MOST_DROPPED

    def _go_on(self) -> Any:
        """The connection, its caller told to go on where it waits for that."""
        if self._expects:
            self._expects = False
            with suppress(OSError):
                self._socket.send(_CONTINUE)
        return self._socket

    def _most_seconds(self) -> float:
        if self._late and not self._missing:  # the head
            return min(self._seconds, _HEAD_SECONDS)
        return self._hurried.seconds if self._crowded() and not self._late else self._seconds

    def hold(self) -> None:
        """Hold what is sent from now on, to send it in one piece."""
        self._held = []

    def send_held(self) -> bytes:
        """Send what was held, without waiting. Returns what the caller does not take yet. Raises: OSError."""
        left, self._held = b"".join(self._held or ()), None
        try:
            while left:
                left = left[self._send(memoryview(left)) :]
        except BlockingIOError:
            pass
        return left

    def sendall(self, data: bytes) -> None:
        """Send everything. Raises: BrokenPipeError where the caller does not take it in time."""
        if self._held is not None:
            self._held.append(data)
            return
        left = memoryview(data)
        try:
            while left:
                sent = self._when(select.POLLOUT, lambda: self._send(left))  # noqa: B023 - called at once
                self._moved += sent
                left = left[sent:]
        except TimeoutError:
            raise BrokenPipeError(errno.EPIPE, "the caller does not read") from None

    def _send(self, data: memoryview) -> int:
        try:
            sent: int = self._socket.send(data)
        except BlockingIOError:
            if self._widened:
                raise
            self._widened = True
            self._socket.setsockopt(SOL_SOCKET, SO_SNDBUF, _SEND_BUFFER)
            sent = self._socket.send(data)
        return sent

    def _when(self, event: int, move: Callable[[], _Moved]) -> _Moved:
        """What moves as soon as something can. Raises: TimeoutError where it takes longer than the caller may take."""
        began = now = time.monotonic()
        while True:
            try:
                return move()
            except BlockingIOError:
                patience = self._hurried if self._crowded() else self._calm
                left = min(began + self._seconds - now, patience.left(self._waited[event], self._moved))
                if left <= 0:
                    raise TimeoutError from None
            poll = select.poll()
            poll.register(self._socket, event)
            poll.poll(1000 * min(left, _SLICE_SECONDS))
            before, now = now, time.monotonic()
            self._waited[event] += now - before
