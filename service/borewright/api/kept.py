"""Answers that are kept: the same question is answered without asking the domain again.

An answer is kept in pieces. Longer pieces that several answers share, as the limits of their thread, are kept once.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Hashable
from threading import Lock

Pieces = tuple[bytes, ...]

#: What an answer takes beside its longer pieces: its question, its tuple, what stands between them, the entries of the
#: tables (measured, about).
BESIDE = 2048
#: A shorter piece is not looked for among the others.
SHORTEST_SHARED = 128


class KeptAnswers:
    """Answers by their question, the latest used, bounded by their bytes."""

    def __init__(self) -> None:
        self._kept: OrderedDict[Hashable, Pieces] = OrderedDict()
        self._pieces: dict[bytes, bytes] = {}
        self._held: Counter[bytes] = Counter()
        self._size, self._lock = 0, Lock()

    @property
    def size(self) -> int:
        """Bytes of what is kept, about: all different longer pieces, and what is beside them."""
        return self._size + BESIDE * len(self._kept)

    def get(self, question: Hashable) -> Pieces | None:
        """The answer, None where it is not kept."""
        with self._lock:
            found = self._kept.get(question)
            if found is not None:
                self._kept.move_to_end(question)
        return found

    def keep(self, question: Hashable, answer: Pieces, most_bytes: int) -> None:
        """Keep an answer; the longest unused ones go."""
        with self._lock:
            if question in self._kept:
                return
            self._kept[question] = tuple(
                self._share(piece) if len(piece) >= SHORTEST_SHARED else piece for piece in answer
            )
            while self._kept and self.size > most_bytes:
                self._forget(self._kept.popitem(last=False)[1])

    def _share(self, piece: bytes) -> bytes:
        """The piece as it is kept already, or this one."""
        if not self._held[piece]:
            self._pieces[piece] = piece
            self._size += len(piece)
        self._held[piece] += 1
        return self._pieces[piece]

    def _forget(self, answer: Pieces) -> None:
        for piece in answer:
            if len(piece) < SHORTEST_SHARED:
                continue
            self._held[piece] -= 1
            if not self._held[piece]:
                del self._held[piece], self._pieces[piece]
                self._size -= len(piece)
