"""Answers that the workers of one server share: what one of them has made, the others need not make again.

They stand one after the other in a ring of memory that was mapped before the workers were made, the oldest overwritten
by the newest. Each worker looks up in an index of its own where an answer begins. Nobody waits for anybody: a worker
that finds another one writing does not add its answer, and who reads meanwhile, or after a worker that died while it
wrote, sees it by the counters and by the sum over each answer.
"""

from __future__ import annotations

import fcntl
import hashlib
import logging
import mmap
import os
import struct
from collections.abc import Iterator
from itertools import takewhile
from threading import Lock
from typing import NamedTuple
from zlib import crc32

from .response_cache import Answer, Question

_log = logging.getLogger("borewright")
#: What was begun to be written and what is written, in bytes since the ring was made.
_COUNTERS = struct.Struct("<QQ")
#: Length of an answer, sum over it, digest of its question.
_HEAD = struct.Struct("<II32s")
#: One answer takes at most this part of the ring.
_LARGEST_PART = 8


class _Counters(NamedTuple):
    begun: int
    ended: int


class SharedAnswers:
    """A ring of answers.

    Args: ``most_bytes`` of the ring.
    Raises: OSError where the system has no room for it.
    """

    def __init__(self, most_bytes: int) -> None:
        self._size = most_bytes
        self._index: dict[bytes, int] = {}
        self._seen, self._lock = 0, Lock()
        self._file = open(os.memfd_create("answers"), "r+b", buffering=0)  # noqa: SIM115 - as long as the ring
        try:
            self._file.truncate(_COUNTERS.size + most_bytes)
            self._memory = mmap.mmap(self._file.fileno(), 0)
        except OSError:
            self._file.close()
            raise

    def close(self) -> None:
        """Give the memory back."""
        self._memory.close()
        self._file.close()

    def get(self, question: Question) -> Answer | None:
        """The answer, None where no worker has written it, or others were written over it."""
        digest = _digest(question)
        with self._lock:
            self._look_up_what_is_new()
            start = self._index.get(digest)
        return None if start is None else self._read(start, digest)

    def keep(self, question: Question, answer: Answer) -> None:
        """Write an answer for all workers, unless one of them is writing or it is large beside the ring."""
        content = _packed(answer)
        record = _HEAD.pack(len(content), crc32(content), _digest(question)) + content
        if len(record) > self._size // _LARGEST_PART:
            return
        with self._lock:
            try:
                fcntl.lockf(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError:
                return
            try:
                self._append(record)
            finally:
                fcntl.lockf(self._file, fcntl.LOCK_UN)

    def _append(self, record: bytes) -> None:
        begun, ended = self._counters()
        begun = max(begun, ended + len(record))  # further where a worker died over a longer one
        self._memory[: _COUNTERS.size] = _COUNTERS.pack(begun, ended)
        self._put(ended, record)
        self._memory[: _COUNTERS.size] = _COUNTERS.pack(begun, ended + len(record))

    def _look_up_what_is_new(self) -> None:
        """Index what was written since the last look."""
        ended = self._counters().ended
        if ended == self._seen:
            return
        if ended - self._seen <= self._size:
            for digest, start in self._heads(self._seen, ended):
                self._index.pop(digest, None)  # the index stays in the order of the ring
                self._index[digest] = start
        else:
            self._index.clear()
        self._seen = ended
        oldest = self._counters().begun - self._size
        for digest, _ in list(takewhile(lambda one: one[1] < oldest, self._index.items())):
            del self._index[digest]

    def _heads(self, start: int, end: int) -> Iterator[tuple[bytes, int]]:
        """Digests and places of what stands in a part of the ring, as far as nothing was written over it."""
        while start < end:
            length, _, digest = _HEAD.unpack(self._bytes(start, _HEAD.size))
            if start < self._counters().begun - self._size:
                return
            yield digest, start
            start += _HEAD.size + length

    def _read(self, start: int, digest: bytes) -> Answer | None:
        length, expected, found = _HEAD.unpack(self._bytes(start, _HEAD.size))
        content = self._bytes(start + _HEAD.size, min(length, self._size))
        if start < self._counters().begun - self._size or found != digest or crc32(content) != expected:
            return None
        return _unpacked(content)

    def _counters(self) -> _Counters:
        return _Counters(*_COUNTERS.unpack(self._memory[: _COUNTERS.size]))

    def _bytes(self, start: int, length: int) -> bytes:
        place = _COUNTERS.size + start % self._size
        piece = self._memory[place : place + length]
        rest = length - len(piece)
        return piece + self._memory[_COUNTERS.size : _COUNTERS.size + rest] if rest else piece

    def _put(self, start: int, record: bytes) -> None:
        place = start % self._size
        piece, rest = record[: self._size - place], record[self._size - place :]
        self._memory[_COUNTERS.size + place : _COUNTERS.size + place + len(piece)] = piece
        self._memory[_COUNTERS.size : _COUNTERS.size + len(rest)] = rest


def among_workers(most_bytes: int, workers: int) -> SharedAnswers | None:
    """What ``workers`` share that are made after this; None where they are not to, or the system has no way or room."""
    if not most_bytes or workers < 2 or not hasattr(os, "memfd_create"):
        return None
    try:
        return SharedAnswers(most_bytes)
    except OSError as error:
        _log.warning("workers share no answers: %s", error.strerror)
        return None


def _digest(question: Question) -> bytes:
    parts = (question.job.encode(), question.defaults, question.request)
    return hashlib.blake2b(b"".join(b"%d:%b" % (len(part), part) for part in parts), digest_size=32).digest()


def _packed(answer: Answer) -> bytes:
    """The number of parts, their lengths, the parts: the verdict and the pieces."""
    parts = (answer.verdict.encode(), *answer.pieces)
    return struct.pack(f"<H{len(parts)}I", len(parts), *map(len, parts)) + b"".join(parts)


def _unpacked(content: bytes) -> Answer:
    (parts,) = struct.unpack_from("<H", content)
    lengths = struct.unpack_from(f"<{parts}I", content, 2)
    verdict, *pieces = _split(content, 2 + 4 * parts, lengths)
    return Answer(verdict.decode(), tuple(pieces))


def _split(content: bytes, start: int, lengths: tuple[int, ...]) -> Iterator[bytes]:
    for length in lengths:
        yield content[start : start + length]
        start += length
