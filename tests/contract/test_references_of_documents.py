"""How the published document is put together: references between its schemas, and the types of replies for clients."""

from __future__ import annotations

from borewright.contract.documents import client_replies
from borewright.contract.documents.references import COMPONENT, gather, objects, referred, renamed
from every import every


def to(name):
    return {"$ref": COMPONENT + name}


@every(
    ("value", "name"),
    [
        (to("Hole"), "Hole"), ({"$ref": "#/components/responses/Hole"}, None), ({"$ref": 5}, None), ({}, None),
        ("#/components/schemas/Hole", None), (None, None), ([to("Hole")], None),
    ],
)  # fmt: skip
def test_what_an_object_refers_to(value, name):
    assert referred(value) == name


def test_objects_are_listed_the_outer_ones_first():
    inner, last = {"c": 1}, {"d": []}
    value = {"a": [inner, "x", [last]], "b": 2}
    assert list(objects(value)) == [value, inner, last]
    assert list(objects([inner, last])) == [inner, last]
    assert list(objects("x")) == list(objects(None)) == []


def test_schemas_are_gathered_with_those_that_they_refer_to():
    """Also where two refer to each other; what nothing refers to is left."""
    schemas = {
        "Hole": {"properties": {"thread": to("Thread"), "depth": {"type": "number"}}},
        "Thread": {"properties": {"holes": {"items": to("Hole")}}},
        "Crib": {"type": "object"},
    }
    found = {}
    gather({"anyOf": [to("Hole"), {"type": "null"}]}, schemas, found)
    assert found == {name: schemas[name] for name in ("Hole", "Thread")}


def test_references_are_renamed_in_a_copy():
    value = {"properties": {"a": to("Hole") | {"description": "A hole."}, "b": [to("Thread"), 5]}, "c": {"$ref": "#/x"}}
    found = renamed(value, lambda name: f"#/$defs/{name.lower()}")
    assert found == {
        "properties": {"a": {"$ref": "#/$defs/hole", "description": "A hole."}, "b": [{"$ref": "#/$defs/thread"}, 5]},
        "c": {"$ref": "#/x"},
    }
    assert value["properties"]["a"]["$ref"] == COMPONENT + "Hole"


@every(
    ("schema", "kind"),
    [
        ({"type": "string"}, "str"), ({"type": "number"}, "float"), ({"type": "integer"}, "int"),
        ({"type": "boolean"}, "bool"), ({"type": "null"}, "None"), ({"type": "object"}, "dict[str, Any]"), ({}, "Any"),
        ({"type": ["number", "null"]}, "float | None"), (to("Hole"), "Hole"),
        ({"type": "array", "items": {"type": "string"}}, "list[str]"), ({"type": "array"}, "list[Any]"),
        ({"type": "array", "items": to("Hole")}, "list[Hole]"),
        ({"anyOf": [to("Hole"), {"type": "null"}]}, "Hole | None"),
        ({"anyOf": [{"type": "number"}, {"type": "number"}]}, "float"),
        ({"type": "string", "enum": ["cut", "form"]}, 'Literal["cut", "form"]'),
        ({"enum": ["cut", None]}, 'Literal["cut", None]'),
    ],
)  # fmt: skip
def test_the_type_of_a_field_of_a_reply(monkeypatch, schema, kind):
    """A field that is needed has its type, another one may be missing; names that Python has taken stand in quotes."""
    get = {"responses": {"200": {"content": {"application/json": {"schema": to("Reply")}}}}}
    fields = {"needed": schema, "other": schema}
    reply = {"description": "What is said.", "properties": fields, "required": ["needed"]}
    schemas = {"Reply": reply, "Hole": {"properties": {"from": {"type": "string"}}}, "Crib": {}}
    document = {"paths": {"/x": {"get": get}}, "components": {"schemas": schemas, "responses": {}}}
    monkeypatch.setattr(client_replies, "exact_document", lambda: document)
    written = client_replies.replies_module()
    assert (
        f'''class Reply(TypedDict):
    """What is said."""

    needed: {kind}
    other: NotRequired[{kind}]
'''
        in written
    )
    assert "Crib" not in written
    assert ('Hole = TypedDict(\n    "Hole",\n    {\n        "from": "NotRequired[str]",\n    },\n)' in written) is (
        "Hole" in kind
    )
