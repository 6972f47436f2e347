"""The client that waits and the one that is awaited: the same calls, the same answers, one declaration."""

from __future__ import annotations

import asyncio
import inspect
import socket
import subprocess
import sys
from collections.abc import AsyncIterator, Iterable, Iterator
from decimal import Decimal
from typing import Any

import httpx
import pytest
from borewright_client import Client, ClientError, ConnectFailed, RequestRefused, ServiceUnavailable, replies
from borewright_client.async_client import AsyncClient
from borewright_client.call import Called, written
from borewright_client.calls import Calls
from raw_answers import answering, http

HOLE = {"id": "KRP-1", "thread": "M8", "hole": {"type": "through", "thickness": 12}, "material": "1045"}
HELD = {"kind": "drilled_hole", "drill": "6.8 mm", "material": "1045", "measured": [6.86, 6.87, 6.85, 6.88]}
PLAN = {"drill": "6.8 mm", "tap": "M8x1.25 HSS G D5"}
HOLES = [{**HOLE, "id": f"KRP-{number}"} for number in range(25)]

#: Every method with what it is called with.
CALLS: dict[str, tuple[tuple[Any, ...], dict[str, Any]]] = {
    "resolve_thread": (("M8",), {"unit_system": "inch"}),
    "recommend_drill": (("1/2-13 UNC-2B",), {}),
    "allowance": (("1/4-28 UNF-2B", "ASTM B633 Fe/Zn 5"), {}),
    "recommend_tap": (("M8",), {}),
    "decode_tap": (("M8 D5",), {}),
    "read_note": (("4X M6 THRU",), {"defaults": {"hole": {"thickness": 5}}}),
    "rework": (({**HOLE, "found": {"condition": "stripped", "edge_distance": 20}},), {}),
    "rework_batch": (([{**HOLE, "found": {"condition": "stripped", "edge_distance": 20}}] * 2,), {}),
    "read_sheet": ((b"thread,type,thickness\r\nM8,through,10 mm\r\n",), {}),
    "fit_shop_figures": (([HELD],), {}),
    "hole_spec": ((HOLE,), {}),
    "hole_spec_figures": ((HOLE,), {}),
    "hole_spec_routing": ((HOLE,), {}),
    "drawing": ((HOLE,), {}),
    "b2mml": ((HOLE,), {}),
    "b2mml_part": (({"holes": HOLES[:3]},), {}),
    "b2mml_batch": ((HOLES[:2],), {}),
    "audit": (({**HOLE, "as_planned": PLAN},), {}),
    "audit_batch": (([{**HOLE, "as_planned": PLAN}],), {"defaults": {"material": "1045"}}),
    "compare": (({"request": HOLE, "spec_id": "0" * 32},), {}),
    "compare_batch": (([{"before": {"request": HOLE, "spec_id": "0" * 32}}] * 3,), {"slice_size": 2}),
    "batch": ((HOLES,), {"slice_size": 10, "defaults": {"detail": "routing"}}),
    "plan_part": (({"holes": HOLES[:3], "detail": "routing"},), {}),
    "threads": ((), {"system": "iso_metric", "page_size": 5}),
    "thread_pages": ((), {"system": "iso_metric", "series": "coarse", "page_size": 20}),
    "catalog": (("units",), {}),
    "version": ((), {}),
    "ready": ((), {}),
}


def waited(url: str, name: str) -> Any:
    with Client(url) as client:
        return asked(client, name)


def asked(client: Client, name: str) -> Any:
    given, named = CALLS[name]
    found = getattr(client, name)(*given, **named)
    return list(found) if isinstance(found, Iterator) else found


async def awaited(url: str, name: str) -> Any:
    return (await all_awaited(url, [name]))[name]


async def all_awaited(url: str, names: Iterable[str]) -> dict[str, Any]:
    answers = {}
    async with AsyncClient(url) as client:
        for name in names:
            given, named = CALLS[name]
            found = getattr(client, name)(*given, **named)
            answers[name] = [one async for one in found] if isinstance(found, AsyncIterator) else await found
    return answers


def test_both_have_every_call_and_answer_alike(service_url):
    methods = {name for name, member in inspect.getmembers_static(Calls) if hasattr(member, "sender")}
    assert methods == CALLS.keys()
    awaited_answers = asyncio.run(all_awaited(service_url, CALLS))
    with Client(service_url) as client:
        for name in CALLS:
            assert asked(client, name) == awaited_answers[name], name
            assert getattr(Client, name).__doc__
    assert isinstance(inspect.getattr_static(Client, "hole_spec"), Called)


def test_all_pages_are_all_sizes(service_url):
    pages = waited(service_url, "thread_pages")
    assert len(pages) == pages[0]["pages"] > 1
    sizes = [item["designation"] for page in pages for item in page["items"]]
    assert len(sizes) == len(set(sizes)) == pages[0]["total"]


