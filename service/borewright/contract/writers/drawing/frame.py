"""Where a point of the hole lies on the paper: the scale, the axis, the face and how far the part is drawn."""

from __future__ import annotations

from .geometry import HoleShape
from .pen import Point

_TOP, _LEVEL = 17.0, 6.0
_EDGE = 4.0
_FIELD_WIDTH, _FIELD_HEIGHT = 28.0, 72.0
_MARGIN_BELOW, _WALL_BESIDE = 6.0, 6.0
#: Enlargements and reductions of ISO 5455, as paper length over true length.
_SCALES = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01)


class Frame:
    """The hole on the paper, with room for words on the left of it."""

    def __init__(self, shape: HoleShape, room: float) -> None:
        self.shape, self.scale = shape, _scale(shape)
        self.top = _TOP + (_LEVEL if shape.floor_mm else 0.0)  # a counterbore has a dimension of its own above
        half = _widest(shape) / 2 * self.scale + _WALL_BESIDE
        self.left = _EDGE + room
        self.axis, self.right = self.left + half, self.left + 2 * half
        deepest = shape.tip_mm if not shape.through else shape.thickness_mm or shape.tip_mm
        self.open_below = shape.thickness_mm is None
        below = deepest * self.scale + _MARGIN_BELOW if self.open_below else (shape.thickness_mm or 0) * self.scale
        self.bottom = self.top + below
        self.lowest = max(self.bottom, self.y(deepest))

    def x(self, diameter_mm: float, side: int) -> float:
        """Where the wall of a diameter lies: ``side`` is -1 on the left, 1 on the right."""
        return self.axis + side * diameter_mm / 2 * self.scale

    def y(self, depth_mm: float) -> float:
        """Where a depth lies."""
        return self.top + depth_mm * self.scale

    def at(self, diameter_mm: float, depth_mm: float, side: int) -> Point:
        """A point on the wall."""
        return self.x(diameter_mm, side), self.y(depth_mm)


def _widest(shape: HoleShape) -> float:
    return max(shape.countersink_mm, shape.major_mm, shape.bore_mm)


def _scale(shape: HoleShape) -> float:
    high = max(shape.tip_mm if not shape.through else 0.0, shape.thickness_mm or 0.0)
    fits = (one for one in _SCALES if _widest(shape) * one <= _FIELD_WIDTH and high * one <= _FIELD_HEIGHT)
    return next(fits, _SCALES[-1])
