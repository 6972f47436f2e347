"""The ways in which one hole could be made: drills and taps that hold its limits, and what each of them costs it.

The chance of acceptance of a way is the product of those of drill and tap, and what it loses against the hole's own way
is the sum of what both lose: the two are chosen apart.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import floor
from typing import NamedTuple, TypeVar

from borewright.core import drilling, tapping
from borewright.core.model import DrillCandidate, DrillChoice, Tap, TapChoice
from borewright.core.plan.choices import in_unit, space_of, tap_request
from borewright.core.plan.specification import Specification
from borewright.core.plan.specify import specify
from borewright.core.practice import number
from borewright.core.requests import HoleSpecRequest, Prescribed, TapBuild

from .selection import ToolSet, log_chance
from .used_tools import UsedTool, tool_name

#: What a changed tool costs beside acceptance, so that a hole keeps its own where another saves none and loses nothing;
#: of equals the one with the better chance.
_CHANGED_TOOL, _BETTER_CHANCE = 1e-6, 1e-8
_TIME_STEP = number("part_time_step")

#: How far a drill is from what the hole's shop would take: these are added up.
OTHER_SERIES, MORE_THREAD = 1, 2

_Tool = TypeVar("_Tool", DrillCandidate, Tap)


class Alternative(NamedTuple):
    """A way to make the hole: for the solver, and what has to be prescribed so that the hole is planned so.

    ``fixed`` has what is prescribed: drill, tap limit, build; ``drill`` is the name of the drill. ``far`` says how far
    it is from what the hole's shop would take: 0 for drills of the series of its thread, or of those that the request
    or the crib names; 1 for a drill of another series; 2 and 3 for those that leave more thread than shops cut in the
    material.
    """

    candidate: ToolSet
    fixed: tuple[str | None, str | None, TapBuild | None]
    drill: str
    far: int = 0

    @property
    def of_other_series(self) -> bool:
        """Whether the drill is of another series than those that the hole's shop would take."""
        return bool(self.far & OTHER_SERIES)

    @property
    def prescribed(self) -> Prescribed:
        """What has to be prescribed."""
        return Prescribed(*self.fixed)


class _Option(NamedTuple):
    """A drill or a tap that would do: its names on the list of tools and its chance; loss and time against the own."""

    names: frozenset[str]
    chance: float
    loss: float
    prescribed: Prescribed
    far: int = 0
    longer_s: float = 0.0


class _Case(NamedTuple):
    """A hole with the tools, the drill and the tap that it has by itself."""

    specification: Specification
    used: tuple[UsedTool, ...]
    drill: DrillChoice
    tap: TapChoice


def alternatives(
    specification: Specification, used: tuple[UsedTool, ...], least_chance: float
) -> tuple[Alternative, ...]:
    """The hole of ``specification`` as specified, then with each other drill and tap that hold its limits and reach a
    chance of acceptance of ``least_chance``, or the best one that is reached.

    A hole whose drill or tap has no known chance, or which is reamed, has the one way in which it is specified.

    Args: ``used`` are its tools, in order.
    Source: drills and taps as they were weighed for the hole.
    """
    names = frozenset(one.name for one in used)
    own_drill = next((one.name for one in used if one.line.operation == "drill"), "")
    own = Alternative(ToolSet(names, acceptance(specification), 0.0), (None, None, None), own_drill)
    drill, tap = specification.drill, specification.tap
    if drill is None or tap is None or drill.recommended.acceptance is None or tap.recommended.acceptance is None:
        return (own,)
    if drill.recommended.operation != "drill":
        return (own,)
    case = _Case(specification, used, drill, tap)
    drills, taps = tuple(_drills(case)), tuple(_taps(case))
    rest = names - drills[0].names - taps[0].names
    best = max(one.chance for one in drills) * max(one.chance for one in taps)
    pairs = [pair for one in drills for pair in _pairs(rest, one, taps, min(least_chance, best))]
    return (own, *(pair for pair in pairs if pair.fixed != own.fixed))


def _pairs(
    rest: frozenset[str], drill: _Option, taps: tuple[_Option, ...], least_chance: float
) -> Iterator[Alternative]:
    """A drill with each tap that reaches ``least_chance`` with it."""
    names, name, label = rest | drill.names, min(drill.names), drill.prescribed.drill
    for tap in taps:
        chance, given = drill.chance * tap.chance, tap.prescribed
        if chance >= least_chance:
            candidate = ToolSet(names | tap.names, chance, drill.loss + tap.loss, tap.longer_s)
            yield Alternative(candidate, (label, given.tap_limit, given.tap_build), name, drill.far)


def _drills(case: _Case) -> Iterator[_Option]:
    """The drill of the hole, then the others that are sold: of the crib, where it holds any that will do.

    A drill that the drawing fixes is the only one.
    """
    own = case.drill.recommended
    yield _Option(_renamed(case, "drill", {}), _chance(own), 0.0, Prescribed())
    if case.specification.request.hole.drill:
        return
    for one in _at_hand([one for one in case.drill.alternatives if _is_drilled(one)]):
        names = _renamed(case, "drill", {"label": one.drill.label})
        loss = _loss(_chance(own), _chance(one))
        yield _Option(names, _chance(one), loss, Prescribed(one.drill.label), _far(case, one))


