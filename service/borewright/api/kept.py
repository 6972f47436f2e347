"""Answers that are kept: the same question is answered without asking the domain again.

An answer is kept in pieces: its own and, between each two of them, one that it may share with other answers, as the
limits of their thread. What is shared is kept once.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Hashable
from threading import Lock
from typing import NamedTuple

Pieces = tuple[bytes, ...]

#: What an answer takes beside its pieces: its question, tuple, entry, the heads of its pieces (measured, about).
BESIDE = 1024


class Answer(NamedTuple):
    """A reply in pieces, and its verdict."""

    verdict: str
    pieces: Pieces


class KeptAnswers:
    """Answers by their question, the latest used, bounded by their bytes."""

    def __init__(self) -> None:
        self._kept: OrderedDict[Hashable, Answer] = OrderedDict()
        self._shared: dict[bytes, bytes] = {}
        self._held: dict[bytes, int] = {}
        self._size, self._lock = 0, Lock()

    @property
    def size(self) -> int:
        """Bytes of what is kept, about: own pieces, different shared pieces, and what is beside them."""
        return self._size + BESIDE * len(self._kept)

    def get(self, question: Hashable) -> Answer | None:
        """The answer, None where it is not kept."""
        with self._lock:
            found = self._kept.get(question)
            if found is not None:
                self._kept.move_to_end(question)
        return found

    def keep(self, question: Hashable, answer: Answer, most_bytes: int) -> None:
        """Keep an answer, whose second piece and every second one after it are shared; the longest unused ones go."""
        with self._lock:
            if question in self._kept:
                return
            pieces = list(answer.pieces)
            pieces[1::2] = map(self._share, answer.pieces[1::2])
            self._kept[question] = Answer(answer.verdict, tuple(pieces))
            self._size += sum(map(len, pieces[::2]))
            while self._kept and self.size > most_bytes:
                self._forget(self._kept.popitem(last=False)[1])

    def _share(self, piece: bytes) -> bytes:
        """The piece as it is kept already, or this one."""
        held = self._held.get(piece)
        if held is None:
            self._shared[piece] = piece
            self._size += len(piece)
        self._held[piece] = 1 if held is None else held + 1
        return self._shared[piece]

    def _forget(self, answer: Answer) -> None:
        self._size -= sum(map(len, answer.pieces[::2]))
        for piece in answer.pieces[1::2]:
            held = self._held[piece] - 1
            if held:
                self._held[piece] = held
            else:
                del self._held[piece], self._shared[piece]
                self._size -= len(piece)
