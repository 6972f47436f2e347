"""What is left where no thread holds in the old place: a plug, the design's own answer, or scrap."""

from __future__ import annotations

from borewright.core.model import Caution

from .proof import Proof
from .rework_case import ReworkCase
from .rework_way import ReworkWay
from .ways_written import way, work

PLUG, REFER, SCRAP = "plug_and_remake", "refer_to_engineering", "scrap"
_NEVER_ALONE = Caution(
    "plug_needs_engineering",
    "Whether the alloy and its heat treatment bear welding, and whether a plug carries the load, is for engineering to"
    " say; never on pressure, lifting or flight hardware without authority.",
)


def plug(case: ReworkCase) -> ReworkWay:
    """A plug or weld in the hole of ``case``, which is then made anew.

    Source: TM 9-2520-215-34 names welding and tapping again beside an oversize insert.
    """
    lines = (
        work("plug", "plug or weld", "Plug or weld the hole shut, by the procedure that engineering releases"),
        *(one.line for one in case.planned.operations),
    )
    return way(
        case,
        PLUG,
        "repair",
        "Plug or weld the hole shut and make it anew, by engineering only",
        proof=Proof(case.unit),
        lines=lines,
        cautions=(_NEVER_ALONE,),
    )


def refer(case: ReworkCase) -> ReworkWay:
    """The question to whoever answers for the hardware of ``case``: nothing else is listed for it.

    Source: our own.
    """
    return way(
        case,
        REFER,
        "repair",
        f"Stop, tag the part and ask engineering: on {case.criticality} hardware no repair is listed here",
        proof=Proof(case.unit),
        lines=(work("hold", "tag", "Tag the part, set it apart and send the measurements to engineering"),),
    )


def scrap(case: ReworkCase) -> ReworkWay:
    """The end of the part of ``case``.

    Source: MIL-STD-1520C 3.14.
    """
    return way(
        case,
        SCRAP,
        "scrap",
        "Scrap the part: mark it or destroy it so that it cannot be used",
        proof=Proof(case.unit),
        lines=(work("scrap", "mark", "Mark or destroy the part so that it cannot be used"),),
    )
