"""Every number of a request has a least and a greatest, told in its schema and in its refusal; none breaks a route."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any

import pytest
from borewright.api import create_app
from borewright.contract.documents import published

SCHEMAS = {name: json.loads(text) for name, text in published.schemas_json().items()}
Path = tuple[str, ...]
Json = dict[str, Any]

THREAD = {"system": "unified", "size": "1/2", "threads_per_inch": 13, "class": "2B"}
HOLE = {"type": "blind", "full_thread_depth": 1, "counterbore": {"diameter": 1}}
FINISH = {"thickness": {"min": 0.0002, "max": 0.0003}, "heat_treat_growth": {"min": 0, "max": 0.001}}
SPEC = {
    "thread": THREAD,
    "hole": HOLE,
    "material": {"name": "4140"},
    "finish": FINISH,
    "percent_thread": {"target": 70},
    "machine": {"drill_oversize": {"mean": 0.001}},
    "unit_system": "inch",
}
ROUTES: dict[str, tuple[str, Json]] = {
    "/v1/threads/resolve": ("thread-request", {"thread": THREAD}),
    "/v1/drills/recommend": ("drill-request", {name: SPEC[name] for name in SPEC if name != "hole"}),
    "/v1/allowances": ("allowance-request", {"thread": THREAD, "finish": FINISH}),
    "/v1/taps/recommend": ("tap-request", {"thread": THREAD, "hole": HOLE, "finish": FINISH}),
    "/v1/hole-specs": ("hole-spec-request", SPEC),
    "/v1/hole-specs/audit": ("audit-request", {**SPEC, "as_planned": {"drill": "27/64", "tap": "H3"}}),
}
#: Larger and smaller than a float holds first.
NUMBERS = (
    *("1" + "0" * 400, "5e-324", "-1" + "0" * 400, "9" * 309, "1e308", "-1e308", "1e400"),
    *("-5e-324", "1e-300", "1e-30"),
)
UNITS = ("m", "in", "GPa", "psi", "N*m", "kW", "%")
#: The grammar has nine digits before the point, so these are the largest and smallest that can be written.
TEXTS = (
    *('"1e400 mm"', '"NaN mm"', '"inf in"', '"-Infinity MPa"', '"nan"'),
    *(f'"{number} {unit}"' for number in ("999999999", "0.000000000000000001", "-999999999") for unit in UNITS),
)


def options(schema: Json, whole: Json) -> Iterator[Json]:
    """The forms that a value may have, references followed."""
    for one in schema.get("anyOf", [schema]):
        if "anyOf" in one:
            yield from options(one, whole)
        else:
            yield whole["$defs"][one["$ref"].rpartition("/")[2]] if "$ref" in one else one


def types(form: Json) -> set[str]:
    """The JSON types of a form."""
    named = form.get("type", [])
    return {named} if isinstance(named, str) else set(named)


def numbers(schema: Json, whole: Json, path: Path = ()) -> Iterator[tuple[Path, Json, bool]]:
    """Each place for a number, the schema of the number, and whether a text with a unit may stand there too."""
    for name, inner in schema.get("properties", {}).items():
        forms = list(options(inner, whole))
        for form in forms:
            if {"number", "integer"} & types(form):
                yield (*path, name), form, any("string" in types(other) for other in forms)
            yield from numbers(form, whole, (*path, name))


PLACES = [
    (route, path, schema, text)
    for route, (name, _) in ROUTES.items()
    for path, schema, text in numbers(SCHEMAS[name], SCHEMAS[name])
]


@pytest.fixture(scope="module")
def client():
    return create_app().test_client()


def asked(client, route: str, path: Path, value: str, **more: str):
    """The reply to the route's request with a value, as JSON writes it, at a place."""
    body = {**copy.deepcopy(ROUTES[route][1]), **more}
    inner = body
    for name in path[:-1]:
        inner = inner.setdefault(name, {})
    inner[path[-1]] = "the value"
    text = json.dumps(body).replace('"the value"', value)
    return client.post(route, data=text, content_type="application/json")


def test_there_are_numbers_on_every_route_and_each_has_its_bounds():
    assert {route for route, *_ in PLACES} == set(ROUTES)
    assert len(PLACES) > 80
    assert not [(route, path) for route, path, schema, _ in PLACES if not {"minimum", "maximum"} <= schema.keys()]


@pytest.mark.parametrize("values", [NUMBERS[:2], pytest.param(NUMBERS[2:], marks=pytest.mark.long)], ids=["2", "all"])
@pytest.mark.parametrize("route", ROUTES)
def test_a_number_beyond_its_bounds_is_refused_with_them(client, route, values):
    assert client.post(route, json=ROUTES[route][1]).status_code == 200
    for _, path, schema, _ in (place for place in PLACES if place[0] == route):
        for value in values:
            reply = asked(client, route, path, value)
            fault = reply.json["errors"][0]
            assert (reply.status_code, fault["code"]) == (422, "value_out_of_range"), (path, value)
            assert fault["pointer"] == "/" + "/".join(path)
            assert any(f" to {schema['maximum']}" in span for span in fault["allowed"]), fault
            assert all(span in fault["detail"] for span in fault["allowed"])


