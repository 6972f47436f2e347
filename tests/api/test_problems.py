"""Every refusal is a problem (RFC 9457) with a stable code, a place, and a meaning that resolves on the service."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import borewright
import jsonschema
import orjson
import pytest
from borewright.api import create_app, problems
from borewright.contract import faults
from borewright.contract.documents import published
from borewright.core import errors
from syntax_trees import nodes
from werkzeug.exceptions import default_exceptions

PROBLEM = jsonschema.Draft202012Validator(orjson.loads(published.schemas_json()["problem"]))
SOURCE = Path(borewright.__file__).parent
HOLE = {"type": "blind", "full_thread_depth": 0.75}


def checked(answer, status, code):
    assert (answer.status_code, answer.json["code"]) == (status, code), answer.json
    assert answer.mimetype == "application/problem+json"
    PROBLEM.validate(answer.json)
    assert answer.json["type"] == f"/problems/{code}"
    assert answer.json["status"] == status
    assert answer.json["request_id"] == answer.headers["X-Request-Id"]
    return answer.json


REFUSED = [
    ("/v1/threads/resolve", {"thread": "1/4"}, "callout_ambiguous", "/thread"),
    ("/v1/threads/resolve", {"thread": "M6x1.1"}, None, "/thread"),
    ("/v1/threads/resolve", {"thread": "3/8 pipe"}, None, "/thread"),
    ("/v1/threads/resolve", {"thread": "1/2-13 UNC-2A"}, "thread_class_external", "/thread"),
    ("/v1/threads/resolve", {"thread": "nothing at all"}, None, "/thread"),
    ("/v1/threads/resolve", {"thread": {"system": "unifed", "size": "1/2"}}, None, "/thread/system"),
    (
        "/v1/threads/resolve",
        {"thread": "M8", "length_of_engagement": -1},
        "value_out_of_range",
        "/length_of_engagement",
    ),
    ("/v1/threads/resolve", {"thread": "M8", "length_of_engagement": "3 N*m"}, "quantity_dimension_wrong", None),
    ("/v1/threads/resolve", {"thread": "M8", "clas": "6H"}, "field_unknown", "/clas"),
    ("/v1/drills/recommend", {"thread": "M8", "stock": {"drills": ["nonsense"]}}, "drill_unknown", "/stock/drills/0"),
    ("/v1/allowances", {"thread": "M8", "finish": "ASTM B633 Fe/Zn 9000"}, None, None),
    ("/v1/allowances", {"thread": "M8", "finish": "sparkles"}, "finish_unknown", "/finish"),
    ("/v1/taps/decode", {"marking": "HSS"}, "tap_marking_unreadable", "/marking"),
    ("/v1/hole-specs", {"thread": "M8", "hole": {"type": "blind"}}, "hole_depth_missing", "/hole/full_thread_depth"),
    ("/v1/hole-specs", {"thread": "M8", "hole": {"type": "through"}}, "hole_depth_missing", "/hole/thickness"),
    (
        "/v1/hole-specs",
        {"thread": "1/2-13 UNC-2B", "hole": {**HOLE, "drill_depth_limit": 0.5}},
        "thread_deeper_than_hole",
        "/hole/full_thread_depth",
    ),
    (
        "/v1/hole-specs",
        {"thread": "1/2-13 UNC-2B", "hole": {**HOLE, "drill_depth_limit": 0.76}},
        "drill_depth_limit_too_shallow",
        "/hole/drill_depth_limit",
    ),
    (
        "/v1/hole-specs",
        {"thread": "M8", "hole": {"type": "through", "thickness": 8}, "material": "cheese", "strict": True},
        "material_unknown",
        "/material",
    ),
]


@pytest.mark.parametrize(("path", "body", "code", "pointer"), REFUSED, ids=lambda case: str(case)[:50])
def test_invalid_request(client, path, body, code, pointer):
    answer = client.post(path, json=body)
    problem = checked(answer, 422, code or answer.json["code"])
    assert problem["instance"] == path
    assert problem["errors"]
    first = problem["errors"][0]
    assert first["code"] == problem["code"]
    assert first["pointer"] == (pointer or first["pointer"])


def test_what_was_meant_is_offered(client):
    problem = client.post("/v1/threads/resolve", json={"thread": "1/4"}).json
    assert {"1/4-20 UNC", "1/4-28 UNF"} <= {text.removesuffix("-2B") for text in problem["errors"][0]["did_you_mean"]}
    problem = client.post("/v1/allowances", json={"thread": "M8", "finish": {"specification": "ASTM B63"}}).json
    assert any("B633" in text for text in problem["errors"][0]["did_you_mean"])


def test_every_fault_is_listed_and_counted(client):
    problem = client.post("/v1/hole-specs", json={"thread": 5, "hole": {"type": "x"}, "y": 1}).json
    assert [fault["pointer"] for fault in problem["errors"]] == ["/thread", "/hole/type", "/y"]
    assert "2 more" in problem["detail"]


#: What a person does first, then what was told to him; each was found by trying the service as five kinds of user.
WORDS = [
    ({"thread": "1/2-13", "hole": {"type": "blind", "full_thread_depth": "1/2"}}, "write one behind it", ["1/2 in"]),
    ({"thread": "1/2-13", "hole": {"type": "blind", "full_thread_depth": "9 MM"}}, "'MM' is not a unit", ["mm"]),
    ({"thread": "1/2-13", "hole": {"type": "blind", "full_thread_depth": "9 millimeters"}}, "not a unit", ["mm"]),
    ({"thread": "M8", "hole": HOLE, "material": "4140", "finish": "zinc"}, 'The finish "zinc" can mean', None),
    ({"hole": HOLE}, "`thread` is needed and is not there.", None),
]


def test_words_say_what_is_wrong_and_what_to_do(client):
    for body, told, meant in WORDS:
        problem = client.post("/v1/hole-specs", json=body).json
        assert told in problem["detail"]
        assert problem["remedy"]
        assert meant is None or problem["errors"][0]["did_you_mean"][:1] == meant
    inch = {"thread": "1/2-13", "hole": {"type": "blind", "full_thread_depth": "0.5 inch"}}
    assert client.post("/v1/hole-specs", json=inch).json["depths"]["full_thread_depth"] == 0.5
    marked = b"\xef\xbb\xbf" + b'{"thread": "M8"}'
    problem = client.post("/v1/threads/resolve", data=marked, content_type="application/json").json
    assert "UTF-8 without BOM" in problem["detail"]


def test_callout_depth_finish_and_material_are_told_together(client):
    bad = {"thread": "1/4-20 UMC", "hole": {"type": "blind", "full_thread_depth": "foo"}, "finish": "sparkles",
           "material": {"name": "4140", "hardness": "hard"}}  # fmt: skip
    problem = client.post("/v1/hole-specs", json=bad).json
    pointers = {fault["pointer"] for fault in problem["errors"]}
    assert pointers == {"/hole/full_thread_depth", "/thread", "/finish", "/material/hardness"}
    assert "(3 more in `errors`)" in problem["detail"]
    read = {**bad, "thread": "1/4-20 UNC", "hole": {"type": "blind"}}  # refused by the domain, not by the schema
    problem = client.post("/v1/hole-specs", json=read).json
    pointers = {fault["pointer"] for fault in problem["errors"]}
    assert pointers == {"/hole/full_thread_depth", "/finish", "/material/hardness"}


@pytest.mark.parametrize("code", sorted(problems.KINDS))
def test_every_problem_has_cause_example_and_remedy(client, code):
    """An example that is a whole request meets its problem."""
    meaning = client.get(f"/problems/{code}").json
    assert all(meaning[part].strip() for part in ("cause", "example", "remedy"))
    method, _, asked = meaning["example"].partition(" ")
    path, _, body = asked.partition(" ")
    if method == "POST" and body.startswith(("{", "[")) and "..." not in body and "(" not in body:
        answer = client.post(path, data=body, content_type="application/json").json
        found = answer["results"][0]["problem"] if "results" in answer else answer
        assert found["code"] == code
        assert found["remedy"] == meaning["remedy"]


def test_query_is_checked_as_a_body_is(client):
    problem = checked(client.get("/v1/threads?thred=M8"), 422, "field_missing")
    assert problem["errors"][1]["did_you_mean"] == ["thread"]
    checked(client.get("/v1/threads"), 422, "field_missing")
    checked(client.get("/v1/threads?thread=M8&thread=M6"), 422, "parameter_repeated")
    checked(client.get("/v1/threads?thread=M8&explain=yes"), 422, "field_type_wrong")
    checked(client.get("/v1/threads/catalog?page=0"), 422, "value_out_of_range")
    checked(client.get("/v1/threads/catalog?page=1.5"), 422, "field_type_wrong")
    checked(client.get("/v1/threads/catalog?page_size=501"), 422, "value_out_of_range")
    checked(client.post("/v1/hole-specs?explian=true", json={"thread": "M8", "hole": HOLE}), 422, "field_unknown")
    problem = checked(client.get("/v1/threads/catalog?system=unifed"), 422, "thread_system_unknown")
    assert "unified" in problem["errors"][0]["did_you_mean"]


def test_unknown_addresses(client):
    problem = checked(client.get("/v1/thread"), 404, "route_unknown")
    assert "/v1/threads" in problem["detail"]
    checked(client.get("/v2"), 404, "route_unknown")
    checked(client.get("/v1/threads/"), 404, "route_unknown")
    checked(client.get("/v1//threads?thread=M8"), 404, "route_unknown")
    checked(client.get("/%ff%fe/../../etc/passwd"), 404, "route_unknown")
    problem = checked(client.get("/v1/catalog/drill"), 404, "catalogue_unknown")
    assert problem["errors"][0]["did_you_mean"] == ["drills"]
    checked(client.get("/schemas/none.schema.json"), 404, "schema_unknown")
    checked(client.get("/problems/none"), 404, "problem_unknown")


def test_other_methods(client):
    answer = client.get("/v1/hole-specs")
    checked(answer, 405, "method_not_allowed")
    assert set(answer.headers["Allow"].split(", ")) == {"OPTIONS", "POST"}
    checked(client.delete("/v1/version"), 405, "method_not_allowed")
    assert client.options("/v1/hole-specs").mimetype == "application/json"


@pytest.mark.parametrize("accept", ["text/html", "image/png", "application/json;q=0", "text/*"])
def test_answers_that_cannot_be_made(client, accept):
    problem = checked(client.get("/v1/version", headers={"Accept": accept}), 406, "media_type_not_acceptable")
    assert problem["errors"][0]["allowed"] == ["application/json"]


@pytest.mark.parametrize(
    "accept", ["*/*", "application/*", "application/json", "text/html, application/json;q=0.5", "text/html, */*;q=0.1"]
)
def test_answers_that_can_be_made(client, accept):
    assert client.get("/v1/version", headers={"Accept": accept}).status_code == 200


def test_fault_of_ours_tells_nothing_but_the_request_id(caplog):
    app = create_app()

    def broken() -> str:
        raise RuntimeError("secret of the inside")

    app.add_url_rule("/broken", view_func=broken)
    answer = app.test_client().get("/broken", headers={"X-Request-Id": "krp-17"})
    problem = checked(answer, 500, "internal_error")
    assert problem["request_id"] == "krp-17"
    assert "secret" not in answer.get_data(as_text=True)
    assert "krp-17" in caplog.text
    assert "secret of the inside" in caplog.text


@pytest.mark.parametrize("status", sorted(default_exceptions))
def test_every_http_exception_is_a_problem(status):
    app = create_app()

    def broken() -> str:
        raise default_exceptions[status]()

    app.add_url_rule("/broken", view_func=broken)
    answer = app.test_client().get("/broken")
    assert answer.mimetype == "application/problem+json"
    PROBLEM.validate(answer.json)
    assert answer.status_code // 100 == status // 100


# --- codes -------------------------------------------------------------------------------------------


def test_every_code_resolves(client):
    listed = client.get("/problems").json["items"]
    assert {item["code"] for item in listed} == set(problems.KINDS)
    for item in listed:
        meaning = client.get(item["type"])
        assert meaning.json == item
        assert item["title"]


def test_codes_are_one_vocabulary():
    assert set(errors.CODES) <= set(problems.KINDS)
    assert set(faults.CODES) <= set(problems.KINDS)
    assert not set(errors.CODES) & set(faults.CODES)
    assert all(re.fullmatch(r"[a-z0-9_]+", code) for code in problems.KINDS)
    assert {problems.KINDS[code].status for code in (*errors.CODES, *faults.CODES)} == {422}


def test_every_code_is_raised_somewhere():
    """Each code stands as a text in the code, or in the balancer's, outside the table that documents it."""
    balancer = (Path(__file__).parents[2] / "docker" / "nginx.conf").read_text("utf-8")
    raised = dict.fromkeys(re.findall(r"^ +[0-9]{3} ([a-z_]+);", balancer, re.MULTILINE), 1)
    for path in SOURCE.rglob("*.py"):
        for node in nodes(path):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                raised[node.value] = raised.get(node.value, 0) + 1
    assert [code for code in problems.KINDS if raised.get(code, 0) < 2] == []


#: What the edge refuses, by the status that RFC 9110 and RFC 6585 have for it.
STATUSES = {
    400: """json_unreadable json_not_utf8 json_duplicate_key json_number_not_finite json_too_deep request_unreadable
    line_too_long upload_truncated csv_unreadable csv_column_unknown workbook_unreadable request_refused""",
    401: "key_missing_or_unknown",
    404: "route_unknown schema_unknown catalogue_unknown problem_unknown",
    405: "method_not_allowed",
    406: "media_type_not_acceptable",
    408: "request_too_slow",
    413: "body_too_large batch_too_large too_much_work",
    414: "address_too_long",
    415: "media_type_unsupported content_encoding_unsupported",
    429: "too_many_at_once",
    431: "header_too_large",
    500: "internal_error",
    501: "not_passed_on",
    502: "service_unreachable",
    503: "draining",
    504: "service_too_slow",
}


def test_every_code_of_the_edge_has_its_status():
    own = {code: kind.status for code, kind in problems.KINDS.items() if kind.status != 422}
    assert own == {code: status for status, codes in STATUSES.items() for code in codes.split()}
