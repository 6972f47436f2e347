"""Body of POST /v1/notes/read: a hole note, and what the drawing says besides."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import orjson

from borewright.contract.faults import RequestInvalid, below, invalid, unknown_fields
from borewright.contract.fields.composites import Array
from borewright.contract.fields.request_units import UNIT_OF_SYSTEM
from borewright.contract.fields.strict import JsonSchema, StrictField, Text
from borewright.core.model import Unit
from borewright.core.notes import MAX_LENGTH, NoteRequest

from . import parts
from .bodies import HoleSpecFields
from .request import RequestSchema

_MOST_GENERAL, _LONGEST_GENERAL, _DEFAULTS_BYTES = 20, 400, 32_768


@dataclass(frozen=True, slots=True)
class NoteToRead:
    """A note, and the fields of a hole that it leaves open."""

    request: NoteRequest
    defaults: Mapping[str, Any]


class _HoleDefaults(StrictField):
    """Fields of a hole specification for what the note does not say; they are judged with the hole they go to."""

    takes = ("object",)

    def take(self, value: dict[str, Any]) -> dict[str, Any]:
        """The fields as they are; unknown ones are refused."""
        if unknown := unknown_fields(value, HoleSpecFields.names()):
            raise RequestInvalid(below("defaults", unknown))
        if value.get("unit_system", "inch") not in tuple(UNIT_OF_SYSTEM):  # it may be of any type
            raise invalid(
                "field_value_unknown",
                "Expected inch or metric.",
                pointer="/defaults/unit_system",
                allowed=tuple(UNIT_OF_SYSTEM),
            )
        return value

    def json_schema(self, converter: Any) -> JsonSchema:
        """An object with fields of a hole specification."""
        return {"type": "object"}


class NoteRequestBody(RequestSchema[NoteToRead]):
    """Body of POST /v1/notes/read."""

    note = Text(
        "The note as the drawing prints it or a program exports it, line breaks included.",
        longest=MAX_LENGTH,
        required=True,
        examples=("4X Ø.201 THRU\n1/4-20 UNC-2B", "4x M8 - 16 tief, Kernloch Ø6,8 - 20 tief"),
    )
    general_notes = Array(
        "General notes of the drawing: class of all threads, countersinks, finish, which limits hold, unit.",
        Text("One of them.", longest=_LONGEST_GENERAL),
        most=_MOST_GENERAL,
        examples=(["ALL THREADS CLASS 3B UNLESS OTHERWISE SPECIFIED"],),
    )
    defaults = _HoleDefaults(
        "Fields of POST /v1/hole-specs for what the note does not say, such as material or the thickness of the part;"
        " what the note says stands before them.",
        examples=({"material": "6061-T6", "hole": {"thickness": "20 mm"}},),
    )
    unit_system = parts.unit_system()

    def _request(self, given: dict[str, Any], unit: Unit | None) -> NoteToRead:
        defaults = given.get("defaults") or {}
        if _size(defaults) > _DEFAULTS_BYTES:
            raise invalid("text_length_wrong", f"Expected at most {_DEFAULTS_BYTES} bytes.", pointer="/defaults")
        if unit is None and "unit_system" in defaults:
            unit = UNIT_OF_SYSTEM[defaults["unit_system"]]
        return NoteToRead(NoteRequest(given["note"], unit, given.get("general_notes") or ()), defaults)


def _size(defaults: Mapping[str, Any]) -> int:
    """How long the fields are as the reply writes them, in bytes. Raises RequestInvalid for a number beyond all."""
    try:
        json.dumps(defaults, allow_nan=False)  # for orjson an infinity is null
        return len(orjson.dumps(defaults))
    except (TypeError, ValueError):
        text = "A number of the defaults is larger than any that is taken."
        raise invalid("value_out_of_range", text, pointer="/defaults") from None


NOTE = NoteRequestBody()
