"""A call of the service, declared once for the clients that wait and those that are awaited.

A method that is declared with :class:`Called`, :class:`Paged` or :class:`Streamed` makes what is asked; the client that
it is a method of sends it. The reply has the same type both ways, for one of them awaited.
"""

from __future__ import annotations

import json
from collections.abc import AsyncIterator, Awaitable, Callable, Generator, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import update_wrapper
from types import MethodType
from typing import Any, Concatenate, Generic, ParamSpec, Protocol, TypeVar, overload
from urllib.parse import urlencode

from .answers import json_object
from .batch import Lines
from .errors import ClientError

JSON, NDJSON = "application/json", "application/x-ndjson"

Body = Mapping[str, Any]
P = ParamSpec("P")
R = TypeVar("R")
R_co = TypeVar("R_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Call(Generic[R_co]):
    """One request: ``read`` makes the reply of the bytes of a good answer, ``instead`` one of an error.

    ``sent`` is the media type of the body, None = lines where lines are accepted, else JSON.
    """

    method: str
    path: str
    read: Callable[[bytes], R_co]
    body: bytes | None = None
    accept: str = JSON
    instead: Callable[[ClientError], R_co] | None = None
    sent: str | None = None


#: Calls one after the other, each made of the reply to the one before it.
Pages = Generator[Call[R], R, None]


def post(path: str, body: Body) -> Call[Any]:
    """A POST that is answered with JSON."""
    return Call("POST", path, json_object, written(body))


def post_for(path: str, body: Body, media_type: str) -> Call[bytes]:
    """A POST that is answered in another media type."""
    return Call("POST", path, bytes, written(body), accept=media_type)


def get(path: str, filters: Mapping[str, Any]) -> Call[Any]:
    """A GET that is answered with JSON."""
    return Call("GET", f"{path}?{urlencode(filters)}" if filters else path, json_object)


def written(body: Body) -> bytes:
    """A body as JSON; decimals are numbers. Raises ValueError for what is no JSON number."""
    return json.dumps(body, allow_nan=False, separators=(",", ":"), default=_number).encode()


def _number(value: object) -> float:
    if not isinstance(value, Decimal):
        raise TypeError(f"{type(value).__name__} is no JSON")
    number = float(value)
    if Decimal(repr(number)) != value:
        raise ValueError(f"{value} has more digits than a JSON number keeps")
    return number


class _Waiting(Protocol):
    """A client that waits for answers."""

    def run(self, call: Call[R], /) -> R: ...


class _Awaited(Protocol):
    """A client whose answers are awaited."""

    def run(self, call: Call[R], /) -> Awaitable[R]: ...


class _Method(Generic[P, R]):
    """A method of both kinds of client. ``sender`` is the one of the client that gets what it makes."""

    sender: str

    def __init__(self, made: Callable[Concatenate[Any, P], Any]) -> None:
        def method(client: Any, *given: P.args, **named: P.kwargs) -> Any:
            return getattr(client, self.sender)(made(client, *given, **named))

        self._method = update_wrapper(method, made)
        self.__doc__ = made.__doc__

    def _bound(self, client: object) -> Callable[P, Any]:
        return MethodType(self._method, client)


class Called(_Method[P, R]):
    """Makes a method of a function that makes a :class:`Call`."""

    sender = "run"

    def __init__(self, made: Callable[Concatenate[Any, P], Call[R]]) -> None:
        super().__init__(made)

    @overload
    def __get__(self, client: None, owner: object = None) -> Called[P, R]: ...

    @overload
    def __get__(self, client: _Waiting, owner: object = None) -> Callable[P, R]: ...

    @overload
    def __get__(self, client: _Awaited, owner: object = None) -> Callable[P, Awaitable[R]]: ...

    def __get__(self, client: object, owner: object = None) -> Any:
        """The method of a client."""
        return self if client is None else self._bound(client)


class _Several(_Method[P, R]):
    @overload
    def __get__(self, client: None, owner: object = None) -> _Several[P, R]: ...

    @overload
    def __get__(self, client: _Waiting, owner: object = None) -> Callable[P, Iterator[R]]: ...

    @overload
    def __get__(self, client: _Awaited, owner: object = None) -> Callable[P, AsyncIterator[R]]: ...

    def __get__(self, client: object, owner: object = None) -> Any:
        """The method of a client."""
        return self if client is None else self._bound(client)


class Paged(_Several[P, R]):
    """Makes a method that yields page after page, of a function that makes :data:`Pages`."""

    sender = "each_page"

    def __init__(self, made: Callable[Concatenate[Any, P], Pages[R]]) -> None:
        super().__init__(made)


class Streamed(_Several[P, R]):
    """Makes a method that yields answer after answer, of a function that makes :class:`~.batch.Lines`."""

    sender = "each_line"

    def __init__(self, made: Callable[Concatenate[Any, P], Lines[R]]) -> None:
        super().__init__(made)
