"""The operations of a routing: sequence, tool, parameters and ready-to-print text.

The order is what the shop does: hot-dip zinc goes on before the thread is tapped, every other coat after it; a
thread that is coated is gauged before the finish (with before-finish limits) and again afterwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import Literal

from borewright.core.caches import cached
from borewright.core.cutting.records import CuttingData, Peck
from borewright.core.hole import taper_pipe
from borewright.core.hole.reach import Reach
from borewright.core.hole.tight_bottom import SHORT_BOTTOMING
from borewright.core.hole.tool_reach import ToolReach
from borewright.core.model import MM_PER_INCH, DrillChoice, Tap, Unit
from borewright.core.practice import figure, sizes
from borewright.core.quantity_text import feed, length, named
from borewright.core.rounding import half_even, plain

from . import counterbore_lines, finish_lines, insert_lines, pilot_drilling
from .hole_making_lines import ALONG_THE_EDGE, with_figures
from .operation import Line, Operation, Plan
from .ream_or_bore import is_bored
from .thread_line import thread_line

SEQUENCE_STEP = 10
#: Points of spot drills: the usual one and the flattest, degrees.
_SPOT, _FLATTEST_SPOT = figure("spot_drill_deg"), figure("flattest_spot_drill_deg")
_FLAT = Decimal(180)
_LARGEST_SPOT, _LARGEST_COUNTERSINK = sizes("largest_spot_drill"), sizes("largest_countersink")
#: Decimals of a length on a line, as a shop sets it.
_PLACES: dict[Unit, int] = {"in": 4, "mm": 2}

#: Lines that do not depend on a depth are kept: the holes of a routing share them.
_CACHED = 256


def operations(plan: Plan) -> tuple[Operation, ...]:
    """The operations of the hole of ``plan`` in shop order, numbered by tens; none where no way of
    making is planned.
    """
    if plan.drill is None:
        return ()
    making = (with_figures(line, plan, plan.drill) for line in _hole_making(plan, plan.drill))
    lines = [
        *making,
        *finish_lines.around(plan, plan.drill, tuple(_turned(plan, plan.drill, _threading(plan)))),
        *insert_lines.lines(plan),
    ]
    return tuple(Operation(SEQUENCE_STEP * number, line) for number, line in enumerate(lines, start=1))


def _hole_making(plan: Plan, choice: DrillChoice) -> Iterator[Line]:
    depths, drill = plan.depths, choice.recommended
    yield _spot(_spot_diameter(plan, drill.diameter), plan.hole.point_angle_deg)
    if depths.counterbore_diameter is not None and counterbore_lines.is_first(plan):
        yield counterbore_lines.line(plan, hole_diameter=choice.hole_diameter)
    name, where = named(drill.drill.label, drill.diameter, plan.thread.unit), _depth_words(plan)
    yield from pilot_drilling.lines(plan.thread, drill.diameter, depths)
    yield Line(
        "drill",
        {
            "kind": "flat-bottom drill" if plan.hole.point_angle_deg == _FLAT else "twist drill",
            "label": drill.drill.label,
            "series": drill.drill.series,
            "diameter": drill.diameter,
            "point_angle": plan.hole.point_angle_deg,
            **_long_drill(plan),
        },
        {
            "depth": depths.drill_depth,
            "tip_depth": depths.drill_tip_depth,
            "breakthrough": depths.breakthrough,
            **_drill_cut(plan),
        },
        f"Drill {name}, {where}{_reach_words(plan, 'drill')}{_drill_words(plan)}",
        None if plan.cutting is None else plan.cutting.drill_time_s,
    )
    if drill.operation == "drill_and_ream":
        yield from _ream(plan, choice)
    if depths.counterbore_diameter is not None and not counterbore_lines.is_first(plan):
        yield counterbore_lines.line(plan, hole_diameter=choice.hole_diameter)
    yield _countersink(depths.countersink_diameter, depths.countersink_angle_deg, plan.thread.unit)


def _spot_diameter(plan: Plan, drill_diameter: Decimal) -> Decimal:
    """As wide as the countersink; where no spot drill is, as wide as the drill that it starts, at most its largest."""
    unit, wanted = plan.thread.unit, plan.depths.countersink_diameter
    if wanted <= _LARGEST_SPOT[unit]:
        return wanted
    first = next(iter(pilot_drilling.pilots(drill_diameter, unit)), drill_diameter)
    return min(first, _LARGEST_SPOT[unit])


def _turned(plan: Plan, choice: DrillChoice, threading: Iterator[Line]) -> Iterator[Line]:
    """The lines of the thread, with the countersink of the far side where the drawing has one: it comes before the tap
    where the thread may be tapped from there, so that no burr is left in it.
    """
    stated, hole = plan.hole.countersink, plan.hole
    if stated is None or stated.sides == "one" or hole.kind == "blind":
        yield from threading
        return
    from_far = hole.full_thread_depth is None and plan.depths.counterbore_diameter is None and plan.thread.taper is None
    sunk = _countersink(plan.depths.countersink_diameter, plan.depths.countersink_angle_deg, plan.thread.unit)
    far = [
        Line("turn_over", {"kind": "clamping"}, {}, "Turn the part over"),
        with_figures(replace(sunk, text=f"{sunk.text}, far side"), plan, choice),
    ]
    if from_far:
        yield from far
    yield from threading
    if not from_far:
        yield from far


@cached(_CACHED)
def _spot(diameter: Decimal, point_angle_deg: Decimal) -> Line:
    """A spot drill's angle is at least the drill's, but none is flatter than the flattest (common practice)."""
    angle = _SPOT if point_angle_deg <= _SPOT else _FLATTEST_SPOT
    tool = {"kind": "spot drill", "included_angle": angle}
    flat = f", or start the {plain(point_angle_deg)} degree drill on the flat" if point_angle_deg > angle else ""
    return Line("spot_drill", tool, {"diameter": diameter}, f"Spot drill, {plain(angle)} degree point{flat}")


@cached(_CACHED)
def _countersink(diameter: Decimal, angle_deg: Decimal, unit: Unit) -> Line:
    """By a countersink, or where none is so wide by what is moved along the edge."""
    if diameter > _LARGEST_COUNTERSINK[unit]:
        return Line(
            "countersink",
            {"kind": ALONG_THE_EDGE, "included_angle": angle_deg},
            {"diameter": diameter},
            f"Chamfer to {_say(diameter, unit)} diameter, {plain(angle_deg)} degrees, with a {ALONG_THE_EDGE}",
        )
    return Line(
        "countersink",
        {"kind": "countersink", "included_angle": angle_deg},
        {"diameter": diameter},
        f"Countersink {_say(diameter, unit)} diameter, {plain(angle_deg)} degrees",
    )


def _ream(plan: Plan, choice: DrillChoice) -> Iterator[Line]:
    """The straight hole, where the drill does not make it, and the taper."""
    if choice.ream_diameter is not None:
        yield _straight(plan, choice)
    if plan.thread.taper is not None:
        yield Line(
            "ream",
            {"kind": "taper reamer", "taper": "1 in 16 on diameter"},
            {"depth": plan.depths.full_thread_depth},
            f"Taper ream 1 in 16, {_say(plan.depths.full_thread_depth, plan.thread.unit)} deep",
        )


def _straight(plan: Plan, choice: DrillChoice) -> Line:
    size, boring = choice.hole_diameter, is_bored(choice, plan.thread.unit)
    return Line(
        "bore" if boring else "ream",
        {"kind": "boring bar" if boring else "reamer", "diameter": size},
        {"depth": plan.depths.drill_depth},
        f"{'Bore' if boring else 'Ream'} {_say(size, plan.thread.unit)} diameter",
    )


def _threading(plan: Plan) -> Iterator[Line]:
    """The thread, and the hardening that follows it where the part is too hard to be threaded afterwards."""
    if plan.tap is not None:
        first, second = plan.tap.recommended, plan.tap.second_tap
        yield _tap(plan, first, last=second is None)
        if second is not None:
            yield _tap(plan, second, last=True)
    elif plan.way.threading is not None:
        yield thread_line(plan.thread, plan.depths, plan.way, plan.to_make)
    if plan.way.harden_to is not None:
        yield Line("harden", {"kind": "furnace"}, {}, f"Harden to {plan.way.harden_to}, then check the thread")


def _tap(plan: Plan, tap: Tap, *, last: bool) -> Line:
    return Line(
        "tap",
        {
            "kind": "tap",
            "marking": tap.marking,
            "style": tap.style,
            "chamfer": tap.chamfer.name,
            "limit": tap.limit.label if tap.limit is not None else None,
            "substrate": tap.substrate,
            "surface": tap.surface,
            **_long_tap(plan),
        },
        {
            "full_thread_depth": plan.depths.full_thread_depth,
            "travel": plan.depths.tap_travel,
            "lead": plan.thread.lead,
            **taper_pipe.tap_turns(plan.thread, plan.depths.tap_travel, to_make=plan.to_make),
            **_tap_cut(plan),
        },
        f"Tap {tap.marking}, {_how_deep(plan, tap, last=last)}{_reach_words(plan, 'tap')}{_tap_words(plan)}",
        None if plan.cutting is None else plan.cutting.tap_time_s,
    )


def _how_deep(plan: Plan, tap: Tap, *, last: bool) -> str:
    """Style, chamfer and depth; a taper tap runs by its gauge line."""
    if plan.thread.taper is not None:
        return taper_pipe.tap_words(plan.thread, tap, plan.depths.tap_travel, to_make=plan.to_make)
    deep = f"full thread {_say(plan.depths.full_thread_depth, plan.thread.unit)} deep"
    style, chamfer = tap.style.replace("_", " "), tap.chamfer.name.replace("_", "-")
    short = " of 1 to 1.5 threads" if tap.chamfer.threads_max <= SHORT_BOTTOMING else ""
    return f"{style}, {chamfer} chamfer{short}, {deep if last else 'ahead of the second tap'}"


def _long_drill(plan: Plan) -> dict[str, object]:
    """What of the drill's length the way to the hole asks for."""
    way = plan.reach
    if way is None or way.ordinary:
        return {}
    return {"reach": way.drill_reach, "length": _length_of(way, way.drill)}


