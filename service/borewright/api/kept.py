"""Answers that are kept as bytes: the same question is answered without asking the domain again."""

from __future__ import annotations

from collections import OrderedDict
from threading import Lock


class KeptAnswers:
    """Answers by the bytes of their question, the latest used, bounded by their bytes."""

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[object, ...], bytes] = OrderedDict()
        self._size, self._lock = 0, Lock()

    def get(self, key: tuple[object, ...]) -> bytes | None:
        """The answer, None where it is not kept."""
        with self._lock:
            found = self._kept.get(key)
            if found is not None:
                self._kept.move_to_end(key)
        return found

    def keep(self, key: tuple[object, ...], answer: bytes, most_bytes: int) -> None:
        """Keep an answer; the longest unused ones go."""
        with self._lock:
            if key in self._kept:
                return
            self._kept[key] = answer
            self._size += len(answer)
            while self._size > most_bytes:
                self._size -= len(self._kept.popitem(last=False)[1])
