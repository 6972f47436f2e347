"""Refusals by key, size, places and draining: each operation gives what the OpenAPI document says of it."""

from __future__ import annotations

import base64
import json
from typing import Any

import jsonschema
import pytest
from borewright.api import create_app, draining, keys
from borewright.api.settings import Settings
from borewright.contract.documents import published
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

DOCUMENT: dict[str, Any] = json.loads(published.openapi_json())
OPEN = {"/health/live", "/health/ready"}
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
HOLE = b'{"thread": "M8", "hole": {"type": "through", "thickness": 12}}\n'
OPERATIONS = [(path, method) for path, methods in DOCUMENT["paths"].items() for method in methods]
POSTS = [(path, method) for path, method in OPERATIONS if method == "post"]
KEY = "kestrel-ridge-routing-0123456789-abcdefghi"


def ask(client: FlaskClient, path: str, method: str, **more: Any) -> TestResponse:
    """A request to an operation; what stands for its parameters is nothing that exists."""
    return client.open(path.replace("{", "").replace("}", ""), method=method.upper(), **more)


def documented(path: str, method: str, status: int) -> dict[str, Any]:
    """The response that the document gives an operation for a status."""
    reference = DOCUMENT["paths"][path][method]["responses"][str(status)]["$ref"]
    found: dict[str, Any] = DOCUMENT["components"]["responses"][reference.rpartition("/")[2]]
    return found


def check(answer: TestResponse, path: str, method: str, status: int, code: str) -> None:
    """The answer is the documented one: status, media type, schema, headers."""
    assert (answer.status_code, answer.json["code"]) == (status, code)
    told = documented(path, method, status)
    (media_type,) = told["content"]
    assert answer.mimetype == media_type
    schema = {**told["content"][media_type]["schema"], "components": DOCUMENT["components"]}
    jsonschema.validate(answer.json, schema, cls=jsonschema.Draft202012Validator)
    assert set(told["headers"]) <= set(answer.headers.keys())


@pytest.fixture(scope="module")
def locked(tmp_path_factory) -> FlaskClient:
    """A service that asks for a key."""
    file = tmp_path_factory.mktemp("keys") / "keys"
    file.write_text(keys.line_of("routing", KEY))
    return create_app(Settings(api_keys_file=str(file))).test_client()


@pytest.fixture(scope="module")
def small() -> FlaskClient:
    """A service that takes a KiB."""
    return create_app(Settings(max_body_bytes=1024, max_batch_bytes=1024)).test_client()


@pytest.fixture(scope="module")
def narrow() -> FlaskClient:
    """A service with one place."""
    return create_app(Settings(max_concurrency=1)).test_client()


@pytest.mark.parametrize(("path", "method"), OPERATIONS)
def test_key_is_asked_for(locked, path, method):
    answer = ask(locked, path, method)
    if path in OPEN:
        assert answer.status_code == 200
        assert DOCUMENT["paths"][path][method]["security"] == []
        return
    check(answer, path, method, 401, "key_missing_or_unknown")
    assert "WWW-Authenticate" in documented(path, method, 401)["headers"]
    named = base64.b64encode(f"planner:{KEY}".encode()).decode()
    for headers in ({"Authorization": f"Bearer {KEY}"}, {"Authorization": f"Basic {named}"}, {"X-Api-Key": KEY}):
        assert ask(locked, path, method, headers=headers).status_code != 401


def test_ways_to_send_a_key():
    schemes = DOCUMENT["components"]["securitySchemes"]
    assert {
        (scheme["type"], scheme.get("scheme"), scheme.get("in"), scheme.get("name")) for scheme in schemes.values()
    } == {
        ("http", "bearer", None, None),
        ("http", "basic", None, None),
        ("apiKey", None, "header", "X-Api-Key"),
    }
    assert DOCUMENT["security"] == [{}, *({name: []} for name in schemes)]


@pytest.mark.parametrize(("path", "method"), POSTS)
def test_size_is_bounded(small, path, method):
    taken = DOCUMENT["paths"][path][method]["requestBody"]["content"]
    media_type = "application/json" if "application/json" in taken else XLSX
    answer = ask(small, path, method, data=b'{"x":"' + b"x" * 2000 + b'"}', content_type=media_type)
    check(answer, path, method, 413, answer.json["code"])
    assert "1024 bytes" in answer.json["detail"]


@pytest.mark.parametrize(("path", "method"), OPERATIONS)
def test_places_are_bounded(narrow, path, method):
    held = narrow.post("/v1/hole-specs/batch", data=HOLE, content_type="application/x-ndjson", buffered=False)
    answer = ask(narrow, path, method)
    held.close()
    if path in OPEN:
        assert answer.status_code == 200
    else:
        check(answer, path, method, 429, "too_many_at_once")
        assert int(answer.headers["Retry-After"]) > 0
        assert "1 requests at once" in answer.json["detail"]


@pytest.mark.parametrize(("path", "method"), OPERATIONS)
def test_draining_is_told(client, path, method):
    draining.STOPPING.set()
    try:
        answer = ask(client, path, method)
    finally:
        draining.STOPPING.clear()
    if path == "/health/live":
        assert answer.status_code == 200
    else:
        check(answer, path, method, 503, "draining")
        assert int(answer.headers["Retry-After"]) > 0
