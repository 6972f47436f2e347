"""Less detail of a hole specification: parts of the full reply, small enough to be sent for every hole of a routing."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import jsonschema
import pytest
from borewright.contract.documents import published

sys.path.insert(0, str(Path(__file__).parents[1] / "trade"))
from common_holes import holes

PATH = "/v1/hole-specs"
#: A plated hole with a screw, one tapped by two taps, one of pipe with a decision, one that no plan holds.
HOLES = [
    {
        "id": "KRP-4105-D1",
        "thread": "3/8-16 UNC-2B",
        "hole": {"type": "blind", "full_thread_depth": 0.75},
        "material": {"name": "4140", "hardness": "28 HRC"},
        "finish": "ASTM B633 Fe/Zn 8",
        "mating_screw": {"grade": "SAE J429 grade 8"},
    },
    {
        "thread": "M10",
        "hole": {"type": "blind", "full_thread_depth": 22, "drill_depth_limit": 26, "thickness": 30},
        "material": "4140",
    },
    {"thread": "1/4-18 NPT", "hole": {"type": "blind", "full_thread_depth": 0.6}, "material": "grey iron"},
    {"thread": "M8", "hole": {"type": "through", "thickness": 12}, "finish": {"thickness": "200 um"}},
]
SCHEMAS = {"full": "hole-spec-reply", "figures": "hole-spec-figures-reply", "routing": "hole-spec-routing-reply"}
#: The fields that the contract names for each detail, and the bytes that a reply may have.
ROUTING = {
    "id", "spec_id", "verdict", "review", "headline", "operations", "cautions", "tables_version", "rules_version",
}  # fmt: skip
LEFT_OUT = {"sources", "assumptions", "alternatives", "rejected", "reasons", "notice"}
#: Figures that stand at two places of the full reply: where they are left out, and where they stay.
TWICE = {
    "drill": ("minor_diameter_limits", ("limits", "to_tap", "minor_diameter")),
    "tap": ("limits_to_make", ("limits", "to_tap")),
    "finish": ("finished", ("thread", "internal")),
}
MOST_BYTES = {"figures": 8_000, "routing": 2_000}


def reply(client, body, **query):
    response = client.post(PATH, json=body, query_string=query)
    assert response.status_code == 200, response.json
    return response.json


def is_part(less, full):
    """Whether everything in ``less`` stands at the same place in ``full``."""
    if isinstance(less, dict):
        return all(name in full and is_part(value, full[name]) for name, value in less.items())
    if isinstance(less, list):
        return len(less) == len(full) and all(map(is_part, less, full))
    return less == full


def without_null(value):
    """The value without fields that are null, at any depth."""
    if isinstance(value, dict):
        return {name: without_null(inner) for name, inner in value.items() if inner is not None}
    return [without_null(inner) for inner in value] if isinstance(value, list) else value


def names(value):
    """Every field in ``value``, at any depth."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return {name for name, _ in inner if isinstance(name, str)}.union(*(names(one) for _, one in inner))


@pytest.mark.parametrize("body", HOLES)
@pytest.mark.parametrize("detail", ["figures", "routing"])
def test_less_is_a_part_of_the_full_reply(client, body, detail):
    full, less = reply(client, body), reply(client, {**body, "detail": detail})
    assert is_part(less, full)
    assert less["spec_id"] == full["spec_id"]
    jsonschema.Draft202012Validator(json.loads(published.schemas_json()[SCHEMAS[detail]])).validate(less)


@pytest.mark.parametrize("body", HOLES)
def test_figures_leave_out_words_and_other_tools(client, body):
    full, figures = reply(client, body), reply(client, {**body, "detail": "figures"})
    assert full.keys() - figures.keys() == {"sources", "assumptions", "notice"}
    assert not names(figures) & LEFT_OUT
    assert "acceptance" in full["gauging"]
    assert "acceptance" not in figures["gauging"]
    for name in ("verdict", "review", "headline", "limits", "depths", "cutting_data", "units"):
        assert without_null(figures[name]) == without_null(full[name])
    assert figures["cautions"] == [{"code": one["code"]} for one in full["cautions"]]


