"""What request bodies are made of: fields that several requests share, and the objects inside them."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from borewright.contract.faults import invalid
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema, ShortForm
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM, RequestUnits
from borewright.contract.fields.strict import Boolean, Choice, FloatNumber, Number, QuantityField, Text
from borewright.core.model import (
    FinishInput,
    Length,
    LengthRange,
    MaterialInput,
    PercentTarget,
)
from borewright.core.requests import DrillOversize, Machine, MatingScrew, Stock

from .lengths import IN_UNITS, length


def unit_system() -> Choice:
    """The field that every request has."""
    return Choice(
        "Unit of bare numbers in the request and of every number in the reply: inch set or metric set."
        " Default: the unit of the thread's own standard.",
        tuple(UNIT_OF_SYSTEM),
    )


def explain() -> Boolean:
    """The field that asks for the derivation."""
    return Boolean("Add `derivation`: the steps by which every figure can be redone on paper. Default: false.")


def detail() -> Choice:
    """The field that asks for less of a specification."""
    return Choice(
        "How much of the specification is shown. `figures` leaves out sources, assumptions, rejected tools and"
        " alternatives, reasons and other words, figures that stand elsewhere in the reply, what has no value inside a"
        " section, and the texts of cautions. `routing` is the card and the routing: verdict, review, headline,"
        " operations in short and cautions, without derivation. What is shown is as in the full reply; `spec_id` is the"
        " same. CSV, XML and drawings take no notice. Default: full.",
        ("full", "figures", "routing"),
    )


def _percent_target(**bounds: Decimal) -> PercentTarget:
    wanted = PercentTarget(**bounds)
    rising = [bound for bound in (wanted.min, wanted.target, wanted.max) if bound is not None]
    if rising != sorted(rising):
        raise invalid("range_inconsistent", "Expected min <= target <= max.")
    return wanted


class PercentRange(ObjectSchema):
    """Percent of thread asked for; at least one of the three."""

    makes = staticmethod(_percent_target)

    target = Number("Percent of thread to come near to, percent of 0.75 H height.", ranges.PERCENT)
    min = Number("Lowest percent of thread, percent of 0.75 H height.", ranges.PERCENT)
    max = Number("Highest percent of thread, percent of 0.75 H height.", ranges.PERCENT)


def percent_thread() -> ShortForm:
    """The field that asks for a percent of thread."""
    return ShortForm(
        "Percent of thread wanted, on the 0.75 H basis of the inch trade: the target, or an object with bounds.",
        QuantityField("Percent of thread wanted, 0.75 H basis.", "percent", ranges.PERCENT),
        Object("Target and bounds.", PercentRange),
        short="target",
        examples=(75, {"target": 70, "min": 60, "max": 75}),
    )


class MaterialObject(ObjectSchema):
    """A part material field by field; at least one field."""

    makes = MaterialInput

    name = Text("Alloy or family as people name it: 4140, 6061-T6, grey iron.", longest=120, examples=("4140",))
    group = Text("ISO 513 group letter: P, M, K, N, S or H.", longest=20)
    hardness = Text("Hardness with its scale (HB, HRC, HRB, HV).", longest=60, examples=("28 HRC",))
    tensile_strength_mpa = QuantityField(
        "Tensile strength. A bare number is in psi (inch set) or MPa (metric set); text carries its own unit.",
        "stress",
        ranges.STRESS,
        data_key="tensile_strength",
        examples=("655 MPa", "95 ksi"),
    )


def material() -> ShortForm:
    """The field that names a part material."""
    return ShortForm(
        "Material of the part: a name, or an object.",
        Text("Name of the part material; a hardness may stand in it.", longest=120),
        Object("Material field by field.", MaterialObject),
        short="name",
        examples=("4140", {"name": "4140", "hardness": "28 HRC"}),
    )


def _length_range(**bounds: Length) -> LengthRange:
    least, most = bounds.get("min"), bounds.get("max")
    if least is not None and most is not None and least.value > most.value:
        raise invalid("range_inconsistent", "The minimum is above the maximum.")
    return LengthRange(least, most)


class ThicknessRange(ObjectSchema):
    """Thickness of a coat on one surface."""

    makes = staticmethod(_length_range)

    min = length("Least thickness on a surface.", ranges.COAT_OR_NONE)
    max = length("Greatest thickness on a surface.", ranges.COAT_OR_NONE)


class GrowthRange(ObjectSchema):
    """Change of a diameter by heat treatment, sign included."""

    makes = staticmethod(_length_range)

    min = length("Least growth on diameter, negative where it shrinks.", ranges.GROWTH)
    max = length("Greatest growth on diameter, negative where it shrinks.", ranges.GROWTH)


class FinishObject(ObjectSchema):
    """A coating, plating, anodize or heat treatment field by field; at least one field."""

    makes = FinishInput

    specification = Text("Specification, e.g. ASTM B633, MIL-A-8625.", longest=200)
    finish_class = Text("Class, type or grade within the specification.", longest=200, data_key="class")
    thickness = ShortForm(
        f"Thickness on a surface: limits, or one value. {IN_UNITS}",
        length("One thickness on a surface.", ranges.COAT),  # a minimum or nominal: the domain adds the maximum
        Object("Limits of thickness.", ThicknessRange),
        short="min",
        examples=("0.0003 in", {"min": "5 um", "max": "8 um"}),
    )
    growth_fraction = QuantityField(
        "Part of the thickness that stands above the old surface (1 for plating), a fraction from 0 to 1.",
        "fraction",
        ranges.FRACTION,
        examples=(1, 0.5, "50 %"),
    )
    heat_treat_growth = Object("Growth on diameter by heat treatment after threading.", GrowthRange)
    masked = Boolean("The thread is masked: the coat does not reach it. Default: false.")
    reading = Choice(
        "Which limits a coat moves: asme = both, iso = the lower ones only. Default: that of the thread's standard.",
        ("asme", "iso"),
    )

    def convert(self, given: Mapping[str, Any], units: RequestUnits, **known: Any) -> Any:
        """The finish; limits of thickness without a maximum are a minimum, one value may be a nominal."""
        at_least = isinstance(given.get("thickness"), dict)
        return super().convert(given, units, text_unit=units.bare, at_least=at_least, **known)


class _FinishField(ShortForm):
    """A finish as an object, or as the text of a drawing."""

    def convert(self, value: Any, units: RequestUnits) -> Any:
        """The finish; text is read by the domain."""
        if isinstance(value, str):
            return FinishInput(text=value, text_unit=units.bare)
        return super().convert(value, units)


def finish(*, required: bool = False) -> ShortForm:
    """The field that names a finish."""
    return _FinishField(
        "Finish that the thread will carry: specification text, or an object.",
        Text("Specification and class as a drawing prints them.", longest=200),
        Object("Finish field by field.", FinishObject),
        short="specification",
        required=required,
        examples=("ASTM B633 Fe/Zn 8", {"thickness": {"min": 0.0002, "max": 0.0003}}),
    )


class StockObject(ObjectSchema):
    """What is in the crib."""

    makes = Stock

    drills = Array("Drills at hand by label: `27/64`, `#7`, `6.8 mm`.", Text("Drill label.", longest=40), most=2000)
    taps = Array(
        "Taps at hand by limit (`H3`) or shank marking.",
        Text("Limit or shank marking.", longest=120),
        most=1000,
        most_characters=32_000,
    )


def stock() -> Object:
    """The field that lists the crib."""
    return Object("Tools at hand; a choice is then made among them and says so.", StockObject)


def method() -> Choice:
    """The field that chooses cutting or forming."""
    return Choice("Cut the thread or form it. Default: cut.", ("cut", "form"))


def objective() -> Choice:
    """The field that chooses what the drill is best for."""
    return Choice(
        "What the drill is chosen for. `chart`: the drill of the shop's wall chart: of those that are sold the one"
        " nearest to 75 percent of thread inside the class limits (inch), or the chart's column (metric)."
        " `least_torque`: the largest drill that the thread's strength bears. `acceptance`: the drill whose holes most"
        " often end inside the minor diameter limits. Default: chart.",
        ("chart", "least_torque", "acceptance"),
    )


def drill_series() -> Array:
    """The field that limits the drill series."""
    words = ("fractional", "number", "letter", "metric")
    return Array(
        "Drill series to choose from. Default: those of the thread's unit.",
        Choice("Drill series.", words),
        least=1,
        most=len(words),
        unique=True,
    )


class MatingScrewObject(ObjectSchema):
    """The screw that will be used; at least one field."""

    makes = MatingScrew

    thread_class = Text("Class of the external thread, e.g. 2A or 6g.", longest=20, data_key="class")
    grade = Text("Strength grade, e.g. SAE J429 grade 8, ISO 898-1 8.8.", longest=80)


def mating_screw() -> Object:
    """The field that names the screw."""
    return Object("The screw that will be used.", MatingScrewObject)


class DrillOversizeObject(ObjectSchema):
    """How much larger than its drill a hole of this shop is."""

    makes = DrillOversize

    mean = length("Mean oversize on diameter.", ranges.COAT_OR_NONE, required=True)
    standard_deviation = length(
        "Standard deviation of the hole's diameter. Default: that of the tables.", ranges.COAT_OR_NONE
    )


def drill_oversize() -> ShortForm:
    """The field that states the shop's own drill oversize."""
    return ShortForm(
        f"The shop's own oversize of drilled holes instead of that of the tables: mean, or an object. {IN_UNITS}",
        length("Mean oversize of the shop's own drilled holes.", ranges.COAT_OR_NONE),
        Object("Mean and spread.", DrillOversizeObject),
        short="mean",
        examples=("0.001 in", {"mean": "0.03 mm", "standard_deviation": "0.015 mm"}),
    )


