"""A thread that was stripped, or crossed by its screw."""

from __future__ import annotations

from decimal import Decimal

from borewright.core.model import Caution
from borewright.core.quantity_text import length

from . import envelope, strength_left
from .drilled_oversize import not_proven
from .insert_in_place import insert
from .larger_thread import larger
from .last_ways import plug
from .proof import Proof
from .rework_case import Judged, ReworkCase
from .rework_way import RuledOut
from .ways_written import way, work

_CHASE, _RETAP = "chase_from_the_sound_end", "tap_again"


def stripped(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case`` whose thread is torn out.

    Source: geometry; TM 9-2520-215-34 p. 79: oversize drill and larger insert, or weld and tap again.
    """
    shown = Proof(case.unit)
    yield RuledOut(_RETAP, "the thread is torn out: a tap of the same size finds no metal to cut")
    yield from _replaced(case, shown)


def crossed(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case`` whose thread was crossed by its screw.

    Source: common practice; the rest as for a stripped thread.
    """
    shown = Proof(case.unit)
    yield from _chased(case, shown.copy(), case.measured.full_thread_depth)
    yield from _replaced(case, shown)


def _replaced(case: ReworkCase, shown: Proof) -> Judged:
    old = envelope.left_by(case, shown)
    hole = case.measured.hole_diameter
    if old is not None and hole is not None and hole > old:
        old = hole
        shown.state("envelope", hole)
    yield from insert(case, shown.copy(), old)
    yield from larger(case, shown, old)
    yield plug(case)


def _chased(case: ReworkCase, proof: Proof, sound: Decimal | None) -> Judged:
    """Only the first threads are hurt: a tap that starts in sound ones straightens them."""
    proven: bool | None = None
    if sound is not None:
        proof.state("full_thread_depth_sound", sound)
        proof.figure(
            "threads_sound", float(sound / case.thread.pitch), formula="depth / p", depth=sound, p=case.thread.pitch
        )
        proven = strength_left.prove(case, proof, depth=sound)
        if proven is False:
            yield RuledOut(
                _CHASE, f"{length(sound, case.unit)} of sound thread strips before the joint has its strength"
            )
            return
    where = (
        "from the far side, where the thread is sound," if not case.blind else "in the sound thread below the damage"
    )
    lines = (
        work(
            "chase",
            "tap of the same size, by hand",
            f"Start a {case.thread.designation} tap by hand {where} and run it",
        ),
        work("inspect", "thread plug gauge", "Gauge with GO and NOT GO, and count the complete threads that are left"),
    )
    yield way(
        case,
        _CHASE,
        "rework",
        f"Chase the thread with a tap that starts {where.rstrip(',')}; good only where the gauges pass and no thread is"
        " missing",
        proof=proof,
        lines=lines,
        cautions=(
            *not_proven(proven),
            Caution(
                "count_the_threads",
                "A tap that follows the crossed lead cuts a second thread: stop when it goes heavy, and count what"
                " is whole.",
            ),
        ),
    )
