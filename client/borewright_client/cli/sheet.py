"""A sheet of text: a title, sections with a quiet heading, names in one column, figures flush right."""

from __future__ import annotations

import os
import shutil
import sys
import textwrap
from collections.abc import Iterable, Sequence
from typing import IO, Any, NamedTuple

_WIDEST = 100
_INDENT = "  "

Row = tuple[str, str]


class Paint(NamedTuple):
    """Whether colours are shown; the words are the same without them."""

    colours: bool = False

    def head(self, text: str) -> str:
        """A title or a heading."""
        return self._in("1", text)

    def faint(self, text: str) -> str:
        """What explains a figure."""
        return self._in("2", text)

    def warn(self, text: str) -> str:
        """What can cost money or hurt people."""
        return self._in("33", text)

    def bad(self, text: str) -> str:
        """What is wrong."""
        return self._in("31", text)

    def good(self, text: str) -> str:
        """What is as it should be."""
        return self._in("32", text)

    def _in(self, code: str, text: str) -> str:
        return f"\x1b[{code}m{text}\x1b[0m" if self.colours and text else text


def paint_for(stream: IO[str]) -> Paint:
    """Colours where ``stream`` is a terminal that shows them and nobody has set NO_COLOR."""
    return Paint(stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb")


class Sheet:
    """Lines in the order they are added; no line is wider than the terminal where words can be broken."""

    def __init__(self, paint: Paint | None = None) -> None:
        self.paint = paint or Paint()
        self._lines: list[str] = []
        self._width = min(_WIDEST, shutil.get_terminal_size((_WIDEST, 24)).columns) if sys.stdout.isatty() else _WIDEST

    def __str__(self) -> str:
        """The whole sheet."""
        return "\n".join(self._lines)

    def title(self, text: str, *beneath: str) -> None:
        """What the sheet is about, and lines that say more of it."""
        self._lines.append(self.paint.head(text))
        for line in filter(None, beneath):
            self._lines += [self.paint.faint(part) for part in textwrap.wrap(line, self._width)]

    def heading(self, text: str) -> None:
        """A section begins."""
        self._lines += ["", self.paint.head(text)]

    def rows(self, rows: Iterable[Row], paint: Any = None) -> None:
        """Names in one column, what they are in the next; an empty name goes on with the one before."""
        listed = list(rows)
        width = max((len(name) for name, _ in listed), default=0)
        for name, text in listed:
            first = f"{_INDENT}{name:<{width}}  " if width else _INDENT
            lines = textwrap.wrap(text, max(self._width - len(first), 30)) or [""]
            shown = [paint(line) for line in lines] if paint else lines
            self._lines.append((first + shown[0]).rstrip())
            self._lines += [" " * len(first) + line for line in shown[1:]]

    def table(self, heading: str, heads: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
        """A section of figures, flush right under the heads of their columns; the first cell of a row is its name."""
        listed = list(rows)
        if not listed:
            return
        names = [f"{_INDENT}{row[0]}" for row in listed]
        first = max(len(heading), *map(len, names))
        widths = [max(len(head), *(len(row[at]) for row in listed)) for at, head in enumerate(heads, 1)]
        titles = "".join(f"  {head:>{width}}" for head, width in zip(heads, widths, strict=True))
        self._lines += ["", self.paint.head(heading) + " " * (first - len(heading)) + self.paint.faint(titles)]
        for name, row in zip(names, listed, strict=True):
            cells = "".join(f"  {cell:>{width}}" for cell, width in zip(row[1:], widths, strict=True))
            self._lines.append(f"{name:<{first}}{cells}".rstrip())

    def columns(self, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """A list as wide as it needs to be, flush left."""
        widths = [max(len(head), *(len(row[at]) for row in rows)) for at, head in enumerate(heads)]
        self._lines.append(self.paint.head(_line(heads, widths)))
        self._lines += [_line(row, widths) for row in rows]


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True)).rstrip()
