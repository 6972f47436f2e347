"""The next larger thread in the place of a spoilt one: the first of each series that leaves no trace of the old one."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from borewright.core import callout, drilling, standards
from borewright.core.caches import read_once
from borewright.core.drilling.standard_drills import USUAL
from borewright.core.errors import BorewrightError
from borewright.core.model import CatalogueEntry, Caution, Range, Thread
from borewright.core.practice import figure
from borewright.core.quantity_text import length
from borewright.core.standards import systems
from borewright.core.standards.metric import sizes as metric_sizes

from . import envelope, wall_left
from .envelope import CleanUp
from .proof import H28, Proof
from .replan import NotPlanned, replanned
from .rework_case import Judged, ReworkCase
from .rework_way import Changed, RuledOut
from .ways_written import cut_anew, way

NAME = "next_larger_thread"
#: Series in which another screw is sold everywhere.
SERIES = ("UNC", "UNF", "coarse", "fine")
_LARGEST_DIAMETERS = figure("largest_rework_diameters")
_SCREW = Caution(
    "larger_screw",
    "The larger screw must pass the mating part: its clearance hole, head, countersink, tightening torque and the kit"
    " change with it. Mark the hole.",
)


class Larger(NamedTuple):
    """A larger thread, its minor diameter in the unit of the drawn thread, and whether it cleans up."""

    thread: Thread
    minor: Range
    clean: CleanUp


def first_that_cleans(case: ReworkCase, old: Decimal) -> dict[str, Larger]:
    """The first larger thread of each series that leaves no trace of ``old``, a diameter in the unit of ``case``.

    Source: limits of the threads' own standards; first choice by major diameter, the coarser of two equal ones.
    """
    found: dict[str, Larger] = {}
    for one in _larger(case, old):
        if one.clean.cleans:
            found.setdefault(_series(one.thread), one)
    return found


def larger(case: ReworkCase, proof: Proof, old: Decimal | None) -> Judged:
    """The next larger threads for the hole of ``case``, its own system first, and those that leave traces.

    Args: ``proof`` that has the envelope; ``old`` the largest diameter that is in the hole, in the unit of the thread,
        None = not known.
    Source: as :func:`first_that_cleans`.
    """
    if old is None or not envelope.covered(case.thread):
        yield RuledOut(
            NAME, f"larger threads are looked for in the place of UN and M threads, not of {case.thread.designation}"
        )
        return
    found = first_that_cleans(case, old)
    yield from _partial(case, old, found)
    for one in sorted(found.values(), key=lambda one: _rank(case, one)):
        yield from _attempt(case, proof, old, one)


def _attempt(case: ReworkCase, shared: Proof, old: Decimal, one: Larger) -> Judged:
    try:
        yield from _planned(case, shared.copy(), old, one)
    except NotPlanned as error:
        yield RuledOut(NAME, f"{one.thread.designation}: {error}")


def _planned(case: ReworkCase, proof: Proof, old: Decimal, one: Larger) -> Judged:
    envelope.note_clean_up(proof, one.clean, one.minor, old)
    new = envelope.in_unit(envelope.of_tap(one.thread), one.thread.unit, case.unit)
    thin = wall_left.too_thin(case, proof, old=old, new=new)
    if thin is not None:
        yield RuledOut(NAME, f"{one.thread.designation}: {thin}")
        return
    drill = None
    if one.clean.verdict == "full_upper_hole":
        drill = drill_between(one.thread, envelope.in_unit(old, case.unit, one.thread.unit))
        if drill is None:
            yield RuledOut(NAME, f"{one.thread.designation}: no drill is sold between the old thread and its limit")
            return
    bare = case.stage == "after_finish" and case.request.hole.finish is not None
    plan = replanned(case, Changed(thread=one.thread.designation, drill=drill, method="cut", bare=bare))
    strength = plan.specification.process.strength
    if strength is not None:
        proof.state("safety_factor", strength.safety_factor)
        proof.state("fails_first", strength.fails_first)
        proof.sources.append(H28.source("proof.safety_factor"))
    yield way(
        case,
        NAME,
        "repair",
        f"Open the hole and tap {one.thread.designation} for a larger screw",
        proof=proof,
        plan=plan,
        lines=cut_anew(plan.specification),
        cautions=(_SCREW, *wall_left.cautions(case, proof), *_bare(bare=bare)),
    )


def _bare(*, bare: bool) -> Iterator[Caution]:
    if bare:
        yield Caution("bare_after_rework", "The hole is cut after the finish: its flanks are bare and may corrode.")


def _partial(case: ReworkCase, old: Decimal, found: dict[str, Larger]) -> Judged:
    """The nearest thread of the own series that leaves traces: what people ask for first."""
    own = _series(case.thread)
    for one in _larger(case, old):
        if _series(one.thread) == own and one.thread is not getattr(found.get(own), "thread", None):
            if one.clean.percent_left is not None:
                yield RuledOut(
                    NAME,
                    f"{one.thread.designation} does not clean up: the old thread reaches {length(old, case.unit)}, at"
                    f" least {one.clean.percent_left:g} % of its thread would stand",
                )
            return


def _rank(case: ReworkCase, one: Larger) -> tuple[bool, Decimal, bool]:
    major = envelope.in_unit(one.thread.basic.major_diameter, one.thread.unit, case.unit)
    return one.thread.unit != case.unit, major, _series(one.thread) != _series(case.thread)


def _series(thread: Thread) -> str:
    if thread.unit == "mm":
        return metric_sizes.series_for(thread.nominal_diameter, pitch_mm=thread.pitch) or ""
    return (thread.series or "").replace("J", "")


def _larger(case: ReworkCase, old: Decimal) -> Iterator[Larger]:
    """Every larger thread up to the largest that is looked at, by major diameter."""
    drawn = case.thread.basic.major_diameter
    for entry in _entries():
        major = envelope.in_unit(entry.nominal_diameter, entry.unit, case.unit)
        if drawn < major <= _LARGEST_DIAMETERS * drawn:
            thread = _thread(entry, case.thread)
            minor = envelope.limits_in(thread.internal.minor_diameter, thread.unit, case.unit)
            yield Larger(thread, minor, envelope.cleans_up(minor, old, thread=thread, unit=case.unit))


@read_once
def _entries() -> tuple[CatalogueEntry, ...]:
    """UNC, UNF and the choice of ISO 262, smallest first, of equal ones the coarsest."""
    found = [one for one in standards.catalogue() if _is_common(one)]
    return tuple(sorted(found, key=lambda one: (_mm(one), -one.pitch)))


def _mm(entry: CatalogueEntry) -> Decimal:
    return envelope.in_unit(entry.nominal_diameter, entry.unit, "mm")


def _is_common(entry: CatalogueEntry) -> bool:
    of_system = systems.of(entry.system).traits
    if of_system.j_form_of is not None:
        return False
    if of_system.tap_limits == "inch":
        return entry.series in SERIES
    is_selected = metric_sizes.is_of_iso_262(entry.nominal_diameter, pitch_mm=entry.pitch)
    return of_system.tap_limits == "metric" and is_selected


def _thread(entry: CatalogueEntry, drawn: Thread) -> Thread:
    """The thread of an entry, in the class of the drawn one where it has it, with its hand."""
    left = " LH" if drawn.hand == "left" else ""
    try:
        return standards.resolve(callout.read(f"{entry.designation}-{drawn.thread_class}{left}"))
    except BorewrightError:
        return standards.resolve(callout.read(f"{entry.designation}{left}"))


def drill_between(thread: Thread, least: Decimal) -> str | None:
    """The smallest drill that is sold from ``least``, in the unit of ``thread``, to its greatest minor diameter.

    Source: sizes of drills.
    """
    most = thread.internal.minor_diameter.max
    for series in USUAL[thread.unit]:
        for one in drilling.all_drills():
            size = one.diameter(thread.unit)
            if one.series in series and size >= least and (most is None or size <= most):
                return one.label
    return None
