"""The same hole under another id: the same bytes as if made for that id, and no id that is refused passes."""

from __future__ import annotations

import json

import pytest
from borewright.api import hole_ids
from borewright.api.application import create_app
from borewright.api.settings import Settings
from hypothesis import example, given, settings
from hypothesis import strategies as st

ADDRESS = "/v1/hole-specs"
HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}, "material": "4140"}
JSON, NDJSON, CSV = "application/json", "application/x-ndjson", "text/csv"
KEEPS, ANEW = (create_app(Settings(response_cache_bytes=size)).test_client() for size in (20_000_000, 0))

IDS = st.one_of(st.none(), st.integers(), st.text(max_size=220), st.text(' \t\\"/\u00e9\u2028{},:id', max_size=30))
TEXTS = {
    "plain": '"KRP-4105-D1"',
    "umlaut": '"Träger-7"',
    "beyond the first plane": '"\U0001f529"',
    "escaped letters": '"\\u004bRP\\u00e4\\ud83d\\udd29"',
    "quote and backslash": '"\\"a\\\\b\\/"',
    "backslash at the end": '"a\\\\"',
    "control": '"a\\tb\\u0000"',
    "delete": '"\x7f"',
    "separators": '"\u2028\u2029"',
    "looks like a member": '"x\\",\\"id\\":\\"y"',
    "longest": '"' + "x" * 200 + '"',
    "longest of three bytes": '"' + "\u20ac" * 200 + '"',
    "null": "null",
    "too long": '"' + "x" * 201 + '"',
    "blank": '" \\t"',
    "empty": '""',
    "half of a pair": '"\\ud83d"',
    "raw control": '"a\tb"',
    "bad escape": '"\\x"',
    "number": "4105",
    "list": '["a"]',
    "twice": '"a", "id": "b"',
    "twice and escaped": '"a", "\\u0069d": "b"',
}


def one(client, body: bytes) -> tuple[int, bytes]:
    answer = client.post(ADDRESS, data=body, content_type=JSON, headers={"X-Request-Id": "same"})
    return answer.status_code, answer.data


def batch(client, body: bytes, form: str, wanted: str) -> bytes:
    headers = {"X-Request-Id": "same", "Accept": wanted}
    return client.post(f"{ADDRESS}/batch", data=body, content_type=form, headers=headers).data


def same(request: bytes) -> None:
    """Both services answer a request alike, alone and in batches."""
    status, anew = one(ANEW, request)
    assert one(KEEPS, request) == (status, anew)
    line = request.replace(b"\n", b" ") + b"\n"
    for form, body, wanted in (
        (NDJSON, line, NDJSON),
        (NDJSON, line, CSV),
        (JSON, b'{"items": [%b]}' % request, JSON),
        (JSON, b'{"items": [%b], "defaults": {"id": "KRP-0", "material": "1018"}}' % request, NDJSON),
    ):
        assert batch(KEEPS, body, form, wanted) == batch(ANEW, body, form, wanted)


def written(name: str, *, first: bool = True) -> bytes:
    """The request with an id as JSON text."""
    rest = json.dumps(HOLE)
    text = f'{{"id" : {name}, {rest[1:]}' if first else f'{rest[:-1]}, "id":{name}}}'
    return text.encode("utf-8", "surrogatepass")


@pytest.fixture(autouse=True, scope="module")
def _kept():
    for first in (True, False):
        assert one(KEEPS, written('"KRP-1"', first=first))[0] == 200


@pytest.mark.parametrize("first", [True, False])
@pytest.mark.parametrize("name", TEXTS.values(), ids=TEXTS)
def test_texts_of_ids(name, first):
    same(written(name, first=first))


@settings(max_examples=150)
@example("\ud800")
@given(IDS)
def test_any_id(name):
    """Escaped and as it is, where that is not the same."""
    escaped, as_it_is = (written(json.dumps(name, ensure_ascii=only_ascii)) for only_ascii in (True, False))
    same(escaped)
    if as_it_is != escaped:
        same(as_it_is)


def test_a_request_without_id_and_one_with_null():
    same(json.dumps(HOLE).encode())
    same(json.dumps({**HOLE, "id": None}).encode())


@pytest.mark.parametrize("detail", ["figures", "routing"])
def test_less_detail_is_kept_by_itself(detail):
    for name in ("KRP-1", "KRP-2"):
        same(json.dumps({"id": name, **HOLE, "detail": detail}).encode())
        same(json.dumps({"id": name, **HOLE}).encode())
    line = json.dumps({"id": "KRP-3", **HOLE, "detail": detail}).encode() + b"\n"
    for wanted in (NDJSON, CSV, NDJSON):
        assert batch(KEEPS, line, NDJSON, wanted) == batch(ANEW, line, NDJSON, wanted)


def test_bytes_that_are_no_utf8_are_refused_as_before():
    same(written('"KRP-X"').replace(b"X", b"\xff"))


@pytest.mark.parametrize(
    "request_text",
    [
        '{"thread": {"id": "A", "text": "M8"}, "hole": {"type": "through", "thickness": 12}}',
        '{"thread": "M8", "hole": {"type": "through", "thickness": 12, "id": "A"}, "id": "A"}',
        '{"thread": "\\"id\\": \\"A\\"", "hole": {"type": "through", "thickness": 12}}',
        '{"id": "A", "thread": "M8", "hole": {"type": "through", "thickness": 12}, "finish": "\\"id\\": \\"A\\""}',
        '{"thread": "M8", "hole": {"type": "through", "thickness": 1e400}}',
    ],
)
def test_what_only_looks_like_an_id(request_text):
    same(request_text.encode())
    same(request_text.replace("A", "B").encode())


def test_a_number_too_large_for_a_float_is_not_null():
    """1e400 is JSON, and infinite as a double; an optional field that is null is one left out."""
    for value in ("null", "1e400"):
        same(json.dumps(HOLE)[:-1].encode() + b', "length_of_engagement": %b}' % value.encode())


def test_another_id_is_answered_without_the_domain(monkeypatch):
    client = create_app().test_client()
    assert one(client, written('"KRP-1"'))[0] == 200
    assert batch(client, written('"KRP-1"'), NDJSON, CSV)
    monkeypatch.setattr("borewright.api.views.hole_specs.specify", lambda request: pytest.fail("asked"))
    status, reply = one(client, written('"KRP-2"'))
    assert (status, json.loads(reply)["id"]) == (200, "KRP-2")
    for form, body, wanted in ((NDJSON, written('"KRP-3"') + b"\n", NDJSON), (NDJSON, written('"KRP-4"') + b"\n", CSV)):
        assert b"KRP-" in batch(client, body, form, wanted)
    packed = client.post(ADDRESS, data=written('"KRP-5"'), content_type=JSON, headers={"Accept-Encoding": "gzip"})
    assert packed.status_code == 200


def test_an_id_is_taken_out_where_it_can_be_put_back():
    assert hole_ids.take_out(b'{"id": "A","x":1}') == (b'{"id": ,"x":1}', b'"A"')
    assert hole_ids.take_out(b'{"id": null}') == (b'{"id": null}', b"null")
    pieces = (b'{"id":"A","x":1', b"}")
    assert hole_ids.put_in(b'"B"', hole_ids.left_out(pieces, b'"A"')) == (b'{"id":"B","x":1', b"}")
    assert hole_ids.left_out(pieces, b'"B"') is None