def _long_tap(plan: Plan) -> dict[str, object]:
    """What of the tap's length and shank the way to the hole asks for."""
    way = plan.reach
    if way is None or way.ordinary:
        return {}
    return {"reach": way.tap_reach, "length": _length_of(way, way.tap), "shank": way.shank}


def _length_of(way: Reach, tool: ToolReach | None) -> str:
    return way.length if tool is None else tool.kind


def _reach_words(plan: Plan, tool: Literal["drill", "tap"]) -> str:
    way = plan.reach
    if way is None or way.ordinary:
        return ""
    reach, found = (way.drill_reach, way.drill) if tool == "drill" else (way.tap_reach, way.tap)
    return f", {_length_of(way, found).replace('_', ' ')} length reaching {_say(reach, plan.thread.unit)}"


def _drill_cut(plan: Plan) -> dict[str, object]:
    if plan.cutting is None or plan.cutting.drill is None:
        return {}
    cut, peck = plan.cutting.drill, _peck(plan.cutting)
    pecks = {} if peck.first_mm is None else {"pecks": peck.count, "first_peck": _length(plan, peck.first_mm)}
    return {"spindle_speed": cut.spindle_speed_rpm, "feed": _length(plan, cut.feed_mm_rev), **pecks}


def _drill_words(plan: Plan) -> str:
    if plan.cutting is None:
        return ""
    cut = plan.cutting.drill
    if cut is None:
        return ", speed not held"
    peck = _peck(plan.cutting)
    pecks = "" if peck.first_mm is None else f", {peck.count} pecks"
    return f", {cut.spindle_speed_rpm} rev/min, feed {feed(cut.feed_mm_rev)}{pecks}"


