"""Drills: sizes, percent of thread, oversize, hole limits, and the choice of the drill for a thread."""

from .drill_case import DrillRequest
from .drill_sizes import all_drills, find_drill
from .hole_limits import HoleLimits, hole_limits
from .part_remarks import above_practice
from .percent_of_thread import percent_of_thread
from .recommend import recommend
from .standard_drills import (
    USUAL,
    HoleOversize,
    candidates_within,
    mean_holes,
    mean_oversize,
    oversize_of,
    own_oversize,
    scatter,
)

__all__ = [
    "USUAL",
    "DrillRequest",
    "HoleLimits",
    "HoleOversize",
    "above_practice",
    "all_drills",
    "candidates_within",
    "find_drill",
    "hole_limits",
    "mean_holes",
    "mean_oversize",
    "oversize_of",
    "own_oversize",
    "percent_of_thread",
    "recommend",
    "scatter",
]
