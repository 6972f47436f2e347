"""A drawing as SVG: presentation attributes only, no style sheet and no script, so that a strict page can show it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from xml.sax.saxutils import escape, quoteattr
from zlib import crc32

from .pen import DASHES, WIDTHS_MM, Line, Pen, Point, Words

_HATCH_APART = 3.0


def number(value: float) -> str:
    """A coordinate with micrometres of the paper, without trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def document(pen: Pen, *, size: Point, title: str, description: str, attributes: Mapping[str, str]) -> str:
    """The whole document; words come last, notes in a group of their own."""
    said = "".join(f" {name}={quoteattr(value)}" for name, value in attributes.items())
    wide, high = number(size[0]), number(size[1])
    section = [_text(one) for one in pen.words if not one.note]
    notes = [_text(one) for one in pen.words if one.note]
    parts = [
        *map(_hatching, pen.cut),
        *map(_line, pen.lines),
        *(f'<polygon points="{_points(points)}" fill="#000"/>' for points in pen.arrows),
        *section,
        f'<g data-part="notes">{"".join(notes)}</g>',
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"'
        f' role="img" aria-labelledby="section-title section-text" font-family="Arial, sans-serif"{said}>'
        f'<title id="section-title">{escape(title)}</title><desc id="section-text">{escape(description)}</desc>'
        f'<rect width="{wide}" height="{high}" fill="#fff"/>{"".join(parts)}</svg>\n'
    )


def _line(line: Line) -> str:
    dashes = f' stroke-dasharray="{DASHES[line.kind]}"' if line.kind in DASHES else ""
    look = f'stroke="#000" stroke-width="{WIDTHS_MM[line.kind]}"{dashes}'
    if len(line.points) > 2:
        points = _points(line.points)
        return f'<polyline data-part="{line.part}" points="{points}" fill="none" {look} stroke-linejoin="round"/>'
    (x1, y1), (x2, y2) = line.points
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f'<line data-part="{line.part}" {ends} {look}/>'


def _hatching(points: tuple[Point, ...]) -> str:
    """Cut material: narrow lines at 45 degrees, real lines, so that no printer greys them."""
    name = f"section-cut-{crc32(_points(points).encode()):x}"  # several drawings may stand on one page
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    top, bottom = min(y for _, y in points), max(y for _, y in points)
    high = bottom - top
    count = int((right - left + high) / _HATCH_APART)
    feet = (left - high + (one + 0.5) * _HATCH_APART for one in range(count + 1))
    lines = "".join(f"M{_points([(foot, bottom)])} L{_points([(foot + high, top)])}" for foot in feet)
    return (
        f'<clipPath id="{name}"><polygon data-part="section-cut" points="{_points(points)}"/></clipPath>'
        f'<path data-part="hatching" d="{lines}" clip-path="url(#{name})" fill="none" stroke="#000"'
        f' stroke-width="{WIDTHS_MM["narrow"]}"/>'
    )


def _text(words: Words) -> str:
    x, y = words.at
    return (
        f'<text x="{number(x)}" y="{number(y)}" font-size="{number(words.size)}" text-anchor="{words.anchor}">'
        f"{escape(words.text)}</text>"
    )


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)
