"""Lists by pages with links (RFC 8288), filters of catalogues, queries that nobody reads, 304 (RFC 9110)."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import pytest
from borewright.contract.catalogues import CATALOGUES
from borewright.contract.documents import published

#: Documents of one form, and pages whose scripts read no query: no parameter means anything to them.
WITHOUT_QUERY = (
    "/v1/version",
    "/health/live",
    "/health/ready",
    "/metrics",
    "/openapi.json",
    "/problems",
    "/problems/draining",
    "/schemas/problem.schema.json",
    "/note",
    "/part",
    "/rework",
    "/shop-figures",
    "/embed.js",
    "/page/page.js",
    "/docs",
    "/docs/createHoleSpec",
)


def links(answer) -> dict[str, str]:
    """The addresses of a Link header by their relation."""
    parts = [part.strip().split("; ") for part in answer.headers["Link"].split(",")]
    return {relation.removeprefix('rel="').rstrip('"'): target.strip("<>") for target, relation in parts}


@pytest.mark.parametrize("address", WITHOUT_QUERY)
def test_a_parameter_that_nobody_reads_is_refused(client, address):
    assert client.get(address).status_code == 200
    answer = client.get(f"{address}?colour=red")
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == "/colour"


def test_the_code_of_a_link_takes_its_address_only(client):
    link = "/link.svg?address=http://localhost/"
    assert client.get(link).status_code == 200
    assert client.get(f"{link}&colour=red").json["errors"][0]["pointer"] == "/colour"


def operations() -> list[str]:
    """Every address to post JSON to."""
    return [path for path, item in paths().items() if "application/json" in _content(item)]


@cache
def paths() -> dict[str, Any]:
    """What the document says of each address."""
    found: dict[str, Any] = json.loads(published.openapi_json())["paths"]
    return found


def _content(item) -> dict[str, Any]:
    return item.get("post", {}).get("requestBody", {}).get("content", {})


@pytest.mark.parametrize("path", operations())
def test_no_operation_reads_a_parameter_that_it_does_not_know(client, path):
    content = _content(paths()[path])["application/json"]
    example = content.get("example") or next(iter(content["examples"].values()))["value"]
    assert client.post(path, json=example).status_code == 200
    answer = client.post(f"{path}?colour=red", json=example)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/colour")


@pytest.mark.parametrize("name", CATALOGUES)
def test_pages_of_a_catalogue_are_the_whole_catalogue(client, name):
    whole = client.get(f"/v1/catalog/{name}").json
    address, rows = f"/v1/catalog/{name}?page_size=97", []
    while address:
        answer = client.get(address)
        rows += answer.json["items"]
        address = links(answer).get("next") if "Link" in answer.headers else None
    assert rows == whole["items"]
    assert answer.json["total"] == len(rows)
    assert answer.json["page"] == answer.json["pages"] == -(-len(rows) // 97)
    assert "page" not in whole


def test_links_keep_the_filter_and_name_every_other_page(client):
    answer = client.get("/v1/threads/catalog?series=UNC&page_size=5&page=2")
    found = links(answer)
    assert set(found) == {"first", "prev", "next", "last"}
    assert client.get(found["first"]).json["items"] == client.get(found["prev"]).json["items"]
    following = client.get(found["next"]).json
    assert following["page"] == 3
    assert {item["series"] for item in following["items"]} == {"UNC"}
    assert "next" not in links(client.get(found["last"]))


def test_rows_are_found_by_a_text_in_any_case(client):
    found = client.get("/v1/catalog/materials?contains=STAINLESS").json["items"]
    assert 0 < len(found) < len(client.get("/v1/catalog/materials").json["items"])
    assert all("stainless" in str(row).casefold() for row in found)
    assert client.get("/v1/catalog/materials?contains=iso_group").json["items"] == []  # a name of a field
    assert client.get("/v1/catalog/materials?contains=[").json["items"] == []  # no sign of a list is a value
    assert client.get("/v1/catalog/materials?contains=zz&page=1").json["pages"] == 0


@pytest.mark.parametrize("query", ["page=0", "page_size=501", "page=two", "contains=", "name=6061"])
def test_a_page_that_cannot_be_is_refused(client, query):
    assert client.get(f"/v1/catalog/drills?{query}").status_code == 422


def test_a_page_beyond_the_last_is_empty(client):
    answer = client.get("/v1/catalog/units?page=9")
    assert (answer.json["items"], links(answer)["last"]) == ([], "/v1/catalog/units?page=1")


@pytest.mark.parametrize("address", ["/v1/version", "/v1/catalog/units", "/openapi.json", "/v1/threads?thread=M8"])
def test_not_modified_says_what_the_whole_answer_says(client, address):
    """RFC 9110, 15.4.5: Cache-Control, Content-Location, Date, ETag, Expires and Vary as with 200."""
    whole = client.get(address)
    known = client.get(address, headers={"If-None-Match": whole.headers["ETag"]})
    assert known.status_code == 304
    for name in ("Cache-Control", "ETag", "Vary"):
        assert known.headers[name] == whole.headers[name]


def test_figures_have_the_type_of_their_format_once(client):
    assert client.get("/metrics").headers["Content-Type"].count("charset") == 1
