"""GO does not enter: the thread is too tight, or something sits in it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from borewright.core.model import Caution, Range, TapLimit
from borewright.core.quantity_text import length, span
from borewright.core.tapping.availability import stocked_limits
from borewright.core.tapping.limits import limits_of_tables, system_for

from . import tapped_oversize
from .proof import Proof
from .replan import NotPlanned, replanned
from .rework_case import Judged, ReworkCase
from .rework_way import Changed, ReworkWay, RuledOut
from .tapped_oversize import NO_METAL, RETAP, not_held, stripped_cautions
from .ways_written import after_the_thread, from_the_thread_on, way, work

_CLEAN, _MINOR = "clean_and_gauge_again", "open_the_minor_diameter"
_SAME, _NEXT = "tap_again_same_limit", "tap_again_next_limit"
_STRIP, _CHASE, _OVERTAP = "strip_tap_and_coat_again", "chase_the_coated_thread", "tap_again_oversize"
_MASK = "strip_mask_and_coat_again"
_PITCH = 4
_NOT_HELD = "the finish leaves no room in this class: no tap limit makes it, mask the thread or change class or coat"


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case`` that GO does not enter.

    Source: geometry of a coat on 60 degree flanks; common practice for the order.
    """
    shown = _shown(case)
    if case.found.measured.not_go_enters:
        yield _gauge_again(case, shown)
        yield RuledOut(
            RETAP, f"{NO_METAL}. GO refuses for lead, roundness or a burr: that needs a new hole or an insert"
        )
        yield from (one for one in tapped_oversize.ways(case) if one.name not in (_CLEAN, RETAP))
        return
    yield _gauge_again(case, shown)
    yield from _opened(case, shown)
    if case.stage == "before_finish":
        yield from _tapped_again(case, shown)
    else:
        yield from _finished(case, shown)


def _shown(case: ReworkCase) -> Proof:
    proof, pitch, least = Proof(case.unit), case.measured.pitch_diameter, case.limits.pitch_diameter.min
    proof.state("pitch_diameter", pitch)
    proof.state("window", case.limits.pitch_diameter)
    if pitch is not None and least is not None:
        short = max(least - pitch, Decimal(0))
        proof.length("short_by", short, formula="max(pd_min - pd, 0)", pd_min=least, pd=pitch)
    return proof


def _gauge_again(case: ReworkCase, shown: Proof) -> ReworkWay:
    what = "coat nodules and blast media" if case.stage == "after_finish" else "chips and burrs"
    short, pitch, most = shown.figures.get("short_by"), case.measured.pitch_diameter, case.limits.pitch_diameter.max
    text = f"Clean {what} out of the thread, clean the gauge, and gauge again"
    if short:
        text += ": it costs nothing, though a pitch diameter that is short stays short"
    is_inside = short == 0 and (pitch is None or most is None or pitch <= most)
    line = work("inspect", "thread plug gauge", f"Wash the thread, take {what} out of it, and gauge it again")
    return way(case, _CLEAN, "rework", text, proof=shown.copy(), lines=(line,), cautions=(_LEAD,) if is_inside else ())


_LEAD = Caution(
    "go_checks_more",
    "The pitch diameter measured is inside its limits: GO also checks lead, roundness and the minor diameter. Look at"
    " those before anything is cut.",
)


def _opened(case: ReworkCase, shown: Proof) -> Judged:
    """GO has a major and a minor diameter: a hole that was drilled too small refuses it as well."""
    hole, least = case.measured.hole_diameter, case.limits.minor_diameter.min
    if hole is None or least is None or hole >= least:
        return
    proof = shown.copy()
    proof.state("hole_diameter", hole)
    proof.length("minor_short_by", least - hole, formula="minor_min - hole", minor_min=least, hole=hole)
    drill = case.planned.drill
    label = "reamer" if drill is None else f"{drill.recommended.drill.label} drill or reamer"
    lines = (
        work("ream", label, f"Open the minor diameter to {span(case.limits.minor_diameter, case.unit)}, {label}"),
        *from_the_thread_on(case.planned),
    )
    text = "Open the minor diameter, which is below its limit, and run the tap through again to take the burr off"
    yield way(case, _MINOR, "rework", text, proof=proof, lines=lines)


