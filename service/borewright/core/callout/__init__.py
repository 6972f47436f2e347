"""Text or fields to a :class:`~borewright.core.model.ThreadCallout`: one front, one reader a system."""

from .front import from_fields, read
from .hole_words import check as check_hole

__all__ = ["check_hole", "from_fields", "read"]
