"""The sheet: a full section of the hole to scale, drawn and dimensioned as ISO 6410-1 shows internal threads.

Wide line: crests of the thread (minor diameter), drilled hole, limit of full thread. Narrow line: major diameter,
run-out of the tap's chamfer, hatching, which runs through to the wide line.

Source: ISO 6410-1 (threads), ISO 128 (line widths, hatching), ISO 5455 (scales); conventions as commonly taught.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from typing import Any

from borewright.core.plan.specification import Specification

from .geometry import HoleShape, drilled_diameter, hole_shape
from .pen import LETTER, WIDE, Pen, Point, has_room

_LEAST_WIDTH = 150.0
_CENTRE, _TOP = 98.0, 38.0
_FIELD_WIDTH, _FIELD_HEIGHT = 56.0, 104.0
_MARGIN_BELOW, _WALL_BESIDE = 8.0, 10.0
_STEP = 9.0
_MOST_LETTERS = 80
_WORDS_AT = 8.0
#: Enlargements and reductions of ISO 5455, as paper length over true length.
_SCALES = (50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01)


class _Frame:
    """Where a point of the hole lies on the paper."""

    def __init__(self, shape: HoleShape, scale: float) -> None:
        self.shape, self.scale = shape, scale
        self.half = shape.countersink_mm / 2 * scale + _WALL_BESIDE
        deepest = shape.tip_mm if not shape.through else shape.thickness_mm or shape.tip_mm
        self.open_below = shape.thickness_mm is None
        self.bottom = _TOP + (deepest * scale + _MARGIN_BELOW if self.open_below else (shape.thickness_mm or 0) * scale)
        self.lowest = max(self.bottom, self.y(deepest))

    def x(self, diameter_mm: float, side: int) -> float:
        return _CENTRE + side * diameter_mm / 2 * self.scale

    def y(self, depth_mm: float) -> float:
        return _TOP + depth_mm * self.scale

    def at(self, diameter_mm: float, depth_mm: float, side: int) -> Point:
        return self.x(diameter_mm, side), self.y(depth_mm)


def section_drawing(spec: Specification, reply: Mapping[str, Any]) -> bytes:
    """The drawing of a specification, as SVG in UTF-8.

    Args: ``reply`` is the reply to POST /v1/hole-specs of the same specification: its figures are the dimensions.
    """
    shape = hole_shape(spec, reply)
    frame, pen = _Frame(shape, _scale(shape)), Pen()
    _material(pen, frame)
    for side in (-1, 1):
        _hole_side(pen, frame, side)
    _across(pen, frame)
    _diameters(pen, frame, reply)
    columns = _depths(pen, frame, reply)
    high = _legend(pen, frame, reply)
    return pen.document(
        size=(max(_LEAST_WIDTH, _CENTRE + frame.half + max(3, columns) * _STEP + 5), high),
        title=f"Section of tapped hole {reply['thread']['designation']}",
        description=_in_words(shape, reply),
        attributes={"data-scale": f"{frame.scale:g}", "data-unit": "mm"},
    ).encode()


def _scale(shape: HoleShape) -> float:
    high = max(shape.tip_mm if not shape.through else 0.0, shape.thickness_mm or 0.0)
    fits = (one for one in _SCALES if shape.countersink_mm * one <= _FIELD_WIDTH and high * one <= _FIELD_HEIGHT)
    return next(fits, _SCALES[-1])


def _wall_of_hole(shape: HoleShape) -> list[tuple[float, float]]:
    """Diameter and depth along the wide line, from the face down to the centre line or out of the wall."""
    entry = shape.crests_begin_mm
    wall = [(shape.countersink_mm, 0.0), (shape.minor_at(entry), entry)]
    end = shape.thread_end_mm
    if shape.taper_ratio and shape.minor_mm > shape.drill_mm:
        meets = (shape.minor_mm - shape.drill_mm) / shape.taper_ratio
        wall += [(shape.minor_at(depth), depth) for depth in (meets, end) if entry < depth <= end]
    else:
        wall.append((shape.minor_at(end), end))
    wall.append((shape.drill_mm, end))
    if shape.through:
        return [*wall, (shape.drill_mm, shape.thickness_mm or shape.drill_depth_mm)]
    return [*wall, (shape.drill_mm, shape.drill_depth_mm), (0.0, shape.tip_mm)]


def _material(pen: Pen, frame: _Frame) -> None:
    left, right = _CENTRE - frame.half, _CENTRE + frame.half
    wall = _wall_of_hole(frame.shape)
    for side, edge in ((-1, left), (1, right)):
        points = [(edge, _TOP), *(frame.at(*point, side) for point in wall), (_CENTRE, frame.bottom)]
        if frame.shape.through:
            points.pop()
        pen.hatching([*points, (edge, frame.bottom)])
        pen.line("face", (edge, _TOP), frame.at(frame.shape.countersink_mm, 0, side), width=WIDE)
        _broken_edge(pen, (edge, _TOP), (edge, frame.bottom))
        inner = frame.x(frame.shape.drill_mm, side) if frame.shape.through else _CENTRE
        if frame.open_below:
            _broken_edge(pen, (edge, frame.bottom), (inner, frame.bottom))
        else:
            pen.line("back", (edge, frame.bottom), (inner, frame.bottom), width=WIDE)


def _broken_edge(pen: Pen, start: Point, end: Point) -> None:
    """The narrow line where the part is broken off."""
    pen.line("break", start, end, dash="6 1.2")


def _hole_side(pen: Pen, frame: _Frame, side: int) -> None:
    shape = frame.shape
    pen.path("contour", [frame.at(*point, side) for point in _wall_of_hole(shape)], width=WIDE)
    begins, full = shape.roots_begin_mm, shape.full_thread_mm
    pen.line("major", frame.at(shape.major_at(begins), begins, side), frame.at(shape.major_at(full), full, side))
    end = shape.thread_end_mm
    if end > full:
        share = (end - full) / shape.run_out_mm
        foot = shape.major_at(full) + share * (shape.minor_at(end) - shape.major_at(full))
        pen.line("run-out", frame.at(shape.major_at(full), full, side), frame.at(foot, end, side))


def _across(pen: Pen, frame: _Frame) -> None:
    shape = frame.shape
    full, entry = shape.full_thread_mm, shape.crests_begin_mm
    major = shape.major_at(full)
    if not shape.through or full < (shape.thickness_mm or full):
        pen.line("thread-end", frame.at(major, full, -1), frame.at(major, full, 1), width=WIDE)
    pen.line("countersink-edge", frame.at(shape.minor_at(entry), entry, -1), frame.at(shape.minor_at(entry), entry, 1))
    if not shape.through:
        pen.line(
            "drill-shoulder",
            frame.at(shape.drill_mm, shape.drill_depth_mm, -1),
            frame.at(shape.drill_mm, shape.drill_depth_mm, 1),
        )
    pen.line("centre", (_CENTRE, _TOP - 4), (_CENTRE, frame.lowest + 4), dash="6 1 1 1")


def _diameters(pen: Pen, frame: _Frame, reply: Mapping[str, Any]) -> None:
    shape, depths, thread = frame.shape, reply["depths"], reply["thread"]
    drilled = drilled_diameter(reply)
    angle = f"{depths['countersink_angle']:g}°"
    rows = (
        ("major", shape.major_mm, thread["designation"]),
        ("countersink", shape.countersink_mm, f"Ø{depths['countersink_diameter']:g} × {angle}"),
    )
    for level, (name, diameter, words) in enumerate(rows):
        height = _TOP - 9 - 8 * level
        for side in (-1, 1):
            foot = frame.at(diameter, 0, side)
            pen.line("extension", foot, (foot[0], height - 1.5))
        _across_dimension(pen, frame, name, diameter, height, words)
    height = frame.lowest + 10
    for side in (-1, 1):
        foot = frame.at(shape.drill_mm, shape.thickness_mm or 0 if shape.through else shape.drill_depth_mm, side)
        pen.line("extension", foot, (foot[0], height + 1.5))
    _across_dimension(pen, frame, "drill", shape.drill_mm, height, f"Ø{drilled:g} {_drill_name(reply)}".rstrip())


def _across_dimension(pen: Pen, frame: _Frame, name: str, diameter: float, height: float, words: str) -> None:
    pen.diameter(name, (frame.x(diameter, -1), height), (frame.x(diameter, 1), height), words, words_at=_WORDS_AT)


def _drill_name(reply: Mapping[str, Any]) -> str:
    choice = reply["drill"]
    if choice is None:
        return "no drill planned"
    return "reamed" if choice["ream_diameter"] else f"drill {choice['recommended']['label']}"


def _depths(pen: Pen, frame: _Frame, reply: Mapping[str, Any]) -> int:
    """Dimension the depths; how many stand on the right, where words have free room above."""
    shape, depths = frame.shape, reply["depths"]
    right = [("full-thread", 0.0, shape.full_thread_mm, f"{depths['full_thread_depth']:g} full thread")]
    left: list[tuple[str, float, float, str]] = []
    if not shape.through:
        right.append(("drill-depth", 0.0, shape.drill_depth_mm, f"{depths['drill_depth']:g} drill"))
        right.append(("drill-tip", 0.0, shape.tip_mm, f"{depths['drill_tip_depth']:g} to tip"))
        left.append(("run-out", shape.full_thread_mm, shape.thread_end_mm, f"{_run_out(shape, reply):g} run-out"))
    if shape.thickness_mm is not None:
        if depths["wall_left"] is not None and depths["wall_left"] > 0:
            left.append(("wall-left", shape.tip_mm, shape.thickness_mm, f"{depths['wall_left']:g} wall left"))
        wall = shape.thickness_mm / (25.4 if reply["units"]["length"] == "in" else 1)
        left.append(("thickness", 0.0, shape.thickness_mm, f"{round(wall, 4):g} thick"))
    within = [row for row in left if has_room(row[3], (row[2] - row[1]) * frame.scale)]
    right += [row for row in left if row not in within]
    for side, rows in ((1, right), (-1, within)):
        for column, (name, above, below, words) in enumerate(rows, start=1):
            _depth_dimension(pen, frame, side * (frame.half + _STEP * column), name, (above, below), words)
    return len(right)


def _run_out(shape: HoleShape, reply: Mapping[str, Any]) -> float:
    """Length of the run-out in the reply's unit, as it is printed."""
    if not reply["thread"]["taper"]:
        return float(reply["depths"]["chamfer_length"])
    return round(shape.run_out_mm / 25.4, 3) if reply["units"]["length"] == "in" else round(shape.run_out_mm, 2)


