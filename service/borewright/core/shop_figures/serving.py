"""Which of a shop's figures hold for a hole."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from borewright.core.chance import distributions
from borewright.core.finishing.limits_before_finish import coat_to_come
from borewright.core.model import MM_PER_INCH, Allowance, Material, Thread, Unit

from . import measured_finish
from .figures import MeasuredCoat, MeasuredCut, MeasuredOversize, MeasuredTapLife, MeasuredTorque, ShopFigures


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


def coat(figures: ShopFigures | None, allowance: Allowance | None, unit: Unit) -> MeasuredCoat | None:
    """The shop's ``figures`` for the finish of ``allowance`` on a thread in ``unit``, None where there are none."""
    if figures is None or allowance is None or coat_to_come(allowance) is None:
        return None
    found = figures.of(figures.coat, None)
    return next((one for one in found if measured_finish.against(one, allowance.finish, unit) is None), None)


def torque(figures: ShopFigures | None, material: Material | None) -> MeasuredTorque | None:
    """The shop's ``figures`` for tapping torque in ``material``, None where there are none."""
    if figures is None:
        return None
    return next(figures.of(figures.tapping_torque, _group(material)), None)


def tap_life(figures: ShopFigures | None, material: Material | None, thread: Thread) -> MeasuredTapLife | None:
    """The shop's ``figures`` for how often a tap of ``thread`` breaks in ``material``, None where there are none."""
    if figures is None:
        return None
    return next((one for one in figures.of(figures.tap_life, _group(material)) if is_of_size(one, thread)), None)


def is_of_size(figure: MeasuredTapLife, thread: Thread) -> bool:
    """Whether ``thread`` lies in the band of sizes of the ``figure``, its upper end among them."""
    nominal, unit = thread.nominal_diameter, thread.unit
    above = figure.size_from is None or nominal > figure.size_from.to(unit)
    return above and (figure.size_to is None or nominal <= figure.size_to.to(unit))
