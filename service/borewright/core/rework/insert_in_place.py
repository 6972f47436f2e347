"""An insert of the same thread in the same place: the hole is opened to its STI size, the screw stays as it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import NamedTuple

from borewright.core import callout, standards
from borewright.core.caches import read_once
from borewright.core.citation import cite
from borewright.core.errors import BorewrightError
from borewright.core.model import Caution, Thread
from borewright.core.quantity_text import length
from borewright.core.rounding import plain
from borewright.core.standards.insert.insert_object import DRILL_DEPTHS, LENGTHS
from borewright.core.standards.systems import traits
from borewright.tables import load

from . import envelope, wall_left
from .larger_thread import drill_between
from .proof import Proof
from .replan import NotPlanned, replanned
from .rework_case import Judged, ReworkCase
from .rework_way import Changed, Replanned, ReworkWay, RuledOut
from .ways_written import cut_anew, way

NAME = "insert_in_the_same_place"
_NOT_KNOWN = "what the old thread left is not known: measure the major diameter"
_DRILL_BOTTOMING, _DRILL_PLUG = 4, 6


class _Length(NamedTuple):
    """The insert that the hole takes, in the unit of the thread."""

    nominal: Decimal
    full_thread: Decimal


def insert(case: ReworkCase, proof: Proof, old: Decimal | None) -> Judged:
    """An insert in the hole of ``case``, as a way or ruled out.

    Args: ``proof`` that has the envelope; ``old`` the largest diameter that is in the hole, in the unit of the thread,
        None = not known.
    Source: ASME B18.29.1, B18.29.2M; NASM33537.
    """
    thread = hole_for_insert(case.thread)
    if thread is None or old is None:
        yield RuledOut(NAME, _NOT_KNOWN if thread else f"no insert for {case.thread.designation} is held")
        return
    minor = thread.internal.minor_diameter
    found = envelope.cleans_up(minor, old, thread=thread, unit=case.unit)
    if not found.cleans:
        yield RuledOut(NAME, _not_clean(case, old, minor.min, known=found.verdict != "unknown"))
        return
    envelope.note_clean_up(proof, found, minor, old)
    thin = wall_left.too_thin(case, proof, old=old, new=_tap_major(thread))
    if _listed_major(thread) is not None and "wall_after" in proof.figures:
        proof.sources.append(cite("insert_tap_majors").source("proof.wall_after"))
    if thin is not None:
        yield RuledOut(NAME, thin)
        return
    drill = drill_between(thread, old) if found.verdict == "full_upper_hole" else None
    if found.verdict == "full_upper_hole" and drill is None:
        yield RuledOut(NAME, "no drill is sold between the old thread and the limit of the hole for the insert")
        return
    bare = case.stage == "after_finish" and case.request.hole.finish is not None
    try:
        plan = _plan(case, thread, Changed(thread=thread.designation, drill=drill, method="cut", bare=bare))
    except NotPlanned as error:
        yield RuledOut(NAME, str(error))
        return
    yield _planned(case, proof, plan)


def _plan(case: ReworkCase, thread: Thread, changed: Changed) -> Replanned:
    """As deep as the drawing's thread; where that holds no insert or goes too deep, as deep as an insert needs."""
    refused = NotPlanned("the hole holds no insert, however short")
    for depth in (None, *_depths(case, thread)):
        try:
            plan = replanned(case, replace(changed, full_thread_depth=depth))
        except NotPlanned as error:
            refused = error
            continue
        if not _takes_none(plan):
            return plan
    raise refused


def _depths(case: ReworkCase, thread: Thread) -> list[Decimal]:
    """Full thread that the inserts of a blind hole need, the longest inside the depth of the drawing first."""
    if not case.blind:
        return []
    depths = [thread.extra["insert"][f"full_thread_depth_{suffix}"] for suffix in LENGTHS.values()]
    needed = [depth for depth in depths if isinstance(depth, Decimal)]
    return sorted((one for one in needed if one < case.depth_wanted), reverse=True) or needed[:1]


def _planned(case: ReworkCase, proof: Proof, plan: Replanned) -> ReworkWay:
    thread, bare = plan.specification.thread, plan.changed.bare
    _note_depths(case, proof, plan)
    allowed = "insert" in case.found.drawing_allows
    text = f"Open the hole to {thread.designation} and fit an insert: the screw stays {case.thread.designation}"
    return way(
        case,
        NAME,
        "rework" if allowed else "repair",
        text if allowed else f"{text}. The drawing shows a plain thread, so this is a repair",
        proof=proof,
        plan=plan,
        lines=cut_anew(plan.specification),
        cautions=(*wall_left.cautions(case, proof), *_cautions(case, proof, bare=bare)),
    )


