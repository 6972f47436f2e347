"""Body of POST /v1/hole-specs/audit: a hole and what a routing plans for it."""

from __future__ import annotations

from borewright.contract.fields.composites import Array, Object, ObjectSchema, OneOf
from borewright.contract.fields.strict import Choice, Number, Text

from . import request_parts as parts
from .batch_requests import BatchRequestBody
from .fields import ranges
from .request_schemas import HoleSpecRequestBody

#: Words for an operation by the word that the audit knows it by.
OPERATIONS = {
    **{
        word: word
        for word in (
            "spot_drill",
            "drill",
            "ream",
            "countersink",
            "tap",
            "mask",
            "finish",
            "bake",
            "wash",
            "inspect",
            "pilot_drill",
            "bore",
            "redrill",
            "harden",
            "stress_relief",
            "strip",
            "install_insert",
            "break_off_tang",
            "thread_mill",
            "single_point_thread",
        )
    },
    **dict.fromkeys(("plate", "anodize", "galvanize", "coat"), "finish"),
}


class PlannedTapObject(ObjectSchema):
    """A planned tap field by field; at least one field."""

    marking = Text("What is etched on the tap's shank.", longest=200, examples=("1/2-13 NC HSS G H3",))
    limit = Text("Limit of the tap where no marking gives it.", longest=40, examples=("H3", "D5", "ISO 2"))
    style = Choice(
        "Style of the tap, where the marking does not say it.",
        ("spiral_point", "spiral_flute", "straight_flute", "forming", "interrupted", "taper_pipe"),
    )
    chamfer = Choice(
        "Chamfer of the tap, where the marking does not say it.",
        ("taper", "plug", "semi_bottoming", "bottoming", "taper_pipe"),
    )


def planned_tap(description: str, *, required: bool = False) -> OneOf:
    """A field that names a planned tap."""
    return OneOf(
        description,
        Text("Marking on the tap's shank, or its limit alone.", longest=200),
        Object("Tap field by field.", PlannedTapObject),
        required=required,
        examples=("1/2-13 NC HSS G H3", {"marking": "M8x1.25 HSS G D5", "style": "spiral_flute"}),
    )


class AsPlannedObject(ObjectSchema):
    """What the routing says."""

    drill = Text("Drill of the plan by label.", longest=40, required=True, examples=("27/64", "#7", "6.8 mm"))
    tap = planned_tap("Tap of the plan: its marking, or an object.", required=True)
    second_tap = planned_tap("Tap that finishes what the first one leaves, where the plan has one.")
    drill_depth = parts.length("Depth of full drill diameter from the entry face, without the point.")
    spindle_speed = Number("Spindle speed of the drill, in rev/min.", ranges.SPINDLE_SPEED)
    tap_spindle_speed = Number("Spindle speed of the tap, in rev/min.", ranges.SPINDLE_SPEED)
    operations_order = Array(
        "Operations of the plan in their order; plate, anodize, galvanize and coat are a finish.",
        Choice("Operation.", tuple(OPERATIONS)),
        most=40,
    )


class AuditRequestBody(HoleSpecRequestBody):
    """Body of POST /v1/hole-specs/audit."""

    as_planned = Object("What the routing says of the hole.", AsPlannedObject, required=True)


class AuditBatchBody(BatchRequestBody):
    """Body of POST /v1/hole-specs/audit/batch as one JSON document: each item is judged when it is answered."""
