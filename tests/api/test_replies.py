"""What each endpoint answers: the fields of the contract, valid by the published schemas, the same bytes every time."""

from __future__ import annotations

import ast
import json
import math
import os
import subprocess
import sys
from statistics import NormalDist

import jsonschema
import pytest
from borewright import tables
from borewright.contract.documents import published
from borewright.core import rounding

BLIND = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": {"name": "4140", "hardness": "28 HRC"},
    "finish": "ASTM B633 Fe/Zn 8",
}
THROUGH = {"id": "KRP-6008-F4", "thread": "M20", "hole": {"type": "through", "thickness": 25}, "material": "1045"}
GALVANIZED = {
    "thread": "5/8-11 UNC-2B",
    "hole": {"type": "through", "thickness": 0.75},
    "finish": "hot-dip galvanized ASTM F2329",
}
BARE = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}}

CASES = [
    ("/v1/threads/resolve", "thread-reply", {"thread": "1/2-13 UNC-2B"}),
    ("/v1/threads/resolve", "thread-reply", {"thread": "1/4-18 NPT"}),
    ("/v1/threads/resolve", "thread-reply", {"thread": "M10x1-6H LH", "unit_system": "inch"}),
    ("/v1/threads/resolve", "thread-reply", {"thread": "Tr 40x14 (P7)"}),
    ("/v1/drills/recommend", "drill-reply", {"thread": "1/4-20 UNC-2B"}),
    ("/v1/drills/recommend", "drill-reply", {"thread": "M8", "method": "form"}),
    ("/v1/drills/recommend", "drill-reply", {"thread": "M8", "finish": {"thickness": "5 um"}, "percent_thread": 70}),
    ("/v1/allowances", "allowance-reply", {"thread": "1/4-28 UNF-2B", "finish": {"thickness": {"max": 0.0003}}}),
    ("/v1/allowances", "allowance-reply", {"thread": "M10", "finish": "ISO 10684"}),
    ("/v1/allowances", "allowance-reply", {"thread": "1/4-28 UNF-3B", "finish": {"thickness": "0.002 in"}}),
    ("/v1/taps/recommend", "tap-reply", {"thread": "1/2-13 UNC-2B"}),
    ("/v1/taps/recommend", "tap-reply", {"thread": "M8", "hole": BARE["hole"], "stock": {"taps": ["D5"]}}),
    ("/v1/taps/decode", "tap-decode-reply", {"marking": "1/2-13 NC HSS G H3"}),
    ("/v1/taps/decode", "tap-decode-reply", {"marking": "M8x1.25 HSS-E ISO 2 6H XQZ", "unit_system": "inch"}),
    ("/v1/hole-specs", "hole-spec-reply", BLIND),
    ("/v1/hole-specs", "hole-spec-reply", {**BLIND, "unit_system": "metric"}),
    ("/v1/hole-specs", "hole-spec-reply", THROUGH),
    ("/v1/hole-specs", "hole-spec-reply", GALVANIZED),
    ("/v1/hole-specs", "hole-spec-reply", BARE),
]

SCHEMAS = {name: jsonschema.Draft202012Validator(json.loads(text)) for name, text in published.schemas_json().items()}


def answer(client, path, body):
    response = client.post(path, json=body)
    assert response.status_code == 200, response.json
    return response.json


@pytest.mark.parametrize(("path", "schema", "body"), CASES)
@pytest.mark.parametrize("explain", [False, True])
def test_reply_follows_its_schema(client, path, schema, body, explain):
    reply = answer(client, path, {**body, "explain": explain})
    SCHEMAS[schema].validate(reply)
    assert ("derivation" in reply) is explain
    assert reply["tables_version"] == tables.version()


