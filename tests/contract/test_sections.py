"""The sections of replies: every number states what it measures."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

SCHEMAS = Path(__file__).parents[2] / "schemas"
#: Numbers that measure nothing: the status of an answer.
NAMES = {"status"}


def numbers(schema, name=""):
    """Name and schema of every number inside a published schema."""
    if isinstance(schema, dict):
        kinds = schema.get("type")
        if "number" in (kinds or ()) or "integer" in (kinds or ()) or kinds in ("number", "integer"):
            yield name, schema
        stated = {key: schema[key] for key in ("x-dimension",) if key in schema}
        for one in schema.get("anyOf", ()):
            yield from numbers(stated | one, name)
        for inner, value in schema.get("properties", {}).items():
            yield from numbers(value, inner)
        for inner, value in schema.get("$defs", {}).items():
            yield from numbers(value, inner)
        if "items" in schema:
            yield from numbers(schema["items"], name)


@pytest.mark.parametrize("file", sorted(SCHEMAS.glob("*-reply.schema.json")), ids=lambda file: file.name)
def test_every_number_states_its_dimension(file):
    found = [(name, "x-dimension" in schema) for name, schema in numbers(json.loads(file.read_text()))]
    assert {name for name, stated in found if not stated} <= NAMES


def test_dimensions_of_a_cut():
    schema = json.loads((SCHEMAS / "hole-spec-reply.schema.json").read_text())["$defs"]["DrillCutItem"]["properties"]
    stated = {name: field.get("x-dimension") for name, field in schema.items()}
    assert stated["feed"] == "feed"
    assert (stated["torque"], stated["thrust"], stated["time"]) == ("torque", "force", "time")
