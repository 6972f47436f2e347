"""What every document of B2MML is built of: elements of its namespace, named values with units, order of segments.

The Business To Manufacturing Markup Language (B2MML) is used courtesy of MESA International.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from borewright.core.caches import read_once

Json = Mapping[str, Any]

MEDIA_TYPE = "application/xml"
NAMESPACE = "http://www.mesa.org/xml/B2MML"

#: A named value of a segment and of a physical asset, and the values inside it.
PARAMETER = ("ParameterSpecification", "ParameterChild")
PROPERTY_OF_ASSET = ("PhysicalAssetSpecificationProperty", "PhysicalAssetSpecificationPropertyChild")

#: Units of the numbers that are no lengths: by name, or by the entry of the reply's `units`.
_UNITS = {
    "spindle_speed": "rev/min",
    "spindle_speeds": "rev/min",
    "count": "1",
    "stage": "1",
    "time": "s",
    "tool_change": "s",
    "positioning": "s",
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


@read_once
def _not_xml() -> re.Pattern[str]:
    """What XML 1.0 cannot carry, however it is escaped; compiled when first asked for, it takes its time."""
    return re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml(root: Any, *, declared: bool) -> bytes:
    """The element as UTF-8, with the declaration where it is a whole document."""
    made: bytes = _etree().tostring(root, xml_declaration=declared, encoding="UTF-8", pretty_print=True)
    return made


def definition_root() -> Any:
    """An OperationsDefinition without content."""
    return _etree().Element(f"{{{NAMESPACE}}}OperationsDefinition", nsmap={None: NAMESPACE})


@read_once
def _etree() -> Any:
    from lxml import etree  # only answers in XML need it

    return etree


def say(parent: Any, tag: str, words: str) -> None:
    """Add an element with text; what XML cannot carry becomes the sign for what was not read."""
    _etree().SubElement(parent, f"{{{NAMESPACE}}}{tag}").text = _not_xml().sub("\ufffd", words)


def inside(parent: Any, tag: str) -> Any:
    """Add an element for others to stand in."""
    return _etree().SubElement(parent, f"{{{NAMESPACE}}}{tag}")


def lasts(segment: Any, time_s: float | None) -> None:
    """Say how long a segment takes, where that is known."""
    if time_s is not None:
        say(segment, "Duration", f"PT{time_s:.3f}S")


def follows(segment: Any, name: str, before: str | None) -> None:
    """Say that a segment starts after the one before it, if there is one."""
    if before is not None:
        dependency = inside(segment, "SegmentDependency")
        say(dependency, "ID", f"{name} after {before}")
        say(dependency, "Dependency", "AfterEnd")
        say(dependency, "SegmentID", before)


def add_property(parent: Any, tags: tuple[str, str], name: str, value: object, units: Json) -> None:
    """Add a named value; two limits are one property with two values, an object has its fields as children."""
    if value is None:
        return
    found = inside(parent, tags[0])
    say(found, "ID", name)
    if not isinstance(value, Mapping):
        every = value if isinstance(value, list | tuple) else (value,)
        _values(found, name, tuple(("", one) for one in every), units)
    elif value.keys() <= {"min", "max", "value", "low", "high"}:
        _values(found, name, tuple(value.items()), units)
    else:
        for child, inner in value.items():
            add_property(found, (tags[1], tags[1]), child, inner, units)


def _values(found: Any, name: str, values: Sequence[tuple[str, object]], units: Json) -> None:
    for key, value in values:
        if value is None:
            continue
        entry = inside(found, "Value")
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        say(entry, "ValueString", digits(value) if is_number else str(value))
        say(entry, "DataType", "decimal" if is_number else "string")
        if is_number:
            say(entry, "UnitOfMeasure", _unit(name, units))
        if key:
            say(entry, "Key", key)


def digits(value: object) -> str:
    """A number without exponent, as xsd:decimal has it."""
    return format(Decimal(repr(value)), "f")


def _unit(name: str, units: Json) -> str:
    if name.endswith("angle"):
        return "deg"
    return _UNITS.get(name) or str(units[_OF_REPLY.get(name, "length")])
