"""How long a request may still take: asked between the steps of what has many."""

from __future__ import annotations

from typing import Protocol


class TimeLeft(Protocol):
    """The time that one request has left."""

    def allow(self, items: int) -> None:
        """So many more ``items`` are to be worked out: they bring time of their own."""

    def check(self) -> None:
        """Raise what ends the request where it has taken too much."""

    @property
    def left_s(self) -> float:
        """Time that it may still take, in seconds."""


class _Unbounded:
    """That of whoever waits as long as it takes."""

    left_s = float("inf")

    def allow(self, items: int) -> None:
        """All are."""

    def check(self) -> None:
        """Nothing is too much."""


UNBOUNDED: TimeLeft = _Unbounded()