def test_decimals_are_numbers(service_url):
    with Client(service_url) as client:
        spec = client.hole_spec(
            {"thread": "1/2-13 UNC-2B", "hole": {"type": "blind", "full_thread_depth": Decimal("0.8")}}
        )
    assert spec["depths"]["full_thread_depth"] == 0.8
    assert written({"a": Decimal("0.3125"), "b": Decimal(12)}) == b'{"a":0.3125,"b":12.0}'
    for value in (Decimal("NaN"), Decimal("Infinity"), Decimal("0.12345678901234567890")):
        with pytest.raises(ValueError, match=r"digits|JSON compliant"):
            written({"a": value})
    with pytest.raises(TypeError):
        written({"a": object()})


def test_each_says_who_asks():
    for ask, library in ((waited, b"requests/"), (lambda url, name: asyncio.run(awaited(url, name)), b"httpx/")):
        with answering(http("200 OK", "{}")) as (url, asked):
            ask(url, "version")
        head = asked[0].lower()
        assert b"user-agent: borewright-client/" in head
        assert library in head


def awaited_error(url: str, **given: Any) -> ClientError:
    async def ask() -> None:
        async with AsyncClient(url, **given) as client:
            await client.resolve_thread("1/2-14 UNC")

    with pytest.raises(ClientError) as caught:
        asyncio.run(ask())
    return caught.value


def test_errors_are_the_same_when_awaited(service_url):
    refused = awaited_error(service_url)
    assert isinstance(refused, RequestRefused)
    assert refused.errors[0]["pointer"] == "/thread"
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    assert isinstance(awaited_error(f"http://127.0.0.1:{port}", retries=1), ConnectFailed)
    busy = http("503 Service Unavailable", '{"code":"draining"}', "Retry-After: 0")
    with answering(busy, busy) as (url, asked):
        assert isinstance(awaited_error(url, retries=1), ServiceUnavailable)
        assert len(asked) == 2
    with answering(busy, http("200 OK", '{"version":"1"}')) as (url, _):
        assert asyncio.run(awaited(url, "version")) == {"version": "1"}
    with answering(http("200 OK", "<html>")) as (url, _):
        assert "not JSON" in str(awaited_error(url))
    with answering(busy) as (url, _):
        assert asyncio.run(ready(url)) is False


async def ready(url: str) -> bool:
    async with AsyncClient(url, retries=0, api_key="kr-1") as client:
        return await client.ready()


def test_an_own_session_is_used_and_broken_streams_go_on(service_url):
    """The second of three connections breaks within its answer: nothing is lost, nothing comes twice."""
    seen: list[httpx.Request] = []

    class Breaking(httpx.AsyncHTTPTransport):
        async def handle_async_request(self, request: httpx.Request) -> httpx.Response:
            seen.append(request)
            response = await super().handle_async_request(request)
            if len(seen) == 2:
                whole = await response.aread()
                return httpx.Response(200, content=whole[: len(whole) // 3])
            return response

    async def ask() -> list[Any]:
        async with AsyncClient(service_url, session=httpx.AsyncClient(transport=Breaking())) as client:
            return [one async for one in client.batch(HOLES, slice_size=10)]

    found = asyncio.run(ask())
    assert [(one["index"], one["id"]) for one in found] == [(n, f"KRP-{n}") for n in range(25)]
    assert len(seen) == 4


#: What the client sends with is of no account here, and three times as much as the client itself.
STRICT = "[mypy]\nstrict = true\n[mypy-httpx.*,requests.*,urllib3.*]\nfollow_imports = skip\n"


def test_mypy_sees_a_misspelt_field(tmp_path):
    good, bad, settings = tmp_path / "good.py", tmp_path / "bad.py", tmp_path / "mypy.ini"
    settings.write_text(STRICT)
    good.write_text(
        'from borewright_client import Client\nspec = Client("").hole_spec({})\n'
        'if spec["drill"] is not None:\n    label: str = spec["drill"]["recommended"]["label"]\n'
    )
    bad.write_text(
        "from borewright_client.async_client import AsyncClient\n"
        "async def pitch(client: AsyncClient) -> None:\n"
        '    print((await client.hole_spec({}))["thread"]["pich"])\n'
    )
    ran = subprocess.run(
        [sys.executable, "-m", "mypy", f"--config-file={settings}", f"--cache-dir={tmp_path}", str(good), str(bad)],
        capture_output=True, text=True, check=False, cwd=tmp_path, timeout=120,
    )  # fmt: skip
    assert ran.stdout.count("error:") == 1, ran.stdout + ran.stderr
    assert 'bad.py:3: error: "pich" is not a valid TypedDict key' in ran.stdout


def test_types_are_those_of_the_replies(service_url):
    spec = waited(service_url, "hole_spec")
    assert spec.keys() <= replies.HoleSpecReply.__annotations__.keys()
    assert spec["drill"].keys() <= replies.DrillSection.__annotations__.keys()
