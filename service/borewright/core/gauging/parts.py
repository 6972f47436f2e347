"""Notes of the gauges while they are worked out, and sizes with their derivation."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from borewright.core.model import Caution, Notes, Range, Source, Status, Step, Unit


@dataclass(slots=True)
class GaugeNotes:
    """Collects notes; ``prefix`` is the part of the reply that is being filled (empty, or ``before_finish.``)."""

    unit: Unit
    prefix: str = ""
    assumptions: list[str] = field(default_factory=list)
    cautions: dict[str, Caution] = field(default_factory=dict)
    sources: list[Source] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)

    def caution(self, code: str, text: str) -> None:
        """Note something once."""
        self.cautions.setdefault(code, Caution(code, text))

    def assume(self, text: str) -> None:
        """Note what was taken by default, once."""
        if text not in self.assumptions:
            self.assumptions.append(text)

    def source(self, name: str, document: str, *, edition: str, locator: str, status: Status) -> None:
        """Note where a group of sizes comes from."""
        self.sources.append(Source(self.prefix + name, document, edition, locator, status))

    def size(self, name: str, formula: str, inputs: Mapping[str, object], value: Decimal, source: str) -> Decimal:
        """Note how a size was worked out, and return it."""
        self.steps.append(Step(self.prefix + name, formula, inputs, value, self.unit, source))
        return value

    def zone(
        self, name: str, formulas: tuple[str, str], inputs: Mapping[str, object], value: Range, source: str
    ) -> Range:
        """Note both ends of a zone, and return it."""
        for end, formula, size in zip(("min", "max"), formulas, (value.min, value.max), strict=True):
            self.steps.append(Step(f"{self.prefix}{name}.{end}", formula, inputs, size, self.unit, source))
        return value

    def notes(self) -> Notes:
        """Everything noted."""
        return Notes(tuple(self.assumptions), tuple(self.cautions.values()), tuple(self.sources), tuple(self.steps))
