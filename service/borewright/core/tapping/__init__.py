"""Taps: styles, chamfers, pitch-diameter limits, the choice of a tap and the reader of shank markings."""

from .catalogue import limits_catalogue
from .choice import LimitChoice, limit_for, recommend
from .deep import depth_cautions
from .marking import decode
from .model import Hold, TapLimitEntry, TapMarking, TapRequest

__all__ = [
    "Hold",
    "LimitChoice",
    "TapLimitEntry",
    "TapMarking",
    "TapRequest",
    "decode",
    "depth_cautions",
    "limit_for",
    "limits_catalogue",
    "recommend",
]
