"""Lengths and ranges of lengths."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Unit = Literal["in", "mm"]

MM_PER_INCH = Decimal("25.4")


@dataclass(frozen=True, slots=True)
class Length:
    """A length as it was given: ``unit`` None means the thread's own unit."""

    value: Decimal
    unit: Unit | None = None

    def to(self, unit: Unit) -> Decimal:
        """The length in ``unit``, exact on the way from inch to millimetre."""
        if self.unit is None or self.unit == unit:
            return self.value
        return self.value * MM_PER_INCH if unit == "mm" else self.value / MM_PER_INCH


@dataclass(frozen=True, slots=True)
class LengthRange:
    """A pair of lengths as given; either end may be open."""

    min: Length | None
    max: Length | None


@dataclass(frozen=True, slots=True)
class Range:
    """Two limits in the thread's own unit; None = the standard sets no limit on that side."""

    min: Decimal | None
    max: Decimal | None

    @property
    def width(self) -> Decimal:
        """Tolerance, in the unit of the limits: ``max - min``. Both ends must be set."""
        if self.min is None or self.max is None:
            raise ValueError("an open range has no width")
        return self.max - self.min
