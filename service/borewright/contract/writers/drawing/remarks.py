"""Notes below the section: what the hole is called, its tap, finish, sizes to tap and finished, and what governs."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from .figures import plain, window
from .geometry import HoleShape
from .pen import SMALL, Pen

_AT, _LINE = 4.0, SMALL * 1.5
_LETTER = SMALL * 0.53
_FIGURES = {"in": "inches", "mm": "millimetres"}


def draw(pen: Pen, shape: HoleShape, reply: Mapping[str, Any], *, below: float, width: float) -> float:
    """Write the notes within a width; where they end."""
    letters = int((width - _AT) / _LETTER)
    height = below + 2 * _LINE
    for remark in _remarks(shape, reply):
        for line in textwrap.wrap(remark, letters):
            pen.text(line, (_AT, height), size=SMALL, note=True)
            height += _LINE
    return height


def _remarks(shape: HoleShape, reply: Mapping[str, Any]) -> Iterator[str]:
    yield " · ".join(part for part in (reply["id"], reply["thread"]["designation"]) if part)
    if reply["verdict"] == "infeasible":
        yield "NOT TO BE MADE as it stands: see what is to be decided."
    yield f"Tap: {reply['headline']['tap']}."
    if reply["finish"] is not None:
        finish = reply["finish"]["finish"]
        name = " ".join(part for part in (finish["specification"], finish["class"]) if part)
        yield f"Finish: {name or finish['process']}, {finish['applied'].replace('_', ' ')}."
    yield from _taper(reply) if reply["thread"]["taper"] else _limits(reply)
    yield from _spotface(reply["depths"])
    if reply["depths"]["breakthrough"] is not None:
        yield f"Drill point travels {plain(reply['depths']['breakthrough'])} beyond the far face."
    point = f" · drill point {shape.point_deg:g}°"
    yield f"Dimensions in {_FIGURES[reply['units']['length']]}{point}"
    yield "Sizes are those to be machined; the part drawing and its standards govern."


def _spotface(depths: Mapping[str, Any]) -> Iterator[str]:
    if "counterbore_diameter" in depths and "counterbore_depth" not in depths:
        yield f"Spotface Ø{plain(depths['counterbore_diameter'])}, until the face is clean."


def _limits(reply: Mapping[str, Any]) -> Iterator[str]:
    """What the tap must make, and the finished part where it differs."""
    purpose, unit = reply["limits"], reply["units"]["length"]
    same = purpose["to_tap"] == purpose["finished"]
    sets = [("to tap and finished" if same else "to tap", purpose["to_tap"])]
    if not same:
        sets.append(("finished", purpose["finished"]))
    for name, limits in sets:
        pitch, minor = (window(limits, diameter, unit) for diameter in ("pitch_diameter", "minor_diameter"))
        yield f"Pitch diameter {name}: {pitch}; minor {minor}."
    if not same:
        now = "to tap" if purpose["gauge_now"] == "to_tap" else "finished"
        yield f"Gauge after tapping by the limits {now}."


def _taper(reply: Mapping[str, Any]) -> Iterator[str]:
    yield f"Taper 1:{1 / reply['thread']['taper']:g} on the diameter, drawn true; sizes at the face."
    if reply["tap"] is not None:
        yield f"Tap to its gauge line, tip {plain(reply['depths']['tap_travel'])} past the face."
    yield f"Gauge of the finished thread: {reply['thread']['pipe']['gauge']}."
