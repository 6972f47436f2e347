"""Drills: sizes, percent of thread, oversize, hole limits, and the choice of the drill for a thread."""

from .hole_limits import HoleLimits, hole_limits
from .oversize import Oversize, mean_oversize
from .percent import percent_of_thread
from .rack import candidates_within, mean_holes
from .recommend import recommend
from .request import DrillRequest, own_oversize
from .sizes import all_drills, find_drill

__all__ = [
    "DrillRequest",
    "HoleLimits",
    "Oversize",
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
