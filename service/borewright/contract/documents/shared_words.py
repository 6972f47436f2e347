"""Closed lists of words at several places of the document: one schema each, so that clients have one type."""

from __future__ import annotations

from typing import Any

from .references import COMPONENT, objects

Json = dict[str, Any]

#: Name of a list of words by a schema and a property that has it. A list in an array is one of them too, even if it
#: stands there alone: clients in Java cannot name it otherwise.
_SHARED = {
    "UnitSystem": ("HoleSpecRequestBody", "unit_system"),
    "Method": ("HoleSpecRequestBody", "method"),
    "Detail": ("HoleSpecRequestBody", "detail"),
    "Edition": ("HoleSpecRequestBody", "edition"),
    "DimensionsApply": ("HoleSpecRequestBody", "dimensions_apply"),
    "TapLimitSystem": ("HoleSpecRequestBody", "tap_limits"),
    "DrillObjective": ("HoleSpecRequestBody", "objective"),
    "DrillSeries": ("HoleSpecRequestBody", "drill_series"),
    "MaterialGroup": ("CoatFigure", "material_group"),
    "TapHolding": ("MachineObject", "tapping"),
    "Verdict": ("HoleSpecReply", "verdict"),
    "Hand": ("ThreadReply", "hand"),
    "Availability": ("FittedLimit", "availability"),
    "DrillOperation": ("DrillItem", "operation"),
    "FailsFirst": ("StrengthSection", "fails_first"),
    "SourceStatus": ("SourceItem", "status"),
    "ItemStatus": ("BatchResult", "status"),
    "PlanObjective": ("PartPlanBody", "objective"),
    "Cause": ("CauseItem", "cause"),
    "PieceSelection": ("MeasurementBody", "selection"),
    "PlannedOperation": ("AsPlannedObject", "operations_order"),
    "DrawingAllows": ("FoundObject", "drawing_allows"),
}


def share(document: Json) -> None:
    """Put the shared lists of words among the schemas of ``document``, and references in their places."""
    schemas: Json = document["components"]["schemas"]
    names = {_words(schemas[schema]["properties"][field]): name for name, (schema, field) in _SHARED.items()}
    for one in objects(document):
        name = names.get(tuple(one["enum"])) if isinstance(one.get("enum"), list) else None
        if name is not None:
            del one["enum"], one["type"]
            one["$ref"] = COMPONENT + name
    schemas |= {name: {"type": "string", "enum": list(words)} for words, name in names.items()}


def _words(schema: Json) -> tuple[str, ...]:
    """The list of words of a property: its own, that of its items or of its one alternative to null."""
    within = [schema, schema.get("items", {}), *schema.get("anyOf", ())]
    (found,) = (one["enum"] for one in within if "enum" in one)
    return tuple(found)
