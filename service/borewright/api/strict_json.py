"""Strict JSON: what two readers could read differently is refused, and what would take too long to read.

The bytes that begin values are counted before any is made: ten thousand objects or a hundred thousand fields are no
request. One pass reads and notices duplicate keys, numbers that are no JSON, and lone surrogates; the place of a fault
is looked for only when there is one.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from typing import Any, NamedTuple

import orjson

from borewright.contract.faults import invalid, step

from .problems import Refusal


class _Repeated(dict[str, Any]):
    """An object in which ``key`` stands twice."""

    key: str


class _NotFinite:
    """NaN or an infinity, which JSON does not have."""


class MostValues(NamedTuple):
    """How much a body may hold: ``containers`` objects and lists, ``values`` fields and items of lists.

    Told by the brackets and commas of the body, of which the few inside texts count too.
    """

    containers: int
    values: int


#: Of one request: a dozen objects and two long lists.
OF_REQUEST = MostValues(256, 20_000)
#: Of a body that holds too much the beginning tells whether it is nested too deep as well.
_BEGINNING = 16_384


def parse_object(body: bytes, *, max_depth: int, most: MostValues = OF_REQUEST) -> dict[str, Any]:
    """The object in ``body``, which may hold ``most`` values.

    Raises: Refusal (400, 413), RequestInvalid where it is JSON but no object.
    """
    value, faulty = parse_marked(body, max_depth=max_depth, most=most)
    if faulty:
        refuse_marked(value)
    return value


def parse_marked(body: bytes, *, max_depth: int, most: MostValues = OF_REQUEST) -> tuple[dict[str, Any], bool]:
    """The object in ``body`` and whether it holds marks: of a key that stands twice, of a number that is not finite.

    Raises: as :func:`parse_object`, but leaves it to the caller to :func:`refuse_marked` the whole or its parts.
    """
    containers = body.count(b"{") + body.count(b"[")
    if containers > most.containers or body.count(b",") > most.values:
        raise _too_deep(max_depth) if _begins_deep(body) else _too_much(most)
    try:
        text = body.decode()
    except UnicodeDecodeError as error:
        raise Refusal("json_not_utf8", f"Byte {error.start} of the body is not UTF-8.") from None
    if text.startswith("\ufeff"):
        raise Refusal("json_unreadable", "The body begins with a byte order mark: save it as UTF-8 without BOM.")
    try:
        value, faulty = _parse(text)
    except RecursionError:
        raise _too_deep(max_depth) from None
    if containers > max_depth and _deeper_than(max_depth, value):
        raise _too_deep(max_depth)
    if not isinstance(value, dict):
        raise invalid("body_not_object", "Expected a JSON object at the top level of the body.")
    return value, faulty


def _parse(text: str) -> tuple[object, bool]:
    faulty = False

    def pairs(found: list[tuple[str, Any]]) -> dict[str, Any]:
        nonlocal faulty
        result = dict(found)
        if len(result) != len(found):
            faulty = True
            result = _Repeated(result)
            result.key = _first_repeated(found)
        return result

    def constant(_: str) -> object:
        nonlocal faulty
        faulty = True
        return _NotFinite()

    try:
        value = json.loads(text, object_pairs_hook=pairs, parse_constant=constant)
        if "\\u" in text and not faulty:
            orjson.loads(text)  # it refuses lone surrogates, which json lets pass and no reply could carry
    except ValueError as error:
        raise Refusal("json_unreadable", f"The body is not JSON: {_why(error)}.") from None
    return value, faulty


def _first_repeated(found: list[tuple[str, Any]]) -> str:
    """The first key that comes again, in one pass."""
    times = Counter(name for name, _ in found)
    return next(name for name, _ in found if times[name] > 1)


def _why(error: Exception) -> str:
    if isinstance(error, json.JSONDecodeError):
        return f"{error.msg} at line {error.lineno}, column {error.colno}"
    return "a number has too many digits"


def _begins_deep(body: bytes) -> bool:
    try:
        json.loads(body[:_BEGINNING].decode(errors="replace"))
    except RecursionError:
        return True
    except ValueError:
        return False
    return False


def _too_much(most: MostValues) -> Refusal:
    return Refusal(
        "too_much_work",
        f"The body holds more than {most.containers} objects and lists, or more than {most.values} fields and items of"
        " lists: send shorter lists, or fewer items at once.",
    )


def _too_deep(limit: int) -> Refusal:
    return Refusal("json_too_deep", f"The body is nested deeper than {limit} levels.")


def _deeper_than(limit: int, value: object) -> bool:
    if not isinstance(value, (dict, list)):
        return False
    inner = value.values() if isinstance(value, dict) else value
    return limit == 0 or any(_deeper_than(limit - 1, part) for part in inner)


def refuse_marked(value: object) -> None:
    """Refuse the first mark in ``value``, with its place. Raises Refusal; nothing where there is no mark."""
    pointer, fault = next(_faulty(value, ""), ("", None))
    if fault is None:
        return
    if isinstance(fault, _Repeated):
        raise Refusal("json_duplicate_key", "A key stands twice in an object.", pointer=pointer)
    raise Refusal("json_number_not_finite", "NaN and Infinity are not JSON numbers.", pointer=pointer)


def _faulty(value: object, pointer: str) -> Iterator[tuple[str, object]]:
    if isinstance(value, _NotFinite):
        yield pointer, value
    if isinstance(value, _Repeated):
        yield pointer + step(value.key[:80]), value
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _faulty(inner, pointer + step(name[:80]))
    if isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _faulty(inner, pointer + step(index))
