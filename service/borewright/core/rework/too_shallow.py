"""The full thread does not go as deep as the drawing asks."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from borewright.core.hole.depths import CLEARANCE_PITCHES
from borewright.core.model import Caution, TapChamfer
from borewright.core.practice import longest_chamfer
from borewright.core.quantity_text import length

from . import strength_left
from .drilled_oversize import not_proven
from .proof import Proof
from .rework_case import Judged, ReworkCase
from .rework_way import ReworkWay, RuledOut
from .ways_written import after_the_thread, from_the_thread_on, way, work

_DEEPER, _DRILL, _AS_IT_IS = "tap_deeper", "drill_and_tap_deeper", "use_shorter_thread"
_DRILLING = frozenset({"drill", "tap", "thread_mill", "single_point_thread"})


class _RunOut(NamedTuple):
    """What a tap needs below the full thread: chamfer and clearance in pitches."""

    chamfer: Decimal
    clearance: Decimal


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case``, threaded too shallow.

    Source: chamfer and clearance build-up (common practice); FED-STD-H28/2B (1991) for the strength.
    """
    full = case.measured.full_thread_depth
    shown = Proof(case.unit)
    shown.state("full_thread_depth_measured", full)
    shown.state("full_thread_depth_wanted", case.depth_wanted)
    if full is not None:
        shown.length("missing", case.depth_wanted - full, formula="wanted - full", wanted=case.depth_wanted, full=full)
    if not case.blind:
        yield _through(case, shown)
    elif case.planned.tap is None or case.thread.taper is not None:
        yield _again(case, shown)
    else:
        yield from _deeper(case, shown)
    yield from _as_it_is(case, shown, full)


def _through(case: ReworkCase, shown: Proof) -> ReworkWay:
    text = "Run the tap through until its chamfer has left the far side"
    return way(case, _DEEPER, "rework", text, proof=shown, lines=from_the_thread_on(case.planned), cautions=(_PICK_UP,))


def _again(case: ReworkCase, shown: Proof) -> ReworkWay:
    """A milled or single-pointed thread, or a taper one, which goes on to its gauge line."""
    text = "Go on as planned to the full depth, and gauge"
    return way(case, _DEEPER, "rework", text, proof=shown, lines=from_the_thread_on(case.planned), cautions=(_PICK_UP,))


_PICK_UP = Caution(
    "pick_up_the_thread", "Pick the old thread up by hand, or with the same start: a second lead ruins it."
)


def _deeper(case: ReworkCase, shown: Proof) -> Judged:
    """With a shorter chamfer where the drilled hole has room for it, else with more hole."""
    drilled = case.measured.drill_depth or case.planned.depths.drill_depth
    run_out = _RunOut(_chamfer(case), CLEARANCE_PITCHES[case.request.hole.machine.tapping or "rigid"])
    proof = shown.copy()
    proof.state("drill_depth", drilled)
    proof.state("tap_chamfer_threads", float(run_out.chamfer))
    c, k, p = run_out.chamfer, run_out.clearance, case.thread.pitch
    reach = proof.length(
        "deepest_full_thread", drilled - (c + k) * p, formula="drilled - (c + k) * p", drilled=drilled, c=c, k=k, p=p
    )
    if reach >= case.depth_wanted:
        yield _tapped(case, proof, run_out)
    else:
        short = length(case.depth_wanted - reach, case.unit)
        yield RuledOut(_DEEPER, f"the hole is {short} too shallow for a tap of {c} threads chamfer")
    yield _drilled(case, proof.copy(), drilled, run_out)


def _chamfer(case: ReworkCase) -> Decimal:
    """Of the shortest tap at hand, else of a bottoming tap."""
    return case.found.tap_chamfer_threads or longest_chamfer("bottoming")


def _tapped(case: ReworkCase, proof: Proof, run_out: _RunOut) -> ReworkWay:
    depth = length(case.depth_wanted, case.unit)
    lines = (
        work("clean", "air or vacuum", "Clear the chips off the bottom of the hole"),
        work(
            "tap",
            "tap",
            f"Tap {case.thread.designation} on to {depth} of full thread, chamfer of {run_out.chamfer} threads at most",
            full_thread_depth=case.depth_wanted,
        ),
        *after_the_thread(case.planned),
    )
    text = f"Tap deeper with a short chamfer: the drilled hole has room for {run_out.chamfer} threads"
    return way(case, _DEEPER, "rework", text, proof=proof, lines=lines, cautions=(_PICK_UP,))


def _drilled(case: ReworkCase, proof: Proof, drilled: Decimal, run_out: _RunOut) -> ReworkWay:
    chamfer = _planned_chamfer(case)
    needed = proof.length(
        "drill_depth_needed",
        case.depth_wanted + (chamfer + run_out.clearance) * case.thread.pitch,
        formula="wanted + (c + k) * p",
        wanted=case.depth_wanted,
        c=chamfer,
        k=run_out.clearance,
        p=case.thread.pitch,
    )
    proof.length("extra_drill_depth", max(needed - drilled, Decimal(0)), formula="max(a - b, 0)", a=needed, b=drilled)
    floor = case.planned.depths.wall_left
    proof.state("floor_left", floor)
    lines = [one.line for one in case.planned.operations if one.line.operation in _DRILLING]
    text = f"Drill to {length(case.planned.depths.drill_depth, case.unit)} as planned, then tap to the full depth"
    thin = any(one.code == "thin_wall" for one in case.planned.review)
    cautions = (_PICK_UP, *((Caution("thin_floor", "Little is left under the drill's tip."),) if thin else ()))
    every = [*lines, *after_the_thread(case.planned)]
    return way(case, _DRILL, "rework", text, proof=proof, lines=every, cautions=cautions)


def _planned_chamfer(case: ReworkCase) -> Decimal:
    """Of the tap that the plan ends with."""
    tap = case.planned.tap
    last: TapChamfer | None = None if tap is None else (tap.second_tap or tap.recommended).chamfer
    return case.found.tap_chamfer_threads or (longest_chamfer("bottoming") if last is None else last.threads_max)


def _as_it_is(case: ReworkCase, shown: Proof, full: Decimal | None) -> Judged:
    if full is None:
        yield RuledOut(_AS_IT_IS, "measure the full thread there is: without it no strength can be proven")
        return
    proof = shown.copy()
    proven = strength_left.prove(case, proof, depth=full)
    if proven is False:
        yield RuledOut(_AS_IT_IS, f"{length(full, case.unit)} of thread strips before the joint has its strength")
        return
    yield way(
        case,
        _AS_IT_IS,
        "use_as_is",
        f"Use {length(full, case.unit)} of full thread, as the strength allows",
        proof=proof,
        lines=after_the_thread(case.planned),
        cautions=(
            *not_proven(proven),
            Caution("screw_may_bottom", "See that the screw does not bottom before it clamps."),
        ),
    )
