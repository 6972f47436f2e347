"""The figures of a shop as every request takes them: what the fit of its measurements gave, or what it says itself."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.contract.faults import invalid
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM, RequestUnits
from borewright.contract.fields.strict import Boolean, Choice, FloatNumber, Text, Whole
from borewright.core.practice import count
from borewright.core.shop_figures.figures import (
    MeasuredCoat,
    MeasuredCut,
    MeasuredOversize,
    MeasuredTapLife,
    MeasuredTorque,
    ShopFigures,
)

from .lengths import length

_SHARES = count("shop_scale_shares")
_MOST_FIGURES = 200
_METHODS, _TAPPING = ("cut", "form"), ("rigid", "floating", "hand")


def date() -> Text:
    """The field that says when something was measured."""
    return Text("When it was measured, as the shop writes it.", longest=40, examples=("2026-11-20",))


def machine_name(description: str) -> Text:
    """A field that names a machine."""
    return Text(description, longest=80, examples=("VMC 2",))


class GroupedObject(ObjectSchema):
    """What every figure says of itself."""

    count = Whole("Pieces that it comes of, a count.", ranges.MEASURED_PIECES, required=True)
    weight = FloatNumber("Weight of the data against the published figure, from 0 to 1.", ranges.FRACTION)
    date = date()
    material_group = Choice(
        "ISO 513 letter of the parts that it holds for. Default: all.", ("P", "M", "K", "N", "S", "H")
    )
    machine = machine_name("Machine that it holds for. Default: all.")


class SpreadingObject(GroupedObject):
    """A figure with the spread of the next piece."""

    standard_deviation = FloatNumber(
        "Standard deviation of the pieces, a length in `unit_system` or a share of the tolerance; for the reader.",
        ranges.SPREAD,
    )
    spread = FloatNumber(
        "Spread of the next piece: a length in `unit_system` or a share of the tolerance.",
        ranges.SPREAD,
        required=True,
    )
    scale_factors = Array(
        f"What the spread is multiplied by, a ratio for each of {_SHARES} equal shares of the pieces; without them"
        " `spread` is a standard deviation that is known well.",
        FloatNumber("One of them, a ratio.", ranges.SCALE_FACTOR),
        least=_SHARES,
        most=_SHARES,
    )


class OversizeFigure(SpreadingObject):
    """How much larger than its drill a hole is."""

    drill_diameter = length("Drill that it was measured on, or the middle of several.", required=True)
    mean = length("Mean oversize on diameter.", ranges.GROWTH, required=True)
    drill_style = Text("Kind of drill, for the reader.", longest=80)


class CutFigure(SpreadingObject):
    """How much larger than its tap a thread is."""

    makes = MeasuredCut

    mean = FloatNumber(
        "Mean oversize on pitch diameter, a share of the tolerance of class 2B or 6H; negative behind a forming tap.",
        ranges.SIGNED_SHARE,
        required=True,
    )
    method = Choice("Cut or formed. Default: cut.", _METHODS)
    tapping = Choice("How the tap was driven. Default: any way.", _TAPPING)
    tap_style = Text("Kind of tap, for the reader.", longest=80)
    taps_measured = Boolean(
        "Whether the taps themselves were measured; otherwise the spread holds the width of their band. Default: true."
    )


class CoatFigure(SpreadingObject):
    """Thickness of a coat on one surface."""

    specification = Text("Specification of the finish, as the reply to it writes it.", longest=200)
    finish_class = Text("Class within the specification.", longest=200, data_key="class")
    mean = length("Mean thickness on a surface.", ranges.COAT, required=True)
    plater = Text("Who put it on, for the reader.", longest=80)


class TorqueFigure(GroupedObject):
    """What the tapping torque of the model is multiplied by."""

    makes = MeasuredTorque

    median = FloatNumber("Middle, a ratio.", ranges.TORQUE_FACTOR, required=True)
    low = FloatNumber("Lower end for the next hole, a ratio.", ranges.TORQUE_FACTOR, required=True)
    high = FloatNumber("Upper end for the next hole, a ratio.", ranges.TORQUE_FACTOR, required=True)
    fluid = Text("Cutting fluid, for the reader.", longest=80)
    tap_style = Text("Kind of tap, for the reader.", longest=80)


class TapLifeFigure(GroupedObject):
    """Taps that broke."""

    makes = MeasuredTapLife

    rate = FloatNumber("Taps that break a hole, a ratio.", ranges.FRACTION, required=True)
    rate_high = FloatNumber("Upper end of it, a ratio.", ranges.FRACTION, required=True)
    broken = Whole("Taps that broke, a count.", ranges.BROKEN, required=True)
    size_from = length("Smallest thread of the band of sizes.", ranges.COAT_OR_NONE)
    size_to = length("Largest thread of the band of sizes.")


def _coat(
    *, unit: Any, specification: str | None = None, finish_class: str | None = None, **given: Any
) -> MeasuredCoat:
    from borewright.core.model import FinishInput

    return MeasuredCoat(finish=FinishInput(specification=specification, finish_class=finish_class), unit=unit, **given)


class ShopFiguresObject(ObjectSchema):
    """The shop's own figures; they replace those of the tables where their group fits."""

    makes = ShopFigures

    id = Text("Name that the fit gave them.", longest=40)
    unit_system = Choice(
        "Unit of the lengths in these figures, whatever that of the request.", tuple(UNIT_OF_SYSTEM), required=True
    )
    machine = machine_name("Machine that the hole is made on, where figures of several are here.")
    drill_oversize = Array("Oversize of drilled holes.", Object("One figure.", OversizeFigure), most=_MOST_FIGURES)
    tap_oversize = Array("Oversize of tapped threads.", Object("One figure.", CutFigure), most=_MOST_FIGURES)
    coat = Array("Thickness of coats.", Object("One figure.", CoatFigure), most=_MOST_FIGURES)
    tapping_torque = Array("Tapping torque.", Object("One figure.", TorqueFigure), most=_MOST_FIGURES)
    tap_life = Array("Taps that broke.", Object("One figure.", TapLifeFigure), most=_MOST_FIGURES)

    def convert(self, given: Mapping[str, Any], units: RequestUnits, **known: Any) -> Any:
        """The figures, with lengths in the unit that they name themselves."""
        own = dict(given)
        unit = UNIT_OF_SYSTEM[own.pop("unit_system")]
        inside = RequestUnits(unit, None)
        oversize, coats = (own.pop(name, None) or () for name in ("drill_oversize", "coat"))
        for place, one in enumerate(own.get("tapping_torque") or ()):
            if not one["low"] <= one["median"] <= one["high"]:
                raise invalid(
                    "range_inconsistent", "Expected low <= median <= high.", pointer=f"/tapping_torque/{place}"
                )
        return super().convert(
            own,
            inside,
            drill_oversize=tuple(MeasuredOversize(**_OVERSIZE.convert(one, inside), unit=unit) for one in oversize),
            coat=tuple(_coat(**_COAT.convert(one, inside), unit=unit) for one in coats),
            **known,
        )


_OVERSIZE, _COAT = OversizeFigure(), CoatFigure()


def shop_figures() -> Object:
    """The field that hands on what the shop measured."""
    return Object(
        "What the shop measured, as `POST /v1/shop-figures/fit` gives it: it replaces the tables' oversize of drills"
        " and taps, spread of coats and tapping torque where its group fits.",
        ShopFiguresObject,
    )
