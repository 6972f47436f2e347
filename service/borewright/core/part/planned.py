"""The plan of a part: each hole by itself first, then the tools that serve all of them, held against each hole again.

Selection first, sequence second; nothing is taken from the solver that the specification of the hole does not bear
out. A hole never gets a worse verdict, a new decision or caution, or a chance of acceptance below the least one for a
tool's sake.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import decision
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest, Prescribed
from borewright.core.time_left import UNBOUNDED, TimeLeft

from .alternatives import Alternative, acceptance, alternatives, timed
from .away import away_from_spindle
from .changes import changes
from .kit import kit
from .model import PartDecision, PartHole, PartPlan, PartRequest, PlannedHole, RefusedHole, Solver
from .part_notes import notes, percent
from .selection import Row, Selection
from .steps import steps_of, time_of
from .tool_list import tool_list
from .used_tools import UsedTool, used_tools
from .within_reach import within_reach

#: Rounds of choosing and holding against the holes before a hole that never agrees is left as it is.
_ROUNDS = 12
_VERDICTS = ("ready", "review", "infeasible")


class _Alone(NamedTuple):
    """A kind of hole planned by itself, and the ways in which it could be made."""

    holes: tuple[PartHole, ...]
    specification: Specification
    used: tuple[UsedTool, ...]
    ways: tuple[Alternative, ...]

    @property
    def name(self) -> str:
        return self.holes[0].name

    def best(self, least_chance: float) -> Alternative:
        """The nearest way that reaches the least chance of acceptance, in the order in which the hole's drills and taps
        were weighed; else that with the best chance.
        """
        reach = [way for way in self.ways if way.candidate.acceptance >= least_chance]
        if reach:
            return min(reach, key=lambda way: way.far)
        return max(self.ways, key=lambda way: way.candidate.acceptance)


class _Made(NamedTuple):
    """A specification with its tools in order."""

    specification: Specification
    used: tuple[UsedTool, ...]


def plan_part(request: PartRequest, solve: Solver, work: TimeLeft = UNBOUNDED) -> PartPlan:
    """The plan for all holes of the part of ``request``.

    Holes that cannot be specified are named with what is wrong, the rest is planned.

    Args:
        solve: chooses candidates for rows of holes.
        work: is asked after each kind of hole whether there is time for the next; what it raises ends the plan.
    Source: uncapacitated facility location; each hole as its specification says.
    """
    alone, refused = _each_alone(request, work)
    chosen, made = _Together(alone, request, solve, work).best()
    planned = tuple(PlannedHole(hole, *made[hole.name]) for hole in request.holes if hole.name in made)
    own = {hole.name: PlannedHole(hole, one.specification, one.used) for one in alone for hole in one.holes}
    steps, proved = steps_of(planned, request.times)
    tools = tool_list(planned)
    bests = [(one, one.best(request.least_acceptance)) for one in alone]
    review = tuple(_to_decide(request, planned, {hole.name: best for one, best in bests for hole in one.holes}))
    return PartPlan(
        holes=planned,
        refused=(*request.refused, *refused),
        tools=tools,
        by_themselves=len({used.name for one in alone for used in one.used}),
        bound=chosen.at_least,
        optimal=chosen.proved,
        stages=chosen.stages,
        changes=changes(planned, own, request.least_acceptance),
        steps=steps,
        order_optimal=proved,
        away=away_from_spindle(planned),
        time=time_of(steps, request),
        kit=kit(planned, tools, request.lot_size),
        review=review,
        verdict=_verdict(planned, review, refused=bool(request.refused or refused)),
        notes=notes(request, planned),
    )


def _each_alone(request: PartRequest, work: TimeLeft) -> tuple[tuple[_Alone, ...], tuple[RefusedHole, ...]]:
    """Equal holes are specified once."""
    kinds: dict[HoleSpecRequest, list[PartHole]] = {}
    for hole in request.holes:
        kinds.setdefault(replace(hole.request, id=None), []).append(hole)
    alone: list[_Alone] = []
    refused: list[RefusedHole] = []
    for asked, holes in kinds.items():
        work.check()
        try:
            specification = specify(asked)
        except BorewrightError as error:
            refused += [_refused(hole, error.faults) for hole in holes]
            continue
        used = used_tools(specification)
        alone.append(_Alone(tuple(holes), specification, used, _ways(asked, specification, used, request)))
    return tuple(alone), tuple(refused)


def _refused(hole: PartHole, faults: Iterable[Fault]) -> RefusedHole:
    """``hole`` with what is wrong, where it stands in what was sent."""
    placed = (replace(fault, pointer=hole.pointer + fault.pointer) for fault in faults)
    return RefusedHole(hole.name, tuple(placed))


def _ways(
    asked: HoleSpecRequest, specification: Specification, used: tuple[UsedTool, ...], request: PartRequest
) -> tuple[Alternative, ...]:
    """The ways in which a hole could be made, as far as the objective asks for others than its own."""
    ways = alternatives(specification, used, request.least_acceptance)
    if request.objective == "as_specified":
        return ways[:1]
    return ways if request.objective == "fewest_tools" else timed(asked, ways)


class _Together:
    """The search for the best choice that every hole bears out."""

    def __init__(self, alone: tuple[_Alone, ...], request: PartRequest, solve: Solver, work: TimeLeft) -> None:
        self._alone, self._request, self._solve, self._work = alone, request, solve, work
        self._known: dict[tuple[str, Prescribed], _Made | None] = {}
        self._ways = within_reach({one.name: one.ways for one in alone}, request.least_acceptance)

    def best(self) -> tuple[Selection, dict[str, _Made]]:
        """The choice, with what is made of each hole."""
        turns = 0
        while True:
            turns += 1
            chosen = self._solve([self._row(one) for one in self._alone], self._request)
            made, refused = self._held_against(chosen)
            if not refused:
                return chosen, made
            for one, taken in refused:
                left = tuple(way for way in self._ways[one.name] if way is not taken)
                self._ways[one.name] = (left if turns < _ROUNDS else ()) or one.ways[:1]

    def _held_against(self, chosen: Selection) -> tuple[dict[str, _Made], list[tuple[_Alone, Alternative]]]:
        """What is made of the holes that bear the choice out, and the others with the way that was chosen."""
        made: dict[str, _Made] = {}
        refused: list[tuple[_Alone, Alternative]] = []
        for one in self._alone:
            self._work.check()
            taken = next(way for way in self._ways[one.name] if way.candidate == chosen.candidates[one.name])
            found = self._borne_out(one, taken)
            if found is None:
                refused.append((one, taken))
            else:
                made |= dict.fromkeys((hole.name for hole in one.holes), found)
        return made, refused

    def _row(self, one: _Alone) -> Row:
        candidates = tuple(way.candidate for way in self._ways[one.name])
        return Row(tuple(hole.name for hole in one.holes), sum(hole.count for hole in one.holes), candidates)

    def _borne_out(self, one: _Alone, taken: Alternative) -> _Made | None:
        """The hole with the tools taken; None where it has others, or is worse than by itself."""
        key = one.name, taken.prescribed
        if key not in self._known:
            self._known[key] = self._tried(one, taken)
        return self._known[key]

    def _tried(self, one: _Alone, taken: Alternative) -> _Made | None:
        own, least = one.specification, self._request.least_acceptance
        if taken.prescribed == Prescribed():
            return _Made(own, one.used)
        try:
            found = specify(replace(own.request, prescribed=taken.prescribed))
        except BorewrightError:
            return None
        used = used_tools(found)
        if frozenset(tool.name for tool in used) != taken.candidate.tools or acceptance(found) < least:
            return None
        return None if _is_worse(found, own, may_warn=acceptance(own) < least) else _Made(found, used)


def _is_worse(found: Specification, own: Specification, *, may_warn: bool) -> bool:
    """Whether a hole has a worse verdict, a new decision, or a new caution where it may have none."""
    if _VERDICTS.index(found.verdict) > _VERDICTS.index(own.verdict):
        return True
    if {each.code for each in found.review} - {each.code for each in own.review}:
        return True
    return not may_warn and bool({each.code for each in found.cautions()} - {each.code for each in own.cautions()})


def _to_decide(
    request: PartRequest, planned: Iterable[PlannedHole], best: Mapping[str, Alternative]
) -> Iterable[PartDecision]:
    for one in planned:
        for each in one.specification.review:
            yield PartDecision(each.code, one.hole.name, each.text)
        reached = acceptance(one.specification)
        if reached < request.least_acceptance:
            yield PartDecision(
                "least_acceptance_not_reached", one.hole.name, _not_reached(request, one, reached, best[one.hole.name])
            )


def _not_reached(request: PartRequest, one: PlannedHole, reached: float, best: Alternative) -> str:
    """The best that can be reached, and with which tools; the hole is planned with its own."""
    least, most = request.least_acceptance, best.candidate.acceptance
    other = " and ".join(sorted(best.candidate.tools - {used.name for used in one.used}))
    own = f"with its own it reaches {percent(reached)}"
    if best.of_other_series and most >= least:
        return (
            f"No drill of the thread's own series makes this hole with the least acceptance of {percent(least)}:"
            f" {own}, with {other} {percent(most)}. Decide: take that drill (state it as hole.drill), or"
            " accept less, or ream the hole, or change its limits."
        )
    said = f"No tools make this hole with the least acceptance of {percent(least)}: {own}"
    said += ", and none reach more" if most <= reached else f", at best {percent(most)} with {other}"
    return f"{said}. Decide: accept less, or ream the hole, or change its limits."


def _verdict(planned: Iterable[PlannedHole], review: tuple[PartDecision, ...], *, refused: bool) -> decision.Verdict:
    if refused or any(one.specification.verdict == "infeasible" for one in planned):
        return "infeasible"
    return "review" if review else "ready"
