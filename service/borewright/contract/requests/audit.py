"""Body of POST /v1/hole-specs/audit: a hole and what a routing plans for it."""

from __future__ import annotations

from typing import Any

from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema, ShortForm
from borewright.contract.fields.request_units import RequestUnits
from borewright.contract.fields.strict import Choice, FloatNumber, Text
from borewright.core.audit import AsPlanned, AuditRequest, PlannedTap

from .batch import BatchRequestBody
from .bodies import HoleSpecFields, hole_spec_request
from .lengths import length

#: Words for an operation by the word that the audit knows it by.
OPERATIONS = {
    **{
        word: word
        for word in (
            "spot_drill",
            "drill",
            "ream",
            "counterbore",
            "countersink",
            "turn_over",
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

    makes = PlannedTap

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


def planned_tap(description: str, *, required: bool = False) -> ShortForm:
    """A field that names a planned tap."""
    return ShortForm(
        description,
        Text("Marking on the tap's shank, or its limit alone.", longest=200),
        Object("Tap field by field.", PlannedTapObject),
        short="marking",
        required=required,
        examples=("1/2-13 NC HSS G H3", {"marking": "M8x1.25 HSS G D5", "style": "spiral_flute"}),
    )


class _Operation(Choice):
    """An operation of the plan; the domain takes the word that the audit knows it by."""

    def convert(self, value: str, units: RequestUnits) -> str:
        """The audit's word."""
        return OPERATIONS[value]


class AsPlannedObject(ObjectSchema):
    """What the routing says."""

    makes = AsPlanned

    drill = Text("Drill of the plan by label.", longest=40, required=True, examples=("27/64", "#7", "6.8 mm"))
    tap = planned_tap("Tap of the plan: its marking, or an object.", required=True)
    second_tap = planned_tap("Tap that finishes what the first one leaves, where the plan has one.")
    drill_depth = length("Depth of full drill diameter from the entry face, without the point.")
    spindle_speed_rpm = FloatNumber(
        "Spindle speed of the drill, in rev/min.", ranges.SPINDLE_SPEED, data_key="spindle_speed"
    )
    tap_spindle_speed_rpm = FloatNumber(
        "Spindle speed of the tap, in rev/min.", ranges.SPINDLE_SPEED, data_key="tap_spindle_speed"
    )
    operations_order = Array(
        "Operations of the plan in their order; plate, anodize, galvanize and coat are a finish.",
        _Operation("Operation.", tuple(OPERATIONS)),
        most=40,
    )


def _audit_request(*, as_planned: AsPlanned, **hole: Any) -> AuditRequest:
    return AuditRequest(hole_spec_request(**hole), as_planned)


class AuditRequestBody(HoleSpecFields[AuditRequest]):
    """Body of POST /v1/hole-specs/audit."""

    makes = staticmethod(_audit_request)

    as_planned = Object("What the routing says of the hole.", AsPlannedObject, required=True)


AUDIT = AuditRequestBody()


class AuditBatchBody(BatchRequestBody):
    """Body of POST /v1/hole-specs/audit/batch as one JSON document: each item is judged when it is answered."""