class MachineObject(ObjectSchema):
    """What the machine can do; at least one field."""

    makes = Machine

    max_spindle_speed_rpm = FloatNumber(
        "Highest spindle speed in rev/min.", ranges.SPINDLE_SPEED, data_key="max_spindle_speed"
    )
    max_torque_n_m = QuantityField(
        "Highest torque at the spindle. A bare number is in lbf*in (inch set) or N*m (metric set).",
        "torque",
        ranges.TORQUE,
        data_key="max_torque",
    )
    max_power_kw = QuantityField(
        "Highest power at the spindle. A bare number is in hp (inch set) or kW (metric set).",
        "power",
        ranges.POWER,
        data_key="max_power",
    )
    tapping = Choice("How the tap is driven. Default: rigid.", ("rigid", "floating", "hand"))
    drill_oversize = drill_oversize()
    name = Text("Its name, as in `shop_figures`: which of the shop's figures hold.", longest=80, examples=("VMC 2",))


def tap_limits() -> Choice:
    """The field that chooses the system of tap limits."""
    return Choice(
        "System of the tap's pitch-diameter limits. Default: inch_h for inch threads, iso_class for metric ones; the"
        " other systems come as equivalents.",
        ("inch_h", "metric_d", "iso_class"),
    )


def edition() -> Choice:
    """The field that chooses the edition of a Unified thread's standard."""
    return Choice(
        "Edition of ASME B1.1 for Unified threads. Default: the newest that the data held allow; the reply says which.",
        ("2019", "1989"),
    )


def machine() -> Object:
    """The field that describes the machine."""
    return Object("The machine; speeds and loads are held inside what it can do.", MachineObject)
