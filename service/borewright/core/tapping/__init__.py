"""Taps: styles, chamfers, pitch-diameter limits and the choice of a tap."""

from .deep import depth_cautions
from .tap_build import chamfer_room
from .tap_candidates import ChamferRoom, Hold, TapLimitEntry, TapMarking, TapRequest
from .tap_choice import LimitChoice, limit_for, recommend

__all__ = [
    "ChamferRoom",
    "Hold",
    "LimitChoice",
    "TapLimitEntry",
    "TapMarking",
    "TapRequest",
    "chamfer_room",
    "depth_cautions",
    "limit_for",
    "recommend",
]