def _far(case: _Case, one: DrillCandidate) -> int:
    specification, own = case.specification, case.drill.recommended
    request, thread, material = specification.request, specification.thread, specification.way.material
    depth = in_unit(request.length_of_engagement, thread) or specification.depths.full_thread_depth
    above, own_above = (drilling.above_practice(thread, each, material, depth) for each in (one, own))
    series = drilling.USUAL[thread.unit][0]
    is_own = own.drill.series not in series  # it takes no other by itself
    named = request.drill_series is not None or one.in_stock or is_own
    return MORE_THREAD * (above and not own_above) + OTHER_SERIES * (not named and one.drill.series not in series)


def _taps(case: _Case) -> Iterator[_Option]:
    """The tap of the hole, then the others that are sold: other limits, and each limit in the builds that serve too."""
    own = case.tap.recommended
    yield _Option(_renamed(case, "tap", {}), _chance(own), 0.0, Prescribed())
    others = _at_hand([one for one in case.tap.alternatives if _is_alike(own, one)])
    builds = _other_builds(case)
    for tap in (own, *others):
        limit = None if tap is own or tap.limit is None else tap.limit.label
        loss = _loss(_chance(own), _chance(tap))
        if tap is not own:
            yield _Option(_renamed(case, "tap", {"marking": tap.marking}), _chance(tap), loss, Prescribed(None, limit))
        for build in builds:
            shape = {"marking": tap.marking, "style": build.style, "chamfer": build.chamfer}
            given = Prescribed(None, limit, build)
            yield _Option(_renamed(case, "tap", shape), _chance(tap), loss, given, longer_s=_longer_s(case, build))


def _longer_s(case: _Case, build: TapBuild) -> float:
    """How much longer drilling and tapping take for the chamfer of a tap, which the hole has to make room for."""
    specification, depths = case.specification, case.specification.depths
    cutting = specification.process.cutting
    if cutting is None:
        return 0.0
    threads = tapping.chamfer(build.chamfer).chamfer.threads_max - case.tap.recommended.chamfer.threads_max
    deeper = float(threads * specification.thread.pitch)
    seconds = deeper * (cutting.tap_time_s or 0.0) / float(depths.tap_travel)
    if specification.request.hole.kind == "blind":
        seconds += deeper * (cutting.drill_time_s or 0.0) / float(depths.drill_tip_depth)
    return seconds


def _other_builds(case: _Case) -> tuple[TapBuild, ...]:
    """Builds that serve too, where the crib does not say what its taps are like."""
    specification = case.specification
    request, thread = specification.request, specification.thread
    if request.stock.taps is not None:
        return ()
    space = space_of(thread, request.hole, case.drill.recommended.diameter, request.machine.tapping)
    asked = tap_request(request, request.hole, space, thread, specification.allowance, specification.way.material)
    return tapping.other_builds(thread, asked)


def _loss(before: float, now: float) -> float:
    """What a tool costs whose chance is ``now``, where that of the hole's own was ``before``."""
    chance = log_chance(now)
    return max(0.0, log_chance(before) - chance) + _CHANGED_TOOL - _BETTER_CHANCE * chance


def _chance(one: DrillCandidate | Tap) -> float:
    assert one.acceptance is not None
    return one.acceptance


def _renamed(case: _Case, operation: str, changed: Mapping[str, object]) -> frozenset[str]:
    """What the tools of an operation are called with ``changed`` in their place."""
    unit = case.specification.thread.unit
    return frozenset(
        tool_name(operation, {**one.line.tool, **changed}, unit) for one in case.used if one.line.operation == operation
    )


def _is_drilled(one: DrillCandidate) -> bool:
    return one.operation == "drill" and one.acceptance is not None and not one.special


def _is_alike(first: Tap, one: Tap) -> bool:
    """Whether a tap differs by its limit only."""
    same = (one.style, one.chamfer, one.substrate, one.surface) == (
        first.style,
        first.chamfer,
        first.substrate,
        first.surface,
    )
    return same and one.acceptance is not None and one.availability == "standard" and one.limit is not None


def _at_hand(tools: list[_Tool]) -> list[_Tool]:
    """Those of the crib where the crib holds any that will do."""
    return [one for one in tools if one.in_stock] or tools


def acceptance(specification: Specification) -> float:
    """Chance from 0 to 1 that the hole of ``specification`` is accepted; 1 where it is not known, so that it stays.

    Source: that of the specification.
    """
    both = specification.process.acceptance.both
    return 1.0 if both is None else both


def timed(asked: HoleSpecRequest, ways: tuple[Alternative, ...]) -> tuple[Alternative, ...]:
    """The ``ways`` with the time by which their drills cut longer than the own one as well, in steps that are known; 0
    where none is held.

    Args: ``asked`` the hole, without its own name.
    Source: the operations of the specification.
    """
    drills = dict.fromkeys(way.fixed[0] for way in ways)
    times = {drill: _time_s(specify(replace(asked, prescribed=Prescribed(drill)))) for drill in drills}
    return tuple(way._replace(candidate=_later(way.candidate, times[way.fixed[0]] - times[None])) for way in ways)


def _later(one: ToolSet, seconds: float) -> ToolSet:
    return one._replace(time_s=_TIME_STEP * floor((one.time_s + seconds) / _TIME_STEP + 0.5))


def _time_s(specification: Specification) -> float:
    return sum(one.line.time_s for one in specification.operations if one.line.time_s is not None)