@pytest.mark.parametrize("body", HOLES)
def test_figures_that_are_left_out_stand_elsewhere(client, body):
    full, figures = reply(client, body), reply(client, {**body, "detail": "figures"})
    for name, (left_out, (first, *inner)) in TWICE.items():
        if full[name] is None or full[name][left_out] is None:
            continue
        other = figures[first]
        for step in inner:
            other = other[step]
        assert is_part(full[name][left_out], other)
        assert left_out not in figures[name]
    for short, whole in zip(figures["operations"], full["operations"], strict=True):
        told = whole["operation"] in ("drill", "tap", "inspect", "finish")
        assert short.get("parameters", {}) == ({} if told else whole["parameters"])


def test_sections_without_value_are_null_and_fields_in_them_are_absent(client):
    figures = reply(client, {**HOLES[3], "detail": "figures"})
    assert figures["material"] is None
    assert figures["strength"] is None
    assert "wall_left" not in figures["depths"]
    assert figures["limits"]["finished"]["major_diameter"]["max"] is None


@pytest.mark.parametrize("body", HOLES)
def test_routing_has_the_cautions_in_full_and_operations_in_short(client, body):
    full, routing = reply(client, body), reply(client, {**body, "detail": "routing"})
    assert routing.keys() == ROUTING
    for name in ROUTING - {"operations"}:
        assert routing[name] == full[name]
    for short, whole in zip(routing["operations"], full["operations"], strict=True):
        assert short.keys() == {"sequence", "operation", "tool", "text"} | ({"time"} & whole.keys())
        assert len(short["tool"]) == 1


def test_common_holes_keep_to_the_bytes_of_the_contract(client):
    """What a person is warned of, or must decide, is told in full and may take a routing over its bytes."""
    for body in list(holes())[::5]:
        figures = client.post(PATH, json={**body, "detail": "figures"}).get_data()
        assert len(figures) <= MOST_BYTES["figures"]
        routing = client.post(PATH, json={**body, "detail": "routing"}).get_data()
        told = json.loads(routing)
        assert len(routing) <= MOST_BYTES["routing"] + len(json.dumps([told["cautions"], told["review"]]))


def test_detail_in_the_query_is_detail_in_the_body(client):
    for detail in SCHEMAS:
        assert reply(client, HOLES[0], detail=detail) == reply(client, {**HOLES[0], "detail": detail})
    assert reply(client, {**HOLES[0], "detail": "routing"}, detail="full").keys() == ROUTING
    assert client.post(PATH, json=HOLES[0]).data == client.post(PATH, json={**HOLES[0], "detail": "full"}).data


def test_derivation_comes_with_figures_and_not_with_a_routing(client):
    full = reply(client, {**HOLES[0], "explain": True})
    assert reply(client, {**HOLES[0], "explain": True}, detail="figures")["derivation"] == full["derivation"]
    assert "derivation" not in reply(client, {**HOLES[0], "explain": True}, detail="routing")


def test_a_word_that_is_no_detail_is_refused(client):
    for response in (
        client.post(PATH, json={**HOLES[0], "detail": "figure"}),
        client.post(PATH, json=HOLES[0], query_string={"detail": "figure"}),
    ):
        error = response.json["errors"][0]
        assert (response.status_code, error["pointer"], error["code"]) == (422, "/detail", "field_value_unknown")
        assert error["did_you_mean"] == ["figures"]
    assert client.post("/v1/drills/recommend", json={"thread": "M8", "detail": "figures"}).status_code == 422
    assert client.post("/v1/drills/recommend?detail=figures", json={"thread": "M8"}).status_code == 422


@pytest.mark.parametrize("form", ["image/svg+xml", "application/xml"])
def test_drawing_and_xml_take_no_notice(client, form):
    full = client.post(PATH, json=HOLES[0], headers={"Accept": form})
    assert full.status_code == 200
    assert client.post(PATH, json={**HOLES[0], "detail": "routing"}, headers={"Accept": form}).data == full.data
    section = client.post(f"{PATH}?view=section&detail=routing", json=HOLES[0])
    assert section.data == client.post(f"{PATH}?view=section", json=HOLES[0]).data


