"""The reply of POST /v1/part-plans."""

from __future__ import annotations

from collections.abc import Callable

from borewright.contract.requests.part_plan import PartAsked
from borewright.contract.requests.request import Asked
from borewright.contract.sections.part_plan import PartPlanReply, PartPlanShown
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.section_notes import SectionNotes
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.part.model import PartPlan

from . import replies
from .unit_view import Json, view


def part_plan_pieces(plan: PartPlan, asked: PartAsked, wrote: Callable[[int], None] = lambda _: None) -> Pieces:
    """The reply in pieces. Its lengths, and those of its holes without a unit system, are in the first hole's unit.

    Args: ``wrote`` is told how many bytes were written after each hole, and ends the reply by what it raises.
    """
    unit = plan.holes[0].specification.thread.unit if plan.holes else asked.unit or "in"
    specifications: list[bytes] = []
    size = 0
    for one in plan.holes:
        shown = Asked(one.hole.request, asked.unit, explain=False, detail=asked.detail)
        specifications.append(b"".join(replies.hole_spec_pieces(one.named_specification(), shown)))
        size += len(specifications[-1])
        wrote(size)
    record = PartPlanShown(plan, asked.part, specifications)
    after = (SectionNotes(plan.notes, ""),)
    return pieces(reply_texts(PartPlanReply, record, view(unit, asked.unit), after=after))


def part_plan_reply(plan: PartPlan, asked: PartAsked, wrote: Callable[[int], None] = lambda _: None) -> Json:
    """The reply as an object."""
    return replies.parsed(part_plan_pieces(plan, asked, wrote))
