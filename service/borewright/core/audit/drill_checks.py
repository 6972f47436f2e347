"""The planned drill: against the minor diameter to be made, the charts, the tap's method and the part material."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core import finishing
from borewright.core.drilling import oversize_of, own_oversize
from borewright.core.drilling.hole_limits import engagement_step
from borewright.core.drilling.part_remarks import percent_band
from borewright.core.drilling.percent_of_thread import (
    FORMING_CONSTANT,
    cutting_basis,
    exact_pitch,
    forming_basis,
    is_common_form,
)
from borewright.core.drilling.tap_drill_charts import chart_drills
from borewright.core.model import Range, Thread
from borewright.core.practice import figure
from borewright.core.rounding import half_even, plain

from .case import AuditCase
from .findings import Finding, Severity, say, to_digits_of, window

_OVER_BAND_PERCENT = figure("audit_percent_over_band")
#: Miss of its chart by a taper thread's drill, in heights of the thread, above which it is wrong or doubtful.
_CHART_ERROR, _CHART_WARNING = figure("audit_chart_error_share"), figure("audit_chart_warning_share")
_FORMING_PERCENTS = figure("formable_percent_least"), figure("formable_percent_most")
_CUT_DRILL_UNDER_PITCHES = figure("audit_cut_drill_under_pitches")


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on the drill that ``case`` plans.

    Source: limits of the thread; FED-STD-H28/2B (1991) for mean oversize; percents by material are common practice.
    """
    if case.drill is None:
        return
    if case.spec.request.method == "form":
        yield from _forming(case)
        return
    limits = case.to_make.minor_diameter
    if case.thread.taper is not None:
        yield from _by_chart(case)
        return
    yield from _cutting(case, limits)
    yield from _percents(case)


def _planned(case: AuditCase) -> str:
    return f"{case.plan.drill} ({say(case.drill_diameter, case.thread)})"


def _oversize(case: AuditCase) -> Decimal | None:
    """Mean oversize of the planned drill: what the request states, or the shop's own figures that it hands on.

    None where neither they nor the tables have one.
    """
    asked = case.spec.request
    own = own_oversize(case.thread, asked.machine, asked.shop_figures, case.spec.way.material)
    found = oversize_of(case.drill_diameter, case.thread.unit, own)
    return None if found is None else found.value


def _hole(case: AuditCase) -> Decimal:
    """The mean hole of the planned drill; the drill itself where its oversize is not known."""
    return case.drill_diameter + (_oversize(case) or 0)


def _cutting(case: AuditCase, limits: Range) -> Iterator[Finding]:
    yield from _above(case, limits)
    yield from _below(case, limits)


def _above(case: AuditCase, limits: Range) -> Iterator[Finding]:
    drill, thread = case.drill_diameter, case.thread
    if limits.max is None:
        return
    hole = _hole(case)
    if to_digits_of(drill, limit=limits.max) > limits.max:
        code = "drill_for_forming_tap" if _is_forming_hole(thread, drill) else "drill_too_large"
        text = f"The drill alone is {say(drill - limits.max, thread)} above the largest minor diameter to be made."
        yield Finding(code, "error", "drill", text, _planned(case), _expected(case))
    elif hole > limits.max:
        text = f"{_sum(case)}: on average {say(hole - limits.max, thread)} above the largest minor diameter."
        yield Finding("drill_too_large", _near(case), "drill", text, _planned(case), _expected(case))


def _below(case: AuditCase, limits: Range) -> Iterator[Finding]:
    drill, thread = case.drill_diameter, case.thread
    if limits.min is None or to_digits_of(drill, limit=limits.min) >= limits.min:
        return
    hole = _hole(case)
    if (_is_reamed(case) and drill >= _before_reaming(case)) or (hole < limits.min and _is_charted(case)):
        if not {"ream", "bore"} & set(case.plan.operations_order or ()):
            text = f"{_sum(case)}: below {window(limits, thread)}, so that it is reamed (or bored) after drilling."
            severity: Severity = "warning" if _is_reamed(case) else _near(case)
            yield Finding("ream_missing", severity, "operations_order", text, _planned(case), "drill, then ream")
    elif hole < limits.min:
        text = f"{_sum(case)}: {say(limits.min - hole, thread)} below the smallest minor diameter to be made."
        yield Finding("drill_too_small", "error", "drill", text, _planned(case), _expected(case))
    else:
        text = f"{_sum(case)}: it reaches the smallest minor diameter only by the oversize of drilling."
        yield Finding("drill_too_small", _near(case), "drill", text, _planned(case), _expected(case))


def _is_reamed(case: AuditCase) -> bool:
    """Whether no drill holds the limits with its mean hole, so that the hole is reamed."""
    best, others = case.best_drill.recommended, case.best_drill.alternatives
    if best.operation == "drill_and_ream":
        return True
    return bool(others) and all(one.operation == "drill_and_ream" for one in others)


def _before_reaming(case: AuditCase) -> Decimal:
    """The drill that leaves stock for the reamer."""
    choice = case.best_drill
    ways = (choice.recommended, *choice.alternatives)
    return min(one.drill.diameter(case.thread.unit) for one in ways if one.operation == "drill_and_ream")


