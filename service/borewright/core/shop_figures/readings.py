"""How each kind of measurement is read: the value that it tells, held against the published figure."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from math import log

from borewright.core import callout, finishing, standards
from borewright.core.chance import distributions
from borewright.core.cutting.speeds import factor
from borewright.core.drilling.drill_sizes import find_drill
from borewright.core.drilling.standard_drills import mean_oversize
from borewright.core.errors import BorewrightError
from borewright.core.finishing.flank_geometry import flank_factor
from borewright.core.model import MM_PER_INCH, Drill, FinishInput, Range, Thread, Unit
from borewright.core.practice import figure, number
from borewright.core.quantity_text import length
from borewright.core.tapping import fit, limits

from .counted import Gauged
from .data import Datum, Group, around, gauge_error, length_of, material_group, needed, refused, size_band
from .measurements import Gauge, Measurement

Reader = Callable[[Measurement, int, Unit, Gauge | None], Datum]
#: How far a figure may lie from what it is measured on and is still believed.
_HOLE_SHARE = figure("shop_hole_off_drill_share")
_GROUND_SHARE = figure("shop_drill_off_label_share")
_PITCH_SHARE = figure("shop_pitch_diameter_off_share")
_COAT_TIMES = figure("shop_coat_times")
_TORQUE_TIMES = number("shop_torque_times")


def datum(measurement: Measurement, place: int, unit: Unit, gauge: Gauge | None) -> Datum:
    """``measurement``, the one at ``place`` of the list, for a fit in ``unit``; ``gauge`` is that of the whole list.

    Raises: BorewrightError that points at the field.
    """
    gauge = measurement.gauge or gauge
    try:
        return _READERS[measurement.kind](measurement, place, unit, gauge)
    except BorewrightError as error:
        raise error.under(f"/measurements/{place}") from None


def drill_of(measurement: Measurement, unit: Unit) -> Drill:
    """The drill of ``measurement``, a bare size in ``unit``. Raises BorewrightError that points at its field."""
    label = needed(measurement.drill, "drill")
    try:
        return find_drill(label, unit)
    except BorewrightError as error:
        raise error.under("/drill") from None


def _drilled_hole(measurement: Measurement, place: int, unit: Unit, gauge: Gauge | None) -> Datum:
    drill = drill_of(measurement, unit)
    own: Unit = "mm" if drill.series == "metric" else "in"
    nominal = drill.diameter(unit)
    diameter = nominal if measurement.drill_diameter is None else length_of(measurement.drill_diameter, unit, own)
    if abs(diameter - nominal) > _GROUND_SHARE * nominal:
        raise refused(
            "measurement_not_of_this",
            f"{length(diameter, unit)} is no diameter of a drill {drill.label}.",
            "/drill_diameter",
            allowed=(around(nominal, share=_GROUND_SHARE, unit=unit),),
        )
    band, published = size_band(nominal, unit), mean_oversize(nominal, unit)
    if band is None or published is None:
        raise refused("value_out_of_range", "No spread of drilled holes is held for this size.", "/drill")
    scale = float(MM_PER_INCH) if unit == "mm" else 1.0
    sigma = band[2] * scale * distributions.factor(f"setup_{measurement.setup}")
    holes = [length_of(one, unit, own) for one in needed(measurement.measured, "measured")]
    for index, hole in enumerate(holes):
        if abs(hole - diameter) > _HOLE_SHARE * diameter:
            raise refused(
                "measurement_not_of_this",
                f"{length(hole, unit)} is no hole of a drill of {length(diameter, unit)}.",
                f"/measured/{index}",
                allowed=(around(diameter, share=_HOLE_SHARE, unit=unit),),
            )
    errors, step = gauge_error(gauge, unit, sigma)
    key = (band[:2], material_group(measurement), measurement.machine, measurement.drill_style)
    return Datum(
        Group("drill_oversize", key),
        place,
        measurement,
        tuple((float(hole - diameter) - float(published.value)) / sigma for hole in holes),
        float(published.value),
        sigma,
        unit,
        errors,
        step,
        4.0,
        measurement.batch,
        extra={"drill": nominal, "label": drill.label},
    )


def _tapped_thread(measurement: Measurement, place: int, unit: Unit, gauge: Gauge | None) -> Datum:
    thread = standards.resolve(needed(measurement.thread, "thread"))
    usual = fit.expected_oversize(thread)
    if usual is None:
        raise refused("thread_data_missing", "No tolerance of this thread is held to compare with.", "/thread")
    own, tolerance = thread.unit, float(usual.tolerance)
    low, high = _tap_band(measurement, thread)
    measured = [length_of(one, own, own) for one in needed(measurement.measured, "measured")]
    _believed_pitch(measured, thread, [f"/measured/{place}" for place in range(len(measured))])
    middle = (low + high) / 2
    mean = fit.OVERSIZE_SHARE if measurement.method == "cut" else -fit.closing_in(thread) / usual.tolerance
    sigma = distributions.factor("pitch_sigma_share")
    if measurement.tapping in ("floating", "hand"):
        sigma *= distributions.factor("pitch_sigma_floating")
    errors, step = gauge_error(gauge, own, sigma * tolerance)
    known = high == low
    key = (
        material_group(measurement),
        measurement.machine,
        measurement.method,
        measurement.tapping,
        measurement.tap_style,
        known,
    )
    return Datum(
        Group("tap_oversize", key),
        place,
        measurement,
        tuple((float(one - middle) / tolerance - float(mean)) / sigma for one in measured),
        float(mean),
        sigma,
        "share",
        errors,
        step,
        1 / sigma,
        f"tap {measurement.tap_id or place}",
        0.0 if known else float(high - low) / tolerance / sigma,
        {"thread": thread.designation},
    )


def _believed_pitch(measured: Sequence[Decimal], thread: Thread, pointers: Sequence[str]) -> None:
    basic = thread.basic.pitch_diameter
    for one, pointer in zip(measured, pointers, strict=True):
        if abs(one - basic) > _PITCH_SHARE * basic:
            raise refused(
                "measurement_not_of_this",
                f"{length(one, thread.unit)} is no pitch diameter of {thread.designation}.",
                pointer,
                allowed=(around(basic, share=_PITCH_SHARE, unit=thread.unit),),
            )


def _tap_band(measurement: Measurement, thread: Thread) -> tuple[Decimal, Decimal]:
    """Limits of the tap's pitch diameter in the thread's unit; one value where it was measured."""
    if measurement.tap_pitch_diameter is not None:
        size = length_of(measurement.tap_pitch_diameter, thread.unit, thread.unit)
        _believed_pitch([size], thread, ("/tap_pitch_diameter",))
        return size, size
    known = {
        one.limit.label: one for system in limits.systems_for(thread) for one in limits.limits_of_tables(thread, system)
    }
    label = needed(measurement.tap, "tap_pitch_diameter")
    if label not in known:
        raise refused(
            "tap_limit_unknown", f"{label} is no limit of taps for this thread.", "/tap", allowed=tuple(known)
        )
    return known[label].low, known[label].high


#: Threads that a finish is read on where none is named: the finish only tells its thickness.
_ANY_THREAD: Mapping[Unit, str] = {"in": "1/2-13 UNC-2B", "mm": "M12"}


def coat_range(finish: FinishInput, thread: Thread) -> tuple[Range, tuple[str | None, str | None], Decimal]:
    """Thickness of ``finish`` on a surface of ``thread``, in its unit, its specification and class, and the share of it
    that stands above the old surface.

    Raises: FinishError; ShopFigureError where the finish has no range.
    """
    read = finishing.allow(thread, finish).finish
    least, most = read.thickness.min, read.thickness.max
    if least is None or most is None or most <= least:
        raise refused("finish_range_missing", "The finish gives no least and greatest thickness.", "/finish")
    growth = read.growth_fraction
    assert growth.min is not None
    assert growth.max is not None
    return read.thickness, (read.specification, read.finish_class), (growth.min + growth.max) / 2


def _coat(measurement: Measurement, place: int, unit: Unit, gauge: Gauge | None) -> Datum:
    named = measurement.thread or callout.read(_ANY_THREAD[unit])
    thread = standards.resolve(named)
    own = thread.unit
    thickness, names, growth = coat_range(needed(measurement.finish, "finish"), thread)
    assert thickness.min is not None
    assert thickness.max is not None
    found = _thicknesses(measurement, thread, growth)
    for index, one in enumerate(found):
        if not 0 < one <= _COAT_TIMES * thickness.max:
            raise refused(
                "measurement_not_of_this",
                f"{length(one, own, 6)} is no thickness of a coat of {length(thickness.max, own, 6)} at most.",
                f"/measured/{index}" if measurement.measured else f"/after/{index}",
            )
    to = Decimal(1) if own == unit else (MM_PER_INCH if unit == "mm" else 1 / MM_PER_INCH)
    mean = float((thickness.min + thickness.max) / 2 * to)
    sigma = float((thickness.max - thickness.min) * to) / distributions.factor("coat_sigmas")
    errors, step = gauge_error(gauge, unit, sigma)
    return Datum(
        Group("coat", (names, measurement.plater)),
        place,
        measurement,
        tuple((float(one * to) - mean) / sigma for one in found),
        mean,
        sigma,
        unit,
        errors,
        step,
        distributions.factor("coat_sigmas"),
        measurement.batch,
    )


def _thicknesses(measurement: Measurement, thread: Thread, growth: Decimal) -> list[Decimal]:
    """Thickness on a surface, in the thread's unit: measured, or by what the coat takes off a diameter."""
    own = thread.unit
    if measurement.measured:
        return [length_of(one, own, own) for one in measurement.measured]
    before = needed(measurement.before, "before")
    after = needed(measurement.after, "after")
    if len(before) != len(after):
        raise refused("range_inconsistent", "`before` and `after` are of the same threads.", "/after")
    per_surface = flank_factor(thread.thread_angle) if measurement.diameter == "pitch" else Decimal(2)
    if per_surface is None:
        raise refused("thread_data_missing", "The flanks of this thread tell no thickness.", "/diameter")
    if growth == 0:
        text = "A coat that does not stand above the old surface takes nothing off a diameter: give its thickness."
        raise refused("shop_field_missing", text, "/measured")
    pairs = zip(before, after, strict=True)
    return [(length_of(one, own, own) - length_of(other, own, own)) / per_surface / growth for one, other in pairs]


