"""How the resolvers keep the proof of each figure while they compute it: cites, steps, assumptions, cautions."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import cast

from borewright.core.model import Status, Step, by_formula
from borewright.core.record import Record
from borewright.tables import Table


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

    def computed(self, locator: str | None = None) -> Cite:
        """The same document, at ``locator`` where one is given, for a figure worked out from its published formula or
        table.
        """
        return Cite(self.document, self.edition, locator or self.locator, by_formula(self.status))


def cite(table: Table, *, column: str | None = None, status: str | None = None) -> Cite:
    """The cite of a table's figures.

    Args: ``column`` takes the status the head gives that column, if any; ``status`` is the row's own and wins.
    """
    known = status or table.head.get(f"status {column}", table.head["status"])
    return Cite(table.head["document"], table.head["edition"], table.head["table"], cast(Status, known))


class Evidence(Record):
    """Collects what will accompany a thread; each figure is recorded where it is made."""

    __slots__ = ()

    def source(self, field: str, place: Cite) -> None:
        """Name the place that speaks for a field of the reply."""
        self.cite(field, place.document, edition=place.edition, locator=place.locator, status=place.status)

    def read(self, field: str, value: Decimal, *, unit: str, place: Cite) -> Decimal:
        """Record ``value`` in ``unit``, read from a table at ``place``, for ``field``, and return it."""
        self.steps.append(Step(field, "table", {}, value, unit, place.text))
        self.source(field, place)
        return value

    def work(
        self, field: str, value: Decimal, *, formula: str, inputs: dict[str, object], unit: str, place: Cite
    ) -> Decimal:
        """Record ``value`` in ``unit``, worked out by ``formula`` over ``inputs`` as ``place`` says, for ``field``;
        return it.
        """
        self.steps.append(Step(field, formula, inputs, value, unit, place.text))
        self.source(field, place)
        return value

    def sheet(self, *, unit: str, place: Cite, **inputs: object) -> Sheet:
        """A derivation sheet for figures that share their unit, their place and their inputs."""
        return Sheet(self, unit, place, inputs)


@dataclass(frozen=True, slots=True)
class Sheet:
    """Figures worked out of the same inputs."""

    proof: Evidence
    unit: str
    place: Cite
    inputs: dict[str, object]

    def put(self, field: str, value: Decimal, *, formula: str, place: Cite | None = None) -> Decimal:
        """Record ``value``, in the sheet's unit, worked out by ``formula`` over the sheet's inputs, for ``field``, and
        return it.

        Args: ``place`` that says so, None = that of the sheet.
        """
        return self.proof.work(
            field, value, formula=formula, inputs=self.inputs, unit=self.unit, place=place or self.place
        )
