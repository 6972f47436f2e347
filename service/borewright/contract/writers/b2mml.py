"""The operations of a hole as an OperationsDefinition of B2MML, the open XML schema of ISA-95 (IEC 62264).

One segment an operation, in order: its text, its tool as a physical asset, its parameters, and that it starts after
the one before it. The Business To Manufacturing Markup Language (B2MML) is used courtesy of MESA International.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from borewright.core.caches import read_once

Json = Mapping[str, Any]

MEDIA_TYPE = "application/xml"
NAMESPACE = "http://www.mesa.org/xml/B2MML"

#: Units of the numbers that are no lengths: by name, or by the entry of the reply's `units`.
_UNITS = {
    "spindle_speed": "rev/min",
    "time": "s",
    "pecks": "1",
    "turns": "1",
    "turns_past_gauge_line": "1",
    "starts": "1",
    "taper": "1",
    "percent_thread": "%",
}
_OF_REPLY = {name: name for name in ("cutting_speed", "feed", "torque", "power", "force", "stress")} | {
    "thrust": "force",
    "breaking_torque": "torque",
}


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
    return _written(_definition(reply), declared=True)


def result(item: Json) -> bytes:
    """The definition of an item of a batch, between OPENING and CLOSING; without segments where it was refused.

    Source: B2MML-OperationsDefinition V0701 (MESA International).
    """
    if item["status"] == "ok":
        return _written(_definition(item["spec"]), declared=False)
    root = _root()
    _say(root, "ID", item["id"] or "without id")
    for fault in item["problem"]["errors"]:
        _say(root, "Description", f"Refused ({fault['code']}) {fault['pointer']}: {fault['detail']}")
    return _written(root, declared=False)


@read_once
def _not_xml() -> re.Pattern[str]:
    """What XML 1.0 cannot carry, however it is escaped; compiled when first asked for, it takes its time."""
    return re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def _written(root: Any, *, declared: bool) -> bytes:
    made: bytes = _etree().tostring(root, xml_declaration=declared, encoding="UTF-8", pretty_print=True)
    return made


def _root() -> Any:
    return _etree().Element(f"{{{NAMESPACE}}}OperationsDefinition", nsmap={None: NAMESPACE})


def _definition(reply: Json) -> Any:
    root = _root()
    name = reply["id"] or reply["spec_id"]
    _say(root, "ID", name)
    for words in _descriptions(reply):
        _say(root, "Description", words)
    _say(root, "Version", reply["spec_id"])
    _say(root, "OperationsType", "Mixed")
    _say(root, "DefinitionType", "Instance")
    before: str | None = None
    for operation in reply["operations"]:
        before = _segment(root, f"{name}:{operation['sequence']}", before, operation, reply["units"])
    return root


@read_once
def _etree() -> Any:
    from lxml import etree  # only answers in XML need it

    return etree


def _say(parent: Any, tag: str, words: str) -> None:
    _etree().SubElement(parent, f"{{{NAMESPACE}}}{tag}").text = _not_xml().sub("\ufffd", words)


def _inside(parent: Any, tag: str) -> Any:
    return _etree().SubElement(parent, f"{{{NAMESPACE}}}{tag}")


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
    segment = _inside(root, "OperationsSegment")
    _say(segment, "ID", name)
    _say(segment, "Description", operation["text"])
    _say(segment, "OperationsType", "Quality" if operation["operation"] == "inspect" else "Production")
    if operation.get("time") is not None:
        _say(segment, "Duration", f"PT{operation['time']:.3f}S")
    _say(segment, "ProcessSegmentID", operation["operation"])
    for parameter, value in operation["parameters"].items():
        _property(segment, ("ParameterSpecification", "ParameterChild"), parameter, value, units)
    _tool(segment, operation["tool"], units)
    if before is not None:
        dependency = _inside(segment, "SegmentDependency")
        _say(dependency, "ID", f"{name} after {before}")
        _say(dependency, "Dependency", "AfterEnd")
        _say(dependency, "SegmentID", before)
    return name


def _tool(segment: Any, tool: Json, units: Json) -> None:
    asset = _inside(segment, "PhysicalAssetSpecification")
    kind = tool["kind"]
    _say(asset, "ID", tool.get("marking") or tool.get("label") or kind)
    _say(asset, "PhysicalAssetClassID", kind)
    tag = "PhysicalAssetSpecificationProperty"
    for name, value in tool.items():
        if name != "kind":
            _property(asset, (tag, f"{tag}Child"), name, value, units)


def _property(parent: Any, tags: tuple[str, str], name: str, value: object, units: Json) -> None:
    """Add a named value; two limits are one property with two values, an object has its fields as children."""
    if value is None:
        return
    found = _inside(parent, tags[0])
    _say(found, "ID", name)
    if not isinstance(value, Mapping):
        every = value if isinstance(value, list | tuple) else (value,)
        _values(found, name, tuple(("", one) for one in every), units)
    elif value.keys() <= {"min", "max", "value", "low", "high"}:
        _values(found, name, tuple(value.items()), units)
    else:
        for child, inner in value.items():
            _property(found, (tags[1], tags[1]), child, inner, units)


def _values(found: Any, name: str, values: Sequence[tuple[str, object]], units: Json) -> None:
    for key, value in values:
        if value is None:
            continue
        entry = _inside(found, "Value")
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        _say(entry, "ValueString", _digits(value) if is_number else str(value))
        _say(entry, "DataType", "decimal" if is_number else "string")
        if is_number:
            _say(entry, "UnitOfMeasure", _unit(name, units))
        if key:
            _say(entry, "Key", key)


def _digits(value: object) -> str:
    """A number without exponent, as xsd:decimal has it."""
    return format(Decimal(repr(value)), "f")


def _unit(name: str, units: Json) -> str:
    if name.endswith("angle"):
        return "deg"
    return _UNITS.get(name) or str(units[_OF_REPLY.get(name, "length")])
