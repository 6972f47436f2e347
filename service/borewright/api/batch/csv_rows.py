"""Rows of a CSV upload as texts: UTF-8 or UTF-16, with commas, semicolons or tabs, as spreadsheets save them."""

from __future__ import annotations

import codecs
import csv
from collections.abc import Iterable, Iterator
from itertools import chain

from borewright.api.problems import Refusal
from borewright.contract.sheets import dialects
from borewright.contract.sheets.dialects import Dialect

from .lines import LONGEST_LINE, Broken

Cells = list[str]
#: Empty lines in a row that are read; no cell has so many.
_MOST_EMPTY = 1000
#: Empty lines before the head.
_MOST_BEFORE = 100


def in_utf_8(blocks: Iterable[bytes]) -> Iterator[bytes]:
    """The blocks of a text in UTF-8; one in UTF-16 is known by its mark, or by the zeros of its first letter.

    Raises: Broken where UTF-16 ends within a letter.
    """
    waiting = iter(blocks)
    first = b""
    while len(first) < 2 and (block := next(waiting, b"")):
        first += block
    if (encoding := _utf_16(first[:2])) is None:
        yield first
        yield from waiting
        return
    decoder = codecs.getincrementaldecoder(encoding)("surrogatepass")
    for block in chain((first,), waiting):
        yield decoder.decode(block).encode("utf-8", "surrogatepass")  # half a letter makes its row unreadable
    try:
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        raise Broken("the text in UTF-16 ends within a letter") from None


def _utf_16(first: bytes) -> str | None:
    if first in (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE):
        return "utf-16"
    if len(first) == 2 and 0 in first:
        return "utf-16-le" if first[1] == 0 else "utf-16-be"
    return None


class CsvRows:
    """The rows of a CSV, each with its number as a spreadsheet counts them; a Refusal where one cannot be read.

    Args: ``lines`` of the upload in UTF-8, None for one that was too long; ``columns`` that a head may name.
    """

    def __init__(self, lines: Iterator[bytes | None], columns: Iterable[str]) -> None:
        self._texts = _Texts(lines)
        self.dialect, self._skipped = self._begin(columns)

    def _begin(self, columns: Iterable[str]) -> tuple[Dialect, int]:
        """The dialect, and how many lines stand before the head."""
        for skipped in range(_MOST_BEFORE):
            line = self._first_text()
            if (dialect := dialects.said(line)) is not None:
                return dialect, skipped + 1
            if line.strip():
                self._texts.put_back(line)
                return dialects.of_head(line, columns), skipped
        raise Refusal("csv_unreadable", f"The first {_MOST_BEFORE} lines are empty.")

    def _first_text(self) -> str:
        try:
            return next(self._texts)
        except StopIteration:
            raise Refusal("csv_unreadable", "The CSV has no head of column names.") from None
        except (csv.Error, UnicodeDecodeError) as error:
            raise _unreadable(error) from None

    def __iter__(self) -> Iterator[tuple[int, Cells | Refusal]]:
        """Number and cells of each row, the head first."""
        reader = csv.reader(self._texts, strict=True, delimiter=self.dialect.delimiter)
        number = self._skipped
        while True:
            number += 1
            try:
                yield number, next(reader)
            except StopIteration:
                return
            except (csv.Error, UnicodeDecodeError) as error:
                yield number, _unreadable(error)


def _unreadable(error: Exception) -> Refusal:
    return Refusal("csv_unreadable", f"The row cannot be read as CSV in UTF-8: {error}.")


class _Texts:
    """Lines as texts. An iterator that goes on after an error, which a generator cannot."""

    def __init__(self, lines: Iterator[bytes | None]) -> None:
        self._lines, self._first, self._empty = lines, True, 0
        self._back: str | None = None

    def __iter__(self) -> _Texts:
        return self

    def put_back(self, text: str) -> None:
        """The next line is this one."""
        self._back = text

    def __next__(self) -> str:
        if self._back is not None:
            text, self._back = self._back, None
            return text
        line = self._next_line()
        if line is None:
            raise csv.Error(f"the line is longer than {LONGEST_LINE} bytes")
        text = line.decode("utf-8-sig" if self._first else "utf-8")
        self._first = False
        return text + "\n"

    def _next_line(self) -> bytes | None:
        """The next line; of many empty ones in a row only the first are looked at, whether or not a cell is open."""
        line = next(self._lines)
        while line == b"" and self._empty >= _MOST_EMPTY:
            line = next(self._lines)
        self._empty = self._empty + 1 if line == b"" else 0
        return line
