"""All tapped holes of a part planned together: which tools serve which holes, in which order, in what time."""

from .planned import plan_part

__all__ = ["plan_part"]