# --- before the finish, or without one ------------------------------------------------------------------


def _tapped_again(case: ReworkCase, shown: Proof) -> Judged:
    window = case.limits.pitch_diameter
    if case.planned.allowance is not None and not case.planned.allowance.feasible:
        yield RuledOut(_SAME, _NOT_HELD)
        return
    if case.planned.tap is None:
        lines = from_the_thread_on(case.planned)
        text = "Run the thread again with the wear offset raised, a little at a time, and gauge each time"
        yield way(case, _SAME, "rework", text, proof=shown.copy(), lines=lines)
        return
    limit = case.planned.tap.recommended.limit
    proof = shown.copy()
    proof.state("limits_inside_window", [one.label for one in _inside(case, window)] or None)
    yield from _same(case, proof, limit)
    yield from _next(case, proof, limit)


def _same(case: ReworkCase, shown: Proof, limit: TapLimit | None) -> Judged:
    """A worn or undersized tap: a new one of the limit that the plan has."""
    pitch, label = case.measured.pitch_diameter, "of the plan" if limit is None else limit.label
    begins = None if limit is None else limit.pitch_diameter.min
    if begins is not None and pitch is not None and begins <= pitch:
        why = f"{label} begins at {length(begins, case.unit)}, the thread has that already: the tap would cut nothing"
        yield RuledOut(_SAME, why)
        return
    proof = shown.copy()
    proof.state("tap_limit", label)
    proof.state("tap_pitch_diameter", None if limit is None else limit.pitch_diameter)
    text = f"Tap again with a new tap of the planned limit ({label}): the one used was worn, or of a smaller limit"
    yield way(case, _SAME, "rework", text, proof=proof, lines=from_the_thread_on(case.planned), cautions=(_START,))


_START = Caution(
    "start_in_the_thread", "Start the tap by hand in the thread that is there: crossed, it cuts a second one."
)


def _next(case: ReworkCase, shown: Proof, planned: TapLimit | None) -> Judged:
    """The next limit that is sold inside the window."""
    if planned is None or planned.pitch_diameter.max is None:
        return
    if case.limits.pitch_diameter.max is None:
        yield RuledOut(_NEXT, f"{not_held(case)}: whether a larger limit fits is not known")
        return
    stocked = stocked_limits(case.thread, case.request.hole.method)
    for one in _inside(case, case.limits.pitch_diameter):
        if one.label not in stocked or one.pitch_diameter.min is None:
            continue
        if one.pitch_diameter.min >= planned.pitch_diameter.max:
            yield from _with_limit(case, shown.copy(), one)
            return
    yield RuledOut(_NEXT, "no larger limit that is sold lies inside the window")


def _with_limit(case: ReworkCase, proof: Proof, limit: TapLimit) -> Judged:
    try:
        plan = replanned(case, Changed(tap=limit.label))
    except NotPlanned as error:
        yield RuledOut(_NEXT, str(error))
        return
    taken = None if plan.specification.tap is None else plan.specification.tap.recommended.limit
    if taken is None or taken.label != limit.label:
        yield RuledOut(_NEXT, f"{limit.label}: what it cuts oversize would reach over the limit")
        return
    proof.state("tap_limit", limit.label)
    proof.state("tap_pitch_diameter", limit.pitch_diameter)
    text = f"Tap again with the next limit, {limit.label}, where the planned one is refused again"
    lines = from_the_thread_on(plan.specification)
    yield way(case, _NEXT, "rework", text, proof=proof, plan=plan, lines=lines, cautions=(_START,))


def _inside(case: ReworkCase, window: Range) -> Iterator[TapLimit]:
    """The limits of the thread's taps whose whole band lies inside a window."""
    system = system_for(case.thread, case.request.hole.tap_limits)
    if system is None or window.min is None or window.max is None:
        return
    for one in limits_of_tables(case.thread, system):
        if window.min <= one.low and one.high <= window.max:
            yield one.limit


