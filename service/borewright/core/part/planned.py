"""The plan of a part: each hole by itself first, then the tools that serve all of them, held against each hole again.

Selection first, sequence second; nothing is taken from the solver that the specification of the hole does not bear
out. A hole never gets a worse verdict, a new decision or a chance of acceptance below the least one for a tool's sake.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

from borewright.core.errors import BorewrightError
from borewright.core.model import decision
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.requests import HoleSpecRequest, Prescribed
from borewright.core.time_left import UNBOUNDED, TimeLeft

from .changes import changes
from .kit import kit
from .model import PartDecision, PartHole, PartPlan, PartRequest, PlannedHole, RefusedHole, Solver
from .part_notes import notes
from .selection import Row, Selection
from .steps import steps_of, time_of
from .tool_list import tool_list
from .tools_of_hole import Alternative, alternatives, timed, used_tools

#: Rounds of choosing and holding against the holes before a hole that never agrees is left as it is.
_ROUNDS = 12
_VERDICTS = ("ready", "review", "infeasible")


class _Alone(NamedTuple):
    """A kind of hole planned by itself, and the ways in which it could be made."""

    holes: tuple[PartHole, ...]
    specification: Specification
    ways: tuple[Alternative, ...]


def plan_part(request: PartRequest, solve: Solver, work: TimeLeft = UNBOUNDED) -> PartPlan:
    """The plan for all holes of the part of ``request``.

    Holes that cannot be specified are named with what is wrong, the rest is planned.

    Args:
        solve: chooses candidates for rows of holes.
        work: is asked after each kind of hole whether there is time for the next; what it raises ends the plan.
    Source: uncapacitated facility location; each hole as its specification says.
    """
    alone, refused = _each_alone(request, work)
    chosen, specifications = _together(alone, request, solve, work)
    planned = tuple(
        PlannedHole(hole, specifications[hole.name]) for hole in request.holes if hole.name in specifications
    )
    own = {hole.name: one.specification for one in alone for hole in one.holes}
    steps, proved = steps_of(planned)
    tools = tool_list(planned)
    review = tuple(_to_decide(request, planned, own))
    return PartPlan(
        holes=planned,
        refused=(*request.refused, *refused),
        tools=tools,
        by_themselves=len({used.name for one in alone for used in used_tools(one.specification)}),
        bound=chosen.at_least,
        optimal=chosen.proved,
        changes=changes(planned, own),
        steps=steps,
        order_optimal=proved,
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
            refused += [RefusedHole(hole.name, error.faults) for hole in holes]
            continue
        alone.append(_Alone(tuple(holes), specification, _ways(asked, specification, request)))
    return tuple(alone), tuple(refused)


def _ways(asked: HoleSpecRequest, specification: Specification, request: PartRequest) -> tuple[Alternative, ...]:
    """The ways in which a hole could be made, as far as the objective asks for others than its own."""
    if request.objective == "as_specified":
        return alternatives(specification)[:1]
    ways = alternatives(specification)
    return ways if request.objective == "fewest_tools" else timed(asked, ways)


def _together(
    alone: tuple[_Alone, ...], request: PartRequest, solve: Solver, work: TimeLeft
) -> tuple[Selection, dict[str, Specification]]:
    """The best choice that every hole bears out, with the specification of each hole."""
    ways = {one.holes[0].name: _allowed(one, request.least_acceptance) for one in alone}
    for turn in range(_ROUNDS + 1):
        chosen = solve([_row(one, ways[one.holes[0].name]) for one in alone], request)
        specifications: dict[str, Specification] = {}
        wrong = False
        for one in alone:
            work.check()
            name = one.holes[0].name
            taken = next(way for way in ways[name] if way.candidate == chosen.candidates[name])
            found = _borne_out(one, taken, request)
            if found is None:
                wrong = True
                left = tuple(way for way in ways[name] if way is not taken)
                ways[name] = (left if turn < _ROUNDS - 1 else ()) or one.ways[:1]
            else:
                specifications |= dict.fromkeys((hole.name for hole in one.holes), found)
        if not wrong:
            break
    return chosen, specifications


def _allowed(one: _Alone, least: float) -> tuple[Alternative, ...]:
    """The ways that reach the least acceptance; a hole whose own way does not keeps it where no other way does."""
    return tuple(way for way in one.ways if way.candidate.acceptance >= least) or one.ways[:1]


def _row(one: _Alone, ways: tuple[Alternative, ...]) -> Row:
    return Row(
        tuple(hole.name for hole in one.holes),
        sum(hole.count for hole in one.holes),
        tuple(way.candidate for way in ways),
    )


def _borne_out(one: _Alone, taken: Alternative, request: PartRequest) -> Specification | None:
    """The specification with the tools taken; None where it has others, or is worse than the hole by itself."""
    own = one.specification
    if taken.prescribed == Prescribed():
        return own
    try:
        found = specify(replace(one.holes[0].request, id=None, prescribed=taken.prescribed))
    except BorewrightError:
        return None
    if frozenset(used.name for used in used_tools(found)) != taken.candidate.tools:
        return None
    if _VERDICTS.index(found.verdict) > _VERDICTS.index(own.verdict):
        return None
    if {each.code for each in found.review} - {each.code for each in own.review}:
        return None
    both = found.process.acceptance.both
    return found if both is not None and both >= request.least_acceptance else None


def _to_decide(
    request: PartRequest, planned: Iterable[PlannedHole], own: dict[str, Specification]
) -> Iterable[PartDecision]:
    for one in planned:
        for each in one.specification.review:
            yield PartDecision(each.code, one.hole.name, each.text)
        both = one.specification.process.acceptance.both
        if both is not None and both < request.least_acceptance:
            text = (
                f"No tools make this hole with the least acceptance of {100 * request.least_acceptance:.1f} %: it"
                f" reaches {100 * both:.1f} %. Decide: accept less, or ream the hole, or change its limits."
            )
            yield PartDecision("least_acceptance_not_reached", one.hole.name, text)


def _verdict(planned: Iterable[PlannedHole], review: tuple[PartDecision, ...], *, refused: bool) -> decision.Verdict:
    if refused or any(one.specification.verdict == "infeasible" for one in planned):
        return "infeasible"
    return "review" if review else "ready"
