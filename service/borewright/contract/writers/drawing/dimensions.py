"""Sizes around the section: running depths from the face on the right, what lies between on the left, diameters.

Depths share one dimension line from the face, each with its arrow (running dimensioning, ISO 129-1). Their words stand
level in a column beside it, spread where depths are near each other, so that no line runs through words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .figures import plain
from .frame import Frame
from .geometry import HoleShape, drilled_diameter
from .pen import ARROW, LETTER, Pen, width_of

_LEVEL_ABOVE = 6.0
_BESIDE, _ELBOW, _GAP, _APART = 5.0, 3.0, 1.0, 4.4
_TO_MIDDLE = LETTER * 0.36
_BELOW = 7.0
_SCALE_BARS = {"in": (25.4, (10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05)), "mm": (1.0, (200, 100, 50, 20, 10, 5, 2, 1))}
_BAR_AT, _BAR_TICK, _LONGEST_BAR = 4.0, 1.2, 20.0

Row = tuple[str, float, float, str]


def draw(pen: Pen, frame: Frame, reply: Mapping[str, Any]) -> float:
    """Draw all sizes; the height at which the section ends."""
    _above(pen, frame, reply)
    words_end = _running(pen, frame, _depths(frame.shape, reply))
    words_end = max(words_end, _between(pen, frame, _lengths(frame.shape, reply)))
    level = max(frame.lowest, words_end) + _BELOW
    _below(pen, frame, reply, level)
    return _scale(pen, frame, reply, level + _BELOW)


def _above(pen: Pen, frame: Frame, reply: Mapping[str, Any]) -> None:
    shape, depths = frame.shape, reply["depths"]
    sink = f"Ø{plain(depths['countersink_diameter'])} × {plain(depths['countersink_angle'])}°"
    sink += " both faces" if shape.both_sides else ""
    rows = [("countersink", shape.countersink_mm, sink), ("major", shape.major_mm, reply["thread"]["designation"])]
    if shape.floor_mm:
        rows.append(("counterbore", shape.bore_mm, f"Ø{plain(depths['counterbore_diameter'])} counterbore"))
    rows.sort(key=lambda row: -row[1])  # the wider one lies nearer, so that nothing runs through its words
    for level, (name, diameter, words) in enumerate(rows, start=1):
        height = frame.top - level * _LEVEL_ABOVE
        for side in (-1, 1):
            foot = frame.at(diameter, 0.0 if name == "counterbore" else shape.floor_mm, side)
            pen.line("extension", foot, (foot[0], height - 1.2), kind="dimension")
        _diameter(pen, frame, name, diameter, height, words)


def _below(pen: Pen, frame: Frame, reply: Mapping[str, Any], level: float) -> None:
    shape = frame.shape
    for side in (-1, 1):
        foot = frame.at(shape.drill_mm, shape.far_edge_mm if shape.through else shape.drill_depth_mm, side)
        pen.line("extension", foot, (foot[0], level + 1.2), kind="dimension")
    words = f"Ø{plain(drilled_diameter(reply))} {drill_name(reply)}".rstrip()
    _diameter(pen, frame, "drill", shape.drill_mm, level, words)


def _diameter(pen: Pen, frame: Frame, name: str, diameter: float, height: float, words: str) -> None:
    """A dimension across, its words to the right of it."""
    left, right = frame.x(diameter, -1), frame.x(diameter, 1)
    pen.dimension(name, (left, height), (right, height))
    beyond = right + (2 * ARROW if right - left < 3 * ARROW else _ELBOW)
    pen.line("extension", (right, height), (beyond, height), kind="dimension")
    pen.text(words, (beyond + _GAP, height + _TO_MIDDLE))


def drill_name(reply: Mapping[str, Any]) -> str:
    """What makes the hole, as the drawing names it."""
    choice = reply["drill"]
    if choice is None:
        return "no drill planned"
    if choice["ream_diameter"]:
        return "reamed"
    best = choice["recommended"]
    own = f"{plain(best['diameter'])} {reply['units']['length']}"
    return "drill" if best["label"] == own else f"drill {best['label']}"


def _depths(shape: HoleShape, reply: Mapping[str, Any]) -> list[Row]:
    """What is counted from the face: name, from, to, words; the shallowest first."""
    depths = reply["depths"]
    rows = [("full-thread", 0.0, shape.full_thread_mm, f"{plain(depths['full_thread_depth'])} full thread")]
    if shape.floor_mm:
        rows.append(("counterbore-depth", 0.0, shape.floor_mm, f"{plain(depths['counterbore_depth'])} counterbore"))
    if not shape.through:
        rows.append(("drill-depth", 0.0, shape.drill_depth_mm, f"{plain(depths['drill_depth'])} drill"))
        if shape.tip_mm > shape.drill_depth_mm:
            rows.append(("drill-tip", 0.0, shape.tip_mm, f"{plain(depths['drill_tip_depth'])} to tip"))
    if shape.thickness_mm is not None:
        wall = shape.thickness_mm / (25.4 if reply["units"]["length"] == "in" else 1)
        rows.append(("thickness", 0.0, shape.thickness_mm, f"{plain(wall)} thick"))
    return sorted(rows, key=lambda row: row[2])


def room_beside(shape: HoleShape, reply: Mapping[str, Any]) -> float:
    """Room that the words on the left of the section need."""
    words = [width_of(row[3]) for row in _lengths(shape, reply)]
    return max(words) + _BESIDE + _ELBOW + _GAP if words else 0.0


def _lengths(shape: HoleShape, reply: Mapping[str, Any]) -> list[Row]:
    """What lies between two depths."""
    if shape.through:
        return []
    rows: list[Row] = []
    if shape.thread_end_mm > shape.full_thread_mm:
        words = f"{plain(run_out(shape, reply))} run-out"
        rows.append(("run-out", shape.full_thread_mm, shape.thread_end_mm, words))
    left = reply["depths"]["wall_left"]
    if shape.thickness_mm is not None and left is not None and left > 0:
        rows.append(("wall-left", shape.tip_mm, shape.thickness_mm, f"{plain(left)} wall left"))
    return rows


def run_out(shape: HoleShape, reply: Mapping[str, Any]) -> float:
    """Length of the run-out in the reply's unit, as it is printed."""
    if not reply["thread"]["taper"]:
        return float(reply["depths"]["chamfer_length"])
    return round(shape.run_out_mm / 25.4, 3) if reply["units"]["length"] == "in" else round(shape.run_out_mm, 2)


