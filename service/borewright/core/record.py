"""The one note-taker: what will accompany a result is recorded while the result is worked out."""

from __future__ import annotations

from collections.abc import Iterable
from sys import intern

from .citation import Cite
from .model import Caution, Notes, Source, Step


class Record:
    """Assumptions, cautions, sources and steps in the order in which they were recorded.

    The subjects extend it by what they cite: thread standards, gauges, cutting data.
    """

    __slots__ = ("assumptions", "cautions", "sources", "steps")

    def __init__(self, assumptions: Iterable[str] = ()) -> None:
        self.assumptions: list[str] = list(assumptions)
        self.cautions: list[Caution] = []
        self.sources: list[Source] = []
        self.steps: list[Step] = []

    def assume(self, *texts: str) -> None:
        """Record in ``texts``, plain words, what was taken by default."""
        self.assumptions.extend(map(intern, texts))  # equal ones of many kept results are one object

    def caution(self, code: str, text: str) -> None:
        """Record in ``text``, by its ``code``, something that can cost money or hurt people."""
        self.cautions.append(Caution(code, text))

    def cite(self, field: str, place: Cite) -> None:
        """Record ``place``, which speaks for ``field`` of the reply."""
        self.sources.append(place.source(field))

    def notes(self) -> Notes:
        """Everything recorded so far."""
        return Notes(tuple(self.assumptions), tuple(self.cautions), tuple(self.sources), tuple(self.steps))
