"""Strict JSON: what two readers could read differently is refused.

One pass reads and notices duplicate keys, numbers that are no JSON, and lone surrogates; the place of a fault is
looked for only when there is one.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import orjson

from borewright.contract.faults import invalid, step

from .problems import Refusal


class _Repeated(dict[str, Any]):
    """An object in which ``key`` stands twice."""

    key: str


class _NotFinite:
    """NaN or an infinity, which JSON does not have."""


def parse_object(body: bytes, *, max_depth: int) -> dict[str, Any]:
    """The object in ``body``.

    Raises: Refusal (400), RequestInvalid where it is JSON but no object.
    """
    value, faulty = parse_marked(body, max_depth=max_depth)
    if faulty:
        refuse_marked(value)
    return value


def parse_marked(body: bytes, *, max_depth: int) -> tuple[dict[str, Any], bool]:
    """The object in ``body`` and whether it holds marks: of a key that stands twice, of a number that is not finite.

    Raises: as :func:`parse_object`, but leaves it to the caller to :func:`refuse_marked` the whole or its parts.
    """
    try:
        text = body.decode()
    except UnicodeDecodeError as error:
        raise Refusal("json_not_utf8", f"Byte {error.start} of the body is not UTF-8.") from None
    try:
        value, faulty = _parse(text)
    except RecursionError:
        raise _too_deep(max_depth) from None
    if body.count(b"{") + body.count(b"[") > max_depth and _deeper_than(max_depth, value):
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
            names = [name for name, _ in found]
            result.key = next(name for name in names if names.count(name) > 1)
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


def _why(error: Exception) -> str:
    if isinstance(error, json.JSONDecodeError):
        return f"{error.msg} at line {error.lineno}, column {error.colno}"
    return "a number has too many digits"


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
