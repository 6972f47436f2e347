"""Which of a shop's figures hold for a hole."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from borewright.core.chance import distributions
from borewright.core.model import MM_PER_INCH, Allowance, Material, Unit

from .figures import MeasuredCoat, MeasuredCut, MeasuredOversize, MeasuredTorque, ShopFigures


class MeasuredDrills(NamedTuple):
    """The shop's own oversize of drills, the figure of the best fitting group first."""

    figures: tuple[MeasuredOversize, ...]

    def serving(self, diameter: Decimal, unit: Unit) -> tuple[MeasuredOversize, bool] | None:
        """The figure for a drill of ``diameter`` in ``unit``, and whether it is of a neighbouring band of sizes; None
        where none is of that band or the next.
        """
        band = _band(diameter, unit)
        for apart in (0, 1):
            for one in self.figures:
                own = _band(one.drill_diameter.to("in"), "in")
                if band is not None and own is not None and abs(band - own) == apart:
                    return one, apart == 1
        return None


def _band(diameter: Decimal, unit: Unit) -> int | None:
    inches = float(diameter if unit == "in" else diameter / MM_PER_INCH)
    ends = [end for end, _ in distributions.hole_bands()]
    return next((place for place, end in enumerate(ends) if inches <= end), None)


def _group(material: Material | None) -> str | None:
    return None if material is None else material.iso_group


def drills(figures: ShopFigures | None, material: Material | None) -> MeasuredDrills | None:
    """The shop's ``figures`` for drills in ``material``, None where there are none."""
    if figures is None:
        return None
    found = tuple(figures.of(figures.drill_oversize, _group(material)))
    return MeasuredDrills(found) if found else None


def cut(figures: ShopFigures | None, material: Material | None, method: str, tapping: str) -> MeasuredCut | None:
    """The shop's ``figures`` for taps by ``method`` in ``material``, driven as ``tapping`` says, None where there are
    none.
    """
    if figures is None:
        return None
    found = figures.of(figures.tap_oversize, _group(material))
    return next((one for one in found if one.method == method and one.tapping in (tapping, None)), None)


def coat(figures: ShopFigures | None, allowance: Allowance | None) -> MeasuredCoat | None:
    """The shop's ``figures`` for the finish of ``allowance``, None where there are none."""
    if figures is None or allowance is None:
        return None
    read = allowance.finish
    wanted = (read.specification, read.finish_class)
    found = figures.of(figures.coat, None)
    return next((one for one in found if (one.finish.specification, one.finish.finish_class) == wanted), None)


def torque(figures: ShopFigures | None, material: Material | None) -> MeasuredTorque | None:
    """The shop's ``figures`` for tapping torque in ``material``, None where there are none."""
    if figures is None:
        return None
    return next(figures.of(figures.tapping_torque, _group(material)), None)
