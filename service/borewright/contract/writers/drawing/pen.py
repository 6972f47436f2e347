"""What a drawing is made of, before any format: lines of the kinds of ISO 128, cut areas, arrows and words.

Lengths are millimetres of paper, x to the right and y down. Words are kept apart from lines, so that each format can
draw them last, and :func:`width_of` tells how much room they take, so that no line need run through them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

Point = tuple[float, float]
#: Kinds of line of ISO 128: wide and narrow continuous, long-dashed dotted for axes, dashed where the part breaks off.
Kind = Literal["wide", "narrow", "dimension", "centre", "break"]
Anchor = Literal["start", "middle", "end"]

WIDTHS_MM: dict[Kind, float] = {"wide": 0.6, "narrow": 0.25, "dimension": 0.25, "centre": 0.25, "break": 0.25}
DASHES: dict[Kind, str] = {"centre": "6 1 1 1", "break": "6 1.2"}
LETTER, SMALL = 3.2, 2.6
ARROW, ARROW_HALF = 2.0, 0.4
#: Widths of letters of a sans-serif face as parts of their size, rounded up: narrow signs, wide ones, capitals, others.
_NARROW, _WIDE = frozenset(" .,:;/|-'()[]fijlrtI°·"), frozenset("mwMW%@Ø×")


def width_of(words: str, size: float = LETTER) -> float:
    """Room that words take at most."""
    parts = (0.36 if sign in _NARROW else 0.95 if sign in _WIDE else 0.74 if sign.isupper() else 0.57 for sign in words)
    return sum(parts) * size


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points; ``part`` says what it shows."""

    part: str
    points: tuple[Point, ...]
    kind: Kind


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text; ``at`` is on its base line."""

    text: str
    at: Point
    anchor: Anchor
    size: float
    note: bool


@dataclass(slots=True)
class Pen:
    """Collects what one drawing is made of."""

    lines: list[Line] = field(default_factory=list)
    cut: list[tuple[Point, ...]] = field(default_factory=list)
    arrows: list[tuple[Point, Point, Point]] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)

    def line(self, part: str, *points: Point, kind: Kind = "narrow") -> None:
        """A line through points."""
        self.lines.append(Line(part, points, kind))

    def hatching(self, points: Iterable[Point]) -> None:
        """An area of cut material."""
        self.cut.append(tuple(points))

    def text(self, text: str, at: Point, *, anchor: Anchor = "start", size: float = LETTER, note: bool = False) -> None:
        """Words on a base line; a note belongs to the sheet, not to the section."""
        self.words.append(Words(text, at, anchor, size, note))

    def dimension(self, part: str, start: Point, end: Point) -> None:
        """A dimension line with arrows at both ends; where it is short they stand outside and point inwards."""
        self.line(f"dim-{part}", start, end, kind="dimension")
        way = _unit(start, end)
        outside = _length(start, end) < 3 * ARROW
        for tip, (x, y) in ((start, way), (end, (-way[0], -way[1]))):
            towards = (-x, -y) if outside else (x, y)
            self.arrow(tip, towards)
            if outside:
                self.line("extension", tip, (tip[0] - x * 2 * ARROW, tip[1] - y * 2 * ARROW), kind="dimension")

    def arrow(self, tip: Point, away: Point) -> None:
        """The head of an arrow whose shaft leaves the tip in the direction ``away``, of length 1."""
        x, y = away
        foot = (tip[0] + x * ARROW, tip[1] + y * ARROW)
        side = (-y * ARROW_HALF, x * ARROW_HALF)
        self.arrows.append((tip, (foot[0] + side[0], foot[1] + side[1]), (foot[0] - side[0], foot[1] - side[1])))


def _length(start: Point, end: Point) -> float:
    return float(((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5)


def _unit(start: Point, end: Point) -> Point:
    long = _length(start, end) or 1.0
    return (end[0] - start[0]) / long, (end[1] - start[1]) / long
