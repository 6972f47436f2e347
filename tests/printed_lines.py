"""The straight lines of a page of a PDF, for tests that measure what is printed."""

from __future__ import annotations

from itertools import pairwise

_INCH_MM = 25.4


def lines_mm(page):
    """Lengths of the straight lines that a page draws, by the transformation in force."""
    found, points = [], []

    def seen(operator, operands, matrix, _):
        if operator in (b"m", b"l"):
            x, y = map(float, operands)
            a, b, c, d, e, f = matrix
            point = (a * x + c * y + e, b * x + d * y + f)
            points[:] = [point] if operator == b"m" else [*points, point]
        elif operator in (b"S", b"s"):
            found.extend(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 for (x1, y1), (x2, y2) in pairwise(points))

    page.extract_text(visitor_operand_before=seen)
    return [length / 72 * _INCH_MM for length in found]
