"""The hole aimed at, and the case that follows from it.

A cut thread is drilled for a percent of thread, by the wall chart or for the major diameter less the pitch; a formed
one needs a larger hole, held far closer.
"""

from __future__ import annotations

from decimal import Decimal

from borewright.core.chance.made_sizes import Aim, aim
from borewright.core.errors import DrillingError
from borewright.core.model import Material, PercentTarget, Range, Thread, Unit
from borewright.core.practice import figure
from borewright.core.quantity_text import length, span
from borewright.core.rounding import half_even, plain
from borewright.core.tapping import forming as tap_forming

from .drill_case import (
    WALL_CHART_PERCENT,
    DrillCase,
    DrillQuestion,
    Target,
    drills_in_stock,
    minor_diameter_to_make,
    on_wall_chart,
    racks,
)
from .drill_sizes import printed
from .percent_of_thread import (
    FULL_HEIGHT_60,
    Basis,
    cutting_basis,
    exact_pitch,
    forming_basis,
    is_common_form,
    printed_hole,
)
from .tap_drill_charts import ChartRow, chart_drills

_POINTER = "/percent_thread"
#: How far from the hole aimed at a drill may lie where no limit is held, in percent of thread.
_OPEN_SLACK = figure("open_limit_slack_percent")
#: Percent of thread formed unless the caller says otherwise.
DEFAULT_FORMING_PERCENT = figure("forming_percent")
#: How far from the percent aimed at a standard drill may lie without reaming.
_FORMING_SLACK = figure("forming_percent_window")


def cutting_case(thread: Thread, request: DrillQuestion, band_max: Decimal | None) -> DrillCase:
    """The case of a cut thread as ``request`` asks for it.

    Args: ``band_max`` largest hole of the recommended band, None where none is given; least torque stays below it.
    Raises: DrillingError ``percent_out_of_range``, ``range_inconsistent``, ``drill_series_unknown``, ``drill_unknown``,
        ``method_not_applicable``.
    Source: shop rule major diameter less pitch; charts and limits as their modules say.
    """
    basis, chart = cutting_basis(thread), chart_drills(thread)
    limits = _taper_limits(thread, chart) if thread.taper is not None else minor_diameter_to_make(thread, request)
    tops = [limits.max, band_max if request.objective == "least_torque" else None]
    return DrillCase(
        thread,
        request,
        limits,
        minor_diameter_to_make(thread, request) != thread.internal.minor_diameter,
        basis,
        _target(thread, limits, basis, request.percent, chart),
        *racks(thread, request),
        chart,
        drills_in_stock(thread, request),
        min((top for top in tops if top is not None), default=None),
        _aim(thread, request),
    )


def _aim(thread: Thread, request: DrillQuestion) -> Aim | None:
    """Limits of the finished minor diameter with the coat to come; none on a taper, whose diameter varies."""
    if thread.taper is not None:
        return None
    if request.coat is None:
        return aim(minor_diameter_to_make(thread, request))
    return aim(thread.internal.minor_diameter, request.coat.minor_diameter)


def _target(
    thread: Thread, limits: Range, basis: Basis, percent: PercentTarget | None, chart: tuple[ChartRow, ...]
) -> Target:
    if thread.taper is not None:
        return _taper_target(thread, limits, percent, chart)
    if percent is None:
        hole, text, formula, inputs = _usual_hole(thread, limits)
        return Target(hole, text, formula, inputs, *_closed_ends(limits, hole, basis))
    check_percent(thread, percent, limits)
    low, high = _percent_ends(limits, basis, percent, thread.unit)
    if percent.target is not None:
        hole, inputs = basis.hole(percent.target), (("percent", percent.target), *basis.inputs)
        text, formula = f"{plain(percent.target)} % of thread", _hole_formula(basis)
    else:
        hole, text, formula, inputs = _usual_hole(thread, limits)
    held = min(max(hole, low or hole), high or hole)
    cautions = () if held == hole or percent.target is None else (_not_reached(thread, percent.target, held, basis),)
    ends = _closed_ends(Range(low, high), held, basis)
    return Target(held, text, formula if held == hole else "table", inputs, *ends, cautions)


def _taper_limits(thread: Thread, chart: tuple[ChartRow, ...]) -> Range:
    """Limits of a straight hole where no chart names a drill: full crest over the hand-tight engagement."""
    if chart:
        return Range(None, None)
    found = thread.extra["pipe"]["straight_hole_diameter"]
    assert isinstance(found, Range)
    return found