def _takes_none(plan: Replanned) -> bool:
    return any(one.code == "no_insert_fits" for one in plan.specification.review)


def _not_clean(case: ReworkCase, old: Decimal, least: Decimal | None, *, known: bool) -> str:
    said = f"the old thread reaches {length(old, case.unit)}"
    if least is not None:
        said += f", the hole for the insert is {length(least, case.unit)} at least"
    if known:
        return f"{said}: traces of the old thread would stay"
    return f"{said} and its greatest size is not held: it cannot be told whether traces stay"


def hole_for_insert(thread: Thread) -> Thread | None:
    """The STI hole of ``thread``; None where none is held.

    Source: ASME B18.29.1, B18.29.2M.
    """
    if not envelope.covered(thread) or traits(thread).tap_limits == "insert":
        return None
    try:
        return standards.resolve(callout.read(_callout(thread)))
    except BorewrightError:
        return None


def _callout(thread: Thread) -> str:
    """The callout of the STI hole; 3B and 4H5H holes stay so, every other class is the wide one."""
    close = (thread.thread_class or "")[:1] in ("3", "4")
    left = " LH" if thread.hand == "left" else ""
    if thread.threads_per_inch is not None:
        return f"{thread.size}-{plain(thread.threads_per_inch)} STI {'3B' if close else '2B'}{left}"
    return f"M{thread.size}x{plain(thread.pitch)} STI {'4H5H' if close else '5H'}{left}"


def _tap_major(thread: Thread) -> Decimal:
    """Greatest major diameter of the STI tap, as listed or by the rule."""
    return _listed_major(thread) or envelope.of_tap(thread)


def _listed_major(thread: Thread) -> Decimal | None:
    return None if thread.threads_per_inch is None else _listed().get((thread.size, thread.threads_per_inch))


@read_once
def _listed() -> dict[tuple[str, Decimal], Decimal]:
    rows = load("insert_tap_majors").rows
    return {(row["size"], Decimal(row["tpi"])): Decimal(row["major_max_in"]) for row in rows}


def _note_depths(case: ReworkCase, proof: Proof, plan: Replanned) -> None:
    """Insert, full thread, and how deep the two kinds of tap are drilled for, with the floor that is left."""
    chosen = next(iter(_lengths(plan)), None)
    if chosen is None:
        return
    nominal, pitch, diameter = chosen.nominal, case.thread.pitch, case.thread.nominal_diameter
    proof.state("insert_length", nominal)
    proof.length("full_thread_depth", chosen.full_thread, formula="l + p", l=nominal, p=pitch)
    if not case.blind:
        return
    centre = diameter / 2 if _male_centre(case) else Decimal(0)
    short = nominal + _DRILL_BOTTOMING * pitch
    long = nominal + _DRILL_PLUG * pitch + centre
    proof.length("drill_depth_bottoming_tap", short, formula="l + 4 * p", place=DRILL_DEPTHS, l=nominal, p=pitch)
    proof.length(
        "drill_depth_plug_tap", long, formula="l + 6 * p + c", place=DRILL_DEPTHS, l=nominal, p=pitch, c=centre
    )
    floor = case.length(case.request.hole.hole.thickness)
    if floor is None:
        return
    for kind, depth in (("bottoming", short), ("plug", long)):
        proof.length(f"floor_left_{kind}", floor - depth, formula="floor - depth", floor=floor, depth=depth)


def _male_centre(case: ReworkCase) -> bool:
    """Taps up to 8 mm or 5/16 in have a male centre."""
    largest = Decimal(8) if case.unit == "mm" else Decimal("0.3125")
    return case.thread.nominal_diameter <= largest


def _lengths(plan: Replanned) -> Iterator[_Length]:
    for one in plan.specification.operations:
        nominal = one.line.parameters.get("insert_length")
        if isinstance(nominal, Decimal):
            yield _Length(nominal, nominal + plan.specification.thread.pitch)


def _cautions(case: ReworkCase, proof: Proof, *, bare: bool) -> Iterator[Caution]:
    if bare:
        yield Caution("bare_after_rework", "The hole is cut after the finish: its flanks are bare and may corrode.")
    floor = proof.figures.get("floor_left_plug")
    if isinstance(floor, Decimal) and floor <= 0:
        text = "A hole drilled for a plug tap breaks through the floor: use a bottoming tap and hold the depth."
        yield Caution("plug_tap_breaks_out", text)
