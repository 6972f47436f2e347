"""A sheet of text: a title, sections with a quiet heading, names in one column, figures flush right."""

from __future__ import annotations

import os
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterable, Sequence
from typing import IO, NamedTuple

_WIDEST = 100
#: Columns of a screen that a sheet for one screen has.
WIDTH = 80
_INDENT = "  "
#: Names of rows are not broken to less.
_NARROWEST = 14

Row = tuple[str, str]


Brush = Callable[[str], str]


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


def verdict_brush(paint: Paint, verdict: str) -> Brush:
    """The colour of a verdict on a hole."""
    return {"ready": paint.good, "infeasible": paint.bad}.get(verdict, paint.warn)


def paint_for(stream: IO[str]) -> Paint:
    """Colours where ``stream`` is a terminal that shows them and nobody has set NO_COLOR."""
    return Paint(stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb")


class Sheet:
    """Lines in the order they are added; no line is wider than the terminal where words can be broken."""

    def __init__(self, paint: Paint | None = None, widest: int = _WIDEST) -> None:
        self.paint = paint or Paint()
        self._lines: list[str] = []
        self.width = min(widest, shutil.get_terminal_size((widest, 24)).columns) if sys.stdout.isatty() else widest

    def __len__(self) -> int:
        """How many lines there are."""
        return len(self._lines)

    def __str__(self) -> str:
        """The whole sheet."""
        return "\n".join(self._lines)

    def title(self, text: str, *beneath: str) -> None:
        """What the sheet is about, and lines that say more of it."""
        self._lines.append(self.paint.head(text))
        for line in filter(None, beneath):
            self._lines += [self.paint.faint(part) for part in textwrap.wrap(line, self.width)]

    def add(self, other: Sheet) -> None:
        """The lines of another sheet."""
        self._lines += other._lines

    def remark(self, *texts: str) -> None:
        """Quiet lines at the end."""
        self._lines += ["", *(self.paint.faint(text) for text in texts)]

    def heading(self, text: str) -> None:
        """A section begins."""
        self._lines += ["", self.paint.head(text)]

    def rows(self, rows: Iterable[Row], paint: Brush | None = None) -> None:
        """Names in one column, what they are in the next; an empty name goes on with the one before."""
        listed = list(rows)
        width = max((len(name) for name, _ in listed), default=0)
        for name, text in listed:
            first = f"{_INDENT}{name:<{width}}  " if width else _INDENT
            lines = textwrap.wrap(text, max(self.width - len(first), 30)) or [""]
            shown = [paint(line) for line in lines] if paint else lines
            self._lines.append((first + shown[0]).rstrip())
            self._lines += [" " * len(first) + line for line in shown[1:]]

    def table(self, heading: str, heads: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
        """A section of figures, flush right under the heads of their columns; the first cell of a row is its name.

        Where the sheet is too narrow, heads are broken at their blanks, then names.
        """
        listed = list(rows)
        if not listed:
            return
        columns = [[row[at] for row in listed] for at in range(1, len(heads) + 1)]
        first = max(len(heading), *(len(_INDENT + row[0]) for row in listed))
        widths = [max(len(head), *map(len, cells)) for head, cells in zip(heads, columns, strict=True)]
        if first + sum(widths) + 2 * len(widths) > self.width:
            widths = [max(len(part) for part in (*head.split(), *cells))
                      for head, cells in zip(heads, columns, strict=True)]  # fmt: skip
            first = max(_NARROWEST, min(first, self.width - sum(widths) - 2 * len(widths)))
        broken = [textwrap.wrap(head, width or 1) or [""] for head, width in zip(heads, widths, strict=True)]
        self._lines.append("")
        for at in reversed(range(max(map(len, broken)))):
            titles = [lines[-1 - at] if at < len(lines) else "" for lines in broken]
            name = "" if at else heading
            line = self.paint.head(name) + " " * (first - len(name)) + self.paint.faint(_cells(titles, widths))
            self._lines.append(line.rstrip())
        for name, *cells in listed:
            names = _names(name, first)
            self._lines += names[:-1]
            self._lines.append(f"{names[-1]:<{first}}{_cells(cells, widths)}".rstrip())

    def holds(self, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> bool:
        """Whether a list fits the terminal; where it goes elsewhere it may be as wide as it is."""
        widths = [max(len(head), *(len(row[at]) for row in rows)) for at, head in enumerate(heads)]
        return not sys.stdout.isatty() or sum(widths) + 2 * len(widths) - 2 <= self.width

    def columns(self, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """A list as wide as it needs to be, flush left."""
        widths = [max(len(head), *(len(row[at]) for row in rows)) for at, head in enumerate(heads)]
        self._lines.append(self.paint.head(_line(heads, widths)))
        self._lines += [_line(row, widths) for row in rows]


def _cells(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "".join(f"  {cell:>{width}}" for cell, width in zip(cells, widths, strict=True))


def _names(name: str, width: int) -> list[str]:
    """A name of a row, over as many lines as it needs; blanks at its beginning are kept."""
    indent = _INDENT + " " * (len(name) - len(name.lstrip()))
    return textwrap.wrap(name.strip(), width, initial_indent=indent, subsequent_indent=f"{indent}  ") or [""]


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(f"{cell:<{width}}" for cell, width in zip(cells, widths, strict=True)).rstrip()
