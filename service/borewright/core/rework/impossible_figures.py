"""Figures of one hole that cannot stand together, whatever went wrong with it."""

from __future__ import annotations

from collections.abc import Iterator

from borewright.core.errors import Fault
from borewright.core.quantity_text import length

from .found import BrokenTap
from .rework_case import ReworkCase

#: Conditions in which the groove of the drawn thread was never cut to its size.
_NOT_CUT_FULL = ("drilled_oversize", "go_does_not_enter", "wrong_thread")


def impossible(case: ReworkCase) -> Iterator[Fault]:
    """What of the figures of ``case`` cannot be: a minor diameter over the pitch diameter, a coat before the finish.

    Source: definition of the figures.
    """
    yield from _of_stage(case)
    yield from _order(case)
    if case.found.broken_tap != BrokenTap() and case.found.condition != "broken_tap":
        yield Fault(
            "rework_contradiction",
            f"A broken tap is described, but the condition is {case.found.condition}.",
            "/found/broken_tap",
            did_you_mean=("broken_tap",),
        )
    edge, half = case.found.edge_distance, case.thread.basic.major_diameter / 2
    if edge is not None and edge.to(case.unit) <= half:
        yield Fault(
            "rework_contradiction",
            f"{length(edge.to(case.unit), case.unit)} from the axis to the edge is less than half the thread,"
            f" {length(half, case.unit)}: it is measured from the axis; material beside the hole is `wall`.",
            "/found/edge_distance",
        )


def _of_stage(case: ReworkCase) -> Iterator[Fault]:
    if case.found.measured.coat is None:
        return
    if case.request.hole.finish is None or case.found.stage == "before_finish":
        why = "the hole has no finish" if case.request.hole.finish is None else "the finish was not on yet"
        yield _fault(f"A coat is measured, but {why}.", "coat")


def _order(case: ReworkCase) -> Iterator[Fault]:
    minor, pitch, major = (
        case.measured.hole_diameter,
        case.measured.pitch_diameter,
        case.measured.major_diameter,
    )
    if minor is not None and pitch is not None and minor >= pitch:
        yield _fault(
            f"A minor diameter of {length(minor, case.unit)} is not under the pitch diameter,"
            f" {length(pitch, case.unit)}.",
            "hole_diameter",
        )
    if pitch is not None and major is not None and pitch >= major:
        yield _fault(
            f"A major diameter of {length(major, case.unit)} is not over the pitch diameter,"
            f" {length(pitch, case.unit)}.",
            "major_diameter",
        )
    basic = case.thread.basic.major_diameter
    if major is not None and case.found.condition not in _NOT_CUT_FULL and major < basic - case.thread.pitch / 4:
        yield _fault(
            f"A major diameter of {length(major, case.unit)} is no groove of {case.thread.designation}, whose own is"
            f" {length(basic, case.unit)} at least: the minor diameter goes to hole_diameter.",
            "major_diameter",
        )


def _fault(detail: str, field: str) -> Fault:
    return Fault("rework_contradiction", detail, f"/found/measured/{field}")
