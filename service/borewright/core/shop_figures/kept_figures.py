"""The fitted figures as a shop keeps them and requests hand them on."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from math import exp
from typing import TYPE_CHECKING, Any

from borewright.core.model import FinishInput, Length, Unit
from borewright.core.rounding import half_even

from .figures import MeasuredCoat, MeasuredCut, MeasuredOversize, MeasuredTapLife, MeasuredTorque, ShopFigures

if TYPE_CHECKING:
    from .fitted import Count, Fit

_PLACES: dict[Unit, int] = {"in": 7, "mm": 6}
_DRILL_PLACES: dict[Unit, int] = {"in": 4, "mm": 3}


def kept(rows: Sequence[Fit | Count], unit: Unit) -> ShopFigures:
    """The figures of ``rows`` with lengths in ``unit``, named by what they say."""
    found: dict[str, list[Any]] = {name: [] for name in _MAKERS}
    for row in rows:
        name = row.group.figure
        if name in _MAKERS and getattr(row, "is_kept", True):
            found[name].append(_MAKERS[name](row, unit))
    listed: dict[str, Any] = {name: tuple(several) for name, several in found.items()}
    figures = ShopFigures(**listed)
    return replace(figures, id=hashlib.sha256(repr(figures).encode()).hexdigest()[:16])


def _digits(value: float) -> float:
    return float(f"{value:.7g}")


def _length(value: float, unit: Unit) -> Length:
    return Length(half_even(Decimal(repr(value)), _PLACES[unit]), unit)


def _date(row: Fit | Count) -> str | None:
    return max((one.measurement.date for one in row.data if one.measurement.date is not None), default=None)


def _shared(row: Fit) -> dict[str, Any]:
    """What every fitted figure says of itself."""
    found = row.posterior
    return {
        "count": found.count,
        "weight": _digits(found.weight),
        "date": _date(row),
        "spread": _digits(found.spread * row.sigma),
        "standard_deviation": _digits(found.sigma * row.sigma),
        "scale_factors": tuple(_digits(one) for one in row.scale_factors),
    }


def _oversize(row: Fit, unit: Unit) -> MeasuredOversize:
    _, group, machine, style = row.group.key
    drills = [one.extra["drill"] for one in row.data]
    middle = half_even(sum(drills, Decimal(0)) / len(drills), _DRILL_PLACES[unit])
    return MeasuredOversize(
        **_shared(row),
        material_group=group,
        machine=machine,
        drill_diameter=Length(middle, unit),
        mean=_length(row.value(row.posterior.mean), unit),
        unit=unit,
        drill_style=style,
    )


def _cut(row: Fit, _unit: Unit) -> MeasuredCut:
    group, machine, method, tapping, style, known = row.group.key
    return MeasuredCut(
        **_shared(row),
        material_group=group,
        machine=machine,
        mean=_digits(row.value(row.posterior.mean)),
        method=method,
        tapping=tapping,
        tap_style=style,
        taps_measured=known,
    )


def _coat(row: Fit, unit: Unit) -> MeasuredCoat:
    (specification, finish_class), plater = row.group.key
    return MeasuredCoat(
        **_shared(row),
        finish=FinishInput(specification=specification, finish_class=finish_class),
        mean=_length(row.value(row.posterior.mean), unit),
        unit=unit,
        plater=plater,
    )


def _torque(row: Fit, _unit: Unit) -> MeasuredTorque:
    group, machine, fluid, style = row.group.key
    return MeasuredTorque(
        count=row.posterior.count,
        weight=_digits(row.posterior.weight),
        date=_date(row),
        material_group=group,
        machine=machine,
        median=_digits(exp(row.value(row.posterior.mean))),
        low=_digits(exp(row.value(row.of_next.low))),
        high=_digits(exp(row.value(row.of_next.high))),
        fluid=fluid,
        tap_style=style,
    )


def _tap_life(row: Count, _unit: Unit) -> MeasuredTapLife:
    band, group, machine = row.group.key
    assert row.breakage is not None
    return MeasuredTapLife(
        count=row.checked,
        date=_date(row),
        material_group=group,
        machine=machine,
        rate=_digits(row.breakage.median),
        rate_high=_digits(row.breakage.exact_upper),
        broken=row.bad,
        size_from=Length(Decimal(repr(band[0])), "in"),
        size_to=Length(Decimal(repr(band[1])), "in"),
    )


_MAKERS: dict[str, Any] = {
    "drill_oversize": _oversize,
    "tap_oversize": _cut,
    "coat": _coat,
    "tapping_torque": _torque,
    "tap_life": _tap_life,
}
