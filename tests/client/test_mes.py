"""The pattern for an MES: plans of parts as B2MML in the folder that it reads, from the real service."""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from borewright_client import Client
from lxml import etree

ROOT = Path(__file__).parent.parent.parent
SCHEMA = ROOT / "tests" / "published" / "b2mml" / "B2MML-OperationsDefinition.xsd"
HOLES = ROOT / "client" / "integrations" / "tryton" / "tapped_holes.csv"
SPACE = {"b": "http://www.mesa.org/xml/B2MML"}
UNDECIDED = "id,thread,type,full_thread_depth,material\nKRP-6008-F2,M8x1,blind,12,1045\n"


@pytest.fixture(scope="module")
def pattern() -> ModuleType:
    found = importlib.util.spec_from_file_location(
        "part_to_mes", ROOT / "client" / "integrations" / "mes" / "part_to_mes.py"
    )
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


@pytest.fixture
def client(service_url: str) -> Iterator[Client]:
    with Client(service_url) as client:
        yield client


def test_plan_is_handed_over_with_its_lists(pattern, client, tmp_path):
    written = pattern.hand_over(client, HOLES, tmp_path, SCHEMA, part="KRP-4105", lot_size=40)
    assert list(tmp_path.iterdir()) == [written]
    document = etree.parse(written).getroot()
    plan = client.plan_part(
        {"holes": [row["request"] for row in client.read_sheet(HOLES.read_bytes())["results"]], "lot_size": 40}
    )
    assert document.findtext("b:ID", namespaces=SPACE) == "KRP-4105"
    first, *loadings = document.findall("b:OperationsSegment", SPACE)
    equipment = [one.text for one in first.iterfind("b:PhysicalAssetSpecification/b:ID", SPACE)]
    tools = [tool["tool"] for tool in plan["tools"]]
    assert equipment[: len(tools)] == tools
    assert len(equipment) == len(plan["tools"]) + len(plan["kit"]["gauges"])
    materials = [one.text for one in first.iterfind("b:MaterialSpecification/b:Description", SPACE)]
    assert materials == plan["kit"]["fluids"]
    used = [one.findtext("b:PhysicalAssetSpecification/b:ID", namespaces=SPACE) for one in loadings]
    assert [tool for tool in used if tool in tools] == [step["tool"] for step in plan["sequence"]]
    assert len(loadings) == len(plan["sequence"]) + len(plan["away_from_spindle"])
    (taken,) = loadings[0].iterfind("b:ParameterSpecification[b:ID='tool_change']/b:Value", SPACE)
    assert [one.text for one in taken] == ["6.0", "decimal", "s"]
    told = [one.text for one in document.iterfind("b:Description", SPACE)]
    for caution in plan["cautions"]:
        (text,) = (
            text for text in told if text.startswith(f"Caution ({caution['code']})") and text.endswith(caution["text"])
        )
        assert all(hole["id"] in text for hole in plan["holes"] if caution in hole["cautions"])


def test_what_waits_for_a_decision_is_held_back(pattern, client, service_url, tmp_path, capsys):
    waiting, inbox = tmp_path / "KRP-6008.csv", tmp_path / "inbox"
    waiting.write_text(UNDECIDED)
    inbox.mkdir()
    arguments = [str(waiting), str(HOLES), "--inbox", str(inbox), "--url", service_url, "--schema", str(SCHEMA)]
    assert pattern.main(arguments) == 1
    shown = capsys.readouterr()
    assert "KRP-6008-F2 waits for a decision: No tools make this hole with the least acceptance" in shown.err
    assert shown.out == f"{inbox / 'tapped_holes.xml'}\n"
    assert [path.name for path in inbox.iterdir()] == ["tapped_holes.xml"]
    assert pattern.main([*arguments, "--undecided"]) == 0
    document = etree.parse(inbox / "KRP-6008.xml")
    assert any(one.text.startswith("Decide (") for one in document.iterfind("b:Description", SPACE))


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("a.csv", UNDECIDED.replace("M8x1", "M8x1.1"), "KRP-6008-F2: ISO 261 has no M8 with pitch 1.1"),
        ("a.csv", UNDECIDED.replace("type", "sort"), "sort"),
        ("a.txt", UNDECIDED, "is none of .csv, .xlsx"),
    ],
    ids=["thread", "column", "kind of file"],
)
def test_refused_lists_are_not_handed_over(pattern, service_url, tmp_path, capsys, name, content, told):
    (tmp_path / name).write_text(content)
    assert pattern.main([str(tmp_path / name), "--inbox", str(tmp_path), "--url", service_url]) == 1
    assert told in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_schema_of_the_mes_must_hold(pattern, client, tmp_path):
    other = tmp_path / "other.xsd"
    other.write_text('<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"><xs:element name="Other"/></xs:schema>')
    with pytest.raises(pattern.NotHandedOver, match="No matching global declaration"):
        pattern.hand_over(client, HOLES, tmp_path, other)
    assert list(tmp_path.iterdir()) == [other]
