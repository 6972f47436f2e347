"""Fields that are judged whether or not a section of the reply needs them: status, code, pointer."""

import json

import pytest
from borewright.contract.documents import published

OPENAPI = json.loads(published.openapi_json())
HOLE = {"type": "blind", "full_thread_depth": "0.5 in"}
UNIFIED = {"thread": "3/8-16 UNC-2B", "hole": HOLE}
OVERSIZE, CODE = "/machine/drill_oversize", "value_out_of_range"
METRIC = {"thread": "M8", "hole": {"type": "through", "thickness": 20}}


@pytest.mark.parametrize(
    ("path", "body", "pointer", "code"),
    [
        ("/v1/hole-specs", {**METRIC, "edition": "2019"}, "/edition", None),
        ("/v1/threads/resolve", {"thread": "1/4-18 NPT", "edition": "1989"}, "/edition", None),
        ("/v1/hole-specs", {**UNIFIED, "mating_screw": {"class": "z"}}, "/mating_screw/class", "thread_class_unknown"),
        ("/v1/hole-specs", {**METRIC, "mating_screw": {"class": "zzz"}}, "/mating_screw/class", "thread_class_unknown"),
        ("/v1/hole-specs", {**UNIFIED, "mating_screw": {"grade": "x"}}, "/mating_screw/grade", "screw_grade_unknown"),
        ("/v1/hole-specs", {**METRIC, "machine": {"drill_oversize": "20 mm"}}, OVERSIZE, CODE),
        ("/v1/drills/recommend", {"thread": "M8", "machine": {"drill_oversize": "0.81 mm"}}, OVERSIZE, CODE),
        (
            "/v1/hole-specs",
            {**METRIC, "machine": {"drill_oversize": {"mean": 0.03, "standard_deviation": 0.9}}},
            f"{OVERSIZE}/standard_deviation",
            CODE,
        ),
        ("/v1/hole-specs", {"thread": "1/4-20 UNC-2B THRU", "hole": HOLE}, "/thread", "callout_has_depth"),
    ],
)  # fmt: skip
def test_a_wrong_field_is_refused_where_it_stands(client, path, body, pointer, code):
    reply = client.post(path, json=body)
    assert reply.status_code == 422
    fault = reply.json["errors"][0]
    assert fault["pointer"] == pointer
    assert code is None or fault["code"] == code


def test_the_largest_oversize_is_a_tenth_of_the_diameter(client):
    """M8: 0.8 mm."""
    fault = client.post("/v1/hole-specs", json={**METRIC, "machine": {"drill_oversize": 1}}).json["errors"][0]
    assert fault["allowed"] == ["0 to 0.8 mm"]
    assert client.post("/v1/hole-specs", json={**METRIC, "machine": {"drill_oversize": "0.05 mm"}}).status_code == 200


@pytest.mark.parametrize(
    ("thread", "asked"), [("1/4-18 NPT", "metric_d"), ("1/2 BSW", "inch_h"), ("1/4-20 UNC-2B", "metric_d")]
)
def test_limits_that_taps_of_a_thread_do_not_have_are_said(client, thread, asked):
    body = {"thread": thread, "hole": {"type": "through", "thickness": "1 in"}, "tap_limits": asked}
    words = {"metric_d": "D limits", "inch_h": "H limits"}[asked]
    assert any(words in line for line in client.post("/v1/hole-specs", json=body).json["assumptions"])


def test_the_audit_knows_every_operation_of_the_own_routing(client):
    body = {"thread": "M8 STI", "hole": {"type": "blind", "full_thread_depth": 16}, "material": "6061-T6"}
    own = client.post("/v1/hole-specs", json=body).json
    order = [one["operation"] for one in own["operations"]]
    tap = own["tap"]["recommended"]["marking"]
    plan = {"drill": own["drill"]["recommended"]["label"], "tap": tap, "operations_order": order}
    assert client.post("/v1/hole-specs/audit", json={**body, "as_planned": plan}).status_code == 200


#: A good request of each route; what is missing here is a batch or takes a hole.
GOOD = {
    "/v1/notes/read": {"note": "M8 - 12 deep"},
    "/v1/part-plans": {"holes": [METRIC]},
    "/v1/rework": {**METRIC, "found": {"condition": "stripped"}},
    "/v1/shop-figures/fit": {"measurements": [{"kind": "drilled_hole", "drill": "5/16", "measured": "0.3135 in"}]},
    "/v1/taps/decode": {"marking": "M8 D5"},
    "/v1/hole-specs/compare": {"before": {"request": METRIC, "spec_id": "krp-1"}},
    "/v1/hole-specs/audit": {**METRIC, "as_planned": {"drill": "6.8 mm", "tap": "D5"}},
    "/v1/drills/recommend": {"thread": "M8"},
    "/v1/taps/recommend": {"thread": "M8"},
    "/v1/threads/resolve": {"thread": "M8"},
    "/v1/allowances": {"thread": "M8", "finish": "ASTM B633 Fe/Zn 8"},
}
#: As JSON, for some of them Python writes otherwise.
ANYTHING = ("1e400", "1" + "0" * 400, "1" + "0" * 30, "5e-324", '{"a": {}}', "[[]]", "[{}]", "{}", '""', "-1", "true")


def _fields():
    """Every field of every body that is JSON, with whether it may be left out."""
    for path, methods in OPENAPI["paths"].items():
        content = methods.get("post", {}).get("requestBody", {}).get("content", {})
        schema = content.get("application/json", {}).get("schema", {})
        while "$ref" in schema:
            schema = OPENAPI["components"]["schemas"][schema["$ref"].rpartition("/")[2]]
        for name in schema.get("properties", {}):
            yield path, name, name not in schema.get("required", ())


def test_null_is_the_same_as_absent(client):
    without = {}
    for path, name, optional in _fields():
        good = GOOD.get(path, {"items": [METRIC]} if path.endswith("/batch") else METRIC)
        if optional and name not in good:
            if path not in without:
                without[path] = client.post(path, json=good).status_code
            with_null = client.post(path, json={**good, name: None})
            assert (with_null.status_code, without[path]) == (200, 200), (path, name)


def test_no_value_of_a_field_is_a_failure_of_the_service(client):
    for path, name, _ in _fields():
        good = GOOD.get(path, {"items": [METRIC]} if path.endswith("/batch") else METRIC)
        for value in ANYTHING:
            hole = f'{{"type": {value}, "thickness": {value}, "counterbore": {value}, "drill": {value}}}'
            inside = f'{{"unit_system": {value}, "material": {value}}}', f'{{"hole": {hole}}}', hole
            for written in (value, *(inside if name in ("defaults", "hole") else ())):
                body = json.dumps({**good, name: "HERE"}).replace('"HERE"', written)
                answer = client.post(path, data=body, content_type="application/json")
                assert answer.status_code < 500, (path, name, written)
