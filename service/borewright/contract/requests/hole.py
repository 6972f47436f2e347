"""The hole of a request: its depths, what the tools must reach through, and what the drawing states of it."""

from __future__ import annotations

from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Object, ObjectSchema
from borewright.contract.fields.strict import Choice, Number, Text
from borewright.core.model import Counterbore, Hole, StatedCountersink

from .lengths import length


class CounterboreObject(ObjectSchema):
    """A counterbore or spotface at the entry of the hole."""

    makes = Counterbore

    diameter = length("Diameter of the counterbore or spotface.", required=True)
    depth = length("Depth of the counterbore from the entry face; left out for a spotface, as deep as cleans up.")


class CountersinkObject(ObjectSchema):
    """The countersink that the drawing states; at least one field."""

    makes = StatedCountersink

    diameter = length("Diameter of the countersink at the surface. Default: a little over the major diameter.")
    angle_deg = Number(
        "Included angle of the countersink in degrees. Default: the usual one of the thread's unit.",
        ranges.POINT_ANGLE,
        data_key="angle",
    )
    sides = Choice("Countersunk on the entry side only, or on both. Default: one.", ("one", "both"))


class HoleObject(ObjectSchema):
    """The hole to be tapped."""

    makes = Hole

    kind = Choice("Blind or through.", ("blind", "through"), required=True, data_key="type")
    full_thread_depth = length("Depth of full thread from the entry face; needed for a blind hole.")
    thickness = length("Wall at the hole: needed for a through hole; for a blind one it bounds the drill tip.")
    drill_depth_limit = length("Deepest full drill diameter allowed, from the entry face.")
    point_angle_deg = Number(
        "Included angle of the drill point in degrees. Default: 118.", ranges.POINT_ANGLE, data_key="point_angle"
    )
    access_depth = length("Depth of a bore above the entry face that the tools must reach through.")
    clearance_diameter = length("Diameter free for shanks and holders above the entry face.")
    run_out = Choice(
        "Rule for the depth below the full thread: from the tap's chamfer, DIN 76-1 or BS 1936. Default: chamfer.",
        ("chamfer", "din_76_1", "bs_1936"),
    )
    drill = Text(
        "Drill or hole diameter that the drawing states, by label or size: it is planned as stated and held against the"
        " drill that would be chosen.",
        longest=40,
        examples=("#7", "0.201 in", "6.8 mm"),
    )
    drill_depth = length("Depth of full drill diameter that the drawing states, from the entry face: planned so.")
    least_drill_depth = length("Least depth of full drill diameter that the drawing states (MIN), from the entry face.")
    counterbore = Object("Counterbore or spotface at the entry of the hole.", CounterboreObject)
    countersink = Object("Countersink that the drawing states: it is planned as stated.", CountersinkObject)


def tapped_hole(*, required: bool) -> Object:
    """The field that describes the hole."""
    return Object("The hole to be tapped.", HoleObject, required=required)
