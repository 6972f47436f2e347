"""The API reference: what the OpenAPI document says of an operation, as the pages at /docs show it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import orjson

from . import served

Json = Mapping[str, Any]

_JSON = "application/json"
#: What the kinds of JSON Schema are called here.
_KINDS = {
    "string": "text",
    "number": "number",
    "integer": "whole number",
    "boolean": "true or false",
    "object": "object",
}


@dataclass(frozen=True, slots=True)
class Field:
    """A field of a request or reply; ``inner`` are those of its object, or of each object of its list."""

    name: str
    kind: str
    needed: bool
    words: str
    allowed: tuple[str, ...]
    range: str
    inner: tuple[Field, ...] = ()

    def all_inner(self) -> Iterator[tuple[str, Field]]:
        """Every field inside, each after the one that it stands in, with its dotted name."""
        for one in self.inner:
            path = f"{self.name}.{one.name}"
            yield path, one
            yield from ((f"{self.name}.{deeper}", inner) for deeper, inner in one.all_inner())


@dataclass(frozen=True, slots=True)
class Parameter:
    """A parameter of the address; ``place`` is path or query."""

    field: Field
    place: str


@dataclass(frozen=True, slots=True)
class Example:
    """A request that can be sent as it stands."""

    name: str
    media_type: str
    text: str


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation with all that its page says."""

    name: str
    method: str
    path: str
    tag: str
    summary: str
    text: str
    parameters: tuple[Parameter, ...]
    request_types: tuple[str, ...]
    request: tuple[Field, ...]
    examples: tuple[Example, ...]
    reply_types: tuple[str, ...]
    reply: tuple[Field, ...]
    reply_example: str
    refusals: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Listed:
    """An operation as the list of all has it."""

    name: str
    method: str
    path: str
    summary: str


@dataclass(frozen=True, slots=True)
class Overview:
    """What is said of the whole service, and its operations by subject."""

    text: str
    groups: tuple[tuple[str, str, tuple[Listed, ...]], ...]


def overview() -> Overview:
    """The service, and its operations by subject in the order of the document."""
    document = _document()
    groups = tuple((tag["name"], tag["description"], tuple(_listed(document, tag["name"]))) for tag in document["tags"])
    return Overview(document["info"]["description"], groups)


def operation(name: str) -> Operation | None:
    """The operation of this name; None where there is none."""
    document = _document()
    for path, method, found in _every(document):
        if found["operationId"] == name:
            return _Reader(document).operation(path, method, found)
    return None


def _document() -> Json:
    made: Json = orjson.loads(served.openapi_json())
    return made


def _every(document: Json) -> Iterator[tuple[str, str, Json]]:
    for path, methods in document["paths"].items():
        for method, found in methods.items():
            yield path, method, found


def _listed(document: Json, tag: str) -> Iterator[Listed]:
    for path, method, found in _every(document):
        if tag in found["tags"]:
            yield Listed(found["operationId"], method.upper(), path, found["summary"])


class _Reader:
    """Reads the parts of a document, with what they point to."""

    def __init__(self, document: Json) -> None:
        self._components = document["components"]

    def operation(self, path: str, method: str, found: Json) -> Operation:
        sent = found.get("requestBody", {}).get("content", {})
        answered = found["responses"]["200"].get("content", {})
        whole = answered.get(_JSON, {})
        return Operation(
            name=found["operationId"],
            method=method.upper(),
            path=path,
            tag=found["tags"][0],
            summary=found["summary"],
            text=found["description"],
            parameters=tuple(self._parameters(found["parameters"])),
            request_types=tuple(sent),
            request=self._inside(sent.get(_JSON, {}).get("schema", {})),
            examples=tuple(_examples(sent)),
            reply_types=tuple(answered),
            reply=self._inside(whole.get("schema", {})),
            reply_example=_pretty(whole["example"]) if "example" in whole else "",
            refusals=tuple(self._refusals(found["responses"])),
        )

    def _parameters(self, given: Sequence[Json]) -> Iterator[Parameter]:
        for one in given:
            if "$ref" not in one:  # the header that all have is told of once
                yield Parameter(self._field(one["name"], one, one["schema"], needed=one["required"]), one["in"])

    def _refusals(self, responses: Json) -> Iterator[tuple[str, str]]:
        for status, found in responses.items():
            if status.isdigit() and int(status) >= 400:
                yield status, self._target("responses", found)["description"]

    def _target(self, kind: str, found: Json) -> Json:
        target: Json = self._components[kind][found["$ref"].rpartition("/")[2]] if "$ref" in found else found
        return target

    def _inside(self, schema: Json, seen: tuple[str, ...] = ()) -> tuple[Field, ...]:
        """The fields of an object, of the first object among several kinds, or of what a list holds of them."""
        reference = schema.get("$ref", "")
        if reference in seen:
            return ()
        if reference:
            return self._inside(self._target("schemas", schema), (*seen, reference))
        if "properties" in schema:
            needed = schema.get("required", ())
            return tuple(
                self._field(name, one, one, needed=name in needed, seen=seen)
                for name, one in schema["properties"].items()
            )
        within = [*schema.get("anyOf", ()), *([schema["items"]] if "items" in schema else ())]
        return next((fields for one in within if (fields := self._inside(one, seen))), ())

    def _field(self, name: str, said: Json, schema: Json, *, needed: bool, seen: tuple[str, ...] = ()) -> Field:
        kinds = tuple(self._kinds(schema))
        inner = self._inside(schema, seen)
        listed = any(kind.startswith("list") for kind in kinds)
        return Field(
            name=f"{name}[]" if listed and inner else name,
            kind=" or ".join(dict.fromkeys(kinds)) or "any value",
            needed=needed,
            words=said.get("description", ""),
            allowed=tuple(dict.fromkeys(self._allowed(schema))),
            range=", ".join(dict.fromkeys(_ranges(schema))),
            inner=inner,
        )

    def _kinds(self, schema: Json) -> Iterator[str]:
        if "$ref" in schema:
            schema = self._target("schemas", schema)
        for one in schema.get("anyOf", ()):
            yield from self._kinds(one)
        given = schema.get("type", ())
        for kind in (given,) if isinstance(given, str) else given:
            if kind == "array":
                yield f"list of {' or '.join(dict.fromkeys(self._kinds(schema.get('items', {})))) or 'any values'}"
            elif kind != "null":
                yield _KINDS[kind]

    def _allowed(self, schema: Json) -> Iterator[str]:
        schema = self._target("schemas", schema)
        yield from map(str, schema.get("enum", ()))
        for one in (*schema.get("anyOf", ()), *([schema["items"]] if "items" in schema else ())):
            yield from self._allowed(one)


def _ranges(schema: Json) -> Iterator[str]:
    low, high = schema.get("minimum"), schema.get("maximum")
    if low is not None or high is not None:
        ends = (("from", low), ("to", high))
        yield " ".join(f"{word} {Decimal(str(end)):f}" for word, end in ends if end is not None)
    for one in schema.get("anyOf", ()):
        yield from _ranges(one)


def _examples(sent: Json) -> Iterator[Example]:
    for media_type, content in sent.items():
        for name, example in content.get("examples", {}).items():
            yield Example(name, media_type, _pretty(example["value"]))
        if "example" in content:
            yield Example(media_type, media_type, content["example"].replace("\r\n", "\n"))


def _pretty(value: object) -> str:
    return orjson.dumps(value, option=orjson.OPT_INDENT_2).decode()