def _depth_dimension(pen: Pen, frame: _Frame, offset: float, name: str, span: tuple[float, float], words: str) -> None:
    along = _CENTRE + offset
    outwards = 1.5 if offset > 0 else -1.5
    for depth in span:
        start = _CENTRE + (frame.half if offset > 0 else -frame.half)
        if 0 < depth < (frame.shape.thickness_mm or depth + 1):
            start = frame.x(0 if depth == frame.shape.tip_mm else frame.shape.major_mm, 1 if offset > 0 else -1)
        pen.line("extension", (start, frame.y(depth)), (along + outwards, frame.y(depth)))
    pen.dimension(name, (along, frame.y(span[0])), (along, frame.y(span[1])), words)


def _legend(pen: Pen, frame: _Frame, reply: Mapping[str, Any]) -> float:
    scale = f"{frame.scale:g}:1" if frame.scale >= 1 else f"1:{1 / frame.scale:g}"
    unit = "inches" if reply["units"]["length"] == "in" else "millimetres"
    point = f"drill point {frame.shape.point_deg:g}°"
    lines = [f"Scale {scale} · dimensions in {unit} · {point}", *_remarks(reply)]
    height = frame.lowest + 22
    for words in lines:
        pen.text(words, (_WORDS_AT, height), anchor="start")
        height += LETTER * 1.6
    return height + 2