def _peck(cutting: CuttingData) -> Peck:
    """Every drill whose speed is held has its pecks."""
    assert cutting.peck is not None
    return cutting.peck


def _tap_cut(plan: Plan) -> dict[str, object]:
    cut = plan.cutting.tap if plan.cutting is not None else None
    return {} if cut is None or cut.spindle_speed_rpm is None else {"spindle_speed": cut.spindle_speed_rpm}


def _tap_words(plan: Plan) -> str:
    if plan.tapping == "hand":
        speed = ", by hand"
    elif plan.cutting is None:
        speed = ""
    else:
        cut = plan.cutting.tap
        known = None if cut is None else cut.spindle_speed_rpm
        speed = ", speed not held" if known is None else f", {known} rev/min"
    fluid = plan.cutting.fluid if plan.cutting is not None else None
    return speed + (f", {fluid.tapping}" if fluid is not None else "")


def _length(plan: Plan, millimetres: float) -> Decimal:
    """A length of the cutting data in the thread's unit."""
    exact = Decimal(repr(millimetres))
    return half_even(exact / MM_PER_INCH, 4) if plan.thread.unit == "in" else half_even(exact, 3)


def _depth_words(plan: Plan) -> str:
    depth, tip = (_say(one, plan.thread.unit) for one in (plan.depths.drill_depth, plan.depths.drill_tip_depth))
    return f"through {depth}" if plan.hole.kind == "through" else f"{depth} deep at full diameter, tip {tip}"


def _say(value: Decimal, unit: Unit) -> str:
    return length(value, unit, _PLACES[unit])
