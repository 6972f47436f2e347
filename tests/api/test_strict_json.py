"""Bodies that two readers could read differently, or that nobody can read: refused with a code and a place."""

from __future__ import annotations

import gzip

import jsonschema
import orjson
import pytest
from borewright.api import create_app
from borewright.api.problems import Refusal
from borewright.api.settings import Settings
from borewright.api.strict_json import parse_object
from borewright.contract.documents import published
from borewright.core.errors import BorewrightError
from hypothesis import given, settings
from hypothesis import strategies as st

PROBLEM = jsonschema.Draft202012Validator(orjson.loads(published.schemas_json()["problem"]))

UNREADABLE = [
    (b"", 400, "json_unreadable", ""),
    (b"{", 400, "json_unreadable", ""),
    (b"{'thread': 'M8'}", 400, "json_unreadable", ""),
    (b'{"thread": "M8",}', 400, "json_unreadable", ""),
    (b'{"thread": "M8"} {}', 400, "json_unreadable", ""),
    (b'{"thread": "a\tb"}', 400, "json_unreadable", ""),
    (b'{"thread": 0x10}', 400, "json_unreadable", ""),
    (b'{"thread": 08}', 400, "json_unreadable", ""),
    (b'\xef\xbb\xbf{"thread": "M8"}', 400, "json_unreadable", ""),
    (b'{"thread": ' + b"9" * 5000 + b"}", 400, "json_unreadable", ""),
    (b'{"thread": "\\ud800"}', 400, "json_unreadable", ""),
    (b'{"thread": "M8\xff"}', 400, "json_not_utf8", ""),
    ('{"thread": "M8"}'.encode("utf-16"), 400, "json_not_utf8", ""),
    (b'{"thread": "M8", "thread": "M8"}', 400, "json_duplicate_key", "/thread"),
    (
        b'{"thread": "M8", "stock": {"drills": [{"a/b": 1, "a/b": 2}]}}',
        400,
        "json_duplicate_key",
        "/stock/drills/0/a~1b",
    ),
    (b'{"thread": "M8", "\\u0074hread": "M8"}', 400, "json_duplicate_key", "/thread"),
    (b'{"thread": NaN}', 400, "json_number_not_finite", "/thread"),
    (
        b'{"thread": "M8", "length_of_engagement": [1, -Infinity]}',
        400,
        "json_number_not_finite",
        "/length_of_engagement/1",
    ),
    (b'{"thread": ' + b"[" * 40 + b"]" * 40 + b"}", 400, "json_too_deep", ""),
    (b"[" * 100_000, 400, "json_too_deep", ""),
    (b'{"a":' * 50_000, 400, "json_too_deep", ""),
    (b'["M8"]', 422, "body_not_object", ""),
    (b'"M8"', 422, "body_not_object", ""),
    (b"null", 422, "body_not_object", ""),
    (b'{"thread": "M8", "length_of_engagement": 1e400}', 422, "value_out_of_range", "/length_of_engagement"),
    (b"x" * 2_000_000, 413, "body_too_large", ""),
]


@pytest.mark.parametrize(("body", "status", "code", "pointer"), UNREADABLE, ids=lambda case: str(case)[:40])
def test_refused(client, body, status, code, pointer):
    answer = client.post("/v1/threads/resolve", data=body, content_type="application/json")
    assert answer.status_code == status
    assert answer.mimetype == "application/problem+json"
    PROBLEM.validate(answer.json)
    assert answer.json["code"] == code
    assert [(fault["pointer"], fault["code"]) for fault in answer.json["errors"]] == [(pointer, code)]


def test_limits_are_settings_and_are_told():
    client = create_app(Settings(max_body_bytes=2048, max_json_depth=4)).test_client()
    large = client.post("/v1/hole-specs", data=b" " * 2049, content_type="application/json")
    assert (large.status_code, "2048 bytes" in large.json["detail"]) == (413, True)
    deep = client.post("/v1/hole-specs", data=b'{"a":[[[[]]]]}', content_type="application/json")
    assert (deep.status_code, "4 levels" in deep.json["detail"]) == (400, True)
    assert client.post("/v1/hole-specs", data=b'{"a":[[[]]]}', content_type="application/json").status_code == 422


def test_many_brackets_are_not_deep(client):
    body = {"thread": "M8", "stock": {"drills": ["[[[[{{{{" * 4] * 20}}
    assert client.post("/v1/drills/recommend", json=body).status_code != 400


@pytest.mark.parametrize(
    "media", ["text/plain", "application/x-www-form-urlencoded", "application/json; charset=latin-1", ""]
)
def test_other_media_types(client, media):
    answer = client.post("/v1/threads/resolve", data=b'{"thread": "M8"}', content_type=media or None)
    assert (answer.status_code, answer.json["code"]) == (415, "media_type_unsupported")
    assert answer.headers["Accept-Post"] == "application/json"


def test_json_with_charset(client):
    answer = client.post(
        "/v1/threads/resolve", data=b'{"thread": "M8"}', content_type="Application/JSON; Charset=UTF-8"
    )
    assert answer.status_code == 200


def test_compressed_body(client):
    answer = client.post(
        "/v1/threads/resolve",
        data=gzip.compress(b'{"thread": "M8"}'),
        content_type="application/json",
        headers={"Content-Encoding": "gzip"},
    )
    assert (answer.status_code, answer.json["code"]) == (415, "content_encoding_unsupported")


JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(st.text(), JSON_VALUES, max_size=5))
@settings(max_examples=150)
def test_what_is_json_is_read(value):
    encodable = orjson.dumps(value, option=orjson.OPT_PASSTHROUGH_DATACLASS) if fits(value) else None
    if encodable is not None:
        assert parse_object(encodable, max_depth=200) == value


def fits(value):
    """Whether orjson can write it: integers of 64 bits."""
    try:
        orjson.dumps(value)
    except TypeError:
        return False
    return True


@given(st.binary(max_size=80))
@settings(max_examples=200)
def test_any_bytes_are_read_or_refused(body):
    try:
        found = parse_object(body, max_depth=32)
    except (Refusal, BorewrightError):
        return
    assert isinstance(found, dict)
