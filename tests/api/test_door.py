"""The door's lane answers as Flask does: same status, same headers, same bytes, and leaves the rest to it."""

import json
import logging

import pytest
from borewright.api import draining
from borewright.api.application import create_app
from borewright.api.keys import line_of
from borewright.api.settings import Settings

ADDRESS = "/v1/hole-specs"
KEY = "kestrel-ridge-planning-0123456789"
HOLE = {"id": "KRP-4105-D1", "thread": "3/8-16 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.75}}
LANE = create_app().test_client()


class _Closed:
    """A lane that takes nothing."""

    def answer(self, *_):
        return None


def _without_lane():
    app = create_app()
    app.wsgi_app._lane = _Closed()
    return app.test_client()


FLASK = _without_lane()

BODIES = {
    "plain": HOLE,
    "everything": {
        **HOLE,
        "material": "4140 at 28 HRC",
        "finish": "ASTM B633 Fe/Zn 8",
        "objective": "least_torque",
        "mating_screw": {"grade": "5"},
        "explain": True,
    },
    "metric": {"thread": "M8", "hole": {"type": "through", "thickness": "12 mm"}, "unit_system": "inch"},
    "no such thread": {**HOLE, "thread": "1/2-14 UNC"},
    "field too much": {**HOLE, "depth": 1},
    "field missing": {"thread": "M8"},
    "several faults": {"thread": "M8", "hole": {"type": "trough"}, "objective": "x", "unit_system": "inch"},
    "told in inches": {
        **HOLE,
        "thread": "M8",
        "hole": {"type": "blind", "full_thread_depth": 5000},
        "unit_system": "inch",
    },
    "no id": {name: value for name, value in HOLE.items() if name != "id"},
    "null id": {**HOLE, "id": None},
    "number as id": {**HOLE, "id": 4105},
    "blank id": {**HOLE, "id": "  "},
    "no object": [HOLE],
}
RAW = {
    "no JSON": b"{",
    "twice": b'{"thread": "M8", "thread": "M8", "hole": {"type": "through", "thickness": 12}}',
    "NaN": b'{"thread": "M8", "hole": {"type": "through", "thickness": NaN}}',
    "no UTF-8": b'{"thread": "\xff"}',
    "deep": b'{"thread": ' + b"[" * 100 + b"]" * 100 + b"}",
    "empty": b"",
    **{name: json.dumps(body).encode() for name, body in BODIES.items()},
}
HEADERS = {
    "none": {},
    "gzip": {"Accept-Encoding": "gzip, deflate"},
    "weighed": {"Accept-Encoding": "gzip;q=0, *"},
    "another gzip": {"Accept-Encoding": "x-gzip"},
    "any": {"Accept": "*/*"},
    "drawing": {"Accept": "image/svg+xml"},
    "unknown": {"Accept": "text/turtle"},
    "trace": {"Traceparent": "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"},
    "bad trace": {"Traceparent": "00-x"},
    "form": {"Content-Type": "application/x-www-form-urlencoded"},
    "Latin": {"Content-Type": "application/json; charset=latin-1"},
    "encoded": {"Content-Encoding": "gzip"},
}


def _answer(client, body, headers, query=""):
    sent = {"Content-Type": "application/json", "X-Request-Id": "same", **headers}
    reply = client.post(ADDRESS + query, data=body, headers=sent)
    return reply.status, sorted(reply.headers.items()), reply.data


@pytest.mark.parametrize("headers", HEADERS.values(), ids=HEADERS)
@pytest.mark.parametrize("body", RAW.values(), ids=RAW)
def test_both_answer_the_same(body, headers):
    expected = _answer(FLASK, body, headers)
    assert _answer(LANE, body, headers) == expected
    assert _answer(LANE, body, headers) == expected  # the second time from what was kept


def test_a_fault_of_ours_is_told_alike(monkeypatch):
    monkeypatch.setattr("borewright.api.views.hole_specs.HOLE_SPEC.asked", lambda body: 1 // 0)
    body = json.dumps({**HOLE, "id": "KRP-4105-D9", "hole": {"type": "blind", "full_thread_depth": 0.7531}}).encode()
    expected = _answer(FLASK, body, {})
    assert expected[0] == "500 INTERNAL SERVER ERROR"
    assert _answer(LANE, body, {}) == expected


def test_a_refused_request_is_computed_once(monkeypatch):
    client, asked = create_app().test_client(), []
    monkeypatch.setattr("borewright.api.views.hole_specs.specify", lambda request: asked.append(request) or 1 // 0)
    monkeypatch.setattr(client.application, "dispatch_request", lambda: pytest.fail("dispatched"))
    assert client.post(ADDRESS, json=HOLE).status_code == 500
    assert len(asked) == 1


@pytest.mark.parametrize("query", ["?explain=true", "?view=section", "?depth=1"])
def test_queries_are_read_by_flask(query):
    body = RAW["plain"]
    assert _answer(LANE, body, {}, query) == _answer(FLASK, body, {}, query)


def test_a_usual_request_does_not_reach_flask(monkeypatch):
    app = create_app(Settings(max_concurrency=1))
    monkeypatch.setattr(app, "dispatch_request", lambda: pytest.fail("dispatched"))
    for body, status in ((HOLE, 200), ({**HOLE, "thread": "M8x"}, 422), (HOLE, 200)):
        assert app.test_client().post(ADDRESS, json=body).status_code == status


def test_other_addresses_and_methods_are_left_alone():
    assert LANE.get(ADDRESS).status_code == 405
    assert LANE.post("/v1/threads/resolve", json={"thread": "M8"}).json["designation"] == "M8x1.25-6H"


def test_keys_are_asked_for(tmp_path):
    (tmp_path / "keys").write_text(line_of("planning", KEY))
    client = create_app(Settings(api_keys_file=str(tmp_path / "keys"))).test_client()
    assert client.post(ADDRESS, json=HOLE).status_code == 401
    assert client.post(ADDRESS, json=HOLE, headers={"X-Api-Key": "another"}).status_code == 401
    assert client.post(ADDRESS, json=HOLE, headers={"X-Api-Key": KEY}).status_code == 200
    bearer = {"Authorization": f"Bearer {KEY}"}
    assert client.post(ADDRESS, json=HOLE, headers=bearer).status_code == 200
    assert client.post(ADDRESS, json=HOLE).status_code == 401  # kept answers are nobody's without a key


def test_a_stopping_process_says_so(monkeypatch):
    monkeypatch.setattr(draining.STOPPING, "is_set", lambda: True)
    reply = LANE.post(ADDRESS, json=HOLE)
    assert (reply.status_code, reply.headers["Retry-After"]) == (503, str(draining.RETRY_AFTER_SECONDS))


def test_requests_are_logged_once_and_without_their_bodies(caplog):
    with caplog.at_level(logging.INFO, "borewright.access"):
        LANE.post(ADDRESS, json=HOLE, headers={"X-Request-Id": "KRP-1"})
        LANE.post(ADDRESS, json={**HOLE, "thread": "M8x"}, headers={"X-Request-Id": "KRP-2"})
    told = [record.msg for record in caplog.records if record.name == "borewright.access"]
    assert [(line["request_id"], line["route"], line["status"]) for line in told] == [
        ("KRP-1", ADDRESS, 200),
        ("KRP-2", ADDRESS, 422),
    ]
    assert "KRP-4105" not in str(told)
