"""The hole itself, as ISO 6410-1 shows an internal thread in section.

Wide line: crests of the thread (minor diameter), drilled hole, limit of full thread. Narrow line: major diameter,
run-out of the tap's chamfer, hatching, which runs through to the wide line.

Source: ISO 6410-1 (threads), ISO 128 (lines, hatching); conventions as commonly taught.
"""

from __future__ import annotations

from .frame import Frame
from .geometry import HoleShape
from .pen import Pen

_CENTRE_BEYOND = 4.0


def draw(pen: Pen, frame: Frame) -> None:
    """Material, contour, thread, and the lines across."""
    _material(pen, frame)
    for side in (-1, 1):
        _hole_side(pen, frame, side)
    _across(pen, frame)


def _wall_of_hole(shape: HoleShape) -> list[tuple[float, float]]:
    """Diameter and depth along the wide line, from the face down to the centre line or out of the wall."""
    entry = shape.crests_begin_mm
    wall = [(shape.bore_mm, 0.0), (shape.bore_mm, shape.floor_mm)] if shape.floor_mm else []
    wall += [(shape.countersink_mm, shape.floor_mm), (shape.minor_at(entry), entry)]
    end = shape.thread_end_mm
    if shape.taper_ratio and shape.minor_mm > shape.drill_mm:
        meets = (shape.minor_mm - shape.drill_mm) / shape.taper_ratio
        wall += [(shape.minor_at(depth), depth) for depth in (meets, end) if entry < depth <= end]
    else:
        wall.append((shape.minor_at(end), end))
    wall.append((shape.drill_mm, end))
    if shape.through:
        far = shape.thickness_mm or shape.drill_depth_mm
        chamfered = [(shape.countersink_mm, far)] if shape.both_sides else []
        return [*wall, (shape.drill_mm, shape.far_edge_mm), *chamfered]
    return [*wall, (shape.drill_mm, shape.drill_depth_mm), (0.0, shape.tip_mm)]


def _material(pen: Pen, frame: Frame) -> None:
    wall = _wall_of_hole(frame.shape)
    for side, edge in ((-1, frame.left), (1, frame.right)):
        points = [(edge, frame.top), *(frame.at(*point, side) for point in wall), (frame.axis, frame.bottom)]
        if frame.shape.through:
            points.pop()
        pen.hatching([*points, (edge, frame.bottom)])
        pen.line("face", (edge, frame.top), frame.at(wall[0][0], 0, side), kind="wide")
        pen.line("break", (edge, frame.top), (edge, frame.bottom), kind="break")
        inner = frame.x(wall[-1][0], side) if frame.shape.through else frame.axis
        if frame.open_below:
            pen.line("break", (edge, frame.bottom), (inner, frame.bottom), kind="break")
        else:
            pen.line("back", (edge, frame.bottom), (inner, frame.bottom), kind="wide")


def _hole_side(pen: Pen, frame: Frame, side: int) -> None:
    shape = frame.shape
    pen.line("contour", *(frame.at(*point, side) for point in _wall_of_hole(shape)), kind="wide")
    begins, full = shape.roots_begin_mm, shape.full_end_mm
    pen.line("major", frame.at(shape.major_at(begins), begins, side), frame.at(shape.major_at(full), full, side))
    end = shape.thread_end_mm
    if end > full:
        share = (end - full) / shape.run_out_mm
        foot = shape.major_at(full) + share * (shape.minor_at(end) - shape.major_at(full))
        pen.line("run-out", frame.at(shape.major_at(full), full, side), frame.at(foot, end, side))


def _across(pen: Pen, frame: Frame) -> None:
    shape = frame.shape
    full, entry = shape.full_end_mm, shape.crests_begin_mm
    major = shape.major_at(full)
    if shape.floor_mm:
        wide, deep = shape.bore_mm, shape.floor_mm
        pen.line("counterbore-floor", frame.at(wide, deep, -1), frame.at(wide, deep, 1))
    if shape.both_sides:
        far = shape.far_edge_mm
        pen.line("far-edge", frame.at(shape.drill_mm, far, -1), frame.at(shape.drill_mm, far, 1))
    if not shape.through or shape.full_thread_mm < (shape.thickness_mm or full):
        pen.line("thread-end", frame.at(major, full, -1), frame.at(major, full, 1), kind="wide")
    crest = shape.minor_at(entry)
    pen.line("countersink-edge", frame.at(crest, entry, -1), frame.at(crest, entry, 1))
    if not shape.through:
        drilled, deep = shape.drill_mm, shape.drill_depth_mm
        pen.line("drill-shoulder", frame.at(drilled, deep, -1), frame.at(drilled, deep, 1))
    ends = (frame.axis, frame.top - _CENTRE_BEYOND), (frame.axis, frame.lowest + _CENTRE_BEYOND)
    pen.line("centre", *ends, kind="centre")
