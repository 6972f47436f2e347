"""The thread was tapped too large: NOT GO enters. No tap puts metal back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from borewright.core import standards
from borewright.core.errors import BorewrightError
from borewright.core.model import Caution, Thread
from borewright.core.quantity_text import length
from borewright.core.standards.systems import traits

from . import envelope, strength_left
from .drilled_oversize import not_proven
from .insert_in_place import insert
from .larger_thread import larger
from .last_ways import plug
from .proof import Proof
from .rework_case import Judged, ReworkCase
from .rework_way import ReworkWay, RuledOut
from .ways_written import after_the_thread, way, work

RETAP = "tap_again"
_COAT, _STRIP, _LOOSER, _AS_IT_IS = "thicker_coat", "strip_and_coat_thicker", "looser_class", "use_oversize"
_CLEAN = "clean_and_gauge_again"
#: A coat moves the pitch diameter of a 60 degree thread by four times its thickness, the minor diameter by two.
_PITCH, _MINOR = 4, 2
#: Decimals of a coat in words.
_COAT_PLACES = 5
_TOO_WEAK = "the part's thread would strip before the joint has its strength"
_LOOSER_FIT = Caution("looser_fit", "The fit is looser: not where it seals, locates or was close for fatigue.")
NO_METAL = (
    "a tap cuts metal away and puts none back: a thread that NOT GO enters is never cured by a tap, whatever its limit"
)


def not_held(case: ReworkCase) -> str:
    """What is said where a way needs the upper end of the pitch diameter of ``case`` and no table has it.

    Source: our own.
    """
    return f"the greatest pitch diameter of {case.thread.designation} is not held"


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case``, tapped too large.

    Source: FED-STD-H28/2B (1991) for the strength; geometry for the rest.
    """
    pitch, most = case.measured.pitch_diameter, case.limits.pitch_diameter.max
    shown = _shown(case, pitch)
    if pitch is not None and most is not None and pitch <= most:
        yield _gauge_again(case, shown)
    yield RuledOut(RETAP, NO_METAL)
    yield from _by_coat(case, shown)
    yield from _in_looser_class(case, shown)
    yield from _as_it_is(case, shown)
    old = envelope.left_by(case, shown)
    yield from insert(case, shown.copy(), old)
    yield from larger(case, shown, old)
    yield plug(case)


def _shown(case: ReworkCase, pitch: Decimal | None) -> Proof:
    proof, most = Proof(case.unit), case.limits.pitch_diameter.max
    proof.state("pitch_diameter", pitch)
    proof.state("pitch_diameter_max", most)
    if pitch is not None and most is not None:
        proof.length("over_by", pitch - most, formula="pd - pd_max", pd=pitch, pd_max=most)
    return proof


def _gauge_again(case: ReworkCase, shown: Proof) -> ReworkWay:
    text = (
        "Clean thread and gauge and gauge again with another plug: the pitch diameter measured is inside its limits, so"
        " that NOT GO should not enter"
    )
    line = work("inspect", "thread plug gauge", "Wash the thread, and gauge it again with a plug that was checked")
    return way(case, _CLEAN, "rework", text, proof=shown.copy(), lines=(line,))


def _by_coat(case: ReworkCase, shown: Proof) -> Judged:
    """A coat at the thick end of its class closes the thread again."""
    pitch, most = case.measured.pitch_diameter, case.planned.limits.finished.pitch_diameter.max
    allowance = case.planned.allowance
    name = _COAT if case.stage == "before_finish" else _STRIP
    if allowance is None or allowance.finish.applied != "before_finish" or not allowance.feasible:
        yield RuledOut(
            _COAT,
            "no finish of the drawing closes the thread, and one that it does not name changes the drawing",
        )
        return
    thickest = allowance.finish.build_up.max
    if most is None or thickest is None:
        yield RuledOut(name, f"{not_held(case)}: how much coat it takes is not known")
        return
    if pitch is None:
        yield RuledOut(name, "measure the pitch diameter: how much coat it takes is not known")
        return
    if case.stage == "after_finish" and case.measured.coat is None:
        yield RuledOut(name, "measure the coat: how much more it takes is not known")
        return
    bare = pitch if case.measured.coat is None else pitch + _PITCH * case.measured.coat
    proof = shown.copy()
    coat = proof.length("coat_needed", (bare - most) / _PITCH, formula="(pd - pd_max) / 4", pd=bare, pd_max=most)
    if coat > thickest:
        said = f"it takes {length(coat, case.unit, _COAT_PLACES)} of coat on a surface, the class ends at"
        yield RuledOut(name, f"{said} {length(thickest, case.unit, _COAT_PLACES)}")
        return
    closes = proof.length("minor_closes_by", _MINOR * coat, formula="2 * t", t=coat)
    yield from _closed_by(case, proof, name=name, coat=max(coat, Decimal(0)), closes=closes)


