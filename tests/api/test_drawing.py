"""A drawing is asked for by Accept or in the query."""

from __future__ import annotations

from xml.etree import ElementTree

HOLE = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}}


def test_by_accept_and_by_query(client):
    by_accept = client.post("/v1/hole-specs", json=HOLE, headers={"Accept": "image/svg+xml"})
    by_query = client.post("/v1/hole-specs?view=section", json=HOLE)
    for answer in (by_accept, by_query):
        assert answer.status_code == 200
        assert answer.mimetype == "image/svg+xml"
        assert ElementTree.fromstring(answer.get_data()).tag == "{http://www.w3.org/2000/svg}svg"
    assert by_accept.get_data() == by_query.get_data()


def test_what_a_browser_likes_best_is_still_json(client):
    answer = client.post("/v1/hole-specs", json=HOLE, headers={"Accept": "image/*;q=0.5, application/json"})
    assert answer.mimetype == "application/json"


def test_another_view_is_refused(client):
    answer = client.post("/v1/hole-specs?view=plan", json=HOLE)
    assert answer.status_code == 422
    assert answer.get_json()["errors"][0]["pointer"] == "/view"
    assert answer.get_json()["errors"][0]["allowed"] == ["section"]


def test_what_cannot_be_made_has_no_drawing(client):
    answer = client.post("/v1/hole-specs?view=section", json={**HOLE, "thread": "1/4"})
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"


def test_what_was_typed_cannot_break_out_of_the_drawing(client):
    answer = client.post("/v1/hole-specs?view=section", json={**HOLE, "id": "</svg><script>alert(1)</script>"})
    assert b"<script" not in answer.get_data()
