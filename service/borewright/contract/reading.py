"""From a request that follows its schema to the plain inputs of the domain.

Bare numbers get their unit here: that of ``unit_system``, or else of the thread's own standard. Lengths are handed on
in the unit of the standard, so that equal requests are equal however their units were written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any, Generic, Literal, NamedTuple, TypeVar

from borewright.contract.fields.ranges import Range
from borewright.contract.fields.units import Quantity
from borewright.core import callout
from borewright.core.caches import cached
from borewright.core.model import (
    FinishInput,
    Hole,
    Length,
    LengthRange,
    MaterialInput,
    PercentTarget,
    ThreadCallout,
    Unit,
)
from borewright.core.requests import (
    AllowanceRequest,
    DecodeRequest,
    DrillOversize,
    DrillRecommendation,
    HoleSpecRequest,
    Machine,
    MatingScrew,
    ResolveRequest,
    Stock,
    TapRecommendation,
    ThreadFields,
)
from borewright.core.rounding import plain

from . import request_schemas as schemas
from .faults import invalid
from .fields import ranges, units

Body = Mapping[str, Any]
Request = TypeVar("Request")
#: How much of a hole specification the reply shows.
Detail = Literal["full", "figures", "routing"]

_UNIT_OF: dict[str | None, Unit | None] = {"inch": "in", "metric": "mm", None: None}
_CACHED = 1024


class _Units(NamedTuple):
    """Unit of bare numbers, and unit of the thread's standard."""

    bare: Unit
    native: Unit


@dataclass(frozen=True, slots=True)
class Asked(Generic[Request]):
    """A request as the domain takes it, and how the reply shall look: ``unit`` None = the thread's own."""

    request: Request
    unit: Unit | None
    explain: bool
    detail: Detail = "full"


_THREAD = schemas.ThreadRequest()
_DRILL = schemas.DrillRequestBody()
_ALLOWANCE = schemas.AllowanceRequestBody()
_TAP = schemas.TapRequestBody()
_DECODE = schemas.TapDecodeRequest()
_HOLE_SPEC = schemas.HoleSpecRequestBody()


def thread_request(body: Body) -> Asked[ResolveRequest]:
    """Body of POST /v1/threads/resolve. Raises BorewrightError, as all functions here do."""
    given = _THREAD.read(body)
    thread, unit = _thread_and_units(given)
    return _asked(given, ResolveRequest(thread, _length(given, "length_of_engagement", unit), given.get("edition")))


def drill_request(body: Body) -> Asked[DrillRecommendation]:
    """Body of POST /v1/drills/recommend."""
    given = _DRILL.read(body)
    thread, unit = _thread_and_units(given)
    request = DrillRecommendation(
        thread=thread,
        method=given.get("method") or "cut",
        percent_thread=_percent(given),
        objective=given.get("objective") or "chart",
        drill_series=given.get("drill_series"),
        length_of_engagement=_length(given, "length_of_engagement", unit),
        material=_material(given, unit),
        finish=_finish(given, unit),
        stock=_stock(given),
        machine=_machine(given, unit),
        edition=given.get("edition"),
    )
    return _asked(given, request)


def allowance_request(body: Body) -> Asked[AllowanceRequest]:
    """Body of POST /v1/allowances."""
    given = _ALLOWANCE.read(body)
    thread, unit = _thread_and_units(given)
    finish = _finish(given, unit) or FinishInput()
    request = AllowanceRequest(thread, finish, _material(given, unit), given.get("tap_limits"), given.get("edition"))
    return _asked(given, request)


def tap_request(body: Body) -> Asked[TapRecommendation]:
    """Body of POST /v1/taps/recommend."""
    given = _TAP.read(body)
    thread, unit = _thread_and_units(given)
    request = TapRecommendation(
        thread=thread,
        hole=_hole(given["hole"], unit) if given.get("hole") else None,
        material=_material(given, unit),
        method=given.get("method") or "cut",
        finish=_finish(given, unit),
        stock=_stock(given),
        tap_limits=given.get("tap_limits"),
        edition=given.get("edition"),
    )
    return _asked(given, request)


def decode_request(body: Body) -> Asked[DecodeRequest]:
    """Body of POST /v1/taps/decode."""
    given = _DECODE.read(body)
    return _asked(given, DecodeRequest(given["marking"]))


