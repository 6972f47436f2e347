"""The client against the real service, and against a socket that misbehaves."""

from __future__ import annotations

import socket
from collections.abc import Iterator

import pytest
import requests
from borewright_client import (
    Client,
    ClientError,
    ConnectFailed,
    NoAnswer,
    RequestRefused,
    ServiceUnavailable,
    retry_after,
)
from raw_answers import answering, http

BRACKET = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": {"name": "4140", "hardness": "28 HRC"},
    "finish": "ASTM B633 Fe/Zn 8",
}


@pytest.fixture
def client(service_url: str) -> Iterator[Client]:
    with Client(service_url + "/") as opened:
        yield opened


def test_hole_spec_comes_back_whole(client):
    spec = client.hole_spec(BRACKET)
    assert spec["id"] == "KRP-4105-D1"
    assert spec["thread"]["designation"] == "3/8-16 UNC-2B"
    assert {"drill", "tap", "depths", "operations", "finish"} <= spec.keys()


def test_one_method_an_endpoint(client):
    assert client.resolve_thread("1/2-13 UNC-2B")["nominal_diameter"] == 0.5
    assert client.recommend_drill("1/2-13 UNC-2B")["recommended"]["label"] == "27/64"
    assert client.allowance("1/4-28 UNF-2B", {"thickness": {"min": 0.0002, "max": 0.0003}})["feasible"] is True
    assert client.recommend_tap("1/2-13 UNC-2B")["recommended"]["marking"].startswith("1/2-13")
    assert client.decode_tap("1/2-13 NC HSS G H3")["limit"]["label"] == "H3"
    assert client.threads(system="iso_metric", page_size=5)
    assert client.catalog("drills")
    plan = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
    planned = {"drill": "6.8 mm", "tap": "M8x1 HSS G D5"}
    assert client.audit({**plan, "as_planned": planned})["verdict"] == "reject"
    batch = client.audit_batch([{**plan, "as_planned": planned}], defaults={"material": "1045"})
    assert batch["results"][0]["audit"]["verdict"] == "reject"
    assert client.version()["version"]
    assert client.ready() is True


def test_unit_system_is_passed_on(client):
    reply = client.resolve_thread("1/2-13 UNC-2B", unit_system="metric")
    assert reply["units"]["length"] == "mm"
    assert reply["nominal_diameter"] == 12.7


def test_refusal_carries_the_problem(client):
    with pytest.raises(RequestRefused) as caught:
        client.resolve_thread("1/2-14 UNC")
    refused = caught.value
    assert refused.status == 422
    assert refused.errors[0]["pointer"] == "/thread"
    assert refused.request_id
    assert refused.code in str(refused)


def test_nan_never_leaves(client):
    with pytest.raises(ValueError, match="JSON compliant"):
        client.hole_spec({**BRACKET, "hole": {"type": "blind", "full_thread_depth": float("nan")}})


def test_nobody_listens():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    with Client(f"http://127.0.0.1:{port}", retries=0) as client, pytest.raises(ConnectFailed):
        client.version()


def test_busy_service_is_asked_again():
    busy = http("503 Service Unavailable", '{"code":"draining"}', "Retry-After: 0")
    with answering(busy, http("200 OK", '{"version":"1"}')) as (url, asked), Client(url) as client:
        assert client.version() == {"version": "1"}
        assert len(asked) == 2


@pytest.mark.parametrize("said", ["soon", "-5", "nan", "0.0", "", "Sun, 29 Nov 2015 08:00:00 GMT", "Sun, 99 Foo"])
def test_what_a_service_says_of_waiting_is_taken_whatever_it_is(said):
    busy = http("503 Service Unavailable", '{"code":"draining"}', f"Retry-After: {said}")
    with answering(busy, http("200 OK", '{"version":"1"}')) as (url, _), Client(url) as client:
        assert client.version() == {"version": "1"}


@pytest.mark.parametrize(
    ("said", "waits"),
    [
        ("2", 2),
        ("1.5", 1.5),
        ("86400", 60),
        ("inf", 60),
        ("Fri, 31 Dec 9999 23:59:59 GMT", 60),
        ("Thu, 01 Jan 1970 00:00:00 GMT", 0),
        ("-1", 0),
        ("nan", None),
        ("soon", None),
        (None, None),
    ],
)
def test_waiting_is_bounded(said, waits):
    assert retry_after.seconds(said) == waits
    if said is not None:
        assert retry_after.BoundedRetry().parse_retry_after(said) == (waits or 0)


def test_service_that_stays_away():
    busy = http("503 Service Unavailable", '{"code":"draining","detail":"draining"}', "Retry-After: 0")
    with answering(busy, busy) as (url, _), Client(url, retries=1) as client:
        with pytest.raises(ServiceUnavailable) as caught:
            client.version()
        assert caught.value.code == "draining"
        assert caught.value.retry_after == 0.0


def test_answer_that_breaks_off():
    with answering(b"HTTP/1.1 200 OK\r\nContent-Length: 99\r\n\r\n{") as (url, _):  # noqa: SIM117
        with Client(url, retries=0) as client, pytest.raises(NoAnswer):
            client.version()


def test_an_answer_that_breaks_off_is_asked_for_again():
    broken = b"HTTP/1.1 200 OK\r\nContent-Length: 99\r\n\r\n{"
    with answering(broken, broken, http("200 OK", '{"version":"1"}')) as (url, asked), Client(url) as client:
        assert client.version() == {"version": "1"}
        assert len(asked) == 3


def test_proxy_page_instead_of_json():
    with answering(http("200 OK", "<html>")) as (url, _):  # noqa: SIM117
        with Client(url, retries=0) as client, pytest.raises(NoAnswer, match="not JSON"):
            client.version()


def test_an_address_that_moved_is_followed(service_url):
    moved = http("308 Permanent Redirect", "", f"Location: {service_url}/v1/hole-specs")
    with answering(moved, moved) as (url, asked), Client(url) as client:
        assert client.hole_spec(BRACKET)["id"] == "KRP-4105-D1"
    assert asked[0].startswith(b"POST /v1/hole-specs ")


def test_key_travels_as_bearer_token():
    with answering(http("200 OK", "{}")) as (url, asked), Client(url, api_key="kr-1") as client:
        client.version()
    assert b"authorization: bearer kr-1" in asked[0].lower()


def test_own_session_is_used(service_url):
    session = requests.Session()
    session.headers["X-Request-Id"] = "krp-own-session"
    with Client(service_url, session=session) as client, pytest.raises(RequestRefused) as caught:
        client.resolve_thread("nothing")
    assert caught.value.request_id == "krp-own-session"


def test_every_error_is_one_family():
    for kind in (ConnectFailed, NoAnswer, RequestRefused, ServiceUnavailable):
        assert issubclass(kind, ClientError)