def _remarks(reply: Mapping[str, Any]) -> list[str]:
    remarks = ["Sizes are those to be machined; the part drawing and its standards govern."]
    if reply["thread"]["taper"]:
        remarks.insert(0, f"Taper 1:{1 / reply['thread']['taper']:g} on the diameter, drawn true; sizes at the face.")
        remarks[1:1] = _gauge(reply)
        if reply["tap"] is not None:
            remarks.insert(1, f"Tap to its gauge line, tip {reply['depths']['tap_travel']:g} past the face.")
    else:
        remarks[:0] = _limits(reply)
    through = reply["depths"]["breakthrough"]
    if through is not None:
        remarks.insert(0, f"Drill point travels {through:g} beyond the far face.")
    if reply["verdict"] == "infeasible":
        remarks.insert(0, "NOT TO BE MADE as it stands: see what is to be decided.")
    return remarks


def _limits(reply: Mapping[str, Any]) -> list[str]:
    """The pitch diameter that the tap must make, and that of the finished part where it differs."""
    purpose = reply["limits"]
    same = purpose["to_tap"] == purpose["finished"]
    lines = [f"Pitch diameter to tap{' and finished' if same else ''}: {_window(purpose['to_tap'])}."]
    if not same:
        lines.append(f"Pitch diameter finished: {_window(purpose['finished'])}; gauge after tapping by the one to tap.")
    return lines


def _window(limits: Mapping[str, Any]) -> str:
    low, high = (limits["pitch_diameter"][side] for side in ("min", "max"))
    return " to ".join(f"{end:.7g}" for end in (low, high) if end is not None) or "not held"


def _gauge(reply: Mapping[str, Any]) -> list[str]:
    """How a taper thread is gauged, in lines that the narrowest sheet holds."""
    return textwrap.wrap(f"Gauge of the finished thread: {reply['thread']['pipe']['gauge']}.", _MOST_LETTERS)


def _in_words(shape: HoleShape, reply: Mapping[str, Any]) -> str:
    depths, unit = reply["depths"], reply["units"]["length"]
    said = [
        f"Section through the axis of a {'through' if shape.through else 'blind'} hole tapped"
        f" {reply['thread']['designation']}.",
        f"Hole {_drill_name(reply)}, diameter {drilled_diameter(reply):g} {unit}.",
        f"Full thread {depths['full_thread_depth']:g} {unit} deep.",
    ]
    if not shape.through:
        said.append(
            f"Drilled {depths['drill_depth']:g} {unit} deep at full diameter, {depths['drill_tip_depth']:g} {unit} to"
            f" the tip of the {shape.point_deg:g} degree point; run-out {_run_out(shape, reply):g} {unit}."
        )
    said.append(
        f"Countersink diameter {depths['countersink_diameter']:g} {unit}, {depths['countersink_angle']:g} degrees."
    )
    if depths["wall_left"] is not None:
        said.append(f"Wall left under the tip {depths['wall_left']:g} {unit}.")
    return " ".join(said)
