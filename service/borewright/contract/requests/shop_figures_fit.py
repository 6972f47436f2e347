"""Body of POST /v1/shop-figures/fit: what the shop measured, piece by piece."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from borewright.contract.faults import RequestInvalid, below
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema, ShortForm
from borewright.contract.fields.ranges import Range
from borewright.contract.fields.request_units import RequestUnits
from borewright.contract.fields.strict import Boolean, Choice, FloatNumber, JsonSchema, QuantityField, StrictField, Text
from borewright.contract.fields.strict import Whole as WholeNumber
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import LengthRange, Unit
from borewright.core.shop_figures.measurements import FitRequest, Gauge, Measurement

from . import parts, shop_figures
from .csv_columns import Column
from .lengths import IN_UNITS, length
from .queries import ExplainQuery
from .request import RequestSchema
from .thread import settled
from .thread import thread as thread_field

MOST_MEASUREMENTS, _MOST_OF_ONE = 10_000, 1_000
#: What each kind of measurement is told by, and what every one may tell.
_OF_KIND: Mapping[str, tuple[str, ...]] = {
    "drilled_hole": ("drill", "measured", "drill_diameter", "drill_style", "setup"),
    "tapped_thread": ("thread", "measured", "tap", "tap_pitch_diameter", "tap_id", "tap_style", "method", "tapping"),
    "coat": ("finish", "measured", "thread", "before", "after", "diameter", "plater"),
    "tapping_torque": ("torque", "expected_torque", "thread", "fluid", "tap_style", "method", "tapping"),
    "go_no_go": ("thread", "checked", "go_refused", "not_go_entered", "limits", "diameter"),
    "taps_used": ("thread", "holes", "broken", "tap_id", "tap_style", "method", "tapping", "fluid"),
}
_OF_EVERY_KIND = ("kind", "material", "machine", "batch", "date", "selection", "gauge_uncertainty")
KINDS = ("drilled_hole", "tapped_thread", "coat", "tapping_torque", "go_no_go", "taps_used")
_BARE = "A bare number is in the unit of `unit_system`, else of the drill or thread; text carries its own unit."


class OneOrMany(StrictField):
    """A value, or a list of values alike."""

    takes = ("number", "string", "array")

    def __init__(self, description: str, item: QuantityField, **given: Any) -> None:
        super().__init__(description, **given)
        self.many = Array(description, item, least=1, most=_MOST_OF_ONE)
        self.item = item

    def take(self, value: Any) -> tuple[Any, ...]:
        """The values in order."""
        taken: tuple[Any, ...] = self.many.take(value) if isinstance(value, list) else (self.item.take(value),)
        return taken

    def convert(self, value: tuple[Any, ...], units: RequestUnits) -> tuple[Any, ...]:
        """The values, each converted."""
        return self.many.convert(value, units)

    def json_schema(self, converter: Any) -> JsonSchema:
        """One value or an array of them, in one schema: clients in Java know no array among alternatives."""
        number, text = self.item.json_schema(converter)["anyOf"]
        return {**number, **text, **self.many.json_schema(converter), "type": list(self.takes)}


def _lengths(description: str, allowed: Range = ranges.LENGTH) -> OneOrMany:
    return OneOrMany(f"{description} {_BARE}", QuantityField("One value.", "length", allowed))


def _limits(**bounds: Any) -> LengthRange:
    return LengthRange(bounds.get("min"), bounds.get("max"))


class GaugeObject(ObjectSchema):
    """How well the gauge measures: standard uncertainties, one standard deviation each; at least one field."""

    makes = Gauge

    repeatability = length("Repeatability: what the same piece scatters by.", ranges.COAT_OR_NONE)
    calibration = length("Uncertainty of its calibration: what all pieces are off by.", ranges.COAT_OR_NONE)
    resolution = length("Step that it reads, or step of pin gauges.", ranges.COAT_OR_NONE)


def gauge_uncertainty() -> ShortForm:
    """The field that says how well a gauge measures."""
    return ShortForm(
        "How well the gauge measures, one standard deviation: its repeatability, or an object. It is taken off the"
        f" spread once. {IN_UNITS}",
        length("Repeatability of the gauge.", ranges.COAT_OR_NONE),
        Object("Repeatability, calibration and step.", GaugeObject),
        short="repeatability",
        data_key="gauge_uncertainty",
        examples=("0.0002 in", {"repeatability": "0.005 mm", "calibration": "0.002 mm"}),
    )


def selection() -> Choice:
    """The field that says which pieces were measured."""
    return Choice(
        "Whether all pieces of the lot were measured, or only those that passed. Default: it is asked back, and taken"
        " as all.",
        ("all", "good_only"),
    )


class GaugeLimits(ObjectSchema):
    """Sizes of GO and NOT GO."""

    makes = staticmethod(_limits)

    min = length("Size of GO.")
    max = length("Size of NOT GO.")


class MeasurementBody(ObjectSchema):
    """A piece, or several alike."""

    makes = Measurement

    kind = Choice("What was measured.", KINDS, required=True)
    measured = _lengths(
        "Diameter of the hole, pitch diameter of the thread, or thickness of the coat on one surface: one, or a list.",
        ranges.COAT,
    )
    drill = Text("Drill of the hole by label: `5/16`, `#7`, `6.8 mm`.", longest=40, examples=("5/16",))
    drill_diameter = length("Measured diameter of the drill. Default: that of its label.")
    drill_style = Text("Kind of drill.", longest=80)
    setup = Choice("Set-up of the drill. Default: usual.", ("usual", "poor", "guided"))
    thread = thread_field(required=False)
    tap = Text("Limit of the tap, where the tap itself was not measured.", longest=40, examples=("H3",))
    tap_pitch_diameter = length("Measured pitch diameter of the tap.")
    tap_id = Text("Which tap it was: holes of one tap are alike.", longest=80)
    tap_style = Text("Kind of tap.", longest=80)
    method = parts.method()
    tapping = Choice("How the tap was driven.", ("rigid", "floating", "hand"))
    finish = parts.finish()
    before = _lengths("Diameter before the coat: one, or a list.")
    after = _lengths("Diameter of the same pieces after the coat: one, or a list.")
    diameter = Choice("Which diameter `before`, `after` or the gauges are of. Default: pitch.", ("pitch", "minor"))
    plater = Text("Who put the coat on.", longest=80)
    torque = OneOrMany(
        "Measured tapping torque: one, or a list. A bare number is in lbf*in (inch set) or N*m (metric set).",
        QuantityField("One value.", "torque", ranges.TORQUE),
    )
    expected_torque_n_m = QuantityField(
        "Tapping torque that the specification of the same hole gave (cutting_data.tap.torque.value). A bare number is"
        " in lbf*in (inch set) or N*m (metric set).",
        "torque",
        ranges.TORQUE,
        data_key="expected_torque",
    )
    fluid = Text("Cutting fluid.", longest=80)
    material = parts.material()
    machine = shop_figures.machine_name("Machine that made it.")
    batch = Text("Batch, lot or plating load: parts of one are alike.", longest=80)
    date = shop_figures.date()
    selection = selection()
    gauge = gauge_uncertainty()
    checked = WholeNumber("Pieces checked by GO and NOT GO, a count.", ranges.MEASURED_PIECES)
    go_refused = WholeNumber("Pieces that GO did not enter, a count. Default: 0.", ranges.BROKEN)
    not_go_entered = WholeNumber("Pieces that NOT GO entered, a count. Default: 0.", ranges.BROKEN)
    limits = Object("Sizes of the gauges. Default: the limits of the thread.", GaugeLimits)
    holes = WholeNumber("Holes that were tapped, a count.", ranges.MEASURED_PIECES)
    broken = WholeNumber("Taps that broke in them, a count. Default: 0.", ranges.BROKEN)


_ONE = MeasurementBody()


class FitRequestBody(RequestSchema[FitRequest]):
    """Body of POST /v1/shop-figures/fit."""

    measurements = Array(
        "What was measured, in any order.",
        Object("A piece, or several alike.", MeasurementBody),
        least=1,
        most=MOST_MEASUREMENTS,
        required=True,
    )
    gauge = gauge_uncertainty()
    selection = selection()
    confidence = FloatNumber(
        "Chance that each interval holds, a ratio from 0.5 to 0.999. Default: 0.95.", ranges.CONFIDENCE
    )
    exclude_flagged = Boolean("Leave out what lies outside of what the others tell. Default: false.")
    unit_system = parts.unit_system()

    def _request(self, given: dict[str, Any], unit: Unit | None) -> FitRequest:
        units = RequestUnits(unit, None)
        listed = given.pop("measurements")
        gauge = given.pop("gauge", None)
        if gauge is not None:
            gauge = self.fields["gauge"].convert(gauge, units)  # type: ignore[attr-defined]
        known = {name: value for name, value in given.items() if value is not None}
        if "confidence" in known:
            known["confidence"] = float(known["confidence"])
        measurements = tuple(_measurement(one, place, units) for place, one in enumerate(listed))
        return FitRequest(measurements, gauge, unit=unit, **known)


def _refuse_of_other_kinds(given: Mapping[str, Any], place: int) -> None:
    """Refuse fields that say nothing of a measurement of its kind."""
    kind, keys = given["kind"], {name: field.data_key or name for name, field in _ONE.fields.items()}
    allowed = (*_OF_KIND[kind], *_OF_EVERY_KIND)
    faults = [
        Fault(
            "shop_field_not_of_kind",
            f"A measurement of kind {kind} has no field `{keys[name]}`.",
            f"/measurements/{place}/{keys[name]}",
            allowed,
        )
        for name, value in given.items()
        if value is not None and keys[name] not in allowed
    ]
    if faults:
        raise RequestInvalid(faults)


def _measurement(given: Mapping[str, Any], place: int, units: RequestUnits) -> Measurement:
    fields = dict(given)
    _refuse_of_other_kinds(fields, place)
    named = fields.pop("thread", None)
    try:
        thread = None if named is None else settled(named, units.bare)
    except BorewrightError as error:
        raise RequestInvalid(below("measurements", below(place, error.faults))) from None
    found: Measurement = _ONE.convert(fields, units, thread=thread)
    return found


FIT = FitRequestBody()


class FitQuery(ExplainQuery):
    """Query of POST /v1/shop-figures/fit: what a list of rows cannot say of itself."""

    unit_system = parts.unit_system()
    gauge_uncertainty = length("Repeatability of the gauge, one standard deviation.", ranges.COAT_OR_NONE)
    selection = selection()
    confidence = FloatNumber(
        "Chance that each interval holds, a ratio from 0.5 to 0.999. Default: 0.95.", ranges.CONFIDENCE
    )
    exclude_flagged = Boolean("Leave out what lies outside of what the others tell. Default: false.")


#: Objects whose fields have columns of their own.
INNER_COLUMNS: Mapping[str, type[ObjectSchema]] = {"gauge_uncertainty": GaugeObject, "limits": GaugeLimits}


def _columns() -> Iterator[tuple[str, StrictField]]:
    for name, field in MeasurementBody._declared_fields.items():
        assert isinstance(field, StrictField)
        key = field.data_key or name
        inner = INNER_COLUMNS.get(key)
        if key != "limits":
            yield key, field
        if inner is not None:
            yield from ((f"{key}.{one}", part) for one, part in inner._declared_fields.items())  # type: ignore[misc]


def _column(field: StrictField) -> Column:
    several = isinstance(field, OneOrMany)
    kind = "figures" if several else "figure" if "number" in field.takes else "text"
    return Column(kind, field.metadata["description"], field.words if isinstance(field, Choice) else ())


#: Columns of a sheet of measurements by name.
COLUMNS: Mapping[str, Column] = {name: _column(field) for name, field in _columns()}
