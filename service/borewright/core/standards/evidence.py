"""How the resolvers keep the proof of each figure while they compute it: cites, steps, assumptions, cautions."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from borewright.core.citation import Cite
from borewright.core.model import Step
from borewright.core.record import Record


class Evidence(Record):
    """Collects what will accompany a thread; each figure is recorded where it is made."""

    __slots__ = ()

    def read(self, field: str, value: Decimal, *, unit: str, place: Cite) -> Decimal:
        """Record ``value`` in ``unit``, read from a table at ``place``, for ``field``, and return it."""
        self.steps.append(Step(field, "table", {}, value, unit, place.text))
        self.cite(field, place)
        return value

    def work(
        self, field: str, value: Decimal, *, formula: str, inputs: dict[str, object], unit: str, place: Cite
    ) -> Decimal:
        """Record ``value`` in ``unit``, worked out by ``formula`` over ``inputs`` as ``place`` says, for ``field``;
        return it.
        """
        self.steps.append(Step(field, formula, inputs, value, unit, place.text))
        self.cite(field, place)
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
