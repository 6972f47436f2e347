"""The body of a batch that is one JSON document."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from borewright.contract.faults import RequestInvalid, invalid, unknown_fields
from borewright.contract.fields.composites import ObjectSchema
from borewright.contract.fields.strict import JsonSchema, StrictField, refuse

_FIELDS = ("defaults", "items")
_MOST_DEFAULTS = 100


class _Items(StrictField):
    """Items of a batch: each is judged when it is answered, so that a bad one spoils no other."""

    takes = ("array",)

    def json_schema(self, converter: Any) -> JsonSchema:
        """A list of request bodies."""
        return {"type": "array", "items": {}}


class Defaults(StrictField):
    """Fields that every item gets which does not have them itself."""

    takes = ("object",)

    def take(self, value: dict[str, Any]) -> dict[str, Any]:
        """The fields, of which there are no more than an item has: each item would be refused for the others."""
        if _widest(value) > _MOST_DEFAULTS:
            refuse("field_unknown", _too_many(value))
        return value

    def json_schema(self, converter: Any) -> JsonSchema:
        """An object with fields of an item."""
        return {"type": "object"}


class BatchRequestBody(ObjectSchema):
    """Body of POST /v1/hole-specs/batch."""

    defaults = Defaults("Fields for every item that does not have them itself, as in an item.")
    items = _Items("Requests as POST /v1/hole-specs takes them, answered in order.", required=True)


def read_batch(body: Mapping[str, Any]) -> tuple[list[Any], dict[str, Any]]:
    """Items and defaults of ``body``. Raises RequestInvalid where these two are not as they should be."""
    unknown = unknown_fields(body, _FIELDS)
    if unknown:
        raise RequestInvalid(unknown)
    items, defaults = body.get("items"), body.get("defaults")
    if items is None:
        raise invalid("field_missing", "The field `items` is missing.", pointer="/items")
    if not isinstance(items, list):
        raise invalid("field_type_wrong", "Expected a list of items.", pointer="/items")
    if defaults is not None and not isinstance(defaults, dict):
        raise invalid("field_type_wrong", "Expected an object of default fields.", pointer="/defaults")
    if defaults and _widest(defaults) > _MOST_DEFAULTS:
        raise invalid("field_unknown", _too_many(defaults), pointer="/defaults")
    return items, defaults or {}


def _widest(fields: Mapping[str, Any]) -> int:
    """How many fields the object of ``fields`` has that has the most, itself or one inside it."""
    return max(len(fields), *(_widest(value) for value in fields.values() if isinstance(value, dict)), 0)


def _too_many(defaults: Mapping[str, Any]) -> str:
    return f"{_widest(defaults)} default fields are more than an item has."