def _taper_target(thread: Thread, limits: Range, percent: PercentTarget | None, chart: tuple[ChartRow, ...]) -> Target:
    """A taper thread's hole is what its chart says: no minor diameter limit at one plane judges a straight drill."""
    if percent is not None:
        raise DrillingError(
            "method_not_applicable",
            "a taper thread's hole follows from its gauge plane, not from a percent of thread",
            pointer=_POINTER,
        )
    if limits.min is not None and limits.max is not None:
        ends = (("low", limits.min), ("high", limits.max))
        middle = (limits.min + limits.max) / 2
        return Target(middle, "middle of the straight hole's limits", "(low + high) / 2", ends, limits.min, limits.max)
    row = next((row for row in chart if row.variant == "straight"), chart[0])
    hole = printed(row.drill, thread.unit)
    return Target(hole, "the drill chart", "table", (("drill", hole),), None, None)


def _closed_ends(limits: Range, hole: Decimal, basis: Basis) -> tuple[Decimal, Decimal]:
    """Ends of the hole; where the standard's limit is not held, drills stay near the hole aimed at."""
    slack = _OPEN_SLACK * basis.full_height / 100
    low = limits.min if limits.min is not None else hole - slack
    return low, limits.max if limits.max is not None else hole + slack


def _usual_hole(thread: Thread, limits: Range) -> tuple[Decimal, str, str, tuple[tuple[str, Decimal], ...]]:
    """The wall chart's percent on inch threads; major diameter less pitch on other common forms; else the middle."""
    major, pitch, minor = thread.basic.major_diameter, exact_pitch(thread), thread.basic.minor_diameter
    low, high = limits.min, limits.max
    if on_wall_chart(thread):
        hole = major - WALL_CHART_PERCENT * FULL_HEIGHT_60 * pitch / 100
        text = f"{plain(WALL_CHART_PERCENT)} % of thread"
        return hole, text, "D - 75 * 1.299038 * P / 100", (("D", major), ("P", pitch))
    rule = major - pitch
    if is_common_form(thread) and (low or rule) <= rule <= (high or rule):
        return rule, "major diameter less pitch", "D - P", (("D", major), ("P", pitch))
    if low is not None and high is not None:
        ends = (("low", low), ("high", high))
        return (low + high) / 2, "middle of the minor diameter limits", "(low + high) / 2", ends
    hole = max(minor, low or minor)
    return hole, "basic minor diameter", "max(D1, low)", (("D1", minor), ("low", low or minor))


def _hole_formula(basis: Basis) -> str:
    return "D - percent * 1.299038 * P / 100" if "1.299038" in basis.formula else "D - percent * (D - D1) / 100"


def _not_reached(thread: Thread, percent: Decimal, held: Decimal, basis: Basis) -> tuple[str, str]:
    unit, wanted = thread.unit, printed_hole(thread, basis.hole(percent))
    return (
        "percent_outside_limits",
        f"{plain(percent)} % of thread needs a hole of {length(wanted, unit)}, outside the minor diameter limits; the"
        f" nearest they allow is {length(printed_hole(thread, held), unit)} ({basis.percent(held)} %). A modified"
        " thread needs the designer's agreement.",
    )


def _percent_ends(
    limits: Range, basis: Basis, percent: PercentTarget, unit: Unit
) -> tuple[Decimal | None, Decimal | None]:
    """Smallest and largest hole that the limits and the percents allow together."""
    low, high = limits.min, limits.max
    if percent.max is not None:
        smallest = basis.hole(percent.max)
        low = smallest if low is None else max(low, smallest)
    if percent.min is not None:
        largest = basis.hole(percent.min)
        high = largest if high is None else min(high, largest)
    if low is not None and high is not None and low > high:
        name = "min" if percent.max is None else "max"
        raise DrillingError(
            "percent_out_of_range",
            f"no hole inside the minor diameter limits {span(limits, unit)} leaves the percent of thread asked"
            f" for ({plain(getattr(percent, name))} %): the limits leave {_percent_text(limits, basis)}",
            pointer=f"{_POINTER}/{name}",
            allowed=(_percent_text(limits, basis),),
        )
    return low, high


def _percent_text(limits: Range, basis: Basis) -> str:
    ends = [f"{plain(half_even(basis.percent(end), 1))} %" for end in (limits.max, limits.min) if end is not None]
    return " to ".join(ends)


