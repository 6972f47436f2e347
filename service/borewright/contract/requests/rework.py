"""Body of POST /v1/rework: a hole as the drawing asks for it, and what was found at it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from borewright.contract.faults import RequestInvalid
from borewright.contract.fields import ranges
from borewright.contract.fields.composites import Array, Object, ObjectSchema, OneOf
from borewright.contract.fields.request_units import RequestUnits
from borewright.contract.fields.strict import Boolean, CalloutText, Choice, Number
from borewright.core.errors import BorewrightError
from borewright.core.model import ThreadCallout
from borewright.core.rework import BrokenTap, FaultFound, Measured, ReworkRequest, found

from .batch import BatchRequestBody
from .bodies import HoleSpecFields, hole_spec_request
from .lengths import length
from .request import Asked
from .thread import THREAD_EXAMPLES, ThreadObject, settled


class _OtherThread(OneOf):
    """Another thread than the one of the hole: it is read here, and a fault of it points at this field."""

    def convert(self, value: str | dict[str, Any], units: RequestUnits) -> ThreadCallout:
        """The thread as its reader settles it."""
        try:
            return settled(value, units.bare)
        except BorewrightError as error:
            faults = (replace(one, pointer=one.pointer.removeprefix("/thread")) for one in error.faults)
            raise RequestInvalid(tuple(faults)) from None


def _other_thread(description: str) -> _OtherThread:
    return _OtherThread(
        description,
        CalloutText("Callout as drawings print it."),
        Object("Thread field by field.", ThreadObject),
        examples=THREAD_EXAMPLES[:2],
    )


class MeasuredObject(ObjectSchema):
    """What was measured at the hole; at least one field."""

    makes = Measured

    hole_diameter = length("Diameter of the hole, or minor diameter of its thread.")
    pitch_diameter = length("Pitch diameter of the thread.")
    major_diameter = length("Major diameter of the thread: the largest that is in the hole.")
    full_thread_depth = length("Depth of full, sound thread that there is.", ranges.LENGTH_OR_NONE)
    drill_depth = length("Depth of full drill diameter that there is.")
    coat = length("Thickness of the coat on a surface.", ranges.COAT_OR_NONE)
    not_go_enters = Boolean("Whether the NOT GO thread plug enters.")
    thread = _other_thread("The thread whose gauges measured it; another one than that of the hole is refused.")


class BrokenTapObject(ObjectSchema):
    """The tap that broke; at least one field."""

    makes = BrokenTap

    material = Choice("What the tap is made of. Default: high_speed_steel.", found.TAP_MATERIALS)
    stands_proud = Boolean("Whether the tap stands above the face, so that it can be gripped.")


class FoundObject(ObjectSchema):
    """What was found at the hole."""

    makes = FaultFound

    condition = Choice("What is wrong.", found.CONDITIONS, required=True)
    stage = Choice(
        "Whether it was found before the finish was put on or after: it decides which limits judge. Needed where the"
        " hole has a finish.",
        found.STAGES,
    )
    measured = Object("What was measured. Needed for a hole that was drilled oversize.", MeasuredObject)
    wrong_thread = _other_thread("The thread that was tapped; needed for `wrong_thread`, refused otherwise.")
    edge_distance = length("From the axis of the hole to the nearest edge.")
    wall = length("Material beside the hole as it is now, where no distance to an edge is known.")
    least_wall = length("Wall that must stay: ways that leave less are ruled out.")
    tap_chamfer_threads = Number(
        "Chamfer of the shortest tap at hand, a count of threads. Default: a bottoming tap.",
        ranges.CHAMFER_THREADS,
        data_key="tap_chamfer",
    )
    broken_tap = Object("The tap that sits in the hole.", BrokenTapObject)
    criticality = Choice(
        "Hardware on which nothing is done without authority: only what brings the part back to its drawing is listed."
        " A pipe thread is taken for pressure hardware.",
        found.CRITICALITIES,
    )
    drawing_allows = Array(
        "What the drawing lists beside the thread as it stands: with it the way is rework, without it a repair.",
        Choice("Allowed.", found.ALLOWED),
        most=len(found.ALLOWED),
        unique=True,
    )


def _rework_request(*, found: FaultFound, **hole: Any) -> ReworkRequest:
    return ReworkRequest(hole_spec_request(**hole), found)


class ReworkBody(HoleSpecFields[ReworkRequest]):
    """Body of POST /v1/rework."""

    makes = staticmethod(_rework_request)

    found = Object("What was found at the hole.", FoundObject, required=True)
    detail = Choice(
        "How much of the specification of each way is shown, as POST /v1/hole-specs shows it. Default: only its name,"
        " verdict, review and headline.",
        ("full", "figures", "routing"),
    )


class ReworkBatchBody(BatchRequestBody):
    """Body of POST /v1/rework/batch."""


@dataclass(frozen=True, slots=True)
class ReworkAsked:
    """A request for rework as the domain takes it, how the reply shall look, and the hole as it was sent.

    ``detail`` None: of the specification of a way only what it says first.
    """

    asked: Asked[ReworkRequest]
    hole: Mapping[str, Any]
    detail: str | None


REWORK = ReworkBody()
#: Fields of the request that are no part of the hole of a way.
_NOT_OF_THE_HOLE = frozenset({"found", "id", "explain", "detail"})


def rework_asked(body: Mapping[str, Any]) -> ReworkAsked:
    """The rework that a body asks for.

    Raises: BorewrightError, RequestInvalid with every fault of the body.
    """
    hole = {name: value for name, value in body.items() if name not in _NOT_OF_THE_HOLE and value is not None}
    return ReworkAsked(REWORK.asked(body), hole, body.get("detail"))
