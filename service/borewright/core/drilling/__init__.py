"""Drills: sizes, percent of thread, oversize, hole limits, and the choice of the drill for a thread."""

from .hole_limits import HoleLimits, hole_limits
from .oversize import HoleOversize, mean_oversize
from .percent import percent_of_thread
from .recommend import recommend
from .request import DrillRequest, own_oversize
from .sizes import all_drills, find_drill
from .standard_drills import candidates_within, mean_holes

__all__ = [
    "DrillRequest",
    "HoleLimits",
    "HoleOversize",
    "all_drills",
    "candidates_within",
    "find_drill",
    "hole_limits",
    "mean_holes",
    "mean_oversize",
    "own_oversize",
    "percent_of_thread",
    "recommend",
]
