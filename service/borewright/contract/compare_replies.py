"""The reply of a comparison, in pieces as it is sent and kept, or read back as an object."""

from __future__ import annotations

from borewright.contract.compare.comparison import Comparison
from borewright.contract.sections.compare import CompareReply
from borewright.contract.sections.reply import reply_texts
from borewright.contract.sections.section_text import Pieces, pieces
from borewright.core.model import Notes

from .replies import own, parsed
from .unit_view import Json, view


def compare_pieces(comparison: Comparison) -> Pieces:
    """Reply of POST /v1/hole-specs/compare, in the units of what was kept."""
    figures = view(comparison.thread_unit, comparison.unit)
    return pieces(reply_texts(CompareReply, comparison, figures, after=own(Notes(comparison.assumptions))))


def compare_reply(comparison: Comparison) -> Json:
    """The comparison as an object."""
    return parsed(compare_pieces(comparison))
