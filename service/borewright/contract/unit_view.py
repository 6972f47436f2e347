"""Numbers of a reply: exact figures of the standard's own unit, or converted once, after the standard's rounding.

A figure in the thread's own unit is the printed number. A converted one is rounded to 7 decimals of an inch or 5 of a
millimetre, finer than any printed limit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from typing import cast

from borewright.contract.fields.units import Dimension
from borewright.core.caches import cached
from borewright.core.model import MM_PER_INCH, Diameters, Range, Unit
from borewright.core.rounding import half_even

from . import texts
from .fields import units

Json = dict[str, object]

#: The units of a reply, by unit of length.
REPLY_UNITS: Mapping[Unit, Mapping[str, str]] = {
    "in": {
        "length": "in",
        "cutting_speed": "ft/min",
        "feed": "in/rev",
        "torque": "lbf*in",
        "power": "hp",
        "force": "lbf",
        "stress": "psi",
    },
    "mm": {
        "length": "mm",
        "cutting_speed": "m/min",
        "feed": "mm/rev",
        "torque": "N*m",
        "power": "kW",
        "force": "N",
        "stress": "MPa",
    },
}
_SI: Mapping[str, Dimension] = {
    "cutting_speed": "speed",
    "torque": "torque",
    "power": "power",
    "force": "force",
    "stress": "stress",
}
_PLACES: Mapping[Unit, int] = {"in": 7, "mm": 5}
_LENGTHS, _PHYSICAL = 1024, 128
_AS_THEY_ARE = frozenset({str, bool, int, float, type(None)})


def significant(value: float | None) -> float | None:
    """A figure without unit to four significant digits."""
    return None if value is None else float(f"{value:.4g}")


def number_or_none(value: Decimal | float | None) -> int | float | None:
    """A figure as a JSON number, or null where there is none."""
    return None if value is None else number(value)


def number(value: Decimal | float) -> int | float:
    """A figure as a JSON number, whole ones without a point."""
    as_float = float(value)
    as_int = int(as_float)
    return as_int if as_int == as_float else as_float


class UnitView:
    """How figures that are held in ``native`` look in ``asked``."""

    def __init__(self, native: Unit, asked: Unit) -> None:
        self.asked = asked
        self.units = REPLY_UNITS[asked]
        self.length = _converter(native, asked, power=1)
        self.area = _converter(native, asked, power=2)
        self._physical = {name: _four_digits(1 / float(units.factor(_SI[name], self.units[name]))) for name in _SI}
        self.millimetres = _from_millimetres(asked)

    def text(self, text: str) -> str:
        """A text of the domain with its quantities in the units of the reply."""
        return texts.in_units(text, self.asked)

    def texts(self, several: Iterable[str]) -> list[str]:
        """Several texts with their quantities in the units of the reply."""
        return texts.all_in_units(several, self.asked)

    def length_or_none(self, value: Decimal | None) -> int | float | None:
        """A length, or null where the standard sets none."""
        return None if value is None else self.length(value)

    def area_or_none(self, value: Decimal | None) -> int | float | None:
        """An area in the square of the unit of length."""
        return None if value is None else self.area(value)

    def range(self, limits: Range) -> Json:
        """Two limits."""
        return {"min": self.length_or_none(limits.min), "max": self.length_or_none(limits.max)}

    def diameters(self, limits: Diameters) -> Json:
        """Limits of the three diameters."""
        return {
            "major_diameter": self.range(limits.major_diameter),
            "pitch_diameter": self.range(limits.pitch_diameter),
            "minor_diameter": self.range(limits.minor_diameter),
        }

    def physical(self, dimension: str) -> Callable[[float], int | float]:
        """What shows a torque, force, stress, power or cutting speed that is held in N*m, N, MPa, kW, m/min."""
        return self._physical[dimension]

    def shown(self, name: str, value: object) -> object:
        """A value of a mapping whose decimals are lengths; a name that ends in ``angle`` is in degrees."""
        if type(value) in _AS_THEY_ARE:
            return value
        if isinstance(value, Decimal):
            return number(value) if name.endswith("angle") else self.length(value)
        if isinstance(value, Range):
            return self.range(value)
        if isinstance(value, Diameters):
            return self.diameters(value)
        if isinstance(value, Mapping):
            return self.mapping(value)
        return [self.shown(name, part) for part in cast("Iterable[object]", value)]

    def mapping(self, values: Mapping[str, object]) -> Json:
        """A mapping whose decimals are lengths."""
        return {name: self.shown(name, value) for name, value in values.items()}


def _converter(native: Unit, asked: Unit, *, power: int) -> Callable[[Decimal], int | float]:
    times = MM_PER_INCH**power if (native, asked) == ("in", "mm") else Decimal(1)
    over = MM_PER_INCH**power if (native, asked) == ("mm", "in") else Decimal(1)
    places, as_held = _PLACES[asked], native == asked

    @cached(_LENGTHS)
    def convert(value: Decimal) -> int | float:
        return number(half_even(value if as_held else value * times / over, places))

    return convert


def _four_digits(per_si: float) -> Callable[[float], int | float]:
    @cached(_PHYSICAL)
    def convert(value_si: float) -> int | float:
        return number(float(f"{value_si * per_si:.4g}"))

    return convert


def _from_millimetres(asked: Unit) -> Callable[[float], float]:
    mm_per_unit = float(MM_PER_INCH) if asked == "in" else 1.0

    def convert(value_mm: float) -> float:
        return float(f"{value_mm / mm_per_unit:.4g}")

    return convert


def plain(value: object) -> object:
    """A value of a derivation, or a row of a table, as it was made, in its own unit."""
    if type(value) in _AS_THEY_ARE:
        return value
    if isinstance(value, Decimal):
        return number(value)
    if isinstance(value, Range):
        return {"min": plain(value.min), "max": plain(value.max)}
    if isinstance(value, Mapping):
        return {name: plain(inner) for name, inner in value.items()}
    if isinstance(value, (tuple, list)):
        return [plain(inner) for inner in value]
    return value


_VIEWS = {(native, asked): UnitView(native, asked) for native in REPLY_UNITS for asked in REPLY_UNITS}


def view(native: Unit, asked: Unit | None) -> UnitView:
    """The view of figures held in ``native``; ``asked`` None = as they are."""
    return _VIEWS[native, asked or native]
