"""POST /v1/hole-specs/audit: fields, verdicts, refusals with pointers, the same specification as /v1/hole-specs."""

from __future__ import annotations

import json

import jsonschema
import pytest
from borewright.contract.documents import published

SCHEMAS = {name: jsonschema.Draft202012Validator(json.loads(text)) for name, text in published.schemas_json().items()}
HOLE = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.5},
    "material": {"name": "4140", "hardness": "28 HRC"},
}
GOOD = {"drill": "5/16", "tap": "3/8-16 NC HSS G H5"}


def audited(client, planned, **fields):
    body = {**HOLE, **fields, "as_planned": planned}
    SCHEMAS["audit-request"].validate(body)
    answer = client.post("/v1/hole-specs/audit", json=body)
    assert answer.status_code == 200, answer.json
    SCHEMAS["audit-reply"].validate(answer.json)
    return answer.json


def codes(reply):
    return [(finding["severity"], finding["code"], finding["field"]) for finding in reply["findings"]]


def test_good_plan_is_accepted_with_the_specification_of_the_hole(client):
    reply = audited(client, GOOD)
    assert reply["verdict"] == "accept"
    assert reply["id"] == "KRP-4105-D1"
    assert reply["spec"] == client.post("/v1/hole-specs", json=HOLE).json


def test_wrong_pitch_is_rejected_with_what_was_planned_and_expected(client):
    reply = audited(client, {**GOOD, "tap": "3/8-24 NF HSS G H3"})
    assert reply["verdict"] == "reject"
    (finding,) = [finding for finding in reply["findings"] if finding["severity"] == "error"]
    assert finding["code"] == "tap_pitch_differs"
    assert finding["field"] == "tap"
    assert finding["planned"] == "3/8-24 NF HSS G H3"
    assert finding["expected"] == "3/8-16 UNC-2B"
    assert "24 threads per inch" in finding["text"]


def test_warning_asks_for_a_review(client):
    reply = audited(client, {**GOOD, "tap": {"marking": "3/8-16 NC HSS G H5", "style": "spiral_point"}})
    assert reply["verdict"] == "review"
    assert ("warning", "tap_style_unsuited", "tap") in codes(reply)


@pytest.mark.parametrize(
    ("depth", "system"), [(0.6, "inch"), ("0.6 in", "metric"), ("15.24 mm", None), (15.24, "metric")]
)
def test_depth_is_read_in_any_unit(client, depth, system):
    hole = {"type": "blind", "full_thread_depth": "0.5 in"}
    tap = {"limit": "H5", "chamfer": "plug"}
    reply = audited(client, {"drill": "5/16", "tap": tap, "drill_depth": depth}, hole=hole, unit_system=system)
    assert reply["verdict"] == "reject"
    assert ("error", "tap_chamfer_no_room", "drill_depth") in codes(reply)


def test_every_word_for_a_finish_is_one(client):
    for word in ("plate", "galvanize", "coat", "anodize", "finish"):
        planned = {**GOOD, "operations_order": ["drill", "tap", word]}
        reply = audited(client, {**planned, "tap": "3/8-16 NC HSS G +.0205"}, finish="hot-dip galvanized ASTM F2329")
        assert ("error", "galvanized_after_tapping", "operations_order") in codes(reply)


@pytest.mark.parametrize(
    ("planned", "pointer"),
    [
        ({"tap": "M8"}, "/as_planned/drill"),
        ({"drill": "27/64"}, "/as_planned/tap"),
        ({**GOOD, "tap": {}}, "/as_planned/tap"),
        ({**GOOD, "tap": {"style": "twisted"}}, "/as_planned/tap/style"),
        ({**GOOD, "spindle_speed": 0}, "/as_planned/spindle_speed"),
        ({**GOOD, "drill_depth": "5 psi"}, "/as_planned/drill_depth"),
        ({**GOOD, "drill_depth": "101 in"}, "/as_planned/drill_depth"),
        ({**GOOD, "operations_order": ["weld"]}, "/as_planned/operations_order/0"),
        ({**GOOD, "feed": 1}, "/as_planned/feed"),
        (None, "/as_planned"),
    ],
)
def test_what_cannot_be_read_is_refused_at_its_place(client, planned, pointer):
    answer = client.post("/v1/hole-specs/audit", json={**HOLE, "as_planned": planned})
    assert answer.status_code == 422
    SCHEMAS["problem"].validate(answer.json)
    assert [error["pointer"] for error in answer.json["errors"]] == [pointer]


def test_explain_adds_the_derivation_of_the_specification(client):
    assert "derivation" in audited(client, GOOD, explain=True)["spec"]
    assert "derivation" not in audited(client, GOOD)["spec"]


BATCH = "/v1/hole-specs/audit/batch"
BAD = {"thread": "M6x1.1", "hole": {"type": "through", "thickness": 5}, "as_planned": {"drill": "5", "tap": "M6"}}


def test_routing_is_audited_item_by_item(client):
    item = {**HOLE, "as_planned": GOOD}
    answer = client.post(BATCH, json={"defaults": {"finish": None}, "items": [item, BAD, HOLE]}).json
    SCHEMAS["audit-batch-request"].validate({"defaults": {"finish": None}, "items": [item]})
    SCHEMAS["audit-batch-reply"].validate(answer)
    verdict = answer["results"][0]["audit"]["verdict"]
    verdicts = {name: int(name == verdict) for name in ("accept", "review", "reject")}
    assert answer["summary"] == {"items": 3, "ok": 1, "failed": 2, "verdicts": verdicts}
    assert [result["status"] for result in answer["results"]] == ["ok", "error", "error"]
    assert answer["results"][0]["audit"] == client.post("/v1/hole-specs/audit", json=item).json
    assert answer["results"][1]["problem"]["errors"][0]["pointer"] == "/thread"
    assert answer["results"][2]["problem"]["errors"][0]["pointer"] == "/as_planned"


def test_routing_is_audited_line_by_line(client):
    items = [{**HOLE, "as_planned": GOOD}, BAD]
    body = b"".join(json.dumps(item).encode() + b"\n" for item in items)
    answer = client.post(BATCH, data=body, content_type="application/x-ndjson")
    assert [json.loads(line)["status"] for line in answer.data.splitlines()] == ["ok", "error"]


def test_a_plan_has_no_csv(client):
    assert client.post(BATCH, data=b"id,thread\n", content_type="text/csv").status_code == 415