@pytest.mark.parametrize("values", [TEXTS[:1], pytest.param(TEXTS[1:], marks=pytest.mark.long)], ids=["1", "all"])
@pytest.mark.parametrize("route", ROUTES)
def test_a_text_beyond_the_bounds_is_refused_as_the_number_is(client, route, values):
    for _, path, *_ in (place for place in PLACES if place[0] == route and place[3] and place[1][-1] != "size"):
        for value in values:
            reply = asked(client, route, path, value)
            assert (reply.status_code, reply.json["errors"][0]["pointer"]) == (422, "/" + "/".join(path)), value


def test_the_least_and_the_greatest_are_in(client):
    """A coat of a microinch, and none; a growth on diameter that shrinks."""
    for value, status in (("0.000001", 200), ("0", 200), ("0.00000099", 422), ("-0.000001", 422)):
        reply = asked(client, "/v1/allowances", ("finish", "thickness", "min"), value)
        assert reply.status_code == status, value
    for value, status in (("-0.000001", 200), ("-0.00000099", 422), ("-26", 422)):
        assert asked(client, "/v1/allowances", ("finish", "heat_treat_growth", "min"), value).status_code == status


@pytest.mark.parametrize(
    ("unit_system", "value", "status"),
    [
        *[("inch", value, 200) for value in ("100", "0.0001", '"100 in"', '"2540 mm"', '"0.001 mm"')],
        *[("inch", value, 422) for value in ("100.1", "0.00009", '"101 in"', '"2541 mm"', '"0.0009 mm"')],
        *[("metric", value, 200) for value in ("2540", "0.001", '"100 in"')],
        *[("metric", value, 422) for value in ("2540.1", "0.0009", '"0.00009 in"')],
    ],
)
def test_a_length_has_a_span_in_each_unit(client, unit_system, value, status):
    reply = asked(client, "/v1/threads/resolve", ("length_of_engagement",), value, unit_system=unit_system)
    if status == 200:  # whether an engagement so long or short has limits is another question
        assert "value_out_of_range" not in reply.get_data(as_text=True)
    else:
        assert reply.status_code == 422
        assert reply.json["errors"][0]["allowed"] == ["0.0001 to 100 in", "0.001 to 2540 mm"]
        assert reply.json["errors"][0]["pointer"] == "/length_of_engagement"


@pytest.mark.parametrize(
    ("path", "unit_system", "value"),
    [
        (("material", "tensile_strength"), "metric", "7001"),  # MPa; as psi it is one of the weakest steels
        (("material", "tensile_strength"), "inch", "149"),
        (("machine", "max_torque"), "metric", "100001"),
        (("machine", "max_power"), "metric", "10001"),
        (("machine", "drill_oversize", "mean"), "inch", "1.1"),
        (("finish", "thickness", "max"), "inch", "1.1"),
    ],
)
def test_a_bare_number_is_judged_in_the_unit_that_it_is_in(client, path, unit_system, value):
    reply = asked(client, "/v1/hole-specs", path, value, unit_system=unit_system)
    assert (reply.status_code, reply.json["errors"][0]["code"]) == (422, "value_out_of_range")
    assert reply.json["errors"][0]["pointer"] == "/" + "/".join(path)


@pytest.mark.parametrize(
    ("path", "name"),
    [("/v1/threads", "length_of_engagement")]
    + [("/v1/threads/catalog", name) for name in ("min_diameter", "max_diameter", "page", "page_size")],
)
def test_numbers_in_a_query(client, path, name):
    asked = {"thread": "M8"} if path == "/v1/threads" else {}
    for value in ("9" * 400, "999999999", "-1", "5e-324", "NaN", "1e400", "0.0000000000000001"):
        reply = client.get(path, query_string={**asked, name: value})
        assert (reply.status_code, reply.json["errors"][0]["pointer"]) == (422, f"/{name}"), value


def test_numbers_in_a_cell(client):
    for cell in ("9" * 400, "999999999999999", "0.0000000000000001", "1e400", "NaN", "5e-324"):
        sheet = f"thread,hole.type,hole.thickness\nM8,through,{cell}\n"
        reply = client.post(
            "/v1/hole-specs/batch", data=sheet, content_type="text/csv", headers={"Accept": "application/x-ndjson"}
        )
        (row,) = reply.get_data().splitlines()
        assert json.loads(row)["problem"]["errors"][0]["pointer"] == "/hole/thickness", cell
