"""Responses that are kept: the same question is answered without asking the domain again.

A response is kept in pieces: its own and, between each two of them, one that it may share with others, as the limits of
their thread. What is shared is kept once.
"""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock
from typing import NamedTuple

from . import metrics

Pieces = tuple[bytes, ...]

#: What a response takes beside question and pieces: tuples, entry, the heads of its pieces (measured, about).
BESIDE = 1024
#: What a shared piece takes beside its bytes: its head and its two entries (measured, about).
BESIDE_SHARED = 224


#: The defaults of what is asked without any.
NO_DEFAULTS = b""


class Question(NamedTuple):
    """The ``job`` and the form of its answer, the ``defaults`` of a batch by their digest, the bytes of the request."""

    job: str
    defaults: bytes
    request: bytes


class Answer(NamedTuple):
    """A reply in pieces, and its verdict."""

    verdict: str
    pieces: Pieces


class ResponseCache:
    """Answers by their question, the latest used, bounded by the bytes of both. Args: ``most_bytes`` 0 = keep none."""

    def __init__(self, most_bytes: int) -> None:
        self._most = most_bytes
        self._kept: OrderedDict[Question, Answer] = OrderedDict()
        self._shared: dict[bytes, bytes] = {}
        self._held: dict[bytes, int] = {}
        self._size, self._lock = 0, Lock()

    def __len__(self) -> int:
        """Answers that are kept."""
        return len(self._kept)

    @property
    def size(self) -> int:
        """Bytes of what is kept, about: questions, own pieces, different shared pieces, and what is beside them."""
        return self._size

    def get(self, question: Question) -> Answer | None:
        """The answer, None where it is not kept."""
        with self._lock:
            found = self._kept.get(question)
            if found is not None:
                self._kept.move_to_end(question)
        return found

    def keep(self, question: Question, answer: Answer) -> None:
        """Keep an answer, whose second piece and every second one after it are shared; the longest unused ones go."""
        if _own_bytes(question, answer) > self._most:
            return
        with self._lock:
            if question in self._kept:
                return
            pieces = list(answer.pieces)
            pieces[1::2] = map(self._share, answer.pieces[1::2])
            self._kept[question] = Answer(answer.verdict, tuple(pieces))
            self._size += _own_bytes(question, answer)
            while self._size > self._most:
                self._forget(*self._kept.popitem(last=False))
            metrics.show_response_cache(answers=len(self._kept), size=self._size)

    def _share(self, piece: bytes) -> bytes:
        """The piece as it is kept already, or this one."""
        held = self._held.get(piece)
        if held is None:
            self._shared[piece] = piece
            self._size += BESIDE_SHARED + len(piece)
        self._held[piece] = 1 if held is None else held + 1
        return self._shared[piece]

    def _forget(self, question: Question, answer: Answer) -> None:
        self._size -= _own_bytes(question, answer)
        for piece in answer.pieces[1::2]:
            held = self._held[piece] - 1
            if held:
                self._held[piece] = held
            else:
                del self._held[piece], self._shared[piece]
                self._size -= BESIDE_SHARED + len(piece)


def _own_bytes(question: Question, answer: Answer) -> int:
    return BESIDE + len(question.request) + len(question.defaults) + sum(map(len, answer.pieces[::2]))
