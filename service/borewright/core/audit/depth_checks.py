"""The planned drilled depth: against full thread, chamfer, wall and the limit of the request."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from borewright.core.hole.depths import point_ratio
from borewright.core.model import TapChamfer, Unit
from borewright.core.rounding import plain

from .case import AuditCase
from .findings import Finding, Severity, say

#: Half of the last digit in which depths are printed.
_HALF_DIGIT: Mapping[Unit, Decimal] = {"in": Decimal("0.0005"), "mm": Decimal("0.005")}


def check(case: AuditCase) -> Iterator[Finding]:
    """Findings on the drilled depth that ``case`` plans, the depth of full drill diameter.

    Source: common practice for the build-up (full thread + chamfer); geometry of the drill point.
    """
    depth = None if case.plan.drill_depth is None else case.plan.drill_depth.to(case.thread.unit)
    hole = case.spec.request.hole
    if hole.kind == "through":
        thickness = None if hole.thickness is None else hole.thickness.to(case.thread.unit)
        if depth is not None and thickness is not None and _less(case, depth, than=thickness):
            text = f"The wall is {say(thickness, case.thread)}: {say(thickness - depth, case.thread)} are not drilled."
            yield _finding(case, "hole_too_shallow", "error", text, depth, thickness)
        return
    if depth is not None:
        yield from _limit(case, depth)
        yield from _wall(case, depth)
    else:
        depth = _deepest(case)
    if depth is not None:
        yield from _room(case, depth)


def _less(case: AuditCase, depth: Decimal, *, than: Decimal) -> bool:
    return depth + _HALF_DIGIT[case.thread.unit] < than


def _finding(case: AuditCase, code: str, severity: Severity, text: str, planned: Decimal, expected: Decimal) -> Finding:
    return Finding(code, severity, "drill_depth", text, say(planned, case.thread), say(expected, case.thread))


def _deepest(case: AuditCase) -> Decimal | None:
    """Deepest full drill diameter that the request allows, where the plan gives none."""
    hole, unit = case.spec.request.hole, case.thread.unit
    ends = [] if hole.drill_depth_limit is None else [hole.drill_depth_limit.to(unit)]
    if hole.thickness is not None:
        ends.append(hole.thickness.to(unit) - point_ratio(hole.point_angle_deg) * case.drill_diameter)
    return min(ends, default=None)


def _limit(case: AuditCase, depth: Decimal) -> Iterator[Finding]:
    limit = case.spec.request.hole.drill_depth_limit
    if limit is not None and _less(case, limit.to(case.thread.unit), than=depth):
        over = depth - limit.to(case.thread.unit)
        text = f"The drilled depth passes the limit of the request by {say(over, case.thread)}."
        yield _finding(case, "drill_depth_over_limit", "error", text, depth, limit.to(case.thread.unit))


def _wall(case: AuditCase, depth: Decimal) -> Iterator[Finding]:
    hole, thread = case.spec.request.hole, case.thread
    if hole.thickness is None:
        return
    wall, point = hole.thickness.to(thread.unit), point_ratio(hole.point_angle_deg) * case.drill_diameter
    left = wall - depth - point
    text = (
        f"{say(depth, thread)} + point {say(point, thread)} = {say(depth + point, thread)} in a wall of"
        f" {say(wall, thread)}: {say(left, thread)} left."
    )
    if left <= 0:
        yield _finding(case, "drill_breaks_through", "error", text, depth, wall - point)
    elif left < thread.pitch and depth > case.spec.depths.drill_depth:
        yield _finding(case, "wall_thin", "warning", text, depth, case.spec.depths.drill_depth)


def _room(case: AuditCase, depth: Decimal) -> Iterator[Finding]:
    """Room below the full thread for the chamfer of the last tap: its longest end is wanted, its shortest is needed."""
    if case.thread.taper is not None:
        yield from _gauge_line(case, depth)
        return
    full, tap = case.spec.depths.full_thread_depth, case.last_tap
    if _less(case, depth, than=full):
        text = f"{say(full, case.thread)} of full thread do not fit in {say(depth, case.thread)} of drilled depth."
        yield _finding(case, "hole_too_shallow", "error", text, depth, case.spec.depths.drill_depth)
        return
    own = None if tap is None else tap.chamfer
    taps = case.best_tap
    chamfer = own or (taps.second_tap or taps.recommended).chamfer
    code = "hole_too_shallow" if own is None else "tap_chamfer_no_room"
    needed = full + chamfer.threads_min * case.thread.pitch
    wanted = full + chamfer.threads_max * case.thread.pitch
    if _less(case, depth, than=needed):
        yield _short(case, code, "error", depth=depth, chamfer=chamfer, needed=needed)
    elif _less(case, depth, than=wanted):
        severity: Severity = "info" if own is None else "warning"
        yield _short(case, code, severity, depth=depth, chamfer=chamfer, needed=wanted)


def _gauge_line(case: AuditCase, depth: Decimal) -> Iterator[Finding]:
    """A taper tap must run to its gauge line, or the thread stays too small."""
    travel, thread = case.spec.depths.tap_travel, case.thread
    if _less(case, depth, than=travel):
        text = (
            f"The tap runs {say(travel, thread)} past the face to its gauge line; {say(depth, thread)} are drilled: it"
            " meets the bottom before the thread is at size."
        )
        yield _finding(case, "hole_too_shallow", "error", text, depth, case.spec.depths.drill_depth)


def _short(
    case: AuditCase, code: str, severity: Severity, *, depth: Decimal, chamfer: TapChamfer, needed: Decimal
) -> Finding:
    full, thread = case.spec.depths.full_thread_depth, case.thread
    threads = chamfer.threads_min if severity == "error" else chamfer.threads_max
    text = (
        f"{say(full, thread)} of full thread + {plain(threads)} threads of {chamfer.name.replace('_', '-')} chamfer x"
        f" {say(thread.pitch, thread)} = {say(needed, thread)}; {say(depth, thread)} are drilled."
    )
    return _finding(case, code, severity, text, depth, max(needed, case.spec.depths.drill_depth))
