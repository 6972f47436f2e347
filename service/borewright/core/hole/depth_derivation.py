"""Derivations of the depths of a hole, enough to redo them on paper."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Hole, Step, Thread


def straight(
    thread: Thread,
    hole: Hole,
    *,
    full: Decimal,
    travel: Decimal,
    drill_depth: Decimal,
    tip: Decimal,
    chamfer_length: Decimal,
    clearance: Decimal,
) -> tuple[Step, ...]:
    """Steps of a parallel ``thread`` in a ``hole``; lengths in its unit.

    Args: ``full`` thread; ``travel`` of the tap; ``drill_depth`` and depth of the ``tip``; ``chamfer_length`` and
        ``clearance`` of the tap.
    """
    unit = thread.unit
    return (
        _chamfer(thread, chamfer_length, "shop practice, longest chamfer of the range"),
        Step(
            "drill_depth",
            "full_thread + chamfer + clearance" if hole.kind == "blind" else "thickness",
            {"full_thread": full, "chamfer": chamfer_length, "clearance": drill_depth - full - chamfer_length}
            if hole.kind == "blind"
            else {"thickness": drill_depth},
            drill_depth,
            unit,
            "shop practice, build-up of a tapped hole",
        ),
        _tip(thread, drill_depth=drill_depth, below=tip - drill_depth),
        Step(
            "tap_travel",
            "min(full_thread + chamfer, max(full_thread, drill_depth - clearance))"
            if hole.kind == "blind"
            else "drill_depth + chamfer + clearance",
            {"full_thread": full, "chamfer": chamfer_length, "drill_depth": drill_depth, "clearance": clearance},
            travel,
            unit,
            "shop practice: past the full thread by the chamfer, never to the bottom",
        ),
    )


def by_gauge_line(
    thread: Thread,
    hole: Hole,
    *,
    travel: Decimal,
    past: Decimal,
    chamfer_length: Decimal,
    drill_depth: Decimal,
    below: Decimal,
) -> tuple[Step, ...]:
    """Steps of a taper ``thread`` in a ``hole``, whose tap runs ``past`` its gauge line; lengths in the thread's unit.

    Args: ``travel`` of the tap; its ``chamfer_length``; ``drill_depth`` and how far the tip is ``below`` it.
    """
    unit, by_tap = thread.unit, {"travel": travel, "clearance": drill_depth - travel}
    through = hole.kind == "through"
    return (
        _chamfer(thread, chamfer_length, "longest chamfer of a taper pipe tap"),
        Step(
            "tap_travel",
            "to_gauge_line + past",
            {"to_gauge_line": travel - past, "past": past},
            travel,
            unit,
            "to the gauge line, and what a coat closes over the taper",
        ),
        Step(
            "drill_depth",
            "thickness" if through else "travel + clearance",
            {"thickness": drill_depth} if through else by_tap,
            drill_depth,
            unit,
            "shop practice: the hole takes the tap and clearance below it",
        ),
        _tip(thread, drill_depth=drill_depth, below=below),
    )


def _chamfer(thread: Thread, chamfer_length: Decimal, source: str) -> Step:
    inputs = {"chamfer_threads": chamfer_length / thread.pitch, "P": thread.pitch}
    return Step("chamfer_length", "chamfer_threads * P", inputs, chamfer_length, thread.unit, source)


def _tip(thread: Thread, *, drill_depth: Decimal, below: Decimal) -> Step:
    return Step(
        "drill_tip_depth",
        "drill_depth + below",
        {"drill_depth": drill_depth, "below": below},
        drill_depth + below,
        thread.unit,
        "geometry of the drill point: 0.5 d / tan(point angle / 2)",
    )
