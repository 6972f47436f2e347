"""Section drawings as DXF, by ezdxf where it is installed (`pip install borewright[print]`).

Model space holds the hole in its true size, in the unit of the reply, the centre of the entry face at the origin; the
layers are named by the line kinds of ISO 128-2.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from importlib import import_module
from typing import Any, NamedTuple

from .pen import Kind, Point
from .sheet import Sheet

_MM = {"in": 25.4, "mm": 1.0}
#: Codes of $INSUNITS.
_UNITS = {"in": 1, "mm": 4}
_VERSION = "R2010"
_HATCH_MM = 3.0
_LINE_OF_ANSI31_MM = 3.175


class Layer(NamedTuple):
    """Number of the line kind in ISO 128-2 with its use, line type, and weight in hundredths of a millimetre."""

    name: str
    linetype: str
    weight: int


LAYERS: dict[Kind, Layer] = {
    "wide": Layer("01.2 visible edges", "CONTINUOUS", 60),
    "narrow": Layer("01.1 thread roots", "CONTINUOUS", 25),
    "dimension": Layer("01.1 dimensions", "CONTINUOUS", 25),
    "centre": Layer("04.1 centre lines", "CENTER", 25),
    "break": Layer("02.1 broken edges", "DASHED", 25),
}
HATCHING, TEXT = Layer("01.1 hatching", "CONTINUOUS", 25), Layer("text", "CONTINUOUS", 25)


def dxf(sheet: Sheet, unit: str) -> bytes:
    """The drawing as ASCII DXF, the same bytes for the same drawing; ``unit`` is that of the reply."""
    library: Any = import_module("ezdxf")  # who wants no DXF does without
    library.options.write_fixed_meta_data_for_testing = True  # no clock and no random name in the file
    made = library.new(_VERSION, setup=["linetypes"])
    made.header["$INSUNITS"] = _UNITS[unit]
    for layer in (*LAYERS.values(), HATCHING, TEXT):
        made.layers.add(layer.name, linetype=layer.linetype, lineweight=layer.weight)
    _Model(sheet, unit, made.modelspace()).draw()
    out = io.StringIO()
    made.write(out)
    return out.getvalue().encode()


class _Model:
    """Model space: paper brought to true size, y upwards."""

    def __init__(self, sheet: Sheet, unit: str, space: Any) -> None:
        self.sheet, self.space = sheet, space
        self.true = 1 / (sheet.frame.scale * _MM[unit])

    def draw(self) -> None:
        pen = self.sheet.pen
        for points in pen.cut:
            pattern = self.space.add_hatch(dxfattribs={"layer": HATCHING.name})
            pattern.set_pattern_fill("ANSI31", scale=_HATCH_MM / _LINE_OF_ANSI31_MM * self.true)
            pattern.paths.add_polyline_path(self._all(points), is_closed=True)
        for line in pen.lines:
            self.space.add_lwpolyline(self._all(line.points), dxfattribs={"layer": LAYERS[line.kind].name})
        for arrow in pen.arrows:
            self.space.add_solid(self._all(arrow), dxfattribs={"layer": LAYERS["dimension"].name})
        for words in pen.words:
            self._write(words.text, words.at, words.size, right=words.anchor == "end")

    def _write(self, words: str, at: Point, size: float, *, right: bool) -> None:
        from ezdxf.enums import TextEntityAlignment

        text = self.space.add_text(words, height=size * self.true, dxfattribs={"layer": TEXT.name})
        align = TextEntityAlignment.RIGHT if right else TextEntityAlignment.LEFT
        text.set_placement(self._one(at), align=align)

    def _one(self, point: Point) -> Point:
        frame = self.sheet.frame
        return (point[0] - frame.axis) * self.true, (frame.y(0) - point[1]) * self.true

    def _all(self, points: Iterable[Point]) -> list[Point]:
        return [self._one(point) for point in points]
