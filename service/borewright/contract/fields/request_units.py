"""Units of the quantities of one request: what a bare number is in, and what the domain gets."""

from __future__ import annotations

from collections.abc import Mapping
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


class RequestUnits(NamedTuple):
    """Unit of bare lengths, and unit of the thread's standard.

    Before the standard is known ``native`` is None: lengths stay as they are written. ``bare`` None is then the own
    unit of the standard.
    """

    bare: Unit | None
    native: Unit | None

    def length(self, quantity: Quantity, allowed: Range) -> Length:
        """A length as the domain takes it.

        Raises: RequestInvalid ``value_out_of_range`` for a bare number outside of what is ``allowed``.
        """
        value, unit = quantity
        if self.native is None or self.bare is None:
            return Length(value, unit or self.bare)  # type: ignore[arg-type]
        if unit is None:
            unit = self.bare
            allowed.check(value, unit, written=value)
        return Length(value if unit == self.native else Length(value, unit).to(self.native), self.native)  # type: ignore[arg-type]

    def physical(self, quantity: Quantity, dimension: Dimension, allowed: Range) -> float:
        """A quantity that is no length, in the base unit of its dimension: MPa, N*m, kW. Raises as :meth:`length`."""
        value, unit = quantity
        if unit is None:
            unit = BARE_UNITS[dimension][self.bare != "in"]
            allowed.check(value, unit, written=value)
        return float(value * units.factor(dimension, unit))