def hole_spec_request(body: Body) -> Asked[HoleSpecRequest]:
    """Body of POST /v1/hole-specs."""
    given = _HOLE_SPEC.read(body)
    thread, unit = _thread_and_units(given)
    screw = given.get("mating_screw")
    request = HoleSpecRequest(
        thread=thread,
        hole=_hole(given["hole"], unit),
        id=given.get("id"),
        material=_material(given, unit),
        finish=_finish(given, unit),
        method=given.get("method") or "cut",
        percent_thread=_percent(given),
        objective=given.get("objective") or "chart",
        drill_series=given.get("drill_series"),
        length_of_engagement=_length(given, "length_of_engagement", unit),
        mating_screw=MatingScrew(screw.get("screw_class"), screw.get("grade")) if screw else None,
        stock=_stock(given),
        machine=_machine(given, unit),
        safety_factor=float(given.get("safety_factor") or 1),
        strict=given.get("strict") or False,
        tap_limits=given.get("tap_limits"),
        edition=given.get("edition"),
    )
    return _asked(given, request)


def own_length(given: Body, name: str, asked: Asked[HoleSpecRequest], *, under: str) -> Length | None:
    """A length beside a hole specification, in the unit of the thread's standard; ``under`` is its pointer's parent."""
    native = asked.request.thread.unit
    return _length(given, name, _Units(asked.unit or native, native), under=under)


# --- parts -------------------------------------------------------------------------------------------


def _asked(given: Body, request: Request) -> Asked[Request]:
    unit = _UNIT_OF[given.get("unit_system")]
    return Asked(request, unit, given.get("explain") or False, given.get("detail") or "full")


def _thread_and_units(given: Body) -> tuple[ThreadCallout, _Units]:
    """The thread as its reader settles it, and the units of the request's lengths."""
    asked = _UNIT_OF[given.get("unit_system")]
    written = given["thread"]
    read = callout.read(written) if isinstance(written, str) else _read_fields(_thread_fields(written, asked))
    return read, _Units(asked or read.unit, read.unit)


@cached(_CACHED)
def _read_fields(fields: ThreadFields) -> ThreadCallout:
    return callout.from_fields(fields)


def _thread_fields(given: Body, asked: Unit | None) -> ThreadFields:
    size = given["size"]
    return ThreadFields(
        system=given["system"],
        size=size if isinstance(size, str) else plain(size),
        threads_per_inch=given.get("threads_per_inch"),
        pitch=_own_length(given.get("pitch"), asked),
        series=given.get("series"),
        thread_class=given.get("thread_class"),
        hand=given.get("hand"),
        starts=given.get("starts"),
        lead=_own_length(given.get("lead"), asked),
    )


def _own_length(quantity: Quantity | None, asked: Unit | None) -> Length | None:
    """A length that belongs to the callout: without unit and ``unit_system`` it is in the standard's own unit."""
    return None if quantity is None else Length(quantity.value, quantity.unit or asked)  # type: ignore[arg-type]


def _length(given: Body, name: str, unit: _Units, *, under: str = "", allowed: Range = ranges.LENGTH) -> Length | None:
    quantity: Quantity | None = given.get(name)
    if quantity is None:
        return None
    value, written = _with_unit(quantity, unit.bare, allowed, f"{under}/{name}")
    return Length(Length(value, written).to(unit.native), unit.native)  # type: ignore[arg-type]


def _with_unit(quantity: Quantity, bare: str, allowed: Range, pointer: str) -> tuple[Decimal, str]:
    """Value and unit; a bare number is in the unit ``bare``, whose span it may still be outside of."""
    if quantity.unit is not None:
        return quantity.value, quantity.unit
    allowed.check(quantity.value, bare, written=quantity.value, pointer=pointer)
    return quantity.value, bare


def _range(given: Body | None, unit: _Units, *, pointer: str, allowed: Range) -> LengthRange | None:
    if given is None:
        return None
    least = _length(given, "min", unit, under=pointer, allowed=allowed)
    most = _length(given, "max", unit, under=pointer, allowed=allowed)
    if least is not None and most is not None and least.value > most.value:
        raise invalid("range_inconsistent", "The minimum is above the maximum.", pointer=pointer)
    return LengthRange(least, most)


def _hole(given: Body, unit: _Units) -> Hole:
    hole = Hole(
        kind=given["type"],
        full_thread_depth=_length(given, "full_thread_depth", unit, under="/hole"),
        thickness=_length(given, "thickness", unit, under="/hole"),
        drill_depth_limit=_length(given, "drill_depth_limit", unit, under="/hole"),
        access_depth=_length(given, "access_depth", unit, under="/hole"),
        clearance_diameter=_length(given, "clearance_diameter", unit, under="/hole"),
        run_out=given.get("run_out") or "chamfer",
    )
    angle = given.get("point_angle")
    return hole if angle is None else replace(hole, point_angle_deg=angle)


