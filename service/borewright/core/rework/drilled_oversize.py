"""The hole was drilled too large; no thread is in it yet, unless a pitch diameter was measured."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from borewright.core.drilling import percent_of_thread
from borewright.core.drilling.percent_of_thread import Basis, cutting_basis, forming_basis
from borewright.core.model import Caution
from borewright.core.practice import figure, number
from borewright.core.quantity_text import length

from . import strength_left
from .insert_in_place import insert
from .larger_thread import larger
from .last_ways import plug
from .proof import Proof
from .replan import NotPlanned, replanned
from .rework_case import Judged, ReworkCase
from .rework_way import Changed, ReworkWay, RuledOut
from .ways_written import from_the_thread_on, way

_LEAST_PERCENT = figure("partial_thread_percent")
_FORMED = number("rescue_formed_percent_least"), number("rescue_formed_percent_most")
_FORMING = "form_the_thread"
_AS_IT_IS = "use_with_less_thread"


def ways(case: ReworkCase) -> Judged:
    """The ways for the hole of ``case``, drilled too large.

    Source: FED-STD-H28/2B (1991) for the strength; geometry for the rest.
    """
    hole = case.measured.hole_diameter
    if hole is None:
        raise LookupError("the hole was measured: the request is checked before")
    most = case.limits.minor_diameter.max
    if most is not None and hole <= most:
        yield _conforms(case, hole)
        return
    shown = _shown(case, hole)
    yield from _formed(case, hole)
    yield from _as_it_is(case, hole)
    yield from insert(case, shown.copy(), hole)
    yield from larger(case, shown.copy(), hole)
    yield plug(case)


def _shown(case: ReworkCase, hole: Decimal) -> Proof:
    """What every way says of the hole."""
    proof = Proof(case.unit)
    basis = cutting_basis(case.thread)
    proof.state("hole_diameter", hole)
    proof.figure(
        "percent_of_thread",
        float(basis.percent(hole)),
        formula=basis.formula,
        hole=hole,
        **_inputs(basis),
    )
    forming = forming_basis(case.thread)
    formed = float(forming.percent(hole))
    proof.figure("percent_if_formed", formed, formula=forming.formula, hole=hole, **_inputs(forming))
    most = case.limits.minor_diameter.max
    if most is not None:
        proof.state("minor_diameter_max", most)
        proof.length("over_by", hole - most, formula="hole - most", hole=hole, most=most)
    return proof


def _inputs(basis: Basis) -> dict[str, Any]:
    return dict(basis.inputs)


def _conforms(case: ReworkCase, hole: Decimal) -> ReworkWay:
    most = case.limits.minor_diameter.max
    assert most is not None
    text = (
        f"Tap as planned: {length(hole, case.unit)} is inside the limit of {length(most, case.unit)}, nothing is wrong"
        " with the hole"
    )
    proof = _shown(case, hole)
    return way(case, "tap_as_planned", "rework", text, proof=proof, lines=from_the_thread_on(case.planned))


def _formed(case: ReworkCase, hole: Decimal) -> Judged:
    """A hole too large for cutting is mostly still too small for forming: the rescue is a narrow band."""
    if case.measured.pitch_diameter is not None or case.request.hole.method == "form":
        return
    least, most = _FORMED
    percent = float(percent_of_thread(case.thread, hole, method="form"))
    if not least <= percent <= most:
        side = "too small for a forming tap" if percent > most else "too large for a forming tap as well"
        yield RuledOut(
            _FORMING, f"{side}: it would form {percent:.1f} % of thread, {least:g} to {most:g} % is the band"
        )
        return
    if case.planned.material is None:
        yield RuledOut(_FORMING, "name the material: only a ductile one forms a thread")
        return
    try:
        plan = replanned(case, Changed(method="form"))
    except NotPlanned as error:
        yield RuledOut(_FORMING, str(error))
        return
    trial = next((one.text for one in plan.specification.review if one.code == "forming_trial"), None)
    if trial is not None:
        yield RuledOut(_FORMING, f"the material is not known to form: {trial}")
        return
    allowed = "formed_thread" in case.found.drawing_allows
    yield way(
        case,
        _FORMING,
        "rework" if allowed else "repair",
        f"Form the thread instead of cutting it: the hole forms {percent:.1f} % of thread",
        proof=_shown(case, hole),
        plan=plan,
        lines=from_the_thread_on(plan.specification),
        cautions=(Caution("gauge_formed_minor", "Gauge the minor diameter after forming: its crest decides."),),
    )


def _as_it_is(case: ReworkCase, hole: Decimal) -> Judged:
    proof = _shown(case, hole)
    percent = percent_of_thread(case.thread, hole)
    if percent < _LEAST_PERCENT:
        yield RuledOut(_AS_IT_IS, f"only {percent:.1f} % of thread would stand, less than {_LEAST_PERCENT} %")
        return
    proven = strength_left.prove(case, proof, hole=hole)
    if proven is False:
        yield RuledOut(_AS_IT_IS, "the screw's thread would strip before the joint has its strength")
        return
    yield way(
        case,
        _AS_IT_IS,
        "use_as_is",
        f"Tap as planned with {percent:.1f} % of thread, as the strength allows",
        proof=proof,
        lines=from_the_thread_on(case.planned),
        cautions=_of_strength(case, proven),
    )


def _of_strength(case: ReworkCase, proven: bool | None) -> Iterator[Caution]:
    yield from not_proven(proven)
    yield Caution(
        "plain_plug_refuses", "The NOT GO plain plug will enter: the inspector must have the leave of the authority."
    )


def not_proven(proven: bool | None) -> Iterator[Caution]:
    """What is said where the strength could not be ``proven``.

    Source: our own.
    """
    if proven is None:
        text = "The strength is not proven: name the material with its hardness and the grade of the screw."
        yield Caution("rework_strength_open", text)