def _running(pen: Pen, frame: Frame, rows: Sequence[Row]) -> float:
    """Depths along one line from the face; where their words end."""
    along = frame.right + _BESIDE
    pen.line("extension", (frame.right, frame.top), (along + 1.5, frame.top), kind="dimension")
    pen.arrow((along, frame.top), (0.0, 1.0))
    levels = _levels([frame.y(row[2]) for row in rows], frame.top + LETTER)
    for (name, above, below, words), level in zip(rows, levels, strict=True):
        end = frame.y(below)
        pen.line(f"dim-{name}", (along, frame.y(above)), (along, end), kind="dimension")
        pen.arrow((along, end), (0.0, -1.0))
        start = (_extends_from(frame, below), end)
        beyond = (along + _ELBOW / 2, end)
        pen.line("extension", start, beyond, (along + 1.5 * _ELBOW, level), kind="dimension")
        pen.text(words, (along + 1.5 * _ELBOW + _GAP, level + _TO_MIDDLE))
    return levels[-1] + LETTER / 2


def _extends_from(frame: Frame, depth: float, side: int = 1) -> float:
    """Where the extension line of a depth begins: at the thread, the tip, or the edge of the part."""
    shape = frame.shape
    if depth == shape.thickness_mm:
        return frame.right if side > 0 else frame.left
    if depth == shape.floor_mm:
        return frame.x(shape.bore_mm, side)
    return frame.x(0 if depth == shape.tip_mm else shape.major_mm, side)


def _between(pen: Pen, frame: Frame, rows: Sequence[Row]) -> float:
    """Lengths on the left, their words beside them; where the words end."""
    along = frame.left - _BESIDE
    levels = _levels([(frame.y(row[1]) + frame.y(row[2])) / 2 for row in rows], frame.top)
    for (name, above, below, words), level in zip(rows, levels, strict=True):
        for depth in (above, below):
            start = (_extends_from(frame, depth, -1), frame.y(depth))
            pen.line("extension", start, (along - 1.0, frame.y(depth)), kind="dimension")
        pen.dimension(name, (along, frame.y(above)), (along, frame.y(below)))
        middle = (frame.y(above) + frame.y(below)) / 2
        pen.line("extension", (along, middle), (along - _ELBOW, level), kind="dimension")
        pen.text(words, (along - _ELBOW - _GAP, level + _TO_MIDDLE), anchor="end")
    return levels[-1] + LETTER / 2 if levels else 0.0


def _levels(wanted: Sequence[float], least: float) -> list[float]:
    """Heights of words: as wanted, pushed apart where they are too near each other."""
    found: list[float] = []
    for level in wanted:
        found.append(max(level, found[-1] + _APART if found else least))
    return found


def _scale(pen: Pen, frame: Frame, reply: Mapping[str, Any], level: float) -> float:
    """The scale in words, and a bar that stays true when the drawing is shown smaller; where they end."""
    unit = reply["units"]["length"]
    mm, lengths = _SCALE_BARS[unit]
    length = next((one for one in lengths if one * mm * frame.scale <= _LONGEST_BAR), lengths[-1])
    end = _BAR_AT + length * mm * frame.scale
    pen.line("scale-bar", (_BAR_AT, level), (end, level), kind="dimension")
    for x in (_BAR_AT, end):
        pen.line("scale-bar-end", (x, level - _BAR_TICK), (x, level + _BAR_TICK), kind="dimension")
    name = f"{frame.scale:g}:1" if frame.scale >= 1 else f"1:{1 / frame.scale:g}"
    pen.text(f"{length:g} {unit} · Scale {name}", (end + 2 * _GAP, level + _TO_MIDDLE))
    return level + LETTER


def widest(pen: Pen) -> float:
    """How far words reach to the right."""
    return max(one.at[0] + width_of(one.text, one.size) for one in pen.words if one.anchor == "start")
