"""The published documents: made from the code, valid, complete, with examples that hold."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from borewright import __version__
from borewright.api import create_app
from borewright.contract.documents import openapi, publish, published
from borewright.contract.documents.endpoints import ENDPOINTS
from every import every
from openapi_spec_validator import validate

ROOT = Path(__file__).parent.parent.parent
DOCUMENT: dict[str, Any] = json.loads(published.openapi_json())
SCHEMAS: dict[str, dict[str, Any]] = {name: json.loads(text) for name, text in published.schemas_json().items()}

UNIT_WORDS = (
    "`units.", "in `unit", "`unit_system`", "percent", "degrees", "fraction", "ratio", "count", "hb", "hrc", "seconds",
    "code", "by tens", "system's own unit", "psi", "rev/min", "from 0 to 1", "share", "lbf*in", "hp ",
)  # fmt: skip


def walk(schema: Any, place: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every property of a schema with its dotted place."""
    if isinstance(schema, dict):
        for name, inner in (schema.get("properties") or {}).items():
            if isinstance(inner, dict):
                yield f"{place}.{name}", inner
        for name, inner in schema.items():
            yield from walk(inner, f"{place}.{name}" if name not in ("properties", "$defs") else place)
    elif isinstance(schema, list):
        for inner in schema:
            yield from walk(inner, place)


PROPERTIES = [found for name, schema in SCHEMAS.items() for found in walk(schema, name)]


