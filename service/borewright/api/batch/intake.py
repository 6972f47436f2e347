"""Taking an upload in while its answers wait to be read.

Many a client sends all its items before it reads the first answer. If the service stopped reading where its answers
are not taken, both would wait for each other for ever. And a balancer that once could not hand on more of a request
whose answer has begun may never hand on the rest (nginx does so). So a thread of its own takes the upload in, a little
of it in memory and the rest in a file without a name, and the first block is given when all are here, or as many as may
wait, or no more come for a moment. What comes later waits in the file only where no block has been wanted for a while.
"""

from __future__ import annotations

import os
import tempfile
import time
from collections import deque
from collections.abc import Callable, Iterator
from threading import Condition, Thread
from typing import IO

from .lines import BLOCK

#: Bytes that are held in memory.
MEMORY = 1_048_576
#: After so long without a block wanted, the client is taken for one that sends all before it reads.
_PATIENCE_S = 0.5
#: After so long without a block the client is taken for one that waits for answers; so long one is waited for at most.
_PAUSE_S, _MOST_S = 0.2, 5.0
#: Free bytes that are left on the disk to others.
_LEFT_FREE = 16_777_216
#: What a client still sends after the answer has ended is dropped for so long, so that it can read the end.
_DROP_S = 2.0


class Intake:
    """The blocks of an upload, in order, taken in by a thread.

    Args:
        received: the blocks as they arrive; what it raises is raised here after the blocks before.
        most_waiting: most bytes in the file; 0 or a disk that is nearly full = the client has to wait.
        hang_up: makes ``received`` end, called where the client goes on sending though nobody wants it any more.
    """

    def __init__(self, received: Iterator[bytes], *, most_waiting: int, hang_up: Callable[[], None]) -> None:
        self._received, self._most_waiting, self._hang_up = received, most_waiting, hang_up
        self._held: deque[bytes] = deque()
        self._held_bytes = 0
        self._file = _File()
        self._patient = False
        self._gathering, self._last_s = True, time.monotonic()
        self._ended, self._left, self._full = False, False, False
        self._error: Exception | None = None
        self._changed = Condition()
        self._thread = Thread(target=self._take_in, name="upload", daemon=True)

    def __iter__(self) -> Iterator[bytes]:
        """The blocks; the upload is left where the caller stops."""
        try:
            self._thread.start()
        except RuntimeError:  # no room for one more: the sender waits for each block to be wanted
            yield from self._received
            return
        try:
            self._gather()
            while (block := self._next()) is not None:
                yield block
        finally:
            self.leave()

    def leave(self) -> None:
        """Nothing more of the upload is wanted."""
        with self._changed:
            self._left = True
            self._changed.notify_all()
        if self._thread.is_alive():
            self._thread.join(_DROP_S)
        if self._thread.is_alive():
            self._hang_up()
            self._thread.join(_DROP_S)
        self._file.close()

    def _gather(self) -> None:
        """Wait until all is here, or as much as may wait, or the client pauses; single blocks wake nobody."""
        self._last_s = time.monotonic()
        until = self._last_s + _MOST_S
        with self._changed:
            while not (self._ended or self._full):
                left = min(until, self._last_s + _PAUSE_S) - time.monotonic()
                if left <= 0:
                    break
                self._changed.wait(left)
            self._gathering, self._patient = False, True

    def _next(self) -> bytes | None:
        with self._changed:
            while not (self._held or self._file.waiting or self._ended or self._left):
                self._changed.wait()
            self._changed.notify_all()
            if self._held:
                block = self._held.popleft()
                self._held_bytes -= len(block)
                return block
            if self._file.waiting:
                return self._file.take()
            if self._error is not None:
                raise self._error
            return None

    def _take_in(self) -> None:
        try:
            for block in self._received:
                self._put(block)
        except Exception as error:
            self._error = error
        with self._changed:
            self._ended = True
            self._changed.notify_all()

    def _put(self, block: bytes) -> None:
        with self._changed:
            while not (self._left or self._keep(block)):
                self._full = True
                self._changed.notify_all()
                wanted = self._changed.wait(_PATIENCE_S)
                self._patient = self._patient and wanted
            self._last_s = time.monotonic()
            if not self._gathering:
                self._changed.notify_all()

    def _keep(self, block: bytes) -> bool:
        """Whether there was room for the block. What is in the file goes first, so nothing passes it."""
        if not self._file.waiting and self._held_bytes < MEMORY:
            self._held.append(block)
            self._held_bytes += len(block)
            return True
        full = self._file.waiting + len(block) > self._most_waiting
        return not self._patient and not full and self._file.put(block)


class _File:
    """A queue of bytes in a file that has no name and goes with the process."""

    def __init__(self) -> None:
        self._file: IO[bytes] | None = None
        self._read = self._written = 0

    @property
    def waiting(self) -> int:
        """Bytes put and not taken yet."""
        return self._written - self._read

    def put(self, block: bytes) -> bool:
        """Whether the disk took the block, and has room left for others."""
        try:
            if self._file is None:
                self._file = tempfile.TemporaryFile(buffering=0)  # noqa: SIM115 - it lives as long as the upload
            disk = os.fstatvfs(self._file.fileno())
            if disk.f_bavail * disk.f_frsize < _LEFT_FREE + len(block):
                return False
            self._file.seek(self._written)
            if self._file.write(block) < len(block):
                return False
        except OSError:
            return False
        self._written += len(block)
        return True

    def take(self) -> bytes:
        """The next bytes; an emptied file gives its room back."""
        assert self._file is not None
        self._file.seek(self._read)
        block = self._file.read(min(BLOCK, self.waiting))
        self._read += len(block)
        if not self.waiting:
            self._file.truncate(0)
            self._read = self._written = 0
        return block

    def close(self) -> None:
        """Give the file back."""
        if self._file is not None:
            self._file.close()
            self._file, self._read, self._written = None, 0, 0
