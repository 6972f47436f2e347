"""A hole specification as clients made from the document know it: one schema, whatever detail is asked for.

The published schemas say exactly what each detail has. Side by side as alternatives they would make a client ask first
which of them an answer is, before it reads any field; the document therefore has one schema that all of them keep.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from marshmallow import Schema

from borewright.contract.sections.schema import SectionSchema

from .references import COMPONENT, gather, objects, referred, renamed

Json = dict[str, Any]
#: The names of the lesser schemas by that of the full one.
Details = Mapping[str, list[str]]


def join(document: Json, known: Mapping[str, type[Schema]]) -> None:
    """Put one schema in the place of alternatives in several details, those inside it too; drop what nothing needs.

    Args: ``known`` are the classes of the schemas of the document, by name.
    """
    schemas: Json = document["components"]["schemas"]
    details = _details(schemas, known)
    schemas |= {_joined(full): _joined_schema(full, schemas, details) for full in details}
    _refer(document, details)
    found: Json = {}
    for part in (document["paths"], document["components"]["responses"]):
        gather(part, schemas, found)
    document["components"]["schemas"] = found


def _details(schemas: Json, known: Mapping[str, type[Schema]]) -> Details:
    found = defaultdict(list)
    for name, schema in known.items():
        if name in schemas and issubclass(schema, SectionSchema) and schema.in_full is not None:
            found[schema.in_full.__name__].append(name)
    return found


def _joined(full: str) -> str:
    return full.removesuffix("Reply") if full.endswith("Reply") else f"{full}InDetail"


def _joined_schema(full: str, schemas: Json, details: Details) -> Json:
    """The fields of the full schema, of which those are needed that every detail has."""
    always = set.intersection(*(set(schemas[name].get("required", ())) for name in (full, *details[full])))
    made: Json = renamed(schemas[full], lambda name: COMPONENT + (_joined(name) if name in details else name))
    about = f"{made['description']} Where less `detail` is asked for, some of its fields are left out."
    return made | {"description": about, "required": sorted(always)}


def _refer(document: Json, details: Details) -> None:
    """Replace, in place, alternatives in several details by a reference to the joined schema."""
    for one in objects(document):
        full, *lesser = [referred(option) or "" for option in one.get("anyOf", ())] or [""]
        if full in details and set(lesser) == set(details[full]):
            del one["anyOf"]
            one["$ref"] = COMPONENT + _joined(full)
