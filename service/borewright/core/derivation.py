"""Steps of a derivation that are worked out when someone asks for them.

Few do, and the steps take more room than the figures they lead to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import wraps
from itertools import chain
from typing import Any, ParamSpec, Protocol, TypeVar, cast

from .model import Notes, Step

Asked = ParamSpec("Asked")


class _Noted(Protocol):
    @property
    def notes(self) -> Notes: ...


Answer = TypeVar("Answer", bound=_Noted | None)


class WhenAsked:
    """What ``make`` yields for what is ``given``, made anew each time that someone goes through it."""

    __slots__ = ("_given", "_make")

    def __init__(self, make: Callable[..., Iterable[Step]], *given: object) -> None:
        self._make, self._given = make, given

    def __iter__(self) -> Iterator[Step]:
        """The steps, in their order."""
        return iter(self._make(*self._given))


def one_after_the_other(*several: Iterable[Step]) -> Iterable[Step]:
    """The steps of ``several`` parts; those of a single one as they are."""
    some = [steps for steps in several if steps != ()]
    return some[0] if len(some) == 1 else WhenAsked(chain, *some) if some else ()


def steps_made_again(function: Callable[Asked, Answer]) -> Callable[Asked, Answer]:
    """``function``, whose answer does not hold the steps to its figures: who asks for them has it worked out again."""

    @wraps(function)
    def answer(*args: Asked.args, **named: Asked.kwargs) -> Answer:
        found = function(*args, **named)
        if found is None or found.notes.steps == ():
            return found
        steps = WhenAsked(_steps_of, function, args, named)
        return cast("Answer", replace(cast("Any", found), notes=found.notes._replace(steps=steps)))

    return answer


def _steps_of(function: Callable[..., _Noted], args: tuple[object, ...], named: dict[str, object]) -> Iterable[Step]:
    return function(*args, **named).notes.steps
