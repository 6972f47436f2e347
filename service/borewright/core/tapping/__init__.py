"""Taps: styles, chamfers, pitch-diameter limits, the choice of a tap and the reader of shank markings."""

from .catalogue import limits_catalogue
from .choice import LimitChoice, limit_for, recommend
from .deep import depth_cautions
from .marking import decode
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
    "decode",
    "depth_cautions",
    "limit_for",
    "limits_catalogue",
    "recommend",
]
