"""The hole on a card at the machine: five short texts in the words of the trade."""

from __future__ import annotations

from typing import NamedTuple

from borewright.core.cutting.records import CuttingData
from borewright.core.hole import taper_pipe
from borewright.core.model import Depths, DrillChoice, Hole, TapChoice, Thread
from borewright.core.quantity_text import feed, length, named, span
from borewright.core.rounding import plain
from borewright.core.way_of_making import Way

from .limits_by_purpose import PurposeLimits
from .operation import Plan
from .ream_or_bore import is_bored


class Headline(NamedTuple):
    """What stands on the card; quantities as :mod:`~borewright.core.quantity_text` writes them."""

    drill: str
    tap: str
    depth: str
    speed: str
    gauge: str


def headline(plan: Plan, limits: PurposeLimits) -> Headline:
    """The card of the hole of ``plan`` with its ``limits``.

    Source: the parts that it names.
    """
    thread, hole = plan.thread, plan.hole
    return Headline(
        drill="no drill: see what is to be decided"
        if plan.drill is None
        else _drill(thread, hole, plan.drill, plan.depths),
        tap=_tap(thread, plan.tap) if plan.tap is not None else _instead(thread, plan.way),
        depth=_depth(plan, limits),
        speed=_speed(plan.cutting),
        gauge=_gauge(thread, limits),
    )


def _instead(thread: Thread, way: Way) -> str:
    """What makes the thread where no tap does."""
    if way.threading is None:
        return "no tap: see what is to be decided"
    tool = "thread-mill" if way.threading == "thread_mill" else "single-point tool"
    return f"{tool}, {plain(thread.thread_angle)} degree, pitch {length(thread.pitch, thread.unit)}, {thread.hand}-hand"


def _drill(thread: Thread, hole: Hole, choice: DrillChoice, depths: Depths) -> str:
    best, unit = choice.recommended, thread.unit
    name = named(f"{best.drill.label} drill", best.diameter, unit)
    deep = "through" if hole.kind == "through" else f"{length(depths.drill_depth, unit)} deep"
    opened = "bore" if is_bored(choice, unit) else "ream"
    ream = f", {opened} {length(choice.ream_diameter, unit)}" if choice.ream_diameter is not None else ""
    return f"{name}, {deep}{ream}"


def _tap(thread: Thread, choice: TapChoice) -> str:
    best = choice.recommended
    taps = [tap for tap in (best, choice.second_tap) if tap is not None]
    words = [f"{tap.style.replace('_', ' ')}, {tap.chamfer.name.replace('_', '-')}" for tap in taps]
    if thread.taper is not None:
        words = [taper_pipe.style_words(tap) for tap in taps]
    order = ", made to order" if best.availability == "special" and not best.in_stock else ""
    return f"{best.marking}, {', then '.join(words)}{order}"


def _depth(plan: Plan, limits: PurposeLimits) -> str:
    thread, hole, depths = plan.thread, plan.hole, plan.depths
    thread_depth = f"full thread {length(depths.full_thread_depth, thread.unit, 3)}"
    if thread.taper is not None and plan.tap is not None:
        travel = taper_pipe.travel_words(thread, depths.tap_travel, to_make=limits.to_tap.pitch_diameter)
        thread_depth = f"tap {travel}; full thread {length(depths.full_thread_depth, thread.unit)}"
    bored = _counterbore(thread, depths)
    if hole.kind == "through":
        return f"{thread_depth}, through{bored}"
    drilled, tip = (length(one, thread.unit) for one in (depths.drill_depth, depths.drill_tip_depth))
    return f"{thread_depth}, drill {drilled} at full diameter, tip {tip}{bored}"


def _counterbore(thread: Thread, depths: Depths) -> str:
    wide, deep = depths.counterbore_diameter, depths.counterbore_depth
    if wide is None:
        return ""
    if deep is None:
        return f"; spotface {length(wide, thread.unit)} diameter"
    return f"; counterbore {length(wide, thread.unit)} diameter, {length(deep, thread.unit)} deep"


def _speed(cutting: CuttingData | None) -> str:
    if cutting is None:
        return "speeds not held"
    drill, tap = cutting.drill, cutting.tap
    drilling = "drill speed not held"
    if drill is not None:
        drilling = f"drill {drill.spindle_speed_rpm} rev/min, {feed(drill.feed_mm_rev)}"
    if tap is None:
        return f"{drilling}; threading speed not held"
    tapping = "tap speed not held" if tap.spindle_speed_rpm is None else f"tap {tap.spindle_speed_rpm} rev/min"
    return f"{drilling}; {tapping}"


def _gauge(thread: Thread, limits: PurposeLimits) -> str:
    now = limits.to_tap if limits.gauge_now == "to_tap" else limits.finished
    when = " before the finish" if limits.gauge_now == "to_tap" else ""
    if taper_pipe.taper_gauged(thread):
        return f"{thread.designation}{when}: {taper_pipe.gauge_words(thread, now.pitch_diameter)}"
    size = "oversize " if limits.finished == limits.to_tap != thread.internal else ""
    return (
        f"{thread.designation} {size}GO and NOT GO plugs{when}, pitch diameter {span(now.pitch_diameter, thread.unit)}"
    )
