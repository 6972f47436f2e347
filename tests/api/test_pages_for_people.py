"""Pages that the service writes itself: the API reference and the meanings of problems, nothing from elsewhere."""

from __future__ import annotations

import html
import re

import orjson
import pytest
from borewright.api import create_app
from borewright.api.problems import KINDS
from borewright.contract.documents import published

HTML = {"Accept": "text/html,application/xhtml+xml;q=0.9,*/*;q=0.8"}


@pytest.fixture(scope="module")
def client():
    return create_app().test_client()


@pytest.fixture(scope="module")
def document():
    return orjson.loads(published.openapi_json())


def words(page):
    return html.unescape(re.sub("<[^>]+>", "", page))


def names(schema, parts, seen=()):
    """Names of the fields of a schema, of its objects and of those of its lists, in the first kind with fields."""
    reference = schema.get("$ref", "")
    if reference:
        return names(parts[reference.rpartition("/")[2]], parts, (*seen, reference)) if reference not in seen else set()
    if "properties" in schema:
        inner = [names(one, parts, seen) for one in schema["properties"].values()]
        return set(schema["properties"]).union(*inner)
    within = [*schema.get("anyOf", ()), *([schema["items"]] if "items" in schema else ())]
    return next((found for one in within if (found := names(one, parts, seen))), set())


def test_every_operation_is_told_with_every_field(client, document):
    listed = client.get("/docs", headers=HTML).text
    parts = document["components"]["schemas"]
    for path, methods in document["paths"].items():
        for method, found in methods.items():
            name = found["operationId"]
            assert f'href="/docs/{name}"' in listed
            answer = client.get(f"/docs/{name}", headers=HTML)
            assert (answer.status_code, answer.mimetype) == (200, "text/html")
            said = words(answer.text)
            assert f"{method.upper()} {path}" in said
            bodies = [found.get("requestBody", {}), found["responses"]["200"]]
            schemas = [body["content"]["application/json"]["schema"] for body in bodies if _as_json(body)]
            shown = set(re.findall(r"[a-z][a-z0-9_]*", " ".join(re.findall(r"<dt><code>([^<]*)</code>", answer.text))))
            for schema in schemas:
                assert names(schema, parts) <= shown, name
            for example in found.get("requestBody", {}).get("content", {}).values():
                for one in example.get("examples", {}).values():
                    assert orjson.dumps(one["value"], option=orjson.OPT_INDENT_2).decode() in words(answer.text)
    assert client.get("/docs/none", headers=HTML).status_code == 404


def _as_json(body):
    return "schema" in body.get("content", {}).get("application/json", {})


def test_problems_are_pages_for_people_and_json_for_programs(client):
    listed = client.get("/problems", headers=HTML)
    assert listed.mimetype == "text/html"
    for code in KINDS:
        assert f'href="/problems/{code}"' in listed.text
        meaning = client.get(f"/problems/{code}").json
        said = words(client.get(f"/problems/{code}", headers=HTML).text)
        for part in ("title", "cause", "example", "remedy"):
            assert meaning[part] in said, code
    assert client.get("/problems/none", headers=HTML).json["code"] == "problem_unknown"


@pytest.mark.parametrize("path", ["/", "/docs", "/docs/createHoleSpec", "/problems", "/problems/callout_ambiguous"])
def test_nothing_from_outside_and_nothing_inline(client, path):
    answer = client.get(path, headers=HTML)
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    taken = re.findall(r"""(?:src|href|action)="([^"]*)\"""", answer.text)
    assert taken
    assert [address for address in taken if not address.startswith(("/", "#", "data:,"))] == []
    assert not re.search(r"<style|<script(?![^>]* src=)| style=| on[a-z]+=", answer.text)
    assert client.get(path, headers={"Accept": "image/png"}).status_code == 406
    assert client.get("/page/none.css").status_code == 404