def closed(schema):
    """The schema, in which an object has no properties but those that it lists."""
    if isinstance(schema, list):
        return [closed(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    inner = {name: closed(value) for name, value in schema.items()}
    return {"additionalProperties": False, **inner} if isinstance(schema.get("properties"), dict) else inner


@pytest.mark.parametrize(("path", "schema", "body"), CASES)
def test_reply_holds_nothing_that_is_not_listed(client, path, schema, body):
    """Clients bear more than the schema lists; the service gives no more."""
    reply = answer(client, path, {**body, "explain": True})
    strict = jsonschema.Draft202012Validator(closed(SCHEMAS[schema].schema))
    strict.validate(reply)
    assert not strict.is_valid({**reply, "inside": 1})


def test_contract_example_of_a_thread(client):
    """The figures that the contract itself shows for 1/2-13 UNC-2B."""
    reply = answer(client, "/v1/threads/resolve", {"thread": "1/2-13 UNC-2B"})
    shown = {
        "designation": "1/2-13 UNC-2B", "system": "unified", "series": "UNC", "class": "2B", "hand": "right",
        "starts": 1, "nominal_diameter": 0.5, "pitch": 0.0769231, "threads_per_inch": 13,
        "thread_angle": 60, "taper": None,
        "basic": {"major_diameter": 0.5, "pitch_diameter": 0.45, "minor_diameter": 0.4167},
        "internal": {
            "major_diameter": {"min": 0.5, "max": None},
            "pitch_diameter": {"min": 0.45, "max": 0.4565},
            "minor_diameter": {"min": 0.417, "max": 0.434},
        },
        "mating_class": "2A",
    }  # fmt: skip
    assert {name: reply[name] for name in shown} == shown


def test_contract_example_of_a_plated_thread(client):
    """ASME B1.1 practice, 1/4-28 UNF-2B with 0.0002 to 0.0003 in a side: make the pitch diameter 0.2280 to 0.2319."""
    reply = answer(
        client, "/v1/allowances", {"thread": "1/4-28 UNF-2B", "finish": {"thickness": {"min": 0.0002, "max": 0.0003}}}
    )
    assert reply["before_finish"]["pitch_diameter"] == {"min": 0.228, "max": 0.2319}
    assert reply["change"]["pitch_diameter"] == {"min": -0.0012, "max": -0.0008}
    assert reply["feasible"] is True
    assert reply["tap"]["label"].startswith("H")


def test_galvanized_hole_is_tapped_afterwards(client):
    reply = answer(client, "/v1/hole-specs", GALVANIZED)
    assert (
        reply["finish"]["overtap"]["limits"]["pitch_diameter"]["min"]
        > reply["thread"]["internal"]["pitch_diameter"]["min"]
    )
    order = [line["operation"] for line in reply["operations"]]
    assert order.index("finish") < order.index("tap")


def test_sections_of_a_specification_are_those_of_the_single_endpoints(client):
    spec = answer(client, "/v1/hole-specs", BARE)
    thread = answer(client, "/v1/threads/resolve", {"thread": "M8"})
    assert spec["thread"] == {name: thread[name] for name in spec["thread"]}
    finish = {"thread": "3/8-16 UNC-2B", "finish": BLIND["finish"], "material": BLIND["material"]}
    allowance = answer(client, "/v1/allowances", finish)
    section = answer(client, "/v1/hole-specs", BLIND)["finish"]
    assert section == {name: allowance[name] for name in section}


def test_fields_of_later_sections_are_left_out(client):
    reply = answer(client, "/v1/hole-specs", BARE)
    assert reply["finish"] is None
    assert all(value != {} for value in reply.values())


def test_sources_speak_for_fields_of_the_reply(client):
    reply = answer(client, "/v1/hole-specs", BLIND)
    assert len(reply["sources"]) > 5
    unknown = [source["for"] for source in reply["sources"] if not resolves(reply, source["for"].split("."))]
    assert unknown == []


def resolves(reply, names):
    for name in names:
        if not isinstance(reply, dict) or name not in reply:
            return False
        reply = reply[name]
    return True


def test_a_remark_is_made_once(client):
    reply = answer(client, "/v1/hole-specs", BLIND)
    texts = [caution["text"] for caution in reply["cautions"]]
    assert len(set(texts)) == len(texts)
    assert len(set(reply["assumptions"])) == len(reply["assumptions"])


_FUNCTIONS = {
    "sqrt": math.sqrt, "cbrt": math.cbrt, "min": min, "max": max, "sin": math.sin, "cos": math.cos, "tan": math.tan,
    "rad": math.radians, "exp": math.exp, "ln": math.log, "pi": math.pi,
    "cdf": NormalDist().cdf, "pdf": NormalDist().pdf,
}  # fmt: skip


def redone(step):
    """The figure of a step, from its formula and inputs alone."""
    from decimal import Decimal

    def rounded(rule):
        # Twelve decimals first: a tie of exact decimals is no tie any more in binary floats.
        return lambda value, places: float(rule(Decimal(repr(round(float(value), 12))), int(places)))

    names = {
        **_FUNCTIONS,
        "half_even": rounded(rounding.half_even),
        "half_up": rounded(rounding.half_up),
        "up": rounded(rounding.upward),
        "down": rounded(rounding.downward),
        **{name: value for name, value in step["inputs"].items() if isinstance(value, (int, float))},
    }
    tree = ast.parse(step["formula"], mode="eval")
    return eval(compile(tree, "formula", "eval"), {"__builtins__": {}}, names)


@pytest.mark.parametrize("body", [BLIND, THROUGH, BARE])
def test_derivation_redoes_the_figures(client, body):
    steps = answer(client, "/v1/hole-specs?explain=true", body)["derivation"]
    computed = [step for step in steps if step["formula"] != "table"]
    assert len(computed) > 5
    for step in computed:
        if isinstance(step["value"], (int, float)):
            assert redone(step) == pytest.approx(step["value"], rel=1e-6, abs=6e-5), step


def test_explain_in_the_query_is_explain_in_the_body(client):
    by_query = client.post("/v1/hole-specs?explain=true", json=BARE).data
    assert by_query == client.post("/v1/hole-specs", json={**BARE, "explain": True}).data


def test_get_answers_as_post(client):
    got = client.get("/v1/threads", query_string={"thread": "M10x1-6H LH", "unit_system": "inch", "explain": "true"})
    posted = client.post("/v1/threads/resolve", json={"thread": "M10x1-6H LH", "unit_system": "inch", "explain": True})
    assert got.data == posted.data


def test_same_bytes_in_another_process(client):
    here = [client.post(path, json=body).data.hex() for path, _, body in CASES]
    program = (
        "import json, sys\nfrom borewright.api import create_app\nclient = create_app().test_client()\n"
        "print(json.dumps([client.post(path, json=body).data.hex() for path, _, body in json.load(sys.stdin)]))"
    )
    there = subprocess.run(
        [sys.executable, "-c", program],
        input=json.dumps(CASES[::-1]),
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONHASHSEED": "4711"},
    )
    assert json.loads(there.stdout) == here[::-1]


def test_reply_is_not_changed_by_those_that_follow(client):
    """Sections are shared between replies through caches."""
    first = client.post("/v1/hole-specs", json=BLIND).data
    for path, _, body in CASES:
        client.post(path, json={**body, "explain": True})
    assert client.post("/v1/hole-specs", json=BLIND).data == first


# --- catalogues --------------------------------------------------------------------------------------


def test_thread_catalog_pages_through_everything(client):
    first = client.get("/v1/threads/catalog?system=iso_metric&page_size=50").json
    SCHEMAS["thread-catalog-reply"].validate(first)
    found = []
    for page in range(1, first["pages"] + 1):
        found += client.get(f"/v1/threads/catalog?system=iso_metric&page_size=50&page={page}").json["items"]
    assert len(found) == first["total"] == len({(item["designation"], item["series"]) for item in found})
    assert client.get("/v1/threads/catalog?system=iso_metric&page=9999").json["items"] == []


def test_thread_catalog_filters(client):
    unc = client.get("/v1/threads/catalog?system=unified&series=unc&min_diameter=1/2%20in&max_diameter=0.75%20in").json[
        "items"
    ]
    assert [item["designation"] for item in unc] == ["1/2-13 UNC", "9/16-12 UNC", "5/8-11 UNC", "3/4-10 UNC"]
    metric = client.get(
        "/v1/threads/catalog?system=unified&min_diameter=12.7&max_diameter=12.7&unit_system=metric"
    ).json
    assert {item["nominal_diameter"] for item in metric["items"]} == {12.7}
    assert metric["units"]["length"] == "mm"


def test_every_catalogued_size_resolves(client):
    items = client.get("/v1/threads/catalog?system=unified&page_size=500").json["items"]
    for item in items[::7]:
        assert client.get("/v1/threads", query_string={"thread": item["designation"]}).status_code == 200, item


@pytest.mark.parametrize("name", ["materials", "finishes", "drills", "tap-limits", "thread-systems", "units"])
def test_catalogue(client, name):
    reply = client.get(f"/v1/catalog/{name}").json
    SCHEMAS["catalogue-reply"].validate(reply)
    assert len(reply["items"]) >= 15
    assert reply["tables_version"] == tables.version()


def test_version_and_health(client):
    SCHEMAS["version-reply"].validate(client.get("/v1/version").json)
    assert client.get("/health/live").json == {"status": "live"}
    assert client.get("/health/ready").json == {"status": "ready"}


def test_documents_are_served_as_published(client):
    assert client.get("/openapi.json").data == published.openapi_json()
    for name, text in published.schemas_json().items():
        assert client.get(f"/schemas/{name}.schema.json").data == text
