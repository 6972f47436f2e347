"""Operations as an OperationsDefinition of B2MML: valid by the published schema, and the same facts as the reply.

`tests/published/b2mml` has the part of the schema that an OperationsDefinition needs; its licence lies beside it.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import orjson
import pytest
from borewright.api import create_app
from borewright.contract.writers import b2mml, b2mml_elements
from borewright.core import standards
from lxml import etree

SCHEMA = Path(__file__).parent.parent / "published" / "b2mml" / "B2MML-OperationsDefinition.xsd"
SPACE = {"b": b2mml.NAMESPACE}
XML = {"Accept": "application/xml"}
CLIENT = create_app().test_client()

KRP = {
    "id": "KRP-4105-D1",
    "thread": "3/8-16 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.75},
    "material": {"name": "4140", "hardness": "28 HRC"},
    "finish": "ASTM B633 Fe/Zn 8",
}
VALVE_BLOCK = {"id": "KRP-2210-P2", "thread": "M8x1.25-6H", "hole": {"type": "through", "thickness": 12}}
PIPE = {"thread": "1/4-18 NPT", "hole": {"type": "through", "thickness": 0.75}}


@pytest.fixture(scope="module")
def schema() -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(SCHEMA))


def asked(body: dict[str, Any]) -> etree._Element:
    answer = CLIENT.post("/v1/hole-specs", json=body, headers=XML)
    assert answer.status_code == 200, answer.text
    assert answer.mimetype == "application/xml"
    return etree.fromstring(answer.data)


def texts(element: etree._Element, path: str) -> list[str]:
    return [found.text for found in element.iterfind(path, SPACE)]


@pytest.mark.parametrize("body", [KRP, VALVE_BLOCK, PIPE], ids=["coated", "through", "pipe"])
def test_document_is_valid(schema, body):
    schema.assertValid(asked(body))


def test_document_is_valid_for_every_system(schema):
    entries = {entry.system: entry for entry in standards.catalogue()}
    checked = []
    for system, entry in entries.items():
        hole = {"type": "through", "thickness": "12 mm"}
        answer = CLIENT.post("/v1/hole-specs", json={"thread": entry.designation, "hole": hole}, headers=XML)
        if answer.status_code == 200:
            schema.assertValid(etree.fromstring(answer.data))
            checked.append(system)
    assert len(checked) >= 4


def test_schema_refuses_what_is_wrong(schema):
    document = asked(KRP)
    document.find("b:DefinitionType", SPACE).text = "Anything"
    assert not schema.validate(document)


def test_segments_are_the_operations_of_the_reply():
    reply = CLIENT.post("/v1/hole-specs", json=KRP).json
    document = asked(KRP)
    assert texts(document, "b:ID") == ["KRP-4105-D1"]
    assert texts(document, "b:Version") == [reply["spec_id"]]
    assert texts(document, "b:OperationsSegment/b:Description") == [line["text"] for line in reply["operations"]]
    assert texts(document, "b:OperationsSegment/b:ProcessSegmentID") == [
        line["operation"] for line in reply["operations"]
    ]
    cautions = [f"Caution ({caution['code']}): {caution['text']}" for caution in reply["cautions"]]
    assert cautions
    assert set(cautions) <= set(texts(document, "b:Description"))


def test_each_segment_starts_after_the_one_before_it():
    segments = asked(KRP).findall("b:OperationsSegment", SPACE)
    names = [segment.findtext("b:ID", namespaces=SPACE) for segment in segments]
    after = [segment.findtext("b:SegmentDependency/b:SegmentID", namespaces=SPACE) for segment in segments]
    assert len(set(names)) == len(names)
    assert after == [None, *names[:-1]]


def test_figures_carry_their_units():
    drill = asked(KRP).find("b:OperationsSegment[b:ProcessSegmentID='drill']", SPACE)
    depth = drill.find("b:ParameterSpecification[b:ID='depth']/b:Value", SPACE)
    assert texts(depth, "*") == ["0.969", "decimal", "in"]
    properties = "b:PhysicalAssetSpecification/b:PhysicalAssetSpecificationProperty"
    assert texts(drill.find(f"{properties}[b:ID='point_angle']/b:Value", SPACE), "*") == ["118", "decimal", "deg"]
    assert texts(drill.find(f"{properties}[b:ID='label']/b:Value", SPACE), "*") == ["5/16", "string"]


def test_speeds_times_and_counts_carry_their_units():
    """Revolutions a minute and pure numbers whatever the system; how long it takes in seconds of ISO 8601."""
    for system, length in (("metric", "mm"), ("inch", "in")):
        body = {**KRP, "unit_system": system, "hole": {"type": "blind", "full_thread_depth": "0.75 in"}}
        reply = CLIENT.post("/v1/hole-specs", json=body).json["operations"]
        drill = asked(body).find("b:OperationsSegment[b:ProcessSegmentID='drill']", SPACE)
        told = {
            one.findtext("b:ID", None, SPACE): one.findtext("b:Value/b:UnitOfMeasure", None, SPACE)
            for one in drill.iterfind("b:ParameterSpecification", SPACE)
        }
        assert (told["spindle_speed"], told["pecks"], told["depth"]) == ("rev/min", "1", length)
        assert told["feed"] == f"{length}/rev"
        seconds = next(one["time"] for one in reply if one["operation"] == "drill")
        assert drill.findtext("b:Duration", None, SPACE) == f"PT{seconds:.3f}S"


def test_units_follow_the_request():
    drill = asked({**VALVE_BLOCK, "unit_system": "inch", "hole": {"type": "through", "thickness": 0.5}})
    units = set(texts(drill, ".//b:UnitOfMeasure"))
    assert {"in", "deg"} <= units
    assert not {unit for unit in units if unit.startswith("mm")}


def test_limits_are_two_values_of_one_parameter():
    inspect = asked(KRP).find("b:OperationsSegment[b:ProcessSegmentID='inspect']", SPACE)
    assert texts(inspect, "b:OperationsType") == ["Quality"]
    values = inspect.findall("b:ParameterSpecification[b:ID='pitch_diameter']/b:Value", SPACE)
    assert [texts(value, "*") for value in values] == [
        ["0.3362", "decimal", "in", "min"],
        ["0.3401", "decimal", "in", "max"],
    ]


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("</ID><Injected/>", "</ID><Injected/>"),
        ("A&B &lt; <!-- x --> ]]>", "A&B &lt; <!-- x --> ]]>"),
        ("bell\u0007 null\u0000 end", "bell\ufffd null\ufffd end"),
        ("edge\ufffe", "edge\ufffd"),
        ("Ø10 \U0001f529", "Ø10 \U0001f529"),
    ],
)
def test_typed_text_cannot_break_out(schema, typed, kept):
    document = asked({**KRP, "id": typed})
    assert document.findtext("b:ID", namespaces=SPACE) == kept
    assert document.find(".//b:Injected", SPACE) is None
    schema.assertValid(document)


def test_hole_without_name_is_named_by_its_spec_id():
    document = asked(PIPE)
    assert texts(document, "b:ID") == texts(document, "b:Version")


def test_same_request_gives_the_same_bytes():
    first, second = (CLIENT.post("/v1/hole-specs", json=KRP, headers=XML).data for _ in range(2))
    assert first == second


@pytest.mark.parametrize(
    ("accept", "media_type"),
    [
        ("application/xml", "application/xml"),
        ("application/xml;q=0.9, application/json;q=0.5", "application/xml"),
        ("application/xml, application/json", "application/json"),
        ("application/*", "application/json"),
        ("text/html, application/xml;q=0.9, */*;q=0.1", "application/xml"),
    ],
)
def test_caller_chooses_by_accept(accept, media_type):
    answer = CLIENT.post("/v1/hole-specs", json=PIPE, headers={"Accept": accept})
    assert answer.status_code == 200
    assert answer.mimetype == media_type


def test_other_media_types_are_refused_with_the_list():
    answer = CLIENT.post("/v1/hole-specs", json=PIPE, headers={"Accept": "text/csv"})
    assert answer.status_code == 406
    assert "application/xml" in answer.json["errors"][0]["allowed"]


def test_xml_is_made_of_hole_specifications_only():
    answer = CLIENT.post("/v1/threads/resolve", json={"thread": "M8"}, headers=XML)
    assert answer.status_code == 406
    assert answer.json["errors"][0]["allowed"] == ["application/json"]


def test_refusals_stay_problems():
    answer = CLIENT.post("/v1/hole-specs", json={**KRP, "thread": "1/4"}, headers=XML)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"


REFUSED = {"id": "KRP <7>", "thread": "1/4", "hole": {"type": "through", "thickness": 1}}


def batch(**sent: Any) -> etree._Element:
    answer = CLIENT.post("/v1/hole-specs/batch", headers=XML, **sent)
    assert answer.status_code == 200, answer.text
    assert answer.mimetype == "application/xml"
    return etree.fromstring(answer.data)


def test_batch_is_one_valid_document_in_order(schema):
    document = batch(json={"items": [KRP, REFUSED, VALVE_BLOCK]})
    schema.assertValid(document)
    assert etree.QName(document).localname == "OperationsDefinitionInformation"
    assert texts(document, "b:OperationsDefinition/b:ID") == ["KRP-4105-D1", "KRP <7>", "KRP-2210-P2"]


def test_batch_holds_what_single_requests_hold():
    made = batch(json={"items": [KRP, VALVE_BLOCK]}).findall("b:OperationsDefinition", SPACE)
    for definition, request in zip(made, (KRP, VALVE_BLOCK), strict=True):
        assert [found.text for found in definition.iter()] == [found.text for found in asked(request).iter()]


def test_refused_item_of_a_batch_says_why_and_has_no_segments(schema):
    document = batch(json={"items": [REFUSED, 7]})
    schema.assertValid(document)
    first, second = document.findall("b:OperationsDefinition", SPACE)
    assert texts(first, "b:Description")[0].startswith("Refused (callout_ambiguous) /thread: ")
    assert texts(second, "b:ID") == ["without id"]
    assert document.find(".//b:OperationsSegment", SPACE) is None


def test_streamed_batch_is_one_valid_document(schema):
    lines = b"".join(orjson.dumps({**VALVE_BLOCK, "id": f"KRP-{number}"}) + b"\n" for number in range(150))
    document = batch(data=lines, content_type="application/x-ndjson")
    schema.assertValid(document)
    assert texts(document, "b:OperationsDefinition/b:ID") == [f"KRP-{number}" for number in range(150)]


def test_small_numbers_are_written_without_exponent():
    assert b2mml_elements.digits(0.00001) == "0.00001"
    assert b2mml_elements.digits(10) == "10"


PART = {
    "part": "KRP-5120",
    "defaults": {"material": "6061-T6"},
    "stock": {"drills": ["5/16"]},
    "holes": [
        {**KRP, "id": "D1", "count": 3},
        {**VALVE_BLOCK, "id": "P2"},
        {"id": "I1", "thread": "1/4-20 UNC-2B STI", "hole": {"type": "blind", "full_thread_depth": 0.5}},
        {"id": "X1", "thread": "M8-xx", "hole": {"type": "through", "thickness": 12}},
    ],
}


def test_part_lists_tools_and_materials_and_has_a_segment_a_loading(schema):
    reply = CLIENT.post("/v1/part-plans", json=PART).json
    document = etree.fromstring(CLIENT.post("/v1/part-plans", json=PART, headers=XML).data)
    schema.assertValid(document)
    set_up, *segments = document.findall("b:OperationsSegment", SPACE)
    aside = {one["text"] for one in reply["away_from_spindle"]}
    loadings = [one for one in segments if one.findtext("b:Description", namespaces=SPACE) not in aside]
    tools = {tool["tool"]: tool for tool in reply["tools"]}
    assets = set_up.findall("b:PhysicalAssetSpecification", SPACE)
    listed = {asset.findtext("b:ID", namespaces=SPACE): asset for asset in assets}
    assert listed.keys() >= tools.keys()
    gauges = [found for found in assets if found.findtext("b:PhysicalAssetClassID", namespaces=SPACE) == "gauge"]
    assert [texts(gauge, "b:Description")[0] for gauge in gauges] == reply["kit"]["gauges"]
    materials = texts(set_up, "b:MaterialSpecification/b:Description")
    assert materials == [*reply["kit"]["fluids"], *reply["kit"]["other"]]
    stocked = "b:PhysicalAssetSpecificationProperty[b:ID='in_stock']/b:Value/b:ValueString"
    assert texts(listed["5/16 twist drill"], stocked) == ["yes"]
    assert [texts(one, "b:PhysicalAssetSpecification/b:ID") for one in loadings] == [
        [step["tool"]] for step in reply["sequence"]
    ]
    holes = "b:ParameterSpecification[b:ID='holes']/b:Value/b:ValueString"
    assert [texts(one, holes) for one in loadings] == [step["holes"] for step in reply["sequence"]]
    assert texts(loadings[0], "b:SegmentDependency/b:SegmentID") == ["KRP-5120:0"]
    away = [one for one in segments if one not in loadings]
    said = [one.findtext("b:Description", namespaces=SPACE) for one in away]
    assert said == [one["text"] for one in reply["away_from_spindle"]]
    assert [texts(one, holes) for one in away] == [one["holes"] for one in reply["away_from_spindle"]]
    first_finish = segments.index(next(one for one in away if texts(one, "b:ProcessSegmentID") == ["finish"]))
    later = {step["step"] for step in reply["sequence"] if step["stage"] > 1}
    before = {name.rpartition(":")[2] for one in segments[:first_finish] for name in texts(one, "b:ID")}
    assert before.isdisjoint({str(step) for step in later})
    gauge_of = {gauge.findtext("b:ID", namespaces=SPACE): texts(gauge, "b:Description")[0] for gauge in gauges}
    for one, description in zip(away, said, strict=True):
        for asset in texts(one, "b:PhysicalAssetSpecification/b:ID"):
            assert gauge_of[asset] == description
    assert any("hole X1" in words for words in texts(document, "b:Description"))
