"""The operations of a hole as an OperationsDefinition of B2MML, the open XML schema of ISA-95 (IEC 62264).

One segment an operation, in order: its text, its tool as a physical asset, its parameters, and that it starts after
the one before it. The Business To Manufacturing Markup Language (B2MML) is used courtesy of MESA International.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from .b2mml_elements import (
    MEDIA_TYPE,
    NAMESPACE,
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

__all__ = ["CLOSING", "MEDIA_TYPE", "NAMESPACE", "OPENING", "operations_definition", "result"]

Json = Mapping[str, Any]

#: What stands around the definitions of a batch: they are written one after the other, each as it is made.
OPENING = (
    b"<?xml version='1.0' encoding='UTF-8'?>\n"
    b'<OperationsDefinitionInformation xmlns="' + NAMESPACE.encode() + b'">\n<ID>hole-specs</ID>\n'
)
CLOSING = b"</OperationsDefinitionInformation>\n"


def operations_definition(reply: Json) -> bytes:
    """The document, as UTF-8, of a reply to POST /v1/hole-specs.

    Source: B2MML-OperationsDefinition V0701 (MESA International).
    """
    return xml(_definition(reply), declared=True)


def result(item: Json) -> bytes:
    """The definition of an item of a batch, between OPENING and CLOSING; without segments where it was refused.

    Source: B2MML-OperationsDefinition V0701 (MESA International).
    """
    if item["status"] == "ok":
        return xml(_definition(item["spec"]), declared=False)
    root = definition_root()
    say(root, "ID", item["id"] or "without id")
    for fault in item["problem"]["errors"]:
        say(root, "Description", f"Refused ({fault['code']}) {fault['pointer']}: {fault['detail']}")
    return xml(root, declared=False)


def _definition(reply: Json) -> Any:
    root = definition_root()
    name = reply["id"] or reply["spec_id"]
    say(root, "ID", name)
    for words in _descriptions(reply):
        say(root, "Description", words)
    say(root, "Version", reply["spec_id"])
    say(root, "OperationsType", "Mixed")
    say(root, "DefinitionType", "Instance")
    before: str | None = None
    for operation in reply["operations"]:
        before = _segment(root, f"{name}:{operation['sequence']}", before, operation, reply["units"])
    return root


def _descriptions(reply: Json) -> Iterator[str]:
    yield f"Tapped hole {reply['thread']['designation']}"
    yield f"Made with tables {reply['tables_version']}"
    yield f"Verdict: {reply['verdict']}"
    for decision in reply["review"]:
        yield f"Decide ({decision['code']}): {decision['text']}"
    for name, words in reply["headline"].items():
        yield f"At the machine, {name}: {words}"
    yield from _limits(reply["limits"], reply["units"]["length"])
    for caution in reply["cautions"]:
        yield f"Caution ({caution['code']}): {caution['text']}"
    for assumption in reply["assumptions"]:
        yield f"Assumption: {assumption}"


_PURPOSES = {"to_tap": "Limits to tap", "finished": "Limits of the finished part"}


def _limits(limits: Json, unit: str) -> Iterator[str]:
    """The limits by what they are for, and which are gauged after tapping."""
    for purpose, words in _PURPOSES.items():
        for name, found in limits[purpose].items():
            ends = [str(found[side]) if found[side] is not None else "open" for side in ("min", "max")]
            yield f"{words}: {name.replace('_', ' ')} {' to '.join(ends)} {unit}"
    yield f"Gauged after tapping: {_PURPOSES[limits['gauge_now']].lower()}"


def _segment(root: Any, name: str, before: str | None, operation: Json, units: Json) -> str:
    """Add the segment of an operation; its identifier, for the next one to depend on."""
    segment = inside(root, "OperationsSegment")
    say(segment, "ID", name)
    say(segment, "Description", operation["text"])
    say(segment, "OperationsType", "Quality" if operation["operation"] == "inspect" else "Production")
    lasts(segment, operation.get("time"))
    say(segment, "ProcessSegmentID", operation["operation"])
    for parameter, value in operation["parameters"].items():
        add_property(segment, PARAMETER, parameter, value, units)
    _tool(segment, operation["tool"], units)
    follows(segment, name, before)
    return name


def _tool(segment: Any, tool: Json, units: Json) -> None:
    asset = inside(segment, "PhysicalAssetSpecification")
    kind = tool["kind"]
    say(asset, "ID", tool.get("marking") or tool.get("label") or kind)
    say(asset, "PhysicalAssetClassID", kind)
    for name, value in tool.items():
        if name != "kind":
            add_property(asset, PROPERTY_OF_ASSET, name, value, units)
