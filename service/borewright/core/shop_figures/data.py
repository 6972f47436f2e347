"""From what was measured to numbers of one scale: in published standard deviations, off the published mean."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from math import hypot
from typing import Any, NamedTuple

from borewright.core.chance import distributions
from borewright.core.errors import ShopFigureError
from borewright.core.materials import part_material
from borewright.core.model import MM_PER_INCH, Length, Unit
from borewright.core.quantity_text import length

from .counted import band_deviation
from .measurements import Gauge, Measurement
from .normal_fit import NO_GAUGE_ERROR, GaugeError


class Group(NamedTuple):
    """Pieces that one figure is fitted to: its ``figure`` and what it holds for."""

    figure: str
    key: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Datum:
    """A piece, or several alike, in one scale: ``values`` in published standard deviations (``sigma``) off
    the published ``mean``, both in the ``unit`` of the figure; ``lot`` names pieces that may be alike, ``band`` is the
    width of an unmeasured tap's own, ``tolerance`` what the gauge is held against, all three in sigmas.
    """

    group: Group
    place: int
    measurement: Measurement
    values: tuple[float, ...]
    mean: float
    sigma: float
    unit: str
    gauge: GaugeError = NO_GAUGE_ERROR
    resolution: float = 0.0
    tolerance: float | None = None
    lot: str | None = None
    band: float = 0.0
    extra: Mapping[str, Any] = field(default_factory=dict)

    @property
    def shown(self) -> tuple[float, ...]:
        """The values in the unit of the figure."""
        return tuple(self.mean + self.sigma * value for value in self.values)


def material_group(measurement: Measurement) -> str | None:
    """ISO 513 letter of the part of ``measurement``, None where it is not told. Raises MaterialError."""
    if measurement.material is None:
        return None
    return part_material.find(measurement.material, strict=True).iso_group


def refused(code: str, text: str, pointer: str, *, allowed: tuple[str, ...] = ()) -> ShopFigureError:
    """The refusal of a measurement, ``code`` and ``text``, at the field ``pointer``; ``allowed`` says what may be."""
    return ShopFigureError(code, text, pointer=pointer, allowed=allowed)


def needed(value: Any, name: str) -> Any:
    """The ``value`` of the field ``name``. Raises ShopFigureError where the measurement does not have it."""
    if value is None or value == ():
        raise refused("shop_field_missing", f"This kind of measurement needs `{name}`.", f"/{name}")
    return value


def length_of(given: Length, unit: Unit, own: Unit) -> Decimal:
    """The length ``given`` in ``unit``; one without a unit is in the ``own`` unit of what was measured."""
    return Length(given.value, given.unit or own).to(unit)


def gauge_error(gauge: Gauge | None, unit: Unit, sigma: float) -> tuple[GaugeError, float]:
    """Errors of ``gauge`` in published standard deviations of ``sigma`` in ``unit``, the step of its reading among
    them; and that step.
    """
    if gauge is None:
        return NO_GAUGE_ERROR, 0.0
    repeat, calibration, step = (
        0.0 if one is None else float(length_of(one, unit, unit)) / sigma
        for one in (gauge.repeatability, gauge.calibration, gauge.resolution)
    )
    return GaugeError(hypot(repeat, band_deviation(step_value=step)), calibration), step


def size_band(diameter: Decimal, unit: Unit) -> tuple[float, float, float] | None:
    """The band of sizes that ``diameter`` in ``unit`` lies in: its ends and the standard deviation of its holes, all
    in inches; None beyond the table.

    Source: drilled_hole_spread table.
    """
    inches = float(diameter if unit == "in" else diameter / MM_PER_INCH)
    before = 0.0
    for end, sigma in distributions.hole_bands():
        if inches <= end:
            return before, end, sigma
        before = end
    return None


def around(middle: Decimal, *, share: Decimal, unit: Unit) -> str:
    """The text of what lies a ``share`` around ``middle``, in its ``unit``."""
    part = share * middle
    return f"{length(middle - part, unit)} to {length(middle + part, unit)}"
