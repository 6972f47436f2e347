"""Which of the ways of the holes of a part the choice may take."""

from __future__ import annotations

from collections.abc import Mapping

from .alternatives import OTHER_SERIES, Alternative

_Ways = dict[str, tuple[Alternative, ...]]


def within_reach(ways: Mapping[str, tuple[Alternative, ...]], least_chance: float) -> _Ways:
    """The ways of each hole with a chance of acceptance of at least ``least_chance``, no farther than need be.

    A drill that leaves more thread than shops cut in the material is taken only where no other one reaches the least
    acceptance. A drill of another series than the thread's is bought for no hole: one that another hole of the part has
    in its own series may serve it. A hole that reaches the least acceptance in no such way may keep its own.

    Args: ``ways`` of each hole, its own first.
    Source: our own; a toolroom buys no metric drill for an inch thread that its drawing does not call for.
    """
    near = {name: _nearest(every, least_chance) for name, every in ways.items()}
    there = {way.drill for some in near.values() for way in some}
    return {name: _with_shared(every, near[name], there, least_chance) for name, every in ways.items()}


def _nearest(every: tuple[Alternative, ...], least_chance: float) -> tuple[Alternative, ...]:
    reach = [way for way in every if way.candidate.acceptance >= least_chance and not way.of_other_series]
    if not reach:
        return every[:1]
    nearest = min(way.far for way in reach)
    return tuple(way for way in reach if way.far == nearest)


def _with_shared(
    every: tuple[Alternative, ...], near: tuple[Alternative, ...], there: set[str], least_chance: float
) -> tuple[Alternative, ...]:
    taken = set(map(id, near))
    return tuple(
        way
        for way in every
        if id(way) in taken
        or (way.far == OTHER_SERIES and way.drill in there and way.candidate.acceptance >= least_chance)
    )
