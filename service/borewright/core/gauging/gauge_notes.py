"""Notes of the gauges while they are worked out, and sizes with their derivation."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.model import Range, Status, Step, Unit
from borewright.core.record import Record


class GaugeNotes(Record):
    """``prefix`` is the part of the reply being filled (empty, or ``before_finish.``); nothing is noted twice."""

    __slots__ = ("prefix", "unit")

    def __init__(self, unit: Unit) -> None:
        super().__init__()
        self.unit, self.prefix = unit, ""

    def caution(self, code: str, text: str) -> None:
        """Note something once."""
        if all(noted.code != code for noted in self.cautions):
            super().caution(code, text)

    def assume(self, *texts: str) -> None:
        """Note what was taken by default, once."""
        super().assume(*(text for text in texts if text not in self.assumptions))

    def source(self, name: str, document: str, *, edition: str, locator: str, status: Status) -> None:
        """Note where a group of sizes comes from."""
        self.cite(self.prefix + name, document, edition=edition, locator=locator, status=status)

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