def _tapping_torque(measurement: Measurement, place: int, _unit: Unit, _gauge_of_list: Gauge | None) -> Datum:
    expected = needed(measurement.expected_torque_n_m, "expected_torque")
    found = []
    for index, one in enumerate(needed(measurement.torque, "torque")):
        if not 1 / _TORQUE_TIMES <= one / expected <= _TORQUE_TIMES:
            raise refused(
                "measurement_not_of_this",
                "The torque lies so far from the expected one that they are not of the same hole.",
                f"/torque/{index}",
            )
        found.append(log(one / expected))
    sigma = factor("sigma_ln")
    key = (material_group(measurement), measurement.machine, measurement.fluid, measurement.tap_style)
    return Datum(
        Group("tapping_torque", key),
        place,
        measurement,
        tuple(value / sigma for value in found),
        0.0,
        sigma,
        "ln",
        lot=measurement.batch,
    )


def _go_no_go(measurement: Measurement, place: int, unit: Unit, _gauge_of_list: Gauge | None) -> Datum:
    thread = standards.resolve(needed(measurement.thread, "thread"))
    checked, by_go, entered = needed(measurement.checked, "checked"), measurement.go_refused, measurement.not_go_entered
    if by_go + entered > checked:
        raise refused("range_inconsistent", "More pieces are refused than were checked.", "/checked")
    own, internal = thread.unit, thread.internal
    wanted = internal.pitch_diameter if measurement.diameter == "pitch" else internal.minor_diameter
    low, high = wanted.min, wanted.max
    if measurement.limits is not None:
        low, high = (
            None if end is None else length_of(end, own, own)
            for end in (measurement.limits.min, measurement.limits.max)
        )
    if low is None or high is None or high <= low:
        raise refused("range_inconsistent", "GO and NOT GO need two limits, the smaller first.", "/limits")
    if measurement.limits is not None and measurement.diameter == "pitch":
        _believed_pitch([low, high], thread, ("/limits/min", "/limits/max"))
    sigma = float(high - low) / 4
    counts = Gauged(checked, by_go, entered, float(low), float(high))
    key = (thread.designation, measurement.diameter, measurement.machine)
    return Datum(
        Group("go_no_go", key), place, measurement, (), float(low + high) / 2, sigma, own, extra={"counts": counts}
    )


def _taps_used(measurement: Measurement, place: int, unit: Unit, _gauge_of_list: Gauge | None) -> Datum:
    thread = standards.resolve(needed(measurement.thread, "thread"))
    holes, broken = needed(measurement.holes, "holes"), measurement.broken
    if broken > holes:
        raise refused("range_inconsistent", "More taps broke than holes were tapped.", "/broken")
    band = size_band(thread.nominal_diameter, thread.unit)
    ends = (1.0, 1e9) if band is None else band[:2]
    key = (ends, material_group(measurement), measurement.machine)
    return Datum(Group("tap_life", key), place, measurement, (), 0.0, 1.0, "", extra={"holes": holes, "broken": broken})


_READERS: Mapping[str, Reader] = {
    "drilled_hole": _drilled_hole,
    "tapped_thread": _tapped_thread,
    "coat": _coat,
    "tapping_torque": _tapping_torque,
    "go_no_go": _go_no_go,
    "taps_used": _taps_used,
}
