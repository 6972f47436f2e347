"""Every cache of the domain and of its edge is made here: each is bounded, and all can be listed, measured, emptied.

A cache is keyed by canonical values and changes nothing but speed. DEVELOPERS.md lists them with their keys and bounds.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from inspect import unwrap
from typing import Any, Generic, NamedTuple, ParamSpec, TypeVar, cast

Asked = ParamSpec("Asked")
Answer = TypeVar("Answer")
Kept = TypeVar("Kept")

#: Most entries of what is read from the tables: a unit, a system or the name of a table is its key, or nothing.
OF_TABLES = 64
#: Threads, and materials, that are held: what is kept by thread alone holds no other ones.
OF_THREADS = OF_MATERIALS = 128
#: Most entries whose keys are large.
LARGE_KEYS = 2


class Cache(NamedTuple):
    """A function whose answers are kept: its dotted ``name``, the names of what makes its ``key``, most ``entries``."""

    name: str
    key: tuple[str, ...]
    entries: int
    of_tables: bool
    function: Any

    @property
    def held(self) -> int:
        """Entries that are held now."""
        return cast("int", self.function.cache_info().currsize)

    def clear(self) -> None:
        """Forget every entry."""
        self.function.cache_clear()


_ALL: list[Cache] = []


def cached(entries: int) -> Callable[[Callable[Asked, Answer]], Callable[Asked, Answer]]:
    """What makes a function keep its last ``entries`` answers, where its arguments come from requests."""
    return lambda function: _kept(function, entries, of_tables=False)


def cached_apart(
    entries: int, is_large: Callable[..., bool]
) -> Callable[[Callable[Asked, Answer]], Callable[Asked, Answer]]:
    """As :func:`cached` of ``entries``; answers whose key ``is_large``, as a whole crib is, are kept apart, a few of
    them only. What is kept is found without asking whether it is large.
    """

    def keep(function: Callable[Asked, Answer]) -> Callable[Asked, Answer]:
        @wraps(function)
        def unless_large(*args: Asked.args, **named: Asked.kwargs) -> Answer:
            if is_large(*args, **named):
                raise _KeyIsLargeError
            return function(*args, **named)

        usual = _kept(unless_large, entries, of_tables=False)
        large = _kept(function, LARGE_KEYS, of_tables=False, suffix=" (large keys)")

        @wraps(function)
        def ask(*args: Asked.args, **named: Asked.kwargs) -> Answer:
            try:
                return usual(*args, **named)
            except _KeyIsLargeError:
                return large(*args, **named)

        return ask

    return keep


class Same(Generic[Kept]):
    """A key that is equal for one object only, whatever that holds: for what many answers share."""

    __slots__ = ("value",)

    def __init__(self, value: Kept) -> None:
        self.value = value

    def __hash__(self) -> int:
        """The place of the object."""
        return id(self.value)

    def __eq__(self, other: object) -> bool:
        """Whether it is the very object."""
        return isinstance(other, Same) and self.value is other.value


def read_once(function: Callable[Asked, Answer]) -> Callable[Asked, Answer]:
    """``function``, keeping what it reads from the tables or works out of nothing else."""
    return _kept(function, OF_TABLES, of_tables=True)


def caches() -> tuple[Cache, ...]:
    """All caches of the modules that are loaded, by name."""
    return tuple(sorted(_ALL, key=lambda one: one.name))


class _KeyIsLargeError(Exception):
    """An answer is kept apart."""


def _kept(
    function: Callable[Asked, Answer], entries: int, *, of_tables: bool, suffix: str = ""
) -> Callable[Asked, Answer]:
    kept = lru_cache(entries)(function)
    code = unwrap(function).__code__
    name = f"{function.__module__.removeprefix('borewright.')}.{function.__qualname__}{suffix}"
    key = code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]
    _ALL.append(Cache(name, key, entries, of_tables, kept))
    return cast("Callable[Asked, Answer]", kept)
