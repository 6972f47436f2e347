"""SVG elements as text: lines of the widths of ISO 128, letters, dimensions with arrows. Lengths are paper millimetres.

Presentation attributes only, no style sheet and no script: a page with a strict content policy can show the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]

WIDE, NARROW = 0.6, 0.25
LETTER = 3.2
_ARROW, _ARROW_HALF = 2.4, 0.45
_WIDTH_OF_LETTER = 0.58
_HATCH_APART = 3.4


def number(value: float) -> str:
    """A coordinate with micrometres of the paper, without trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def has_room(words: str, length: float) -> bool:
    """Whether words of the usual size stand within a length."""
    return len(words) * LETTER * _WIDTH_OF_LETTER < length


@dataclass(slots=True)
class Pen:
    """Collects the elements of one drawing."""

    parts: list[str] = field(default_factory=list)

    def line(self, name: str, start: Point, end: Point, *, width: float = NARROW, dash: str | None = None) -> None:
        """A straight line; ``name`` says what it shows."""
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        self.parts.append(
            f'<line data-part="{name}" x1="{number(start[0])}" y1="{number(start[1])}" x2="{number(end[0])}"'
            f' y2="{number(end[1])}" stroke="#000" stroke-width="{width}"{dashes}/>'
        )

    def path(self, name: str, points: Sequence[Point], *, width: float = NARROW) -> None:
        """A line through points."""
        self.parts.append(
            f'<polyline data-part="{name}" points="{_points(points)}" fill="none" stroke="#000" stroke-width="{width}"'
            f' stroke-linejoin="round"/>'
        )

    def hatching(self, points: Sequence[Point]) -> None:
        """An area of cut material: narrow lines at 45 degrees, real lines, so that no printer greys them."""
        name = f"section-cut-{len(self.parts)}"
        left, right = min(x for x, _ in points), max(x for x, _ in points)
        top, bottom = min(y for _, y in points), max(y for _, y in points)
        high = bottom - top
        count = int((right - left + high) / _HATCH_APART)
        feet = (left - high + (one + 0.5) * _HATCH_APART for one in range(count + 1))
        lines = "".join(f"M{_points([(foot, bottom)])} L{_points([(foot + high, top)])}" for foot in feet)
        self.parts.append(
            f'<clipPath id="{name}"><polygon data-part="section-cut" points="{_points(points)}"/></clipPath>'
            f'<path data-part="hatching" d="{lines}" clip-path="url(#{name})" fill="none" stroke="#000"'
            f' stroke-width="{NARROW}"/>'
        )

    def text(
        self, words: str, at: Point, *, anchor: str = "middle", upright: bool = True, size: float = LETTER
    ) -> None:
        """Letters, on a white ground so that no line runs through them."""
        wide = len(words) * size * _WIDTH_OF_LETTER
        left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        turn = "" if upright else f' transform="rotate(-90 {number(at[0])} {number(at[1])})"'
        self.parts.append(
            f'<g{turn}><rect x="{number(left - 0.4)}" y="{number(at[1] - size * 0.82)}" width="{number(wide + 0.8)}"'
            f' height="{number(size * 1.05)}" fill="#fff"/><text x="{number(at[0])}" y="{number(at[1])}"'
            f' font-size="{number(size)}" text-anchor="{anchor}">{escape(words)}</text></g>'
        )

    def dimension(self, name: str, start: Point, end: Point, words: str) -> None:
        """A vertical dimension; what has no room between its ends stands outside: arrows, and words above."""
        self.line(f"dim-{name}", start, end)
        outside = abs(end[1] - start[1]) < 3 * _ARROW
        self._arrow(start, up=not outside)
        self._arrow(end, up=outside)
        if outside:
            self.line("extension", (start[0], start[1] - 2 * _ARROW), start)
            self.line("extension", end, (end[0], end[1] + 2 * _ARROW))
        if has_room(words, end[1] - start[1]):
            self.text(words, (start[0] - 1.0, (start[1] + end[1]) / 2), upright=False)
        else:
            self.text(words, (start[0] - 1.0, start[1] - 1.0), anchor="start", upright=False)

    def diameter(self, name: str, start: Point, end: Point, words: str, *, words_at: float) -> None:
        """A horizontal dimension whose words stand to the left of it, at ``words_at``."""
        self.line(f"dim-{name}", start, end)
        outside = end[0] - start[0] < 3 * _ARROW
        self._sideways(start, left=not outside)
        self._sideways(end, left=outside)
        if outside:
            self.line("extension", end, (end[0] + 2 * _ARROW, end[1]))
        self.line("extension", (words_at, start[1]), start)
        self.text(words, (words_at, start[1] - 1.0), anchor="start")

    def _arrow(self, tip: Point, *, up: bool) -> None:
        way = _ARROW if up else -_ARROW
        self._head((tip, (tip[0] - _ARROW_HALF, tip[1] + way), (tip[0] + _ARROW_HALF, tip[1] + way)))

    def _sideways(self, tip: Point, *, left: bool) -> None:
        way = _ARROW if left else -_ARROW
        self._head((tip, (tip[0] + way, tip[1] - _ARROW_HALF), (tip[0] + way, tip[1] + _ARROW_HALF)))

    def _head(self, points: Iterable[Point]) -> None:
        self.parts.append(f'<polygon points="{_points(points)}" fill="#000"/>')

    def document(self, *, size: Point, title: str, description: str, attributes: dict[str, str]) -> str:
        """The whole SVG document."""
        said = "".join(f" {name}={quoteattr(value)}" for name, value in attributes.items())
        wide, high = number(size[0]), number(size[1])
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"'
            f' role="img" aria-labelledby="section-title section-text" font-family="Arial, sans-serif"{said}>'
            f'<title id="section-title">{escape(title)}</title><desc id="section-text">{escape(description)}</desc>'
            f'<rect width="{wide}" height="{high}" fill="#fff"/>{"".join(self.parts)}</svg>\n'
        )


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)