def test_batch_shows_the_detail_of_the_query_the_defaults_or_the_item(client):
    batch = {"items": HOLES[:2]}
    specs = [reply(client, {**body, "detail": "routing"}) for body in HOLES[:2]]
    for body, query in (
        (batch, {"detail": "routing"}),
        ({**batch, "defaults": {"detail": "routing"}}, {}),
        ({"items": [{**body, "detail": "routing"} for body in HOLES[:2]]}, {"detail": "figures"}),
    ):
        results = client.post(f"{PATH}/batch", json=body, query_string=query).json["results"]
        assert [result["spec"] for result in results] == specs
    lines = "".join(json.dumps(body) + "\n" for body in HOLES[:2])
    streamed = client.post(f"{PATH}/batch?detail=routing", data=lines, content_type="application/x-ndjson")
    assert [json.loads(line)["spec"] for line in streamed.data.splitlines()] == specs


@pytest.mark.parametrize("form", ["text/csv", "application/xml"])
def test_batch_as_csv_and_xml_take_no_notice(client, form):
    def answer(**query):
        return client.post(f"{PATH}/batch", json={"items": HOLES}, query_string=query, headers={"Accept": form}).data

    assert answer(detail="routing") == answer()


def test_csv_that_is_read_has_a_column_of_it(client):
    csv = "thread,hole.type,hole.thickness,detail\nM8,through,12,routing\n"
    answer = client.post(f"{PATH}/batch", data=csv, content_type="text/csv", headers={"Accept": "application/json"})
    assert answer.json["results"][0]["spec"].keys() == ROUTING


def test_audit_shows_its_specification_in_the_detail(client):
    plan = {**HOLES[0], "as_planned": {"drill": "5/16", "tap": "3/8-24 NF HSS G H3"}}
    full = client.post(f"{PATH}/audit", json=plan).json
    less = client.post(f"{PATH}/audit?detail=routing", json=plan).json
    assert less["spec"] == reply(client, {**HOLES[0], "detail": "routing"})
    assert {**less, "spec": None} == {**full, "spec": None}
    many = client.post(f"{PATH}/audit/batch", json={"items": [plan], "defaults": {"detail": "routing"}}).json
    assert many["results"][0]["audit"] == less


#: What makes another hole or another answer of it, one at a time.
OTHERWISE = (
    {"unit_system": "metric"}, {"thread": "3/8-16 UNC-3B"}, {"hole": {"type": "blind", "full_thread_depth": 0.76}},
    {"material": {"name": "4140", "hardness": "29 HRC"}}, {"finish": "ASTM B633 Fe/Zn 12"}, {"method": "form"},
    {"objective": "least_torque"}, {"edition": "1989"}, {"safety_factor": 1.2}, {"strict": True},
    {"tap_limits": "metric_d"}, {"percent_thread": {"target": 70}}, {"drill_series": ["fractional"]},
    {"machine": {"max_spindle_speed": 3000}}, {"length_of_engagement": 0.5}, {"stock": {"drills": ["5/16"]}},
)  # fmt: skip
#: What is so where nothing is said, and what tells nothing of the hole.
AS_USUAL = ({"safety_factor": 1}, {"method": "cut"}, {"objective": "chart"}, {"strict": False}, {"id": "KRP-9"})


def test_the_name_of_a_specification_tells_every_hole_from_every_other(client):
    names = [reply(client, HOLES[0])["spec_id"]]
    names += [reply(client, {**HOLES[0], **other})["spec_id"] for other in OTHERWISE]
    assert len(set(names)) == len(names)
    assert {reply(client, {**HOLES[0], **same})["spec_id"] for same in AS_USUAL} == {names[0]}
    hole = {**HOLES[0], "hole": {"type": "blind", "full_thread_depth": "0.75 in"}}
    systems = [reply(client, {**hole, "unit_system": one})["spec_id"] for one in ("inch", "metric")]
    assert systems[0] == names[0] != systems[1]  # told in other units it is another answer
