"""Taps: styles, chamfers, pitch-diameter limits and the choice of a tap."""

from .choice import LimitChoice, limit_for, recommend
from .deep import depth_cautions
from .model import ChamferRoom, Hold, TapLimitEntry, TapMarking, TapRequest
from .tap_build import chamfer_room

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