def _sum(case: AuditCase) -> str:
    drill, oversize, thread = case.drill_diameter, _oversize(case), case.thread
    if oversize is None:
        return f"{say(drill, thread)}, for which no mean oversize is known"
    return f"{say(drill, thread)} + mean oversize {say(oversize, thread)} = {say(drill + oversize, thread)}"


def _expected(case: AuditCase) -> str:
    return f"{window(case.to_make.minor_diameter, case.thread)}, e.g. {case.best_drill.recommended.drill.label}"


def _near(case: AuditCase) -> Severity:
    """A hole that misses the limits only with its mean oversize; on its own drill the specification decides."""
    return "info" if case.drill == case.best_drill.recommended.drill else "warning"


def _is_charted(case: AuditCase) -> bool:
    """Whether a chart lists the drill for the thread, and no finish moves the limits that the chart is for."""
    moved = case.to_make.minor_diameter != case.thread.internal.minor_diameter
    return not moved and any(row.drill == case.drill for row in chart_drills(case.thread))


def _is_forming_hole(thread: Thread, drill: Decimal) -> bool:
    if not is_common_form(thread):
        return False
    low, high = _FORMING_PERCENTS
    return low <= forming_basis(thread).percent(drill) <= high


def _forming(case: AuditCase) -> Iterator[Finding]:
    """A formed thread's hole, in percent of thread formed."""
    drill, thread, choice = case.drill_diameter, case.thread, case.best_drill
    percent = forming_basis(thread).percent(drill)
    low, high = _FORMING_PERCENTS
    best = abs(choice.recommended.drill.diameter(thread.unit) - choice.target_hole_diameter)
    if low <= percent <= high or abs(drill - choice.target_hole_diameter) <= best:
        return
    pitch = exact_pitch(thread)
    text = (
        f"({plain(thread.basic.major_diameter)} - {plain(drill)}) / ({FORMING_CONSTANT} x {plain(pitch)[:8]}) ="
        f" {percent} % of thread formed; {low} to {high} % can be formed."
    )
    limits = case.to_make.minor_diameter
    cut = percent > high and (limits.min is None or drill >= limits.min - _CUT_DRILL_UNDER_PITCHES * thread.pitch)
    code = "drill_for_cutting_tap" if cut else ("drill_too_small" if percent > high else "drill_too_large")
    expected = f"{say(choice.target_hole_diameter, thread)}, e.g. {choice.recommended.drill.label}"
    yield Finding(code, "error", "drill", text, _planned(case), expected)


def _by_chart(case: AuditCase) -> Iterator[Finding]:
    """A taper thread's hole follows from its chart: no limit at one plane judges a straight drill."""
    thread, drill = case.thread, case.drill_diameter
    charted = [row.drill.diameter(thread.unit) for row in chart_drills(thread)]
    if not charted:
        return
    above, below = drill - max(charted), min(charted) - drill
    off = max(above, below)
    height = cutting_basis(thread).full_height
    if off <= 0:
        return
    share = off / height
    severity: Severity = "error" if share > _CHART_ERROR else ("warning" if share > _CHART_WARNING else "info")
    code, way = ("drill_too_large", "above") if above > 0 else ("drill_too_small", "below")
    text = (
        f"{say(off, thread)} {way} the drills of the chart: {say(off, thread)} / {say(height, thread)} ="
        f" {half_even(100 * share, 1)} % of the thread height."
    )
    expected = ", ".join(dict.fromkeys(row.drill.label for row in chart_drills(thread)))
    yield Finding(code, severity, "drill", text, _planned(case), expected)


def _percents(case: AuditCase) -> Iterator[Finding]:
    thread, drill = case.thread, case.drill_diameter
    basis = cutting_basis(finishing.as_cut(thread, case.spec.allowance))
    hole = _hole(case)
    drilled, expected = basis.percent(drill), basis.percent(hole)
    arithmetic = f"{drilled} % by the drill, {expected} % by the expected hole of {say(hole, thread)} ({basis.text})"
    asked = case.spec.request.percent_thread
    if asked is not None:
        low, high = asked.min or Decimal(0), asked.max or Decimal(100)
        if not (low <= drilled <= high or low <= expected <= high):
            text = f"The request asks for {plain(low)} to {plain(high)} %; {arithmetic}."
            yield Finding("percent_outside_request", "warning", "drill", text, f"{drilled} %", f"{low} to {high} %")
    band = percent_band(thread, case.spec.material, engagement_step(thread, case.spec.depths.full_thread_depth))
    smallest = case.to_make.minor_diameter.min
    if band is None or expected <= band[1] or (smallest is not None and to_digits_of(drill, limit=smallest) < smallest):
        return
    charted = drill >= case.best_drill.recommended.drill.diameter(thread.unit)
    severity: Severity = "info" if charted or expected <= band[1] + _OVER_BAND_PERCENT else "warning"
    name = case.spec.material.family if case.spec.material is not None else ""
    text = f"{arithmetic}; {plain(band[0])} to {plain(band[1])} % is common practice in {name} at that depth."
    yield Finding("percent_above_practice", severity, "drill", text, f"{expected} %", f"at most {plain(band[1])} %")
