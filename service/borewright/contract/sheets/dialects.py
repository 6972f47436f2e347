"""How a text file of a sheet is cut into cells: what parts them, and whether a comma is a decimal one."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable
from typing import NamedTuple

from . import headings

_SAID = re.compile(r'"?sep=(.)"?[,;\t]*', re.IGNORECASE)
_DELIMITERS = (",", ";", "\t")


class Dialect(NamedTuple):
    """What parts the cells of a row."""

    delimiter: str

    @property
    def decimal_comma(self) -> bool:
        """Whether a comma in a figure is a decimal one: where semicolons part the cells nothing else is meant."""
        return self.delimiter == ";"


def said(line: str) -> Dialect | None:
    """What a first line ``sep=;`` says, None where it is no such line."""
    found = _SAID.fullmatch(line.strip("\r\n "))
    return Dialect(found[1]) if found and found[1] in _DELIMITERS else None


def of_head(line: str, columns: Iterable[str]) -> Dialect:
    """What parts the cells of a head: that with which most of them name a column."""
    names = frozenset(columns)

    def named(delimiter: str) -> int:
        try:
            return headings.recognised(next(csv.reader([line], delimiter=delimiter), []), names)
        except csv.Error:
            return 0

    return Dialect(max(_DELIMITERS, key=named))
