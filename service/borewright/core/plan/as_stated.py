"""What a drawing fixes of a hole, held against what would be chosen for it: what differs, what it costs, what risks."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from borewright.core.errors import BorewrightError
from borewright.core.model import DrillCandidate, Hole, Notes, Thread
from borewright.core.model.decision import Decision
from borewright.core.practice import number
from borewright.core.quantity_text import length, named, torque
from borewright.core.requests import HoleSpecRequest, Prescribed
from borewright.core.rounding import plain

from .ream_or_bore import is_bored
from .specification import Specification, joined, review

#: How far the chance of a stated drill may stay behind that of the one chosen before a person decides.
_TOLERANCE = number("chart_rule_tolerance")
#: Percent of thread on 0.75 H above which the hole is smaller than the core of the tap (geometry).
_WHOLE = 100
_PLACES = {"in": 4, "mm": 3}


def holds(hole: Hole) -> bool:
    """Whether the drawing fixes anything of ``hole`` that would be chosen otherwise."""
    return any((hole.drill, hole.drill_depth, hole.least_drill_depth, hole.countersink))


def held_against(stated: Specification, specify: Callable[[HoleSpecRequest], Specification]) -> Specification:
    """The specification ``stated`` by a drawing, with what its own choice would be and the question where the drawing
    is a risk.

    Args: ``specify`` plans the same hole without what the drawing fixes.
    Source: difference of two specifications of the same hole.
    """
    own = _own(stated.request, specify)
    told = Notes(assumptions=tuple(_told(stated, own)), decisions=tuple(_risks(stated, own)))
    notes = joined(stated.notes, told)
    return stated._replace(notes=notes, review=review(notes, *stated.noted()))


def _own(request: HoleSpecRequest, specify: Callable[[HoleSpecRequest], Specification]) -> Specification | None:
    """The hole without what the drawing fixes, of all drills where the series asked for have none; None where it can be
    made only as the drawing states it.
    """
    hole = replace(request.hole, drill=None, drill_depth=None, least_drill_depth=None, countersink=None)
    asked = replace(request, hole=hole, prescribed=Prescribed(None, request.prescribed.tap_limit))
    for each in (asked, replace(asked, drill_series=None)):
        with suppress(BorewrightError):
            return specify(each)
    return None


def _told(stated: Specification, own: Specification | None) -> Iterator[str]:
    if own is None:
        return
    thread, hole = stated.thread, stated.request.hole
    if hole.drill is not None and own.drill is not None:
        yield _drills(stated, own)
    fixed = hole.drill_depth or hole.least_drill_depth
    if fixed is not None and hole.kind == "blind":
        said = ("" if hole.drill_depth is not None else "at least ") + _say(fixed.to(thread.unit), thread)
        now, before = stated.depths.drill_depth, own.depths.drill_depth
        same = "as deep as would be drilled anyway" if now == before else f"{_say(before, thread)} would be drilled"
        yield f"the drawing states {said} of full drill diameter; by itself {same}"
    elif fixed is not None:
        yield "the hole goes through: the depth of drilling that is stated says nothing more"
    if hole.countersink is not None:
        said, usual = _sink(stated), _sink(own)
        yield f"the drawing states the countersink {said}" + ("" if said == usual else f"; the usual one is {usual}")


def _drills(stated: Specification, own: Specification) -> str:
    now, before = _best(stated), _best(own)
    if now.drill == before.drill and before.operation == "drill":
        return f"the drawing states the {_name(now, stated.thread)}, which would be chosen by itself too"
    costs = "; ".join(_costs(stated, own))
    among = "by itself" if own.request.drill_series == stated.request.drill_series else "among all drills"
    usual = f"{among} the {_opened(own)} is taken"
    return f"the drawing states the {_name(now, stated.thread)}; {usual}: {costs}"


def _costs(stated: Specification, own: Specification | None) -> Iterator[str]:
    now = _best(stated)
    if own is None:
        yield f"{plain(now.percent_thread)} % of thread"
        return
    before = _best(own)
    yield f"{plain(now.percent_thread)} % of thread instead of {plain(before.percent_thread)} %"
    if now.acceptance is not None and before.acceptance is not None:
        yield f"{100 * now.acceptance:.1f} % of the holes inside the limits instead of {100 * before.acceptance:.1f} %"
    turned, usual = _torque(stated), _torque(own)
    if turned is not None and usual is not None:
        yield f"tapping torque {torque(turned)} instead of {torque(usual)}"


def _torque(spec: Specification) -> float | None:
    tap = None if spec.process.cutting is None else spec.process.cutting.tap
    return None if tap is None or tap.torque is None else tap.torque.value


def _risks(stated: Specification, own: Specification | None) -> Iterator[Decision]:
    """The drill of the drawing outside the limits, or clearly more often so than the one that would be chosen."""
    if stated.request.hole.drill is None or stated.drill is None:
        return
    now, rarer, uncharted = _best(stated), False, False
    if own is not None:
        before = _best(own)
        if now.drill == before.drill and before.operation == "drill":
            return
        if now.acceptance is not None and before.acceptance is not None:
            rarer = now.acceptance + _TOLERANCE < before.acceptance
        uncharted = stated.thread.taper is not None
    if now.within_minor_diameter_limits is not False and not rarer and not uncharted:
        return
    what = "is no tap drill of this taper thread's tables" if uncharted else "does not hold the minor diameter limits"
    blocked = not uncharted and now.percent_thread > _WHOLE
    if blocked:
        what = "makes a hole that the tap's core does not enter"
    elif now.within_minor_diameter_limits is not False and not uncharted:
        what = "more often misses the minor diameter limits"
    text = (
        f"The drill of the drawing, the {_name(now, stated.thread)}, {what}: {'; '.join(_costs(stated, own))}."
        f" Decide: {'' if blocked else 'keep it as drawn, or '}have the drawing changed"
        f"{'' if own is None else f' to the {_opened(own)}'}."
    )
    yield Decision("drill_of_drawing", text, "/hole/drill", blocks=blocked)


def _best(spec: Specification) -> DrillCandidate:
    assert spec.drill is not None
    return spec.drill.recommended


def _name(one: DrillCandidate, thread: Thread) -> str:
    return named(f"{one.drill.label} drill", one.diameter, thread.unit)


def _opened(own: Specification) -> str:
    """The drill chosen, with what opens its hole where no drill makes it."""
    assert own.drill is not None
    name = _name(own.drill.recommended, own.thread)
    if own.drill.recommended.operation == "drill":
        return name
    return f"{name} and a {'boring bar' if is_bored(own.drill, own.thread.unit) else 'reamer'}"


def _sink(spec: Specification) -> str:
    depths = spec.depths
    return f"{_say(depths.countersink_diameter, spec.thread)} at {plain(depths.countersink_angle_deg)} degrees"


def _say(value: Decimal, thread: Thread) -> str:
    return length(value, thread.unit, _PLACES[thread.unit])
