"""Where a figure stands and how well it is known: from the head of its table, or in words where no table holds it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from borewright.tables import load

from .caches import cached, read_once
from .model import Source, Standard, Status, by_formula


@dataclass(frozen=True, slots=True)
class Cite:
    """A place in a document, and how well the figure taken from it is known."""

    document: str
    edition: str
    locator: str
    status: Status

    @property
    def text(self) -> str:
        """The cite in one line, for a derivation."""
        return f"{self.document} ({self.edition}) {self.locator}".replace("() ", "")

    @property
    def standard(self) -> Standard:
        """The document as the standard of a thread."""
        return Standard(self.document, self.edition)

    def computed(self, locator: str | None = None) -> Cite:
        """The same document, at ``locator`` if given, for a figure worked out from its published formula or table."""
        return Cite(self.document, self.edition, locator or self.locator, by_formula(self.status))

    def at(self, locator: str, status: Status | None = None) -> Cite:
        """``locator``, another place in the same document; ``status`` where its figure is known otherwise."""
        return Cite(self.document, self.edition, locator, status or self.status)

    def rated(self, status: Status) -> Cite:
        """The same place for a figure of ``status``."""
        return Cite(self.document, self.edition, self.locator, status)

    def source(self, field: str) -> Source:
        """The place that speaks for ``field`` of the reply."""
        return _source(field, self.document, self.edition, self.locator, self.status)


@cached(1024)
def _source(field: str, document: str, edition: str, locator: str, status: Status) -> Source:
    """Many notes have the same source: it is held once."""
    return Source(field, document, edition, locator, status)


@read_once
def cite(table: str, *, column: str | None = None, status: str | None = None) -> Cite:
    """The cite of a table's figures.

    Args: ``column`` takes the status the head gives that column, if any; ``status`` is the row's own and wins.
    Source: the table's head.
    """
    head = load(table).head
    known = status or head.get(f"status {column}", head["status"])
    return Cite(head["document"], head["edition"], head["table"], cast(Status, known))
