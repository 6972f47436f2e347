"""The sheet: a full section of the hole to scale (ISO 5455), dimensioned, with its notes below."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from borewright.core.plan.specification import Specification

from . import dimensions, hole, remarks, svg
from .figures import plain
from .frame import Frame
from .geometry import HoleShape, drilled_diameter, hole_shape
from .pen import Pen

#: A hand's breadth: what a telephone shows legibly, and what leaves room beside it on a printed page.
_LEAST_WIDTH, _EDGE = 100.0, 2.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing ready for any format; ``section_high`` is where the section ends and the notes begin."""

    pen: Pen
    frame: Frame
    width: float
    height: float
    section_high: float


def made(spec: Specification, reply: Mapping[str, Any]) -> Sheet:
    """The drawing of a specification.

    Args: ``reply`` is the reply to POST /v1/hole-specs of the same specification: its figures are the dimensions.
    """
    shape = hole_shape(spec, reply)
    frame, pen = Frame(shape, dimensions.room_beside(shape, reply)), Pen()
    hole.draw(pen, frame)
    section_high = dimensions.draw(pen, frame, reply)
    width = max(_LEAST_WIDTH, dimensions.widest(pen) + _EDGE)
    height = remarks.draw(pen, shape, reply, below=section_high, width=width)
    return Sheet(pen, frame, width, height, section_high)


def section_drawing(spec: Specification, reply: Mapping[str, Any]) -> bytes:
    """The drawing of a specification, as SVG in UTF-8; arguments as :func:`made`."""
    sheet = made(spec, reply)
    return svg.document(
        sheet.pen,
        size=(sheet.width, sheet.height),
        title=f"Section of tapped hole {reply['thread']['designation']}",
        description=_in_words(sheet.frame.shape, reply),
        attributes={
            "data-scale": f"{sheet.frame.scale:g}",
            "data-unit": "mm",
            "data-section-height": svg.number(sheet.section_high),
        },
    ).encode()


def _in_words(shape: HoleShape, reply: Mapping[str, Any]) -> str:
    depths, unit = reply["depths"], reply["units"]["length"]
    said = [
        f"Section through the axis of a {'through' if shape.through else 'blind'} hole tapped"
        f" {reply['thread']['designation']}.",
        f"Hole {dimensions.drill_name(reply)}, diameter {plain(drilled_diameter(reply))} {unit}.",
        f"Full thread {plain(depths['full_thread_depth'])} {unit} deep.",
    ]
    if not shape.through:
        said.append(
            f"Drilled {plain(depths['drill_depth'])} {unit} deep at full diameter,"
            f" {plain(depths['drill_tip_depth'])} {unit} to the tip of the {shape.point_deg:g} degree point;"
            f" run-out {plain(dimensions.run_out(shape, reply))} {unit}."
        )
    if shape.floor_mm:
        wide, deep = plain(depths["counterbore_diameter"]), plain(depths["counterbore_depth"])
        said.append(f"Counterbore diameter {wide} {unit}, {deep} {unit} deep; the countersink lies at its floor.")
    said.append(
        f"Countersink diameter {plain(depths['countersink_diameter'])} {unit}, {depths['countersink_angle']} degrees"
        f"{', on both faces' if shape.both_sides else ''}."
    )
    if depths["wall_left"] is not None:
        said.append(f"Wall left under the tip {plain(depths['wall_left'])} {unit}.")
    return " ".join(said)
