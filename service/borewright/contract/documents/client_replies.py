"""The replies as the client knows them: a TypedDict a schema, so that a type checker sees a misspelt field."""

from __future__ import annotations

import json
import keyword
from collections.abc import Iterator, Mapping
from typing import Any

from .openapi import exact_document
from .references import gather, referred

Json = Mapping[str, Any]

_SIMPLE = {"string": "str", "number": "float", "integer": "int", "boolean": "bool", "null": "None"}
_HEAD = '''"""Replies of the service, a TypedDict a schema. Generated: what is changed here is lost.

`python -m borewright.contract.documents.publish` writes it.
"""

from __future__ import annotations

from typing import Any, Literal, NotRequired, TypedDict
'''


def replies_module() -> str:
    """The source of the client's module of replies: every schema that an answer has, by name."""
    document = exact_document()
    found: dict[str, Any] = {}
    for answer in _answers(document):
        gather(answer, document["components"]["schemas"], found)
    return "\n\n".join((_HEAD, *(_declared(name, found[name]) for name in sorted(found))))


def _answers(document: Json) -> Iterator[object]:
    for methods in document["paths"].values():
        for operation in methods.values():
            for response in operation["responses"].values():
                yield response.get("content", {}).get("application/json", {}).get("schema")
    for response in document["components"]["responses"].values():
        yield response.get("content", {})


def _declared(name: str, schema: Json) -> str:
    return f"{name} = {_type(schema)}\n" if "enum" in schema else _typed_dict(name, schema)


def _typed_dict(name: str, schema: Json) -> str:
    needed = set(schema.get("required", ()))
    fields = {
        field: _type(inner) if field in needed else f"NotRequired[{_type(inner)}]"
        for field, inner in schema.get("properties", {}).items()
    }
    about = str(schema.get("description", name)).replace("\\", r"\\")
    if all(field.isidentifier() and not keyword.iskeyword(field) for field in fields):
        rows = [f"    {field}: {kind}" for field, kind in fields.items()]
        return "\n".join((f"class {name}(TypedDict):", f'    """{about}"""', *([""] if rows else ()), *rows, ""))
    rows = [f"        {json.dumps(field)}: {json.dumps(kind)}," for field, kind in fields.items()]
    head = (f"{name} = TypedDict(", f"    {json.dumps(name)},", "    {")
    return "\n".join((*head, *rows, "    },", ")", f'"""{about}"""', ""))


def _type(schema: Json) -> str:
    """The type of the values of a schema."""
    name = referred(schema)
    if name is not None:
        return name
    if "anyOf" in schema:
        return " | ".join(dict.fromkeys(_type(option) for option in schema["anyOf"]))
    if "enum" in schema:
        return "Literal[" + ", ".join("None" if word is None else json.dumps(word) for word in schema["enum"]) + "]"
    kinds = schema.get("type", ())
    return " | ".join(_of_kind(kind, schema) for kind in ([kinds] if isinstance(kinds, str) else kinds)) or "Any"


def _of_kind(kind: str, schema: Json) -> str:
    if kind == "array":
        return f"list[{_type(schema.get('items', {}))}]"
    return _SIMPLE.get(kind, "dict[str, Any]")
