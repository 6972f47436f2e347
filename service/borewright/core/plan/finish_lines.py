"""The operations of a finish: masking, plating, galvanizing, baking, and which inspection stands where.

A thread that a coat moves is gauged before the finish (with before-finish limits) and again afterwards; one that the
finish leaves as it is, once.
"""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core import finishing
from borewright.core.caches import cached
from borewright.core.hole import taper_pipe
from borewright.core.model import Allowance, DrillChoice, Finish, Range, Thread
from borewright.core.practice import count
from borewright.core.quantity_text import length, span

from .operation import Line, Plan

#: Lines that do not depend on a depth are kept: the holes of a routing share them.
_CACHED = 64
#: Hours after plating in which the bake starts.
_START_WITHIN_H = count("bake_within_h")


def around(plan: Plan, drill: DrillChoice, threading: tuple[Line, ...]) -> Iterator[Line]:
    """Threading with the operations of the finish before and after it, and the inspections.

    Args:
        plan: of the hole, with its finish.
        drill: that makes the hole.
        threading: the lines that make the thread.

    Source: common practice; hot-dip zinc goes on before the thread is tapped (ASTM A563, ISO 10684).
    """
    allowance = plan.allowance
    if allowance is None or finishing.is_impossible(allowance):
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread")
        return
    applied = allowance.finish.applied if allowance.feasible else "masked"
    if applied == "after_finish":
        yield _finish(allowance.finish, "Finish before tapping")
        yield _open_again(plan, allowance, drill)
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread (tapped after the finish) with oversize plugs")
    elif applied == "masked":
        yield from _masked(plan, allowance, threading)
    elif not finishing.moves(allowance):
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread, once: the finish does not move it")
        yield _WASH
        yield from _finished(plan, allowance)
    elif allowance.dimensions_apply == "before_finish":
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread before finish: its limits hold there")
        yield _WASH
        yield from _finished(plan, allowance)
    else:
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread before finish, with before-finish gauges")
        yield _WASH
        yield from _finished(plan, allowance)
        yield _inspect_finished(plan.thread)


def _open_again(plan: Plan, allowance: Allowance, drill: DrillChoice) -> Line:
    """Zinc closes the drilled hole: it is opened to its size again before the tap."""
    size, unit, label = drill.hole_diameter, plan.thread.unit, drill.recommended.drill.label
    drilled = size == drill.recommended.diameter
    name = f"{label} drill ({length(size, unit)})" if drilled else f"reamer {length(size, unit)}"
    zinc = allowance.finish.thickness
    closed = ""
    if zinc.min:
        closed = f", which the zinc has closed by {length(2 * zinc.min, unit)}"
        if zinc.max is None:
            closed += " or more"
        elif zinc.max != zinc.min:
            closed += f" to {length(2 * zinc.max, unit)}"
    return Line(
        "redrill",
        {"kind": "drill or reamer", "label": label, "diameter": size},
        {"depth": plan.depths.drill_depth},
        f"Re-drill or ream the hole{closed}: {name}",
    )


def _masked(plan: Plan, allowance: Allowance, threading: tuple[Line, ...]) -> Iterator[Line]:
    yield from threading
    yield _inspect(plan.thread, plan.to_make, "Inspect thread")
    yield _WASH
    mask, strip, check = _masking(plan.thread)
    yield mask
    yield from _finished(plan, allowance)
    yield strip
    yield check


_WASH = Line("wash", {"kind": "wash"}, {}, "Wash chips and fluid out of the hole")


@cached(_CACHED)
def _masking(thread: Thread) -> tuple[Line, Line, Line]:
    name = thread.designation
    return (
        Line("mask", {"kind": "plug or stop-off"}, {}, f"Mask or plug thread {name}"),
        Line("strip", {"kind": "mask"}, {}, f"Remove mask and leakage from thread {name}"),
        Line("inspect", {"kind": "thread plug gauge"}, {}, f"Check unmasked thread {name}"),
    )


def _finished(plan: Plan, allowance: Allowance) -> Iterator[Line]:
    """The finish with what hard steel needs before and after it; a part hardened after tapping is stress-relieved so.

    Source: as the allowance says.
    """
    if allowance.stress_relief is not None and plan.way.harden_to is None:
        yield Line("stress_relief", {"kind": "oven"}, {}, allowance.stress_relief)
    yield _finish(allowance.finish, "Finish")
    if allowance.bake is not None:
        yield Line("bake", {"kind": "oven"}, {"start_within_h": _START_WITHIN_H}, allowance.bake)


@cached(_CACHED)
def _finish(finish: Finish, word: str) -> Line:
    name = (
        " ".join(part for part in (finish.specification, finish.finish_class) if part) or finish.process or "as given"
    )
    return Line(
        "finish",
        {"kind": finish.process or "finish"},
        {"specification": finish.specification, "class": finish.finish_class, "thickness": finish.thickness},
        f"{word}: {name}",
    )


@cached(_CACHED)
def _inspect(thread: Thread, pitch: Range, words: str) -> Line:
    if taper_pipe.taper_gauged(thread):
        gauge = {"kind": "taper thread plug gauge"}
        return Line("inspect", gauge, {}, f"{words}: {thread.designation}, {taper_pipe.gauge_words(thread, pitch)}")
    window = "" if pitch.max is None else f", pitch diameter {span(pitch, thread.unit)}"
    tool = {"kind": "thread plug gauge and plain plug gauge"}
    return Line("inspect", tool, {"pitch_diameter": pitch}, f"{words}: {thread.designation}{window}")


@cached(_CACHED)
def _inspect_finished(thread: Thread) -> Line:
    if taper_pipe.taper_gauged(thread):
        return _inspect(thread, thread.internal.pitch_diameter, "Inspect finished thread")
    return Line(
        "inspect",
        {"kind": "thread plug gauge", "condition": "finished"},
        {"pitch_diameter": thread.internal.pitch_diameter},
        f"Inspect finished thread {thread.designation} with GO and NOT GO thread plugs",
    )
