"""Text or fields to a :class:`~borewright.core.model.ThreadCallout`: one front, one reader a system."""

from .front import from_fields, read, read_thread

__all__ = ["from_fields", "read", "read_thread"]
