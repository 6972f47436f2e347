"""POST /v1/hole-specs/compare: what differs from a kept specification, why, and whether the shop must know."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
from borewright.contract.compare.causes import Versions, of_service
from borewright.contract.compare.differences import Walk
from borewright.contract.documents import published
from borewright.contract.sections.detail import BY_DETAIL

ONE, MANY = "/v1/hole-specs/compare", "/v1/hole-specs/compare/batch"
REPLY = jsonschema.Draft202012Validator(json.loads(published.schemas_json()["compare-reply"]))
MANY_REPLY = jsonschema.Draft202012Validator(json.loads(published.schemas_json()["compare-batch-reply"]))
HOLE = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": {"name": "4140", "hardness": "28 HRC"},
    "finish": "ASTM B633 Fe/Zn 8",
}
DEEPER = {**HOLE, "hole": {"type": "blind", "full_thread_depth": 0.8}}


@pytest.fixture
def kept(client):
    def ask(**fields: Any) -> dict[str, Any]:
        return client.post("/v1/hole-specs", json={**HOLE, **fields}).json

    return ask


@pytest.fixture
def compared(client):
    def ask(before: Any, after: Any = None) -> dict[str, Any]:
        answer = client.post(ONE, json={"before": before, **({"after": after} if after else {})})
        assert answer.status_code == 200, answer.text
        REPLY.validate(answer.json)
        return answer.json

    return ask


def changed(comparison: dict[str, Any]) -> dict[str, tuple[Any, Any]]:
    return {one["pointer"]: (one["before"], one["after"]) for one in comparison["changes"]}


@pytest.mark.parametrize("detail", ["full", "figures", "routing"])
@pytest.mark.parametrize("system", ["inch", "metric"])
def test_nothing_differs_while_nothing_changed(kept, compared, detail, system):
    inch = {"hole": {"type": "blind", "full_thread_depth": "0.75 in"}}
    found = compared(kept(**inch, detail=detail, unit_system=system), {**HOLE, **inch})
    assert (found["verdict"], found["same_request"], found["why"]) == ("keep", True, [])
    assert {one["subject"] for one in found["changes"]} <= {"version"}  # the name, which has the units in it
    assert found["detail"] == detail
    assert [text for text in found["assumptions"] if "compared in mm" in text] != [] or system == "inch"


def test_another_request_is_none_of_the_same_in_other_units(kept, compared):
    """A name is made of the request and the unit in which it was answered."""
    reply = kept(hole={"type": "blind", "full_thread_depth": "0.75 in"}, unit_system="metric")
    found = compared(reply, {**HOLE, "hole": {"type": "blind", "full_thread_depth": "0.8 in"}})
    assert (found["verdict"], found["same_request"]) == ("update", False)
    assert [(one["cause"], one["certain"]) for one in found["why"]] == [("request", True)]


def test_a_deeper_thread_is_told_as_the_request(kept, compared):
    found = compared(kept(), DEEPER)
    assert (found["verdict"], found["same_request"]) == ("update", False)
    assert [(one["cause"], one["certain"]) for one in found["why"]] == [("request", True)]
    before, after = changed(found)["/depths/drill_depth"]
    assert after - before == pytest.approx(0.05)  # 0.8 - 0.75, all else is the same
    assert changed(found)["/operations/3/parameters/full_thread_depth"] == (0.75, 0.8)
    matter = {one["pointer"]: one["matters"] for one in found["changes"]}
    assert matter["/depths/drill_depth"]
    assert not matter["/operations/1/time"]
    assert not matter["/spec_id"]
    assert [one["matters"] for one in found["changes"]] == sorted(matter.values(), reverse=True)


def test_a_routing_is_compared_by_its_texts(kept, compared):
    found = compared(kept(detail="routing"), DEEPER)
    assert found["verdict"] == "update"
    assert "/headline/depth" in changed(found)
    reply = kept(detail="routing")
    reply["operations"][0]["text"] = "Centre the hole: " + reply["operations"][0]["text"]
    found = compared(reply, HOLE)
    assert [(one["subject"], one["matters"]) for one in found["changes"]] == [("words", False)]
    assert found["verdict"] == "keep"
    reply["headline"]["tap"] = reply["headline"]["tap"].replace("spiral flute", "spiral point")
    assert compared(reply, HOLE)["verdict"] == "update"


def older(reply: dict[str, Any], **versions: str) -> dict[str, Any]:
    """A reply as an earlier version with a smaller drill would have made it."""
    made = copy.deepcopy(reply) | versions
    made["drill"]["recommended"]["label"] = "N"
    made["assumptions"][0] = "said in other words"
    return made


@pytest.mark.parametrize(
    ("versions", "causes"),
    [
        ({"rules_version": "000000000000"}, ["rule"]),
        ({"rules_version": "000000000000", "tables_version": "111111111111"}, ["table", "rule"]),
        ({"tables_version": "111111111111"}, ["table"]),
        ({}, []),
    ],
)
def test_versions_tell_tables_and_rules_apart(kept, compared, versions, causes):
    found = compared({"request": HOLE, "reply": older(kept(), **versions)})
    assert found["verdict"] == "update"
    drill = next(one for one in found["changes"] if one["pointer"] == "/drill/recommended/label")
    assert (drill["before"], drill["subject"], drill["matters"]) == ("N", "tool", True)
    assert drill["why"] == causes
    assert [one["certain"] for one in found["why"]] == [len(causes) == 1] * len(causes)


def test_the_name_tells_the_request_of_an_older_version(client, kept, compared, monkeypatch):
    """`spec_id` is a hash of request and rules: with the kept rules it can be made again."""
    from borewright.core.plan import rules_version

    with monkeypatch.context() as earlier:
        earlier.setattr(rules_version, "version", lambda: "0123456789ab")
        reply = kept()
    reply["rules_version"] = "0123456789ab"
    assert compared(reply, HOLE)["same_request"] is True
    assert compared(reply, DEEPER)["same_request"] is None  # the rules are others too, so that the hash says nothing
    assert compared(kept(method="form"), DEEPER)["same_request"] is False


def test_request_and_rules_are_told_apart_where_the_request_was_kept(kept, compared):
    before = {"request": HOLE, "reply": older(kept(), rules_version="000000000000")}
    found = compared(before, DEEPER)
    why = {one["pointer"]: one["why"] for one in found["changes"]}
    assert why["/drill/recommended/label"] == ["rule"]
    assert why["/depths/drill_depth"] == ["request"]


def test_a_name_alone_tells_only_whether_it_is_the_same(kept, compared):
    name = kept()["spec_id"]
    assert compared({"request": HOLE, "spec_id": name})["verdict"] == "keep"
    renamed = compared({"request": HOLE, "spec_id": name}, {**HOLE, "id": "KRP-4105-D2"})
    assert (renamed["verdict"], renamed["same_request"], renamed["changes"]) == ("keep", True, [])
    found = compared({"request": HOLE, "spec_id": "0" * 32})
    assert (found["verdict"], found["same_request"], found["changes"]) == ("review", None, [])
    found = compared({"request": HOLE, "spec_id": name}, DEEPER)
    assert found["verdict"] == "update"
    assert {tuple(one["why"]) for one in found["changes"]} == {("request",)}


def test_fields_of_one_version_only_are_no_change(kept, compared):
    reply = kept()
    del reply["notice"], reply["thread"]["tolerance"], reply["limits"]["gauge_now"]
    reply["limits"]["lobes"] = 3
    found = compared(reply, HOLE)
    apart = {one["pointer"]: one["why"] for one in found["not_compared"]}
    assert apart["/notice"] == apart["/limits/gauge_now"] == "not_kept"
    assert apart["/limits/lobes"] == "no_longer_answered"
    assert found["verdict"] == "keep"
    del reply["gauging"]
    assert compared(reply, HOLE)["verdict"] == "review"  # nobody can say that the gauges are the same


def test_results_of_batches_are_read(client, kept, compared):
    result = client.post("/v1/hole-specs/batch", json={"items": [HOLE, {**HOLE, "thread": "1/4"}]}).json["results"]
    assert compared(result[0], HOLE)["verdict"] == "keep"
    assert compared({**result[0], "request": HOLE})["verdict"] == "keep"
    answer = client.post(ONE, json={"before": result[1], "after": HOLE})
    assert (answer.status_code, answer.json["code"]) == (422, "kept_problem")


WRONG = [
    ({}, "/before", "field_missing"),
    ({"before": []}, "/before", "field_type_wrong"),
    ({"before": {"hello": 1}, "after": HOLE}, "/before/spec_id", "kept_reply_unreadable"),
    ({"before": {"spec_id": "x", "operations": "none"}, "after": HOLE}, "/before/operations", "kept_reply_unreadable"),
    ({"before": {"spec_id": "x", "operations": []}}, "/after", "kept_request_missing"),
    ({"before": {"request": HOLE}}, "/before/spec_id", "field_missing"),
    ({"before": {"request": HOLE, "spec_id": 5}}, "/before/spec_id", "field_type_wrong"),
    ({"before": {"request": 5, "spec_id": "x"}}, "/before/request", "field_type_wrong"),
    ({"before": {"request": HOLE, "spec_id": "x", "when": 1}}, "/before/when", "field_unknown"),
    ({"before": {"request": {**HOLE, "thread": "1/4"}, "spec_id": "x"}}, "/before/request/thread", "callout_ambiguous"),
    ({"before": {"request": HOLE, "spec_id": "x"}, "after": {"thread": "M8"}}, "/after/hole", "field_missing"),
    ({"before": {"request": HOLE, "reply": []}}, "/before/reply", "field_type_wrong"),
    ({"before": {"spec": None}, "after": HOLE}, "/before/spec", "field_type_wrong"),
    ({"before": {"request": HOLE, "spec_id": "x"}, "explain": True}, "/explain", "field_unknown"),
]


@pytest.mark.parametrize(("body", "pointer", "code"), WRONG)
def test_what_cannot_be_compared_is_refused_with_its_place(client, body, pointer, code):
    answer = client.post(ONE, json=body)
    assert answer.status_code == 422
    assert (answer.json["errors"][0]["pointer"], answer.json["errors"][0]["code"]) == (pointer, code)


def places(value: Any, way: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    yield way
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, part in inside:
        yield from places(part, (*way, name))


@pytest.mark.parametrize("detail", ["full", "figures", "routing"])
def test_every_damage_is_found_and_none_breaks_it(client, kept, detail):
    """Every ninth field in turn holds something else: that part of the reply is told, and no other."""
    reply, walk = kept(detail=detail), Walk(texts_alone=detail == "routing")
    for way in list(places(reply))[1::9]:
        damaged = copy.deepcopy(reply)
        holder = damaged
        for name in way[:-1]:
            holder = holder[name]
        holder[way[-1]] = {"": [None, "\u20ac/~", {"code": 7}]}
        found = list(walk.differences(BY_DETAIL[detail], damaged, reply))
        head = "".join(f"/{name}" for name in way[:1])
        assert found
        assert all(one.pointer.startswith(head) for one in found), way
    for value in (None, [], {}, "x", 5, True, {"length": [], "depth": {}, "code": []}):
        before = dict.fromkeys(reply, value) | {"spec_id": "x", "operations": [value]}
        assert client.post(ONE, json={"before": before, "after": HOLE}).status_code == 200


def test_a_whole_routing_line_by_line(client, kept):
    items = [
        {"id": "A", "before": kept(), "after": HOLE},
        {"id": "B", "before": kept(detail="routing"), "after": DEEPER},
        {"id": "C", "before": {"request": HOLE, "spec_id": "0" * 32}},
        {"id": "D", "before": {}},
    ]
    answer = client.post(MANY, json={"items": items}).json
    MANY_REPLY.validate(answer)
    assert answer["summary"] == {
        "items": 4, "ok": 3, "failed": 1, "verdicts": {"keep": 1, "update": 1, "review": 1}
    }  # fmt: skip
    assert answer["results"][1]["comparison"] == client.post(ONE, json=items[1]).json
    lines = b"".join(json.dumps(item).encode() + b"\n" for item in items)
    streamed = client.post(f"{MANY}?only=review", data=lines, content_type="application/x-ndjson")
    assert [json.loads(line)["id"] for line in streamed.data.splitlines()] == ["B", "C", "D"]
    assert client.post(MANY, data=b"id\n", content_type="text/csv").status_code == 415
    assert client.post(f"{MANY}?detail=routing", json={"items": []}).status_code == 422


def test_the_bounds_of_a_batch_hold_here_too(client, kept):
    long = json.dumps({"before": {**kept(), "more": "x" * 140_000}, "after": HOLE}).encode()
    deep = b'{"before": {"spec_id": "x", "operations": ' + b"[" * 40 + b"]" * 40 + b'}, "after": {}}'
    much = b'{"before": {"spec_id": "x", "operations": [' + b"[]," * 20_000 + b"[]]}}"
    answer = client.post(MANY, data=b"\n".join((long, deep, much)), content_type="application/x-ndjson")
    codes = [json.loads(line)["problem"]["code"] for line in answer.data.splitlines()]
    assert codes == ["line_too_long", "json_too_deep", "too_much_work"]


def test_unknown_versions_blame_nobody():
    now = Versions("b94bb09ec5ab", "de0d55a67d13")
    assert of_service(Versions(None, None), now) == ("table", "rule")
    assert of_service(now, now) == ()
