"""What goes around every answer: request id, caching, compression, security headers, draining."""

from __future__ import annotations

import gzip
import re

import pytest
from borewright.api import draining

BODY = {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.75}}


def test_request_id_is_echoed(client):
    for given in ("krp-night.run_0017:4", "a", "A" * 128):
        assert client.get("/v1/version", headers={"X-Request-Id": given}).headers["X-Request-Id"] == given


@pytest.mark.parametrize("given", ["", "A" * 129, "a b", "krp\tx", "<script>", "é", "a\x7f"])
def test_request_id_that_could_do_harm_is_replaced(client, given):
    made = client.get("/v1/version", headers={"X-Request-Id": given}).headers["X-Request-Id"]
    assert re.fullmatch(r"[0-9a-f]{24}", made)


def test_request_ids_differ(client):
    assert client.get("/v1/version").headers["X-Request-Id"] != client.get("/v1/version").headers["X-Request-Id"]


@pytest.mark.parametrize(
    "path", ["/v1/version", "/v1/threads?thread=M8", "/v1/catalog/units", "/openapi.json", "/problems/draining"]
)
def test_copy_that_is_still_right_is_not_sent_again(client, path):
    first = client.get(path)
    assert first.headers["Cache-Control"].startswith("public, max-age=")
    again = client.get(path, headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")
    assert again.headers["ETag"] == first.headers["ETag"]
    assert client.get(path, headers={"If-None-Match": '"another"'}).data == first.data


def test_tag_does_not_depend_on_compression(client):
    plain = client.get("/v1/threads?thread=M8")
    packed = client.get("/v1/threads?thread=M8", headers={"Accept-Encoding": "gzip"})
    assert plain.headers["ETag"] == packed.headers["ETag"]
    assert gzip.decompress(packed.data) == plain.data
    unchanged = {"Accept-Encoding": "gzip", "If-None-Match": plain.headers["ETag"]}
    assert client.get("/v1/threads?thread=M8", headers=unchanged).status_code == 304


def test_computed_answers_are_not_kept(client):
    answer = client.post("/v1/hole-specs", json=BODY)
    assert answer.headers["Cache-Control"] == "no-store"
    assert "ETag" not in answer.headers


def test_compression_where_asked_for(client):
    plain = client.post("/v1/hole-specs", json=BODY)
    packed = client.post("/v1/hole-specs", json=BODY, headers={"Accept-Encoding": "br, gzip;q=0.5"})
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) < len(plain.data) / 2
    assert "Accept-Encoding" in plain.headers["Vary"]


@pytest.mark.parametrize("encoding", ["identity", "br", "gzip;q=0", ""])
def test_no_compression_where_not(client, encoding):
    answer = client.post("/v1/hole-specs", json=BODY, headers={"Accept-Encoding": encoding})
    assert "Content-Encoding" not in answer.headers


def test_small_answers_are_not_compressed(client):
    assert "Content-Encoding" not in client.get("/v1/version", headers={"Accept-Encoding": "gzip"}).headers


@pytest.mark.parametrize("path", ["/v1/version", "/nothing", "/v1/threads"])
def test_security_headers(client, path):
    headers = client.get(path).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'none'" in headers["Content-Security-Policy"]
    assert headers["Referrer-Policy"] == "no-referrer"


def test_head_is_get_without_body(client):
    got, head = client.get("/v1/threads?thread=M8"), client.head("/v1/threads?thread=M8")
    assert head.data == b""
    assert head.headers["ETag"] == got.headers["ETag"]
    assert head.headers["Content-Length"] == got.headers["Content-Length"]


def test_draining(client):
    draining.STOPPING.set()
    try:
        for path in ("/health/ready", "/v1/version"):
            answer = client.get(path)
            assert (answer.status_code, answer.json["code"]) == (503, "draining")
            assert int(answer.headers["Retry-After"]) >= 1
        assert client.post("/v1/hole-specs", json=BODY).status_code == 503
        assert client.get("/health/live").status_code == 200
    finally:
        draining.STOPPING.clear()
    assert client.get("/health/ready").status_code == 200
