"""The operations of a finish: masking, plating, galvanizing, baking, and which inspection stands where.

A thread that a coat moves is gauged before the finish (with before-finish limits) and again afterwards; one that the
finish leaves as it is, once.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from . import finishing, taper
from .model import Allowance, Finish, Range, Thread
from .operation import Line, Plan
from .quantity_text import span

#: Lines that do not depend on a depth are kept: the holes of a routing share them.
_CACHED = 512


def around(plan: Plan, threading: tuple[Line, ...]) -> Iterator[Line]:
    """Threading with the operations of the finish before and after it, and the inspections.

    Args:
        plan: of the hole, with its finish.
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
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread (tapped after the finish)")
    elif applied == "masked":
        yield from _masked(plan, allowance, threading)
    elif not finishing.moves(allowance):
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread, once: the finish does not move it")
        yield _WASH
        yield from _finished(plan, allowance)
    else:
        yield from threading
        yield _inspect(plan.thread, plan.to_make, "Inspect thread before finish, with before-finish gauges")
        yield _WASH
        yield from _finished(plan, allowance)
        yield _inspect_finished(plan.thread)


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


@lru_cache(_CACHED)
def _masking(thread: Thread) -> tuple[Line, Line, Line]:
    name = thread.designation
    return (
        Line("mask", {"kind": "plug or stop-off"}, {}, f"Mask or plug thread {name}"),
        Line("strip", {"kind": "mask"}, {}, f"Remove mask and leakage from thread {name}"),
        Line("inspect", {"kind": "thread plug gauge"}, {}, f"Check unmasked thread {name}"),
    )


def _finished(plan: Plan, allowance: Allowance) -> Iterator[Line]:
    """The finish, and the bake that its standard may ask of hard steel."""
    yield _finish(allowance.finish, "Finish")
    bake = next((note for note in allowance.notes.cautions if note.code == "hydrogen_embrittlement"), None)
    if bake is not None and plan.way.material is not None:
        yield Line("bake", {"kind": "oven"}, {}, f"Bake against hydrogen embrittlement where it applies. {bake.text}")


@lru_cache(_CACHED)
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


@lru_cache(_CACHED)
def _inspect(thread: Thread, pitch: Range, words: str) -> Line:
    if taper.taper_gauged(thread):
        gauge = {"kind": "taper thread plug gauge"}
        return Line("inspect", gauge, {}, f"{words}: {thread.designation}, {taper.gauge_words(thread, pitch)}")
    window = ""
    if pitch.min is not None and pitch.max is not None:
        window = f", pitch diameter {span(pitch, thread.unit)}"
    tool = {"kind": "thread plug gauge and plain plug gauge"}
    return Line("inspect", tool, {"pitch_diameter": pitch}, f"{words}: {thread.designation}{window}")


@lru_cache(_CACHED)
def _inspect_finished(thread: Thread) -> Line:
    if taper.taper_gauged(thread):
        return _inspect(thread, thread.internal.pitch_diameter, "Inspect finished thread")
    return Line(
        "inspect",
        {"kind": "thread plug gauge", "condition": "finished"},
        {"pitch_diameter": thread.internal.pitch_diameter},
        f"Inspect finished thread {thread.designation} with GO and NOT GO thread plugs",
    )