def _closed_by(case: ReworkCase, proof: Proof, *, name: str, coat: Decimal, closes: Decimal) -> Judged:
    least, hole = case.planned.limits.finished.minor_diameter.min, case.measured.hole_diameter
    if hole is not None and least is not None and hole - closes < least:
        yield RuledOut(name, "the minor diameter would close below its limit")
        return
    lines = after_the_thread(case.planned)
    if name == _STRIP:
        lines = [work("strip", "strip of the finish", "Strip the coat as its standard allows"), *lines]
    yield way(
        case,
        name,
        "rework",
        f"Coat at the thick end of the class, {length(coat, case.unit, _COAT_PLACES)} on a surface at least, and gauge"
        " finished",
        proof=proof,
        lines=lines,
        cautions=tuple(_of_coat(case, name=name)),
    )


def _of_coat(case: ReworkCase, *, name: str) -> Iterator[Caution]:
    yield Caution(
        "coat_every_hole", "The coat closes every other thread of the part as well: gauge those finished, too."
    )
    yield from stripped_cautions(case) if name == _STRIP else ()


def stripped_cautions(case: ReworkCase) -> Iterator[Caution]:
    """What is to be known of stripping and coating anew in ``case``.

    Source: hydrogen rules of the finish; common practice.
    """
    yield Caution(
        "strip_by_the_standard",
        "Ask whether the finish standard allows stripping and whether the bath attacks the base metal.",
    )
    allowance = case.planned.allowance
    if allowance is None:
        return
    if allowance.bake is not None:
        yield Caution(
            "hydrogen_each_cycle", "Each pickle and each plating charges the steel with hydrogen anew: bake every time."
        )
    growth = allowance.finish.growth_fraction.max
    if growth is not None and growth < 1:
        yield Caution(
            "stripping_opens_thread",
            "An anodic coat has grown half into the metal: stripping takes that away, the thread ends larger.",
        )


def _in_looser_class(case: ReworkCase, shown: Proof) -> Judged:
    """Accepted to a class with more room, where that holds it."""
    pitch, thread = case.measured.pitch_diameter, case.thread
    classes = traits(thread).looser_classes(thread.thread_class or "")
    if not classes:
        yield RuledOut(_LOOSER, f"no looser class of {thread.designation} is held")
        return
    if pitch is None:
        yield RuledOut(_LOOSER, "measure the pitch diameter: whether a looser class holds it is not known")
        return
    for thread_class in classes:
        other = _in_class(thread, thread_class)
        limit = None if other is None else _limit(case, other)
        if other is None or limit is None or pitch > limit:
            continue
        proof = shown.copy()
        proof.state("pitch_diameter_max_looser", limit)
        proven = strength_left.prove(case, proof, pitch=pitch)
        if proven is False:
            yield RuledOut(_LOOSER, _TOO_WEAK)
            return
        yield way(
            case,
            _LOOSER,
            "use_as_is",
            f"Accept the hole as {other.designation}: the design authority changes the class",
            proof=proof,
            lines=after_the_thread(case.planned),
            cautions=(*not_proven(proven), _LOOSER_FIT),
            regrade=True,
        )
        return
    yield RuledOut(_LOOSER, f"the pitch diameter is over the limit of {' and '.join(classes)} as well")


def _limit(case: ReworkCase, other: Thread) -> Decimal | None:
    """Greatest pitch diameter of the looser class at this stage: as far over it as the drawn class has it there."""
    own, now, most = (
        case.thread.internal.pitch_diameter.max,
        case.limits.pitch_diameter.max,
        other.internal.pitch_diameter.max,
    )
    return None if own is None or now is None or most is None else most + now - own


def _in_class(thread: Thread, thread_class: str) -> Thread | None:
    try:
        return standards.resolve(replace(thread.callout, thread_class=thread_class, assumptions=()))
    except BorewrightError:
        return None


def _as_it_is(case: ReworkCase, shown: Proof) -> Judged:
    pitch = case.measured.pitch_diameter
    if pitch is None:
        yield RuledOut(_AS_IT_IS, "measure the pitch diameter: without it no strength can be proven")
        return
    proof = shown.copy()
    proven = strength_left.prove(case, proof, pitch=pitch)
    if proven is False:
        yield RuledOut(_AS_IT_IS, _TOO_WEAK)
        return
    yield way(
        case,
        _AS_IT_IS,
        "use_as_is",
        "Use the thread as it is, as the strength allows, where nothing seals or locates on it",
        proof=proof,
        lines=after_the_thread(case.planned),
        cautions=(
            *not_proven(proven),
            _LOOSER_FIT,
        ),
    )