def _material(given: Body, unit: _Units) -> MaterialInput | None:
    material = given.get("material")
    if material is None or isinstance(material, str):
        return None if material is None else MaterialInput(name=material)
    bare = "psi" if unit.bare == "in" else "MPa"
    mpa = _physical(material, "tensile_strength", "stress", bare, ranges.STRESS, under="/material")
    return MaterialInput(material.get("name"), material.get("group"), material.get("hardness"), mpa)


def _machine(given: Body, unit: _Units) -> Machine:
    machine = given.get("machine")
    if machine is None:
        return Machine()
    speed = machine.get("max_spindle_speed")
    inch = unit.bare == "in"
    return Machine(
        max_spindle_speed_rpm=None if speed is None else float(speed),
        max_torque_n_m=_physical(
            machine, "max_torque", "torque", "lbf*in" if inch else "N*m", ranges.TORQUE, under="/machine"
        ),
        max_power_kw=_physical(machine, "max_power", "power", "hp" if inch else "kW", ranges.POWER, under="/machine"),
        tapping=machine.get("tapping"),
        drill_oversize=_drill_oversize(machine, unit),
    )


def _drill_oversize(machine: Body, unit: _Units) -> DrillOversize | None:
    given = machine.get("drill_oversize")
    if given is None:
        return None
    allowed = ranges.COAT_OR_NONE
    if isinstance(given, Quantity):
        mean = _length(machine, "drill_oversize", unit, under="/machine", allowed=allowed)
        spread = None
    else:
        under = "/machine/drill_oversize"
        mean = _length(given, "mean", unit, under=under, allowed=allowed)
        spread = _length(given, "standard_deviation", unit, under=under, allowed=allowed)
    assert mean is not None  # the schema asks for it
    return DrillOversize(mean, spread)


def _physical(
    given: Body, name: str, dimension: units.Dimension, bare: str, allowed: Range, *, under: str
) -> float | None:
    """A stress in MPa, a torque in N*m or a power in kW; a bare number is in the unit ``bare``."""
    quantity: Quantity | None = given.get(name)
    if quantity is None:
        return None
    value, unit = _with_unit(quantity, bare, allowed, f"{under}/{name}")
    return float(value * units.factor(dimension, unit))


def _finish(given: Body, unit: _Units) -> FinishInput | None:
    finish = given.get("finish")
    if finish is None or isinstance(finish, str):
        return None if finish is None else FinishInput(text=finish, text_unit=unit.bare)
    growth: Quantity | None = finish.get("growth_fraction")
    return FinishInput(
        specification=finish.get("specification"),
        finish_class=finish.get("finish_class"),
        thickness=_thickness(finish, unit),
        growth_fraction=None if growth is None else growth.value,
        heat_treat_growth=_range(
            finish.get("heat_treat_growth"), unit, pointer="/finish/heat_treat_growth", allowed=ranges.GROWTH
        ),
        masked=finish.get("masked") or False,
        reading=finish.get("reading"),
        text_unit=unit.bare,
        at_least=isinstance(finish.get("thickness"), Mapping),
    )


def _thickness(finish: Body, unit: _Units) -> LengthRange | None:
    given = finish.get("thickness")
    if isinstance(given, Quantity):
        # one figure is a minimum or nominal: the domain adds the maximum
        return LengthRange(_length(finish, "thickness", unit, under="/finish", allowed=ranges.COAT), None)
    return _range(given, unit, pointer="/finish/thickness", allowed=ranges.COAT_OR_NONE)


def _percent(given: Body) -> PercentTarget | None:
    percent = given.get("percent_thread")
    if percent is None or isinstance(percent, Quantity):
        return None if percent is None else PercentTarget(target=percent.value)
    wanted = PercentTarget(percent.get("target"), percent.get("min"), percent.get("max"))
    rising = [bound for bound in (wanted.min, wanted.target, wanted.max) if bound is not None]
    if rising != sorted(rising):
        raise invalid("range_inconsistent", "Expected min <= target <= max.", pointer="/percent_thread")
    return wanted


def _stock(given: Body) -> Stock:
    stock = given.get("stock") or {}
    return Stock(stock.get("drills"), stock.get("taps"))