# --- finished ---------------------------------------------------------------------------------------------


def _finished(case: ReworkCase, shown: Proof) -> Judged:
    allowance = case.planned.allowance
    if allowance is not None and allowance.finish.applied == "after_finish":
        text = "Tap again with the oversize tap of the plan: a thread under hot-dip zinc is tapped after it"
        lines = from_the_thread_on(case.planned)
        yield way(case, _OVERTAP, "rework", text, proof=shown.copy(), lines=lines, cautions=(_START,))
        return
    yield from _stripped(case, shown)
    yield from _chased(case, shown)


def _stripped(case: ReworkCase, shown: Proof) -> Judged:
    """Off with the coat, a tap with room for it, and the coat again."""
    if case.planned.allowance is not None and not case.planned.allowance.feasible:
        yield RuledOut(_STRIP, _NOT_HELD)
        yield _masked(case, shown)
        return
    window = case.planned.limits.to_tap.pitch_diameter
    proof = shown.copy()
    proof.state("window_before_finish", window)
    proof.state("limits_inside_window", [one.label for one in _inside(case, window)] or None)
    lines = (
        work("strip", "strip of the finish", "Strip the coat as its standard allows, and wash"),
        *from_the_thread_on(case.planned),
    )
    text = f"Strip the coat, tap to {span(window, case.unit)} pitch diameter, and coat again"
    yield way(case, _STRIP, "rework", text, proof=proof, lines=lines, cautions=tuple(stripped_cautions(case)))


def _masked(case: ReworkCase, shown: Proof) -> ReworkWay:
    """The thread was to be masked and is not: the plan of the hole has it so."""
    lines = (
        work("strip", "strip of the finish", "Strip the coat as its standard allows, wash, and gauge the bare thread"),
        *after_the_thread(case.planned),
    )
    text = "Strip the coat, mask the thread as planned, and coat again: this finish leaves no room in the thread"
    return way(case, _MASK, "rework", text, proof=shown.copy(), lines=lines, cautions=tuple(stripped_cautions(case)))


def _chased(case: ReworkCase, shown: Proof) -> Judged:
    """A tap through the coated thread takes coat off the flanks."""
    pitch, least = case.measured.pitch_diameter, case.limits.pitch_diameter.min
    allowed = "chased_coat" in case.found.drawing_allows
    proof = shown.copy()
    coat = case.measured.coat or _thinnest(case)
    bare = True
    if pitch is not None and least is not None:
        cut = proof.length(
            "cut_per_side", (least - pitch) / _PITCH, formula="(pd_min - pd) / 4", pd_min=least, pd=pitch
        )
        if cut <= 0:
            yield RuledOut(_CHASE, "the pitch diameter is inside its limits: a tap would not touch the flanks")
            return
        bare = coat is None or cut >= coat
        proof.state("coat", coat)
        proof.state("bare_after_chase", bare)
    lines = (
        work("chase", "tap of the finished limits", f"Chase the coated thread with a {case.thread.designation} tap"),
        work("inspect", "thread plug gauge", "Gauge the finished thread with GO and NOT GO"),
    )
    yield way(
        case,
        _CHASE,
        "rework" if allowed else "repair",
        "Chase the coated thread with a tap" + (" until GO enters" if allowed else ": the coat on its flanks is cut"),
        proof=proof,
        lines=lines,
        cautions=_of_chase(case, bare=bare),
    )


def _of_chase(case: ReworkCase, *, bare: bool) -> Iterator[Caution]:
    state = "bare" if bare else "thinner than the class asks, and bare where the coat was thin"
    yield Caution("chased_flanks", f"The flanks are {state} afterwards: corrosion, and galling in stainless steel.")
    growth = None if case.planned.allowance is None else case.planned.allowance.finish.growth_fraction.max
    if growth is not None and growth < 1:
        yield Caution("hard_coat_dulls", "An anodic coat is ceramic: it dulls a tap within a few holes.")


def _thinnest(case: ReworkCase) -> Decimal | None:
    allowance = case.planned.allowance
    return None if allowance is None else allowance.finish.thickness.min
