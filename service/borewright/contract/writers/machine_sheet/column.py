"""A column of a page that is filled with words from the top: measured, wrapped, written as SVG.

Lengths are millimetres of paper, x to the right and y down; letters are measured as the printer sets them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.sax.saxutils import escape

from borewright.contract.writers.drawing.svg import number

FACE = "Arial"
_POINT_MM = 25.4 / 72
#: From one base line to the next, and from the top of a line to its base line, as parts of the size.
_LINE, _BASE = 1.22, 0.95
#: Letters are measured at this size, so that no hinting rounds them.
_MEASURED_AT = 1000
_UNPRINTABLE = re.compile("[^\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Column:
    """Words that follow each other down the page; ``y`` is where the next ones begin.

    Args: ``left``, ``top`` and ``width`` in millimetres; ``zoom`` what all sizes of letters are multiplied by.
    """

    def __init__(self, left: float, top: float, width: float, letters: Letters, zoom: float) -> None:
        self.left, self.y, self.width, self._letters, self._zoom = left, top, width, letters, zoom
        self.pieces: list[str] = []

    def text(self, words: str, points: float, *, bold: bool = False, hang: str = "", indent: float = 0) -> None:
        """Words of a size in points, wrapped; ``hang`` stands before them, in the room that ``indent`` leaves."""
        size = points * _POINT_MM * self._zoom
        if hang:
            self._line(hang, self.left, self.y + size * _BASE, size, bold=False)
        for line in self._letters.wrapped(words, self.width - indent, size, bold=bold):
            self._line(line, self.left + indent, self.y + size * _BASE, size, bold=bold)
            self.y += size * _LINE

    def rule(self, weight: float) -> None:
        """A line across the column."""
        self.pieces.append(
            f'<path d="M{number(self.left)} {number(self.y)}h{number(self.width)}" stroke="#000"'
            f' stroke-width="{number(weight)}"/>'
        )

    def gap(self, room: float) -> None:
        """Leave room, in millimetres."""
        self.y += room * self._zoom

    def _line(self, words: str, x: float, y: float, size: float, *, bold: bool) -> None:
        weight = ' font-weight="bold"' if bold else ""
        said = escape(_UNPRINTABLE.sub("\ufffd", words))
        self.pieces.append(f'<text x="{number(x)}" y="{number(y)}" font-size="{number(size)}"{weight}>{said}</text>')


class Letters:
    """Tells how much room words take; each sheet has its own, for what measures is not shared between threads."""

    def __init__(self) -> None:
        import cairocffi  # comes with what prints

        context = cairocffi.Context(cairocffi.PDFSurface(None, 1, 1))
        context.set_font_size(_MEASURED_AT)
        self._context: Any = context
        self._weights = {False: cairocffi.FONT_WEIGHT_NORMAL, True: cairocffi.FONT_WEIGHT_BOLD}

    def wrapped(self, words: str, width: float, size: float, *, bold: bool) -> Iterator[str]:
        """The words in lines of a width; a no-break space breaks nothing, a word that is too long is cut."""
        self._context.select_font_face(FACE, weight=self._weights[bold])
        room, line = width / size * _MEASURED_AT, ""
        for word in words.split(" "):
            longer = f"{line} {word}" if line else word
            if self._width(longer) <= room:
                line = longer
                continue
            if line:
                yield line
            *full, line = self._cut(word, room)
            yield from full
        yield line

    def _cut(self, word: str, room: float) -> list[str]:
        """A word in pieces that fit; one letter always does."""
        pieces = [""]
        for letter in word:
            if pieces[-1] and self._width(pieces[-1] + letter) > room:
                pieces.append("")
            pieces[-1] += letter
        return pieces

    def _width(self, words: str) -> float:
        advance: float = self._context.text_extents(words)[4]
        return advance
