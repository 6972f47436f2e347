"""What a request of rework must not say: figures that contradict the fault, or that belong to another thread."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.errors import Fault, ReworkError
from borewright.core.quantity_text import length

from .impossible_figures import impossible
from .rework_case import WRONG_THREAD, ReworkCase, other_thread

_MEASURED = "/found/measured"


def refuse(case: ReworkCase) -> None:
    """Refuse a ``case`` whose figures are missing, impossible or contradict its condition.

    Raises: ReworkError with every fault found.
    Source: definition of the conditions.
    """
    faults = (*_missing(case), *_other_thread(case), *impossible(case), *_against_condition(case))
    if faults:
        raise ReworkError.of(faults)


def _missing(case: ReworkCase) -> Iterator[Fault]:
    found, measured = case.found, case.measured
    if found.condition == "drilled_oversize" and measured.hole_diameter is None:
        yield _fault("measurement_missing", "What is done depends on the hole as it is: measure it.", "hole_diameter")
    if found.condition == "wrong_thread" and found.wrong_thread is None:
        yield Fault("measurement_missing", "Which thread was tapped is needed.", WRONG_THREAD)
    if found.condition != "wrong_thread" and found.wrong_thread is not None:
        yield Fault(
            "rework_contradiction",
            f"A wrong thread is named, but the condition is {found.condition}.",
            WRONG_THREAD,
            did_you_mean=("wrong_thread",),
        )
    finish = case.request.hole.finish
    if found.stage is None and finish is not None:
        yield Fault(
            "measurement_missing",
            "The hole has a finish: whether it was on when the fault was found decides which limits judge.",
            "/found/stage",
            allowed=("before_finish", "after_finish"),
        )
    if found.stage == "after_finish" and finish is None:
        yield Fault("rework_contradiction", "The hole has no finish that it could be after.", "/found/stage")


def _other_thread(case: ReworkCase) -> Iterator[Fault]:
    """A diameter that no state of this thread has was measured on another one, or in another unit."""
    stated = case.found.measured.thread
    found = None if stated is None else other_thread(stated, f"{_MEASURED}/thread").designation
    if found not in (None, case.thread.designation):
        yield Fault(
            "measured_other_thread",
            f"The measurements are of {found}, the hole is {case.thread.designation}.",
            f"{_MEASURED}/thread",
            allowed=(case.thread.designation,),
        )
    major, pitch = case.thread.basic.major_diameter, case.thread.pitch
    for name, value in case.measured._asdict().items():
        if (
            name.endswith("_diameter")
            and value is not None
            and abs(value - _basic(case, name)) > _far(name, pitch, major)
        ):
            yield _fault(
                "measured_other_thread",
                f"{length(value, case.unit)} is not of {case.thread.designation}, whose basic one is"
                f" {length(_basic(case, name), case.unit)}.",
                name,
            )


def _basic(case: ReworkCase, name: str) -> Decimal:
    basic = case.thread.basic
    return {
        "hole_diameter": basic.minor_diameter,
        "pitch_diameter": basic.pitch_diameter,
        "major_diameter": basic.major_diameter,
    }[name]


def _far(name: str, pitch: Decimal, major: Decimal) -> Decimal:
    """A pitch diameter lies within half a pitch, a hole or a torn-out thread within half the diameter."""
    return pitch / 2 if name == "pitch_diameter" else major / 2


def _against_condition(case: ReworkCase) -> Iterator[Fault]:
    judge = {
        "drilled_oversize": _drilled,
        "tapped_oversize": _tapped,
        "go_does_not_enter": _refused,
        "too_shallow": _shallow,
        "wrong_thread": _wrong,
    }.get(case.found.condition)
    if judge is not None:
        yield from judge(case)


def _drilled(case: ReworkCase) -> Iterator[Fault]:
    hole, least = case.measured.hole_diameter, case.limits.minor_diameter.min
    if hole is not None and least is not None and hole < least:
        yield _fault(
            "rework_contradiction",
            f"A hole of {length(hole, case.unit)} is not oversize: it is below the least minor diameter"
            f" {length(least, case.unit)}. Drill it to size.",
            "hole_diameter",
        )


def _tapped(case: ReworkCase) -> Iterator[Fault]:
    pitch, least = case.measured.pitch_diameter, case.limits.pitch_diameter.min
    if pitch is not None and least is not None and pitch < least:
        yield _fault(
            "rework_contradiction",
            f"A pitch diameter of {length(pitch, case.unit)} is below the least one, {length(least, case.unit)}: such a"
            " thread is not oversize.",
            "pitch_diameter",
            meant=("go_does_not_enter",),
        )
    if case.found.measured.not_go_enters is False:
        yield _fault("rework_contradiction", "NOT GO does not enter: such a thread is not oversize.", "not_go_enters")


def _refused(case: ReworkCase) -> Iterator[Fault]:
    pitch, most = case.measured.pitch_diameter, case.limits.pitch_diameter.max
    if pitch is not None and most is not None and pitch > most and not case.found.measured.not_go_enters:
        yield _fault(
            "rework_contradiction",
            f"GO would enter a pitch diameter of {length(pitch, case.unit)}, which is over the greatest one,"
            f" {length(most, case.unit)}. Where both gauges speak against the thread, say that NOT GO enters.",
            "pitch_diameter",
            meant=("tapped_oversize",),
        )


def _shallow(case: ReworkCase) -> Iterator[Fault]:
    full, drilled = case.measured.full_thread_depth, case.measured.drill_depth
    if full is not None and full >= case.depth_wanted:
        yield _fault(
            "rework_contradiction",
            f"{length(full, case.unit)} of full thread is not too shallow: the drawing asks"
            f" {length(case.depth_wanted, case.unit)}.",
            "full_thread_depth",
        )
    if full is not None and drilled is not None and full > drilled:
        yield _fault("rework_contradiction", "The full thread is deeper than the drilled hole.", "full_thread_depth")


def _wrong(case: ReworkCase) -> Iterator[Fault]:
    given = case.found.wrong_thread
    if given is None:
        return
    wrong = other_thread(given, WRONG_THREAD)
    same = (wrong.unit, wrong.basic, wrong.pitch, wrong.hand, wrong.starts)
    if same == (case.thread.unit, case.thread.basic, case.thread.pitch, case.thread.hand, case.thread.starts):
        yield Fault(
            "rework_contradiction",
            f"{wrong.designation} is the thread of the drawing but for its class: nothing wrong was tapped.",
            WRONG_THREAD,
            did_you_mean=("tapped_oversize", "go_does_not_enter"),
        )


def _fault(code: str, detail: str, field: str, meant: tuple[str, ...] = ()) -> Fault:
    return Fault(code, detail, f"{_MEASURED}/{field}", did_you_mean=meant)
