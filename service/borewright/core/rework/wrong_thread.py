"""Another thread was tapped than the one of the drawing."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.drilling.percent_of_thread import percent_of_thread
from borewright.core.model import Caution, Thread
from borewright.core.quantity_text import length

from . import envelope
from .insert_in_place import insert
from .larger_thread import drill_between, larger
from .last_ways import plug
from .proof import Proof
from .replan import NotPlanned, replanned
from .rework_case import WRONG_THREAD, Judged, ReworkCase, other_thread
from .rework_way import Changed, RuledOut
from .ways_written import cut_anew, way

_AS_DRAWN, _OVER, _KEEP = "drill_and_tap_as_drawn", "cut_over_the_wrong_thread", "keep_the_wrong_thread"


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case``, tapped with the wrong thread.

    Source: geometry: what the wrong thread left must lie inside the hole of the right one.
    """
    given = case.found.wrong_thread
    if given is None:
        raise LookupError("the wrong thread is named: the request is checked before")
    wrong = other_thread(given, WRONG_THREAD)
    shown = Proof(case.unit)
    old = envelope.left_by(case, shown, old=wrong)
    try:
        yield from _as_drawn(case, shown.copy(), wrong, old)
    except NotPlanned as error:
        yield RuledOut(_AS_DRAWN, str(error))
    yield RuledOut(
        _KEEP,
        f"the screw of the drawing does not fit {wrong.designation}; another screw is a change of the drawing, and two"
        " threads that look alike in one part are a hazard",
    )
    yield from insert(case, shown.copy(), old)
    yield from larger(case, shown, old)
    yield plug(case)


def _as_drawn(case: ReworkCase, proof: Proof, wrong: Thread, old: Decimal | None) -> Judged:
    if old is None:
        yield RuledOut(_AS_DRAWN, f"what {wrong.designation} left is not known: measure the major diameter")
        return
    minor = case.limits.minor_diameter
    found = envelope.cleans_up(minor, old, thread=case.thread, unit=case.unit)
    if not found.cleans:
        if found.verdict == "partial":
            yield from _partly(case, proof, old, found)
        else:
            yield RuledOut(_OVER, _crossed(case, wrong, old, found.percent_left))
        return
    drill = None
    if found.verdict == "full_upper_hole":
        drill = drill_between(case.thread, old)
        if drill is None:
            yield RuledOut(_AS_DRAWN, "no drill is sold between what the wrong thread left and the limit")
            return
    envelope.note_clean_up(proof, found, minor, old)
    plan = replanned(case, Changed(drill=drill, method="cut"))
    text = f"Drill and tap {case.thread.designation} as drawn: it cuts the wrong thread away"
    yield way(case, _AS_DRAWN, "rework", text, proof=proof, plan=plan, lines=cut_anew(plan.specification))


def _partly(case: ReworkCase, proof: Proof, old: Decimal, found: envelope.CleanUp) -> Judged:
    envelope.note_clean_up(proof, found, case.limits.minor_diameter, old)
    plan = replanned(case, Changed(method="cut"))
    yield way(
        case,
        _OVER,
        "repair",
        f"Drill and tap {case.thread.designation} over the wrong thread: {found.percent_left:g} % of thread stands at"
        " least, with traces of the wrong one in it",
        proof=proof,
        plan=plan,
        lines=cut_anew(plan.specification),
        cautions=(Caution("traces_stay", "Traces of the old thread stay: prove the strength with what is left."),),
    )


def _crossed(case: ReworkCase, wrong: Thread, old: Decimal, left: float | None) -> str:
    """Why cutting over the wrong thread is none: percent by drill would say otherwise and be wrong."""
    major = case.thread.basic.major_diameter
    if old >= major:
        return (
            f"{wrong.designation} reaches {length(old, case.unit)}, past the major diameter"
            f" {length(major, case.unit)}: the lands of the two threads cross and nothing stands, whatever the percent"
            " by the drill says"
        )
    share = percent_of_thread(case.thread, old) if left is None else left
    return f"{wrong.designation} reaches {length(old, case.unit)}: only {share:g} % of the right thread would stand"
