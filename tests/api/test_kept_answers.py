"""Answers kept as bytes: the same question gets the same bytes, another question never gets them."""

from __future__ import annotations

import json

import pytest
from borewright.api.application import create_app
from borewright.api.kept import KeptAnswers

HOLE = {"id": "KRP-1042-A1", "thread": "M8", "hole": {"type": "through", "thickness": 12}}


@pytest.fixture
def client():
    return create_app().test_client()


def post(client, body, **more):
    return client.post("/v1/hole-specs", data=json.dumps(body), content_type="application/json", **more)


def test_same_question_same_bytes(client):
    first, again = post(client, HOLE), post(client, HOLE)
    assert first.status_code == again.status_code == 200
    assert first.data == again.data
    assert first.headers["X-Request-Id"] != again.headers["X-Request-Id"]
    assert {name for name, _ in first.headers} == {name for name, _ in again.headers}


def test_another_question_is_asked_anew(client):
    plain = post(client, HOLE).json
    assert "derivation" in client.post("/v1/hole-specs?explain=true", json=HOLE).json
    assert post(client, {**HOLE, "id": "KRP-1042-A2"}).json["id"] == "KRP-1042-A2"
    assert plain["id"] == "KRP-1042-A1"


def test_what_surrounds_the_body_is_still_judged(client):
    post(client, HOLE)
    body = json.dumps(HOLE)
    assert client.post("/v1/hole-specs", data=body, content_type="text/plain").status_code == 415
    assert post(client, HOLE, headers={"Accept": "text/html"}).status_code == 406
    assert client.post("/v1/hole-specs?explian=true", json=HOLE).status_code == 422


def test_refusals_are_not_kept(client):
    wrong = {**HOLE, "thread": "M8x1.2"}
    first, again = post(client, wrong).json, post(client, wrong).json
    assert first["request_id"] != again["request_id"]


def test_bytes_are_bounded():
    kept = KeptAnswers()
    for number in range(100):
        kept.keep((number,), bytes(100), 1000)
    assert [number for number in range(100) if kept.get((number,)) is not None] == list(range(90, 100))
