"""The figures that speak for a way of rework, each with the formula and the inputs that it was worked out from."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.citation import Cite
from borewright.core.model import Notes, Range, Source, Step, Unit
from borewright.core.record import Record
from borewright.core.rounding import half_even

#: Decimals of a length that was worked out; coats and windows are told finer than limits of size.
PLACES: dict[Unit, int] = {"in": 5, "mm": 4}
#: Figures that are no lengths and stand in a proof as they are.
GEOMETRY = Cite("geometry of the thread", "", "60 degree form, diameters", "computed")
H28 = Cite("FED-STD-H28/2B", "1991", "Tables II.B.1 and II.B.2", "second_hand")


class Proof(Record):
    """Gathers the figures of one way under their names, in the unit of the drawn thread."""

    __slots__ = ("figures", "unit")

    def __init__(self, unit: Unit) -> None:
        super().__init__()
        self.unit = unit
        self.figures: dict[str, object] = {}

    def state(self, name: str, value: object) -> None:
        """Keep ``value``, which was given, read from a table or is a word, as the figure ``name``."""
        if value is not None and value != Range(None, None):
            self.figures[name] = value

    def length(
        self, name: str, value: Decimal, *, formula: str, place: Cite = GEOMETRY, **inputs: Decimal | None
    ) -> Decimal:
        """Keep ``value``, a length in the unit of the thread worked out by ``formula`` over ``inputs`` as ``place``
        says, as the figure ``name``; return it as it is told.
        """
        places = PLACES[self.unit]
        told = half_even(value, places)
        self._work(name, told, f"half_even({formula}, {places})", inputs, self.unit, place)
        return told

    def figure(self, name: str, value: float, *, formula: str, place: Cite = GEOMETRY, **inputs: object) -> float:
        """Keep ``value``, a ratio or percent worked out by ``formula`` over ``inputs`` as ``place`` says, as the figure
        ``name``; return it.
        """
        self._work(name, value, formula, inputs, "", place)
        return value

    def work(self, name: str, value: Decimal, *, formula: str, place: Cite, inputs: Mapping[str, object]) -> Decimal:
        """Keep ``value``, a length in the unit of the thread that is rounded already, worked out by ``formula`` over
        ``inputs`` as ``place`` says, as the figure ``name``; return it.
        """
        self._work(name, value, formula, inputs, self.unit, place)
        return value

    def _work(
        self, name: str, value: object, formula: str, inputs: Mapping[str, object], unit: str, place: Cite
    ) -> None:
        self.figures[name] = value
        self.steps.append(Step(f"proof.{name}", formula, inputs, value, unit, place.text))
        source = place.source(f"proof.{name}")
        if source not in self.sources:
            self.sources.append(source)

    def copy(self) -> Proof:
        """The same figures, for another way that adds its own."""
        other = Proof(self.unit)
        other.figures, other.steps, other.sources = dict(self.figures), list(self.steps), list(self.sources)
        return other

    def finished(self, *sources: Source) -> Notes:
        """Everything recorded, with further ``sources``."""
        found = self.notes()
        return Notes(found.assumptions, found.cautions, (*found.sources, *sources), found.steps)
