"""The plan of a part as an OperationsDefinition of B2MML, the open XML schema of ISA-95 (IEC 62264).

First a segment to set up, with the lists of equipment (tools and gauges, as physical assets) and of material (fluids,
masks, inserts); then one segment a loading, with its holes, its tool by the name of the list, and that it starts after
the one before it; what is done away from the spindle (inspection, finish, mask, insert) is a segment where it follows.
The Business To Manufacturing Markup Language (B2MML) is used courtesy of MESA International.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import count
from typing import Any

from .b2mml_elements import (
    PARAMETER,
    PROPERTY_OF_ASSET,
    add_property,
    definition_root,
    follows,
    inside,
    lasts,
    say,
    xml,
)
from .part_tables import in_order

Json = Mapping[str, Any]

#: What is said of a loading beside its tool and time, and of a tool beside its name and kind.
_OF_STEP = ("stage", "count", "holes", "spindle_speed", "feed", "tool_change", "positioning")
_OF_TOOL = ("diameter", "availability", "count", "holes")


def part_definition(reply: Json) -> bytes:
    """The document, as UTF-8, of a reply to POST /v1/part-plans; without segments where no hole is planned.

    Source: B2MML-OperationsDefinition V0701 (MESA International).
    """
    root = definition_root()
    name = reply["part"] or "part"
    say(root, "ID", name)
    for words in _descriptions(reply):
        say(root, "Description", words)
    say(root, "OperationsType", "Mixed")
    say(root, "DefinitionType", "Instance")
    if reply["sequence"]:
        before = _set_up(root, name, reply)
        aside = count(1)
        for step in in_order(reply):
            if "step" in step:
                before = _loading(root, f"{name}:{step['step']}", before, step, reply["units"])
            else:
                before = _away(root, f"{name}:aside {next(aside)}", before, step, reply)
    return xml(root, declared=True)


def _descriptions(reply: Json) -> Iterator[str]:
    yield f"Made with tables {reply['tables_version']}, rules {reply['rules_version']}"
    yield f"Verdict: {reply['verdict']}"
    for decision in reply["review"]:
        yield f"Decide ({decision['code']}), hole {decision['hole']}: {decision['text']}"
    for hole in reply["refused"]:
        for fault in hole["errors"]:
            yield f"Not planned ({fault['code']}), hole {hole['hole']}: {fault['detail']}"
    saved, proof = reply["saved"], reply["proof"]
    shown = "no choice is better" if proof["optimal"] else f"no choice has fewer than {proof['bound']}"
    yield f"{saved['to']} tools; each hole by itself takes {saved['from']} in all; {shown}"
    for change in reply["changes"]:
        yield f"Hole {change['hole']}: {', '.join(change['to'])} for {', '.join(change['from'])}: {change['why']}"
    for caution in reply["cautions"]:
        holes = [hole["id"] for hole in reply["holes"] if caution in hole["cautions"]]
        yield f"Caution ({caution['code']}), {_listed(holes)}: {caution['text']}"
    for assumption in reply["assumptions"]:
        yield f"Assumption: {assumption}"


def _listed(holes: Sequence[str]) -> str:
    return f"hole {holes[0]}" if len(holes) == 1 else f"holes {', '.join(holes)}"


def _set_up(root: Any, part: str, reply: Json) -> str:
    """Add the segment that holds the lists; its identifier."""
    segment, name = inside(root, "OperationsSegment"), f"{part}:0"
    say(segment, "ID", name)
    say(segment, "Description", "Set up: lay out tools, gauges, fluids and what else is needed")
    say(segment, "OperationsType", "Production")
    say(segment, "ProcessSegmentID", "set_up")
    for tool in reply["tools"]:
        _tool(segment, tool, reply["units"])
    kit = reply["kit"]
    for place, words in enumerate(kit["gauges"], start=1):
        _asset(segment, f"gauge {place}", "gauge", words)
    _materials(segment, "fluid", kit["fluids"])
    _materials(segment, "other", kit["other"])
    return name


def _tool(segment: Any, tool: Json, units: Json) -> None:
    asset = _asset(segment, tool["tool"], tool["kind"])
    for name in _OF_TOOL:
        add_property(asset, PROPERTY_OF_ASSET, name, tool[name], units)
    if tool["in_stock"] is not None:
        add_property(asset, PROPERTY_OF_ASSET, "in_stock", "yes" if tool["in_stock"] else "no", units)
    for name, value in tool["details"].items():
        if name != "kind":
            add_property(asset, PROPERTY_OF_ASSET, name, value, units)


def _asset(segment: Any, name: str, kind: str, words: str | None = None) -> Any:
    asset = inside(segment, "PhysicalAssetSpecification")
    say(asset, "ID", name)
    say(asset, "PhysicalAssetClassID", kind)
    if words is not None:
        say(asset, "Description", words)
    return asset


def _materials(segment: Any, kind: str, every: Sequence[str]) -> None:
    for place, words in enumerate(every, start=1):
        material = inside(segment, "MaterialSpecification")
        say(material, "ID", f"{kind} {place}")
        say(material, "MaterialClassID", kind)
        say(material, "Description", words)
        say(material, "MaterialUse", "Consumable")


def _loading(root: Any, name: str, before: str, step: Json, units: Json) -> str:
    """Add the segment of a loading; its identifier, for the next one to depend on."""
    segment = inside(root, "OperationsSegment")
    say(segment, "ID", name)
    say(segment, "Description", f"{step['operation'].replace('_', ' ').capitalize()} with {step['tool']}")
    say(segment, "OperationsType", "Production")
    lasts(segment, step["time"])
    say(segment, "ProcessSegmentID", step["operation"])
    for parameter in _OF_STEP:
        add_property(segment, PARAMETER, parameter, step[parameter], units)
    if len(step["spindle_speeds"]) > 1:
        add_property(segment, PARAMETER, "spindle_speeds", step["spindle_speeds"], units)
    _asset(segment, step["tool"], step["operation"])
    follows(segment, name, before)
    return name


def _away(root: Any, name: str, before: str, one: Json, reply: Json) -> str:
    """Add the segment of what is done away from the spindle, an inspection with its gauge; its identifier."""
    segment, gauges = inside(root, "OperationsSegment"), reply["kit"]["gauges"]
    say(segment, "ID", name)
    say(segment, "Description", one["text"])
    say(segment, "OperationsType", "Quality" if one["operation"] == "inspect" else "Production")
    say(segment, "ProcessSegmentID", one["operation"])
    for parameter in ("stage", "holes"):
        add_property(segment, PARAMETER, parameter, one[parameter], reply["units"])
    if one["text"] in gauges:
        _asset(segment, f"gauge {gauges.index(one['text']) + 1}", "gauge")
    follows(segment, name, before)
    return name