def forming_case(thread: Thread, request: DrillQuestion) -> DrillCase:
    """The case of a formed thread as ``request`` asks for it: hole = D - 0.0068 x percent x P.

    Raises: DrillingError ``percent_out_of_range``, ``range_inconsistent``.
    Source: Machinery's Handbook, cold form tapping (seen second-hand).
    """
    percent = request.percent or PercentTarget()
    check_percent(thread, percent, minor_diameter_to_make(thread, request))
    basis = forming_basis(thread)
    aimed = _forming_percent(percent)
    target = Target(
        basis.hole(aimed),
        f"forming hole for {plain(aimed)} % of thread",
        "D - 0.0068 * percent * P",
        (("percent", aimed), *basis.inputs),
        basis.hole(percent.max if percent.max is not None else aimed + _FORMING_SLACK),
        basis.hole(percent.min if percent.min is not None else max(aimed - _FORMING_SLACK, Decimal(1))),
    )
    first, second = racks(thread, request)
    return DrillCase(
        thread,
        request,
        Range(None, None),
        moved=False,
        basis=basis,
        target=target,
        first=first,
        second=second,
        chart=(),
        crib=drills_in_stock(thread, request),
        top=None,
    )


def _forming_percent(percent: PercentTarget) -> Decimal:
    if percent.target is not None:
        return percent.target
    aimed = DEFAULT_FORMING_PERCENT
    if percent.min is not None:
        aimed = max(aimed, percent.min)
    return aimed if percent.max is None else min(aimed, percent.max)


def check_formable(thread: Thread, material: Material | None) -> None:
    """Refuse a ``thread`` or ``material`` that cannot be formed.

    Raises: DrillingError ``method_not_applicable`` for other forms than a parallel 60 degree one and for materials that
    do not flow.
    Source: common practice.
    """
    if not is_common_form(thread):
        raise DrillingError(
            "method_not_applicable",
            f"hole sizes for forming are known for 60 degree forms of 5/8 H only, not for {thread.designation}",
            pointer="/method",
            allowed=("cut",),
        )
    refused = tap_forming.refusal(material)
    if refused is not None:
        raise DrillingError("method_not_applicable", refused, pointer="/method", allowed=("cut",))


def check_percent(thread: Thread, percent: PercentTarget, limits: Range) -> None:
    """Refuse ``percent`` of ``thread`` that contradicts itself or cannot be made inside the ``limits`` in the thread's
    unit.

    Raises: DrillingError ``percent_out_of_range`` (above the height the GO plain plug allows, or not above 0),
        ``range_inconsistent``.
    Source: FED-STD-H28/2B (1991) 20.2.3; geometry of the basic form.
    """
    ceiling = cutting_basis(thread).percent(thread.basic.minor_diameter)
    if limits.min is not None:
        ceiling = max(ceiling, cutting_basis(thread).percent(limits.min))
    for name in ("target", "min", "max"):
        value: Decimal | None = getattr(percent, name)
        if value is not None and not (value.is_finite() and value > 0):
            raise DrillingError(
                "percent_out_of_range", "a percent of thread is above 0", pointer=_percent_pointer(name, percent)
            )
    for name in ("target", "min"):
        value = getattr(percent, name)
        if value is not None and value > ceiling:
            raise DrillingError(
                "percent_out_of_range",
                f"{plain(value)} % of thread is above {plain(ceiling)} %, the height at the smallest minor diameter"
                f" ({cutting_basis(thread).text}): the hole would be too small for the GO plain plug",
                pointer=_percent_pointer(name, percent),
                allowed=(f"above 0 to {plain(ceiling)} %",),
            )
    _check_order(percent)


def _check_order(percent: PercentTarget) -> None:
    pairs = (
        ("min", percent.min, percent.max),
        ("min", percent.min, percent.target),
        ("target", percent.target, percent.max),
    )
    for name, low, high in pairs:
        if low is not None and high is not None and low > high:
            raise DrillingError(
                "range_inconsistent",
                f"percent of thread: {plain(low)} is above {plain(high)}; min, target and max must rise",
                pointer=_percent_pointer(name, percent),
            )


def _percent_pointer(name: str, percent: PercentTarget) -> str:
    """Pointer of a percent: a lone target is written without an object."""
    alone = name == "target" and percent.min is None and percent.max is None
    return _POINTER if alone else f"{_POINTER}/{name}"
