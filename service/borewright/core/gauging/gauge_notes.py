"""Notes of the gauges while they are worked out, and sizes with their derivation."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from borewright.core.citation import Cite
from borewright.core.model import Range, Step, Unit
from borewright.core.record import Record


class GaugeNotes(Record):
    """``prefix`` is the part of the reply being filled (empty, or ``before_finish.``); nothing is noted twice."""

    __slots__ = ("prefix", "unit")

    def __init__(self, unit: Unit) -> None:
        super().__init__()
        self.unit, self.prefix = unit, ""

    def caution(self, code: str, text: str) -> None:
        """Note a caution of ``code`` and ``text`` once."""
        if all(noted.code != code for noted in self.cautions):
            super().caution(code, text)

    def assume(self, *texts: str) -> None:
        """Note ``texts`` on what was taken by default, each once."""
        super().assume(*(text for text in texts if text not in self.assumptions))

    def cite(self, field: str, place: Cite) -> None:
        """Note ``place``, where the sizes in ``field`` come from."""
        super().cite(self.prefix + field, place)

    def size(self, name: str, formula: str, inputs: Mapping[str, object], value: Decimal, source: str) -> Decimal:
        """Note that the size ``name`` is ``formula`` over ``inputs`` by ``source``, and return its ``value``, in the
        unit of the notes.
        """
        self.steps.append(Step(self.prefix + name, formula, inputs, value, self.unit, source))
        return value

    def zone(
        self, name: str, formulas: tuple[str, str], inputs: Mapping[str, object], value: Range, source: str
    ) -> Range:
        """Note that the ends of ``name`` are ``formulas`` over ``inputs`` by ``source``, and return the ``value``."""
        for end, formula, size in zip(("min", "max"), formulas, (value.min, value.max), strict=True):
            self.steps.append(Step(f"{self.prefix}{name}.{end}", formula, inputs, size, self.unit, source))
        return value