def operations() -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in DOCUMENT["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def test_committed_documents_are_as_the_code_makes_them():
    assert publish.stale(ROOT, publish.documents(ROOT)) == []


def test_publishing_writes_checks_and_removes(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(publish, "documents", cache(publish.documents))  # as often as they are asked for, once made
    assert publish.main(["--check", str(tmp_path)]) == 1
    assert publish.main([str(tmp_path)]) == 0
    assert publish.main(["--check", str(tmp_path)]) == 0
    old = tmp_path / "schemas" / "old.schema.json"
    old.write_text("{}")
    assert publish.main(["--check", str(tmp_path)]) == 1
    assert "old.schema.json" in capsys.readouterr().err
    assert publish.main([str(tmp_path)]) == 0
    assert not old.exists()


def test_openapi_document_is_valid():
    validate(DOCUMENT)
    assert DOCUMENT["openapi"].startswith("3.1")
    assert DOCUMENT["info"]["version"] == __version__


@cache
def check_definition(text: str) -> None:
    """Many schemas have the same definition."""
    jsonschema.Draft202012Validator.check_schema(json.loads(text))


@pytest.mark.parametrize("name", sorted(SCHEMAS))
def test_schema_is_valid(name):
    jsonschema.Draft202012Validator.check_schema({**SCHEMAS[name], "$defs": {}})
    for definition in SCHEMAS[name].get("$defs", {}).values():
        check_definition(json.dumps(definition))
    assert SCHEMAS[name]["$schema"] == openapi.DIALECT
    assert SCHEMAS[name]["$id"].endswith(f"/{name}.schema.json")


def test_every_property_is_described():
    assert [place for place, schema in PROPERTIES if not schema.get("description", "").endswith(".")] == []


def test_every_number_names_its_unit():
    numbers = [(place, schema) for place, schema in PROPERTIES if is_number(schema)]
    assert len(numbers) > 60
    assert [
        place for place, schema in numbers if not any(word in schema["description"].casefold() for word in UNIT_WORDS)
    ] == []


def is_number(schema: dict[str, Any]) -> bool:
    kinds = [schema.get("type"), *(option.get("type") for option in schema.get("anyOf", ()))]
    flat = [kind for entry in kinds for kind in (entry if isinstance(entry, list) else [entry])]
    return "number" in flat or "integer" in flat


def test_property_examples_hold():
    checked = 0
    for name, schema in SCHEMAS.items():
        for place, found in walk(schema, name):
            for example in found.get("examples", ()):
                whole = {**found, "$defs": schema.get("$defs", {})}
                jsonschema.Draft202012Validator(whole).validate(example)
                checked += 1
            assert "example" not in found, place
    assert checked > 30


def bundled(schema: dict[str, Any]) -> dict[str, Any]:
    """A schema of the document that can be used alone."""
    return {**schema, "components": DOCUMENT["components"]}


def media_types() -> Iterator[tuple[str, dict[str, Any]]]:
    for path, method, operation in operations():
        for media in operation.get("requestBody", {}).get("content", {}).values():
            yield f"{method} {path} request", media
        for status, response in operation["responses"].items():
            for media in response.get("content", {}).values():
                yield f"{method} {path} {status}", media
    for name, response in DOCUMENT["components"]["responses"].items():
        for media in response["content"].values():
            yield name, media


MEDIA = list(media_types())


@every(("place", "media"), MEDIA)
def test_examples_of_the_document_hold(place, media):
    examples = [entry["value"] for entry in media.get("examples", {}).values()]
    examples += [media["example"]] if "example" in media else []
    for example in examples:
        jsonschema.validate(example, bundled(media["schema"]), cls=jsonschema.Draft202012Validator)
    binary = media["schema"].get("format") == "binary" and place.endswith(
        (" 200", " request")
    )  # no text can hold such an example
    assert examples or binary or place.startswith("get ")


@pytest.fixture(scope="module")
def service():
    return create_app().test_client()


REQUEST_EXAMPLES = [
    (endpoint.path, name, body) for endpoint in ENDPOINTS for name, body in (endpoint.request_examples or {}).items()
]


@pytest.mark.parametrize(("path", "name", "body"), REQUEST_EXAMPLES, ids=[f"{p} {n}" for p, n, _ in REQUEST_EXAMPLES])
def test_request_examples_are_answered(service, path, name, body):
    answer = service.post(path, json=body)
    assert answer.status_code == 200, answer.json


def test_operations_are_named_tagged_and_described():
    named = [operation["operationId"] for _, _, operation in operations()]
    assert len(set(named)) == len(named)
    tags = {tag["name"] for tag in DOCUMENT["tags"]}
    for _, _, operation in operations():
        assert set(operation["tags"]) <= tags
        assert operation["summary"]
        assert operation["description"]


def test_posts_say_that_they_only_compute():
    assert all(
        "nothing is stored" in operation["description"] for _, method, operation in operations() if method == "post"
    )


def test_document_and_routes_are_the_same():
    """All but the pages for people, which are no part of the contract for programs."""
    rules = [
        rule for rule in create_app().url_map.iter_rules() if not rule.endpoint.startswith(("pages.", "reference."))
    ]
    routed = {
        (method.lower(), rule.rule.replace("<", "{").replace(">", "}"))
        for rule in rules
        for method in rule.methods or ()
        if method not in ("HEAD", "OPTIONS")
    }
    assert routed == {(method, path) for path, method, _ in operations()}


def test_problems_of_each_operation_are_documented():
    for path, method, operation in operations():
        statuses = set(operation["responses"])
        assert {"200", "default"} <= statuses
        if method == "post":
            assert {"400", "406", "413", "415", "422", "503"} <= statuses, path


def test_a_documented_problem_has_the_status_of_its_code(service):
    of_name = {}
    for name, response in DOCUMENT["components"]["responses"].items():
        (media,) = response["content"].values()
        problem = media["example"]
        assert problem["status"] == service.get(problem["type"], headers={"Accept": "application/json"}).json["status"]
        of_name[f"#/components/responses/{name}"] = str(problem["status"])
    for path, _, operation in operations():
        for status, response in operation["responses"].items():
            if "$ref" in response:
                assert status in ("default", of_name[response["$ref"]]), path


def test_only_what_an_address_is_made_of_and_the_thread_to_resolve_is_needed():
    needed = {
        (path, one["name"])
        for path, _, operation in operations()
        for one in operation["parameters"]
        if one.get("required")
    }
    in_paths = {(path, name) for path, _, _ in operations() for name in re.findall(r"{(\w+)}", path)}
    assert needed == in_paths | {("/v1/threads", "thread")}
    assert not any(one.get("required") for one in DOCUMENT["components"]["parameters"].values())


def test_a_specification_in_any_detail_is_one_schema_of_the_document():
    """It has every field of the full one; those are needed that every detail has. No alternatives are left."""
    details = [SCHEMAS[f"hole-spec{detail}-reply"] for detail in ("", "-figures", "-routing")]
    known = DOCUMENT["components"]["schemas"]
    assert known["HoleSpec"]["properties"].keys() == details[0]["properties"].keys()
    assert set(known["HoleSpec"]["required"]) == set.intersection(*(set(one["required"]) for one in details))
    answer = DOCUMENT["paths"]["/v1/hole-specs"]["post"]["responses"]["200"]["content"]["application/json"]
    assert answer["schema"] == {"$ref": "#/components/schemas/HoleSpec"}
    assert [name for name in known if name.endswith(("InFigures", "InShort", "HoleSpecReply", "Routing"))] == []


def test_the_examples_of_batches_add_up():
    """Items are counted from 0; each was answered, and has a verdict, or has a problem."""
    found = 0
    for place, media in MEDIA:
        example = media.get("example")
        if isinstance(example, str) and example[:1] == "{" and place.endswith(" 200"):
            lines = [json.loads(line) for line in example.splitlines()]
            assert [line["index"] for line in lines] == list(range(len(lines))), place
            found += 1
        if isinstance(example, dict) and "results" in example:
            summary, results = example["summary"], example["results"]
            assert [one["index"] for one in results] == list(range(len(results))), place
            assert summary["items"] == len(results) == summary["ok"] + summary["failed"], place
            assert sum(summary["verdicts"].values()) == summary["ok"], place
            found += 1
    assert found > 6


def numbers_or_null(schema: object) -> Iterator[dict[str, Any]]:
    """The schemas inside one of numbers that may be null."""
    for inner in schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else ():
        yield from numbers_or_null(inner)
    if isinstance(schema, dict) and isinstance(kinds := schema.get("type"), list) and {"number", "null"} <= {*kinds}:
        yield schema


def test_null_is_valid_where_a_number_may_be_absent():
    """What a number may not be says nothing of null (JSON Schema: a keyword of numbers is met by all that is none)."""
    found = [(name, one) for name, schema in SCHEMAS.items() for one in numbers_or_null(schema)]
    assert any("not" in one for _, one in found)
    for name, one in found:
        assert jsonschema.Draft202012Validator(one).is_valid(None), (name, one)
