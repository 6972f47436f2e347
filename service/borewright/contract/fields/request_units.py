"""Units of the quantities of one request: what a bare number is in, and what the domain gets."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from borewright.core.model import Length, Unit

from . import units
from .ranges import Range
from .units import Dimension, Quantity

#: Unit of bare lengths by ``unit_system``.
UNIT_OF_SYSTEM: Mapping[str, Unit] = {"inch": "in", "metric": "mm"}
#: Unit of a bare number of the inch set and of the metric set, where it is no length.
BARE_UNITS: Mapping[Dimension, tuple[str, str]] = {
    "stress": ("psi", "MPa"),
    "torque": ("lbf*in", "N*m"),
    "power": ("hp", "kW"),
}
#: Dimensions that have no unit of their own.
_RATIOS = ("fraction", "percent")


class RequestUnits(NamedTuple):
    """Unit of bare lengths, and unit of the thread's standard.

    Before the standard is known ``native`` is None: lengths stay as they are written. ``bare`` None is then the own
    unit of the standard.
    """

    bare: Unit | None
    native: Unit | None

    def converted(self, quantity: Quantity, dimension: Dimension, allowed: Range) -> Length | Decimal | float:
        """What the domain gets of a quantity: a length, a ratio as it is, or a float in MPa, N*m or kW.

        Raises: RequestInvalid ``value_out_of_range`` for a bare number outside of what is ``allowed``.
        """
        if dimension == "length":
            return self._length(quantity, allowed)
        if dimension in _RATIOS:
            return quantity.value
        unit = _unit(quantity, BARE_UNITS[dimension][self.bare != "in"], allowed)
        return float(quantity.value * units.factor(dimension, unit))

    def _length(self, quantity: Quantity, allowed: Range) -> Length:
        if self.native is None or self.bare is None:
            return Length(quantity.value, quantity.unit or self.bare)  # type: ignore[arg-type]
        unit = _unit(quantity, self.bare, allowed)
        return Length(Length(quantity.value, unit).to(self.native), self.native)  # type: ignore[arg-type]


def _unit(quantity: Quantity, bare: str, allowed: Range) -> str:
    """Unit of a quantity; a bare number is in the unit ``bare``, whose span it may still be outside of."""
    if quantity.unit is not None:
        return quantity.unit
    allowed.check(quantity.value, bare, written=quantity.value)
    return bare
