"""References between the schemas of the OpenAPI document."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

Json = dict[str, Any]

#: Where the schemas are.
COMPONENT = "#/components/schemas/"


def referred(value: object) -> str | None:
    """The name of the schema that an object refers to."""
    place = value.get("$ref") if isinstance(value, dict) else None
    return place.removeprefix(COMPONENT) if isinstance(place, str) and place.startswith(COMPONENT) else None


def objects(value: object) -> Iterator[Json]:
    """Every JSON object in a value, the outer ones first; each may be changed while they are listed."""
    if isinstance(value, dict):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from objects(inner)


def gather(value: object, schemas: Json, found: Json) -> None:
    """Add to ``found`` the schemas that a value refers to, and those that they refer to, by name."""
    for one in objects(value):
        name = referred(one)
        if name is not None and name not in found:
            found[name] = schemas[name]
            gather(schemas[name], schemas, found)


def renamed(value: Any, name: Callable[[str], str]) -> Any:
    """A copy of a value with other references: ``name`` gives the whole new reference for the name of a schema."""
    if isinstance(value, list):
        return [renamed(inner, name) for inner in value]
    if not isinstance(value, dict):
        return value
    to = referred(value)
    copied = {key: renamed(inner, name) for key, inner in value.items()}
    return copied if to is None else copied | {"$ref": name(to)}
