"""Which of the ways of the holes of a part the choice may take."""

from __future__ import annotations

from collections.abc import Mapping

from .alternatives import Alternative

_Ways = dict[str, tuple[Alternative, ...]]


def within_reach(ways: Mapping[str, tuple[Alternative, ...]], least_chance: float) -> _Ways:
    """The ways of each hole with a chance of acceptance of at least ``least_chance``, no farther than need be.

    A drill of another series than the thread's, or one that leaves more thread than shops cut in the material, is taken
    only where no nearer one reaches the least acceptance. A drill which one hole needs for that may serve the others,
    as far as it leaves no more thread than usual. A hole that reaches it in no way keeps its own.

    Args: ``ways`` of each hole, its own first.
    Source: our own; a toolroom buys no metric drill to save an inch one.
    """
    near = {name: _nearest(every, least_chance) for name, every in ways.items()}
    needed = {way.drill for some in near.values() for way in some}
    return {name: _with_needed(every, near[name], needed, least_chance) for name, every in ways.items()}


def _nearest(every: tuple[Alternative, ...], least_chance: float) -> tuple[Alternative, ...]:
    reach = [way for way in every if way.candidate.acceptance >= least_chance]
    nearest = min((way.far for way in reach), default=0)
    return tuple(way for way in reach if way.far <= nearest) or every[:1]


def _with_needed(
    every: tuple[Alternative, ...], near: tuple[Alternative, ...], needed: set[str], least_chance: float
) -> tuple[Alternative, ...]:
    if near == every[:1] and every[0].candidate.acceptance < least_chance:
        return near
    taken = set(map(id, near))
    return tuple(
        way
        for way in every
        if id(way) in taken or (way.far == 1 and way.drill in needed and way.candidate.acceptance >= least_chance)
    )
