"""Taps: styles, chamfers, pitch-diameter limits and the choice of a tap."""

from .deep import depth_cautions
from .tap_build import chamfer, chamfer_room, other_builds
from .tap_candidates import ChamferRoom, Hold, TapLimitEntry, TapMarking, TapRequest
from .tap_choice import LimitChoice, limit_for, recommend

__all__ = [
    "ChamferRoom",
    "Hold",
    "LimitChoice",
    "TapLimitEntry",
    "TapMarking",
    "TapRequest",
    "chamfer",
    "chamfer_room",
    "depth_cautions",
    "limit_for",
    "other_builds",
    "recommend",
]
